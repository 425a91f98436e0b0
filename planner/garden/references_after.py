"""Whether what an edited garden names is there, told by what was edited."""

from __future__ import annotations

from collections.abc import Collection, Container, Mapping
from itertools import zip_longest
from typing import Any, Protocol

from planner.garden.planting import Planting

#: Parts of which some things may be replaced by others of the same id, and some be added at the end.
FOLLOWED = frozenset({"beds", "structures", "plantings"})


class Listed(Protocol):
    """What is looked at of a garden."""

    @property
    def plantings(self) -> tuple[Planting, ...]:
        """All of its plantings."""

    @property
    def every_id(self) -> Container[str]:
        """Ids of all things in it."""

    @property
    def beds_by_id(self) -> Mapping[str, Any]:
        """Its beds."""

    @property
    def plantings_by_id(self) -> Mapping[str, Planting]:
        """Its plantings."""


def new_ids(before: Listed, after: Listed, parts: Collection[str]) -> set[str] | None:
    """The ids that an edit adds, where all references are sure to resolve after it; None where all are to be looked at.

    Parameters
    ----------
    before : Garden
        Whose references resolve.
    after : Garden
        The edited one.
    parts : collection of str
        Fields in which the two differ.
    """
    if not FOLLOWED.issuperset(parts):
        return None
    added = set[str]()
    for part in parts:
        old, new = getattr(before, part), getattr(after, part)
        if len(new) < len(old) or any(a is not b and a.id != b.id for a, b in zip(old, new, strict=False)):
            return None
        for one in new[len(old) :]:
            if one.id in before.every_id or one.id in added:
                return None
            added.add(one.id)
    if "plantings" in parts:
        pairs = zip_longest(before.plantings, after.plantings)
        changed = [new for old, new in pairs if old is not new and new is not None]
        named = {key for one in changed for key in (one.replaces, one.repeats) if key is not None}
        if not {one.bed for one in changed} <= before.beds_by_id.keys():
            return None
        if not named <= before.plantings_by_id.keys():
            return None
    return added
