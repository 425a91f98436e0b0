"""Edits of plantings."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from planner.garden.arrangements import Places
from planner.garden.edits.common import EditError, changed, checked, finite, fresh_id, put, replaced
from planner.garden.garden import Garden
from planner.garden.model import Point
from planner.garden.planting import Planting, SupportKind
from planner.garden.plots import Plot
from planner.words import say


def add_planting(garden: Garden, bed: str, crop: str, year: int, **fields: Any) -> tuple[Garden, str]:
    """Add a planting to a bed.

    Parameters
    ----------
    garden : Garden
    bed : str
        Id of the bed.
    crop : str
        Key of the crop.
    year : int
        Growing year.
    **fields
        Further fields of the planting.

    Returns
    -------
    garden, id
    """
    if bed not in garden.beds_by_id:
        raise EditError(say("there is no bed '{bed}' to plant {crop} in", bed=bed, crop=crop))
    key = fresh_id(garden, "p")
    planting = checked(
        lambda: Planting.model_validate({"id": key, "bed": bed, "crop": crop, "year": year, **fields}), crop
    )
    return put(garden, plantings=(*garden.plantings, planting)), key


def plant(garden: Garden, bed: str, crop: str, year: int, **fields: Any) -> tuple[Garden, tuple[str, ...]]:
    """Add a planting; single plants are added to a planting of single plants of the same variety and year, if any.

    Parameters
    ----------
    garden : Garden
    bed : str
        Id of the bed.
    crop : str
        Key of the crop.
    year : int
        Growing year.
    **fields
        Further fields of the planting.  Single places are added to a planting of single places over the whole bed, of
        the same variety and year, if the bed has one.

    Returns
    -------
    garden, ids
        Ids of new plantings: none if the plants were added to another.
    """
    arrangement = fields.get("arrangement")
    if isinstance(arrangement, Places):
        twin = _single_plants(garden, bed, crop, year, fields.get("variety", ""))
        if twin is not None and isinstance(twin.arrangement, Places):
            points = (*twin.arrangement.points, *arrangement.points)
            places = checked(lambda: Places(points=points), crop)
            return change_planting(garden, twin.id, arrangement=places), ()
    garden, key = add_planting(garden, bed, crop, year, **fields)
    return garden, (key,)


def _single_plants(garden: Garden, bed: str, crop: str, year: int, variety: str) -> Planting | None:
    """The planting of single places over a whole bed of a variety in a year; None where there is none."""
    for there in garden.plantings:
        same = (there.bed, there.crop, there.variety, there.year) == (bed, crop, variety, year)
        if same and there.arrangement.kind == "places" and there.plot.kind == "whole":
            return there
    return None


def change_planting(garden: Garden, key: str, **fields: Any) -> Garden:
    """Change fields of a planting.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    **fields
        New values of its fields.
    """
    old = garden.plantings_by_id.get(key)
    if old is None:
        raise EditError(say("there is no planting '{key}'", key=key))
    if "bed" in fields and fields["bed"] not in garden.beds_by_id:
        raise EditError(
            say("there is no bed '{fields}' to move {crop} to", fields=fields["bed"], crop=old.crop)
        )
    where = f"{old.crop} in {garden.beds_by_id[old.bed].name}"
    if fields.get("crop", old.crop) != old.crop:
        fields = {"product": "", **fields}  # another crop has other products
    return replaced(garden, "plantings", {key: changed(old, where, fields)})


def move_planting(garden: Garden, key: str, bed: str, plot: Plot) -> Garden:
    """Move a planting to another plot of its bed or of another bed.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    bed : str
        Id of the bed.
    plot : Plot
    """
    return change_planting(garden, key, bed=bed, plot=plot)


def draw_support(
    garden: Garden, key: str, line: tuple[Point, ...], kind: SupportKind = "net", **fields: Any
) -> Garden:
    """Draw the line of a planting's support; its plants follow the line.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    line : tuple of (float, float)
        In the bed's coordinates. [m]
    kind : str
        Kind of the support of a planting that has none yet.
    **fields
        New values of further fields of the support.
    """
    old = garden.plantings_by_id.get(key)
    if old is None:
        raise EditError(say("there is no planting '{key}'", key=key))
    places = tuple((round(x, 6), round(y, 6)) for x, y in line)
    now = old.support.model_dump() if old.support is not None else {"kind": kind}
    return change_planting(garden, key, support={**now, "line": places, **fields})


def split_planting(
    garden: Garden, key: str, parts: Sequence[Mapping[str, Any]]
) -> tuple[Garden, tuple[str, ...]]:
    """Make several plantings of one, which lie behind it in the garden.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting; the first part keeps it, with all that refers to it.
    parts : sequence of mapping
        New values of the fields in which each part differs, as its plot.

    Returns
    -------
    garden, ids
        Ids of the parts but the first, in their order.

    Raises
    ------
    EditError
        Where there is no such planting, no part, or a value is not allowed.
    """
    old = garden.plantings_by_id.get(key)
    if old is None:
        raise EditError(say("there is no planting '{key}'", key=key))
    if not parts:
        raise EditError(say("a planting is split into one part at the least"))
    garden = change_planting(garden, key, **parts[0])
    ids: list[str] = []
    for fields in parts[1:]:
        new = checked(
            lambda: old.with_(id=fresh_id(garden, "p"), **fields),  # noqa: B023
            old.crop,
        )
        garden = put(garden, plantings=(*garden.plantings, new))
        ids.append(new.id)
    return garden, tuple(ids)


def move_places(garden: Garden, key: str, indices: Collection[int], dx: float, dy: float) -> Garden:
    """Move single plants of a planting with given places.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    indices : collection of int
        Indices of the places; others than there are do nothing.
    dx, dy : float
        In the bed's coordinates. [m]
    """
    planting = garden.plantings_by_id.get(key)
    if planting is None or planting.arrangement.kind != "places":
        raise EditError(say("only a planting of single places has single plants to move"))
    points = tuple(
        (round(x + finite(dx, "x"), 6), round(y + finite(dy, "y"), 6)) if i in indices else (x, y)
        for i, (x, y) in enumerate(planting.arrangement.points)
    )
    arrangement = checked(lambda: Places(points=points), planting.crop)
    return change_planting(garden, key, arrangement=arrangement)


def remove_places(garden: Garden, key: str, indices: set[int]) -> Garden:
    """Remove single plants from a planting with given places; the planting goes with its last plant.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    indices : set of int
        Indices of the places; others than there are do nothing.
    """
    planting = garden.plantings_by_id.get(key)
    if planting is None or planting.arrangement.kind != "places":
        raise EditError(say("only a planting of single places can lose single plants"))
    points = tuple(p for i, p in enumerate(planting.arrangement.points) if i not in indices)
    if not points:
        return put(garden, plantings=tuple(p for p in garden.plantings if p.id != key))
    return change_planting(garden, key, arrangement=planting.arrangement.with_(points=points))
