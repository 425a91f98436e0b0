"""Moving beds, structures and plantings, with the pointer and with the arrow keys."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter
from typing_extensions import override

from planner.desk.canvas.snap import Snapped, SnappedSide, catch_of, nearest_line, snap_side
from planner.desk.gestures.base import Drag, GestureView, Pointer
from planner.desk.gestures.distances import NeighbourDistances
from planner.desk.gestures.picking import changes_selection
from planner.desk.gestures.plot_edge import nudge_plot_edge
from planner.desk.model.document import PLOT_EDGE, Document
from planner.desk.model.thing_words import name_of
from planner.garden import Bed, Garden, edits
from planner.ground import shapes
from planner.ground.drawing import straight_from
from planner.ground.moving import landing_in_other_bed, move_on_plan, move_within_bed
from planner.plan.moving_together import move_together
from planner.words import say


class MoveThings(Drag):
    """Drags beds and structures over the plan.

    Parameters
    ----------
    view : GestureView
    ids : tuple of str
        What is dragged.
    pressed : str
        Which of them was pressed.
    """

    cursor = Qt.CursorShape.SizeAllCursor

    def __init__(self, view: GestureView, ids: tuple[str, ...], pressed: str = "") -> None:
        super().__init__(view)
        self.hint = say("Alt holds the snapping off, Escape puts back")
        self.ids, self.pressed = ids, pressed
        garden = self.document.garden
        things = [garden.beds_by_id.get(k) or garden.structures_by_id[k] for k in ids]
        bounds = [shapes.plan_polygon(thing.outline).bounds for thing in things]
        self._left, self._low = min(b[0] for b in bounds), min(b[1] for b in bounds)
        self._right, self._high = max(b[2] for b in bounds), max(b[3] for b in bounds)
        self._targets = view.snap_targets(leaving_out=ids)
        self._neighbours = NeighbourDistances(view, ids)

    def _offset(self, first: Pointer, at: Pointer) -> tuple[float, float]:
        dx, dy = at.plan[0] - first.plan[0], at.plan[1] - first.plan[1]
        straight = at.held(Qt.KeyboardModifier.ShiftModifier)
        if straight:
            dx, dy = straight_from((0.0, 0.0), (dx, dy))
        if at.held(Qt.KeyboardModifier.AltModifier):
            self.view.show_snap(None)
            return dx, dy
        x = snap_side(self._left + dx, self._right + dx, self._catch(0), self._catch_middle(0))
        y = snap_side(self._low + dy, self._high + dy, self._catch(1), self._catch_middle(1))
        self._show(x, y, dx, dy)
        stays_x, stays_y = straight and dx == 0.0, straight and dy == 0.0
        return (0.0 if stays_x else dx + x.by), (0.0 if stays_y else dy + y.by)

    def _catch(self, axis: int) -> Callable[[float], tuple[float, str]]:
        """What catches a side, across the plan (0) or up (1)."""

        def catch(value: float) -> tuple[float, str]:
            caught = self.view.snap(value, value, self._targets, only_edges=True)
            return (caught.x, caught.by_x) if axis == 0 else (caught.y, caught.by_y)

        return catch

    def _catch_middle(self, axis: int) -> Callable[[float], tuple[float, str]]:
        middles = self._targets.middle_ys if axis else self._targets.middle_xs
        return lambda value: nearest_line(value, middles, self.view.snap_reach, "centre")

    def _show(self, x: SnappedSide, y: SnappedSide, dx: float, dy: float) -> None:
        """Show by what the box of what is moved was caught, and where."""

        def place(side: SnappedSide, low: float, high: float) -> float:
            return side.line if side.kind in ("edge", "centre") else (low + high) / 2 + side.by

        across = place(x, self._left + dx, self._right + dx)
        up = place(y, self._low + dy, self._high + dy)
        self.view.show_snap(catch_of(Snapped(across, up, x.kind, y.kind), self._targets))

    @override
    def step(self) -> str:
        return say("Move {things}", things=name_of(self.document.plan, self.ids))

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        return edits.move_things(garden, self.ids, *self._offset(first, at))

    @override
    def paint(self, painter: QPainter) -> None:
        if self.is_going:
            self._neighbours.paint(painter, self.ids)

    @override
    def clicked(self, at: Pointer) -> None:
        if self.pressed and not changes_selection(at):  # a plain click on one of several picks it out
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

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, view: GestureView, key: str) -> None:
        super().__init__(view)
        self.hint = say("Drop on free ground; another bed takes it too; Escape puts back")
        self.planting_id = key

    @override
    def step(self) -> str:
        return say("Move {things}", things=name_of(self.document.plan, (self.planting_id,)))

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        home = garden.beds_by_id[garden.plantings_by_id[self.planting_id].bed]
        target = self.view.sheet.bed_at(at.scene)
        bed = garden.beds_by_id.get(target, home) if target else home
        (x0, y0), (x1, y1) = shapes.to_own(bed.outline, [first.plan, at.plan])
        if bed.id != home.id:
            return self._move_to(garden, home, bed, (float(x1), float(y1)))
        step = 0.0 if at.held(Qt.KeyboardModifier.AltModifier) else self.view.fine_step
        return move_within_bed(garden, self.planting_id, float(x1 - x0), float(y1 - y0), step)

    def _move_to(self, garden: Garden, home: Bed, bed: Bed, at: tuple[float, float]) -> Garden:
        planting, plan = garden.plantings_by_id[self.planting_id], self.document.plan
        span = plan.span_of(planting)
        land = landing_in_other_bed(
            planting,
            home,
            bed,
            at,
            lambda: plan.free(
                bed,
                span.first,
                span.last,
                leaving_out=(self.planting_id,),
                climbing=plan.may_climb_arch(planting),
            ),
        )
        if land.plot is None:
            self.view.say(land.why)
            return garden
        return edits.change_planting(
            garden, self.planting_id, bed=bed.id, plot=land.plot, arrangement=land.arrangement
        )

    @override
    def clicked(self, at: Pointer) -> None:
        if not changes_selection(at):
            self.document.select((self.planting_id,))


class MovePlantings(Drag):
    """Drags several plantings together, within their beds or to others.

    Parameters
    ----------
    view : GestureView
    ids : tuple of str
        What is dragged.
    pressed : str
        Which of them was pressed: where the pointer holds it decides the bed.
    """

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, view: GestureView, ids: tuple[str, ...], pressed: str) -> None:
        super().__init__(view)
        self.hint = say("All of them go together; another bed takes them too; Escape puts back")
        self.pressed = pressed
        self.ids = (pressed, *(key for key in ids if key != pressed))

    @override
    def step(self) -> str:
        return say("Move {things}", things=name_of(self.document.plan, self.ids))

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        offset = (at.plan[0] - first.plan[0], at.plan[1] - first.plan[1])
        step = 0.0 if at.held(Qt.KeyboardModifier.AltModifier) else self.view.fine_step
        target = self.view.sheet.bed_at(at.scene)
        moved = move_together(self.document.plan, garden, self.ids, offset, target, step)
        if moved.refused:
            why = "; ".join(moved.refused)
            self.view.say(say("{reasons}; none of the {number} is moved", reasons=why, number=len(self.ids)))
        return moved.garden

    @override
    def clicked(self, at: Pointer) -> None:
        if not changes_selection(at):  # a plain click on one of several picks it out
            self.document.select((self.pressed,))


def nudge_selection(document: Document, dx: float, dy: float) -> None:
    """Move what is selected by an offset; nudges that follow each other are one step.

    Parameters
    ----------
    document : Document
    dx, dy : float
        On the plan. [m]
    """
    things, plantings = document.movable_things, document.selected_plantings
    if things:
        _nudge(document, things, lambda garden: edits.move_things(garden, things, dx, dy))
    elif PLOT_EDGE in document.selection:
        nudge_plot_edge(document, dx, dy)
    elif plantings:
        _nudge(document, plantings, lambda garden: move_on_plan(garden, plantings, dx, dy))


def _nudge(document: Document, ids: Sequence[str], change: Callable[[Garden], Garden]) -> None:
    words = say("Move {things}", things=name_of(document.plan, ids))
    document.edit(words, change, merge=f"nudge {' '.join(ids)}")
