"""Store places as people name them on the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planner.cli.errors import UsageError
from planner.cli.suggestions import either
from planner.words import say

if TYPE_CHECKING:
    from planner.garden import Garden
    from planner.garden.household import StorePlace


def named_place(garden: Garden, name: str, option: str) -> StorePlace:
    """The place of a garden with a name or an id.

    Parameters
    ----------
    garden : Garden
    name : str
    option : str
        After which it was typed: where the fault is.
    """
    for place in garden.store_places:
        if name.casefold() in (place.name.casefold(), place.id):
            return place
    names = [place.name for place in garden.store_places]
    mend = (
        say("There is {names}", names=either(names))
        if names
        else say("The garden has none; bedwright kitchen FILE --place adds one")
    )
    raise UsageError(say("there is no place '{name}'", name=name), option, mend)
