"""The usual weather: light in short days, covers, sums over years, north and south."""

from __future__ import annotations

import csv
import datetime as dt
import re
from pathlib import Path

import numpy as np
import pytest
from calendar_cases import read_places

from planner.crops.cover_effects import KINDS, effect, together
from planner.garden import Climate, FrostDates
from planner.season.temperatures import USUAL_LATITUDE
from planner.season.thermal_time import Response, degree_days
from planner.season.usual_weather import (
    LEAST_DAY,
    MAINE,
    SOIL_OVER_AIR,
    YEARS,
    UsualWeather,
    sun_of_year,
    weather_of,
)

D = dt.date
TABLE = Path(__file__).parents[1] / "reference" / "day_length_and_bolting.csv"
COOL, WARM = Response(4.0, 20.0, 35.0), Response(10.0, 26.0, 40.0)
FROSTS = {
    "last_frost": FrostDates(risk_10="05-20", risk_50="05-10", risk_90="05-01"),
    "first_frost": FrostDates(risk_10="09-28", risk_50="10-08", risk_90="10-18"),
}


def at(place: str) -> UsualWeather:
    site, climate = read_places()[place]
    found = weather_of(climate, site.latitude, site.latitude < 0)
    assert found is not None
    return found


def mirrored(climate: Climate) -> Climate:
    """The same months half a year later."""
    low, high = climate.monthly_minimum, climate.monthly_maximum
    assert low is not None
    assert high is not None
    return climate.with_(monthly_minimum=(*low[6:], *low[:6]), monthly_maximum=(*high[6:], *high[:6]))


# -- light ----------------------------------------------------------------------------------------


def ten_hour_rows() -> dict[str, str]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return {
            row["topic"]: row["class_or_value"] for row in csv.DictReader(file) if "10-hour" in row["topic"]
        }


def test_growth_stands_still_on_the_days_that_the_rule_prints():
    """Coleman 2009, The Winter Harvest Handbook: at Harborside in Maine from 5 November to 5 February."""
    rows = ten_hour_rows()
    assert rows["10-hour rule, Harborside Maine (44.4 N)"] == "below 10 h 5 Nov to 5 Feb"
    assert float(re.findall(r"\d+", rows["10-hour rule"])[0]) == LEAST_DAY
    light = sun_of_year(MAINE).light
    still = np.flatnonzero(light < 0.02)
    first, last = (
        D(2000, 1, 1) + dt.timedelta(days=int(day)) for day in (still[still > 183][0], still[still < 183][-1])
    )
    assert abs((first - D(2000, 11, 5)).days) <= 3
    assert abs((last - D(2000, 2, 5)).days) <= 3


def test_at_salinas_the_still_days_lie_within_the_printed_ones():
    """McCollum, UC ANR 2014: below ten hours from 24 November to 17 January at 36.7 degrees; its sun is higher than Maine's."""
    sun = sun_of_year(36.7)
    still = np.flatnonzero(sun.light < 0.02)
    assert still[still > 183][0] >= 328
    assert still[still < 183].max(initial=0) <= 16
    assert len(still) < 30 < np.count_nonzero(sun_of_year(MAINE).light < 0.02)


def test_south_of_32_degrees_growth_never_stands_still():
    assert ten_hour_rows()["10-hour rule, limit"] == "no such period south of 32 N"
    for latitude in (31.9, 25.0, 10.0, 0.0, -20.0, -31.9):
        assert sun_of_year(latitude).light.min() > 0.25, latitude
    assert sun_of_year(20.0).light.min() > 0.99


def test_the_farther_from_the_equator_the_darker_is_the_winter():
    by_latitude = [sun_of_year(latitude).light[355] for latitude in (25.0, 30.0, 34.0, 38.0, 42.0)]
    assert by_latitude == sorted(by_latitude, reverse=True)
    for latitude in (45.0, 52.0, 60.0):
        assert sun_of_year(latitude).light[355] == 0.0
        assert sun_of_year(latitude).light[172] == 1.0


def test_light_grows_from_the_shortest_day_to_the_longest():
    for latitude in (36.0, 44.4, 56.0):
        light = sun_of_year(latitude).light
        assert (np.diff(light[0:172]) >= -1e-9).all()
        assert (np.diff(light[173:354]) <= 1e-9).all()
        assert light.min() >= 0.0
        assert light.max() <= 1.0


# -- sums -----------------------------------------------------------------------------------------


def test_sums_run_on_over_the_years_that_are_looked_at():
    weather = at("Kent")
    summed = weather.sums(COOL, slows=False)
    assert len(summed) == YEARS * 366 + 1
    daily = degree_days(weather.low, weather.high, COOL)
    assert summed[366] == pytest.approx(daily.sum())
    assert np.diff(summed) == pytest.approx(np.tile(daily, YEARS))
    assert summed[2 * 366] == pytest.approx(2 * summed[366])


def test_short_days_take_their_share_of_each_day():
    weather = at("Hamburg")
    slowed, whole = (np.diff(weather.sums(COOL, slows))[:366] for slows in (True, False))
    assert slowed == pytest.approx(whole * weather.light)
    assert slowed[172] == whole[172]
    assert slowed[355] == 0.0


@pytest.mark.parametrize("response", [COOL, Response(4.0, 20.0)])
def test_warmer_years_have_more_warmth_below_the_best_temperature(response):
    for place in read_places():
        weather = at(place)
        sums = [
            weather.under(None, warmer).sums(Response(4.0), slows=False)[366] for warmer in (-1.0, 0.0, 1.0)
        ]
        assert sums == sorted(sums)
        cut = [weather.under(None, warmer).sums(response, slows=False)[366] for warmer in (-1.0, 0.0, 1.0)]
        assert cut[0] < cut[1] < cut[2] or place in ("Ames IA", "Athens GA")  # where heat slows it in summer


# -- covers ---------------------------------------------------------------------------------------


def test_nothing_over_it_is_the_weather_of_the_place():
    weather = at("Kent")
    assert weather.under(None) is weather
    assert weather.under(effect("tunnel")) is weather.under(effect("tunnel"))


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_cover_adds_what_its_figures_say_in_the_mean_of_each_season(kind):
    """Months are December to February, and so on; the gains of seasons are kept as the means of months are."""
    weather, gains = at("Kent"), effect(kind)
    under = weather.under(gains)
    months = np.array([(D(2000, 1, 1) + dt.timedelta(days=i)).month % 12 // 3 for i in range(366)])
    for season in range(4):
        days = months == season
        assert (under.low - weather.low)[days].mean() == pytest.approx(gains.minimum_gain[season], abs=0.02)
        if kind != "netting":
            assert (under.high - weather.high)[days].mean() == pytest.approx(
                gains.maximum_gain[season], abs=0.05
            )
    assert under.soil_on(D(2026, 4, 1)) == pytest.approx(
        weather.mean_on(D(2026, 4, 1)) + SOIL_OVER_AIR + gains.soil_gain
    )


def test_in_the_south_a_cover_has_its_winter_in_june():
    south = at("Christchurch NZ")
    gains = effect("low tunnel")
    added = south.under(gains).low - south.low
    months = np.array([(D(2000, 1, 1) + dt.timedelta(days=i)).month for i in range(366)])
    assert added[np.isin(months, (6, 7, 8))].mean() == pytest.approx(gains.minimum_gain[0], abs=0.02)
    assert added[np.isin(months, (12, 1, 2))].mean() == pytest.approx(gains.minimum_gain[2], abs=0.02)


def test_covers_and_roofs_add_up():
    weather = at("Hamburg")
    both = weather.under(together([effect("tunnel"), effect("fleece")]))
    assert (both.mean > weather.under(effect("tunnel")).mean)[60:120].all()
    assert both.sums(COOL, slows=True)[150] > weather.under(effect("tunnel")).sums(COOL, slows=True)[150]


def test_the_maximum_never_falls_below_the_minimum():
    for kind in KINDS:
        under = at("Kent").under(effect(kind))
        assert (under.high >= under.low).all(), kind


# -- the place ------------------------------------------------------------------------------------


@pytest.mark.parametrize("place", ["Kent", "Ames IA", "Athens GA", "Hamburg"])
def test_a_southern_place_mirrors_the_northern_one_by_half_a_year(place):
    site, climate = read_places()[place]
    north, south = at(place), weather_of(mirrored(climate), -site.latitude, True)
    assert np.abs(south.low - np.roll(north.low, 183)).max() < 1.0  # months have other lengths
    assert south.low.max() == pytest.approx(north.low.max(), abs=0.6)
    assert np.abs(south.hours - np.roll(north.hours, 183)).max() < 0.3
    for response in (COOL, WARM):
        assert south.sums(response, slows=False)[366] == pytest.approx(
            north.sums(response, slows=False)[366], rel=0.02
        )


def test_a_garden_without_latitude_is_at_the_usual_one_of_its_hemisphere():
    climate = Climate(**FROSTS)
    assert weather_of(climate, None, False).sun is sun_of_year(USUAL_LATITUDE)
    assert weather_of(climate, None, True).sun is sun_of_year(-USUAL_LATITUDE)


def test_what_is_made_from_frosts_is_rough():
    site, climate = read_places()["Kent"]
    assert not weather_of(climate, site.latitude, False).rough
    assert weather_of(Climate(**FROSTS), site.latitude, False).rough
    assert weather_of(Climate(**FROSTS), site.latitude, False).under(effect("tunnel")).rough
    assert weather_of(Climate(), 50.0, False) is None
