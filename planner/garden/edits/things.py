"""Edits of many things at once: removing, duplicating, pasting from another garden."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import count

from planner.garden.beds import Bed, Structure
from planner.garden.edits.common import EditError, changed, fresh_id, fresh_name, put
from planner.garden.garden import Garden
from planner.garden.outlines import Outline
from planner.garden.planting import Planting


def remove(garden: Garden, ids: Iterable[str]) -> Garden:
    """Remove beds (with their plantings), structures and plantings."""
    gone = set(ids)
    known = garden.beds_by_id.keys() | garden.structures_by_id.keys() | garden.plantings_by_id.keys()
    unknown = gone - known
    if unknown:
        raise EditError(f"there is nothing with the id '{min(unknown)}'")
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

    Beds and structures are set off by ``dx``, ``dy`` on the plan [m]; a planting that is copied by
    itself stays on its plot.

    Returns
    -------
    garden, ids of the copies
    """
    return paste(garden, garden, ids, dx, dy)


def paste(
    garden: Garden, other: Garden, ids: Iterable[str], dx: float, dy: float
) -> tuple[Garden, tuple[str, ...]]:
    """Put copies of things of another garden (or the same) into a garden.

    Beds keep their plantings. A planting without its bed is taken over only where the garden has a
    bed of that id.  Own varieties that the plantings name come along.

    Returns
    -------
    garden, ids of the copied beds, structures, and plantings pasted by themselves
    """
    wanted = list(dict.fromkeys(ids))
    beds: list[Bed] = []
    structures: list[Structure] = []
    names = [bed.name for bed in garden.beds]
    at: dict[str, str] = {}
    new: list[str] = []
    next_bed, next_structure = _counter(garden, "b"), _counter(garden, "s")
    for key in wanted:
        thing = other.beds_by_id.get(key) or other.structures_by_id.get(key)
        if thing is None:
            continue
        outline = _set_off(thing, dx, dy)
        if isinstance(thing, Bed):
            at[key] = f"b{next(next_bed)}"
            name = fresh_name(names, thing.name)
            names.append(name)
            beds.append(thing.with_(id=at[key], name=name, outline=outline))
            new.append(at[key])
        else:
            structures.append(thing.with_(id=f"s{next(next_structure)}", outline=outline))
            new.append(structures[-1].id)
    garden = put(garden, beds=(*garden.beds, *beds), structures=(*garden.structures, *structures))
    alone = {
        key for key in wanted if key in other.plantings_by_id and other.plantings_by_id[key].bed not in at
    }
    copies: list[Planting] = []
    next_planting = _counter(garden, "p")
    for planting in other.plantings:
        bed_key = at.get(planting.bed) or (planting.bed if planting.id in alone else None)
        if bed_key is None:
            continue
        if bed_key not in garden.beds_by_id:
            raise EditError(
                f"{planting.crop} has no bed to go to", mend="Copy its bed along, or paste onto a bed"
            )
        copies.append(planting.with_(id=f"p{next(next_planting)}", bed=bed_key))
        if planting.id in alone:
            new.append(copies[-1].id)
    have = {(own.crop, own.name.casefold()) for own in garden.varieties}
    own = []
    for planting in copies:
        variety = other.own_variety(planting)
        if variety is not None and (variety.crop, variety.name.casefold()) not in have:
            have.add((variety.crop, variety.name.casefold()))
            own.append(variety)
    garden = put(garden, plantings=(*garden.plantings, *copies))
    for variety in own:
        garden = put(garden, varieties=(*garden.varieties, variety.with_(id=fresh_id(garden, "v"))))
    return garden, tuple(new)


def _counter(garden: Garden, letter: str) -> Iterator[int]:
    return count(int(fresh_id(garden, letter)[1:]))


def _set_off(thing: Bed | Structure, dx: float, dy: float) -> Outline:
    x, y = thing.outline.center
    return changed(thing.outline, thing.name or thing.id, {"center": (round(x + dx, 6), round(y + dy, 6))})
