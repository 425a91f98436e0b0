"""The four stages of FAO 56 laid onto a planting's own days, by the program's own curve of growth.

The initial stage ends when a tenth of the ground is covered, the middle one begins at full cover (FAO 56, chapter 6): both
days follow from the growth curve, the plants and their spread.  The late stage is the table's share of the whole season,
before the last picking.
"""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.crops.crop_water import CropWater
from planner.season.growth import GROWING_DAYS, REGROWTH, SET_OUT_SIZE, s_curve
from planner.season.planting_dates import Dates
from planner.season.spans import Span
from planner.season.water.crop_coefficients import FULL_COVER

Numbers = NDArray[np.float64]

#: Cover at which the initial stage ends (FAO 56, chapter 6).
_FIRST_COVER = 0.10
#: A grown plant has this share of its spread or more.
_GROWN = 0.95
_CURVE = np.linspace(0.0, 1.0, 201)
_SHARES = np.array([s_curve(at) for at in _CURVE])
#: Development of crops that cover their ground after they are picked, where the table has no stages. [days]
_AFTER_PICKING = 30


class StageDays(NamedTuple):
    """Days on which the stages of a planting begin and end, counted from the first day of the growing year.

    Attributes
    ----------
    first, last : int
        First and last day on which the plants stand on their plot, within the growing year.
    covers : float
        A tenth of the ground is covered: the initial stage ends.
    full : float
        Full cover: the middle stage begins.
    late : float
        The late stage begins.
    end : float
        It ends.
    yearly : bool
        The plants stay for years: they come back up after the end.
    """

    first: int
    last: int
    covers: float
    full: float
    late: float
    end: float
    yearly: bool = False


def stage_days(row: CropWater, dates: Dates, span: Span, year: Span, cover: float) -> StageDays | None:
    """The stages of a planting in a growing year; None where it is not on its plot then.

    Parameters
    ----------
    row : CropWater
    dates : Dates
    span : Span
        Days on its plot.
    year : Span
        The growing year.
    cover : float
        Share of its ground that the leaves of grown plants would cover; above 1 where they overlap.
    """
    if not span.meets(year):
        return None

    def at(day: dt.date) -> int:
        return (day - year.first).days

    first, last = max(at(span.first), 0), min(at(span.last), year.days - 1)
    begin, harvest, ends = at(span.first), dates.first_harvest, dates.last_harvest
    if dates.stays_for_years and dates.start != "sown" and harvest is not None and ends is not None:
        return _of_perennial(row, at(harvest.day), at(ends.day), first, last)
    if dates.start == "standing":
        begin = max(begin, -GROWING_DAYS)
        return StageDays(first, last, begin, begin + 1.0, _late(row, begin, last), float(last))
    up = at(dates.emerge.day) if dates.emerge is not None else begin
    grown = at(harvest.day) if harvest is not None else up + GROWING_DAYS
    done = at(ends.day) if ends is not None else at(span.last) if not span.open else grown + REGROWTH
    done = max(done, grown)
    length = max(grown - up, 1)
    least = SET_OUT_SIZE if dates.start in ("raised", "bought") else 0.0
    covers = up + length * _reached((_FIRST_COVER / max(cover, _FIRST_COVER)) ** 0.5, least)
    full = up + length * _reached(min((FULL_COVER / max(cover, 1e-6)) ** 0.5, _GROWN), least)
    full = max(full, covers + 1.0)
    late = max(_late(row, begin, done), full)
    return StageDays(first, last, covers, full, late, max(float(done), late + 1.0))


def _late(row: CropWater, begin: float, done: float) -> float:
    """The day on which the late stage begins: the table's share of the season before its end."""
    return done - row.late_share * (done - begin)


def _reached(share: float, least: float) -> float:
    """Part of its growing time after which a plant has a share of its spread; at once where it is set out as large."""
    return 0.0 if share <= least else float(np.interp(share, _SHARES, _CURVE))


def _of_perennial(row: CropWater, harvest: int, ends: int, first: int, last: int) -> StageDays:
    """Up before its harvest and down after it; asparagus is bare while it is picked and covers its ground afterwards."""
    if row.bare_while_picked:
        develops, middle, late = (row.stages or (0, _AFTER_PICKING, 90, 50))[1:]
        full = ends + develops
        return StageDays(
            first, last, float(ends), float(full), float(full + middle), float(full + middle + late), True
        )
    return StageDays(
        first,
        last,
        float(harvest - REGROWTH),
        float(harvest),
        max(float(ends), harvest + 1.0),
        float(ends + REGROWTH),
        True,
    )


def course(stages: StageDays, days: int, values: tuple[float, float, float]) -> Numbers:
    """A coefficient on each day of the growing year: the initial value, rising to the middle one, falling to the end (equation 66).

    Parameters
    ----------
    stages : StageDays
    days : int
        Length of the growing year.
    values : tuple of 3 float
        Initial, middle, end.

    Returns
    -------
    ndarray, shape (days,)
        Also of the days on which the planting does not stand.
    """
    initial, middle, end = values
    at = np.arange(days, dtype=np.float64)
    knots = np.array([stages.covers, stages.full, stages.late, stages.end])
    if not stages.yearly:
        found: Numbers = np.interp(at, knots, [initial, middle, middle, end])
        return found
    # Of what stays for years the same course every year, bare or dormant between.
    rest = stages.end + 1.0
    x = np.concatenate([(*(knots + shift), rest + shift) for shift in (-365.0, 0.0, 365.0)])
    y = np.tile([initial, middle, middle, end, initial], 3)
    order = np.argsort(x, kind="stable")
    yearly: Numbers = np.interp(at, x[order], y[order])
    return yearly
