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
from planner.garden import Bed
from planner.garden import edits as e
from planner.garden.units import show_length
from planner.ground.narrow_places import Narrow
from planner.ground.shapes import bed_axis, bed_polygon, plan_polygon, turned
from planner.plan import Plan
from planner.words import say

Vector = NDArray[np.float64]

#: Tolerance of a path's width. [m]
WIDTH_TOLERANCE = 1e-3
#: Least width to which a bed is narrowed. [m]
LEAST_WIDTH = 0.5
#: Least cosine of the angle between the narrow way and the normal of a bed's side.
ALONG = 0.98
#: Width or reach that a fix gives beyond the least, so that rounding does not undo it. [m]
SPARE = 0.005

_ALL_SIDES = ("start", "end", "left", "right")


def bring_into_reach(plan: Plan, key: str) -> Iterator[Fix]:
    """Fixes for a bed of an id with ground out of reach: all its sides, a narrower bed, a longer reach."""
    bed, reach = plan.garden.beds_by_id[key], plan.garden.site.reach
    if set(bed.access) != set(_ALL_SIDES) and bed.kind != "under glass":  # there a wall stands on that side
        yield Fix(
            say("Make all its sides ones to stand at"),
            say("a hand comes from both sides"),
            lambda garden: e.change_bed(garden, key, access=_ALL_SIDES),
        )
    if bed.outline.shape == "rectangle":
        across, units = _width(bed), plan.garden.site.units
        for wide in (2 * reach, reach):
            if wide < across - 1e-6:
                side = "width" if bed.outline.length >= bed.outline.width else "length"
                outline = bed.outline.with_(**{side: round(wide, 4)})
                yield Fix(
                    say("Make it {width} wide", width=show_length(wide, units)),
                    say("{width} narrower, all of it in reach", width=show_length(across - wide, units)),
                    partial(e.resize_bed, key=key, outline=outline),
                )
    yield Fix(
        say("Reach farther"),
        say("the garden's reach is set so that the bed is in it"),
        lambda garden: e.change_site(garden, reach=round(_reach_needed(bed), 2)),
    )


def _width(bed: Bed) -> float:
    """Width of a bed across its long axis. [m]"""
    level = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
    return float(level[3] - level[1])


def _reach_needed(bed: Bed) -> float:
    """Reach that covers a bed from its sides. [m]"""
    across = _width(bed)
    return (across if set(bed.access) != set(_ALL_SIDES) else across / 2) + 2 * SPARE


def widen_path(plan: Plan, keys: Sequence[str], narrow: Narrow, least: float) -> Iterator[Fix]:
    """Fixes for a narrow path: a bed moved away or made narrower, or narrower paths permitted.

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
    yield Fix(
        say("Let paths be {width} wide", width=show_length(narrow.width, plan.garden.site.units)),
        say("narrower ones are meant"),
        lambda garden: e.change_site(garden, path_width=max(0.0, int(narrow.width * 1000) / 1000)),
    )


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
    others = [ground for other, ground in CheckContext(plan).grounds if other != key]
    return any(
        shapely.distance(there, other) < min(least, shapely.distance(here, other)) - WIDTH_TOLERANCE
        for other in others
    )


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
