"""Edits of trials."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from planner.garden.edits.common import EditError, changed, checked, fresh_id, put, replaced
from planner.garden.garden import Garden
from planner.garden.trials import Trial


def put_trial(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change a trial, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the trial; without one a new trial is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    old = next((one for one in garden.trials if one.id == key), None)
    if key is not None and old is None:
        raise EditError(f"there is no trial '{key}'")
    if old is None:
        key = fresh_id(garden, "x")
        new = checked(lambda: Trial(id=key, **fields), str(fields.get("question", "trial")))
        return put(garden, trials=(*garden.trials, new)), key
    return replaced(garden, "trials", {old.id: changed(old, old.question, fields)}), old.id


def remove_trials(garden: Garden, keys: Iterable[str]) -> Garden:
    """Remove trials; their plantings and records stay.

    Parameters
    ----------
    garden : Garden
    keys : iterable of str
        Their ids.
    """
    gone = set(keys)
    if unknown := gone - {one.id for one in garden.trials}:
        raise EditError(f"there is no trial '{min(unknown)}'")
    return put(garden, trials=tuple(one for one in garden.trials if one.id not in gone)) if gone else garden
