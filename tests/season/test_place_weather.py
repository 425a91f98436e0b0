"""What recorded years tell of a place, against numpy, scipy and plain loops over open records."""

from __future__ import annotations

import datetime as dt
import math
from pathlib import Path

import numpy as np
import pytest
import scipy.stats
from open_weather import seattle_file
from scipy.stats.mstats import mquantiles

from planner.garden import Site
from planner.importing.weather_table import read_tables
from planner.season.daily_weather import Weather
from planner.season.place_weather import DRY, WINDOW, heat_of, line_through, place_weather, trend_of
from planner.season.weather_gaps import gaps_of, longest_run
from planner.season.weather_years import station_distance, weather_of_garden
from planner.season.year_table import day_index, quantiles, year_table

FILES = Path(__file__).parents[1] / "reference" / "weather"
D = dt.date
NORTH, SOUTH = Site(latitude=50.8), Site(latitude=-31.4)


@pytest.fixture(scope="module")
def brussels():
    return read_tables([FILES / "brussels_climate.txt.gz"]).kept()


@pytest.fixture(scope="module")
def cordoba():
    return read_tables([FILES / "cordoba_climate.txt.gz"]).kept()


def plain_days(weather: Weather):
    """Date, minimum, maximum and rain of each day."""
    rain = weather.rain if weather.rain is not None else np.full(len(weather.low), np.nan)
    for at, (low, high, wet) in enumerate(zip(weather.low, weather.high, rain, strict=True)):
        yield weather.first + dt.timedelta(days=at), float(low), float(high), float(wet)


# -- quantiles --------------------------------------------------------------------------------------


def test_quantiles_with_gaps_are_those_of_numpy_and_scipy():
    random = np.random.default_rng(1)
    values = random.normal(10, 5, (31, 40))
    values[random.random(values.shape) < 0.1] = np.nan
    values[:, 3] = np.nan
    values[1:, 4] = np.nan
    shares = (0.0, 0.1, 0.5, 0.9, 1.0)
    ours = quantiles(values, shares)
    with np.errstate(invalid="ignore"), pytest.warns(RuntimeWarning):
        np.testing.assert_allclose(ours, np.nanquantile(values, shares, axis=0), atol=1e-12)
    column = values[:, 7][~np.isnan(values[:, 7])]
    np.testing.assert_allclose(ours[:, 7], mquantiles(column, shares, alphap=1, betap=1), atol=1e-12)


@pytest.mark.parametrize("name", ["brussels", "champion", "cordoba"])
@pytest.mark.parametrize("spring", [True, False])
def test_frost_days_at_each_risk_are_numpys_quantiles_of_a_plain_search(name, spring):
    site = SOUTH if name == "cordoba" else NORTH
    place = place_weather(read_tables([FILES / f"{name}_climate.txt.gz"]).kept(), site)
    assert place is not None
    season = place.spring if spring else place.autumn
    bounds = {
        (False, True): (1, 1, 212),
        (False, False): (8, 1, 153),
        (True, True): (7, 1, 215),
        (True, False): (2, 1, 150),
    }
    month, day, length = bounds[site.southern, spring]
    low = {date: minimum for date, minimum, *_ in plain_days(place.weather)}
    found = []
    for year in range(place.weather.first.year, place.weather.last.year + 1):
        first = D(year, month, day)
        days = [first + dt.timedelta(days=k) for k in range(length)]
        if days[-1] > place.weather.last:
            continue
        frosts = [date for date in days if low.get(date, 99) <= 0]
        if frosts:
            end = frosts[-1] if spring else frosts[0]
            found.append(
                (end - first).days + (spring and not site.southern and end.month > 2 and (end.year % 4 != 0))
            )
    known = [day for _, day in season.days if day is not None]
    assert len(known) == len(found)
    if len(known) < len(season.days):
        return  # years without frost are ranked apart from numpy's; test_climate_from_weather holds them
    for risk in (10, 50, 90):
        share = 1 - risk / 100 if spring else risk / 100
        expected = float(np.quantile(found, share))
        assert expected == pytest.approx(float(mquantiles(found, [share], alphap=1, betap=1)[0]))
        text = season.at_risk(risk)
        assert text is not None
        begin = D(2000, month, day)
        ours = (D(2000, int(text[:2]), int(text[3:])) - begin).days % 366
        assert abs(ours - expected) <= 1.0  # rounded to the day, 29 February counted


def test_a_band_of_a_day_is_the_quantile_of_the_days_about_it(brussels):
    place = place_weather(brussels, NORTH)
    assert place is not None
    for month, day in ((1, 1), (3, 1), (7, 14), (12, 28)):
        middle = day_index(D(2001, month, day), 1)
        wanted = {(middle + k) % 365 for k in range(-(WINDOW // 2), WINDOW // 2 + 1)}
        about = [
            high
            for date, _, high, _ in plain_days(place.weather)
            if (date.month, date.day) != (2, 29) and day_index(date, 1) in wanted
        ]
        expected = np.quantile(about, [0, 0.1, 0.5, 0.9, 1])
        np.testing.assert_allclose(place.bands.high[:, middle], expected, atol=1e-9)


# -- degree-days, rain, dry spells ------------------------------------------------------------------


def test_degree_days_of_a_year_by_a_plain_loop(cordoba):
    place = place_weather(cordoba, SOUTH)
    assert place is not None
    assert place.table.first_month == 7
    heat = heat_of(place.table, 10.0)
    year = 2003
    total = 0.0
    for date, low, high, _ in plain_days(place.weather):
        if D(year, 7, 1) <= date < D(year + 1, 7, 1) and (date.month, date.day) != (2, 29):
            total += max(0.0, (low + high) / 2 - 10.0)
    assert heat.sums[heat.years.index(year), -1] == pytest.approx(total)
    assert 2020 in heat.years
    assert 1990 not in heat.years, "half of it is not there"
    assert 2021 not in heat.years


def test_a_missing_day_has_the_mean_of_the_other_years():
    days = 3 * 365
    low = np.full(days, 10.0)
    low[365:730] = 14.0
    low[100] = np.nan
    weather = Weather(D(2001, 1, 1), low, np.where(np.isnan(low), 20.0, low + 10))
    heat = heat_of(year_table(weather, 1), 5.0)
    assert heat.sums[:, -1].tolist() == pytest.approx([364 * 10 + 12.0, 365 * 14.0, 365 * 10.0])


def test_rain_of_months_and_years_by_a_plain_loop(brussels):
    place = place_weather(brussels, NORTH)
    assert place is not None
    assert place.rain is not None
    sums: dict[tuple[int, int], float] = {}
    for date, _, _, rain in plain_days(place.weather):
        if (date.month, date.day) != (2, 29):
            sums[date.year, date.month] = sums.get((date.year, date.month), 0.0) + rain
    expected = [[sums[year, month] for month in range(1, 13)] for year in place.table.years]
    np.testing.assert_allclose(place.rain.monthly, expected, atol=1e-9)
    np.testing.assert_allclose(place.rain.bands, np.quantile(expected, [0.1, 0.5, 0.9], axis=0), atol=1e-9)
    np.testing.assert_allclose(place.rain.yearly, np.sum(expected, axis=1), atol=1e-9)


def test_longest_dry_spell_by_a_plain_loop(brussels):
    place = place_weather(brussels, NORTH)
    assert place is not None
    assert place.rain is not None
    longest: dict[int, tuple[dt.date, int]] = {}
    begin, run = None, 0
    for date, _, _, rain in plain_days(place.weather):
        if rain < DRY:
            begin, run = (begin, run + 1) if run else (date, 1)
            if run > longest.get(begin.year, (date, 0))[1]:
                longest[begin.year] = begin, run
        else:
            run = 0
    assert {year: (first, length) for year, first, length in place.rain.spells} == longest


def test_a_month_with_a_gap_has_no_sum_and_a_gap_ends_a_dry_spell():
    days = 2 * 365
    rain = np.zeros(days)
    rain[200] = np.nan
    weather = Weather(D(2001, 1, 1), np.zeros(days), np.ones(days), rain=rain)
    place = place_weather_of(weather)
    assert np.isnan(place.rain.monthly[0, 6])
    assert place.rain.monthly[0, 5] == 0
    assert place.rain.spells == ((2001, D(2001, 7, 21), 529), (2002, D(2002, 1, 1), 0))


def place_weather_of(weather: Weather):
    from planner.garden import WeatherYears
    from planner.season.weather_years import years_of

    place = place_weather(WeatherYears(years=years_of(weather)), NORTH)
    assert place is not None
    return place


def test_without_rain_there_is_no_rain_and_with_few_years_no_trend():
    days = 2 * 365
    place = place_weather_of(Weather(D(2001, 1, 1), np.zeros(days), np.ones(days)))
    assert place.rain is None
    assert place.trend is None


# -- trend ------------------------------------------------------------------------------------------


def test_trend_is_that_of_scipy_and_of_numpys_polyfit(brussels):
    weather = weather_of_garden(brussels, NORTH)
    assert weather is not None
    trend = trend_of(weather)
    assert trend is not None
    means: dict[int, list[float]] = {}
    for date, low, high, _ in plain_days(weather):
        means.setdefault(date.year, []).append((low + high) / 2)
    years, values = list(means), [math.fsum(one) / len(one) for one in means.values()]
    np.testing.assert_allclose(trend.means, values)
    (slope, at0), cov = np.polyfit(years, values, 1, cov=True)
    reach = float(scipy.stats.t.ppf(0.975, len(years) - 2)) * math.sqrt(cov[0, 0])
    assert (trend.slope, trend.low, trend.high) == pytest.approx(
        (slope, slope - reach, slope + reach), rel=1e-6
    )
    other = scipy.stats.linregress(years, values)
    assert trend.slope == pytest.approx(other.slope)
    assert trend.at(1990) == pytest.approx(at0 + slope * 1990, rel=1e-6)


def test_interval_of_a_trend_against_the_printed_table_of_t():
    # ten years, residuals +1 and -1 in turn: t of 8 degrees of freedom at 95 % is 2.306 in every printed table
    years = list(range(2001, 2011))
    means = [0.1 * k + (1 if k % 2 else -1) for k in range(10)]
    trend = line_through(years, means)
    x = np.array(years) - 2005.5
    left = np.array(means) - np.mean(means) - trend.slope * x
    error = math.sqrt(float((left**2).sum()) / 8 / float((x**2).sum()))
    assert trend.high - trend.slope == pytest.approx(2.306 * error, rel=2e-4)
    assert not trend.is_proven


# -- gaps and distance ------------------------------------------------------------------------------


def test_gaps_and_runs():
    low = np.array([1.0, np.nan, np.nan, 2.0, np.nan])
    weather = Weather(D(2001, 1, 1), low, np.ones(5))
    (gaps, whole) = gaps_of(weather)
    assert (gaps.element, gaps.known, gaps.missing, gaps.longest, gaps.longest_first) == (
        "low",
        2,
        3,
        2,
        D(2001, 1, 2),
    )
    assert (whole.missing, whole.longest_first) == (0, None)
    assert longest_run(np.array([False, False])) == (0, 0)


@pytest.mark.parametrize(
    "place", [(50.9, 4.5), (40.4, -101.7), (-31.4, -64.2), (50.8, 4.35), (-50.0, -175.0)]
)
def test_distance_is_that_on_the_ellipsoid_to_one_in_a_hundred(place, brussels):
    from geographiclib.geodesic import Geodesic

    kept = brussels.with_(latitude=place[0], longitude=place[1])
    site = Site(latitude=50.8, longitude=4.35)
    expected = Geodesic.WGS84.Inverse(50.8, 4.35, *place)["s12"]
    assert station_distance(kept, site) == pytest.approx(expected, rel=0.006, abs=0.01)
    assert station_distance(brussels, site) is None


def test_days_of_the_growing_year():
    assert [day_index(D(2004, 2, day), 1) for day in (28, 29)] == [58, 58]
    assert day_index(D(2004, 6, 30), 7) == 364
    seattle = read_tables([seattle_file()]).weather
    table = year_table(seattle, 7)
    assert table.years == (2011, 2012, 2013, 2014, 2015)
    assert table.months[0] == 7
    assert table.low[1, day_index(D(2013, 3, 1), 7)] == seattle.part(D(2013, 3, 1), D(2013, 3, 1))[0][0]
    assert table.date_of(0) == D(2001, 7, 1)
