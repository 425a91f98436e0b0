"""Edits of the benches on which plants are raised."""

from __future__ import annotations

from typing import Any

from planner.garden.edits.common import EditError, changed, checked, fresh_id, fresh_name, put, replaced
from planner.garden.garden import Garden
from planner.garden.raising import Bench
from planner.words import later, say

#: Names of new benches by kind.
_NAMES = {"heated": later("Heated bench"), "cool": later("Bench"), "cold frame": later("Cold frame")}


def put_bench(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change a bench, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the bench; without one a new bench is added.
    **fields
        New values of its fields. A new bench without a name gets that of its kind.

    Returns
    -------
    garden, id

    Raises
    ------
    EditError
        If there is no such bench, or a value is not allowed.
    """
    if key is None:
        key = fresh_id(garden, "t")
        kind = str(fields.get("kind") or "cool")
        wish = say(_NAMES[kind]) if kind in _NAMES else kind  # another kind is refused below
        name = fields.pop("name", "") or fresh_name((bench.name for bench in garden.benches), wish)
        new = checked(lambda: Bench(id=key, name=name, **fields), str(name))
        return put(garden, benches=(*garden.benches, new)), key
    old = next((bench for bench in garden.benches if bench.id == key), None)
    if old is None:
        raise EditError(say("there is no bench '{key}'", key=key))
    return replaced(garden, "benches", {key: changed(old, old.name, fields)}), key


def remove_bench(garden: Garden, key: str) -> Garden:
    """Remove a bench.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the bench.
    """
    left = tuple(bench for bench in garden.benches if bench.id != key)
    if len(left) == len(garden.benches):
        raise EditError(say("there is no bench '{key}'", key=key))
    return put(garden, benches=left)
