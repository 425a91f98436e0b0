"""What goes, or is changed, together with things that are removed: whatever names them."""

from __future__ import annotations

from typing import Any

from planner.garden.garden import Garden
from planner.garden.planting import Planting
from planner.garden.records import CameUpRecord
from planner.garden.wishes import Wish


def with_references_mended(garden: Garden, parts: dict[str, Any]) -> dict[str, Any]:
    """Return new parts of a garden, and those parts that name something which is no longer there, without it.

    With a bed go its dressings and records; with a planting its dressings, its records and its place in trials.
    A planting that replaced or repeated it replaces and repeats none, and what came up no longer names a packet of seed that was removed.
    Wishes no longer name it, and plantings no longer a wish that was removed.

    Parameters
    ----------
    garden : Garden
        Before the edit.
    parts : dict
        New values by field of the garden.
    """
    if not parts.keys() & {"beds", "plantings", "stock", "wishes"}:
        return parts
    gone = {part: _gone(garden, parts, part) for part in ("beds", "plantings", "stock", "wishes")}
    if not any(gone.values()):
        return parts
    found = dict(parts)
    beds, plantings = gone["beds"], gone["plantings"]
    if "plantings" in parts and any(
        one.replaces in plantings or one.repeats in plantings for one in parts["plantings"]
    ):
        found["plantings"] = tuple(_without_links(one, plantings) for one in parts["plantings"])
    if "dressings" not in parts and any(
        one.bed in beds or one.planting in plantings for one in garden.dressings
    ):
        found["dressings"] = tuple(
            one for one in garden.dressings if one.bed not in beds and one.planting not in plantings
        )
    if "records" not in parts and garden.records:
        records = tuple(
            one.with_(lot=None) if isinstance(one, CameUpRecord) and one.lot in gone["stock"] else one
            for one in garden.records
            if one.bed not in beds and one.planting not in plantings
        )
        if records != garden.records:
            found["records"] = records
    if "trials" not in parts and any(
        entry.planting in plantings for one in garden.trials for entry in one.entries
    ):
        found["trials"] = tuple(
            one.with_(entries=tuple(entry for entry in one.entries if entry.planting not in plantings))
            for one in garden.trials
        )
    if "plantings" not in parts and any(one.wish in gone["wishes"] for one in garden.plantings):
        found["plantings"] = tuple(
            one.with_(wish=None) if one.wish in gone["wishes"] else one for one in garden.plantings
        )
    if "wishes" not in parts and any(one.like in plantings or beds & set(one.beds) for one in garden.wishes):
        found["wishes"] = tuple(_mended_wish(one, beds, plantings) for one in garden.wishes)
    return found


def _mended_wish(wish: Wish, beds: set[str], plantings: set[str]) -> Wish:
    return wish.with_(
        like=None if wish.like in plantings else wish.like,
        beds=tuple(key for key in wish.beds if key not in beds),
    )


def _without_links(planting: Planting, gone: set[str]) -> Planting:
    """A planting that replaces and repeats none of those that are gone; itself where it did not."""
    lost = {name: None for name in ("replaces", "repeats") if getattr(planting, name) in gone}
    return planting.with_(**lost) if lost else planting


def _gone(garden: Garden, parts: dict[str, Any], part: str) -> set[str]:
    """Ids of the things of a part that an edit removes."""
    if part not in parts:
        return set()
    return {thing.id for thing in getattr(garden, part)} - {thing.id for thing in parts[part]}
