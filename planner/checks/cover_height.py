"""Cover, on hoops that are lower than what grows under them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

from planner.amounts.covers import held_by, needed_height
from planner.checks.cover_in_flower import leave_away, take_off
from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden.planting import GUARDS
from planner.garden.units import show_length
from planner.ground.covers import TALLEST_HOOP
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.planting_dates import CoverDays
from planner.season.spans import Span
from planner.words import capital, later, say

CHECK = "cover"
#: What is higher than its hoops by no more than this bends under the sheet (practice). [m]
BENDS = 0.10
#: A cover that would lie for fewer days is not worth laying (practice). [days]
WORTH_LAYING = 7

_RULE = later(
    "Hoops stand as high as what grows under them; of bows of 10 ft they are {height} high at most (University of New Hampshire 2014)"
)


def too_high_for_hoops(view: PlantingView) -> list[Finding]:
    """Report each cover whose hoops are lower than what grows under them."""
    judged = (_judge_cover(view, number, cover) for number, cover in enumerate(view.dates.covers))
    return [finding for finding in judged if finding is not None]


def _hoops(cover: CoverDays) -> float | None:
    """Height of a cover's hoops, at most; None where it has none. [m]"""
    if cover.cover is None or cover.kind in ("cloche", "film", *GUARDS) or held_by(cover.cover) != "hoops":
        return None
    return cover.cover.height or TALLEST_HOOP


def _needed(view: PlantingView, cover: CoverDays, last: dt.date) -> float:
    return needed_height(view.planting, view.figures, view.dates, view.span, (cover.on.day, last))


def _last_day(view: PlantingView, cover: CoverDays) -> dt.date:
    return cover.off.day if cover.off is not None else view.span.last


def _judge_cover(view: PlantingView, number: int, cover: CoverDays) -> Finding | None:
    hoops = _hoops(cover)
    if hoops is None or view.number("height") is None:
        return None
    last = _last_day(view, cover)
    if last < cover.on.day:
        return None
    needed = _needed(view, cover, last)
    if needed <= hoops + BENDS:
        return None
    day = last_day_under(view, cover, hoops)
    text = say(
        "{planting} stands {height} high under hoops of {hoops} until {last}",
        planting=view.name,
        height=show_length(needed, view.units),
        hoops=show_length(hoops, view.units),
        last=view.day(last),
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE, height=show_length(TALLEST_HOOP, view.units)),
        view.source("height"),
        [cover.kind, needed, hoops, str(last)],
        Span(day if day is not None else cover.on.day, last),
        topic="height",
        candidates=partial(_mend, key=view.id, number=number),
    )


def last_day_under(view: PlantingView, cover: CoverDays, hoops: float) -> dt.date | None:
    """The last day on which all that grows under a cover is no higher than its hoops; None where there is none."""
    first, last = cover.on.day, _last_day(view, cover)
    if _needed(view, cover, first) > hoops:
        return None
    low, high = 0, (last - first).days
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (
            (middle, high) if _needed(view, cover, shift(first, middle)) <= hoops else (low, middle - 1)
        )
    return shift(first, low)


def _mend(plan: Plan, key: str, number: int) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    if number >= len(view.dates.covers):
        return
    days = view.dates.covers[number]
    hoops, kinds = _hoops(days), list(view.planting.covers)
    if hoops is None or days.cover is None or days.cover not in kinds:
        return
    place = kinds.index(days.cover)
    needed = _needed(view, days, _last_day(view, days))
    if hoops < needed <= TALLEST_HOOP:
        higher = kinds[place].with_(height=round(needed + 0.005, 2))
        yield Fix(
            say("Raise the hoops to {height}", height=show_length(higher.height or needed, view.units)),
            say("as high as it grows"),
            fixes.changed(view.planting, covers=(*kinds[:place], higher, *kinds[place + 1 :])),
        )
    gain = say("it grows on in the open")
    day = last_day_under(view, days, hoops)
    if day is not None and (day - days.on.day).days >= WORTH_LAYING:
        sooner = kinds[place].with_(last=day)
        yield Fix(
            take_off(days.kind, view.day(day)),
            gain,
            fixes.changed(view.planting, covers=(*kinds[:place], sooner, *kinds[place + 1 :])),
        )
    rest = tuple(other for at, other in enumerate(kinds) if at != place)
    yield Fix(leave_away(days.kind), gain, fixes.changed(view.planting, covers=rest))
