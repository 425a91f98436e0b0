"""Frosts of open daily records, counted in numpy: the first of each autumn, the last of each spring, and their quantiles."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np
import pytest
from station_years import STATIONS, Station, station_weather

from planner.season.frost_seasons import frost_season
from planner.season.lived.growth_places import first_from
from planner.season.lived.odds import SHARES, day_spread, number_spread
from planner.season.lived.recorded_weather import recorded_weather
from planner.season.lived.recorded_years import NEVER, recorded_years
from planner.season.temperatures import day_of_year_index

#: Stands for a frost that does not come; numpy has no quantile beside an infinite value. [days]
NONE = 1e9

pytestmark = pytest.mark.parametrize("station", STATIONS, ids=lambda one: one.name)


def autumn_frosts(station: Station, threshold: float) -> dict[int, dt.date | None]:
    """First frost of each autumn that lies whole in the record; None in one without any."""
    weather = station_weather(station.name)
    begins, ends = ((2, 1), (6, 30)) if station.latitude < 0 else ((8, 1), (12, 31))
    days = np.array([weather.first + dt.timedelta(days=at) for at in range(len(weather.low))])
    found: dict[int, dt.date | None] = {}
    for year in range(weather.first.year, weather.last.year + 1):
        within = (days >= dt.date(year, *begins)) & (days <= dt.date(year, *ends))
        cold = days[within & (weather.low <= threshold)]
        found[year] = cold[0] if len(cold) else None
    return found


@pytest.mark.parametrize("threshold", [0.0, -2.2, -4.4])
def test_first_autumn_frosts_are_those_that_numpy_counts(station: Station, threshold: float) -> None:
    weather = station_weather(station.name)
    counted = autumn_frosts(station, threshold)
    record = recorded_years(weather, 1)
    assert record is not None
    place = recorded_weather(record, station.latitude, station.latitude < 0)
    month = 2 if station.latitude < 0 else 8
    begins = record.places(dt.date(2000, month, 1), 2000)
    frost = first_from(place.colder_night(threshold), begins)
    ends = record.places(dt.date(2000, 6, 30) if month == 2 else dt.date(2000, 12, 31), 2000)
    for year, at, last in zip(record.years.tolist(), frost.tolist(), ends.tolist(), strict=True):
        day = weather.first + dt.timedelta(days=at) if at < NEVER and at <= last else None
        assert day == counted[year]
    season = frost_season(weather, threshold, spring=False, southern=station.latitude < 0)
    assert {year: day for year, day in season.days if year in counted} == counted


@pytest.mark.parametrize("threshold", [0.0, -2.2])
def test_frost_days_at_a_risk_are_quantiles_of_numpy(station: Station, threshold: float) -> None:
    southern = station.latitude < 0
    season = frost_season(station_weather(station.name), threshold, spring=False, southern=southern)
    start = day_of_year_index(dt.date(2000, 2 if southern else 8, 1))
    since = np.array([NONE if day is None else day_of_year_index(day) - start for _, day in season.days])
    for risk in (10, 50, 90):
        at = np.quantile(since, risk / 100)  # type 7
        day = dt.date(2000, 1, 1) + dt.timedelta(days=start + math.floor(at + 0.5)) if at <= 366 else None
        assert season.at_risk(risk) == (None if day is None else f"{day:%m-%d}")


def test_spreads_are_quantiles_of_numpy(station: Station) -> None:
    weather = station_weather(station.name)
    for length in (1, 2, 7, 30):
        values = np.append(weather.low[:length], np.nan)
        spread = number_spread(values)
        assert spread is not None
        np.testing.assert_allclose(spread, np.nanquantile(values, SHARES), rtol=0, atol=1e-12)
    frosts = [day.toordinal() for day in autumn_frosts(station, 0.0).values() if day is not None]
    days = day_spread(np.array(frosts, dtype=float))
    assert days is not None
    assert [day.toordinal() for day in days] == [math.floor(at + 0.5) for at in np.quantile(frosts, SHARES)]
    assert day_spread(np.full(3, np.nan)) is None
