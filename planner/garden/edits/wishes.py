"""Edits of wishes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from planner.garden.edits.common import EditError, changed, checked, fresh_id, put, replaced
from planner.garden.garden import Garden
from planner.garden.wishes import Wish


def put_wish(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change a wish, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the wish; without one a new wish is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    old = next((one for one in garden.wishes if one.id == key), None)
    if key is not None and old is None:
        raise EditError(f"there is no wish '{key}'")
    if old is None:
        key = fresh_id(garden, "w")
        new = checked(lambda: Wish(id=key, **fields), str(fields.get("crop", "wish")))
        return put(garden, wishes=(*garden.wishes, new)), key
    return replaced(garden, "wishes", {old.id: changed(old, old.crop, fields)}), old.id


def remove_wishes(garden: Garden, keys: Iterable[str]) -> Garden:
    """Remove wishes.

    Parameters
    ----------
    garden : Garden
    keys : iterable of str
        Their ids.
    """
    gone = set(keys)
    if unknown := gone - {one.id for one in garden.wishes}:
        raise EditError(f"there is no wish '{min(unknown)}'")
    return put(garden, wishes=tuple(one for one in garden.wishes if one.id not in gone)) if gone else garden
