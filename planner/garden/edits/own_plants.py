"""Edits of own crops and sources, and what is taken of own plants from another garden."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterable
from typing import Any

from planner.garden.edits.common import EditError, changed, checked, fresh_id, put
from planner.garden.garden import Garden
from planner.garden.model import Model
from planner.garden.varieties import OwnCrop, OwnSource, Variety
from planner.words import say

#: Longest part of a name that goes into a key. [characters]
_LONGEST = 40


def own_key(name: str, taken: Collection[str]) -> str:
    """A key for an own crop or source, made of its name; with a number where that key is taken.

    Examples
    --------
    >>> own_key("Sea beet", ()), own_key("Sea beet", ("own_sea_beet",)), own_key("紫蘇", ())
    ('own_sea_beet', 'own_sea_beet_2', 'own_1')
    """
    bare = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().casefold()
    word = re.sub(r"[^a-z0-9]+", "_", bare).strip("_")[:_LONGEST].strip("_")
    number = 1
    while True:
        parts = [word] if word else []
        if number > 1 or not word:
            parts.append(str(number))
        key = "_".join(["own", *parts])
        if key not in taken:
            return key
        number += 1


def put_crop(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change an own crop, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Key of the crop; without one a new crop is added, with a key made of its name.
    **fields
        New values of its fields.

    Returns
    -------
    garden, key
    """
    old = next((own for own in garden.crops if own.key == key), None)
    if key is not None and old is None:
        raise EditError(say("there is no own crop '{key}'", key=key))
    name = str(fields.get("name") or (old.name if old else "crop"))
    for own in garden.crops:
        if own is not old and own.name.casefold() == name.casefold():
            raise EditError(
                say("there is an own crop '{own}' already", own=own.name), fix=say("Take another name")
            )
    if old is None:
        made = own_key(name, [own.key for own in garden.crops])
        crop = checked(lambda: OwnCrop(key=made, **fields), name)
        return put(garden, crops=(*garden.crops, crop)), made
    new = changed(old, name, fields)
    return _with(garden, "crops", old, new), old.key


def put_source(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change a source of own figures, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Key of the source; without one a new source is added, with a key made of its title.
    **fields
        New values of its fields.

    Returns
    -------
    garden, key
    """
    old = next((own for own in garden.sources if own.key == key), None)
    if key is not None and old is None:
        raise EditError(say("there is no own source '{key}'", key=key))
    title = str(fields.get("title") or (old.title if old else "source"))
    if old is None:
        made = own_key(title, [own.key for own in garden.sources])
        source = checked(lambda: OwnSource(key=made, **fields), title)
        return put(garden, sources=(*garden.sources, source)), made
    return _with(garden, "sources", old, changed(old, title, fields)), old.key


def remove_own(garden: Garden, key: str) -> Garden:
    """Remove an own crop or source that nothing names any more.

    Parameters
    ----------
    garden : Garden
    key : str

    Raises
    ------
    EditError
        If there is none of this key, or something still names it.
    """
    crop = next((own for own in garden.crops if own.key == key), None)
    if crop is not None:
        if any(planting.crop == key for planting in garden.plantings):
            raise EditError(
                say("{crop} is planted", crop=crop.name), fix=say("Remove its plantings of all years first")
            )
        named = (garden.varieties, garden.stock, garden.planting_stock, garden.offers)
        if any(thing.crop == key for things in named for thing in things):
            raise EditError(
                say("{crop} has varieties, seed or offers", crop=crop.name), fix=say("Remove those first")
            )
        return put(garden, crops=tuple(own for own in garden.crops if own is not crop))
    source = next((own for own in garden.sources if own.key == key), None)
    if source is None:
        raise EditError(say("there is no own crop or source '{key}'", key=key))
    things: tuple[Variety | OwnCrop, ...] = (*garden.varieties, *garden.crops)
    for thing in things:
        if any(one.source == key for one in (*thing.figures, *thing.words)):
            raise EditError(
                say("figures of {thing} come from {title}", thing=thing.name, title=source.title),
                fix=say("Change those first"),
            )
    return put(garden, sources=tuple(own for own in garden.sources if own is not source))


def take_own(garden: Garden, other: Garden, crops: Collection[str], varieties: Collection[str]) -> Garden:
    """Take own crops and varieties of another garden over, with the sources that they name.

    What the garden has already under the same key, or the same name, stays as it is.

    Parameters
    ----------
    garden, other : Garden
    crops : collection of str
        Keys of own crops of the other garden.
    varieties : collection of str
        Ids of varieties of the other garden; an own crop that one is of comes along.
    """
    names = {(own.crop, own.name.casefold()) for own in garden.varieties}
    wanted = [
        own for own in other.varieties if own.id in varieties and (own.crop, own.name.casefold()) not in names
    ]
    keys = {*crops, *(own.crop for own in wanted)}
    have = {own.key for own in garden.crops}
    new_crops = [own for own in other.crops if own.key in keys and own.key not in have]
    named = {one.source for thing in (*wanted, *new_crops) for one in (*thing.figures, *thing.words)}
    known = {own.key for own in garden.sources}
    new_sources = [own for own in other.sources if own.key in named and own.key not in known]
    if not wanted and not new_crops:
        return garden
    first = int(fresh_id(garden, "v")[1:])
    new_varieties = [own.with_(id=f"v{number}") for number, own in enumerate(wanted, start=first)]
    return put(
        garden,
        sources=(*garden.sources, *new_sources),
        crops=(*garden.crops, *new_crops),
        varieties=(*garden.varieties, *new_varieties),
    )


def own_plants_of(other: Garden, plantings: Iterable[Any]) -> tuple[set[str], set[str]]:
    """Keys of the own crops and ids of the own varieties that some plantings of a garden name."""
    planted = list(plantings)
    crops = {planting.crop for planting in planted} & {own.key for own in other.crops}
    found = (other.own_variety(planting) for planting in planted)
    return crops, {variety.id for variety in found if variety is not None}


def _with(garden: Garden, part: str, old: Model, new: Model) -> Garden:
    if new is old:
        return garden
    return put(garden, **{part: tuple(new if one is old else one for one in getattr(garden, part))})
