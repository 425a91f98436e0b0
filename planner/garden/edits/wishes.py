"""Edits of wishes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from planner.garden.edits.common import put_thing, remove_things
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
    return put_thing(garden, "wishes", Wish, key, fields, letter="w", named_by="crop")


def add_wishes(garden: Garden, wishes: Iterable[Wish]) -> Garden:
    """Add wishes, but for those of which there is one already: the same crop for the same use, planted like the same planting.

    Parameters
    ----------
    garden : Garden
    wishes : iterable of Wish
        They get ids of their own.
    """
    there = {_same(one) for one in garden.wishes}
    for wish in wishes:
        if _same(wish) not in there:
            fields = {name: getattr(wish, name) for name in Wish.model_fields if name != "id"}
            garden, _ = put_wish(garden, **fields)
    return garden


def _same(wish: Wish) -> tuple[object, ...]:
    return wish.year, wish.crop, wish.variety, wish.purpose, wish.like


def remove_wishes(garden: Garden, keys: Iterable[str]) -> Garden:
    """Remove wishes.

    Parameters
    ----------
    garden : Garden
    keys : iterable of str
        Their ids.
    """
    return remove_things(garden, "wishes", Wish, keys)
