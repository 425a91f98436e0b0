"""Bulbs, which wait for long days and then ripen by warmth."""

from __future__ import annotations

import csv
import datetime as dt
import re
from pathlib import Path

import numpy as np
import pytest
from calendar_cases import read_places
from dated_plantings import D, context_at, dates, steady
from making import catalogue_of, crop

from planner.crops import load_catalogue
from planner.crops.growing_places import shipped_places
from planner.garden import Climate, FrostDates, Site
from planner.season import practice
from planner.season.bulbs import swells_in_long_days
from planner.season.planting_dates import Dates
from planner.sun import day_lengths

DAY = dt.timedelta(days=1)
TABLE = Path(__file__).parents[1] / "reference" / "day_length_and_bolting.csv"
#: Every day 14 to 24 degrees: 9 degree-days over 10. [deg C]
WARM = steady(14.0, 24.0)
OVER_TEN = {
    "base_temperature": 10,
    "best_temperature": 35,
    "ceiling_temperature": 45,
    "slows_in_short_days": {"value": False, "source": "practice"},
}


def bulb(first: dt.date, latitude: float, climate: Climate = WARM, **figures) -> dt.date:
    """First harvest of a bulb that needs 900 degree-days, planted as sets."""
    one = crop(
        "bulb",
        hardiness="very hardy",
        days_to_maturity=100,
        heat_to_harvest=900,
        harvest_days=14,
        **OVER_TEN,
        **figures,
    )
    found = dates(
        "bulb", climate, catalogue_of(one), site=Site(latitude=latitude), start="sets", first=first
    ).first_harvest
    assert found is not None
    return found.day


def long_from(latitude: float, hours: float, after: dt.date) -> dt.date:
    """The first day so long, by hand from the length of days."""
    lengths = day_lengths(latitude)
    return next(
        after + i * DAY for i in range(366) if lengths[(after + i * DAY).timetuple().tm_yday - 1] >= hours
    )


def test_where_days_never_are_long_enough_warmth_alone_counts():
    """At 10 degrees no day has 14 hours; 900 degree-days at 9 a day."""
    assert day_lengths(10.0).max() < 14
    assert bulb(D(2026, 3, 1), 10.0, day_length_to_bulb=14) == D(2026, 3, 1) + 100 * DAY
    assert bulb(D(2026, 3, 1), 45.0) == D(2026, 3, 1) + 100 * DAY, "a bulb that waits for nothing"


@pytest.mark.parametrize("latitude", [40.0, 50.0, 58.0])
def test_planted_in_autumn_it_waits_for_long_days_whatever_warmth_it_had(latitude):
    found = bulb(D(2026, 9, 20), latitude, day_length_to_bulb=14)
    swells = long_from(latitude, 14, D(2027, 1, 1))
    assert found > D(2026, 9, 20) + 100 * DAY
    assert swells < found <= swells + 100 * DAY


def test_the_farther_north_the_sooner_the_days_are_long():
    days = [bulb(D(2026, 10, 10), latitude, day_length_to_bulb=14) for latitude in (40.0, 46.0, 52.0, 58.0)]
    assert days == sorted(days, reverse=True)


def hours_of_class(name: str) -> float:
    with TABLE.open(encoding="utf-8", newline="") as file:
        (row,) = (row for row in csv.DictReader(file) if row["kind"] == f"Onion, {name} class")
    return float(np.mean([float(hours) for hours in re.findall(r"\d+", row["class_or_value"])]))


def test_short_day_onions_ripen_before_intermediate_and_long_day_ones():
    """Their hours are those that Oregon State University prints (2006): 11 to 13, 13 to 14, 14 or more."""
    hours = [hours_of_class(name) for name in ("short day", "intermediate", "long day")]
    assert hours == [12.0, 13.5, 14.0]
    days = [bulb(D(2026, 10, 10), 48.0, day_length_to_bulb=each) for each in hours]
    assert days[0] < days[1] < days[2]


def test_set_when_days_are_long_it_has_no_more_than_its_warmth():
    found = bulb(D(2026, 5, 20), 50.0, day_length_to_bulb=14)
    assert D(2026, 5, 20) < found <= D(2026, 5, 20) + 100 * DAY


def test_in_the_south_long_days_come_in_spring_of_the_south():
    frosts = {
        "last_frost": FrostDates(risk_10="10-20", risk_50="10-10", risk_90="10-01"),
        "first_frost": FrostDates(risk_10="04-28", risk_50="05-08", risk_90="05-18"),
    }
    north, south = (
        bulb(first, latitude, climate, day_length_to_bulb=14)
        for first, latitude, climate in (
            (D(2026, 10, 10), 45.0, WARM),
            (D(2026, 4, 10), -45.0, steady(14.0, 24.0, WARM.with_(**frosts))),
        )
    )
    assert (
        abs((north - D(2026, 10, 10)) - (south - D(2026, 4, 10))) <= 6 * DAY
    )  # half-years have other lengths


# -- of the catalogue -----------------------------------------------------------------------------


def of_catalogue(key: str, place: str, first: dt.date, start: str = "sets") -> Dates:
    site, climate = read_places()[place]
    return dates(key, climate, load_catalogue(), site=site, start=start, first=first, year=first.year)


def test_onions_shallots_and_garlic_wait_for_long_days_and_leeks_do_not():
    crops = load_catalogue().crops
    waits = {key for key, one in crops.items() if swells_in_long_days(context_at(one))}
    assert {"onion", "shallot", "garlic"} <= waits
    assert not {"leek", "spring_onion", "chives", "carrot"} & waits


@pytest.mark.parametrize(("key", "start"), [("onion", "sets"), ("garlic", "cloves")])
def test_planted_where_its_days_were_counted_it_takes_them(key, start):
    one = load_catalogue().crops[key]
    place = shipped_places().measured_at(one.days_to_maturity.source)
    climate = Climate(
        monthly_minimum=place.monthly_minimum,
        monthly_maximum=place.monthly_maximum,
        last_frost=FrostDates(risk_50=place.last_frost),
        first_frost=FrostDates(risk_50=place.first_frost),
    )
    if place.cool_start:
        first = dt.date.fromisoformat(f"2026-{place.cool_start}")
    else:
        first = (
            dt.date.fromisoformat(f"2026-{place.last_frost}") + (7 * one.number("set_out_from") + 21) * DAY
        )
    found = dates(
        key, climate, load_catalogue(), site=Site(latitude=place.latitude), start=start, first=first
    )
    assert abs((found.first_harvest.day - first).days - one.number("days_to_maturity")) <= 2


@pytest.mark.parametrize("place", ["Kent", "Hamburg", "Ames IA"])
def test_cloves_of_autumn_are_ripe_before_those_of_spring_by_weeks_and_not_months(place):
    autumn = of_catalogue("garlic", place, D(2025, 10, 15), "cloves").first_harvest.day
    spring = of_catalogue("garlic", place, D(2026, 3, 10), "cloves").first_harvest.day
    assert D(2026, 6, 1) <= autumn <= D(2026, 8, 20)
    assert 0 * DAY <= spring - autumn <= 45 * DAY


@pytest.mark.parametrize("place", ["Kent", "Hamburg"])
def test_weeks_between_plantings_of_autumn_are_fewer_at_harvest(place):
    """Winter gives less warmth than early summer: six weeks are two thirds of that at most."""
    early, late = (
        of_catalogue("garlic", place, first, "cloves").first_harvest.day
        for first in (D(2025, 10, 5), D(2025, 11, 16))
    )
    assert 0 * DAY <= late - early <= 28 * DAY


@pytest.mark.parametrize("place", ["Kent", "Hamburg", "Ames IA"])
def test_onions_from_sets_of_autumn_are_lifted_before_those_of_spring(place):
    autumn = of_catalogue("onion", place, D(2025, 10, 1)).first_harvest.day
    spring = of_catalogue("onion", place, D(2026, 3, 25)).first_harvest.day
    assert D(2026, 5, 15) < autumn <= spring < D(2026, 9, 15)


def test_onions_of_the_south_are_lifted_about_midsummer():
    found = of_catalogue("onion", "Christchurch NZ", D(2026, 8, 20))
    assert D(2026, 12, 15) < found.first_harvest.day < D(2027, 3, 1)


def test_cloves_of_late_spring_that_ripen_soon_have_a_doubt():
    """Less than 90 days are little for a bulb."""
    assert practice.SPRING_CLOVES == 90
    for place, first, small in (
        ("Ames IA", D(2026, 5, 20), True),
        ("Athens GA", D(2026, 4, 20), True),
        ("Ames IA", D(2026, 4, 20), False),
        ("Kent", D(2025, 10, 15), False),
    ):
        found = of_catalogue("garlic", place, first, "cloves")
        assert ((found.first_harvest.day - first).days < 90) == small
        assert any("bulbs stay small" in doubt for doubt in found.doubts) == small


def test_only_cloves_are_told_to_stay_small():
    assert not any(
        "bulbs stay small" in doubt for doubt in of_catalogue("onion", "Athens GA", D(2026, 5, 20)).doubts
    )


@pytest.mark.parametrize("place", ["Kent", "Hamburg", "Ames IA"])
def test_tulips_which_have_no_window_in_spring_flower_in_the_spring_after_they_are_planted(place):
    assert load_catalogue().crops["tulip"].number("set_out_from") is None
    flowers = of_catalogue("tulip", place, D(2025, 10, 25), "sets").first_harvest.day
    assert D(2026, 4, 1) <= flowers <= D(2026, 5, 31)
