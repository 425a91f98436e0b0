"""Cover, on a crop in flower: it keeps out the insects or the wind that must pollinate it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.plan import Plan
from planner.season.covers import CLOSED
from planner.season.frosts import shift
from planner.season.planting_dates import CoverDays
from planner.season.spans import Span
from planner.words import capital, later, say, say_count

CHECK = "cover"
#: Most days that a cover may stay on after the first flowers: their day is an estimate, and the first ones are male or
#: few (practice). [days]
A_FEW_DAYS = 11
#: Days after the first flowers from which a cover on a perennial guards the set fruit. [days]
SET = 7

_RULE = later("A cover comes off when a crop flowers that must be pollinated")


def covered_in_flower(view: PlantingView) -> list[Finding]:
    """Report each cover that keeps insects or pollen out while the crop flowers."""
    judged = (_judge_cover(view, number, cover) for number, cover in enumerate(view.dates.covers))
    return [finding for finding in judged if finding is not None]


def _judge_cover(view: PlantingView, number: int, cover: CoverDays) -> Finding | None:
    flower, last = view.dates.flower, view.dates.last_harvest
    if flower is None or cover.kind not in CLOSED:
        return None
    if view.stays_for_years and cover.on.day > shift(flower.day, SET):
        return None  # put on over the set fruit, against birds
    off = cover.off.day if cover.off is not None else view.span.last
    first, end = max(flower.day, cover.on.day), min(off, last.day if last is not None else off)
    days = (end - first).days
    if days <= A_FEW_DAYS:
        return None
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(_in_flower(view, cover.kind, flower.day, off, days)),
        say(_RULE),
        view.source("needs_pollination"),
        [cover.kind, str(flower.day), str(off)],
        Span(first, off),
        topic="flower",
        candidates=partial(_uncover, key=view.id, number=number),
    )


def _in_flower(view: PlantingView, kind: str, flower: dt.date, off: dt.date, days: int) -> str:
    covered = _flowers_under(kind, view.name, view.day(flower), view.day(off))
    pollination = view.crop.pollination if view.crop is not None else None
    if pollination is not None and pollination.value == "wind":
        return say_count(
            "{covered}, {count} day in which no pollen blows in",
            "{covered}, {count} days in which no pollen blows in",
            days,
            covered=covered,
        )
    return say_count(
        "{covered}, {count} day in which no insect reaches the flowers",
        "{covered}, {count} days in which no insect reaches the flowers",
        days,
        covered=covered,
    )


def _flowers_under(kind: str, name: str, flower: str, off: str) -> str:
    """That a planting flowers from one day and stays covered until another."""
    match kind:
        case "fleece":
            return say(
                "{planting} flowers from {flower} and stays under fleece until {off}",
                planting=name,
                flower=flower,
                off=off,
            )
        case "netting":
            return say(
                "{planting} flowers from {flower} and stays under netting until {off}",
                planting=name,
                flower=flower,
                off=off,
            )
        case "cloche":
            return say(
                "{planting} flowers from {flower} and stays under a cloche until {off}",
                planting=name,
                flower=flower,
                off=off,
            )
    return say(
        "{planting} flowers from {flower} and stays under a low tunnel until {off}",
        planting=name,
        flower=flower,
        off=off,
    )


def _uncover(plan: Plan, key: str, number: int) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    flower, covers = view.dates.flower, list(view.planting.covers)
    if flower is None or number >= len(covers):
        return
    cover = covers[number]
    gain = say("in flower it stands open")
    if cover.first is None or cover.first < flower.day:
        covers[number] = cover.with_(last=flower.day)
        change = fixes.changed(view.planting, covers=tuple(covers))
        yield Fix(take_off(cover.kind, view.day(flower.day)), gain, change)
    rest = tuple(other for i, other in enumerate(view.planting.covers) if i != number)
    yield Fix(leave_away(cover.kind), gain, fixes.changed(view.planting, covers=rest))


def take_off(kind: str, day: str) -> str:
    match kind:
        case "fleece":
            return say("Take the fleece off on {day}", day=day)
        case "netting":
            return say("Take the netting off on {day}", day=day)
        case "cloche":
            return say("Take the cloche off on {day}", day=day)
        case "film":
            return say("Take the film off on {day}", day=day)
    return say("Take the low tunnel off on {day}", day=day)


def leave_away(kind: str) -> str:
    match kind:
        case "fleece":
            return say("Leave the fleece away")
        case "netting":
            return say("Leave the netting away")
        case "cloche":
            return say("Leave the cloche away")
        case "film":
            return say("Leave the film away")
    return say("Leave the low tunnel away")
