"""Recorded years of weather as the garden file keeps them."""

from __future__ import annotations

import datetime as dt
import json

import numpy as np
import pytest
from pydantic import ValidationError

from planner.garden import Garden, Site, WeatherYear, WeatherYears
from planner.garden.edits import change_weather
from planner.garden.weather_years import packed, unpacked
from planner.season.climate_from_weather import weather_statistics
from planner.season.daily_weather import Weather
from planner.season.weather_years import (
    _unpacked,
    height_correction,
    station_weather,
    weather_of_garden,
    years_of,
)


def _invented(years: int, first: int = 1990) -> Weather:
    """Weather with gaps and rain, in tenths."""
    random = np.random.default_rng(5)
    days = (dt.date(first + years, 1, 1) - dt.date(first, 1, 1)).days
    low = np.round(8 - 9 * np.cos(np.arange(days) / 365.25 * 2 * np.pi) + random.normal(0, 3, days), 1)
    high = np.round(low + random.uniform(1, 14, days), 1)
    low[random.random(days) < 0.01] = np.nan
    high[random.random(days) < 0.01] = np.nan
    rain = np.round(np.where(random.random(days) < 0.4, random.gamma(0.7, 6, days), 0.0), 1)
    return Weather(dt.date(first, 1, 1), low, high, rain=rain)


def test_years_come_back_as_they_were() -> None:
    weather = _invented(30)
    kept = WeatherYears(years=years_of(weather))
    back = station_weather(WeatherYears.model_validate(json.loads(kept.model_dump_json())))
    assert back is not None
    assert back.first == weather.first
    np.testing.assert_allclose(back.low, weather.low, atol=1e-9)
    np.testing.assert_allclose(back.high, weather.high, atol=1e-9)
    assert back.rain is not None
    assert weather.rain is not None
    np.testing.assert_allclose(back.rain, weather.rain, atol=1e-9)
    assert back.evapotranspiration is None


def test_a_year_takes_at_most_4_kilobytes() -> None:
    kept = WeatherYears(years=years_of(_invented(10)))
    assert len(kept.model_dump_json()) / 10 < 4_000


def test_the_latest_years_are_kept() -> None:
    assert [one.year for one in years_of(_invented(5), most=2)] == [1993, 1994]


def test_values_of_a_whole_range_are_packed() -> None:
    values = (-900, 600, -32768, 32767, 0, -32768)
    assert unpacked(packed(values)) == values


def test_numpy_unpacks_as_the_garden_file_says() -> None:
    values = (-900, 600, -32768, 32767, 0, -32768)
    assert tuple(_unpacked(packed(values))) == values


@pytest.mark.parametrize("text", ["", "?", "AAAA", packed(range(400)), packed([1])[:-4]])
def test_text_that_is_no_year_is_refused(text: str) -> None:
    with pytest.raises(ValidationError if text else ValueError, match="weather table again"):
        WeatherYear(year=2001, low=text) if text else unpacked(text)


def test_years_out_of_order_are_refused() -> None:
    years = years_of(_invented(2))
    with pytest.raises(ValidationError, match="in order"):
        WeatherYears(years=years[::-1])


def test_height_moves_the_temperatures_by_the_standard_lapse_rate() -> None:
    kept = WeatherYears(elevation=100.0, years=years_of(_invented(2)))
    above = Site(elevation=600.0)
    assert height_correction(kept, above) == pytest.approx(-3.25)
    station, garden = station_weather(kept), weather_of_garden(kept, above)
    assert station is not None
    assert garden is not None
    np.testing.assert_allclose(garden.low, station.low - 3.25)
    assert height_correction(kept, Site()) == 0.0


def test_weather_can_be_taken_out_again() -> None:
    garden = change_weather(Garden(), years=years_of(_invented(2)))
    assert garden.weather.span == (1990, 1991)
    assert change_weather(garden, years=()).weather == Garden().weather


@pytest.mark.parametrize(("southern", "said"), [(False, 0), (True, 1)])
def test_a_station_of_the_other_half_of_the_earth_is_told(southern: bool, said: int) -> None:
    notes = weather_statistics(_invented(12), southern).notes
    assert sum("of the equator" in one for one in notes) == said
