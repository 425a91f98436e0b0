"""Edits of structures."""

from __future__ import annotations

from typing import Any

from planner.garden.beds import Structure
from planner.garden.edits.common import EditError, changed, checked, fresh_id, put, replaced
from planner.garden.garden import Garden
from planner.garden.outlines import Outline
from planner.words import say


def add_structure(
    garden: Garden, kind: str, outline: Outline, height: float, **fields: Any
) -> tuple[Garden, str]:
    """Add a structure.

    Parameters
    ----------
    garden : Garden
    kind : str
    outline : Outline
    height : float
        [m]
    **fields
        Further fields of the structure.

    Returns
    -------
    garden, id
    """
    key = fresh_id(garden, "s")
    structure = checked(
        lambda: Structure.model_validate(
            {"id": key, "kind": kind, "outline": outline, "height": height, **fields}
        ),
        str(fields.get("name") or kind),
    )
    return put(garden, structures=(*garden.structures, structure)), key


def change_structure(garden: Garden, key: str, **fields: Any) -> Garden:
    """Change fields of a structure.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the structure.
    **fields
        New values of its fields.
    """
    old = garden.structures_by_id.get(key)
    if old is None:
        raise EditError(say("there is no structure '{key}'", key=key))
    return replaced(garden, "structures", {key: changed(old, old.name or old.kind, fields)})
