"""Frost dates of a growing year, north and south, and what is refused."""

from __future__ import annotations

import datetime as dt

import pytest

from planner.garden import Climate, FrostDates, Garden, Site
from planner.garden import edits as e
from planner.season.frosts import climate_doubts, day_in, frosts, shift, zone_minimum

D = dt.date
SPRING = FrostDates(risk_10="05-24", risk_50="05-06", risk_90="04-18")
AUTUMN = FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06")
NORTH = Climate(last_frost=SPRING, first_frost=AUTUMN)
SOUTH = Climate(
    last_frost=FrostDates(risk_10="11-10", risk_50="10-12", risk_90="09-14"),
    first_frost=FrostDates(risk_10="04-02", risk_50="04-25", risk_90="05-18"),
)


@pytest.mark.parametrize(
    ("risk", "last", "first"),
    [
        (10, D(2026, 5, 24), D(2026, 9, 27)),
        (50, D(2026, 5, 6), D(2026, 10, 17)),
        (90, D(2026, 4, 18), D(2026, 11, 6)),
    ],
)
def test_the_chosen_risk_picks_the_frosts(risk, last, first):
    found = frosts(Site(latitude=56), NORTH.with_(risk=risk), 2026)
    assert (found.last, found.first, found.autumn) == (last, first, first)


def test_southern_spring_comes_in_september_and_autumn_after_new_year():
    found = frosts(Site(latitude=-41), SOUTH, 2026)
    assert (found.last, found.first) == (D(2026, 10, 12), D(2027, 4, 25))
    january = frosts(Site(latitude=-41, first_month=1), SOUTH, 2026)
    assert (january.last, january.first, january.autumn) == (D(2026, 10, 12), D(2027, 4, 25), D(2026, 4, 25))


def test_the_29th_of_february_is_the_28th_in_a_common_year():
    assert day_in("02-29", 2026) == D(2026, 2, 28)
    assert day_in("02-29", 2028) == D(2028, 2, 29)
    leap = FrostDates(risk_10="03-20", risk_50="02-29", risk_90="02-01")
    assert frosts(Site(), Climate(last_frost=leap), 2027).last == D(2027, 2, 28)


def test_a_place_without_frost_has_no_frost_dates():
    found = frosts(Site(latitude=10), Climate(frost_free=True), 2026)
    assert (found.last, found.first, found.frost_free) == (None, None, True)


@pytest.mark.parametrize("latitude", [90.0, 78.2, -89.9])
def test_places_inside_the_polar_circle_have_frost_dates_too(latitude):
    short = Climate(
        last_frost=FrostDates(risk_10="07-25", risk_50="07-14", risk_90="07-01"),
        first_frost=FrostDates(risk_10="07-28", risk_50="08-04", risk_90="08-15"),
    )
    found = frosts(Site(latitude=latitude, first_month=1), short, 2026)
    assert (found.last, found.first) == (D(2026, 7, 14), D(2026, 8, 4))
    assert climate_doubts(Site(latitude=latitude), short)


def test_risks_in_the_wrong_order_are_refused_in_words():
    with pytest.raises(
        e.EditError, match=r"last frost dates are in the wrong order: 05-24 at 90 % risk must not come"
    ):
        e.change_climate(Garden(), last_frost=FrostDates(risk_10="04-18", risk_50="05-06", risk_90="05-24"))
    with pytest.raises(e.EditError, match=r"first frost dates are in the wrong order: 11-06 at 10 % risk"):
        e.change_climate(Garden(), first_frost=FrostDates(risk_10="11-06", risk_50="10-17", risk_90="09-27"))


def test_risks_may_run_over_new_year():
    mild = FrostDates(risk_10="12-20", risk_50="01-10", risk_90="02-01")
    assert Climate(first_frost=mild).first_frost is mild


def test_no_frost_and_frost_dates_do_not_go_together():
    with pytest.raises(e.EditError, match="said to have no frost, yet frost dates are given"):
        e.change_climate(Garden(climate=NORTH), frost_free=True)


def test_swapped_hemispheres_are_pointed_out():
    assert climate_doubts(Site(latitude=56), NORTH) == ()
    assert climate_doubts(Site(latitude=-41), SOUTH) == ()
    assert "look swapped" in climate_doubts(Site(latitude=56), SOUTH)[0]
    assert "degrees south" in climate_doubts(Site(latitude=-56), NORTH)[0]


def test_means_of_a_month_the_wrong_way_round_are_refused():
    low = tuple(float(m) for m in range(12))
    with pytest.raises(ValueError, match="mean minimum 11 of month 12 is above its mean maximum 10"):
        Climate(monthly_minimum=low, monthly_maximum=(*low[:-1], 10.0))


def test_days_stay_within_the_calendar():
    assert shift(dt.date.max, 10_000) == D(9998, 12, 31)
    assert shift(dt.date.min, -10_000) == D(2, 1, 1)


@pytest.mark.parametrize(
    ("zone", "fahrenheit"), [("8b", 20), ("8a", 15), ("8", 20), (" 5B ", -10), ("1a", -55), ("13b", 70)]
)
def test_the_warmer_bound_of_a_hardiness_zone(zone, fahrenheit):
    """Half zones are 5 F wide, from 1a (-60 to -55 F) to 13b (65 to 70 F) (USDA Plant Hardiness Zone Map 2023)."""
    assert zone_minimum(zone) == pytest.approx((fahrenheit - 32) / 1.8)


@pytest.mark.parametrize("zone", ["", "0", "14", "8c", "b8"])
def test_what_is_no_zone_has_no_bound(zone):
    assert zone_minimum(zone) is None
