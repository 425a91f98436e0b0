"""Moving beds, structures and plantings; picking with a rubber band."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from typing_extensions import override

from planner.desk.gestures.base import Drag, Gesture, Pointer, dragged
from planner.garden import Garden, Places, edits
from planner.ground import shapes
from planner.ground.dropping import carried, plot_box, shifted_plot


def _adds(at: Pointer) -> bool:
    """Whether the keys held say that a click adds to the selection or takes from it."""
    return at.held(Qt.KeyboardModifier.ShiftModifier) or at.held(Qt.KeyboardModifier.ControlModifier)


class MoveThings(Drag):
    """Drags beds and structures over the plan."""

    hint = "Alt holds the snapping off, Escape puts back"
    cursor = Qt.CursorShape.SizeAllCursor

    def __init__(self, view, ids: tuple[str, ...], pressed: str = "") -> None:
        super().__init__(view)
        self.ids, self.pressed = ids, pressed
        things = [
            self.document.garden.beds_by_id.get(k) or self.document.garden.structures_by_id[k] for k in ids
        ]
        bounds = [shapes.plan_polygon(thing.outline).bounds for thing in things]
        self._left, self._low = min(b[0] for b in bounds), min(b[1] for b in bounds)
        self._right, self._high = max(b[2] for b in bounds), max(b[3] for b in bounds)
        self._xs, self._ys = view.snap_edges(leaving_out=ids)

    def _offset(self, first: Pointer, at: Pointer) -> tuple[float, float]:
        dx, dy = at.plan[0] - first.plan[0], at.plan[1] - first.plan[1]
        if at.held(Qt.KeyboardModifier.ShiftModifier):  # along one axis only
            dx, dy = (dx, 0.0) if abs(dx) >= abs(dy) else (0.0, dy)
        if at.held(Qt.KeyboardModifier.AltModifier):
            self.view.show_snap(None)
            return dx, dy
        best_x = self._best(self._left + dx, self._right + dx, True)
        best_y = self._best(self._low + dy, self._high + dy, False)
        self.view.show_snap((best_x[1] if best_x[2] else None, best_y[1] if best_y[2] else None))
        keep_x = at.held(Qt.KeyboardModifier.ShiftModifier) and dx == 0.0
        keep_y = at.held(Qt.KeyboardModifier.ShiftModifier) and dy == 0.0
        return (0.0 if keep_x else dx + best_x[0]), (0.0 if keep_y else dy + best_y[0])

    def _best(self, low: float, high: float, is_x: bool) -> tuple[float, float, bool]:
        """Correction, line caught, and whether it was an edge."""
        found = []
        for edge in (low, high):
            caught = self.view.snap(edge, edge, self._xs, self._ys)
            value, by = (caught.x, caught.by_x) if is_x else (caught.y, caught.by_y)
            found.append((by != "edge", abs(value - edge), value - edge, value, by == "edge"))
        _, _, correction, line, by_edge = min(found)
        return correction, line, by_edge

    @override
    def step(self) -> str:
        return f"Move {self.view.named(self.ids)}"

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        return edits.move_things(garden, self.ids, *self._offset(first, at))

    @override
    def clicked(self, at: Pointer) -> None:
        if self.pressed and not _adds(at):  # a plain click on one of several picks it out
            self.document.select((self.pressed,))

    @override
    def finish(self, at: Pointer) -> bool:
        over = super().finish(at)
        self.view.show_snap(None)
        return over

    @override
    def cancel(self) -> None:
        self.view.show_snap(None)
        super().cancel()


class MovePlanting(Drag):
    """Drags a planting within its bed, or to another."""

    hint = "Drop on free ground; another bed takes it too; Escape puts back"
    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, view, key: str) -> None:
        super().__init__(view)
        self.planting_id = key

    @override
    def step(self) -> str:
        return f"Move {self.view.named((self.planting_id,))}"

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        planting = garden.plantings_by_id[self.planting_id]
        home = garden.beds_by_id[planting.bed]
        target = self.view.sheet.bed_at(at.scene)
        bed = garden.beds_by_id.get(target, home) if target else home
        (x0, y0), (x1, y1) = shapes.to_own(bed.outline, [first.plan, at.plan])
        if bed.id == home.id:
            dx, dy = float(x1 - x0), float(y1 - y0)
            if not at.held(Qt.KeyboardModifier.AltModifier):
                step = self.view.fine_step
                dx, dy = round(dx / step) * step, round(dy / step) * step
            return moved_within(garden, self.planting_id, dx, dy)
        if planting.arrangement.kind == "places":
            points = planting.arrangement.points
            cx, cy = points[0]
            moved = tuple((round(x - cx + float(x1), 6), round(y - cy + float(y1), 6)) for x, y in points)
            return edits.change_planting(
                garden, self.planting_id, bed=bed.id, plot={"kind": "whole"}, arrangement=Places(points=moved)
            )
        plan = self.document.plan
        span = plan.span_of(planting)
        free = plan.free(bed, span.first, span.last, leaving_out=(self.planting_id,))
        box = plot_box(home, planting.plot)
        land = carried(bed, free, (float(x1), float(y1)), box[2] - box[0])
        if land.plot is None:
            self.view.say(land.why)
            return garden
        return edits.move_planting(garden, self.planting_id, bed.id, land.plot)

    @override
    def clicked(self, at: Pointer) -> None:
        if not _adds(at):
            self.document.select((self.planting_id,))


class RubberBand(Gesture):
    """Picks what lies in a rectangle."""

    def __init__(self, view, first: Pointer) -> None:
        super().__init__(view)
        self.first = self.last = first

    @override
    def move(self, at: Pointer) -> None:
        self.last = at
        self.view.viewport().update()

    @override
    def finish(self, at: Pointer) -> bool:
        keep = self.document.selection if at.held(Qt.KeyboardModifier.ShiftModifier) else ()
        if not dragged(self.first, at):
            self.document.select(keep)
            return True
        rect = QRectF(self.first.scene, at.scene).normalized()
        found = [
            key
            for items in (self.view.sheet.beds, self.view.sheet.structures)
            for key, item in items.items()
            if rect.contains(item.shape().boundingRect())
        ]
        self.document.select((*keep, *found))
        self.view.viewport().update()
        return True

    @override
    def paint(self, painter: QPainter) -> None:
        rect = QRectF(self.first.view, self.last.view).normalized()
        fill = QColor(self.view.look.now.accent)
        fill.setAlpha(30)
        painter.fillRect(rect, fill)
        painter.setPen(QPen(self.view.look.now.accent, 1, Qt.PenStyle.DashLine))
        painter.drawRect(rect)


def moved_within(garden: Garden, key: str, dx: float, dy: float) -> Garden:
    """A planting moved within its bed, by an offset in the bed's coordinates [m], its support's line too."""
    planting = garden.plantings_by_id[key]
    bed = garden.beds_by_id[planting.bed]

    def shifted(points):
        return tuple((round(x + dx, 6), round(y + dy, 6)) for x, y in points)

    changes = {}
    if planting.arrangement.kind == "places":
        changes["arrangement"] = Places(points=shifted(planting.arrangement.points))
    else:
        changes["plot"] = shifted_plot(planting.plot, bed, dx, dy)
    if planting.support is not None and planting.support.line:
        changes["support"] = planting.support.with_(line=shifted(planting.support.line))
    return edits.change_planting(garden, key, **changes)


def nudge_plantings(view, ids: tuple[str, ...], dx: float, dy: float) -> None:
    """Move plantings within their beds by an offset on the plan. [m]"""

    def change(garden: Garden) -> Garden:
        for key in ids:
            bed = garden.beds_by_id[garden.plantings_by_id[key].bed]
            (x0, y0), (x1, y1) = shapes.to_own(bed.outline, [(0.0, 0.0), (dx, dy)])
            garden = moved_within(garden, key, float(x1 - x0), float(y1 - y0))
        return garden

    view.document.edit(f"Move {view.named(ids)}", change, merge=f"nudge {' '.join(ids)}")
