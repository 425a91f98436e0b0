"""Where copies of beds and structures lie: beside what they are made from, a path away from everything."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from planner.garden import Bed, Structure
from planner.ground.shapes import plan_polygon
from planner.plan.plan import Plan

#: Directions in which a copy is looked for, in their order: below, at the right, above, at the left.
DIRECTIONS = ((0, -1), (1, 0), (0, 1), (-1, 0))
#: Places that are tried in what is seen where none is free straight beside the first, at most about so many.
MOST_PLACES = 1_200
#: Ground nearer than a path by less counts as a path away. [m]
TOLERANCE = 1e-6
#: Times that a copy is moved on past what is in its way, in one direction.
MOST_MOVES = 2_000

Offset = tuple[float, float]


def offset_beside(plan: Plan, ids: Iterable[str], seen: tuple[float, float, float, float] | None) -> Offset:
    """How far copies of beds and structures are moved, so that a path lies between them and everything else.

    They lie below what they are made from, or at its right, above or at its left, whichever is nearest, in the part of
    the plan that is seen and within the garden's outline, as far as there is room.

    Parameters
    ----------
    plan : Plan
    ids : iterable of str
        Of plantings nothing is needed: those go onto free ground of their bed.
    seen : tuple of float or None
        The part of the plan that is seen: left, low, right, high. [m]

    Returns
    -------
    dx, dy : float
        Zero where there is no bed or structure among the ids. [m]
    """
    garden = plan.garden
    ground: tuple[Bed | Structure, ...] = (
        *plan.beds,
        *(structure for structure in garden.structures if structure.in_use(plan.year)),
    )
    things = {thing.id: plan_polygon(thing.outline) for thing in ground}
    mine = [things[key] for key in ids if key in things]
    if not mine:
        return 0.0, 0.0
    outline = garden.site.outline
    room = _Room(
        shapely.union_all(mine),
        shapely.STRtree(list(things.values())),
        garden.site.path_width,
        seen,
        plan_polygon(outline) if outline is not None else None,
    )
    straight = [offset for direction in DIRECTIONS if (offset := room.straight(direction)) is not None]
    fitting = [offset for offset in straight if room.is_wanted(offset)] or list(room.in_view())
    if not fitting:
        fitting = straight or [(0.0, -room.extent((0, -1)))]
    return min(fitting, key=_length)


@dataclass(frozen=True)
class _Room:
    """What copies are moved over: their shape, what lies there, and where they are wanted."""

    shape: shapely.Geometry
    tree: shapely.STRtree
    path: float
    seen: tuple[float, float, float, float] | None
    outline: shapely.Polygon | None

    def moved(self, offset: Offset) -> shapely.Geometry:
        return shapely.transform(self.shape, lambda points: points + np.array(offset))

    def hits(self, offset: Offset) -> shapely.Geometry:
        """What lies nearer than a path to the copies."""
        near = max(self.path - TOLERANCE, 0.0)
        found = self.tree.query(self.moved(offset), predicate="dwithin", distance=near)
        return self.tree.geometries[found]

    def is_wanted(self, offset: Offset) -> bool:
        """Whether the copies lie in what is seen and within the garden's outline."""
        left, low, right, high = shapely.bounds(self.shape) + np.array([*offset, *offset])
        if self.seen is not None:
            seen = self.seen
            if left < seen[0] or low < seen[1] or right > seen[2] or high > seen[3]:
                return False
        return self.outline is None or bool(self.outline.buffer(TOLERANCE).covers(self.moved(offset)))

    def extent(self, direction: tuple[int, int]) -> float:
        left, low, right, high = shapely.bounds(self.shape)
        return float((right - left if direction[0] else high - low) + self.path)

    def straight(self, direction: tuple[int, int]) -> Offset | None:
        """The least offset in a direction at which nothing is in the way."""
        far = self.extent(direction)
        for _ in range(MOST_MOVES):
            offset = (direction[0] * far, direction[1] * far)
            hits = self.hits(offset)
            if not len(hits):
                return offset
            far = max(far + 0.01, self._past(hits, direction))
        return None

    def _past(self, hits: shapely.Geometry, direction: tuple[int, int]) -> float:
        """How far the copies are moved in a direction to lie a path past others."""
        mine, theirs = shapely.bounds(self.shape), shapely.total_bounds(hits)
        axis = 0 if direction[0] else 1
        if direction[axis] > 0:
            return float(theirs[axis + 2] - mine[axis]) + self.path
        return float(mine[axis + 2] - theirs[axis]) + self.path

    def in_view(self) -> Iterator[Offset]:
        """Free places in what is seen, the nearest first: on a grid, and one is enough."""
        if self.seen is None:
            return
        left, low, right, high = shapely.bounds(self.shape)
        across, up = self.seen[2] - self.seen[0] - (right - left), self.seen[3] - self.seen[1] - (high - low)
        if across < 0 or up < 0:
            return
        step = max(math.sqrt(across * up / MOST_PLACES), 0.1)
        # From the view's corner, in whole steps of the plan.
        xs = np.arange(math.ceil((self.seen[0] - left) / step), (self.seen[2] - right) / step) * step
        ys = np.arange(math.ceil((self.seen[1] - low) / step), (self.seen[3] - high) / step) * step
        places = [(float(x), float(y)) for x in xs for y in ys]
        for offset in sorted(places, key=_length):
            if not len(self.hits(offset)) and self.is_wanted(offset):
                yield offset
                return


def _length(offset: Offset) -> float:
    return round(math.hypot(*offset), 6)
