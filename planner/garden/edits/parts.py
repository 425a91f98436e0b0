"""Edits of the site, the climate, own varieties and stock."""

from __future__ import annotations

from typing import Any

from planner.garden.edits.common import EditError, changed, checked, fresh_id, put
from planner.garden.garden import Garden
from planner.garden.site import NEW_NAME
from planner.garden.varieties import Lot, Variety
from planner.words import say


def change_site(garden: Garden, **fields: Any) -> Garden:
    """Change fields of the site; a garden that is renamed stays the same one to calendars."""
    before = garden.site
    site = changed(before, "site", fields)
    named = before.name != NEW_NAME and bool(garden.plantings)  # nothing of it is in a calendar before
    if site.name != before.name and named and not site.known_as:
        site = site.with_(known_as=before.name)
    return garden if site is garden.site else put(garden, site=site)


def change_climate(garden: Garden, **fields: Any) -> Garden:
    """Change fields of the climate."""
    climate = changed(garden.climate, "climate", fields)
    return garden if climate is garden.climate else put(garden, climate=climate)


def change_weather(garden: Garden, **fields: Any) -> Garden:
    """Change fields of the recorded years of weather; ``years=()`` takes them all out."""
    weather = changed(garden.weather, "weather", fields)
    return garden if weather is garden.weather else put(garden, weather=weather)


def put_variety(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change an own variety, or add one.

    Plantings of its crop that name it follow a new name.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the variety; without one a new variety is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    old = next((own for own in garden.varieties if own.id == key), None)
    if key is not None and old is None:
        raise EditError(say("there is no own variety '{key}'", key=key))
    key = key or fresh_id(garden, "v")
    where = str(fields.get("name") or (old.name if old else "variety"))
    if old is not None:
        new = changed(old, where, fields)
    else:
        new = checked(lambda: Variety(id=key, **fields), where)
    for own in garden.varieties:
        if own.id != key and (own.crop, own.name.casefold()) == (new.crop, new.name.casefold()):
            raise EditError(
                say("there is a variety '{own}' of {crop} already", own=own.name, crop=own.crop),
                fix=say("Take another name"),
            )
    if old is None:
        return put(garden, varieties=(*garden.varieties, new)), key
    if new is old:
        return garden, key
    varieties = tuple(new if own.id == key else own for own in garden.varieties)
    plantings = tuple(
        p.with_(variety=new.name) if garden.own_variety(p) is old and new.crop == old.crop else p
        for p in garden.plantings
    )
    return put(garden, varieties=varieties, plantings=plantings), key


def put_lot(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change a lot of seed, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the lot; without one a new lot is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    old = next((lot for lot in garden.stock if lot.id == key), None)
    if key is not None and old is None:
        raise EditError(say("there is no lot '{key}'", key=key))
    key = key or fresh_id(garden, "l")
    if old is None:
        lot = checked(lambda: Lot(id=key, **fields), str(fields.get("crop", "lot")))
        return put(garden, stock=(*garden.stock, lot)), key
    new = changed(old, old.crop, fields)
    if new is old:
        return garden, key
    return put(garden, stock=tuple(new if lot.id == key else lot for lot in garden.stock)), key


def remove_part(garden: Garden, key: str) -> Garden:
    """Remove an own variety or a lot of seed.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the variety or lot.
    """
    varieties = tuple(own for own in garden.varieties if own.id != key)
    stock = tuple(lot for lot in garden.stock if lot.id != key)
    if len(varieties) == len(garden.varieties) and len(stock) == len(garden.stock):
        raise EditError(say("there is no own variety or lot '{key}'", key=key))
    return put(garden, varieties=varieties, stock=stock)
