"""Beds by the names people call them."""

from __future__ import annotations

from collections.abc import Iterable

from planner.garden.beds import Bed


def beds_called(beds: Iterable[Bed], name: str) -> list[Bed]:
    """Return the beds of a name, capitals aside, or of an id; in their order, empty where there is none.

    Parameters
    ----------
    beds : iterable of Bed
    name : str
        A name or an id; several beds may have the same name.
    """
    plain = name.casefold()
    return [bed for bed in beds if name == bed.id or plain == bed.name.casefold()]
