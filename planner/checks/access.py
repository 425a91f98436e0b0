"""Reach and paths: ground no hand gets to, and ways one cannot walk."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import numpy as np
import shapely
import shapely.affinity
from numpy.typing import NDArray

from planner.checks.frame.context import CheckContext, bed_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import share_words
from planner.garden import Bed
from planner.garden import edits as e
from planner.garden.units import show_area, show_length
from planner.ground.narrow_places import Narrow, narrow_places
from planner.ground.reach import accessible_sides, out_of_reach
from planner.ground.shapes import (
    bed_axis,
    bed_polygon,
    outline_area,
    plan_polygon,
    polygons_of,
    shape_to_plan,
    turned,
)
from planner.plan import Plan
from planner.words import capital

REACH, PATH = "reach", "path"
#: Less of a bed than this is not said.
LEAST_SHARE = 0.05
#: Beds that overlap by more are said by ``overlap``; their sides are not judged. [m2]
SPECK = 0.005
#: A gap this narrow is a joint between two beds, not a path. [m]
JOINT = 0.12
#: A bed set nearer than this to a wall or fence stands against it. [m]
AGAINST = 0.30
#: So far off the outline of a bed still is at it. [m]
AT_BED = 0.02

_RULE_REACH = "All ground of a bed lies within a hand's reach of a side one can stand at"
#: A bed is not made narrower than this. [m]
LEAST_WIDTH = 0.5
#: Cosine of the angle by which the narrow way may be off square to a bed's side.
ALONG = 0.98
_RULE_PATH = "A path is as wide everywhere as the least width of the garden's paths"


def check_reach(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan about ground out of reach."""
    plan, beds = context.plan, context.beds
    if not beds:
        return
    site = plan.garden.site
    grounds = [context.outline(bed) for bed in beds]
    everything = (*grounds, *(ground for _, ground in context.solid))
    beside = plan.once("beside", "", (everything, len(beds)), partial(_beside, everything, len(beds)))
    for i, bed in enumerate(beds):
        others = tuple(beside.get(i, ()))
        found = plan.once(
            "reach",
            bed.id,
            (bed, site.reach, others, site.units, plan.year),
            partial(_of_bed, context, bed, others),
        )
        if found is not None:
            yield found


def _beside(everything: tuple[shapely.Geometry, ...], beds: int) -> dict[int, list[shapely.Geometry]]:
    """For each of the first so many grounds, which are those of the beds, all that lie at it."""
    grounds = np.array(everything)
    near, far = shapely.STRtree(grounds).query(grounds[:beds], predicate="dwithin", distance=0.05)
    found: dict[int, list[shapely.Geometry]] = {}
    for i, j in sorted(zip(near.tolist(), far.tolist(), strict=True)):
        if i != j:
            found.setdefault(i, []).append(everything[j])
    return found


def _of_bed(context: CheckContext, bed: Bed, others: tuple[shapely.Geometry, ...]) -> Finding | None:
    reach, units = context.plan.garden.site.reach, context.units
    ground = context.outline(bed)
    beside = [other for other in others if shapely.intersection(ground, other).area < SPECK]
    blocked = shapely.union_all(beside) if beside else None
    far = out_of_reach(bed, reach, blocked)
    area, whole = float(far.area), outline_area(bed.outline)
    if area < LEAST_SHARE * whole:
        return None
    text = (
        f"{show_area(area, units)} of {bed.name} ({share_words(area / whole)}) lie farther than "
        f"{show_length(reach, units)} from where one can stand"
    )
    return bed_finding(
        REACH,
        "note",
        (bed.id,),
        text,
        _RULE_REACH,
        "practice",
        [round(area / whole, 2), reach],
        context.plan.span,
        shape_to_plan(bed.outline, far),
        candidates=lambda plan: _within_reach(plan, bed.id),
    )


def _within_reach(plan: Plan, key: str) -> Iterator[Fix]:
    bed, reach = plan.garden.beds_by_id[key], plan.garden.site.reach
    units = plan.garden.site.units
    every = ("start", "end", "left", "right")
    if set(bed.access) != set(every) and bed.kind != "under glass":  # there a wall stands on that side
        yield Fix(
            "Make all its sides ones to stand at",
            "a hand comes from both sides",
            lambda garden: e.change_bed(garden, key, access=every),
        )
    if bed.outline.shape == "rectangle":
        level = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
        across = float(level[3] - level[1])
        for wide in (2 * reach, reach):
            if wide < across - 1e-6:
                side = "width" if bed.outline.length >= bed.outline.width else "length"
                outline = bed.outline.with_(**{side: round(wide, 4)})
                yield Fix(
                    f"Make it {show_length(wide, units)} wide",
                    f"{show_length(across - wide, units)} narrower, all of it in reach",
                    partial(e.resize_bed, key=key, outline=outline),
                )
    yield Fix(
        "Reach farther",
        "the garden's reach is set so that the bed is in it",
        lambda garden: e.change_site(garden, reach=round(_needed(bed), 2)),
    )


def _needed(bed: Bed) -> float:
    level = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
    across = float(level[3] - level[1])
    return across + 0.01 if set(bed.access) != {"start", "end", "left", "right"} else across / 2 + 0.01


def check_path(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan about paths: gaps between two beds, a bed and something solid, and within a bed.

    What is narrow elsewhere is nobody's way to a bed.
    """
    plan, beds = context.plan, context.beds
    least = plan.garden.site.path_width
    if not beds or least <= 0:
        return
    solid = context.solid
    grounds = [*(context.outline(bed) for bed in beds), *(ground for _, ground in solid)]
    everything = np.array(grounds)
    boxes = shapely.box(
        *(shapely.bounds(everything[: len(beds)]) + np.array([-least, -least, least, least])).T
    )
    tree = shapely.STRtree(everything)
    near: dict[int, list[int]] = {}
    for i, j in sorted(zip(*(index.tolist() for index in tree.query(boxes)), strict=True)):
        near.setdefault(i, []).append(j)
    for i, bed in enumerate(beds):
        around = near.get(i, [])
        for j in around:
            if j <= i:
                continue
            others = tuple(grounds[k] for k in around if k not in (i, j))
            other = beds[j] if j < len(beds) else None
            if bed.kind == "container" and (other is None or other.kind == "container"):
                continue  # pots stand close, and are moved
            joint = JOINT if other is not None else AGAINST
            narrow = plan.once(
                f"gap to {other.id if other is not None else solid[j - len(beds)][0]}",
                bed.id,
                (grounds[i], grounds[j], others, least),
                partial(_gap, grounds[i], grounds[j], others, joint, least),
            )
            if narrow is None or (other is None and not _walked(bed, grounds[j], narrow)):
                continue
            found = _narrow(context, narrow, [bed, other] if other is not None else [bed], least)
            yield found if other is not None else replace(found, structures=(solid[j - len(beds)][0],))
        if bed.outline.shape == "polygon":
            for narrow in plan.once(
                "narrow in itself", bed.id, (grounds[i], least), partial(_in_itself, grounds[i], least)
            ):
                yield _narrow(context, narrow, [bed], least)


def _walked(bed: Bed, solid: shapely.Geometry, narrow: Narrow) -> bool:
    """Whether the gap runs along a side of the bed one is to stand at."""
    along = shapely.intersection(accessible_sides(bed), solid.buffer(narrow.width + AT_BED))
    return bool(along.length > JOINT)


def _gap(
    one: shapely.Geometry,
    other: shapely.Geometry,
    around: tuple[shapely.Geometry, ...],
    joint: float,
    least: float,
) -> Narrow | None:
    """The gap between two grounds, where one would walk through it and cannot well."""
    width = float(shapely.distance(one, other))
    if not joint <= width < least - 1e-3:
        return None
    across = shapely.shortest_line(one, other)
    if any(across.intersects(ground) for ground in around):
        return None
    return Narrow(across.buffer(least / 2, quad_segs=4), width, across)


def _in_itself(ground: shapely.Polygon, least: float) -> tuple[Narrow, ...]:
    """Narrow ways into a bed: keyholes, and the inside of a horseshoe."""
    inside = shapely.difference(shapely.convex_hull(ground), ground)
    if inside.area < 1e-3:
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


def _narrow(context: CheckContext, narrow: Narrow, beds: list[Bed], least: float) -> Finding:
    units = context.units
    between = len(beds) > 1
    where = f"between {beds[0].name} and {beds[1].name}" if between else f"at {beds[0].name}"
    text = f"the path {where} narrows to {show_length(narrow.width, units)}; {show_length(least, units)} are wanted"
    return bed_finding(
        PATH,
        "mind" if between else "note",
        [bed.id for bed in beds],
        capital(text),
        _RULE_PATH,
        "practice",
        [round(narrow.width, 2), least],
        context.plan.span,
        narrow.shape,
        candidates=lambda plan: _wider(plan, [bed.id for bed in beds], narrow, least),
    )


def _wider(plan: Plan, keys: list[str], narrow: Narrow, least: float) -> Iterator[Fix]:
    """Move a bed out along the narrow way by what it lacks."""
    start, end = shapely.get_coordinates(narrow.across)[[0, -1]]
    way = (end - start) / max(float(np.hypot(*(end - start))), 1e-9)
    units = plan.garden.site.units
    for key in keys:
        bed = plan.garden.beds_by_id[key]
        outward = (
            1.0 if np.hypot(*(end - bed.outline.center)) < np.hypot(*(start - bed.outline.center)) else -1.0
        )
        for lacks in (least - narrow.width + 0.005, 1.5 * (least - narrow.width) + 0.01):
            dx, dy = (outward * lacks * way).tolist()
            if _squeezes(plan, key, dx, dy, least):
                continue
            yield Fix(
                f"Move {bed.name} by {show_length(lacks, units)}",
                f"the path is {show_length(least, units)} wide",
                partial(e.move_things, ids=(key,), dx=dx, dy=dy),
            )
    for key in keys:
        yield from _slimmer(plan, key, start if key == keys[0] else end, way, least - narrow.width + 0.005)
    yield Fix(
        f"Let paths be {show_length(narrow.width, units)} wide",
        "narrower ones are meant",
        lambda garden: e.change_site(garden, path_width=max(0.0, int(narrow.width * 1000) / 1000)),
    )


def _squeezes(plan: Plan, key: str, dx: float, dy: float, least: float) -> bool:
    """Whether a bed that is moved would narrow another way below the least width."""
    here = plan_polygon(plan.garden.beds_by_id[key].outline)
    there = shapely.affinity.translate(here, dx, dy)
    others = [ground for other, ground in CheckContext(plan).grounds if other != key]
    return any(
        shapely.distance(there, other) < min(least, shapely.distance(here, other)) - 1e-3 for other in others
    )


def _slimmer(
    plan: Plan, key: str, edge: NDArray[np.float64], way: NDArray[np.float64], lacks: float
) -> Iterator[Fix]:
    """Take what a path lacks off the long side of a rectangular bed that lies at it."""
    outline, name = plan.garden.beds_by_id[key].outline, plan.garden.beds_by_id[key].name
    if outline.shape != "rectangle" or outline.width - lacks < LEAST_WIDTH or outline.length < outline.width:
        return
    turn = math.radians(outline.turn)
    side = np.array([-math.sin(turn), math.cos(turn)])
    if abs(float(side @ way)) < ALONG:
        return
    center = np.asarray(outline.center)
    inward = -side if float(side @ (edge - center)) > 0 else side
    x, y = (center + inward * lacks / 2).tolist()
    new = outline.with_(width=round(outline.width - lacks, 4), center=(round(x, 4), round(y, 4)))
    units = plan.garden.site.units
    yield Fix(
        f"Make {name} {show_length(new.width, units)} wide",
        f"{show_length(lacks, units)} of its side become path",
        lambda garden: e.change_bed(garden, key, outline=new),
    )
