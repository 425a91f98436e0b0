"""Position of the sun against published figures and an independent program; the length of the day."""

from __future__ import annotations

import csv
import datetime as dt
from pathlib import Path

import numpy as np
import pytest

from planner.sun import (
    day_lengths,
    days_since_2000,
    longest_day,
    next_autumn_equinox,
    next_longest_day,
    pressure_at,
    radiation_by_day,
    refraction,
    sun,
)

D = dt.date

YEAR = np.arange(np.datetime64("2026-01-01"), np.datetime64("2027-01-01"), np.timedelta64(10, "m"))

#: Reda and Andreas 2004 (NREL/TP-560-34302 rev. 2008), table A5.1: 17 October 2003, 12:30:30, UTC-7.
NREL_INSTANT = np.datetime64("2003-10-17T19:30:30")
NREL_PLACE = {"latitude": 39.742476, "longitude": -105.1786, "elevation": 1830.14, "temperature": 11.0}
NREL_ALTITUDE, NREL_APPARENT, NREL_AZIMUTH, NREL_REFRACTION = 39.872046, 39.888378, 194.340241, 0.016332


def test_the_published_worked_example():
    seen = sun(NREL_INSTANT, **NREL_PLACE)
    assert seen.altitude == pytest.approx(NREL_ALTITUDE, abs=0.01)
    assert seen.apparent == pytest.approx(NREL_APPARENT, abs=0.01)
    assert seen.azimuth == pytest.approx(NREL_AZIMUTH, abs=0.015)
    assert refraction(NREL_ALTITUDE, 820.0, 11.0) == pytest.approx(NREL_REFRACTION, abs=1e-5)


def test_a_julian_day_is_the_same_instant():
    assert days_since_2000(2452930.312847) == pytest.approx(days_since_2000(NREL_INSTANT), abs=1e-6)
    by_day = sun(2452930.312847, **NREL_PLACE)
    assert by_day.altitude == pytest.approx(sun(NREL_INSTANT, **NREL_PLACE).altitude, abs=1e-4)


@pytest.mark.parametrize(
    ("latitude", "longitude"), [(56.0, -3.2), (35.7, -106.0), (0.0, 36.8), (-41.3, 174.8), (69.6, 18.9), (-54.8, -68.3)]
)  # fmt: skip
def test_a_year_of_positions_as_pvlib_has_them(latitude, longitude):
    pandas = pytest.importorskip("pandas")
    solar = pytest.importorskip("pvlib.solarposition")
    there = solar.spa_python(
        pandas.DatetimeIndex(YEAR).tz_localize("UTC"), latitude, longitude, pressure=101325, temperature=10
    )
    ours = sun(YEAR, latitude, longitude)
    assert np.abs(ours.altitude - there["elevation"].to_numpy()).max() < 0.02
    risen = ours.altitude > -0.5
    assert np.abs(ours.apparent - there["apparent_elevation"].to_numpy())[risen].max() < 0.02
    turn = np.abs((ours.azimuth - there["azimuth"].to_numpy() + 180) % 360 - 180)
    assert (turn * np.cos(np.radians(ours.altitude))).max() < 0.02  # as an angle on the sky
    assert turn[risen & (ours.altitude < 85)].max() < 0.11


@pytest.mark.parametrize("year", [1950, 2000, 2099])
def test_other_years_as_pvlib_has_them(year):
    pandas = pytest.importorskip("pandas")
    solar = pytest.importorskip("pvlib.solarposition")
    instants = np.datetime64(f"{year}-01-01T00:00") + np.arange(0, 365 * 24, 7) * np.timedelta64(1, "h")
    there = solar.spa_python(pandas.DatetimeIndex(instants).tz_localize("UTC"), 48.0, 11.0)
    assert np.abs(sun(instants, 48.0, 11.0).altitude - there["elevation"].to_numpy()).max() < 0.03


def test_the_result_has_the_shape_of_the_instants():
    seen = sun(YEAR[:24].reshape(4, 6), 50.0, 0.0)
    assert seen.altitude.shape == seen.azimuth.shape == (4, 6)
    assert sun(YEAR[0], 50.0, 0.0).altitude.shape == ()


def test_the_poles_have_the_sun_at_its_declination_all_day():
    june = sun(
        np.arange(np.datetime64("2026-06-21"), np.datetime64("2026-06-22"), np.timedelta64(1, "h")), 90.0, 0.0
    )
    assert june.altitude.min() > 23.3
    assert np.ptp(june.altitude) < 0.02


def test_refraction_at_the_horizon_is_about_half_a_degree():
    assert refraction(0.0) == pytest.approx(0.48, abs=0.03)  # 29 minutes of arc
    assert refraction(-10.0) == 0.0
    assert refraction(90.0) == pytest.approx(0.0, abs=1e-3)
    lifts = refraction(np.linspace(-0.8, 89, 500))
    assert (np.diff(lifts) < 0).all()


def test_pressure_falls_with_height():
    assert pressure_at(0.0) == pytest.approx(1013.25)
    assert pressure_at(2000.0) == pytest.approx(794.95, abs=0.5)  # the standard atmosphere's table


# -- the length of the day ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("day", "southern", "longest", "equinox"),
    [
        (D(2026, 1, 1), False, D(2026, 6, 21), D(2026, 9, 22)),
        (D(2026, 6, 21), False, D(2026, 6, 21), D(2026, 9, 22)),
        (D(2026, 6, 22), False, D(2027, 6, 21), D(2026, 9, 22)),
        (D(2026, 9, 22), False, D(2027, 6, 21), D(2026, 9, 22)),
        (D(2026, 9, 23), False, D(2027, 6, 21), D(2027, 9, 22)),
        (D(2026, 3, 21), True, D(2026, 12, 21), D(2026, 3, 21)),
        (D(2026, 3, 22), True, D(2026, 12, 21), D(2027, 3, 21)),
        (D(2026, 12, 22), True, D(2027, 12, 21), D(2027, 3, 21)),
    ],
)
def test_the_next_longest_day_and_autumn_equinox_north_and_south(day, southern, longest, equinox):
    assert next_longest_day(day, southern) == longest
    assert next_autumn_equinox(day, southern) == equinox


def test_the_calendar_ends_in_9999():
    assert next_longest_day(dt.date.max, southern=False) == D(9999, 6, 21)


@pytest.mark.parametrize("southern", [False, True])
def test_they_are_those_of_the_sun(southern):
    """The sun is highest at noon of the longest day, within two days; at the equinox it is over the equator."""
    latitude = -45.0 if southern else 45.0
    days = np.arange(
        np.datetime64("2026-01-01T12:00"), np.datetime64("2027-01-01T12:00"), np.timedelta64(1, "D")
    )
    highest = days[int(np.argmax(sun(days, latitude, 0.0).altitude))].astype("datetime64[D]").item()
    assert abs((highest - longest_day(2026, southern)).days) <= 2
    equinox = next_autumn_equinox(D(2026, 1, 1), southern)
    noon = np.datetime64(f"{equinox}T12:00")
    assert abs(float(sun(noon, latitude, 0.0).altitude) - 45.0) < 1.0


# -- hours of day and radiation of every day ------------------------------------------------------

#: FAO 56, Annex 2: the middle of each month, by latitude of the north.
TABLE = Path(__file__).parent / "reference" / "radiation_and_day_length.csv"
#: Day of a leap year of the 15th of each month, from 0; the table has those of other years.
MIDDLES = np.array([14, 45, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349])
OF_TABLE = MIDDLES - (np.arange(12) > 1)


def printed(quantity: str) -> dict[float, list[float]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return {
            float(row["latitude_north_deg"]): [
                float(row[f"{dt.date(2000, m, 1):%b}".lower()]) for m in range(1, 13)
            ]
            for row in csv.DictReader(file)
            if row["quantity"] == quantity
        }


@pytest.mark.parametrize(("latitude", "values"), printed("Ra").items())
def test_radiation_is_that_of_the_printed_table(latitude, values):
    """Tenths of MJ are printed, of the 15th of a month."""
    assert radiation_by_day(latitude)[OF_TABLE] == pytest.approx(values, rel=0.005, abs=0.12)


@pytest.mark.parametrize(("latitude", "values"), printed("N").items())
def test_days_are_as_long_as_printed_and_the_minutes_longer_that_air_bends_the_light(latitude, values):
    """The table has the sun's middle on a true horizon; sunrise is 0.833 degrees before, up to 20 minutes at 60 degrees."""
    longer = day_lengths(latitude)[MIDDLES] - values
    bent = 2 * 0.8333 / 15 / np.cos(np.radians(latitude))  # at the equinox, when the sun rises steepest
    assert longer.min() >= bent - 0.1
    assert longer.max() <= bent * 1.7 + 0.1


@pytest.mark.parametrize("latitude", [0.0, 36.7, 44.4, 56.0, 65.0, -41.3])
def test_days_are_as_long_as_the_sun_of_the_other_program_is_up(latitude):
    pandas = pytest.importorskip("pandas")
    solar = pytest.importorskip("pvlib.solarposition")
    noons = pandas.date_range("2000-01-01T12:00", periods=366, freq="D", tz="UTC")
    found = solar.sun_rise_set_transit_spa(noons, latitude, 0.0)
    hours = (found["sunset"] - found["sunrise"]).dt.total_seconds().to_numpy() / 3600
    assert np.abs(day_lengths(latitude) - hours).max() < 0.06


def test_days_are_whole_where_the_sun_does_not_set_and_none_where_it_does_not_rise():
    north = day_lengths(75.0)
    assert (north.max(), north.min()) == (24.0, 0.0)


def test_the_south_has_the_days_of_the_north_half_a_year_later():
    """Autumn lasts three days less than spring, as the earth is nearer to the sun: at the equinoxes that is 0.2 h."""
    off = np.abs(day_lengths(-45.0) - np.roll(day_lengths(45.0), 183))
    assert off.max() < 0.2
    assert off[[171, 172, 354, 355]].max() < 0.03
    assert radiation_by_day(-45.0)[355] > 1.05 * radiation_by_day(45.0)[172], (
        "the earth is nearer to the sun in January"
    )


@pytest.mark.parametrize(
    ("latitude", "first", "last"),
    [(44.4, D(2000, 11, 5), D(2000, 2, 5)), (36.7, D(2000, 11, 24), D(2000, 1, 17))],
)
def test_days_under_ten_hours_begin_and_end_as_growers_print_them(latitude, first, last):
    """Coleman 2009 for Harborside in Maine; McCollum, UC ANR 2014, for Salinas in California."""
    short = np.flatnonzero(day_lengths(latitude) < 10.0)
    begins, ends = (
        dt.date(2000, 1, 1) + dt.timedelta(days=int(day))
        for day in (short[short > 183][0], short[short < 183][-1])
    )
    assert abs((begins - first).days) <= 1
    assert abs((ends - last).days) <= 3


def test_south_of_32_degrees_no_day_is_shorter_than_ten_hours():
    """Coleman 2009."""
    assert (day_lengths(32.0) >= 10.0).all()
    assert (day_lengths(34.0) < 10.0).any()
