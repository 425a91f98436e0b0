"""Water: thirsty crops far from the tap, ground that walls and trees keep dry, unlike needs on one drip line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from typing import NamedTuple

import shapely

from planner.checks.frame import moves
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Bed, Garden, Structure
from planner.garden import edits as e
from planner.garden.units import show_distance
from planner.ground.rain_shadow import WALLS, DryGround, dry_ground
from planner.plan import Plan
from planner.plan.cache import fact
from planner.plan.walking import walk_from
from planner.plan.water import days_of_water
from planner.words import capital, key_words, later, percent, say, say_count

CHECK = "water"
#: What the soil lasts no longer is thirsty (practice). [days]
THIRSTY = 3.0
#: A can is not carried gladly any farther (practice). [m]
FAR_FROM_TAP = 30.0
#: What the soil lasts no longer suffers where rain does not come (practice). [days]
MINDS_DRY_GROUND = 6.0
#: Share of a planting's ground that is kept dry, from which it is said (practice).
DRY_SHARE = 0.3
#: On one line a crop may want water so many times as often as another (practice).
UNLIKE = 2.5

_FAR = later("What wants water often stands near the tap, or on a drip line")
_DRY = later(
    "The foot of a wall and the ground under a tree have half of the rain; what wants much water stands elsewhere"
)
_LINE = later("What hangs on one drip line wants water about as often")


class DryInputs(NamedTuple):
    """What keeps the rain off a bed."""

    bed: Bed
    structures: tuple[Structure, ...]


@fact("dry ground")
def dry_ground_of_bed(inputs: DryInputs) -> tuple[DryGround, ...]:
    """The parts of a bed that walls and trees keep dry."""
    return dry_ground(inputs.bed, inputs.structures)


class FarInputs(NamedTuple):
    """A planting, how long its soil lasts it [days], and how far the tap is [m]."""

    view: PlantingView
    days: float
    distance: float


class DryPlantingInputs(NamedTuple):
    """A planting, how long its soil lasts it [days], and the dry parts of its bed."""

    view: PlantingView
    days: float
    dry: tuple[DryGround, ...]


class UnlikeInputs(NamedTuple):
    """Two plantings on the drip lines of one bed, and how long their soil lasts them. [days]"""

    often: PlantingView
    seldom: PlantingView
    days: float
    other: float


def check(context: CheckContext) -> Iterator[Finding]:
    """Report thirsty crops far from the tap, in dry ground, and on one line with what wants little; none where the climate is not known."""
    plan = context.plan
    taps = any(one.kind == "tap" and one.in_use(plan.year) for one in plan.garden.structures)
    far = walk_from(plan, "tap") if taps else {}
    keeping_off = tuple(
        one for one in plan.garden.structures if one.in_use(plan.year) and one.kind in (*WALLS, "tree")
    )
    if not taps and not keeping_off and not any(bed.drip_lines for bed in plan.garden.beds):
        return  # nothing to judge by, which an edit of a large garden need not look for bed by bed
    by_bed: dict[str, list[tuple[PlantingView, float]]] = {}
    kept_dry: dict[str, tuple[DryGround, ...]] = {}
    for view in context.views:
        if view.manure or not view.placed.plants:
            continue
        bed, distance = view.bed, far.get(view.bed.id, 0.0)
        if bed.id not in kept_dry:
            by_hand = (
                keeping_off and bed.kind != "container" and not bed.drip_lines
            )  # a container is watered anyway
            kept_dry[bed.id] = (
                plan.cached(dry_ground_of_bed, bed.id, DryInputs(bed, keeping_off)) if by_hand else ()
            )
        dry, carried = kept_dry[bed.id], distance > FAR_FROM_TAP and not bed.drip_lines
        if not (dry or carried or bed.drip_lines):
            continue  # asked before the days of water, which cost an edit more
        days = days_of_water(plan, view.planting)
        if days is None:
            continue
        if carried and days <= THIRSTY:
            yield plan.cached(far_finding, view.id, FarInputs(view, round(days, 1), round(distance, 1)))
        if dry and days <= MINDS_DRY_GROUND:
            found = plan.cached(dry_finding, view.id, DryPlantingInputs(view, round(days, 1), dry))
            if found is not None:
                yield found
        if bed.drip_lines:
            by_bed.setdefault(bed.id, []).append((view, round(days, 1)))
    for there in by_bed.values():
        yield from _unlike(plan, there)


def _unlike(plan: Plan, there: list[tuple[PlantingView, float]]) -> Iterator[Finding]:
    """Of a bed with drip lines the pair that is most unlike, where any is."""
    pairs = [
        (other / days, view, seldom, days, other)
        for view, days in there
        for seldom, other in there
        if other > UNLIKE * days and view.span.meets(seldom.span)
    ]
    if pairs:
        _, view, seldom, days, other = max(pairs, key=lambda pair: (pair[0], pair[1].id, pair[2].id))
        yield plan.cached(unlike_finding, view.id, UnlikeInputs(view, seldom, days, other))


@fact("far from the tap finding")
def far_finding(inputs: FarInputs) -> Finding:
    """A thirsty planting far from the tap."""
    view, days, distance = inputs
    text = say(
        "{planting} wants water {often} in summer, and the tap is {distance} from {bed}",
        planting=view.name,
        often=_often(days),
        distance=show_distance(distance, view.units),
        bed=view.bed.name,
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_FAR),
        "practice",
        [days, distance],
        topic="far",
        candidates=lambda plan: _mends(plan, view),
    )


@fact("dry ground finding")
def dry_finding(inputs: DryPlantingInputs) -> Finding | None:
    """A thirsty planting where rain hardly comes."""
    view, days, dry = inputs
    area = view.plot.area
    if area <= 0:
        return None
    parts = [(float(part.shape.intersection(view.plot).area) / area, part) for part in dry]
    share, part = max(parts, key=lambda one: one[0])
    if share < DRY_SHARE:
        return None
    structure = part.structure
    text = say(
        "{share} of {planting} lie in the rain shadow of {structure}; it wants water {often} in summer",
        share=percent(share),
        planting=view.name,
        structure=structure.name or key_words(structure.kind),
        often=_often(days),
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_DRY),
        "practice",
        [days, round(share, 2), structure.id],
        place=shapely.intersection(part.shape, view.plot),
        topic="dry",
        candidates=lambda plan: _mends(plan, view),
        structures=(structure.id,),
    )


@fact("unlike needs finding")
def unlike_finding(inputs: UnlikeInputs) -> Finding:
    """Two plantings on one line of which one wants water much more often."""
    often, seldom, days, other = inputs
    text = say(
        "{planting} wants water {often} in summer and {other} {seldom}, yet they hang on the same drip lines",
        planting=often.name,
        often=_often(days),
        other=seldom.name,
        seldom=_often(other),
    )
    return planting_finding(
        CHECK,
        "note",
        (often, seldom),
        capital(text),
        say(_LINE),
        "practice",
        [days, other],
        topic="unlike",
        candidates=lambda plan: _apart(plan, often, seldom),
    )


def _often(days: float) -> str:
    whole = max(round(days), 1)
    return say("every day") if whole == 1 else say_count("every {count} day", "every {count} days", whole)


def _mends(plan: Plan, view: PlantingView) -> Iterator[Fix]:
    """Drip lines in its bed; another bed."""
    yield Fix(
        say("Lay drip lines in {bed}", bed=view.bed.name),
        say("it is watered without a can"),
        partial(_lay_lines, bed=view.bed.id),
    )
    yield from _elsewhere(plan, (view.id,))


def _apart(plan: Plan, often: PlantingView, seldom: PlantingView) -> Iterator[Fix]:
    """One of the two in another bed; the bed without lines."""
    yield from _elsewhere(plan, (often.id, seldom.id))
    yield Fix(
        say("Water {bed} by hand", bed=often.bed.name),
        say("each is given what it wants"),
        partial(_lay_lines, bed=often.bed.id, there=False),
    )


def _lay_lines(garden: Garden, bed: str, there: bool = True) -> Garden:
    return e.change_bed(garden, bed, drip_lines=there)


def _elsewhere(plan: Plan, keys: Iterable[str]) -> Iterator[Fix]:
    for key in keys:
        view = planting_view(plan, plan.garden.plantings_by_id[key])
        for _, fix in moves.in_other_beds(plan, view):
            if fix is not None:
                yield fix
