"""Edits of beds, and moves and turns of anything with an outline."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any, Literal

from planner.garden.arrangements import Places
from planner.garden.edits.common import EditError, changed, checked, finite, fresh_id, fresh_name, replaced
from planner.garden.garden import Garden
from planner.garden.ground import Bed, Structure
from planner.garden.model import Model, Point
from planner.garden.outlines import Outline
from planner.garden.plots import Region, Stretch


def add_bed(garden: Garden, outline: Outline, name: str = "", **fields: Any) -> tuple[Garden, str]:
    """Add a bed; without a name it gets the next number.

    Returns
    -------
    garden, id
    """
    names = [bed.name for bed in garden.beds]
    key = fresh_id(garden, "b")
    name = name.strip() or fresh_name(names, f"Bed {len(names) + 1}")
    _refuse_name(garden, name, key)
    bed = checked(lambda: Bed(id=key, name=name, outline=outline, **fields), name)
    return checked(lambda: garden.with_(beds=(*garden.beds, bed)), name), key


def _refuse_name(garden: Garden, name: str, own: str) -> None:
    for bed in garden.beds:
        if bed.id != own and bed.name.casefold() == name.casefold():
            free = fresh_name([b.name for b in garden.beds], name)
            raise EditError(
                f"there is a bed named '{bed.name}' already", mend=f"Take another name, as '{free}'"
            )


def change_bed(garden: Garden, bed: str, **fields: Any) -> Garden:
    """Change fields of a bed."""
    old = _bed(garden, bed)
    if "name" in fields:
        fields["name"] = str(fields["name"]).strip()
        _refuse_name(garden, fields["name"], bed)
    return replaced(garden, "beds", {bed: changed(old, old.name, fields)})


def _bed(garden: Garden, key: str) -> Bed:
    bed = garden.beds_by_id.get(key)
    if bed is None:
        raise EditError(f"there is no bed '{key}'")
    return bed


def _things(garden: Garden, ids: Iterable[str]) -> list[Bed | Structure]:
    found: list[Bed | Structure] = []
    for key in ids:
        thing = garden.beds_by_id.get(key) or garden.structures_by_id.get(key)
        if thing is None:
            raise EditError(f"there is no bed or structure '{key}'")
        found.append(thing)
    return found


def _with_outlines(garden: Garden, new: list[tuple[Bed | Structure, dict[str, Any]]]) -> Garden:
    beds: dict[str, Model] = {}
    structures: dict[str, Model] = {}
    for thing, changes in new:
        where = thing.name or thing.id
        outline = changed(thing.outline, where, changes)
        if outline is not thing.outline:
            part = beds if isinstance(thing, Bed) else structures
            part[thing.id] = thing.with_(outline=outline)
    return replaced(replaced(garden, "beds", beds), "structures", structures)


def move_things(garden: Garden, ids: Iterable[str], dx: float, dy: float) -> Garden:
    """Move beds and structures by an offset on the plan. [m]  Their plantings go along."""
    finite(dx, "the move to the right")
    finite(dy, "the move upwards")
    return _with_outlines(
        garden,
        [
            (thing, {"center": (_tidy(thing.outline.center[0] + dx), _tidy(thing.outline.center[1] + dy))})
            for thing in _things(garden, ids)
        ],
    )


def turn_things(garden: Garden, ids: Iterable[str], degrees: float, about: Point | None = None) -> Garden:
    """Turn beds and structures anticlockwise, about a point of the plan or each about its centre."""
    finite(degrees, "the angle")
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    new: list[tuple[Bed | Structure, dict[str, Any]]] = []
    for thing in _things(garden, ids):
        turn = (thing.outline.turn + degrees) % 360.0
        changes: dict[str, Any] = {"turn": round(turn, 6) % 360.0}
        if about is not None:
            x, y = thing.outline.center[0] - about[0], thing.outline.center[1] - about[1]
            changes["center"] = (_tidy(about[0] + cos * x - sin * y), _tidy(about[1] + sin * x + cos * y))
        new.append((thing, changes))
    return _with_outlines(garden, new)


def align_beds(
    garden: Garden,
    ids: Iterable[str],
    side: Literal["left", "right", "bottom", "top"],
    extents: dict[str, tuple[float, float, float, float]],
) -> Garden:
    """Line beds and structures up by one side of their extents.

    Parameters
    ----------
    extents : dict
        Least x, least y, greatest x, greatest y on the plan by id. [m]
    """
    index = {"left": 0, "bottom": 1, "right": 2, "top": 3}[side]
    things = _things(garden, ids)
    if len(things) < 2:
        return garden
    edges = [extents[thing.id][index] for thing in things]
    goal = min(edges) if index < 2 else max(edges)
    new: list[tuple[Bed | Structure, dict[str, Any]]] = []
    for thing, edge in zip(things, edges, strict=True):
        x, y = thing.outline.center
        center = (_tidy(x + goal - edge), y) if index in (0, 2) else (x, _tidy(y + goal - edge))
        new.append((thing, {"center": center}))
    return _with_outlines(garden, new)


def resize_bed(garden: Garden, key: str, outline: Outline) -> Garden:
    """Give a bed or structure another outline, its plantings staying where they are on the ground.

    The outline's centre may move (a side that is dragged moves it by half as much); drawn plots and
    given places are shifted back by that.
    """
    (thing,) = _things(garden, [key])
    where = thing.name or thing.id
    if isinstance(thing, Structure):
        new_structure = checked(lambda: thing.with_(outline=outline), where)
        return replaced(garden, "structures", {key: new_structure})
    new_bed = checked(lambda: thing.with_(outline=outline), where)
    dx, dy = thing.outline.center[0] - outline.center[0], thing.outline.center[1] - outline.center[1]
    back = math.radians(-outline.turn)
    shift = (
        math.cos(back) * dx - math.sin(back) * dy,
        math.sin(back) * dx + math.cos(back) * dy,
    )
    moved: dict[str, Model] = {}
    for planting in garden.plantings:
        if planting.bed != key:
            continue
        changes: dict[str, Any] = {}
        if isinstance(planting.plot, Region):
            changes["plot"] = planting.plot.with_(points=_shifted(planting.plot.points, shift))
        elif isinstance(planting.plot, Stretch):
            begun = _beginning(thing.outline) - _beginning(outline)
            changes["plot"] = _moved_stretch(planting.plot, begun + _along(thing.outline, shift))
        if isinstance(planting.arrangement, Places):
            points = _shifted(planting.arrangement.points, shift)
            changes["arrangement"] = planting.arrangement.with_(points=points)
        if changes:
            moved[planting.id] = changed(planting, where, changes)
    return replaced(replaced(garden, "beds", {key: new_bed}), "plantings", moved)


def _shifted(points: tuple[Point, ...], by: Point) -> tuple[Point, ...]:
    return tuple((_tidy(x + by[0]), _tidy(y + by[1])) for x, y in points)


def _beginning(outline: Outline) -> float:
    """Where the long axis of a rectangle or circle begins, from its centre."""
    if outline.shape == "rectangle":
        return -max(outline.length, outline.width) / 2
    return -outline.radius if outline.shape == "circle" else 0.0


def _along(outline: Outline, shift: Point) -> float:
    upright = outline.shape == "rectangle" and outline.width > outline.length
    return shift[1] if upright else shift[0]


def _moved_stretch(plot: Stretch, by: float) -> Stretch:
    """The stretch moved along; what would come to lie before the bed's beginning is cut off."""
    end = _tidy(plot.end + by)
    start = _tidy(max(0.0, plot.start + by))
    return plot.with_(start=start, end=end) if end - start >= 0.01 else plot


def _tidy(value: float) -> float:
    return round(value, 6)
