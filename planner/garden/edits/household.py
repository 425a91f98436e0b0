"""Edits of the household and of the places in which its harvest is kept."""

from __future__ import annotations

from typing import Any

from planner.garden.edits.common import EditError, changed, checked, fresh_id, put
from planner.garden.garden import Garden
from planner.garden.household import Eaten, StorePlace
from planner.words import say


def change_household(garden: Garden, **fields: Any) -> Garden:
    """Change fields of the household."""
    household = changed(garden.household, "household", fields)
    return garden if household is garden.household else put(garden, household=household)


def set_eaten(garden: Garden, crop: str, kilograms: float | None, per: str = "year") -> Garden:
    """Say how much of a crop one person eats.

    Parameters
    ----------
    garden : Garden
    crop : str
        Key of the crop.
    kilograms : float or None
        None takes what was said back, so that what is published counts again. [kg]
    per : {"year", "week"}
    """
    others = tuple(one for one in garden.household.eats if one.crop != crop)
    if kilograms is None:
        return change_household(garden, eats=others)
    fields = {"crop": crop, "kilograms": kilograms, "per": per}
    new = checked(lambda: Eaten.model_validate(fields), say("what is eaten of {crop}", crop=crop))
    if new in garden.household.eats:
        return garden
    return change_household(garden, eats=(*others, new))


def put_store_place(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change a place in which harvest is kept, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the place; without one a new place is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    old = next((place for place in garden.store_places if place.id == key), None)
    if key is not None and old is None:
        raise EditError(say("there is no place '{key}' to keep a harvest in", key=key))
    where = str(fields.get("name") or (old.name if old else "place"))
    key = key or fresh_id(garden, "k")
    new = changed(old, where, fields) if old else checked(lambda: StorePlace(id=key, **fields), where)
    for one in garden.store_places:
        if one.id != key and one.name.casefold() == new.name.casefold():
            raise EditError(
                say("there is a place '{name}' already", name=one.name), fix=say("Take another name")
            )
    if old is None:
        return put(garden, store_places=(*garden.store_places, new)), key
    if new is old:
        return garden, key
    return put(garden, store_places=tuple(new if one is old else one for one in garden.store_places)), key


def remove_store_place(garden: Garden, key: str) -> Garden:
    """Remove a place in which harvest was kept.

    Parameters
    ----------
    garden : Garden
    key : str
        Its id.
    """
    rest = tuple(place for place in garden.store_places if place.id != key)
    if len(rest) == len(garden.store_places):
        raise EditError(say("there is no place '{key}' to keep a harvest in", key=key))
    return put(garden, store_places=rest)


def keep_in(garden: Garden, crop: str, key: str | None) -> Garden:
    """Keep a crop in one place and nowhere else.

    A place that names crops is for those alone; other crops keep in the places that name none.

    Parameters
    ----------
    garden : Garden
    crop : str
        Key of the crop.
    key : str or None
        Id of the place; None for wherever it keeps best.
    """
    if key is not None and all(place.id != key for place in garden.store_places):
        raise EditError(say("there is no place '{key}' to keep a harvest in", key=key))
    for place in garden.store_places:
        crops = tuple(one for one in place.crops if one != crop)
        if place.id == key:
            crops = place.crops if crop in place.crops else (*place.crops, crop)
        if crops != place.crops:
            garden, _ = put_store_place(garden, place.id, crops=crops)
    return garden
