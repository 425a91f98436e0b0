"""The odds of a planting over the recorded years, and their words."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from planner.season.lived.lived_years import (
    CLEARED,
    FROST,
    PICKED,
    SEED,
    UNRIPE,
    LeftOutYear,
    Lived,
    RestsOn,
)
from planner.season.thermal_time import Numbers
from planner.words import day_words, say, say_count

#: Shares of the years at which a spread is told.
SHARES = (0.1, 0.25, 0.5, 0.75, 0.9)


class DaySpread(NamedTuple):
    """Days before which something happens in 10, 25, 50, 75 and 90 % of the years in which it does, in the calendar of the plan.

    Quantiles of type 7 (Hyndman and Fan 1996), rounded to the day.
    """

    tenth: dt.date
    quarter: dt.date
    middle: dt.date
    three_quarters: dt.date
    nine_tenths: dt.date


class NumberSpread(NamedTuple):
    """The same of a number."""

    tenth: float
    quarter: float
    middle: float
    three_quarters: float
    nine_tenths: float


@dataclass(frozen=True)
class Odds:
    """What becomes of a planting in the recorded years.

    Attributes
    ----------
    rests_on : str
        What its first picking rests on, one of :data:`planner.season.lived.lived_years.RestsOn`.
    years : int
        Years that count.
    left_out : tuple of LeftOutYear
        Years that do not, and why.
    bridged : int
        Days of the whole record whose gap was bridged.
    picked, frost, seed, unripe, cleared : int
        Years in which it is picked, or stands to its end where nothing is picked of it; in which frost takes it or its blossom before
        that; in which it runs to seed, or its year ends, or it is cleared, before it is ripe.
    emergence, first, last, free : DaySpread or None
        Days on which it comes up, is first and last picked, and on which its ground falls free; None where that is in no year known.
    flower : DaySpread or None
        Day of its first flowers, of what must be pollinated.
    harvest_days : NumberSpread or None
        Days of picking, over all years: 0 in those in which it is not picked. [days]
    small : int
        Years among those in which it is picked that leave it small.
    """

    rests_on: RestsOn
    years: int
    left_out: tuple[LeftOutYear, ...]
    bridged: int
    picked: int
    frost: int
    seed: int
    unripe: int
    cleared: int
    emergence: DaySpread | None
    flower: DaySpread | None
    first: DaySpread | None
    last: DaySpread | None
    free: DaySpread | None
    harvest_days: NumberSpread | None
    small: int = 0

    @property
    def lost(self) -> int:
        """Years in which nothing is picked of it."""
        return self.years - self.picked

    @property
    def share_lost(self) -> float:
        """Share of the years in which nothing is picked of it; 0 where no year counts. [0 to 1]"""
        return self.lost / self.years if self.years else 0.0


def odds_of(lived: Lived) -> Odds:
    """The odds of a planting that was lived through the recorded years.

    Parameters
    ----------
    lived : Lived
    """
    counts = np.bincount(lived.fate, minlength=5)
    eaten = lived.rests_on != "nothing"
    *days, harvest = _spreads(
        np.array((lived.emergence, lived.flower, lived.first, lived.last, lived.free, lived.harvest_days))
    )
    emergence, flower, first, last, free = (_days(spread) for spread in days)
    return Odds(
        rests_on=lived.rests_on,
        years=len(lived.years),
        left_out=lived.left_out,
        bridged=lived.bridged,
        picked=int(counts[PICKED]),
        small=int(np.count_nonzero(lived.small)),
        frost=int(counts[FROST]),
        seed=int(counts[SEED]),
        unripe=int(counts[UNRIPE]),
        cleared=int(counts[CLEARED]),
        emergence=emergence,
        flower=flower,
        first=first,
        last=last,
        free=free,
        harvest_days=harvest if eaten else None,
    )


def number_spread(values: Numbers) -> NumberSpread | None:
    """The spread of some values without those that are missing (NaN); None where all are."""
    return _spreads(values[None])[0]


def day_spread(ordinals: Numbers) -> DaySpread | None:
    """The spread of days, as ordinals, without those that are missing (NaN); None where all are."""
    return _days(number_spread(ordinals))


def _days(spread: NumberSpread | None) -> DaySpread | None:
    if spread is None:
        return None
    return DaySpread(*(dt.date.fromordinal(math.floor(at + 0.5)) for at in spread))


def _spreads(values: Numbers) -> list[NumberSpread | None]:
    """The spread of each row, by quantiles of type 7; numpy's own take most of the time of an edit for so few."""
    if not values.shape[1]:
        return [None] * len(values)
    ranked = np.sort(values, axis=1)  # NaN last
    known = (~np.isnan(ranked)).sum(axis=1)
    at = np.array(SHARES) * np.maximum(known - 1, 0)[:, None]
    below = at.astype(np.int64)
    row = np.arange(len(values))[:, None]
    low, high = ranked[row, below], ranked[row, np.minimum(below + 1, np.maximum(known - 1, 0)[:, None])]
    found = (low + (at - below) * (high - low)).tolist()
    return [NumberSpread(*row) if count else None for row, count in zip(found, known, strict=True)]


def spreads_of(odds: Odds | None) -> tuple[tuple[DaySpread, bool], ...]:
    """The spreads that are drawn, and whether it is that of the first picking; none where all years have the same day."""
    if odds is None:
        return ()
    both = ((odds.first, True), (odds.last, False))
    once = odds.first == odds.last
    return tuple(
        (spread, first)
        for spread, first in both
        if spread is not None and spread.tenth < spread.nine_tenths and (first or not once)
    )


# -- words -------------------------------------------------------------------------------------


def odds_words(odds: Odds) -> str:
    """The odds in one sentence without a full stop: how often it ripens, what else becomes of it, and when it is first picked.

    Parameters
    ----------
    odds : Odds
    """
    if not odds.years:
        return say("no recorded year has all the days it needs")
    parts = [_in_years(odds)]
    if odds.small:
        parts.append(say("it stays small in {count}", count=odds.small))
    if odds.frost:
        parts.append(say("frost takes it in {count}", count=odds.frost))
    if odds.seed:
        parts.append(say("it runs to seed in {count}", count=odds.seed))
    if odds.unripe:
        parts.append(say("it does not ripen in time in {count}", count=odds.unripe))
    if odds.cleared:
        parts.append(say("it is cleared before it is ripe in {count}", count=odds.cleared))
    if odds.first is not None:
        parts.append(say("first picking {days}", days=spread_words(odds.first)))
    return "; ".join(parts)


def _in_years(odds: Odds) -> str:
    if odds.rests_on == "nothing":
        return say_count(
            "stands in {picked} of {count} year",
            "stands in {picked} of {count} years",
            odds.years,
            picked=odds.picked,
        )
    if odds.rests_on == "heat":
        return say_count(
            "ripens in {picked} of {count} year",
            "ripens in {picked} of {count} years",
            odds.years,
            picked=odds.picked,
        )
    return say_count(
        "is picked in {picked} of {count} year, by the calendar",
        "is picked in {picked} of {count} years, by the calendar",
        odds.years,
        picked=odds.picked,
    )


def spread_words(spread: DaySpread) -> str:
    """A day and between which days half of the years lie: ``8 July (half of the years between 1 and 15 July)``."""
    if spread.quarter == spread.three_quarters:
        return day_words(spread.middle)
    return say(
        "{middle} (half of the years {between})", middle=day_words(spread.middle), between=half_words(spread)
    )


def half_words(spread: DaySpread) -> str:
    """Between which days half of the years lie: ``between 1 and 15 July``; the day where it is one."""
    early, late = spread.quarter, spread.three_quarters
    if early == late:
        return day_words(early)
    if (early.year, early.month) == (late.year, late.month):
        return say("between {day} and {last}", day=early.day, last=day_words(late))
    return say("between {first} and {last}", first=day_words(early), last=day_words(late))


def left_out_words(odds: Odds) -> str:
    """Which years do not count, and why; empty where all do."""
    ends = [one.year for one in odds.left_out if one.why == "record ends"]
    gaps = [one.year for one in odds.left_out if one.why == "gaps"]
    parts = []
    if gaps:
        parts.append(
            say_count(
                "{count} year is left out, since days are missing in it",
                "{count} years are left out, since days are missing in them",
                len(gaps),
            )
        )
    if ends:
        parts.append(
            say_count(
                "{count} year is left out, since the record ends before the planting does",
                "{count} years are left out, since the record ends before the planting does",
                len(ends),
            )
        )
    return "; ".join(parts)
