"""Overlap: the same ground taken twice on the same days without being meant to.

Overlap with a perennial is reported by :mod:`planner.checks.perennial_ground`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

import numpy as np
import shapely

from planner.checks.frame import fixes, moves
from planner.checks.frame.context import CheckContext, bed_finding, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import share_words
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Bed
from planner.garden import edits as e
from planner.garden.units import show_area
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital, later, say, say_count

CHECK = "overlap"
#: Least area that is reported. [m2]
SPECK = 0.005
#: Least share of the smaller ground that is reported.
SLIVER = 0.01
#: Share of each other's ground over which single plants may lean; how near they are is reported by ``crowding``.
LEANING = 0.5
#: Plantings that share no more days than this only suffer: clearing one a little sooner is enough. [days]
FEW_DAYS = 14

_RULE = later("One piece of ground carries one planting at a time, unless the two are meant to share it")
_RULE_BEDS = later("Each bed has ground of its own")


def overlapping_ground(one: PlantingView, other: PlantingView) -> shapely.Geometry | None:
    """Ground on the plan that two plantings both take; None if it is meant, or too little to report.

    Parameters
    ----------
    one, other : PlantingView
    """
    if one.planting.shares_ground or other.planting.shares_ground:
        return None
    both = shapely.intersection(one.ground, other.ground)
    single = "places" in (one.planting.arrangement.kind, other.planting.arrangement.kind)
    least = max(SPECK, (LEANING if single else SLIVER) * min(one.ground.area, other.ground.area))
    return both if both.area > least else None


def check(context: CheckContext) -> Iterator[Finding]:
    """Report two plantings, or two beds, that take the same ground on the same days."""
    return (found for found in check_in_steps(context) if found is not None)


def check_in_steps(context: CheckContext) -> Iterator[Finding | None]:
    """The same, with None after two plantings on ground of their own."""
    for pair in context.pairs:
        if pair.apart > 0 or pair.one.stays_for_years or pair.other.stays_for_years:
            continue
        inputs = OverlapInputs(pair.one, pair.other)
        yield context.plan.cached(judge_overlap, (pair.one.id, pair.other.id), inputs)
    yield from _overlapping_beds(context)


# -- plantings ------------------------------------------------------------------------------------


class OverlapInputs(NamedTuple):
    """Two plantings that touch and share days, neither of them perennial."""

    one: PlantingView
    other: PlantingView


@fact("overlap")
def judge_overlap(inputs: OverlapInputs) -> Finding | None:
    """The finding about two plantings on the same ground; None if their ground is apart."""
    both = overlapping_ground(*inputs)
    if both is None:
        return None
    early, late = sorted(inputs, key=lambda view: (view.span.first, view.id))
    days = Span(max(early.span.first, late.span.first), min(early.span.last, late.span.last))
    share = both.area / min(early.ground.area, late.ground.area)
    return planting_finding(
        CHECK,
        "mind" if days.days <= FEW_DAYS else "stop",
        (late, early),
        capital(_overlap_words(early, late, both.area, days)),
        say(_RULE),
        "practice",
        [round(share, 2), str(days.first), str(days.last)],
        days,
        both,
        "plots",
        lambda plan: _separate_plantings(plan, early.id, late.id),
    )


def _overlap_words(early: PlantingView, late: PlantingView, area: float, days: Span) -> str:
    """The sentence about so much ground [m2] taken twice on some days."""
    shown = show_area(area, late.units)
    share = _share_words(early, late, area)
    first = late.day(days.first)
    if days.open:
        return say(
            "{late} and {early} both take {area} ({share}) from {first}",
            late=late.name,
            early=early.crop_name,
            area=shown,
            share=share,
            first=first,
        )
    return say(
        "{late} and {early} both take {area} ({share}) from {first} to {last} ({days})",
        late=late.name,
        early=early.crop_name,
        area=shown,
        share=share,
        first=first,
        last=late.day(days.last),
        days=say_count("{count} day", "{count} days", days.days),
    )


def _share_words(early: PlantingView, late: PlantingView, area: float) -> str:
    """Which share an area [m2] is of the smaller ground, and whose that is."""
    share = share_words(area / min(early.ground.area, late.ground.area))
    if late.ground.area <= early.ground.area:
        return say("{share} of its ground", share=share)
    return say("{share} of the ground of {crop}", share=share, crop=early.crop_name)


def _separate_plantings(plan: Plan, early_id: str, late_id: str) -> Iterator[Fix]:
    early, late = (planting_view(plan, plan.garden.plantings_by_id[key]) for key in (early_id, late_id))
    yield from _in_turn(plan, early, late)
    for one, other in ((late, early), (early, late)):
        yield from fixes.shortened(plan, one, other)
    for one in (late, early):
        yield from moves.elsewhere(plan, one, say("free ground for all of its days"))
    yield fixes.share_ground(
        late, say("the two are meant to stand together; spacing is then checked plant to plant")
    )
    yield fixes.remove(late, say("the ground stays with {crop}", crop=early.crop_name))


def _in_turn(plan: Plan, early: PlantingView, late: PlantingView) -> Iterator[Fix]:
    """Clear the earlier planting sooner, or start the later one after it."""
    picked = early.dates.last_harvest or early.dates.first_harvest
    before = shift(late.span.first, -1)
    if picked is None or picked.day <= before:
        gain = say("after its harvest, a day before {crop}", crop=late.crop_name)
        yield fixes.clear_on(early, before, gain)
    after = shift(early.span.last, 1)
    if not early.span.open and _still_ripens(plan, late, after):
        gain = say("once {crop} is cleared, and it still ripens", crop=early.crop_name)
        yield fixes.start_on(late, after, gain)
    if early.dates.first_harvest is not None and early.dates.first_harvest.day <= before < early.span.last:
        gain = say_count(
            "harvest of {crop} ends {count} day sooner",
            "harvest of {crop} ends {count} days sooner",
            (early.span.last - before).days,
            crop=early.crop_name,
        )
        yield fixes.clear_on(early, before, gain)


def _still_ripens(plan: Plan, view: PlantingView, day: dt.date) -> bool:
    """Whether a planting that starts on a day ripens."""
    try:
        garden = fixes.start_on(view, day, "").apply(plan.garden)
    except e.EditError:
        return False
    return plan.what_if(garden).dates(garden.plantings_by_id[view.id]).ripens


# -- beds -----------------------------------------------------------------------------------------


def _overlapping_beds(context: CheckContext) -> Iterator[Finding]:
    beds = context.beds
    if len(beds) < 2:
        return
    grounds = np.array([context.outline(bed) for bed in beds])
    first, second = shapely.STRtree(grounds).query(grounds, predicate="intersects")
    for i, j in sorted(zip(first.tolist(), second.tolist(), strict=True)):
        if i >= j:
            continue
        both = shapely.intersection(grounds[i], grounds[j])
        if both.area > max(SPECK, SLIVER * min(grounds[i].area, grounds[j].area)):
            yield _bed_overlap(context, beds[i], beds[j], both)


def _bed_overlap(context: CheckContext, one: Bed, other: Bed, both: shapely.Geometry) -> Finding:
    mine, theirs = context.outline(one), context.outline(other)
    return bed_finding(
        CHECK,
        "mind",
        (one.id, other.id),
        say(
            "{one} and {other} both lie on {area} of ground",
            one=one.name,
            other=other.name,
            area=show_area(both.area, context.units),
        ),
        say(_RULE_BEDS),
        "geometry",
        [round(both.area, 2)],
        context.plan.span,
        both,
        "beds",
        lambda plan: _move_apart(one, other, mine, theirs),
    )


def _move_apart(one: Bed, other: Bed, mine: shapely.Polygon, theirs: shapely.Polygon) -> Iterator[Fix]:
    """Move the smaller bed out of the larger one, the shortest way along the plan's axes."""
    small, large, own, ground = (
        (one, other, mine, theirs) if mine.area <= theirs.area else (other, one, theirs, mine)
    )
    left, low, right, high = own.bounds
    begin, foot, end, top = ground.bounds
    ways = [(begin - right, 0.0), (end - left, 0.0), (0.0, foot - high), (0.0, top - low)]
    for dx, dy in sorted(ways, key=lambda way: (abs(way[0]) + abs(way[1]), way)):
        yield Fix(
            say("Move {small} off {large}", small=small.name, large=large.name),
            say("each has its own ground"),
            partial(e.move_things, ids=(small.id,), dx=dx, dy=dy),
        )
