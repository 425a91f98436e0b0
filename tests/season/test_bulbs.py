"""Harvests by the length of the day: short days of autumn, cloves, bulbs from sets."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting
from planner.season.day_length import ripens_in_short_days

from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Site
from planner.plan import Plan
from planner.season.planting_dates import Dates

D = dt.date
NORTH = Climate(
    last_frost=FrostDates(risk_10="05-20", risk_50="05-10", risk_90="05-01"),
    first_frost=FrostDates(risk_10="09-28", risk_50="10-08", risk_90="10-18"),
)


@pytest.mark.parametrize(
    ("on", "harvest", "southern", "short"),
    [
        (D(2026, 6, 21), D(2026, 9, 22), False, True),
        (D(2026, 6, 20), D(2026, 9, 22), False, False),
        (D(2026, 6, 21), D(2026, 9, 21), False, False),
        (D(2026, 12, 21), D(2027, 3, 21), True, True),
        (D(2026, 12, 20), D(2027, 3, 21), True, False),
        (D(2026, 12, 21), D(2027, 3, 20), True, False),
        (D(2027, 1, 6), D(2027, 4, 1), False, True),
        (D(2027, 1, 8), D(2027, 4, 1), False, False),
    ],
)
def test_days_are_short_from_the_equinox_for_what_is_started_after_the_longest_day(
    on, harvest, southern, short
):
    """The longest day of the 200 days before the start counts: of winter starts, the one of the year before."""
    assert ripens_in_short_days(on, harvest, southern) == short


def garlic(first: dt.date, site: Site | None = None, climate: Climate = NORTH) -> Dates:
    one = planting(crop="garlic", year=first.year, first=first)
    made: Garden = garden(bed(), one, climate=climate, site=site or Site(latitude=56))
    return Plan(made, first.year, load_catalogue()).dates(one)


def test_cloves_of_spring_ripen_soon_after_those_of_autumn():
    autumn = garlic(D(2025, 10, 15)).first_harvest.day
    spring = garlic(D(2026, 3, 10)).first_harvest.day
    assert autumn == D(2026, 7, 5)
    assert dt.timedelta(days=7) <= spring - autumn <= dt.timedelta(days=28)


def test_cloves_of_late_spring_have_their_days_and_a_doubt():
    found = garlic(D(2026, 5, 10))
    assert found.first_harvest.day == D(2026, 8, 8)
    assert any("bulbs stay small" in doubt for doubt in found.doubts)


def test_in_the_south_the_longest_day_is_in_december():
    south = Climate(
        last_frost=FrostDates(risk_10="10-20", risk_50="10-10", risk_90="10-01"),
        first_frost=FrostDates(risk_10="04-28", risk_50="05-08", risk_90="05-18"),
    )
    found = garlic(D(2026, 9, 1), Site(latitude=-41), south)
    assert D(2027, 1, 1) < found.first_harvest.day < D(2027, 3, 15)


def test_onions_from_sets_of_autumn_wait_for_long_days():
    south = Climate(
        last_frost=FrostDates(risk_10="10-20", risk_50="09-10", risk_90="09-01"),
        first_frost=FrostDates(risk_10="05-18", risk_50="06-10", risk_90="06-28"),
    )
    one = planting(crop="onion", start="sets", year=2025, first=D(2026, 3, 20))
    made = garden(bed(), one, climate=south, site=Site(latitude=-38))
    found = Plan(made, 2025, load_catalogue()).dates(one)
    assert D(2026, 11, 20) < found.first_harvest.day < D(2027, 1, 20)


def test_cloves_are_ripe_ten_weeks_after_a_late_last_frost():
    """25 days before the longest day is 27 May; 70 days after a frost on 10 May is 19 July, which is later."""
    assert garlic(D(2025, 11, 20)).first_harvest.day == D(2026, 7, 19)
    early = NORTH.with_(last_frost=FrostDates(risk_10="03-10", risk_50="03-01", risk_90="02-20"))
    assert garlic(D(2025, 11, 20), climate=early).first_harvest.day == D(2026, 5, 27)


def test_cloves_of_spring_follow_those_that_their_autumn_window_would_have_given():
    """Planted in autumn they would be ripe as early as its window and their days say; two weeks are added."""
    garlic_crop = load_catalogue().crops["garlic"]
    autumn = D(2025, 10, 8) + dt.timedelta(days=7 * garlic_crop.number("autumn_from") + garlic_crop.number("days_to_maturity"))  # fmt: skip
    assert autumn < D(2026, 7, 19)
    assert garlic(D(2026, 3, 1)).first_harvest.day == autumn + dt.timedelta(days=14)


#: A climate whose first frost comes so late that sets of early autumn grow on.
MILD = NORTH.with_(
    last_frost=FrostDates(risk_10="03-20", risk_50="03-10", risk_90="03-01"),
    first_frost=FrostDates(risk_10="12-01", risk_50="12-20", risk_90="12-28"),
)


@pytest.mark.parametrize(
    ("first", "waits"),
    [(D(2025, 9, 1), True), (D(2025, 10, 20), True), (D(2026, 2, 12), False), (D(2026, 3, 1), False)],
)
def test_onion_sets_whose_days_end_more_than_ninety_days_before_midsummer_wait_for_it(first, waits):
    one = planting(crop="onion", start="sets", year=first.year, first=first)
    place = garden(bed(), one, climate=MILD, site=Site(latitude=52))
    found = Plan(place, first.year, load_catalogue()).dates(one).first_harvest
    assert found is not None
    if waits:
        assert (found.day, found.why) == (D(2026, 6, 21), "When the days are long again")
    else:
        assert "days after setting out" in found.why
