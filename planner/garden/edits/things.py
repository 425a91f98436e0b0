"""Edits of many things at once: removing, duplicating, pasting from another garden."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import count

from planner.garden.beds import Bed, Structure
from planner.garden.edits.common import EditError, changed, fresh_id, fresh_name, put
from planner.garden.edits.own_plants import own_plants_of, take_own
from planner.garden.garden import Garden
from planner.garden.outlines import Outline
from planner.garden.planting import Planting
from planner.words import say


def remove(garden: Garden, ids: Iterable[str]) -> Garden:
    """Remove beds (with their plantings), structures and plantings.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
    """
    gone = set(ids)
    missing = gone - (
        garden.beds_by_id.keys() | garden.structures_by_id.keys() | garden.plantings_by_id.keys()
    )
    if missing:
        raise EditError(say("there is nothing with the id '{key}'", key=min(missing)))
    if not gone:
        return garden
    return put(
        garden,
        beds=tuple(bed for bed in garden.beds if bed.id not in gone),
        structures=tuple(s for s in garden.structures if s.id not in gone),
        plantings=tuple(p for p in garden.plantings if p.id not in gone and p.bed not in gone),
    )


def duplicate(garden: Garden, ids: Iterable[str], dx: float, dy: float) -> tuple[Garden, tuple[str, ...]]:
    """Copy beds (with their plantings), structures and plantings.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
    dx, dy : float
        Offset of the copied beds and structures on the plan; a planting copied by itself stays on its plot. [m]

    Returns
    -------
    garden, ids of the copies
    """
    return paste(garden, garden, ids, dx, dy)


def paste(
    garden: Garden, other: Garden, ids: Iterable[str], dx: float, dy: float
) -> tuple[Garden, tuple[str, ...]]:
    """Copy things of another garden (or the same one) into a garden.

    Beds are copied with their plantings, plantings with the own varieties and crops that they name.

    Parameters
    ----------
    garden : Garden
    other : Garden
        Garden to copy from.
    ids : iterable of str
        Things of the other garden; ids that it does not have are skipped.
    dx, dy : float
        Offset of the copied beds and structures on the plan. [m]

    Returns
    -------
    garden, ids of the copied beds and structures, and of plantings copied by themselves

    Raises
    ------
    EditError
        If a planting is copied without its bed and the garden has no bed of that id.
    """
    wanted = list(dict.fromkeys(ids))
    garden, copied = _paste_ground(garden, other, wanted, dx, dy)
    alone = {
        key for key in wanted if key in other.plantings_by_id and other.plantings_by_id[key].bed not in copied
    }
    copies = _planting_copies(garden, other, copied, alone)
    garden = put(garden, plantings=(*garden.plantings, *copies.values()))
    named = own_plants_of(other, (p for p in other.plantings if p.id in copies))
    garden = take_own(garden, other, *named)
    return garden, (*copied.values(), *(copy.id for key, copy in copies.items() if key in alone))


def _paste_ground(
    garden: Garden, other: Garden, wanted: Iterable[str], dx: float, dy: float
) -> tuple[Garden, dict[str, str]]:
    """Copy beds and structures; the garden, and the new ids by the old ones in the order wanted."""
    beds: list[Bed] = []
    structures: list[Structure] = []
    names = [bed.name for bed in garden.beds]
    copied: dict[str, str] = {}
    next_bed, next_structure = _counter(garden, "b"), _counter(garden, "s")
    for key in wanted:
        thing = other.beds_by_id.get(key) or other.structures_by_id.get(key)
        if thing is None:
            continue
        outline = _moved_outline(thing, dx, dy)
        if isinstance(thing, Bed):
            copied[key] = f"b{next(next_bed)}"
            names.append(fresh_name(names, thing.name))
            beds.append(thing.with_(id=copied[key], name=names[-1], outline=outline, locked=False))
        else:
            copied[key] = f"s{next(next_structure)}"
            structures.append(thing.with_(id=copied[key], outline=outline, locked=False))
    garden = put(garden, beds=(*garden.beds, *beds), structures=(*garden.structures, *structures))
    return garden, copied


def _planting_copies(
    garden: Garden, other: Garden, copied_beds: dict[str, str], alone: set[str]
) -> dict[str, Planting]:
    """Copies of the plantings of copied beds and of those copied by themselves, by the old ids."""
    copies: dict[str, Planting] = {}
    next_planting = _counter(garden, "p")
    for planting in other.plantings:
        bed = copied_beds.get(planting.bed) or (planting.bed if planting.id in alone else None)
        if bed is None:
            continue
        if bed not in garden.beds_by_id:
            raise EditError(
                say("{crop} has no bed to go to", crop=planting.crop),
                fix=say("Copy its bed along, or paste onto a bed"),
            )
        copies[planting.id] = planting.with_(
            id=f"p{next(next_planting)}", bed=bed, replaces=None, repeats=None
        )
    return copies


def _counter(garden: Garden, letter: str) -> Iterator[int]:
    """Numbers of unused ids with this letter."""
    return count(int(fresh_id(garden, letter)[1:]))


def _moved_outline(thing: Bed | Structure, dx: float, dy: float) -> Outline:
    x, y = thing.outline.center
    return changed(thing.outline, thing.name or thing.id, {"center": (round(x + dx, 6), round(y + dy, 6))})
