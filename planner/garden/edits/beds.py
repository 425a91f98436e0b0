"""Edits of beds, and moves and turns of anything with an outline."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any, Literal, TypeVar

from planner.garden.arrangements import Places
from planner.garden.beds import Bed, Structure
from planner.garden.edits.common import (
    EditError,
    changed,
    checked,
    finite,
    fresh_id,
    fresh_name,
    put,
    replaced,
)
from planner.garden.garden import Garden
from planner.garden.model import Model, Point
from planner.garden.outlines import Outline, extents_along, long_axis
from planner.garden.plots import Region, Stretch
from planner.words import say


def add_bed(garden: Garden, outline: Outline, name: str = "", **fields: Any) -> tuple[Garden, str]:
    """Add a bed; without a name it gets the next number.

    Parameters
    ----------
    garden : Garden
    outline : Outline
    name : str
        Must not be in use.
    **fields
        Further fields of the bed.

    Returns
    -------
    garden, id
    """
    names = [bed.name for bed in garden.beds]
    key = fresh_id(garden, "b")
    name = name.strip() or fresh_name(names, f"Bed {len(names) + 1}")
    _require_free_name(garden, name, key)
    bed = checked(lambda: Bed(id=key, name=name, outline=outline, **fields), name)
    return put(garden, beds=(*garden.beds, bed)), key


def _require_free_name(garden: Garden, name: str, own: str) -> None:
    """Raise EditError if another bed has this name."""
    for bed in garden.beds:
        if bed.id != own and bed.name.casefold() == name.casefold():
            free = fresh_name([b.name for b in garden.beds], name)
            raise EditError(
                say("there is a bed named '{bed}' already", bed=bed.name),
                fix=say("Take another name, as '{free}'", free=free),
            )


def change_bed(garden: Garden, bed: str, **fields: Any) -> Garden:
    """Change fields of a bed.

    Parameters
    ----------
    garden : Garden
    bed : str
        Id of the bed.
    **fields
        New values of its fields.
    """
    old = _bed(garden, bed)
    if "name" in fields:
        fields["name"] = str(fields["name"]).strip()
        _require_free_name(garden, fields["name"], bed)
    return replaced(garden, "beds", {bed: changed(old, old.name, fields)})


def _bed(garden: Garden, key: str) -> Bed:
    bed = garden.beds_by_id.get(key)
    if bed is None:
        raise EditError(say("there is no bed '{key}'", key=key))
    return bed


def things_of(garden: Garden, ids: Iterable[str]) -> list[Bed | Structure]:
    """The beds and structures of some ids; EditError where there is none."""
    found: list[Bed | Structure] = []
    for key in ids:
        thing = garden.beds_by_id.get(key) or garden.structures_by_id.get(key)
        if thing is None:
            raise EditError(say("there is no bed or structure '{key}'", key=key))
        found.append(thing)
    return found


def with_outlines(garden: Garden, new: list[tuple[Bed | Structure, dict[str, Any]]]) -> Garden:
    """A garden in which some beds and structures have changed fields of their outlines."""
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
    """Move beds, with their plantings, and structures.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Of beds and structures.
    dx, dy : float
        Offset on the plan, to the right and upwards. [m]
    """
    finite(dx, say("the move to the right"))
    finite(dy, say("the move upwards"))
    return with_outlines(
        garden,
        [
            (thing, {"center": (_tidy(thing.outline.center[0] + dx), _tidy(thing.outline.center[1] + dy))})
            for thing in things_of(garden, ids)
        ],
    )


def turn_things(garden: Garden, ids: Iterable[str], degrees: float, about: Point | None = None) -> Garden:
    """Turn beds, with their plantings, and structures.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Of beds and structures.
    degrees : float
        Anticlockwise. [degrees]
    about : tuple of float, optional
        Centre of the turn on the plan; the centre of each thing by default. [m]
    """
    finite(degrees, say("the angle"))
    cos, sin = _direction(degrees)
    new: list[tuple[Bed | Structure, dict[str, Any]]] = []
    for thing in things_of(garden, ids):
        turn = (thing.outline.turn + degrees) % 360.0
        changes: dict[str, Any] = {"turn": round(turn, 6) % 360.0}
        if about is not None:
            x, y = thing.outline.center[0] - about[0], thing.outline.center[1] - about[1]
            changes["center"] = (_tidy(about[0] + cos * x - sin * y), _tidy(about[1] + sin * x + cos * y))
        new.append((thing, changes))
    return with_outlines(garden, new)


def align_beds(
    garden: Garden,
    ids: Iterable[str],
    side: Literal["left", "right", "bottom", "top"],
    extents: dict[str, tuple[float, float, float, float]],
) -> Garden:
    """Align beds and structures by one side of their extents.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Of beds and structures; with fewer than two nothing changes.
    side : {"left", "right", "bottom", "top"}
    extents : dict of str to tuple of float
        Least x, least y, greatest x and greatest y on the plan, by id. [m]
    """
    index = {"left": 0, "bottom": 1, "right": 2, "top": 3}[side]
    things = things_of(garden, ids)
    if len(things) < 2:
        return garden
    edges = [extents[thing.id][index] for thing in things]
    goal = min(edges) if index < 2 else max(edges)
    new: list[tuple[Bed | Structure, dict[str, Any]]] = []
    for thing, edge in zip(things, edges, strict=True):
        x, y = thing.outline.center
        center = (_tidy(x + goal - edge), y) if index in (0, 2) else (x, _tidy(y + goal - edge))
        new.append((thing, {"center": center}))
    return with_outlines(garden, new)


def resize_bed(garden: Garden, key: str, outline: Outline) -> Garden:
    """Change the outline of a bed or structure; plantings stay where they are on the ground.

    Plots are in the bed's own coordinates, whose origin is the centre of the outline, so they are moved back: drawn
    plots and given places by the move and turn of the centre, stretches by the move of the bed's beginning.  A
    stretch becomes a drawn region if the long axis has turned or the stretch lies before the new beginning.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of a bed or structure.
    outline : Outline
    """
    (thing,) = things_of(garden, [key])
    where = thing.name or thing.id
    if outline == thing.outline:
        return garden
    if isinstance(thing, Structure):
        new_structure = checked(lambda: thing.with_(outline=outline), where)
        return replaced(garden, "structures", {key: new_structure})
    new_bed = checked(lambda: thing.with_(outline=outline), where)
    moved: dict[str, Model] = {}
    for planting in garden.plantings:
        if planting.bed != key:
            continue
        changes: dict[str, Any] = {}
        if isinstance(planting.plot, Region):
            changes["plot"] = _drawn_after_resizing(planting.plot, thing.outline, outline, where)
        elif isinstance(planting.plot, Stretch):
            changes["plot"] = _stretch_after_resizing(planting.plot, thing.outline, outline, where)
        if isinstance(planting.arrangement, Places):
            changes["arrangement"] = _drawn_after_resizing(
                planting.arrangement, thing.outline, outline, where
            )
        if planting.support is not None and planting.support.line:
            line = _points_after_resizing(planting.support.line, thing.outline, outline)
            changes["support"] = changed(planting.support, where, {"line": line})
        if changes:
            moved[planting.id] = changed(planting, where, changes)
    return replaced(replaced(garden, "beds", {key: new_bed}), "plantings", moved)


P = TypeVar("P", Region, Places)


def _drawn_after_resizing(drawn: P, old: Outline, new: Outline, where: str) -> P:
    """The same points of the ground in the own coordinates of another outline."""
    return changed(drawn, where, {"points": _points_after_resizing(drawn.points, old, new)})


def _points_after_resizing(points: tuple[Point, ...], old: Outline, new: Outline) -> tuple[Point, ...]:
    cos, sin = _direction(old.turn - new.turn)
    back_cos, back_sin = _direction(-new.turn)
    dx, dy = old.center[0] - new.center[0], old.center[1] - new.center[1]
    shift = back_cos * dx - back_sin * dy, back_sin * dx + back_cos * dy
    return tuple(
        (_tidy(cos * x - sin * y + shift[0]), _tidy(sin * x + cos * y + shift[1])) for x, y in points
    )


def _stretch_after_resizing(plot: Stretch, old: Outline, new: Outline, where: str) -> Stretch | Region:
    axis = old.turn + long_axis(old)
    cos, sin = _direction(axis)
    begin, low, _, high = extents_along(old)
    to_old = cos * old.center[0] + sin * old.center[1] + begin
    to_new = cos * new.center[0] + sin * new.center[1] + extents_along(new)[0]
    start, end = _tidy(plot.start + to_old - to_new), _tidy(plot.end + to_old - to_new)
    turned = (new.turn + long_axis(new) - axis + 180.0) % 360.0 - 180.0
    if abs(turned) < 1e-6 and end >= 0.01:
        return changed(plot, where, {"start": max(start, 0.0), "end": end})
    cos, sin = _direction(long_axis(old))
    corners = (
        (begin + along, across)
        for along, across in ((plot.start, low), (plot.end, low), (plot.end, high), (plot.start, high))
    )
    points = tuple((_tidy(cos * x - sin * y), _tidy(sin * x + cos * y)) for x, y in corners)
    return _drawn_after_resizing(checked(lambda: Region(points=points), where), old, new, where)


def _direction(degrees: float) -> tuple[float, float]:
    """Cosine and sine; exact for quarter turns."""
    quarter, rest = divmod(degrees, 90.0)
    if rest == 0.0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


def _tidy(value: float) -> float:
    return round(value, 6)
