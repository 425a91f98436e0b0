"""Spatial index of the beds of a garden, which follows its edits."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import numpy as np
import shapely

from planner.checks.frame.context import OutlineInputs, outline_on_plan
from planner.garden import Bed
from planner.plan import Plan

#: Beds that may differ from those in the tree before it is built anew.
MOST_BESIDE = 40


def bed_on_plan(plan: Plan, bed: Bed) -> shapely.Polygon:
    """A bed on the plan, from the cache. [m]"""
    return plan.cached(outline_on_plan, bed.id, OutlineInputs(bed.outline))


class BedIndex:
    """Which beds lie near some ground, in use or not.

    Parameters
    ----------
    ids : sequence of str
        Of the beds in the tree.
    tree : shapely.STRtree
        Of their outlines on the plan.
    beside : mapping of str to Polygon or None
        Outlines of beds that are not as in the tree; None for those that are gone.
    """

    def __init__(
        self, ids: Sequence[str], tree: shapely.STRtree, beside: Mapping[str, shapely.Polygon | None]
    ) -> None:
        self._ids, self._tree, self._beside = ids, tree, beside

    @classmethod
    def of(cls, plan: Plan) -> BedIndex:
        """The index of all beds of a plan's garden."""
        beds = plan.garden.beds
        return cls([bed.id for bed in beds], shapely.STRtree([bed_on_plan(plan, bed) for bed in beds]), {})

    def after(self, plan: Plan, changed: Iterable[str]) -> BedIndex:
        """The index of an edited garden.

        Parameters
        ----------
        plan : Plan
            Of the edited garden.
        changed : iterable of str
            Ids of the beds that are new, gone or other than before.
        """
        beds = plan.garden.beds_by_id
        new = {key: bed_on_plan(plan, beds[key]) if key in beds else None for key in changed}
        if not new:
            return self
        beside = {**self._beside, **new}
        return BedIndex.of(plan) if len(beside) > MOST_BESIDE else BedIndex(self._ids, self._tree, beside)

    def near(self, grounds: Sequence[shapely.Geometry], reach: float) -> set[str]:
        """Ids of the beds within a distance of any of some grounds.

        Parameters
        ----------
        grounds : sequence of shapely.Geometry
            On the plan. [m]
        reach : float
            [m]
        """
        shapes = np.array([ground for ground in grounds if not ground.is_empty])
        if not len(shapes):
            return set()
        _, found = self._tree.query(shapes, predicate="dwithin", distance=reach)
        near = {self._ids[i] for i in found.tolist()} - self._beside.keys()
        near |= {
            key
            for key, outline in self._beside.items()
            if outline is not None and bool((shapely.distance(shapes, outline) <= reach).any())
        }
        return near
