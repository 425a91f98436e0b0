"""The sheet under the hand: tools, keys, drops, and the one gesture that is active."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.checks import Finding
from planner.crops import Crop
from planner.desk.canvas import overlay, transform
from planner.desk.canvas.access_layer import AccessLayer
from planner.desk.canvas.camera import Camera
from planner.desk.canvas.light_layer import LightLayer
from planner.desk.gestures import drawing, moving, sizing
from planner.desk.gestures.base import Gesture, Pointer, guarded
from planner.desk.gestures.placing import PlaceCrop
from planner.desk.model.document import Document
from planner.desk.panels.findings import Findings, paint_marks
from planner.desk.theme.palette import LookSwitch
from planner.garden import Outline, edits

#: How near a handle is taken hold of. [pixels]
HANDLE_REACH = 9.0
#: Drag data of a crop: its key, a newline, the variety.
CROP_MIME = "application/x-bedwright-crop"

Tool = str  # select, rectangle, polygon, circle, measure, or structure:KIND


class SheetView(Camera):
    """Turns what the hand does on the sheet into gestures, and paints what is not on it.

    Signals
    -------
    pointer_at : float, float
        Place of the pointer on the plan. [m]
    said : str
        A line for the status bar.
    tool_changed : str
    """

    pointer_at = Signal(float, float)
    said = Signal(str)
    tool_changed = Signal(str)
    details_wanted = Signal()
    menu_wanted = Signal(object)

    def __init__(self, document: Document, look: LookSwitch, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.setAccessibleName("Sheet")
        self.setAccessibleDescription("The garden drawn to scale; everything on it is in the outline too")
        self.setMouseTracking(True)
        self.viewport().setMouseTracking(True)
        self.setAcceptDrops(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.tool: Tool = "select"
        self.gesture: Gesture | None = None
        self.grid_shown = True
        self.zoom_at_pointer = True
        self._snap_lines: tuple[float | None, float | None] = (None, None)
        self._pan_from: QPointF | None = None
        self._space = False
        self._labels = overlay.LabelCache()
        self.light = LightLayer(self)
        self.light.said.connect(self.say)
        self.ways = AccessLayer(self)
        self.findings: Findings | None = None
        self.finding: Finding | None = None
        document.selection_changed.connect(self.viewport().update)
        document.garden_changed.connect(self.viewport().update)
        document.day_changed.connect(self.viewport().update)
        document.edit_refused.connect(self.say)
        document.about_to_change_history.connect(self.cancel_gesture)
        document.opened.connect(self._show_opened)
        look.changed.connect(self.viewport().update)
        self.scale_to(90.0)

    # -- snapping ---------------------------------------------------------------------------

    def show_snap(self, lines: tuple[float | None, float | None] | None) -> None:
        """Show the edges that have caught."""
        self._snap_lines = lines if lines is not None else (None, None)
        self.viewport().update()

    # -- words ------------------------------------------------------------------------------

    def say(self, text: str) -> None:
        """Put a line into the status bar."""
        self.said.emit(text)

    def named(self, ids: Sequence[str]) -> str:
        """What a few things are called in a menu: a name, or their number."""
        garden = self.document.garden
        if len(ids) != 1:
            kinds = {self._kind(key) for key in ids}
            return f"{len(ids)} {kinds.pop() + 's' if len(kinds) == 1 else 'things'}"
        (key,) = ids
        if key in garden.beds_by_id:
            return garden.beds_by_id[key].name
        if key in garden.structures_by_id:
            structure = garden.structures_by_id[key]
            return structure.name or structure.kind
        if key in garden.plantings_by_id:
            planting = garden.plantings_by_id[key]
            crop = self.document.catalogue.get(planting.crop)
            return crop.name if crop else planting.crop
        return "nothing"

    def _kind(self, key: str) -> str:
        garden = self.document.garden
        if key in garden.beds_by_id:
            return "bed"
        return "structure" if key in garden.structures_by_id else "planting"

    # -- tools and gestures -----------------------------------------------------------------

    def take_tool(self, tool: Tool) -> None:
        """Take another tool in hand."""
        self.cancel_gesture()
        self.tool = tool
        self._show_cursor()
        self.tool_changed.emit(tool)

    def place_crop(self, crop: Crop, variety: str = "", *, by_key: bool = False) -> None:
        """Hold a crop over the sheet until it is planted or Escape is pressed."""
        self.take_tool("select")
        gesture = PlaceCrop(self, crop, variety)
        self.gesture = gesture
        self.say(gesture.hint)
        self._show_cursor()
        if by_key:
            self.setFocus(Qt.FocusReason.ShortcutFocusReason)
            beds = self.document.selected_beds
            plantings = self.document.selected_plantings
            bed = beds[0] if beds else None
            if bed is None and plantings:
                bed = self.document.garden.plantings_by_id[plantings[0]].bed
            gesture.begin_at(bed)

    def cancel_gesture(self) -> bool:
        """Put back what a gesture has moved; returns whether one was active."""
        if self.gesture is None:
            return False
        gesture, self.gesture = self.gesture, None
        gesture.cancel()
        self._show_cursor()
        self.viewport().update()
        self.say("")
        return True

    def give_up(self) -> None:
        """After a fault of the program: what was going on is put back."""
        gesture, self.gesture = self.gesture, None
        self.show_snap(None)
        if gesture is not None:
            self.document.cancel_preview()
        self.say(
            "A fault of the program stopped this; the garden is as it was before. Save it under another name."
        )

    def end_gesture(self) -> None:
        """The gesture is over and done."""
        self.gesture = None
        self._show_cursor()
        self.viewport().update()

    def _show_cursor(self) -> None:
        if self._space or self._pan_from is not None:
            shape = (
                Qt.CursorShape.ClosedHandCursor
                if self._pan_from is not None
                else Qt.CursorShape.OpenHandCursor
            )
        elif self.gesture is not None:
            shape = self.gesture.cursor
        else:
            shape = Qt.CursorShape.ArrowCursor if self.tool == "select" else Qt.CursorShape.CrossCursor
        self.viewport().setCursor(shape)

    def _make_bed(self, outline: Outline) -> None:
        made: list[str] = []

        def change(garden):
            garden, key = edits.add_bed(garden, outline, first_year=None)
            made.append(key)
            return garden

        if self.document.edit("Draw a bed", change):
            self.document.select(made)

    def _make_structure(self, kind: str) -> Callable[[Outline], None]:
        def make(outline: Outline) -> None:
            made: list[str] = []
            heights = {"wall": 1.8, "fence": 1.8, "hedge": 1.6, "tree": 5.0, "shed": 2.4,
                       "glasshouse": 2.3, "tunnel": 2.2, "arch": 2.3, "other": 1.0}  # fmt: skip

            def change(garden):
                garden, key = edits.add_structure(garden, kind, outline, heights[kind])
                made.append(key)
                return garden

            if self.document.edit(f"Draw a {kind}", change):
                self.document.select(made)
            self.take_tool("select")

        return make

    def _begin(self, at: Pointer) -> Gesture | None:
        """The gesture a press begins, by the tool in hand and what lies there."""
        tool = self.tool
        if tool == "rectangle":
            return drawing.DrawRectangle(self, self._make_bed, at)
        if tool == "circle":
            return drawing.DrawCircle(self, self._make_bed, at)
        if tool == "polygon":
            return drawing.DrawPolygon(self, self._make_bed, at)
        if tool == "support":
            (key,) = self.document.selected_plantings[:1] or (None,)
            if key is None:
                self.say("Select the planting first whose support you want to draw")
                return None
            return drawing.DrawSupport(self, key, at)
        if tool == "measure":
            return drawing.Measure(self, at)
        if tool.startswith("structure:"):
            kind = tool.partition(":")[2]
            make = self._make_structure(kind)
            return (drawing.DrawCircle if kind == "tree" else drawing.DrawRectangle)(self, make, at)
        return self._pick(at)

    def _pick(self, at: Pointer) -> Gesture | None:
        handle = self.handle_at(at)
        if handle is not None:
            return (sizing.ResizePlot if handle.kind == "plot" else sizing.ResizeOutline)(self, handle)
        key = self.thing_at(at)
        if key is None:
            return moving.RubberBand(self, at)
        if at.held(Qt.KeyboardModifier.ShiftModifier) and key not in self.document.selection:
            self.document.select((*self.document.selection, key))
        elif at.held(Qt.KeyboardModifier.ControlModifier):
            kept = tuple(k for k in self.document.selection if k != key)
            self.document.select(kept if key in self.document.selection else (*kept, key))
        elif key not in self.document.selection:
            self.document.select((key,))
        if key in self.document.garden.plantings_by_id:
            return moving.MovePlanting(self, key)
        ids = self.document.selected_things
        return moving.MoveThings(self, ids if key in ids else (key,), key)

    def thing_at(self, at: Pointer) -> str | None:
        """What a press takes: a planting by its plot, a bed by its rim, free ground or name.

        With Alt it is the bed beneath a planting, and what lies under a structure over a path.
        """
        reach = 6 / self.pixels_per_metre * transform.SCALE
        bed = self.sheet.bed_at(at.scene, reach)
        named = self._labels.key_at(at.view)
        if named is not None:
            return named
        if at.held(Qt.KeyboardModifier.AltModifier):
            return bed or self.sheet.structure_at(at.scene)
        over = self.sheet.structure_at(at.scene)
        if bed is None:
            return over
        item = self.sheet.beds[bed]
        rim = item.shape().boundingRect().adjusted(reach, reach, -reach, -reach)
        planting = self.sheet.planting_at(at.scene)
        if planting is not None and (
            rim.contains(at.scene) or rim.width() < 4 * reach or rim.height() < 4 * reach
        ):
            return planting
        return bed

    def handles(self) -> list[sizing.Handle]:
        """Handles of what is selected, where it is one thing."""
        if len(self.document.selection) != 1 or self.tool != "select":
            return []
        (key,) = self.document.selection
        garden = self.document.garden
        thing = garden.beds_by_id.get(key) or garden.structures_by_id.get(key)
        if thing is not None:
            return sizing.outline_handles(key, thing.outline, self.pixels_per_metre)
        planting = garden.plantings_by_id.get(key)
        if planting is None or planting.arrangement.kind == "places":
            return []
        return sizing.plot_handles(garden.beds_by_id[planting.bed], key, planting.plot)

    def handle_at(self, at: Pointer) -> sizing.Handle | None:
        """The handle under the pointer."""
        for handle in self.handles():
            offset = self.to_view(handle.plan) - at.view
            if math.hypot(offset.x(), offset.y()) <= HANDLE_REACH:
                return handle
        return None

    # -- events: pointer --------------------------------------------------------------------

    def _pointer(self, position: QPointF, modifiers: Qt.KeyboardModifier) -> Pointer:
        scene = self._scene_at(position)
        return Pointer(transform.to_plan(scene), scene, position, modifiers)

    @override
    @guarded
    def mousePressEvent(self, event: QMouseEvent) -> None:
        position = event.position()
        if event.button() == Qt.MouseButton.MiddleButton or (
            self._space and event.button() == Qt.MouseButton.LeftButton
        ):
            self._pan_from = position
            self._show_cursor()
            return
        if event.button() != Qt.MouseButton.LeftButton:
            if event.button() == Qt.MouseButton.RightButton and self.gesture is not None:
                self.cancel_gesture()
            return
        at = self._pointer(position, event.modifiers())
        if self.gesture is None:
            self.gesture = self._begin(at)
            if self.gesture is not None and self.gesture.hint and self.tool != "select":
                self.say(self.gesture.hint)
        if self.gesture is not None:
            self.gesture.press(at)
        self.viewport().update()

    @override
    @guarded
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        position = event.position()
        if self._pan_from is not None:
            self._scroll(position - self._pan_from)
            self._pan_from = position
            self._update_rulers()
            return
        at = self._pointer(position, event.modifiers())
        self.pointer_at.emit(*at.plan)
        for ruler in self.rulers:
            ruler.point_at(position)
        if self.gesture is not None:
            self.gesture.move(at)
        elif self.tool == "select":
            over_handle = self.handle_at(at) is not None
            self.viewport().setCursor(
                Qt.CursorShape.SizeAllCursor if over_handle else Qt.CursorShape.ArrowCursor
            )

    @override
    @guarded
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._pan_from is not None and event.button() in (
            Qt.MouseButton.MiddleButton,
            Qt.MouseButton.LeftButton,
        ):
            self._pan_from = None
            self._show_cursor()
            return
        if event.button() == Qt.MouseButton.LeftButton and self.gesture is not None:
            gesture = self.gesture
            if gesture.finish(self._pointer(event.position(), event.modifiers())) and self.gesture is gesture:
                self.end_gesture()
        self.viewport().update()

    @override
    @guarded
    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if self.gesture is not None and self.gesture.lasting:
            self.mousePressEvent(event)
        elif self.tool == "select" and self.document.selection:
            self.details_wanted.emit()

    @override
    @guarded
    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if event.reason() == QContextMenuEvent.Reason.Mouse:
            at = self._pointer(QPointF(event.pos()), Qt.KeyboardModifier.NoModifier)
            key = self.thing_at(at)
            if key is not None and key not in self.document.selection:
                self.document.select((key,))
        self.menu_wanted.emit(event.globalPos())

    @override
    @guarded
    def wheelEvent(self, event: QWheelEvent) -> None:
        pixels = event.pixelDelta()
        at = event.position() if self.zoom_at_pointer else None
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier or pixels.isNull():
            if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
                turn = event.angleDelta().y() or event.angleDelta().x()
                self._scroll(QPointF(turn * 0.6, 0))
            else:
                turn = pixels.y() if not pixels.isNull() else event.angleDelta().y() / 2
                if turn:
                    self.zoom_by(1.0025**turn, at)
        else:  # two fingers on a pad
            self._scroll(QPointF(pixels))
        self._update_rulers()
        event.accept()

    @override
    def viewportEvent(self, event: QEvent) -> bool:
        if (
            isinstance(event, QNativeGestureEvent)
            and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture
        ):
            self.zoom_by(1.0 + event.value(), event.position())
            return True
        if event.type() == QEvent.Type.Leave:
            for ruler in self.rulers:
                ruler.point_at(None)
        return super().viewportEvent(event)

    # -- events: keys -----------------------------------------------------------------------

    @override
    def event(self, event: QEvent) -> bool:
        # While a gesture runs, the keys it knows are its own and no menu's.
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.ShortcutOverride
            and self.gesture is not None
            and event.key() in self.gesture.keys
        ):
            event.accept()
            return True
        # Tab goes through what is on the sheet, or to the next free piece while a crop is held.
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
            and event.key() in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)
            and self._tab(event)
        ):
            return True
        return super().event(event)

    def _tab(self, event: QKeyEvent) -> bool:
        if self.gesture is not None:
            return self.gesture.key(event)
        plan = self.document.plan
        order = [key for bed in plan.beds for key in (bed.id, *(p.id for p in plan.in_bed(bed)))]
        order += [s.id for s in plan.garden.structures]
        if not order:
            return False
        now = self.document.selection[-1] if self.document.selection else None
        back = event.key() == Qt.Key.Key_Backtab
        if now not in order:
            index = len(order) - 1 if back else 0
        else:
            index = order.index(now) + (-1 if back else 1)
            if not 0 <= index < len(order):
                return False  # the focus goes on to the next widget
        self.document.select((order[index],))
        rect = self.rect_of(order[index])
        self.show_place(transform.to_plan(rect.center()))
        self.say(overlay.words_for(self.document, order[index]))
        return True

    @override
    @guarded
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            if not self.cancel_gesture():
                if self.tool != "select":
                    self.take_tool("select")
                else:
                    self.document.select(())
            return
        if self.gesture is not None and self.gesture.key(event):
            return
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat() and self.gesture is None:
            self._space = True
            self._show_cursor()
            return
        offsets = {
            Qt.Key.Key_Left: (-1, 0),
            Qt.Key.Key_Right: (1, 0),
            Qt.Key.Key_Up: (0, 1),
            Qt.Key.Key_Down: (0, -1),
        }
        direction = offsets.get(Qt.Key(event.key()))
        if direction is not None and self.document.selection and self.gesture is None:
            self._nudge(*direction, fine=bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier))
            return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.document.selection:
            self.details_wanted.emit()
            return
        super().keyPressEvent(event)

    @override
    @guarded
    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            self._show_cursor()
            return
        super().keyReleaseEvent(event)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if self._space:  # its release goes to another window
            self._space = False
            self._show_cursor()

    def _nudge(self, dx: int, dy: int, *, fine: bool) -> None:
        step = (
            (self.fine_step / 5 if self.document.garden.site.units == "metric" else self.fine_step / 2)
            if fine
            else self.grid_step
        )
        things, plantings = self.document.selected_things, self.document.selected_plantings
        if things:
            self.document.edit(
                f"Move {self.named(things)}",
                lambda garden: edits.move_things(garden, things, dx * step, dy * step),
                merge=f"nudge {' '.join(things)}",
            )
        elif plantings:
            moving.nudge_plantings(self, plantings, dx * step, dy * step)

    # -- events: drops ----------------------------------------------------------------------

    def _dragged_crop(self, event: QDropEvent) -> tuple[Crop, str] | None:
        if not event.mimeData().hasFormat(CROP_MIME):
            return None
        key, _, variety = bytes(event.mimeData().data(CROP_MIME).data()).decode().partition("\n")
        crop = self.document.catalogue.get(key)
        return (crop, variety) if crop is not None else None

    @override
    @guarded
    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        dragged = self._dragged_crop(event)
        if dragged is None:
            event.ignore()
            return
        self.cancel_gesture()
        self.gesture = PlaceCrop(self, *dragged)
        self.say(self.gesture.hint)
        event.acceptProposedAction()

    @override
    @guarded
    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        gesture = self.gesture
        if not isinstance(gesture, PlaceCrop):
            event.ignore()
            return
        may = gesture.over(self._pointer(event.position(), event.modifiers()))
        event.setDropAction(Qt.DropAction.CopyAction)
        if may:
            event.accept()
        else:
            event.ignore()

    @override
    @guarded
    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        self.cancel_gesture()

    @override
    @guarded
    def dropEvent(self, event: QDropEvent) -> None:
        gesture = self.gesture
        if not isinstance(gesture, PlaceCrop):
            return
        gesture.over(self._pointer(event.position(), event.modifiers()))
        gesture.plant()
        self.end_gesture()
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()
        self.setFocus(Qt.FocusReason.MouseFocusReason)

    # -- painting ---------------------------------------------------------------------------

    @override
    @guarded
    def drawBackground(self, painter: QPainter, rect: QRectF | object) -> None:
        painter.save()
        painter.resetTransform()
        try:
            overlay.paint_paper(painter, self)
        finally:
            painter.restore()

    @override
    @guarded
    def drawForeground(self, painter: QPainter, rect: QRectF | object) -> None:
        painter.save()
        painter.resetTransform()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        try:
            self.light.paint(painter)
            self.ways.paint(painter, self.look.now)
            self._labels.paint(painter, self)
            overlay.paint_dimensions(painter, self)
            overlay.paint_selection(painter, self)
            if self.findings is not None:
                paint_marks(painter, self, self.findings, self.finding, self.look.now)
            overlay.paint_snap(painter, self, self._snap_lines)
            if self.gesture is not None:
                self.gesture.paint(painter)
            overlay.paint_furniture(painter, self)
            self.light.paint_legend(painter, self.look.now)
        finally:
            painter.restore()

    def chip(self, painter: QPainter, at: QPointF, lines: Sequence[str], *, warn: bool = False) -> None:
        """A small sign beside the pointer; it stays inside the viewport."""
        overlay.paint_chip(painter, self, at, lines, warn=warn)

    def bed_under_pointer(self) -> str | None:
        """Id of the bed the pointer is over."""
        point = QPointF(self.viewport().mapFromGlobal(self.cursor().pos()))
        inside = QRectF(self.viewport().rect()).contains(point)
        return self.sheet.bed_at(self._scene_at(point)) if inside else None

    def pointer_place(self) -> tuple[float, float]:
        """Where the pointer is on the plan, else the middle of what is seen. [m]"""
        point = QPointF(self.viewport().mapFromGlobal(self.cursor().pos()))
        if not QRectF(self.viewport().rect()).contains(point):
            point = QPointF(self.viewport().rect().center())
        return transform.to_plan(self._scene_at(point))
