"""The days of the year that the length of the day marks."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from planner.sun import longest_day, next_autumn_equinox, next_longest_day, sun

D = dt.date


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
