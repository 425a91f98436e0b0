"""Days for the sowings of a series so that in most years there is always something to pick."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from planner.season.lived.lived_years import Lived
from planner.season.lived.other_days import TriedDay
from planner.season.thermal_time import Numbers


class Series(NamedTuple):
    """Days on which a series is begun, and what comes of it.

    Attributes
    ----------
    days : tuple of date
    picked_days : ndarray, shape (years,)
        Days of each recorded year on which something of it is picked. [days]
    years : tuple of int
    """

    days: tuple[dt.date, ...]
    picked_days: Numbers
    years: tuple[int, ...]


def even_series(tried: Sequence[TriedDay], number: int) -> Series | None:
    """The days of a number of sowings with which something is picked on most days, on the mean of the years.

    Only years that count for every day are looked at.  Each sowing is taken to be picked without a break.  What two
    sowings give at the same time counts once; of more than two, neighbours are compared, which is exact where a later sowing is
    never picked sooner, and is then worked out anew for the days that are found.

    Parameters
    ----------
    tried : sequence of TriedDay
        In the order of their days.
    number : int
        Of sowings; no more than there are days.

    Returns
    -------
    Series or None
        None where no year counts for all days.
    """
    years = _common_years([one.lived for one in tried])
    if not years or not 1 <= number <= len(tried):
        return None
    spans = [_picking_of(one.lived, years) for one in tried]
    begins = np.array([one[0] for one in spans])
    ends = np.array([one[1] for one in spans])
    length = (ends - begins).mean(axis=1)
    shared = np.maximum(
        np.minimum(ends[:, None], ends[None]) - np.maximum(begins[:, None], begins[None]), 0.0
    ).mean(axis=2)
    days = len(tried)
    best = length.copy()
    before = np.zeros((number, days), dtype=np.int64)
    for at in range(1, number):
        gained = best[:, None] + length[None] - shared
        gained[np.tril_indices(days)] = -np.inf
        before[at] = gained.argmax(axis=0)
        best = gained.max(axis=0)
    chosen = [int(best.argmax())]
    for at in range(number - 1, 0, -1):
        chosen.append(int(before[at][chosen[-1]]))
    chosen.reverse()
    return Series(
        tuple(tried[one].day for one in chosen), picked_days(begins[chosen], ends[chosen]), tuple(years)
    )


def picked_days(begins: Numbers, ends: Numbers) -> Numbers:
    """Days of each year on which at least one sowing is picked. [days]

    Parameters
    ----------
    begins, ends : ndarray, shape (sowings, years)
        First day of picking, and the one after the last; equal where nothing is picked.
    """
    order = np.argsort(begins, axis=0, kind="stable")
    begins, ends = np.take_along_axis(begins, order, 0), np.take_along_axis(ends, order, 0)
    reached = np.maximum.accumulate(ends, axis=0)
    covered = np.vstack([np.full((1, begins.shape[1]), -np.inf), reached[:-1]])
    total: Numbers = np.maximum(ends - np.maximum(begins, covered), 0.0).sum(axis=0)
    return total


def _common_years(lived: Sequence[Lived]) -> list[int]:
    """Recorded years that count for all."""
    if not lived:
        return []
    found = set(lived[0].years.tolist())
    for one in lived[1:]:
        found &= set(one.years.tolist())
    return sorted(found)


def _picking_of(lived: Lived, years: Sequence[int]) -> tuple[Numbers, Numbers]:
    """First day of picking and the one after the last in some years; both 0 where nothing is picked or the end is not known."""
    at = np.searchsorted(lived.years, years)
    first, last = lived.first[at], lived.last[at]
    known = lived.picked[at] & ~np.isnan(first) & ~np.isnan(last)
    return np.where(known, first, 0.0), np.where(known, last + 1, 0.0)
