"""Settling what two people changed in different ways."""

from __future__ import annotations

import json
from typing import Any

from planner.garden.conflicts import KEYS, Conflict
from planner.garden.edits.common import EditError, checked, put
from planner.garden.edits.household import remove_store_place
from planner.garden.edits.materials import remove_material
from planner.garden.edits.offers import remove_offer
from planner.garden.edits.own_plants import remove_own
from planner.garden.edits.parts import remove_part
from planner.garden.edits.things import remove
from planner.garden.garden import Garden
from planner.garden.model import Model
from planner.words import say


def settle(garden: Garden, conflict: Conflict, take_other: bool) -> Garden:
    """Settle a conflict: keep what the garden holds, or take the other version.

    Parameters
    ----------
    garden : Garden
    conflict : Conflict
        One of the garden's.
    take_other : bool
        False keeps what the garden holds.

    Raises
    ------
    EditError
        Where it is no conflict of the garden, or the other version does not go with the rest.
    """
    if conflict not in garden.conflicts:
        raise EditError(say("this difference has been settled already"), conflict.key or conflict.part)
    if take_other:
        garden = _take_other(garden, conflict)
    return put(garden, conflicts=tuple(one for one in garden.conflicts if one != conflict))


def thing_of(garden: Garden, conflict: Conflict) -> Model | None:
    """Return what a conflict is about, as the garden holds it; None where that is gone."""
    part = getattr(garden, conflict.part)
    if isinstance(part, Model):
        return part
    field = KEYS[conflict.part]
    return next((thing for thing in part if str(getattr(thing, field)) == conflict.key), None)


def _take_other(garden: Garden, conflict: Conflict) -> Garden:
    thing = thing_of(garden, conflict)
    if thing is None:
        return garden
    if conflict.removed:
        return _without(garden, conflict, thing)
    new = _with_values(thing, conflict)
    part = getattr(garden, conflict.part)
    if isinstance(part, Model):
        return put(garden, **{conflict.part: new})
    return put(garden, **{conflict.part: tuple(new if one is thing else one for one in part)})


def _with_values(thing: Model, conflict: Conflict) -> Model:
    fields: dict[str, Any] = {**thing.model_dump(mode="json"), **conflict.values}

    def make() -> Model:
        return type(thing).model_validate_json(json.dumps(fields), strict=True)

    return checked(make, str(getattr(thing, "name", "") or conflict.key or conflict.part))


def _without(garden: Garden, conflict: Conflict, thing: Model) -> Garden:
    if conflict.part in ("varieties", "stock"):
        return remove_part(garden, conflict.key)
    if conflict.part in ("planting_stock", "offers"):
        return remove_offer(garden, conflict.key)
    if conflict.part in ("dressings", "shed"):
        return remove_material(garden, conflict.key)
    if conflict.part == "store_places":
        return remove_store_place(garden, conflict.key)
    if conflict.part in ("crops", "sources"):
        return remove_own(garden, conflict.key)
    if conflict.part in ("beds", "structures", "plantings"):
        return remove(garden, (conflict.key,))
    part = getattr(garden, conflict.part)
    return put(garden, **{conflict.part: tuple(one for one in part if one is not thing)})
