"""Lines that tell kinds of structures apart in a drawing: hoops, rungs, posts, slats, a tree's stem."""

from __future__ import annotations

import math

from planner.garden import Circle, Structure
from planner.ground.shapes import to_plan

#: A line on the plan, from end to end. [m]
Line = tuple[tuple[float, float], tuple[float, float]]

#: Distance of two lines across a structure, by its kind. [m]
_LINES_APART = {"tunnel": 1.0, "glasshouse": 0.75, "fence": 1.8, "board": 0.3}
#: Distance of two rungs of an arch. [m]
_RUNGS_APART = 0.2


def ribs(structure: Structure) -> tuple[Line, ...]:
    """Lines on the plan: hoops of a tunnel, rungs of an arch, posts of a fence, slats of a board, a tree's stem.

    Parameters
    ----------
    structure : Structure
        Of any kind; those of other kinds, and of outlines without a length, have none.
    """
    outline = structure.outline
    if outline.shape == "circle" and structure.kind == "tree":
        return _cross(outline)
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


def _cross(crown: Circle) -> tuple[Line, ...]:
    """The stem of a tree, as a small cross."""
    x, y = crown.center
    arm = min(0.15, crown.radius / 3)
    return (((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm)))
