"""Crowding by vines: squash, pumpkins and melons that run over low crops beside them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import NamedTuple

import shapely

from planner.checks.frame import fixes, moves, swaps
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Candidate, Finding
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden.units import show_distance
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital, later, say

CHECK = "crowding"
#: Least spread of what runs (practice). [m]
RUNS = 1.2
#: Share of half its spread within which its leaves lie close (practice).
CLOSE = 0.8
#: Height below which a crop is covered by vines (practice). [m]
LOW = 0.5
#: Least days that the low crop is covered. [days]
COVERED = 14
#: Step in which the day is looked for on which the vines arrive. [days]
STEP = 3

_RULE = later("Vines have ground to run over, or something tall beside them")


class VinesInputs(NamedTuple):
    """Two plantings near each other, and the first and last day they share."""

    one: PlantingView
    other: PlantingView
    first: dt.date
    last: dt.date


@fact("crowding by vines")
def judge_vines(inputs: VinesInputs) -> Finding | None:
    """The finding about vines that run over a low crop; None where none do."""
    one, other, first, last = inputs
    if one.planting.shares_ground or other.planting.shares_ground:
        return None
    for vine, low in ((one, other), (other, one)):
        if _runs(vine) and _is_low(low):
            return _judge(vine, low, first, last)
    return None


def _runs(view: PlantingView) -> bool:
    """Whether it runs over the ground: a sprawling crop without a support."""
    crop, spread = view.crop, view.number("spread")
    runs = crop is not None and crop.growth_form == "sprawler" and view.planting.support is None
    return runs and spread is not None and spread >= RUNS and not view.manure


def _is_low(view: PlantingView) -> bool:
    height = view.number("height")
    return height is not None and height < LOW and not _runs(view) and not view.manure


def _judge(vine: PlantingView, low: PlantingView, first: dt.date, last: dt.date) -> Finding | None:
    if not len(vine.points) or not len(low.points):
        return None
    away = float(shapely.distance(shapely.multipoints(vine.points), shapely.multipoints(low.points)))
    if away >= CLOSE * (vine.number("spread") or 0.0) / 2:
        return None
    day = first
    while day <= last and CLOSE * vine.size(day).spread / 2 <= away:
        day = shift(day, STEP)
    if (last - day).days < COVERED:
        return None
    text = say(
        "{vine} runs over {crop} from {day} on: it grows {reach} to all sides, and the nearest plants are {away} away",
        vine=vine.name,
        crop=low.crop_name if low.bed is vine.bed else low.name,
        day=vine.day(day),
        reach=show_distance((vine.number("spread") or 0.0) / 2, vine.units),
        away=show_distance(away, vine.units),
    )
    return planting_finding(
        CHECK,
        "note",
        (vine, low),
        capital(text),
        say(_RULE),
        vine.source("spread"),
        [str(day), round(away, 2)],
        Span(day, last),
        topic="vines",
        candidates=lambda plan: _apart(plan, vine.id, low.id, day),
    )


def _apart(plan: Plan, key: str, other_key: str, day: dt.date) -> Iterator[Candidate]:
    vine, low = (planting_view(plan, plan.garden.plantings_by_id[one]) for one in (key, other_key))
    picked = low.dates.first_harvest
    if picked is not None and picked.day < day and not low.stays_for_years:
        yield fixes.clear_on(low, day, say("gone before the vines arrive"))
    for one in (vine, low):
        yield from moves.elsewhere(
            plan, one, say("ground to run over") if one is vine else say("out of the vines")
        )
        yield from swaps.swapped(plan, one, "")
    yield fixes.remove(low, say("nothing is lost under the vines"))
    yield fixes.remove(vine, say("room for {crop}", crop=low.crop_name))
