"""Lines that tell kinds of structures apart in a drawing: hoops, rungs, posts, slats, tufts of grass, a tree's stem."""

from __future__ import annotations

import itertools
import math

import shapely

from planner.garden import Circle, Structure
from planner.garden.outlines import long_axis
from planner.ground.shapes import plan_polygon, to_plan

#: A line on the plan, from end to end. [m]
Line = tuple[tuple[float, float], tuple[float, float]]

#: Distance of two lines across a structure, by its kind. [m]
_LINES_APART = {"tunnel": 1.0, "glasshouse": 0.75, "fence": 1.8, "board": 0.3, "compost": 0.3}
#: Distance of two rungs of an arch. [m]
_RUNGS_APART = 0.2
#: Least distance of two tufts of a lawn, height of a blade, and most tufts. [m]
_TUFTS_APART, _BLADE, _MOST_TUFTS = 0.7, 0.1, 300
#: Radius of the ring that marks a tap. [m]
_TAP = 0.22
#: Lines of which a whole ring, and the swing of a gate, are made.
_RING, _SWING = 32, 12


def ribs(structure: Structure) -> tuple[Line, ...]:
    """Lines on the plan: hoops of a tunnel, rungs of an arch, posts of a fence, slats of a board or compost, tufts of a lawn,
    a tree's stem.

    Parameters
    ----------
    structure : Structure
        Of any kind; those of other kinds, and of outlines without a length, have none.
    """
    outline = structure.outline
    if outline.shape == "circle" and structure.kind == "tree":
        return _cross(outline)
    if structure.kind == "lawn":
        return _tufts(plan_polygon(outline))
    if outline.shape != "rectangle":
        return ()
    half_length, half_width = outline.length / 2, outline.width / 2
    if structure.kind == "arch":  # rungs run along the span
        count = max(1, math.floor(outline.width / _RUNGS_APART))
        levels = [(-half_width + outline.width * (i + 0.5) / count) for i in range(count)]
        own = [((-half_length, y), (half_length, y)) for y in levels]
    elif structure.kind in _LINES_APART:
        count = max(1, round(outline.length / _LINES_APART[structure.kind]))
        places = [-half_length + outline.length * i / count for i in range(1, count)]
        own = [((x, -half_width), (x, half_width)) for x in places]
    else:
        return ()
    lines = []
    for a, b in own:
        (ax, ay), (bx, by) = to_plan(outline, [a, b]).tolist()
        lines.append(((ax, ay), (bx, by)))
    return tuple(lines)


def _tufts(lawn: shapely.Polygon) -> tuple[Line, ...]:
    """Two blades at each place of a staggered lattice within a lawn."""
    apart = max(_TUFTS_APART, math.sqrt(lawn.area / _MOST_TUFTS))
    left, low, right, high = lawn.bounds
    inside = lawn.buffer(-_BLADE)
    places = [
        (left + apart * (column + 0.25 + row % 2 / 2), low + apart * (row + 0.5))
        for row in range(math.ceil((high - low) / apart))
        for column in range(math.ceil((right - left) / apart))
    ]
    if not places:
        return ()
    within = shapely.contains_xy(inside, *zip(*places, strict=True))
    roots = [place for place, holds in zip(places, within, strict=True) if holds]
    return tuple(((x, y), (x + lean, y + _BLADE)) for x, y in roots for lean in (-_BLADE / 2, _BLADE / 2))


def _cross(crown: Circle) -> tuple[Line, ...]:
    """The stem of a tree, as a small cross."""
    x, y = crown.center
    arm = min(0.15, crown.radius / 3)
    return (((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm)))


def marks(structure: Structure) -> tuple[Line, ...]:
    """Lines on the plan that tell a gate and a tap from other structures: an open leaf with its swing, a ring with a cross.

    Parameters
    ----------
    structure : Structure
        Of any kind; all others, and gates that are no rectangles, have none.
    """
    outline = structure.outline
    if structure.kind == "tap":
        shape = plan_polygon(outline)
        x, y = shape.centroid.x, shape.centroid.y
        cross = ((x - _TAP, y), (x + _TAP, y)), ((x, y - _TAP), (x, y + _TAP))
        return (*_arc((x, y), _TAP, 0.0, math.tau, _RING), *cross)
    if structure.kind == "gate" and outline.shape == "rectangle":
        turn = math.radians(outline.turn + long_axis(outline))
        wide = max(outline.length, outline.width)
        (x, y), along, up = outline.center, wide / 2 * math.cos(turn), wide / 2 * math.sin(turn)
        hinge = x - along, y - up
        opened = turn + math.pi / 2
        leaf = hinge, (hinge[0] + wide * math.cos(opened), hinge[1] + wide * math.sin(opened))
        return (leaf, *_arc(hinge, wide, opened, turn, _SWING))
    return ()


def _arc(
    center: tuple[float, float], radius: float, begin: float, end: float, pieces: int
) -> tuple[Line, ...]:
    """Lines along an arc, between two directions in radians."""
    angles = [begin + (end - begin) * i / pieces for i in range(pieces + 1)]
    points = [(center[0] + radius * math.cos(a), center[1] + radius * math.sin(a)) for a in angles]
    return tuple(itertools.pairwise(points))
