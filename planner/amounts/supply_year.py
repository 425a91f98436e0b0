"""The year of a household: of each crop what is harvested, eaten, too much, too little, and how long its store lasts."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from planner.amounts.eating import ALL_YEAR, STORED, Appetite, all_the_year, appetite, over_weeks
from planner.amounts.harvest import FRESH_PLACE, PRESERVED, Harvest, harvests, kept_from_before
from planner.amounts.larder import Course, Lot, LotCourse, Stretch, course_of
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.season.tasks import monday
from planner.words import join_list

#: Share of what is wanted in a week that may lack before the week is one of a gap (practice).
MAY_LACK = 0.1
#: Least amount that is called too much. [g]
LEAST_GLUT = 100
#: Days beyond the growing year for which stores are followed: as long as anything keeps. [days]
BEYOND = 400


class Glut(NamedTuple):
    """Weeks in which more is picked fresh than is eaten before it spoils.

    ``first`` is a Monday, ``last`` a Sunday; ``grams`` are what spoils. [g]
    """

    first: dt.date
    last: dt.date
    grams: int


class Gap(NamedTuple):
    """Weeks in which less is there than is eaten; ``first`` is a Monday, ``last`` a Sunday, ``grams`` lack. [g]"""

    first: dt.date
    last: dt.date
    grams: int


class WeekOf(NamedTuple):
    """A week of a crop: what is picked in it, what is wanted, and what of that is eaten. [g]"""

    monday: dt.date
    picked: int
    wanted: int
    eaten: int


@dataclass(frozen=True)
class CropYear:
    """A crop, or crops that are eaten in each other's place, in a growing year.

    Attributes
    ----------
    name : str
        As shown.
    appetite : Appetite
    harvests : tuple of Harvest
        Of the growing year.
    before : tuple of Harvest
        Of the year before, that kept into it.
    course : Course or None
        What became of it all; None where it is not known how much is eaten.
    weeks : tuple of WeekOf
        All of the growing year; empty without a course.
    gluts : tuple of Glut
    followed : tuple of (date, int, int)
        Monday, wanted and eaten of each week from the growing year's first day on, as long as stores are followed. [g]
    """

    name: str
    appetite: Appetite
    harvests: tuple[Harvest, ...]
    before: tuple[Harvest, ...]
    course: Course | None
    weeks: tuple[WeekOf, ...] = ()
    gluts: tuple[Glut, ...] = ()
    followed: tuple[tuple[dt.date, int, int], ...] = ()

    @property
    def waiting(self) -> tuple[LotCourse, ...]:
        """Lots that were not picked to be eaten fresh."""
        lots = self.course.lots if self.course is not None else ()
        return tuple(one for one in lots if one.lot.place != FRESH_PLACE and one.lot.grams)

    @property
    def stored(self) -> tuple[tuple[Harvest, LotCourse], ...]:
        """Lots of the store and of what waits in the ground, the one that is good for the shortest time first.

        Whatever is good for fewer than :data:`planner.amounts.eating.STORED` days is no store.
        """
        if self.course is None:
            return ()
        owners = {one.planting.id: one for one in (*self.before, *self.harvests)}
        kept = [one for one in self.waiting if (one.lot.last - one.lot.first).days >= STORED]
        return tuple((owners[one.lot.planting], one) for one in sorted(kept, key=lambda one: one.lot.last))

    def gaps(self, first: dt.date, last: dt.date) -> tuple[Gap, ...]:
        """Runs of weeks between two days, whole weeks of them, in which too little is there; none without a course."""
        runs: list[Gap] = []
        for week, wanted, eaten in self.followed:
            inside = first <= week and shift(week, 6) <= last
            if not inside or wanted - eaten <= MAY_LACK * wanted:
                continue
            if runs and shift(runs[-1].last, 1) == week:
                runs[-1] = Gap(runs[-1].first, shift(week, 6), runs[-1].grams + wanted - eaten)
            else:
                runs.append(Gap(week, shift(week, 6), wanted - eaten))
        return tuple(runs)

    def lacks(self, first: dt.date, last: dt.date) -> int:
        """What is wanted and not there in the weeks that begin between two days. [g]"""
        return sum(wanted - eaten for week, wanted, eaten in self.followed if first <= week <= last)

    def finishes(self, courses: Iterable[LotCourse]) -> int:
        """The least weekly amount at which nothing of some of its lots spoils that is not eaten sooner. [g]

        All lots are followed, as at the amount that is eaten: those that are good for the shortest time go first.

        Parameters
        ----------
        courses : iterable of LotCourse
        """
        assert self.course is not None
        lots = [one.lot for one in self.course.lots]
        wanted = {one.lot for one in courses}
        first, last = min(lot.first for lot in lots), max(lot.last for lot in lots)

        def spoils(weekly: int) -> bool:
            course = course_of(lots, weekly, first, last)
            return any(one.spoilt for one in course.lots if one.lot in wanted)

        low, high = self.appetite.weekly or 1, 7 * sum(lot.grams for lot in lots) + 7
        while low < high - max(1, low // 100):
            middle = (low + high) // 2
            low, high = (middle, high) if spoils(middle) else (low, middle)
        return high

    @property
    def season(self) -> tuple[dt.date, dt.date] | None:
        """First and last day on which something of this year's harvest is there; None without one."""
        lots = [lot for one in self.harvests for lot in one.lots]
        if not lots:
            return None
        return min(lot.first for lot in lots), max(lot.last for lot in lots)


def level_on(course: LotCourse, day: dt.date) -> int:
    """What is left of a lot on a day on which a stretch begins: the first of a month, a Monday. [g]"""
    return next((grams for at, grams in course.levels if at == day), 0)


class CropYearInputs(NamedTuple):
    """What the year of a crop depends on."""

    eats: Appetite
    persons: float
    now: tuple[Harvest, ...]
    before: tuple[Harvest, ...]
    year: tuple[dt.date, dt.date]


@fact("crop year")
def crop_year(inputs: CropYearInputs) -> CropYear:
    """The year of a crop, or of crops that are eaten in each other's place."""
    eats, persons, now, before, year = inputs
    span = Span(*year)
    name = join_list(dict.fromkeys(one.crop for one in (now or before)))
    if any(one.planting.purpose in PRESERVED for one in (*now, *before)):
        eats = all_the_year(eats, persons)
    elif there := weeks_of(lot for one in now for lot in one.lots):
        eats = over_weeks(eats, persons, max(there, eats.weeks))
    if eats.weekly is None:
        return CropYear(name, eats, now, before, None)
    lots = [lot for one in (*before, *now) for lot in one.lots]
    last = shift(span.last, BEYOND)
    # With a stretch for each week and month from the growing year's first day on.
    course = course_of(lots, eats.weekly, shift(span.first, -365), last, _marks(span.first, last))
    followed = [one for one in course.stretches if one.first >= span.first]
    within = [one for one in followed if one.first <= span.last]
    weeks = tuple(_weeks(span, _sums_of_weeks(within), now))
    gluts = tuple(_gluts(course, span.first))
    return CropYear(name, eats, now, before, course, weeks, gluts, _sums_of_weeks(followed))


def weeks_of(lots: Iterable[Lot]) -> int:
    """Weeks of a year in which something of some lots is good to eat; 0 without any.

    Examples
    --------
    >>> weeks_of([Lot("a", 9, dt.date(2026, 8, 1), dt.date(2026, 8, 14)), Lot("b", 9, dt.date(2026, 8, 8), dt.date(2026, 8, 21))])
    3
    """
    days, end = 0, dt.date.min
    for first, last in sorted((lot.first, lot.last) for lot in lots if lot.grams):
        if last > end:
            days += (last - max(first, shift(end, 1) if end > dt.date.min else first)).days + 1
            end = last
    return min(ALL_YEAR, math.ceil(days / 7))


def _sums_of_weeks(stretches: Iterable[Stretch]) -> tuple[tuple[dt.date, int, int], ...]:
    weeks: dict[dt.date, list[int]] = {}
    for one in stretches:
        week = weeks.setdefault(monday(one.first), [0, 0])
        week[0] += one.wanted
        week[1] += one.eaten
    return tuple((day, wanted, eaten) for day, (wanted, eaten) in weeks.items())


def _marks(first: dt.date, last: dt.date) -> set[dt.date]:
    """Mondays and first days of months."""
    mondays = range((last - monday(first)).days // 7 + 1)
    found = {first, *(shift(monday(first), 7 * number) for number in mondays)}
    return found | set(month_firsts(first, last))


def month_firsts(first: dt.date, last: dt.date) -> list[dt.date]:
    """First days of the months between two days."""
    months = range(first.year * 12 + first.month - 1, last.year * 12 + last.month)
    days = [dt.date(number // 12, number % 12 + 1, 1) for number in months]
    return [day for day in days if first <= day <= last]


def crop_years(plan: Plan) -> tuple[CropYear, ...]:
    """All crops of which something is harvested in the plan's growing year, or kept from the one before, by name.

    Parameters
    ----------
    plan : Plan
        Its garden's household says how much is eaten.
    """
    now, before = harvests(plan), kept_from_before(plan)
    groups: dict[str, tuple[Appetite, list[Harvest], list[Harvest]]] = {}
    known: dict[str, Appetite] = {}
    for which, found in ((1, now), (2, before)):
        for one in found:
            crop = one.planting.crop
            if crop not in known:
                known[crop] = appetite(plan.garden, plan.catalogue, crop)
            group = groups.setdefault(known[crop].key, (known[crop], [], []))
            (group[1] if which == 1 else group[2]).append(one)
    persons, year = plan.garden.household.persons, (plan.span.first, plan.span.last)
    years = (
        plan.cached(
            crop_year,
            (key, plan.year),
            CropYearInputs(eats, persons, tuple(of_year), tuple(earlier), year),
        )
        for key, (eats, of_year, earlier) in groups.items()
    )
    return tuple(sorted(years, key=lambda one: one.name.casefold()))


def _weeks(
    span: Span, of_year: Iterable[tuple[dt.date, int, int]], now: Iterable[Harvest]
) -> Iterable[WeekOf]:
    picked: dict[dt.date, int] = {}
    for harvest in now:
        for week, grams in harvest.weeks(span).items():
            picked[week] = picked.get(week, 0) + grams
    for week, wanted, eaten in of_year:
        yield WeekOf(week, picked.get(week, 0), wanted, eaten)


def _gluts(course: Course, year: dt.date) -> Iterable[Glut]:
    """Runs of weeks of which fresh pickings spoil."""
    spoilt: dict[dt.date, int] = {}
    for one in course.lots:
        if one.spoilt and one.lot.place == FRESH_PLACE and one.lot.first >= year:
            week = monday(one.lot.first)
            spoilt[week] = spoilt.get(week, 0) + one.spoilt
    runs: list[Glut] = []
    for week in sorted(spoilt):
        if runs and shift(runs[-1].last, 1) == week:
            runs[-1] = Glut(runs[-1].first, shift(week, 6), runs[-1].grams + spoilt[week])
        else:
            runs.append(Glut(week, shift(week, 6), spoilt[week]))
    return [run for run in runs if run.grams >= LEAST_GLUT]
