"""The sheet's scene: one item a bed and a structure, in step with the plan."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from PySide6.QtCore import QPointF, QRectF, QTimer
from PySide6.QtWidgets import QGraphicsScene

from planner.desk.canvas import transform
from planner.desk.canvas.bed_item import BedItem
from planner.desk.canvas.structure_item import StructureItem
from planner.desk.model.colouring import Colouring
from planner.desk.model.document import Document
from planner.desk.theme.palette import Look, LookSwitch
from planner.garden import Structure
from planner.ground import shapes
from planner.plan import Plan
from planner.plan.changes import changed_beds

#: Free room around everything drawn. [m]
ROOM = 3.0
#: While the day is dragged, a bed is painted anew only every so many days.
TURNS = 6
#: Every bed is painted for the day shown when the day has not moved for so long. [ms]
RESTED = 150


class SheetScene(QGraphicsScene):
    """Holds the items; a change of the document touches only the items it concerns."""

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self.look = look
        self.beds: dict[str, BedItem] = {}
        self.structures: dict[str, StructureItem] = {}
        self.colouring = Colouring(document)
        self.colouring.changed.connect(self._follow_beds)
        self.colouring.inks_shown = lambda: (
            painted.ink for item in self.beds.values() for painted in item.painted
        )
        self._shown: tuple[Plan, Look, dt.date | None] | None = None
        self._structures_shown: tuple[Structure, ...] = ()
        document.garden_changed.connect(self.follow)
        # While the day is dragged the beds take turns to grow, so that no frame paints them all;
        # a moment after it rests every plant has the size of that day.
        self._rested = QTimer(self)
        self._rested.setSingleShot(True)
        self._rested.setInterval(RESTED)
        self._rested.timeout.connect(self._follow_beds)
        document.beds_placed.connect(self._follow_placed)
        document.day_changed.connect(self._follow_day)
        look.changed.connect(self.follow)
        self.follow()

    def follow(self) -> None:
        """Bring the items in step with the plan: those of the beds that an edit concerns, where all else is the same."""
        only, structures = self._concerned(), self.document.garden.structures
        self._follow_beds(only=only)
        if only is None or structures is not self._structures_shown:
            self._structures_shown = structures
            self._follow_structures()
            self._grow()
        else:
            self._grow([self.beds[key] for key in only if key in self.beds])

    def _concerned(self) -> set[str] | None:
        """Ids of the beds that may be drawn otherwise than they are; None where all may."""
        document = self.document
        if self._shown is None or self._rested.isActive():
            return None
        plan, look, day = self._shown
        return changed_beds(plan, document.plan) if (look, day) == (self.look.now, document.day) else None

    def _follow_placed(self, beds: set[str]) -> None:
        """Show the plants of beds that are placed now."""
        self._follow_beds(only=beds)
        self._grow([self.beds[key] for key in beds if key in self.beds])

    def _follow_day(self) -> None:
        self._follow_beds(turns=TURNS)
        self._rested.start()

    def _follow_beds(self, turns: int = 1, only: set[str] | None = None) -> None:
        """Bring the beds in step, or only some; each is painted anew only every ``turns`` days."""
        plan, look, day = self.document.plan, self.look.now, self.document.day
        self._shown = plan, look, day
        beds = {bed.id: bed for bed in plan.beds}
        for key in self.beds.keys() - beds.keys():
            self.removeItem(self.beds.pop(key))
        for number, (key, bed) in enumerate(beds.items()):
            item = self.beds.get(key)
            if only is not None and item is not None and key not in only:
                continue
            as_before = self.document.unplaced.get(key)
            if as_before is not None and (
                as_before if item is not None else not self.document.outlines_first
            ):
                continue
            if item is None:
                item = self.beds[key] = BedItem(look)
                self.addItem(item)
            there = plan.in_bed(bed) if as_before is None else ()
            growing = tuple(p for p in there if self.document.is_growing_on_day_shown(p))
            painted_day = day
            if day is not None and turns > 1:
                painted_day = day - dt.timedelta(days=(day.toordinal() + number) % turns)
            inks = [self.colouring.ink_of(plan, planting, day) for planting in growing]
            item.show_plan(plan, bed, look, growing, painted_day, inks)

    def _follow_structures(self) -> None:
        plan, look = self.document.plan, self.look.now
        structures = {s.id: s for s in plan.garden.structures if s.in_use(plan.year)}
        for key in self.structures.keys() - structures.keys():
            self.removeItem(self.structures.pop(key))
        for key, structure in structures.items():
            drawn = self.structures.get(key)
            if drawn is None:
                drawn = self.structures[key] = StructureItem(look)
                self.addItem(drawn)
            drawn.show_structure(structure, look)

    def content_rect(self) -> QRectF:
        """Extents of everything drawn; of an empty sheet a plot of 10 m x 8 m."""
        rect = _extents((*self.beds.values(), *self.structures.values()))
        outline = self.document.garden.site.outline
        if outline is not None:
            rect = rect.united(transform.bounds(shapes.plan_polygon(outline)))
        if rect.isEmpty():
            rect = QRectF(transform.to_scene(-5, 4), transform.to_scene(5, -4))
        return rect

    def _grow(self, changed: Sequence[BedItem] | None = None) -> None:
        """Let the sheet hold what is drawn, or some beds besides what it holds."""
        now = self.sceneRect()
        if changed is not None and not changed:
            return
        room = ROOM * transform.SCALE
        rect = _extents(changed) if changed is not None else self.content_rect()
        if changed is not None and not now.intersects(rect):
            rect = self.content_rect()
        rect = rect.adjusted(-room, -room, room, room)
        # The sheet only grows while it is open, so that it does not slip away under the pointer.
        wanted = rect.united(now) if now.isValid() and now.intersects(rect) else rect
        if wanted != now:
            self.setSceneRect(wanted)

    def reset_rect(self) -> None:
        """Cut the sheet to what is drawn (after another garden was opened)."""
        room = ROOM * transform.SCALE
        self.setSceneRect(self.content_rect().adjusted(-room, -room, room, room))

    # -- what lies at a point ---------------------------------------------------------------

    def bed_at(self, point: QPointF, reach: float = 0.0) -> str | None:
        """Id of the topmost bed at a point of the scene, or of the nearest one within a reach of it.

        Parameters
        ----------
        point : QPointF
        reach : float
            [scene units]
        """
        best: tuple[float, str] | None = None
        for key, item in reversed(self.beds.items()):
            if item.shape().contains(point):
                return key
            if reach > 0:
                distance = _distance(item.shape().boundingRect(), point)
                if distance <= reach and (best is None or distance < best[0]):
                    best = (distance, key)
        return best[1] if best else None

    def planting_at(self, point: QPointF) -> str | None:
        """Id of the topmost planting whose plot or plants lie at a point of the scene."""
        found: str | None = None
        for item in self.beds.values():
            if not item.boundingRect().contains(point):
                continue
            for painted in item.painted:
                if painted.planting.shares_ground:
                    near = (abs(painted.points - [point.x(), point.y()]) <= painted.mark / 2).all(axis=1)
                    if near.any():
                        return painted.planting.id
                elif painted.plot.contains(point):
                    found = painted.planting.id
        return found

    def structure_at(self, point: QPointF) -> str | None:
        """Id of the topmost structure at a point of the scene."""
        hits = [(item.zValue(), key) for key, item in self.structures.items() if item.shape().contains(point)]
        return max(hits)[1] if hits else None


def _extents(items: Iterable[BedItem | StructureItem]) -> QRectF:
    rect = QRectF()
    for item in items:
        rect = rect.united(item.shape().boundingRect())
    return rect


def _distance(rect: QRectF, point: QPointF) -> float:
    dx = max(rect.left() - point.x(), 0.0, point.x() - rect.right())
    dy = max(rect.top() - point.y(), 0.0, point.y() - rect.bottom())
    return max(dx, dy)
