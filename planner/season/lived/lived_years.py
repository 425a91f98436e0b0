"""What would have become of a planting in each recorded year, and which years count."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.season.lived.growth_places import LONGEST
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.lived.recorded_years import NEVER, Positions
from planner.season.thermal_time import Numbers

#: What becomes of a planting in a year: it is picked (or stands until its end, where nothing is picked of it); frost takes it or
#: its blossom; it runs to seed first; it is not ripe when its year ends; it is cleared, as planned, before it is ripe.
Fate = Literal["picked", "frost", "seed", "unripe", "cleared"]
FATES: tuple[Fate, ...] = ("picked", "frost", "seed", "unripe", "cleared")
PICKED, FROST, SEED, UNRIPE, CLEARED = range(len(FATES))
#: Why a year does not count: the record ends before the planting does, or days of its life are missing.
WhyLeftOut = Literal["record ends", "gaps"]
#: What the first picking rests on: warmth; the same days in every year; the calendar, of what stays; nothing is picked.
RestsOn = Literal["heat", "days", "calendar", "nothing"]


class LeftOutYear(NamedTuple):
    """A recorded growing year that does not count for a planting, and why."""

    year: int
    why: WhyLeftOut


@dataclass(frozen=True, eq=False)
class Lived:
    """A planting lived through the recorded years.

    Days are ordinals (``date.toordinal``) in the calendar of the plan: so many days from its start as in the recorded year.
    NaN where a day does not come.

    Attributes
    ----------
    rests_on : str
        One of :data:`RestsOn`.
    years : ndarray of int, shape (years,)
        Recorded growing years that count.
    left_out : tuple of LeftOutYear
    fate : ndarray of int, shape (years,)
        Places in :data:`FATES`.
    start, emergence, flower, frost, seed, first, last, free : ndarray, shape (years,)
        Days on which it takes its plot; comes up; flowers; a night kills it or its blossom, and it has run to seed, while it stands; it is first and
        last picked, where its fate is to be picked; and from the day after which its ground is free.
    bridged : int
        Days of the record whose gap was bridged.
    small : ndarray of bool, shape (years,)
        It is picked before its winter with less warmth than it needs, as large as it is; empty where that is in no year.
    """

    rests_on: RestsOn
    years: Positions
    left_out: tuple[LeftOutYear, ...]
    fate: NDArray[np.int8]
    start: Numbers
    emergence: Numbers
    flower: Numbers
    frost: Numbers
    seed: Numbers
    first: Numbers
    last: Numbers
    free: Numbers
    bridged: int = 0
    small: NDArray[np.bool_] = field(default_factory=lambda: np.zeros(0, dtype=bool))

    def __post_init__(self) -> None:
        self.years.flags.writeable = self.fate.flags.writeable = False

    @property
    def picked(self) -> NDArray[np.bool_]:
        """Whether it is picked in each year."""
        found: NDArray[np.bool_] = self.fate == PICKED
        return found

    @property
    def harvest_days(self) -> Numbers:
        """Days from the first picking to the last, both included; 0 in years in which it is not picked; NaN where the last is not known."""
        return np.where(self.picked, self.last - self.first + 1, 0.0)


class Places(NamedTuple):
    """What becomes of a planting, as places among the days of the record, for all recorded years."""

    rests_on: RestsOn
    fate: NDArray[np.int8]
    start: Positions
    emergence: Positions
    flower: Positions
    frost: Positions
    seed: Positions
    first: Positions
    last: Positions
    free: Positions
    small: NDArray[np.bool_]


def counted(places: Places, planned: Positions, day: dt.date, weather: RecordedWeather) -> Lived:
    """The years that count, with days in the calendar of the plan.

    Parameters
    ----------
    places : Places
    planned : ndarray of int, shape (years,)
        Where a day of the plan lies in each recorded year.
    day : date
        That day.
    weather : RecordedWeather
    """
    years, days = weather.years, weather.years.days
    ends = np.where(places.last < NEVER, places.last, 0)
    for one in (places.first, places.free):
        ends = np.maximum(ends, np.where(one < NEVER, one, 0))
    ends = np.where((places.fate == UNRIPE) & (places.free == NEVER), places.start + LONGEST, ends)
    begins = np.minimum(planned, places.start)
    there = (begins >= 0) & (begins < days) & (places.start < days)
    whole = there & (ends <= days)
    lacking = years.lacking
    gaps = whole & (lacking[np.minimum(ends, days)] > lacking[np.minimum(np.maximum(begins, 0), days)])
    counts = whole & ~gaps
    left_out = tuple(
        LeftOutYear(int(year), "gaps" if gap else "record ends")
        for year, gap in zip(years.years[~counts], gaps[~counts], strict=True)
    )
    told = np.array(
        (
            places.start,
            places.emergence,
            places.flower,
            places.frost,
            places.seed,
            places.first,
            places.last,
            places.free,
        )
    )
    ordinals = (told - (planned - day.toordinal())).astype(np.float64)
    ordinals[told >= NEVER // 2] = np.nan
    ordinals = ordinals[:, counts]
    ordinals.flags.writeable = False
    start, emergence, flower, frost, seed, first, last, free = ordinals
    return Lived(
        rests_on=places.rests_on,
        years=years.years[counts],
        left_out=left_out,
        fate=places.fate[counts],
        start=start,
        emergence=emergence,
        flower=flower,
        frost=frost,
        seed=seed,
        first=first,
        last=last,
        free=free,
        small=places.small[counts],
        bridged=years.bridged,
    )
