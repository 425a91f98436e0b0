"""How long seed takes to come up: the catalogue's table by temperature, and the days by the warmth of the soil."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import dates as dates_of
from making import catalogue_of, crop

from planner.crops import Series, load_catalogue
from planner.garden import Climate
from planner.season.emergence import emergence, emergence_outdoors
from planner.season.usual_weather import SOIL_OVER_AIR, UsualWeather, weather_of

D = dt.date
TABLE = Series(at=((5, 42), (10, 17), (15, 10), (20, 6)), source="x")
LOW = (0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6)
HIGH = (6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7)


def weather(low: tuple[float, ...], high: tuple[float, ...]) -> UsualWeather:
    found = weather_of(Climate(monthly_minimum=low, monthly_maximum=high), 56.0, False)
    assert found is not None
    return found


def soil_of(degrees: float) -> UsualWeather:
    """Weather in which the soil is so warm all year."""
    return weather((degrees - SOIL_OVER_AIR,) * 12, (degrees - SOIL_OVER_AIR,) * 12)


def test_between_the_temperatures_of_the_table_days_are_interpolated():
    assert emergence(TABLE, 12.5) == pytest.approx(13.5)
    assert emergence(TABLE, 3) == 42
    assert emergence(TABLE, 30) == 6
    assert emergence(TABLE, None) is None
    assert emergence(None, 12.5) is None


@pytest.mark.parametrize(("degrees", "days"), TABLE.at)
def test_in_soil_of_one_temperature_it_takes_the_days_of_the_table(degrees, days):
    assert emergence_outdoors(TABLE, soil_of(degrees), D(2026, 4, 1)) == days


@pytest.mark.parametrize(("days", "found"), [(4.0, 4), (2.0, 2), (0.6, 1), (0.0, 1)])
def test_seed_that_comes_up_within_days_takes_a_day_at_least(days, found):
    assert emergence_outdoors(Series(at=((20, days),), source="x"), soil_of(20), D(2026, 6, 1)) == found


def test_seed_comes_up_later_in_the_cold_of_spring():
    by_month = [
        emergence_outdoors(TABLE, weather(LOW, HIGH), D(2026, month, 1)) for month in (2, 3, 4, 5, 6, 7)
    ]
    assert None not in by_month
    assert by_month == sorted(by_month, reverse=True)
    assert by_month[0] > 2 * by_month[-1]


def test_it_counts_each_day_by_its_soil():
    """The share of each day added up by hand."""
    place = weather(LOW, HIGH)
    days = emergence_outdoors(TABLE, place, D(2026, 3, 20))
    shares = [1 / emergence(TABLE, place.soil_on(D(2026, 3, 20) + dt.timedelta(days=i))) for i in range(days)]
    assert sum(shares) >= 1 - 1e-9 > sum(shares[:-1])


def test_film_warms_the_soil_and_seed_comes_up_sooner():
    place = weather(LOW, HIGH)
    film = UsualWeather(place.low, place.high, place.sun, rough=False, soil=place.soil + 3.0)
    assert emergence_outdoors(TABLE, film, D(2026, 3, 20)) < emergence_outdoors(TABLE, place, D(2026, 3, 20))


def test_without_a_table_or_temperatures_the_usual_days_hold():
    found = dates_of(
        "slow", shelf=catalogue_of(crop("slow", days_to_maturity=60)), start="sown", first=D(2026, 5, 1)
    )
    assert (found.emerge.day, found.emerge.why) == (D(2026, 5, 11), "About 10 days")
    assert emergence_outdoors(TABLE, None, D(2026, 4, 1)) is None
    assert emergence_outdoors(None, soil_of(10), D(2026, 4, 1)) is None


def test_indoors_it_comes_up_at_twenty_degrees():
    lettuce = load_catalogue().crops["lettuce"]
    found = dates_of("lettuce", shelf=load_catalogue(), start="raised", first=D(2026, 5, 1))
    days = emergence(lettuce.emergence_days, 20.0)
    assert days is not None
    assert (found.emerge.day - found.sow.day).days == round(days)


def test_what_is_bought_or_found_grown_does_not_come_up():
    found = dates_of("lettuce", shelf=load_catalogue(), start="bought", first=D(2026, 5, 1))
    assert found.emerge is None
