"""Overlap: the same ground taken twice on the same days without being meant to.

Ground that a planting of many years takes is another matter: see ``standing``.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

import numpy as np
import shapely

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, Pair, bed_finding, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import plural_days, share_words
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Bed
from planner.garden import edits as e
from planner.garden.units import show_area
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital

CHECK = "overlap"
#: Less ground than this, or than this share of the smaller plot, is not said. [m2]
SPECK, SLIVER = 0.005, 0.01
#: Single plants may lean over so much of each other's ground; how near they stand is said by ``crowding``.
LEANING = 0.5
#: Plantings that share so few days can be helped by clearing one a little sooner. [days]
FEW_DAYS = 14

_RULE = "One piece of ground carries one planting at a time, unless the two are meant to share it"
_RULE_BEDS = "Each bed has ground of its own"


def ground_taken_twice(pair: Pair) -> shapely.Geometry | None:
    """Ground two plantings both take, where that is not meant."""
    if pair.apart > 0 or pair.one.planting.shares_ground or pair.other.planting.shares_ground:
        return None
    one, other = pair.one.ground, pair.other.ground
    both = shapely.intersection(one, other)
    places = "places" in (pair.one.planting.arrangement.kind, pair.other.planting.arrangement.kind)
    least = max(SPECK, (LEANING if places else SLIVER) * min(one.area, other.area))
    return both if both.area > least else None


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    for pair in context.pairs:
        if pair.apart > 0 or pair.one.stays_for_years or pair.other.stays_for_years:
            continue
        found = context.plan.once(
            f"overlap with {pair.other.id}",
            pair.one.id,
            (pair.one, pair.other, context.plan.year),
            partial(_of_pair, pair),
        )
        if found is not None:
            yield found
    yield from _beds(context)


def _of_pair(pair: Pair) -> Finding | None:
    both = ground_taken_twice(pair)
    if both is None:
        return None
    early, late = sorted((pair.one, pair.other), key=lambda s: (s.span.first, s.id))
    days = Span(max(early.span.first, late.span.first), min(early.span.last, late.span.last))
    share = both.area / min(early.ground.area, late.ground.area)
    smaller = "its ground" if late.ground.area <= early.ground.area else f"the ground of {early.crop_name}"
    length = plural_days(days.days)
    when = f"from {late.day(days.first)}"
    when += "" if days.last.year > 2900 else f" to {late.day(days.last)} ({length})"
    text = (
        f"{late.name} and {early.crop_name} both take {show_area(both.area, late.units)} "
        f"({share_words(share)} of {smaller}) {when}"
    )
    return planting_finding(
        CHECK,
        "mind" if days.days <= FEW_DAYS else "stop",
        (late, early),
        capital(text),
        _RULE,
        "practice",
        [round(share, 2), f"{days.first}", f"{days.last}"],
        days,
        both,
        "plots",
        lambda plan: _fixes(plan, early.id, late.id),
    )


def _fixes(plan: Plan, early_id: str, late_id: str) -> Iterator[Fix]:
    early, late = (planting_view(plan, plan.garden.plantings_by_id[key]) for key in (early_id, late_id))
    picked = early.dates.last_harvest or early.dates.first_harvest
    before = shift(late.span.first, -1)
    if picked is None or picked.day <= before:
        yield fixes.clear_on(early, before, f"after its harvest, a day before {late.crop_name}")
    after = shift(early.span.last, 1)
    if not early.span.open and _still_ripens(plan, late, after):
        yield fixes.start_on(late, after, f"once {early.crop_name} is cleared, and it still ripens")
    if early.dates.first_harvest is not None and early.dates.first_harvest.day <= before < early.span.last:
        lost = (early.span.last - before).days
        yield fixes.clear_on(early, before, f"harvest of {early.crop_name} ends {plural_days(lost)} sooner")
    for one, other in ((late, early), (early, late)):
        yield from fixes.shortened(plan, one, other)
    yield from fixes.elsewhere(plan, late, "free ground for all of its days")
    yield from fixes.elsewhere(plan, early, "free ground for all of its days")
    yield fixes.share_ground(
        late, "the two are meant to stand together; spacing is then checked plant to plant"
    )
    yield fixes.remove(late, f"the ground stays with {early.crop_name}")


def _still_ripens(plan: Plan, view: PlantingView, day: dt.date) -> bool:
    try:
        garden = fixes.start_on(view, day, "").apply(plan.garden)
    except e.EditError:
        return False
    after = plan.what_if(garden)
    return after.dates(garden.plantings_by_id[view.id]).ripens


def _beds(context: CheckContext) -> Iterator[Finding]:
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
            yield _of_beds(context, beds[i], beds[j], both)


def _of_beds(context: CheckContext, one: Bed, other: Bed, both: shapely.Geometry) -> Finding:
    text = f"{one.name} and {other.name} both lie on {show_area(both.area, context.units)} of ground"
    return bed_finding(
        CHECK,
        "mind",
        (one.id, other.id),
        text,
        _RULE_BEDS,
        "geometry",
        [round(both.area, 2)],
        context.plan.span,
        both,
        "beds",
        lambda plan: _pushed(one, other, context.outline(one), context.outline(other)),
    )


def _pushed(one: Bed, other: Bed, mine: shapely.Polygon, yours: shapely.Polygon) -> Iterator[Fix]:
    """Move the smaller bed out of the larger one, the shortest way along the plan's axes."""
    small, large, own, ground = (
        (one, other, mine, yours) if mine.area <= yours.area else (other, one, yours, mine)
    )
    left, low, right, high = own.bounds
    begin, foot, end, top = ground.bounds
    ways = [(begin - right, 0.0), (end - left, 0.0), (0.0, foot - high), (0.0, top - low)]
    for dx, dy in sorted(ways, key=lambda way: (abs(way[0]) + abs(way[1]), way)):
        yield Fix(
            f"Move {small.name} off {large.name}",
            "each has its own ground",
            partial(e.move_things, ids=(small.id,), dx=dx, dy=dy),
        )
