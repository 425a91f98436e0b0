"""Edits that bring a bed into reach, or make a path wide enough."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import partial

import numpy as np
import shapely
import shapely.affinity
from numpy.typing import NDArray

from planner.checks.frame.context import CheckContext
from planner.checks.frame.finding import Fix
from planner.checks.frame.fixes import join_gains
from planner.garden import Bed, Garden, Outline, Rectangle
from planner.garden import edits as e
from planner.garden.beds import USUAL_HEIGHTS, BedSide, StructureKind
from planner.garden.model import LEAST_SIDE
from planner.garden.units import show_area, show_length
from planner.ground.narrow_places import Narrow
from planner.ground.reach import STANDING_WIDTH, accessible_sides
from planner.ground.shapes import (
    bed_axis,
    bed_polygon,
    outline_radius,
    plan_polygon,
    shape_to_own,
    to_plan,
    turned,
)
from planner.plan import Plan
from planner.words import later, say, say_count

Vector = NDArray[np.float64]
#: Left, low, right and high. [m]
Box = tuple[float, float, float, float]

#: Tolerance of a path's width. [m]
WIDTH_TOLERANCE = 1e-3
#: Least width to which a bed is narrowed. [m]
LEAST_WIDTH = 0.5
#: Least cosine of the angle between the narrow way and the normal of a bed's side.
ALONG = 0.98
#: Width that a fix gives beyond the least, so that rounding does not undo it. [m]
SPARE = 0.005

#: Ground beside a bed on which something else may stand without being in the way. [m2]
LEAST_IN_THE_WAY = 0.01
#: Most boards that are laid across one bed.
MOST_BOARDS = 6

_STAND_AT: dict[BedSide, str] = {
    "start": later("Stand at its beginning too"),
    "end": later("Stand at its end too"),
    "left": later("Stand at its left side too"),
    "right": later("Stand at its right side too"),
}


def bring_into_reach(plan: Plan, key: str, far: shapely.Geometry) -> Iterator[Fix]:
    """Fixes for a bed with ground out of reach: another side to stand at, boards, a narrower bed, a path.

    Parameters
    ----------
    plan : Plan
    key : str
        Id of the bed.
    far : shapely.Geometry
        Its ground out of reach, in the bed's coordinates. [m]
    """
    bed = plan.garden.beds_by_id[key]
    yield from _stand_at_more_sides(plan, bed)
    yield from _boards(plan, bed, far)
    if bed.outline.shape == "rectangle":
        across, units = _width(bed), plan.garden.site.units
        for wide in (2 * plan.garden.site.reach, plan.garden.site.reach):
            if LEAST_SIDE <= wide < across - 1e-6:
                side = "width" if bed.outline.length >= bed.outline.width else "length"
                outline = bed.outline.with_(**{side: round(wide, 4)})
                yield Fix(
                    say("Make it {width} wide", width=show_length(wide, units)),
                    say("{width} narrower, all of it in reach", width=show_length(across - wide, units)),
                    partial(e.resize_bed, key=key, outline=outline),
                    say("Make each narrower"),
                )
    yield _path_through(plan, bed, far)


def _stand_at_more_sides(plan: Plan, bed: Bed) -> Iterator[Fix]:
    """Stand at another side of a rectangular bed, where a path's width of ground is free beside it."""
    if bed.outline.shape != "rectangle" or bed.kind == "under glass":  # there a wall stands on that side
        return
    others = [ground for other, ground in CheckContext(plan).grounds if other != bed.id]
    least = plan.garden.site.path_width
    free: list[BedSide] = []
    for side in _STAND_AT:
        if side in bed.access:
            continue
        line = accessible_sides(bed.with_(access=(side,)))
        beside = shapely.difference(
            line.buffer(least, cap_style="flat"), plan_polygon(bed.outline).buffer(1e-6)
        )
        if any(shapely.intersection(beside, ground).area > LEAST_IN_THE_WAY for ground in others):
            continue
        free.append(side)
    width = show_length(least, plan.garden.site.units)
    for side in free:
        yield Fix(
            say(_STAND_AT[side]),
            say("{width} are free beside it", width=width),
            partial(e.change_bed, bed=bed.id, access=(*bed.access, side)),
        )
    if len(free) > 1:
        yield Fix(
            say("Stand at all its sides with a free path"),
            say("{width} are free beside each", width=width),
            partial(e.change_bed, bed=bed.id, access=(*bed.access, *free)),
        )


def _boards(plan: Plan, bed: Bed, far: shapely.Geometry) -> Iterator[Fix]:
    """A board along the ground out of reach, or boards across it.

    A board lies in the middle of the ground that is out of reach; one steps onto it from the side.
    """
    site, axis = plan.garden.site, bed_axis(bed.outline)
    left, low, right, high = (float(value) for value in shapely.bounds(turned(far, -axis)))
    _, foot, _, top = (float(value) for value in shapely.bounds(turned(bed_polygon(bed), -axis)))
    middle = min(max((low + high) / 2, foot + STANDING_WIDTH / 2), top - STANDING_WIDTH / 2)
    along = (left, middle - STANDING_WIDTH / 2, right, middle + STANDING_WIDTH / 2)
    yield _lay(
        plan,
        bed,
        "board",
        [along],
        say("Lay a board along {bed}, to stand on", bed=bed.name),
        say("Lay a board along each, to stand on"),
    )
    count = math.ceil((right - left) / (2 * site.reach + STANDING_WIDTH) - 1e-6)
    if count <= MOST_BOARDS:
        places = [left + (right - left) * (i + 0.5) / count for i in range(count)]
        across = [(x - STANDING_WIDTH / 2, foot, x + STANDING_WIDTH / 2, top) for x in places]
        text = say_count(
            "Lay {count} board across {bed}, to stand on",
            "Lay {count} boards across {bed}, to stand on",
            count,
            bed=bed.name,
        )
        yield _lay(plan, bed, "board", across, text, say("Lay boards across each, to stand on"))


def _path_through(plan: Plan, bed: Bed, far: shapely.Geometry) -> Fix:
    """A path along the ground out of reach, from end to end of the bed."""
    site, axis = plan.garden.site, bed_axis(bed.outline)
    _, low, _, high = (float(value) for value in shapely.bounds(turned(far, -axis)))
    begin, foot, end, top = (float(value) for value in shapely.bounds(turned(bed_polygon(bed), -axis)))
    wide = max(site.path_width, STANDING_WIDTH)
    middle = min(max((low + high) / 2, foot + wide / 2), top - wide / 2)
    return _lay(
        plan,
        bed,
        "path",
        [(begin, middle - wide / 2, end, middle + wide / 2)],
        say("Leave a path of {width} through {bed}", width=show_length(wide, site.units), bed=bed.name),
        say("Leave a path through each"),
    )


def _lay(plan: Plan, bed: Bed, kind: StructureKind, boxes: Sequence[Box], text: str, together: str) -> Fix:
    """The fix that lays boards or a path in a bed, with what they cost.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    kind : {"board", "path"}
    boxes : sequence of (float, float, float, float)
        Left, low, right and high of each, in the bed's coordinates turned to its long axis. [m]
    text, together : str
        What it does in this bed, and in several at once.
    """
    outlines = tuple(_outline_on_plan(bed, box) for box in boxes)
    apply = partial(_add_structures, kind=kind, outlines=outlines, year=bed.first_year)
    area = sum(outline.length * outline.width for outline in outlines)
    gain = say("all ground in reach, {area} less to plant", area=show_area(area, plan.garden.site.units))
    here = plan.in_bed(bed)
    after = plan.what_if(apply(plan.garden))
    fewer = sum(plan.placed(p).plants for p in here) - sum(after.placed(p).plants for p in here)
    if fewer > 0:
        plants = say_count(
            "{count} plant fewer in {year}", "{count} plants fewer in {year}", fewer, year=plan.year
        )
        gain = join_gains(gain, plants)
    return Fix(text, gain, apply, together)


def _outline_on_plan(bed: Bed, box: Box) -> Rectangle:
    """A rectangle of a bed's coordinates, turned to its long axis, on the plan."""
    left, low, right, high = box
    axis = bed_axis(bed.outline)
    (middle,) = shapely.get_coordinates(turned(shapely.Point((left + right) / 2, (low + high) / 2), axis))
    (center,) = to_plan(bed.outline, [middle])
    return Rectangle(
        length=max(round(right - left, 4), LEAST_SIDE),
        width=max(round(high - low, 4), LEAST_SIDE),
        center=(round(float(center[0]), 4), round(float(center[1]), 4)),
        turn=bed.outline.turn + axis
        if abs(bed.outline.turn + axis) <= 360
        else bed.outline.turn + axis - 360,
    )


def _add_structures(
    garden: Garden, kind: StructureKind, outlines: Sequence[Rectangle], year: int | None
) -> Garden:
    for outline in outlines:
        garden, _ = e.add_structure(garden, kind, outline, USUAL_HEIGHTS[kind], first_year=year)
    return garden


def _width(bed: Bed) -> float:
    """Width of a bed across its long axis. [m]"""
    level = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
    return float(level[3] - level[1])


def widen_path(plan: Plan, keys: Sequence[str], narrow: Narrow, least: float) -> Iterator[Fix]:
    """Fixes for a narrow path: a bed moved away or made narrower, or its hollow widened.

    Parameters
    ----------
    plan : Plan
    keys : sequence of str
        Ids of the beds at the path.
    narrow : Narrow
    least : float
        Width wanted. [m]
    """
    for key in keys:
        yield from _move_away(plan, key, narrow, least)
    for key in keys:
        yield from _narrow_bed(plan, key, narrow, least, at_start=key == keys[0])
    if len(keys) == 1:
        yield from _widen_hollow(plan, keys[0], narrow, least)


def _ends(narrow: Narrow) -> tuple[Vector, Vector, Vector]:
    """Both ends of the narrowest way across [m], and the unit vector from the first to the second."""
    start, end = shapely.get_coordinates(narrow.across)[[0, -1]]
    return start, end, (end - start) / max(float(np.hypot(*(end - start))), 1e-9)


def _move_away(plan: Plan, key: str, narrow: Narrow, least: float) -> Iterator[Fix]:
    """Move a bed along the narrow way, away from its other end.

    Parameters
    ----------
    plan : Plan
    key : str
        Id of the bed.
    narrow : Narrow
    least : float
        Width wanted. [m]
    """
    start, end, way = _ends(narrow)
    bed, units = plan.garden.beds_by_id[key], plan.garden.site.units
    center = bed.outline.center
    outward = 1.0 if np.hypot(*(end - center)) < np.hypot(*(start - center)) else -1.0
    missing = least - narrow.width
    for distance in (missing + SPARE, 1.5 * missing + 2 * SPARE):
        dx, dy = (outward * distance * way).tolist()
        if not _narrows_another(plan, key, dx, dy, least):
            yield Fix(
                say("Move {bed} by {distance}", bed=bed.name, distance=show_length(distance, units)),
                say("the path is {width} wide", width=show_length(least, units)),
                partial(e.move_things, ids=(key,), dx=dx, dy=dy),
            )


def _narrows_another(plan: Plan, key: str, dx: float, dy: float, least: float) -> bool:
    """Whether a bed that is moved would narrow another way below the least width.

    Parameters
    ----------
    plan : Plan
    key : str
        Id of the bed.
    dx, dy : float
        By which it is moved. [m]
    least : float
        [m]
    """
    here = plan_polygon(plan.garden.beds_by_id[key].outline)
    there = shapely.affinity.translate(here, dx, dy)
    context, box = CheckContext(plan), there.bounds
    beds = [bed for bed in context.beds if bed.id != key and _may_be_within(bed.outline, box, least)]
    others = [context.outline(bed) for bed in beds] + [ground for _, ground in context.solid]
    return any(
        shapely.distance(there, other) < min(least, shapely.distance(here, other)) - WIDTH_TOLERANCE
        for other in others
    )


def _may_be_within(outline: Outline, box: tuple[float, float, float, float], reach: float) -> bool:
    """Whether an outline may lie within a distance of a box (left, low, right, high), by the circle about it."""
    left, low, right, high = box
    (x, y), far = outline.center, outline_radius(outline) + reach
    return bool(left - far <= x <= right + far and low - far <= y <= high + far)


def _narrow_bed(plan: Plan, key: str, narrow: Narrow, least: float, at_start: bool) -> Iterator[Fix]:
    """Take what a path lacks off the long side of a rectangular bed beside it.

    Parameters
    ----------
    plan : Plan
    key : str
        Id of the bed.
    narrow : Narrow
    least : float
        Width wanted. [m]
    at_start : bool
        Whether the bed lies at the start of the narrow way.
    """
    outline, name = plan.garden.beds_by_id[key].outline, plan.garden.beds_by_id[key].name
    start, end, way = _ends(narrow)
    missing = least - narrow.width + SPARE
    if (
        outline.shape != "rectangle"
        or outline.width - missing < LEAST_WIDTH
        or outline.length < outline.width
    ):
        return
    turn = math.radians(outline.turn)
    side = np.array([-math.sin(turn), math.cos(turn)])
    if abs(float(side @ way)) < ALONG:
        return
    center = np.asarray(outline.center)
    edge = start if at_start else end
    inward = -side if float(side @ (edge - center)) > 0 else side
    x, y = (center + inward * missing / 2).tolist()
    new = outline.with_(width=round(outline.width - missing, 4), center=(round(x, 4), round(y, 4)))
    units = plan.garden.site.units
    yield Fix(
        say("Make {bed} {width} wide", bed=name, width=show_length(new.width, units)),
        say("{width} of its side become path", width=show_length(missing, units)),
        lambda garden: e.change_bed(garden, key, outline=new),
    )


def _widen_hollow(plan: Plan, key: str, narrow: Narrow, least: float) -> Iterator[Fix]:
    """Widen a narrow way into a bed, such as a keyhole, by what it lacks, half of it on either side.

    Parameters
    ----------
    plan : Plan
    key : str
        Id of the bed.
    narrow : Narrow
    least : float
        Width wanted. [m]
    """
    bed, units = plan.garden.beds_by_id[key], plan.garden.site.units
    outline = bed.outline
    if outline.shape != "polygon" or narrow.across.is_empty:
        return
    ground = plan_polygon(outline)
    inside = shapely.get_parts(shapely.difference(shapely.convex_hull(ground), ground))
    hollows = [part for part in inside if shapely.distance(part, narrow.across) < WIDTH_TOLERANCE]
    if not hollows:
        return
    side = (least - narrow.width) / 2 + SPARE
    taken = shapely.union_all(hollows).buffer(side, join_style="mitre", mitre_limit=2.0)
    left = shapely.difference(ground, taken)
    if left.geom_type != "Polygon" or left.interiors:
        return
    corners = shapely.get_coordinates(shape_to_own(outline, left).simplify(WIDTH_TOLERANCE / 10))[:-1]
    points = tuple((round(float(x), 4), round(float(y), 4)) for x, y in corners)
    yield Fix(
        say("Widen the way into {bed} to {width}", bed=bed.name, width=show_length(least, units)),
        say("{area} of the bed become path", area=show_area(float(ground.area - left.area), units)),
        lambda garden: e.resize_bed(garden, key, outline.with_(points=points)),
    )
