"""Access: ground out of a hand's reach, and paths too narrow to walk."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np
import shapely

from planner.checks.access_fixes import WIDTH_TOLERANCE, bring_into_reach, widen_path
from planner.checks.frame.context import CheckContext, bed_finding
from planner.checks.frame.finding import Finding
from planner.checks.frame.phrases import share_words
from planner.garden import Bed
from planner.garden.units import show_area, show_length
from planner.ground.narrow_places import Narrow, narrow_places
from planner.ground.reach import accessible_sides, out_of_reach
from planner.ground.shapes import outline_area, polygons_of, shape_to_plan
from planner.plan.cache import fact
from planner.words import later, say

REACH, PATH = "reach", "path"
#: Least share of a bed out of reach that is reported.
LEAST_SHARE = 0.05
#: Beds that overlap by more are reported by ``overlap``; their sides are not judged. [m2]
SPECK = 0.005
#: Greatest distance of what blocks the side of a bed. [m]
BESIDE = 0.05
#: Width below which a gap between two beds is a joint, not a path. [m]
JOINT = 0.12
#: Width below which a bed stands against a wall or fence. [m]
AGAINST = 0.30
#: Greatest distance of a point that counts as on the outline of a bed. [m]
AT_BED = 0.02
#: Least area between a bed and its convex hull that may hold a path. [m2]
LEAST_HOLLOW = 1e-3

_RULE_REACH = later("All ground of a bed lies within a hand's reach of a side one can stand at")
_RULE_PATH = later("A path is as wide everywhere as the least width of the garden's paths")


# -- reach ----------------------------------------------------------------------------------------


def check_reach(context: CheckContext) -> Iterator[Finding]:
    """Report beds of which some ground is out of a hand's reach."""
    return (found for found in check_reach_in_steps(context) if found is not None)


def check_reach_in_steps(context: CheckContext) -> Iterator[Finding | None]:
    """The same, with None after each bed whose ground is all in reach."""
    plan, beds = context.plan, context.beds
    if not beds:
        return
    grounds = tuple(context.outline(bed) for bed in beds)
    inputs = BesideInputs(grounds, tuple(ground for _, ground in context.solid))
    beside = plan.cached(grounds_beside_beds, "", inputs)
    reach = plan.garden.site.reach
    for bed, ground, others in zip(beds, grounds, beside, strict=True):
        stood_on = tuple(one for one in context.stood_on if one.intersects(ground))
        far = plan.cached(ground_out_of_reach, bed.id, ReachInputs(bed, ground, others, stood_on, reach))
        out_of_reach = float(far.area) >= LEAST_SHARE * outline_area(bed.outline)
        yield _reach_finding(context, bed, far) if out_of_reach else None


class BesideInputs(NamedTuple):
    """Ground of all beds, and of all solid structures, on the plan. [m]"""

    beds: tuple[shapely.Geometry, ...]
    solid: tuple[shapely.Geometry, ...]


@fact("grounds beside beds")
def grounds_beside_beds(inputs: BesideInputs) -> tuple[tuple[shapely.Geometry, ...], ...]:
    """For each bed, the other beds and solid structures within :data:`BESIDE` of it."""
    everything = (*inputs.beds, *inputs.solid)
    grounds = np.array(everything)
    near, far = shapely.STRtree(grounds).query(
        grounds[: len(inputs.beds)], predicate="dwithin", distance=BESIDE
    )
    found: list[list[shapely.Geometry]] = [[] for _ in inputs.beds]
    for i, j in sorted(zip(near.tolist(), far.tolist(), strict=True)):
        if i != j:
            found[i].append(everything[j])
    return tuple(tuple(beside) for beside in found)


class ReachInputs(NamedTuple):
    """A bed and what lies beside it.

    Attributes
    ----------
    bed : Bed
    ground : shapely.Geometry
        The bed on the plan. [m]
    beside : tuple of shapely.Geometry
        Beds and solid structures at its sides, on the plan. [m]
    stood_on : tuple of shapely.Geometry
        Boards and paths in it, on the plan. [m]
    reach : float
        Of a hand. [m]
    """

    bed: Bed
    ground: shapely.Geometry
    beside: tuple[shapely.Geometry, ...]
    stood_on: tuple[shapely.Geometry, ...]
    reach: float


@fact("ground out of reach")
def ground_out_of_reach(inputs: ReachInputs) -> shapely.Geometry:
    """Ground of a bed that no hand reaches, in the bed's coordinates."""
    beside = [other for other in inputs.beside if shapely.intersection(inputs.ground, other).area < SPECK]
    blocked = shapely.union_all(beside) if beside else None
    stood_on = shapely.union_all(inputs.stood_on) if inputs.stood_on else None
    return out_of_reach(inputs.bed, inputs.reach, blocked, stood_on)


def _reach_finding(context: CheckContext, bed: Bed, far: shapely.Geometry) -> Finding:
    reach, units = context.plan.garden.site.reach, context.units
    area = float(far.area)
    share = area / outline_area(bed.outline)
    return bed_finding(
        REACH,
        "note",
        (bed.id,),
        say(
            "{area} of {bed} ({share}) lie farther than {reach} from where one can stand",
            area=show_area(area, units),
            bed=bed.name,
            share=share_words(share),
            reach=show_length(reach, units),
        ),
        say(_RULE_REACH),
        "practice",
        [round(share, 2), reach],
        context.plan.span,
        shape_to_plan(bed.outline, far),
        candidates=lambda plan: bring_into_reach(plan, bed.id, far),
    )


# -- paths ----------------------------------------------------------------------------------------


def check_path(context: CheckContext) -> Iterator[Finding]:
    """Report gaps narrower than a path: between two beds, a bed and something solid, and within a bed.

    Other narrow ground leads to no bed.
    """
    return (found for found in check_path_in_steps(context) if found is not None)


def check_path_in_steps(context: CheckContext) -> Iterator[Finding | None]:
    """The same, with None after each bed."""
    least = context.plan.garden.site.path_width
    if not context.beds or least <= 0:
        return
    grounds = context.grounds
    for i, around in enumerate(_grounds_around(context, least)):
        for j in around:
            if j > i:
                others = tuple(grounds[k][1] for k in around if k not in (i, j))
                yield from _judge_gap(context, i, j, others)
        yield from _judge_inside(context, i)
        yield None


def _grounds_around(context: CheckContext, least: float) -> list[list[int]]:
    """For each bed, the numbers of the beds and solid structures whose boxes lie within a path's width [m] of its own."""
    everything = np.array([ground for _, ground in context.grounds])
    margins = np.array([-least, -least, least, least])
    boxes = shapely.box(*(shapely.bounds(everything[: len(context.beds)]) + margins).T)
    found: list[list[int]] = [[] for _ in context.beds]
    for i, j in sorted(
        zip(*(index.tolist() for index in shapely.STRtree(everything).query(boxes)), strict=True)
    ):
        found[i].append(j)
    return found


def _judge_gap(
    context: CheckContext, i: int, j: int, others: tuple[shapely.Geometry, ...]
) -> Iterator[Finding]:
    """The finding about the gap between a bed and another bed or a solid structure.

    Parameters
    ----------
    context : CheckContext
    i, j : int
        Their numbers among the context's grounds, the bed first.
    others : tuple of shapely.Geometry
        Beds and solid structures around them, on the plan. [m]
    """
    bed, (key, ground) = context.beds[i], context.grounds[j]
    other = context.beds[j] if j < len(context.beds) else None
    if bed.kind == "container" and (other is None or other.kind == "container"):
        return  # pots stand close, and are moved
    least = context.plan.garden.site.path_width
    inputs = GapInputs(context.grounds[i][1], ground, others, JOINT if other is not None else AGAINST, least)
    narrow = context.plan.cached(narrow_gap, (bed.id, key), inputs)
    if narrow is None:
        return
    if other is not None:
        yield _path_finding(context, narrow, (bed, other))
    elif _runs_along_side(bed, ground, narrow):
        yield replace(_path_finding(context, narrow, (bed,)), structures=(key,))


def _judge_inside(context: CheckContext, i: int) -> Iterator[Finding]:
    """The finding about a narrow way into the bed of a number."""
    bed = context.beds[i]
    if bed.outline.shape == "polygon":
        inputs = InsideInputs(context.grounds[i][1], context.plan.garden.site.path_width)
        for narrow in context.plan.cached(narrow_ways_inside, bed.id, inputs):
            yield _path_finding(context, narrow, (bed,))


def _runs_along_side(bed: Bed, solid: shapely.Geometry, narrow: Narrow) -> bool:
    """Whether a gap runs along a side of the bed at which one is to stand."""
    along = shapely.intersection(accessible_sides(bed), solid.buffer(narrow.width + AT_BED))
    return bool(along.length > JOINT)


class GapInputs(NamedTuple):
    """Two grounds on the plan.

    Attributes
    ----------
    one, other : shapely.Geometry
    around : tuple of shapely.Geometry
        Other grounds near them.
    joint : float
        Width below which the gap is no path. [m]
    least : float
        Least width of a path. [m]
    """

    one: shapely.Geometry
    other: shapely.Geometry
    around: tuple[shapely.Geometry, ...]
    joint: float
    least: float


@fact("narrow gap")
def narrow_gap(inputs: GapInputs) -> Narrow | None:
    """The gap between two grounds, if one would walk through it and it is too narrow."""
    one, other, around, joint, least = inputs
    width = float(shapely.distance(one, other))
    if not joint <= width < least - WIDTH_TOLERANCE:
        return None
    across = shapely.shortest_line(one, other)
    if any(across.intersects(ground) for ground in around):
        return None
    return Narrow(across.buffer(least / 2, quad_segs=4), width, across)


class InsideInputs(NamedTuple):
    """Ground of a bed on the plan, and the least width of a path. [m]"""

    ground: shapely.Polygon
    least: float


@fact("narrow ways inside")
def narrow_ways_inside(inputs: InsideInputs) -> tuple[Narrow, ...]:
    """The narrowest way into a bed: into a keyhole, or the inside of a horseshoe."""
    ground, least = inputs
    inside = shapely.difference(shapely.convex_hull(ground), ground)
    if inside.area < LEAST_HOLLOW:
        return ()
    return tuple(
        narrow
        for narrow in narrow_places(polygons_of(inside), least)
        if narrow.width >= JOINT
        and not narrow.across.is_empty
        and all(
            shapely.distance(ground, end) <= AT_BED
            for end in shapely.points(shapely.get_coordinates(narrow.across)[[0, -1]])
        )
    )[:1]


def _path_finding(context: CheckContext, narrow: Narrow, beds: Sequence[Bed]) -> Finding:
    """The finding about a narrow place between two beds, or at one."""
    least, keys = context.plan.garden.site.path_width, tuple(bed.id for bed in beds)
    width, wanted = show_length(narrow.width, context.units), show_length(least, context.units)
    if len(beds) > 1:
        text = say(
            "The path between {one} and {other} narrows to {width}; {wanted} are wanted",
            one=beds[0].name,
            other=beds[1].name,
            width=width,
            wanted=wanted,
        )
    else:
        text = say(
            "The path at {bed} narrows to {width}; {wanted} are wanted",
            bed=beds[0].name,
            width=width,
            wanted=wanted,
        )
    return bed_finding(
        PATH,
        "mind" if len(beds) > 1 else "note",
        keys,
        text,
        say(_RULE_PATH),
        "practice",
        [round(narrow.width, 2), least],
        context.plan.span,
        narrow.shape,
        candidates=lambda plan: widen_path(plan, keys, narrow, least),
    )
