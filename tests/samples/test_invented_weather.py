"""The invented years of sample gardens fit what the gardens say of their climate."""

from __future__ import annotations

import datetime as dt
import itertools

import numpy as np
import pytest

from planner.importing.weather_table import read_tables
from planner.resources import sample_folder
from planner.season.climate_from_weather import weather_statistics
from planner.storage import load
from tests.invented_weather import SPREADS, invented


def _day(text: str | None) -> int:
    assert text is not None
    return dt.date.fromisoformat(f"2001-{text}").toordinal()


@pytest.mark.parametrize("garden", sorted(SPREADS))
def test_frosts_and_means_are_near_those_of_the_garden(garden: str) -> None:
    climate = load(sample_folder() / f"{garden}.bedwright").climate
    found = weather_statistics(invented(garden), southern=False)
    for dates, seasons in ((climate.last_frost, found.springs), (climate.first_frost, found.autumns)):
        assert dates is not None
        for risk in (10, 50, 90):
            assert abs(_day(seasons[0].at_risk(risk)) - _day(getattr(dates, f"risk_{risk}"))) <= 12
    assert found.zone == climate.zone
    assert found.monthly is not None
    for means, wanted in zip(found.monthly, (climate.monthly_minimum, climate.monthly_maximum), strict=True):
        np.testing.assert_allclose(means, np.array(wanted), atol=1.2)


def test_minimum_is_below_maximum_and_rain_is_as_stated() -> None:
    for garden, spread in SPREADS.items():
        weather = invented(garden)
        assert (weather.low < weather.high).all()
        assert weather.rain is not None
        years = np.array([(weather.first + dt.timedelta(days=at)).year for at in range(len(weather.low))])
        sums = [
            weather.rain[list(group)].sum()
            for _, group in itertools.groupby(range(len(years)), years.__getitem__)
        ]
        assert abs(np.mean(sums) / sum(spread.rain) - 1) < 0.1
        assert min(sums) < 0.85 * np.mean(sums)


@pytest.mark.parametrize("garden", sorted(SPREADS))
def test_the_shipped_table_is_the_invented_one(garden: str) -> None:
    shipped = read_tables([sample_folder() / f"{garden}_weather.csv.gz"]).weather
    made = invented(garden)
    assert shipped.first == made.first
    np.testing.assert_allclose(shipped.low, made.low, atol=0.051)
    np.testing.assert_allclose(shipped.high, made.high, atol=0.051)
    assert shipped.rain is not None
    assert made.rain is not None
    np.testing.assert_allclose(shipped.rain, made.rain, atol=0.051)
