"""What differs between two gardens, counted by kind of thing."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from planner.garden.conflicts import KEYS, PARTS_WITH_IDS, PARTS_WITH_KEYS
from planner.garden.garden import Garden
from planner.words import join_list, say, say_count


class PartDifference(NamedTuple):
    """Numbers of things of one part that are only in one garden, or not the same in both."""

    added: int
    removed: int
    changed: int


def differences(before: Garden, after: Garden) -> dict[str, PartDifference]:
    """Count what differs, by part of the garden; parts without a difference are left out.

    Parameters
    ----------
    before, after : Garden
    """
    found = {}
    for part in (*PARTS_WITH_IDS, *PARTS_WITH_KEYS):
        field = KEYS[part]
        old, new = ({getattr(thing, field): thing for thing in getattr(one, part)} for one in (before, after))
        difference = PartDifference(
            len(new.keys() - old.keys()),
            len(old.keys() - new.keys()),
            sum(old[key] != new[key] for key in old.keys() & new.keys()),
        )
        if any(difference):
            found[part] = difference
    return found


def difference_words(before: Garden, after: Garden) -> str:
    """Say what differs, without a full stop: "1 bed added, 3 plantings changed"."""
    counted: dict[str, tuple[Callable[[int], str], Callable[[int], str], Callable[[int], str]]] = {
        "beds": (
            lambda n: say_count("{count} bed added", "{count} beds added", n),
            lambda n: say_count("{count} bed removed", "{count} beds removed", n),
            lambda n: say_count("{count} bed changed", "{count} beds changed", n),
        ),
        "structures": (
            lambda n: say_count("{count} structure added", "{count} structures added", n),
            lambda n: say_count("{count} structure removed", "{count} structures removed", n),
            lambda n: say_count("{count} structure changed", "{count} structures changed", n),
        ),
        "plantings": (
            lambda n: say_count("{count} planting added", "{count} plantings added", n),
            lambda n: say_count("{count} planting removed", "{count} plantings removed", n),
            lambda n: say_count("{count} planting changed", "{count} plantings changed", n),
        ),
        "varieties": (
            lambda n: say_count("{count} variety added", "{count} varieties added", n),
            lambda n: say_count("{count} variety removed", "{count} varieties removed", n),
            lambda n: say_count("{count} variety changed", "{count} varieties changed", n),
        ),
        "crops": (
            lambda n: say_count("{count} own crop added", "{count} own crops added", n),
            lambda n: say_count("{count} own crop removed", "{count} own crops removed", n),
            lambda n: say_count("{count} own crop changed", "{count} own crops changed", n),
        ),
        "sources": (
            lambda n: say_count("{count} own source added", "{count} own sources added", n),
            lambda n: say_count("{count} own source removed", "{count} own sources removed", n),
            lambda n: say_count("{count} own source changed", "{count} own sources changed", n),
        ),
        "stock": (
            lambda n: say_count("{count} packet of seed added", "{count} packets of seed added", n),
            lambda n: say_count("{count} packet of seed removed", "{count} packets of seed removed", n),
            lambda n: say_count("{count} packet of seed changed", "{count} packets of seed changed", n),
        ),
        "planting_stock": (
            lambda n: say_count("{count} planting stock added", "{count} planting stocks added", n),
            lambda n: say_count("{count} planting stock removed", "{count} planting stocks removed", n),
            lambda n: say_count("{count} planting stock changed", "{count} planting stocks changed", n),
        ),
        "offers": (
            lambda n: say_count("{count} offer added", "{count} offers added", n),
            lambda n: say_count("{count} offer removed", "{count} offers removed", n),
            lambda n: say_count("{count} offer changed", "{count} offers changed", n),
        ),
        "benches": (
            lambda n: say_count("{count} bench added", "{count} benches added", n),
            lambda n: say_count("{count} bench removed", "{count} benches removed", n),
            lambda n: say_count("{count} bench changed", "{count} benches changed", n),
        ),
        "dressings": (
            lambda n: say_count("{count} dressing added", "{count} dressings added", n),
            lambda n: say_count("{count} dressing removed", "{count} dressings removed", n),
            lambda n: say_count("{count} dressing changed", "{count} dressings changed", n),
        ),
        "shed": (
            lambda n: say_count("{count} material added", "{count} materials added", n),
            lambda n: say_count("{count} material removed", "{count} materials removed", n),
            lambda n: say_count("{count} material changed", "{count} materials changed", n),
        ),
        "store_places": (
            lambda n: say_count(
                "{count} place to keep a harvest added", "{count} places to keep a harvest added", n
            ),
            lambda n: say_count(
                "{count} place to keep a harvest removed", "{count} places to keep a harvest removed", n
            ),
            lambda n: say_count(
                "{count} place to keep a harvest changed", "{count} places to keep a harvest changed", n
            ),
        ),
        "trials": (
            lambda n: say_count("{count} trial added", "{count} trials added", n),
            lambda n: say_count("{count} trial removed", "{count} trials removed", n),
            lambda n: say_count("{count} trial changed", "{count} trials changed", n),
        ),
        "wishes": (
            lambda n: say_count("{count} wish added", "{count} wishes added", n),
            lambda n: say_count("{count} wish removed", "{count} wishes removed", n),
            lambda n: say_count("{count} wish changed", "{count} wishes changed", n),
        ),
        "records": (
            lambda n: say_count("{count} record added", "{count} records added", n),
            lambda n: say_count("{count} record removed", "{count} records removed", n),
            lambda n: say_count("{count} record changed", "{count} records changed", n),
        ),
    }
    words = [
        tell(number)
        for part, difference in differences(before, after).items()
        for tell, number in zip(counted[part], difference, strict=True)
        if number
    ]
    if words:
        return join_list(words)
    return (
        say("no difference")
        if before == after
        else say("site, climate, weather, household, underlay or notes changed")
    )
