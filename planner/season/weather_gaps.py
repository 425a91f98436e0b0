"""Gaps in daily weather: days that a table lacks, which nothing fills."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from planner.season.daily_weather import Numbers, Weather


@dataclass(frozen=True)
class Gaps:
    """What one kind of value lacks.

    Attributes
    ----------
    element : str
        ``low``, ``high``, ``rain`` or ``evapotranspiration``.
    known, missing : int
        Days between the first and the last of the table. [days]
    longest : int
        Of the longest gap. [days]
    longest_first : date or None
        Its first day; None without a gap.
    """

    element: Literal["low", "high", "rain", "evapotranspiration"]
    known: int
    missing: int
    longest: int
    longest_first: dt.date | None


def gaps_of(weather: Weather) -> tuple[Gaps, ...]:
    """Gaps of each kind of value that the weather has at all.

    Parameters
    ----------
    weather : Weather
    """
    parts: tuple[tuple[Literal["low", "high", "rain", "evapotranspiration"], Numbers | None], ...] = (
        ("low", weather.low),
        ("high", weather.high),
        ("rain", weather.rain),
        ("evapotranspiration", weather.evapotranspiration),
    )
    found = []
    for element, values in parts:
        if values is None or np.isnan(values).all():
            continue
        missing = np.isnan(values)
        begin, length = longest_run(missing)
        first = weather.first + dt.timedelta(days=begin) if length else None
        count = int(np.count_nonzero(missing))
        found.append(Gaps(element, len(values) - count, count, length, first))
    return tuple(found)


def longest_run(wanted: NDArray[np.bool_]) -> tuple[int, int]:
    """Beginning and length of the longest run of days, the first of those as long; (0, 0) where there is none.

    Parameters
    ----------
    wanted : numpy.ndarray of bool
        By day.

    Examples
    --------
    >>> longest_run(np.array([True, False, True, True, False]))
    (2, 2)
    """
    begins, days = runs(wanted)
    if not len(begins):
        return 0, 0
    at = int(np.argmax(days))
    return int(begins[at]), int(days[at])


def runs(wanted: NDArray[np.bool_]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Beginnings and lengths of all runs of days.

    Parameters
    ----------
    wanted : numpy.ndarray of bool
        By day.
    """
    edges = np.flatnonzero(np.diff(np.concatenate([[False], wanted, [False]]).astype(np.int8)))
    return edges[::2], edges[1::2] - edges[::2]
