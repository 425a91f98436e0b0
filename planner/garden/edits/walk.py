"""The order in which one walks to the beds, put in order by hand."""

from __future__ import annotations

from collections.abc import Sequence

from planner.garden.edits.common import EditError
from planner.garden.edits.parts import change_site
from planner.garden.garden import Garden
from planner.words import say


def moved_in_order(order: Sequence[str], key: str, place: int) -> tuple[str, ...]:
    """An order with one of its ids moved.

    Parameters
    ----------
    order : sequence of str
    key : str
        Which is moved.
    place : int
        Its number afterwards, from 0; beyond an end is at that end.

    Examples
    --------
    >>> moved_in_order(("a", "b", "c", "d"), "b", 2), moved_in_order(("a", "b", "c"), "c", 0)
    (('a', 'c', 'b', 'd'), ('c', 'a', 'b'))
    """
    others = [one for one in order if one != key]
    place = max(0, min(place, len(others)))
    return (*others[:place], key, *others[place:])


def walk_in_order(garden: Garden, order: Sequence[str]) -> Garden:
    """Give the order in which one walks to the beds.

    Beds of the former order that are not in the new one, because they are of other years, stay behind the bed that
    they were behind.

    Parameters
    ----------
    garden : Garden
    order : sequence of str
        Ids of beds; none where the order is again to be found by itself.

    Raises
    ------
    EditError
        Where there is no bed of an id.
    """
    for key in order:
        if key not in garden.beds_by_id:
            raise EditError(say("there is no bed of the id '{key}'", key=key), "", say("Choose another bed"))
    if not order:
        return change_site(garden, walk=())
    walk, before = list(order), ""
    for key in garden.site.walk:
        if key not in walk and key in garden.beds_by_id:
            walk.insert(walk.index(before) + 1 if before in walk else 0, key)
        before = key
    return change_site(garden, walk=tuple(walk))
