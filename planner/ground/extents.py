"""Extents of beds and structures on the plan, and edits that go by them: turn together, line up, add below."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

import shapely

from planner.garden import Bed, Garden, Outline, Structure, edits
from planner.garden.edits.ordering import Flip
from planner.ground.shapes import plan_polygon

#: Least x, least y, greatest x, greatest y on the plan. [m]
Extent = tuple[float, float, float, float]
#: Least distance of new beds from the other things of the garden. [m]
LEAST_GAP = 0.45


def extent_of(outlines: Iterable[Outline]) -> Extent | None:
    """Extent of outlines on the plan; None where there are none. [m]"""
    shapes = [plan_polygon(outline) for outline in outlines]
    if not shapes:
        return None
    left, low, right, high = (float(value) for value in shapely.total_bounds(shapes))
    return left, low, right, high


def _things(garden: Garden, ids: Iterable[str]) -> list[Bed | Structure]:
    found = (garden.beds_by_id.get(key) or garden.structures_by_id.get(key) for key in ids)
    return [thing for thing in found if thing is not None]


def turn_together(garden: Garden, ids: Iterable[str], degrees: float) -> Garden:
    """Turn beds and structures anticlockwise, several of them about the middle of their extent.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Beds and structures; a single one turns about its own centre.
    degrees : float
        [degrees anticlockwise]
    """
    keys = list(ids)
    extent = extent_of(thing.outline for thing in _things(garden, keys))
    if len(keys) < 2 or extent is None:
        return edits.turn_things(garden, keys, degrees)
    left, low, right, high = extent
    return edits.turn_things(garden, keys, degrees, ((left + right) / 2, (low + high) / 2))


def align(garden: Garden, ids: Iterable[str], side: Literal["left", "right", "bottom", "top"]) -> Garden:
    """Line beds and structures up by one side of their extents: the outermost stays where it is.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Beds and structures.
    side : str
    """
    keys = list(ids)
    extents = {
        thing.id: extent
        for thing in _things(garden, keys)
        if (extent := extent_of([thing.outline])) is not None
    }
    return edits.align_beds(garden, keys, side, extents)


def mirror(garden: Garden, ids: Iterable[str], flip: Flip) -> Garden:
    """Mirror beds and structures about the middle of their common extent.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Beds and structures.
    flip : {"left to right", "top to bottom"}
    """
    keys = list(ids)
    extent = extent_of(thing.outline for thing in _things(garden, keys))
    if extent is None:
        return garden
    low, high = (0, 2) if flip == "left to right" else (1, 3)
    return edits.mirror_things(garden, keys, flip, (extent[low] + extent[high]) / 2)


def space_evenly(garden: Garden, ids: Iterable[str], direction: Literal["across", "up"]) -> Garden:
    """Make the ways between beds and structures equally wide; the outermost stay where they are.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
        Beds and structures.
    direction : {"across", "up"}
    """
    keys = list(ids)
    extents = {
        thing.id: extent
        for thing in _things(garden, keys)
        if (extent := extent_of([thing.outline])) is not None
    }
    return edits.space_things(garden, keys, direction, extents)


def corner_below(garden: Garden, year: int, path: float) -> tuple[float, float]:
    """Upper left corner for new beds: below all that is there, flush with its left edge. [m]

    Parameters
    ----------
    garden : Garden
    year : int
        Growing year: beds and structures that are in use in it count, and the outline of the site.
    path : float
        Width of the path to leave above the new beds; at least :data:`LEAST_GAP` is left. [m]

    Returns
    -------
    left, top : float
        The origin of the plan where no bed and no structure is in use. [m]
    """
    things: tuple[Bed | Structure, ...] = (*garden.beds, *garden.structures)
    outlines = [thing.outline for thing in things if thing.in_use(year)]
    if not outlines:
        return 0.0, 0.0
    if garden.site.outline is not None:
        outlines.append(garden.site.outline)
    extent = extent_of(outlines)
    assert extent is not None
    return round(extent[0], 3), round(extent[1] - max(path, LEAST_GAP), 3)
