"""Edits that put beds and structures in order: mirrored, spaced evenly, of one size, in an array, locked."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Any, Literal

from planner.garden.arrangements import Places, Rows, StaggeredRows
from planner.garden.beds import Bed, BedSide, Structure
from planner.garden.edits.beds import things_of, turn_things, with_outlines
from planner.garden.edits.common import EditError, changed, finite, replaced
from planner.garden.edits.things import duplicate
from planner.garden.garden import Garden
from planner.garden.model import Model, Point
from planner.garden.outlines import Outline, extents_along, long_axis
from planner.garden.planting import Planting
from planner.garden.plots import Region, Stretch
from planner.words import say

#: Most copies that one array makes.
MOST_COPIES = 200
#: An array goes no farther than this. [m]
FARTHEST = 10_000.0
Flip = Literal["left to right", "top to bottom"]
_OPPOSITE: dict[BedSide, BedSide] = {"start": "end", "end": "start", "left": "right", "right": "left"}


def mirror_things(garden: Garden, ids: Iterable[str], flip: Flip, at: float) -> Garden:
    """Mirror beds, with what is planted and propped in them, and structures.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Of beds and structures.
    flip : {"left to right", "top to bottom"}
    at : float
        Where the line of the mirror crosses the plan: its x, or its y. [m]
    """
    finite(at, say("the place of the mirror"))
    across = flip == "left to right"
    things = things_of(garden, ids)
    new: list[tuple[Bed | Structure, dict[str, Any]]] = []
    beds: dict[str, Bed] = {}
    for thing in things:
        x, y = thing.outline.center
        center = (round(2 * at - x, 6), y) if across else (x, round(2 * at - y, 6))
        changes: dict[str, Any] = {"center": center, "turn": round(-thing.outline.turn, 6) % 360.0}
        if thing.outline.shape == "polygon":
            changes["points"] = _flipped(thing.outline.points, across=across)
        elif thing.outline.shape == "band":
            changes["line"] = _flipped(thing.outline.line, across=across)
        new.append((thing, changes))
        if isinstance(thing, Bed):
            beds[thing.id] = thing
    mirrored = with_outlines(garden, new)
    plantings: dict[str, Model] = {}
    for planting in garden.plantings:
        old = beds.get(planting.bed)
        if old is not None:
            after = mirrored.beds_by_id[planting.bed].outline
            changes = _mirrored_planting(planting, old.outline, after, across=across)
            if changes:
                plantings[planting.id] = changed(planting, old.name, changes)
    sides: dict[str, Model] = {}
    for key, old in beds.items():
        bed = mirrored.beds_by_id[key]
        access = _mirrored_sides(old, bed.outline, across=across)
        if set(access) != set(old.access):
            sides[key] = bed.with_(access=access)
    return replaced(replaced(mirrored, "plantings", plantings), "beds", sides)


def _flipped(points: Iterable[Point], *, across: bool) -> tuple[Point, ...]:
    return tuple((round(-x, 6), y) if across else (x, round(-y, 6)) for x, y in points)


def _axes(old: Outline, new: Outline, *, across: bool) -> tuple[bool, bool]:
    """Whether beginning and end, and whether left and right along the long axis change places in the mirror."""
    before, after = math.radians(long_axis(old)), math.radians(long_axis(new))
    sx, sy = (-1, 1) if across else (1, -1)
    along = sx * math.cos(before) * math.cos(after) + sy * math.sin(before) * math.sin(after)
    left = sx * math.sin(before) * math.sin(after) + sy * math.cos(before) * math.cos(after)
    return along < 0, left < 0


def _mirrored_sides(old: Bed, new: Outline, *, across: bool) -> tuple[BedSide, ...]:
    ends, sides = _axes(old.outline, new, across=across)
    swaps = (("start", "end") if ends else ()) + (("left", "right") if sides else ())
    return tuple(_OPPOSITE[side] if side in swaps else side for side in old.access)


def _mirrored_planting(planting: Planting, old: Outline, new: Outline, *, across: bool) -> dict[str, Any]:
    changes: dict[str, Any] = {}
    plot, arrangement, support = planting.plot, planting.arrangement, planting.support
    if isinstance(plot, Region):
        changes["plot"] = changed(plot, planting.crop, {"points": _flipped(plot.points, across=across)})
    elif isinstance(plot, Stretch) and _axes(old, new, across=across)[0]:
        least, _, greatest, _ = extents_along(old)
        start, end = greatest - least - plot.end, greatest - least - plot.start
        if end >= 0.01:  # what lies beyond the bed's end altogether stays where it is
            ends = {"start": max(round(start, 6), 0.0), "end": round(end, 6)}
            changes["plot"] = changed(plot, planting.crop, ends)
    if isinstance(arrangement, Places):
        points = _flipped(arrangement.points, across=across)
        changes["arrangement"] = changed(arrangement, planting.crop, {"points": points})
    elif isinstance(arrangement, (Rows, StaggeredRows)) and arrangement.turn:
        turn = round(-arrangement.turn, 6) % 360.0
        changes["arrangement"] = changed(arrangement, planting.crop, {"turn": turn})
    if support is not None and support.line:
        line = _flipped(support.line, across=across)
        changes["support"] = changed(support, planting.crop, {"line": line})
    return changes


def space_things(
    garden: Garden,
    ids: Iterable[str],
    direction: Literal["across", "up"],
    extents: Mapping[str, tuple[float, float, float, float]],
) -> Garden:
    """Space beds and structures evenly: the first and the last stay, and all ways between neighbours get as wide.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Of beds and structures; with fewer than three nothing changes.
    direction : {"across", "up"}
    extents : mapping of str to tuple of float
        Least x, least y, greatest x and greatest y on the plan, by id. [m]
    """
    low, high = (0, 2) if direction == "across" else (1, 3)
    things = sorted(
        things_of(garden, ids), key=lambda thing: (extents[thing.id][low] + extents[thing.id][high], thing.id)
    )
    if len(things) < 3:
        return garden
    taken = sum(extents[thing.id][high] - extents[thing.id][low] for thing in things)
    begin = extents[things[0].id][low]
    gap = (extents[things[-1].id][high] - begin - taken) / (len(things) - 1)
    new: list[tuple[Bed | Structure, dict[str, Any]]] = []
    for thing in things:
        by = begin - extents[thing.id][low]
        x, y = thing.outline.center
        if thing is not things[0] and thing is not things[-1]:
            new.append(
                (thing, {"center": (round(x + by, 6), y) if direction == "across" else (x, round(y + by, 6))})
            )
        begin += extents[thing.id][high] - extents[thing.id][low] + gap
    return with_outlines(garden, new)


def array_things(
    garden: Garden,
    ids: Iterable[str],
    copies: int,
    step: Point = (0.0, 0.0),
    degrees: float = 0.0,
    about: Point | None = None,
) -> tuple[Garden, tuple[str, ...]]:
    """Copy beds, with their plantings, and structures again and again, along a line or an arc.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Of beds and structures.
    copies : int
        How many, from 1 to :data:`MOST_COPIES`.
    step : tuple of float
        From each copy to the next, on the plan. [m]
    degrees : float
        By which each copy is turned from the one before it, anticlockwise. [degrees]
    about : tuple of float, optional
        Centre of the arc on the plan; without one each copy turns about its own centre. [m]

    Returns
    -------
    garden, ids of the copies
    """
    keys = tuple(thing.id for thing in things_of(garden, ids))
    finite(degrees, say("the angle"))
    if not 1 <= copies <= MOST_COPIES:
        raise EditError(
            say("{number} copies cannot be made", number=copies),
            fix=say("Give a number from 1 to {most}", most=MOST_COPIES),
        )
    if not all(abs(part) * copies <= FARTHEST for part in step):
        raise EditError(say("the copies would go too far"), fix=say("Give a shorter distance"))
    made: list[str] = []
    for number in range(1, copies + 1):
        garden, new = duplicate(garden, keys, number * step[0], number * step[1])
        if degrees:
            garden = turn_things(garden, new, number * degrees, about)
        made.extend(new)
    return garden, tuple(made)


def match_size(garden: Garden, ids: Iterable[str], like: str) -> Garden:
    """Give beds and structures the size of one of them, about their own centres; those of another shape stay.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Of beds and structures.
    like : str
        Id of the one whose size they get.
    """
    (model,) = things_of(garden, [like])
    names = {"rectangle": ("length", "width"), "circle": ("radius",)}.get(model.outline.shape)
    if names is None:
        raise EditError(
            say("{thing} has no size of its own that others could get", thing=model.name or model.id),
            fix=say("Begin with a rectangle or a circle"),
        )
    sizes = {name: getattr(model.outline, name) for name in names}
    new: list[tuple[Bed | Structure, dict[str, Any]]] = [
        (thing, sizes) for thing in things_of(garden, ids) if thing.outline.shape == model.outline.shape
    ]
    return with_outlines(garden, new)


def lock_things(garden: Garden, ids: Iterable[str], locked: bool) -> Garden:
    """Lock beds and structures, so that they stay where they are on the sheet, or unlock them.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
    locked : bool
    """
    things = [thing for thing in things_of(garden, ids) if thing.locked != locked]
    beds: dict[str, Model] = {t.id: t.with_(locked=locked) for t in things if isinstance(t, Bed)}
    structures: dict[str, Model] = {t.id: t.with_(locked=locked) for t in things if isinstance(t, Structure)}
    return replaced(replaced(garden, "beds", beds), "structures", structures)
