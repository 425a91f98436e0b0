"""Edits of what is spread on beds and of what is in the shed."""

from __future__ import annotations

from typing import Any

from planner.garden.edits.common import EditError, changed, checked, fresh_id, put, replaced
from planner.garden.garden import Garden
from planner.garden.materials import Dressing, ShedItem
from planner.words import say


def put_dressing(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change a dressing of a bed, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the dressing; without one a new dressing is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    old = next((one for one in garden.dressings if one.id == key), None)
    if key is not None and old is None:
        raise EditError(say("there is no dressing '{key}'", key=key))
    bed = fields.get("bed", old.bed if old is not None else None)
    if bed not in garden.beds_by_id:
        raise EditError(
            say("there is no bed '{bed}' to spread it on", bed=bed), fix=say("Name a bed of the garden")
        )
    where = garden.beds_by_id[bed].name
    planting = fields.get("planting")
    if planting is not None and planting not in garden.plantings_by_id:
        raise EditError(
            say("there is no planting '{planting}' to spread it on", planting=planting),
            where,
            say("Name a planting of the garden"),
        )
    if old is None:
        key = fresh_id(garden, "d")
        new = checked(lambda: Dressing(id=key, **fields), where)
        return put(garden, dressings=(*garden.dressings, new)), key
    return replaced(garden, "dressings", {old.id: changed(old, where, fields)}), old.id


def put_shed_item(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change material in the shed, or add some.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the item; without one a new item is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    old = next((one for one in garden.shed if one.id == key), None)
    if key is not None and old is None:
        raise EditError(say("there is nothing in the shed with the id '{key}'", key=key))
    if old is None:
        key = fresh_id(garden, "m")
        new = checked(lambda: ShedItem(id=key, **fields), str(fields.get("kind", "shed")))
        return put(garden, shed=(*garden.shed, new)), key
    return replaced(garden, "shed", {old.id: changed(old, old.name or old.kind, fields)}), old.id


def remove_material(garden: Garden, key: str) -> Garden:
    """Remove a dressing of a bed, or material from the shed.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the dressing or item.
    """
    dressings = tuple(one for one in garden.dressings if one.id != key)
    shed = tuple(one for one in garden.shed if one.id != key)
    if len(dressings) == len(garden.dressings) and len(shed) == len(garden.shed):
        raise EditError(say("there is no dressing and nothing in the shed with the id '{key}'", key=key))
    return put(garden, dressings=dressings, shed=shed)
