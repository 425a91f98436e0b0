"""Frost dates, zone and means from daily weather: by hand, against numpy and scipy, on open data."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from open_weather import seattle_rows
from scipy import stats

from planner.garden import Climate
from planner.season.climate_from_weather import (
    half_zone,
    monthly_means,
    weather_statistics,
    yearly_minimum,
)
from planner.season.daily_weather import Weather, WeatherError
from planner.season.frost_seasons import frost_season

D = dt.date
DAY = dt.timedelta(days=1)


def weather(first: int, last: int, frosts: set[dt.date], gaps: set[dt.date] = frozenset()) -> Weather:
    """Whole years of 10 °C with a frost of -1 °C on some days, and some days missing."""
    start = D(first, 1, 1)
    days = (D(last, 12, 31) - start).days + 1
    low = np.full(days, 10.0)
    for day in frosts:
        low[(day - start).days] = -1.0
    for day in gaps:
        low[(day - start).days] = np.nan
    return Weather(start, low, low + 8)


# By hand: ten last spring frosts, 1 to 10 April of 2001 to 2010, shuffled; first autumn ones 11 to 20 October.
ORDER = (3, 7, 1, 10, 5, 2, 9, 4, 8, 6)
SPRING = {2001 + i: D(2001 + i, 4, day) for i, day in enumerate(ORDER)}
AUTUMN = {2001 + i: D(2001 + i, 10, 10 + day) for i, day in enumerate(ORDER)}


def test_hand_worked_quantiles_of_ten_years():
    """Ranks 1..10: 10 % risk lies at 0.9 x 9 = 8.1 ranks above the first, day 9.1; 50 % at day 5.5; 90 % at 1.9."""
    early = {D(y, 1, 15) for y in SPRING} | {D(y, 12, 20) for y in SPRING}
    found = weather_statistics(
        weather(2001, 2010, {*SPRING.values(), *AUTUMN.values(), *early}), southern=False
    )
    last, first = found.frost_dates(spring=True), found.frost_dates(spring=False)
    assert last is not None
    assert first is not None
    assert (last.risk_10, last.risk_50, last.risk_90) == ("04-09", "04-06", "04-02")
    assert (first.risk_10, first.risk_50, first.risk_90) == ("10-12", "10-16", "10-19")
    assert found.springs[0].years == 10
    assert found.springs[1].days[0] == (2001, None), "no day is as cold as -2.2 °C"
    assert "The last spring frost rests on 10 years" in found.notes
    climate = found.climate(Climate(risk=10), "by hand")
    assert (climate.risk, climate.years, climate.origin, climate.last_frost) == (10, 10, "by hand", last)


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
@pytest.mark.parametrize("years", [3, 9, 10, 31])
def test_quantiles_are_those_of_numpy_and_scipy(share, years):
    chance = np.random.default_rng(years)
    days = {1990 + i: D(1990 + i, 3, 1) + DAY * int(chance.integers(0, 90)) for i in range(years)}
    season = frost_season(weather(1990, 1989 + years, set(days.values())), 0.0, True, False)
    places = [(dt.date(2000, d.month, d.day) - D(2000, 1, 1)).days for d in days.values()]
    ours = season.at_risk(100 * (1 - share))
    expected = D(2000, 1, 1) + DAY * int(np.floor(np.quantile(places, share) + 0.5))
    scipy = stats.mstats.mquantiles(places, share, alphap=1, betap=1)[0]
    assert ours == f"{expected:%m-%d}"
    assert scipy == pytest.approx(np.quantile(places, share))


def test_southern_seasons_run_over_new_year():
    frosts = {D(y, 7, 3) for y in range(2001, 2012)} | {D(y, 9, 20) for y in range(2001, 2012)}
    frosts |= {D(2005, 11, 2), D(2006, 5, 9), *(D(y, 5, 20) for y in range(2001, 2012))}
    table = weather(2001, 2011, frosts)
    spring = frost_season(table, 0.0, True, True)
    assert dict(spring.days)[2005] == D(2005, 11, 2)
    assert dict(spring.days)[2004] == D(2004, 9, 20)
    assert spring.at_risk(50) == "09-20"
    autumn = frost_season(table, 0.0, False, True)
    assert dict(autumn.days)[2006] == D(2006, 5, 9)
    assert autumn.at_risk(50) == "05-20"


def test_years_with_gaps_are_left_out_by_the_rule():
    april = {D(y, 4, 10) for y in (2001, 2002, 2003)} | {D(y, 10, 10) for y in (2001, 2002, 2003)}
    eleven = {D(2001, 2, 1) + DAY * i for i in range(11)}
    ten = {D(2002, 2, 1) + DAY * i for i in range(10)}
    near = {D(2003, 4, 12) + DAY * i for i in range(4)}
    season = frost_season(weather(2001, 2003, april, eleven | ten | near), 0.0, True, False)
    assert season.left_out == (2001, 2003)
    assert season.days == ((2002, D(2002, 4, 10)),)
    three = frost_season(
        weather(2001, 2003, april, {D(2003, 4, 12) + DAY * i for i in range(3)}), 0.0, True, False
    )
    assert three.left_out == ()


def test_a_note_warns_of_few_years():
    found = weather_statistics(weather(2001, 2004, {D(y, 4, 1) for y in range(2001, 2005)}), False)
    assert "The last spring frost rests on 4 years, fewer than 10: take them as a first guess" in found.notes
    assert "4 of 4 years had no first autumn frost" in found.notes
    assert found.frost_dates(spring=False) is None


def test_years_without_frost_count_as_earliest_in_spring():
    frosts = {D(2000 + i, 3, i) for i in range(1, 9)}  # eight years of ten
    season = frost_season(weather(2001, 2010, frosts), 0.0, True, False)
    assert season.years == 10
    assert season.at_risk(50) == "03-04", "4.5 ranks above the first lies half way from 3 to 4 March"
    assert season.at_risk(90) is None


def test_ten_years_without_any_frost_are_a_place_without_frost():
    found = weather_statistics(weather(2001, 2010, set()), False)
    assert found.climate(Climate()).frost_free
    assert not weather_statistics(weather(2001, 2005, set()), False).climate(Climate()).frost_free


def test_frost_in_every_month_does_no_harm():
    always = {D(2001, 1, 1) + DAY * i for i in range(365 * 3)}
    found = weather_statistics(weather(2001, 2003, always), False)
    last, first = found.frost_dates(spring=True), found.frost_dates(spring=False)
    assert last is not None
    assert first is not None
    assert (last.risk_50, first.risk_50) == ("07-31", "08-01")


def test_a_table_without_one_whole_season_is_refused():
    table = weather(2001, 2001, set())
    short = Weather(table.first, table.low[:90], table.high[:90])
    with pytest.raises(WeatherError, match="no year of 2001-01-01 to 2001-03-31 is complete enough"):
        weather_statistics(short, False)


def test_half_zones_are_those_of_the_published_bounds():
    for i in range(26):  # USDA PHZM 2023: 26 half zones of 5 F from -60 F
        zone = f"{i // 2 + 1}{'ab'[i % 2]}"
        bottom = (-60 + 5 * i - 32) / 1.8
        assert half_zone(bottom) == zone
        assert half_zone(bottom + 2.7) == zone
    assert (half_zone(-70), half_zone(30)) == ("1a", "13b")


def test_mean_yearly_minimum_is_over_whole_years():
    table = weather(2001, 2003, {D(2001, 1, 5)}, {D(2003, 1, 1) + DAY * i for i in range(20)})
    assert yearly_minimum(table, False) == (pytest.approx((-1 + 10) / 2), 2)


# -- open daily data ------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def seattle() -> tuple[Weather, list[tuple[dt.date, float, float]]]:
    rows = seattle_rows()
    first, low, high = rows[0][0], np.array([row[1] for row in rows]), np.array([row[2] for row in rows])
    assert [row[0] for row in rows] == [first + DAY * i for i in range(len(rows))]
    return Weather(first, low, high), rows


@pytest.mark.parametrize("threshold", [0.0, -2.2, -4.4])
def test_seattle_frosts_are_those_found_by_looking_through(seattle, threshold):
    table, rows = seattle
    spring = dict(frost_season(table, threshold, True, False).days)
    autumn = dict(frost_season(table, threshold, False, False).days)
    for year in range(2012, 2016):
        cold = [day for day, low, _ in rows if day.year == year and low <= threshold]
        assert spring[year] == max((day for day in cold if day.month <= 7), default=None)
        assert autumn[year] == min((day for day in cold if day.month >= 8), default=None)


def test_seattle_means_and_zone(seattle):
    table, rows = seattle
    means = monthly_means(table)
    assert means is not None
    for month in range(1, 13):
        by_year = [
            np.mean(
                [(low, high) for day, low, high in rows if (day.year, day.month) == (year, month)], axis=0
            )
            for year in range(2012, 2016)
        ]
        assert (means[0][month - 1], means[1][month - 1]) == pytest.approx(
            np.mean(by_year, axis=0), abs=0.006
        )
    found = weather_statistics(table, False)
    lowest = np.mean([min(low for day, low, _ in rows if day.year == year) for year in range(2012, 2016)])
    assert found.yearly_minimum == pytest.approx(lowest)
    assert found.zone == half_zone(float(lowest))
    assert any("fewer than 10" in note for note in found.notes)
