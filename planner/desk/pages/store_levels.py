"""What is in store over the months as a picture, and a week of it in words."""

from __future__ import annotations

import calendar
import datetime as dt
from collections.abc import Iterable, Sequence

from planner.desk.pages.harvest_rows import Stored
from planner.desk.pages.harvest_weeks import MOST_NAMED, mondays_of, scale_of
from planner.desk.pages.stack_lines import Mark, runs
from planner.desk.pages.stacked_weeks import Band, Stack
from planner.listings.store import place_name
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import day_words, join_list, say

#: Days that the picture of a single crop goes on after its end, so that this has room for its name. [days]
AFTERWARDS = 75


def store_stack(plan: Plan, found: Sequence[Stored], *, single: bool) -> Stack:
    """The level of the stores on each Monday, until the last of them is over.

    Of a single crop each lot is a band and the day on which it runs out or is no more good is marked; of several each crop
    is a band.

    Parameters
    ----------
    plan : Plan
    found : sequence of (CropYear, Harvest, LotCourse)
    single : bool
    """
    span = Span(plan.span.first, _end(plan, found, AFTERWARDS if single else 0))
    mondays = mondays_of(span)
    parts = _levels(plan, found, mondays, single=single)
    sums = [sum(levels[week] for *_, levels in parts) for week in range(len(mondays))]
    unit, grams = scale_of(plan, max(sums, default=0))
    bands = tuple(
        Band(key, name, family, tuple(level / grams for level in levels))
        for key, name, family, levels in parts
    )
    marks = tuple(_marks(plan, found, mondays, sums)) if single else ()
    return Stack(mondays, span, bands, unit=unit, marks=marks)


def _end(plan: Plan, found: Sequence[Stored], days: int) -> dt.date:
    last = max((course.gone or course.lot.last for *_, course in found), default=plan.span.last)
    last = max(shift(last, days), plan.span.last)
    return last.replace(day=calendar.monthrange(last.year, last.month)[1])


def _levels(
    plan: Plan, found: Sequence[Stored], mondays: Sequence[dt.date], *, single: bool
) -> list[tuple[str, str, str, list[int]]]:
    parts: dict[str, tuple[str, str, str, list[int]]] = {}
    for _, one, course in found:
        key = f"{one.planting.id} {course.lot.first}" if single else one.planting.crop
        name = _lot_name(plan, one.bed.name, course.lot.place) if single else one.crop
        crop = plan.figures_of(one.planting).crop
        family = crop.family if crop is not None else ""
        part = parts.setdefault(key, (key, name, family, [0] * len(mondays)))
        levels = dict(course.levels)
        for week, day in enumerate(mondays):
            part[3][week] += levels.get(day, 0)
    return sorted(parts.values(), key=lambda part: (part[2], part[1].casefold()))


def _lot_name(plan: Plan, bed: str, place: str) -> str:
    return say("{bed}, {place}", bed=bed, place=place_name(plan, place))


def _marks(
    plan: Plan, found: Sequence[Stored], mondays: Sequence[dt.date], sums: Sequence[int]
) -> Iterable[Mark]:
    """Weeks in which nothing of a crop is left, until something comes again or the picture ends."""
    ends = sorted(_end_of(one) for one in found)
    for first, last in runs([0.0 if level else 1.0 for level in sums]):
        if first == 0:
            continue  # before the first lot
        end, spoils = max(one for one in ends if one[0] < mondays[first])
        day = day_words(end, plan.year)
        name = say("rest spoils after {day}", day=day) if spoils else say("runs out {day}", day=day)
        yield Mark(first, last, name, lacks=True)


def _end_of(one: Stored) -> tuple[dt.date, bool]:
    """The day on which a lot is eaten, or no more good, and whether some of it spoils."""
    course = one[2]
    return (course.gone, False) if course.gone is not None else (course.lot.last, True)


def level_words(plan: Plan, found: Sequence[Stored], week: dt.date, *, single: bool) -> str:
    """What is in store on a Monday, in words.

    Parameters
    ----------
    plan : Plan
    found : sequence of (CropYear, Harvest, LotCourse)
    week : date
        The Monday.
    single : bool
        Whether they are of one crop: each lot is named then.
    """
    units, day = plan.garden.site.units, day_words(week, plan.year)
    parts = _levels(plan, found, (week,), single=single)
    there = sorted(((levels[0], name) for _, name, _, levels in parts if levels[0]), key=lambda one: -one[0])
    if not there:
        return say("{day}: nothing is in store.", day=day)
    named = [
        say("{name} {weight}", name=name, weight=weight_words(grams, units))
        for grams, name in there[:MOST_NAMED]
    ]
    if rest := there[MOST_NAMED:]:
        named.append(say("others {weight}", weight=weight_words(sum(grams for grams, _ in rest), units)))
    return say(
        "{day}: {weight} in store: {what}.",
        day=day,
        weight=weight_words(sum(grams for grams, _ in there), units),
        what=join_list(named),
    )
