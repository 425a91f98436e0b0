"""Distances to the neighbours of what is dragged, as dimension lines."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

import shapely
from PySide6.QtGui import QPainter

from planner.desk.canvas.guides import paint_gap
from planner.desk.gestures.base import GestureView
from planner.garden import Bed, Outline, Structure
from planner.garden.units import show_length
from planner.ground import shapes
from planner.ground.gaps import gaps_around


class NeighbourDistances:
    """The beds and structures around what a gesture drags.

    Parameters
    ----------
    view : GestureView
    leaving_out : collection of str
        Ids of what is dragged.
    """

    def __init__(self, view: GestureView, leaving_out: Collection[str] = ()) -> None:
        self._view = view
        plan = view.document.plan
        things: list[Bed | Structure] = [*plan.beds]
        things += [each for each in plan.garden.structures if each.in_use(plan.year)]
        self._others = [shapes.plan_polygon(thing.outline) for thing in things if thing.id not in leaving_out]

    def paint(self, painter: QPainter, ids: Sequence[str]) -> None:
        """Paint the distances of things as they are shown now."""
        garden = self._view.document.garden
        things = [garden.beds_by_id.get(key) or garden.structures_by_id.get(key) for key in ids]
        self.paint_around(painter, [thing.outline for thing in things if thing is not None])

    def paint_around(self, painter: QPainter, outlines: Sequence[Outline]) -> None:
        """Paint the distances of outlines."""
        if not outlines:
            return
        view, units = self._view, self._view.document.garden.site.units
        shape = shapely.union_all([shapes.plan_polygon(outline) for outline in outlines])
        for start, end in gaps_around(shape, self._others):
            words = show_length(math.dist(start, end), units)
            paint_gap(painter, view.look.now, view.to_view(start), view.to_view(end), words)
