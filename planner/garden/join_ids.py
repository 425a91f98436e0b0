"""Ids of things that two people added: each thing gets its own before their gardens are joined."""

from __future__ import annotations

import re
from typing import Any

from planner.garden.conflicts import PARTS_WITH_IDS
from planner.garden.garden import Garden
from planner.garden.model import Model
from planner.garden.planting import Planting
from planner.garden.trials import Trial
from planner.garden.wishes import Wish


def with_own_ids(base: Garden | None, mine: Garden, theirs: Garden) -> Garden:
    """Return theirs with other ids for new things whose ids mine gave to new things of its own.

    A thing that both added alike keeps its id: it is the same one.

    Parameters
    ----------
    base : Garden or None
        Without it no thing is new.
    mine, theirs : Garden
    """
    if base is None:
        return theirs
    old = set(base.ids())
    ours = {thing.id: thing for part in PARTS_WITH_IDS for thing in getattr(mine, part)}
    used = old | set(ours) | set(theirs.ids())
    renamed: dict[str, str] = {}
    for part in PARTS_WITH_IDS:
        for thing in getattr(theirs, part):
            if thing.id in old or thing.id not in ours:
                continue
            stands_in_renamed = {
                getattr(thing, "bed", None),
                getattr(thing, "planting", None),
            } & renamed.keys()
            if stands_in_renamed or ours[thing.id] != thing:
                renamed[thing.id] = _fresh(thing.id, used)
    renamed |= _written_by_both(old, mine, theirs, renamed)
    series = _renamed_series(base, mine, theirs, renamed, used)
    return _apply(theirs, renamed, series)


def _written_by_both(old: set[str], mine: Garden, theirs: Garden, renamed: dict[str, str]) -> dict[str, str]:
    """New records of theirs that say the same as new ones of mine, and the ids of those: they are one record."""
    ours = {one.with_(id="-"): one.id for one in mine.records if one.id not in old}
    return {
        one.id: ours[same]
        for one in theirs.records
        if one.id not in old
        and not {one.bed, one.planting} & renamed.keys()
        and (same := one.with_(id="-")) in ours
    }


def _renamed_series(
    base: Garden, mine: Garden, theirs: Garden, renamed: dict[str, str], used: set[str]
) -> dict[str, str]:
    """New names for series that both began under the same one."""
    old, ours = ({one.series for one in garden.plantings if one.series} for garden in (base, mine))
    members: dict[str, list[str]] = {}
    for planting in theirs.plantings:
        if planting.series:
            members.setdefault(planting.series, []).append(planting.id)
    taken = used | ours | set(members)
    return {
        name: _fresh(name, taken)
        for name, keys in members.items()
        if name in ours and name not in old and any(key in renamed for key in keys)
    }


def _fresh(wish: str, used: set[str]) -> str:
    """The next free id after one: p9 after p8; it counts as used from now on."""
    match = re.fullmatch(r"(.*?)(\d{1,9})", wish)
    stem, number = (match[1], int(match[2])) if match else (f"{wish[:52]}-", 1)
    while (name := f"{stem}{number}") in used:
        number += 1
    used.add(name)
    return name


def _apply(garden: Garden, renamed: dict[str, str], series: dict[str, str]) -> Garden:
    if not renamed and not series:
        return garden
    parts: dict[str, Any] = {
        part: tuple(_with_ids(thing, renamed, series) for thing in getattr(garden, part))
        for part in PARTS_WITH_IDS
    }
    parts["conflicts"] = tuple(
        one.with_(key=renamed[one.key]) if one.key in renamed else one for one in garden.conflicts
    )
    return garden.with_(**parts)


def _with_ids(thing: Model, renamed: dict[str, str], series: dict[str, str]) -> Model:
    changes: dict[str, Any] = {}
    for name in ("id", "bed", "planting", "replaces", "repeats", "lot", "wish"):
        if (value := getattr(thing, name, None)) in renamed:
            changes[name] = renamed[value]
    if isinstance(thing, Planting) and thing.series in series:
        changes["series"] = series[thing.series]
    if isinstance(thing, Trial):
        changes["entries"] = tuple(
            entry.with_(planting=renamed.get(entry.planting, entry.planting)) for entry in thing.entries
        )
    if isinstance(thing, Wish):
        changes["beds"] = tuple(renamed.get(key, key) for key in thing.beds)
        changes["like"] = renamed.get(thing.like, thing.like) if thing.like else None
    return thing.with_(**changes) if changes else thing
