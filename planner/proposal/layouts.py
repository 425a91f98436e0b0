"""A layout of a puzzle as plantings of the garden."""

from __future__ import annotations

from collections.abc import Iterable

from planner.garden import Garden, Planting
from planner.garden.edits.common import fresh_id, put
from planner.proposal.garden_puzzle import GardenPuzzle
from planner.proposal.puzzle import Choice, Layout


def plantings_of(of: GardenPuzzle, layout: Iterable[Choice]) -> tuple[Planting, ...]:
    """The plantings of some choices; each has as its id that of its wish and the number of its option.

    Parameters
    ----------
    of : GardenPuzzle
    layout : iterable of Choice
    """
    found = []
    for choice in layout:
        offer = of.offers[choice.option]
        length = of.puzzle.options[choice.option].length
        plot = offer.way.draft.plot if offer.as_it_was else offer.strip.plot(choice.start, length)
        found.append(
            offer.way.draft.with_(id=f"{offer.wish.id}-{choice.option}", bed=offer.strip.bed.id, plot=plot)
        )
    return tuple(found)


def garden_with(of: GardenPuzzle, layout: Layout) -> Garden:
    """The garden with all that stays, and with the plantings of a layout; where a wish was met before its
    plantings keep their ids.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    garden = of.plan.garden
    old: dict[str | None, list[str]] = {}
    for one in of.freed:
        old.setdefault(one.wish, []).append(one.id)
    number = int(fresh_id(put(garden, plantings=(*garden.plantings, *of.freed)), "p")[1:])
    new = []
    for one in plantings_of(of, layout):
        known = old.get(one.wish)
        if known:
            key = known.pop(0)
        else:
            key, number = f"p{number}", number + 1
        new.append(one.with_(id=key))
    return put(garden, plantings=(*garden.plantings, *new))
