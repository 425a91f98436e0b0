"""Edits of many things at once: removing, duplicating, pasting from another garden."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from planner.garden.edits.common import EditError, checked, fresh_id, fresh_name
from planner.garden.garden import Garden
from planner.garden.ground import Bed, Structure
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
    return garden.with_(
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
    beds = {key: other.beds_by_id[key] for key in wanted if key in other.beds_by_id}
    new: list[str] = []
    at: dict[str, str] = {}
    for key in wanted:
        thing: Bed | Structure | None = beds.get(key) or other.structures_by_id.get(key)
        if thing is None:
            continue
        outline = thing.outline.with_(
            center=(round(thing.outline.center[0] + dx, 6), round(thing.outline.center[1] + dy, 6))
        )
        changes: dict[str, Any] = {"outline": outline}
        if isinstance(thing, Bed):
            changes["id"] = fresh_id(garden, "b")
            changes["name"] = fresh_name([bed.name for bed in garden.beds], thing.name)
            at[key] = changes["id"]
            bed = checked(lambda t=thing, c=changes: t.with_(**c), thing.name)  # type: ignore[misc]
            garden = garden.with_(beds=(*garden.beds, bed))
        else:
            changes["id"] = fresh_id(garden, "s")
            structure = checked(lambda t=thing, c=changes: t.with_(**c), thing.name)  # type: ignore[misc]
            garden = garden.with_(structures=(*garden.structures, structure))
        new.append(changes["id"])
    alone = {
        key for key in wanted if key in other.plantings_by_id and other.plantings_by_id[key].bed not in beds
    }
    copies: list[Planting] = []
    number = int(fresh_id(garden, "p")[1:])
    for planting in other.plantings:
        bed_key = at.get(planting.bed) or (planting.bed if planting.id in alone else None)
        if bed_key is None:
            continue
        if bed_key not in garden.beds_by_id:
            raise EditError(
                f"{planting.crop} has no bed to go to", mend="Copy its bed along, or paste onto a bed"
            )
        copy = planting.with_(id=f"p{number}", bed=bed_key)
        number += 1
        copies.append(copy)
        if planting.id in alone:
            new.append(copy.id)
    have = {(own.crop, own.name.casefold()) for own in garden.varieties}
    own = []
    for planting in copies:
        variety = other.own_variety(planting)
        if variety is not None and (variety.crop, variety.name.casefold()) not in have:
            have.add((variety.crop, variety.name.casefold()))
            own.append(variety)
    garden = garden.with_(plantings=(*garden.plantings, *copies))
    for variety in own:
        garden = garden.with_(varieties=(*garden.varieties, variety.with_(id=fresh_id(garden, "v"))))
    return garden, tuple(new)
