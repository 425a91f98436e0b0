"""The sheet under the hand: tools, events, and the one gesture that is active."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPointF, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QContextMenuEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
)
from PySide6.QtWidgets import QToolTip, QWidget
from typing_extensions import override

from planner.crops import Crop
from planner.desk.canvas import transform
from planner.desk.canvas.guarded import guarded
from planner.desk.canvas.handles import Handle, handle_at
from planner.desk.canvas.panning import Panning
from planner.desk.canvas.sheet_picture import SheetPicture
from planner.desk.gestures import crop_drop
from planner.desk.gestures.aiming import Aim, can_aim
from planner.desk.gestures.base import Gesture, Pointer, Tool
from planner.desk.gestures.keys import direction_of_key, next_thing, nudge_offset
from planner.desk.gestures.moving import nudge_selection
from planner.desk.gestures.picking import thing_at
from planner.desk.gestures.rows import nudge_plants
from planner.desk.gestures.starting import begin
from planner.desk.model.document import Document
from planner.desk.model.heard_drawings import HeardPart
from planner.desk.model.hover_words import hover_words
from planner.desk.model.thing_words import thing_words
from planner.desk.theme.palette import LookSwitch
from planner.desk.theme.plain_tips import plain_tip
from planner.garden import Bed, Structure
from planner.ground import shapes
from planner.words import say


class SheetView(SheetPicture):
    """Turns what the hand does on the sheet into gestures.

    Signals
    -------
    pointer_at : float, float
        Place of the pointer on the plan. [m]
    said : str
        A line for the status bar.
    unsaid : str
        A line that was said holds no longer.
    tool_changed : str
    details_wanted
        The selection's details are to be shown.
    menu_wanted : QPoint
        A menu is to be shown at a point of the screen.
    """

    pointer_at = Signal(float, float)
    said = Signal(str)
    unsaid = Signal(str)
    tool_changed = Signal(str)
    details_wanted = Signal()
    menu_wanted = Signal(object)

    heard_as = QAccessible.Role.Canvas

    def __init__(self, document: Document, look: LookSwitch, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.setAccessibleName(say("Plan"))
        self.setAccessibleDescription(
            say("The garden drawn to scale; everything on it is in the contents too")
        )
        self.viewport().setAccessibleName(say("Plan"))
        self.setMouseTracking(True)
        self.viewport().setMouseTracking(True)
        self.setAcceptDrops(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.tool: Tool = "select"
        self.gesture: Gesture | None = None
        self._panning = Panning(self)
        self.light.said.connect(self.say)
        self.access.said.connect(self.say)
        document.edit_refused.connect(self.say)
        document.about_to_change_history.connect(self.cancel_gesture)
        document.opened.connect(self.show_opened)
        self.scale_to(90.0)

    def say(self, text: str) -> None:
        """Put a line into the status bar."""
        self.said.emit(text)

    # -- for a screen reader ----------------------------------------------------------------

    def heard_count(self) -> int:
        """How many beds and structures are drawn."""
        plan = self.document.plan
        return len(plan.beds) + len(plan.garden.structures)

    def heard_part(self, number: int) -> HeardPart:
        """A bed or a structure of the sheet, as the contents list it."""
        plan = self.document.plan
        things: tuple[Bed | Structure, ...] = (*plan.beds, *plan.garden.structures)
        thing = things[number]
        place = self.mapFromScene(transform.bounds(shapes.plan_polygon(thing.outline))).boundingRect()
        return HeardPart(thing_words(plan, thing.id), place, thing.id in self.document.selection)

    @override
    def may_show_snapshot(self) -> bool:
        return self.gesture is None

    # -- tools and gestures -----------------------------------------------------------------

    def take_tool(self, tool: Tool) -> None:
        """Take another tool in hand."""
        self.cancel_gesture()
        self.tool = tool
        self.walk.show(tool == "walk")
        self._show_cursor()
        self.tool_changed.emit(tool)
        if can_aim(tool):
            self.say(say("Draw with the pointer, or press Enter to begin with the keys"))

    def place_crop(self, crop: Crop, variety: str = "", *, by_key: bool = False) -> None:
        """Hold a crop over the sheet until it is planted or Escape is pressed.

        Parameters
        ----------
        crop : Crop
        variety : str
        by_key : bool
            Whether it is held over the selected bed, to be moved with the keys.
        """
        self.place_crops(((crop, variety),), by_key=by_key)

    def place_crops(self, crops: Sequence[tuple[Crop, str]], *, by_key: bool = False) -> None:
        """Hold crops over the sheet, several of them side by side in their order; see :meth:`place_crop`."""
        self.take_tool("select")
        gesture = crop_drop.held(self, crops)
        self.gesture = gesture
        self.say(gesture.hint)
        self._show_cursor()
        if by_key:
            self.setFocus(Qt.FocusReason.ShortcutFocusReason)
            beds, plantings = self.document.selected_beds, self.document.selected_plantings
            bed = beds[0] if beds else None
            if bed is None and plantings:
                bed = self.document.garden.plantings_by_id[plantings[0]].bed
            gesture.begin_at(bed)

    def _begins_with_keys(self, event: QKeyEvent) -> bool:
        """Whether a key begins to draw: Enter, or an arrow where nothing is selected that it would move."""
        if not can_aim(self.tool):
            return False
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        return enter or (direction_of_key(event.key()) is not None and not self.document.selection)

    def _aim(self) -> None:
        """Show the cross at which the keys begin to draw."""
        place = self.pointer_place()
        selected = self.document.selected_plantings
        if self.tool == "support" and selected:
            place = transform.to_plan(self.rect_of(selected[0]).center())
        self.gesture = Aim(self, place, self._begin_at)
        self.say(self.gesture.hint)
        self.viewport().update()

    def _begin_at(self, at: Pointer) -> None:
        """Begin to draw at a place, with the tool in hand."""
        self.gesture = begin(self, self.tool, at)
        if self.gesture is not None:
            self.gesture.press(at)
            if self.gesture.lasting:
                self.gesture.finish(at)
            self.say(self.gesture.hint)
        self._show_cursor()
        self.viewport().update()

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

    @override
    def cancel_touch(self) -> None:
        self.cancel_gesture()

    @override
    def recover_from_fault(self) -> None:
        """After a fault of the program: put back what was going on, and say so."""
        gesture, self.gesture = self.gesture, None
        self.show_snap(None)
        if gesture is not None:
            self.document.cancel_preview()
        self.say(
            say(
                "A fault of the program stopped this; the garden is as it was before. Save it under another name."
            )
        )

    def end_gesture(self) -> None:
        """The gesture is over and done."""
        if self.gesture is not None and self.gesture.hint:
            self.unsaid.emit(self.gesture.hint)
        self.gesture = None
        self._show_cursor()
        self.viewport().update()

    def _show_cursor(self) -> None:
        shape = self._panning.cursor
        if shape is None and self.gesture is not None:
            shape = self.gesture.cursor
        elif shape is None:
            arrow = self.tool in ("select", "walk")
            shape = Qt.CursorShape.ArrowCursor if arrow else Qt.CursorShape.CrossCursor
        self.viewport().setCursor(shape)

    # -- what lies under the pointer --------------------------------------------------------

    def pointer(self, position: QPointF, modifiers: Qt.KeyboardModifier) -> Pointer:
        """The pointer at a point of the viewport."""
        scene = self.scene_at(position)
        return Pointer(transform.to_plan(scene), scene, position, modifiers)

    def thing_at(self, at: Pointer) -> str | None:
        """Id of what a press takes: a planting, a bed or a structure."""
        return thing_at(self, self.labels, at)

    @override
    def handles(self) -> list[Handle]:
        return super().handles() if self.tool == "select" else []

    def handle_at(self, at: Pointer) -> Handle | None:
        """The handle under the pointer."""
        return handle_at(self, self.handles(), at.view)

    # -- events: pointer --------------------------------------------------------------------

    @override
    @guarded
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self._panning.press(event):
            self._show_cursor()
            return
        if event.button() != Qt.MouseButton.LeftButton:
            if event.button() == Qt.MouseButton.RightButton and self.gesture is not None:
                self.cancel_gesture()
            return
        at = self.pointer(event.position(), event.modifiers())
        if self.gesture is None:
            self.gesture = begin(self, self.tool, at)
            if self.gesture is not None and self.gesture.hint and self.tool != "select":
                self.say(self.gesture.hint)
        if self.gesture is not None:
            self.gesture.press(at)
        self.viewport().update()

    @override
    @guarded
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._panning.move(event):
            return
        at = self.pointer(event.position(), event.modifiers())
        self.pointer_at.emit(*at.plan)
        self.rulers.point_at(at.view)
        if self.gesture is not None:
            self.gesture.move(at)
        elif self.tool == "select":
            over_handle = self.handle_at(at) is not None
            self.viewport().setCursor(
                Qt.CursorShape.SizeAllCursor if over_handle else Qt.CursorShape.ArrowCursor
            )
        elif self.tool == "walk":
            over = self.walk.bed_at(at.view) is not None
            self.viewport().setCursor(Qt.CursorShape.OpenHandCursor if over else Qt.CursorShape.ArrowCursor)

    @override
    @guarded
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._panning.release(event):
            self._show_cursor()
            return
        gesture = self.gesture
        if event.button() == Qt.MouseButton.LeftButton and gesture is not None:
            over = gesture.finish(self.pointer(event.position(), event.modifiers()))
            if over and self.gesture is gesture:
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
            at = self.pointer(QPointF(event.pos()), Qt.KeyboardModifier.NoModifier)
            key = self.thing_at(at)
            if key is not None and key not in self.document.selection:
                self.document.select((key,))
        self.menu_wanted.emit(event.globalPos())

    @override
    def viewportEvent(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip and self.gesture is None:
            QToolTip.showText(event.globalPos(), self.words_at(QPointF(event.pos())), self.viewport())
            return True
        return super().viewportEvent(event)

    def words_at(self, position: QPointF) -> str:
        """What is said of the planting at a point of the viewport: its days, number, and next work; else empty."""
        key = self.labels.key_at(position) or self.sheet.planting_at(self.scene_at(position))
        planting = self.document.garden.plantings_by_id.get(key or "")
        if planting is None:
            return ""
        return plain_tip(hover_words(self.document.plan, planting, self.document.day))

    # -- events: keys -----------------------------------------------------------------------

    @override
    def event(self, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent):
            # While a gesture runs, the keys it knows are its own and no menu's.
            gesture = self.gesture
            if event.type() == QEvent.Type.ShortcutOverride and gesture and gesture.takes(event):
                event.accept()
                return True
            # Tab goes through what is on the sheet, or to the next free piece while a crop is held.
            tab = event.key() in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)
            if event.type() == QEvent.Type.KeyPress and tab and self._tab(event):
                return True
        return super().event(event)

    def _tab(self, event: QKeyEvent) -> bool:
        if self.gesture is not None:
            return self.gesture.key(event)
        plan, selection = self.document.plan, self.document.selection
        now = selection[-1] if selection else None
        key = next_thing(plan, now, back=event.key() == Qt.Key.Key_Backtab)
        if key is None:
            return False  # the focus goes on to the next widget
        self.document.select((key,))
        self.show_place(transform.to_plan(self.rect_of(key).center()))
        self.say(thing_words(self.document.plan, key))
        return True

    @override
    @guarded
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._escape()
            return
        if self.gesture is not None and self.gesture.key(event):
            return
        if self.gesture is None and self._panning.key_down(event):
            self._show_cursor()
            return
        if self.gesture is None and self._begins_with_keys(event):
            self._aim()
            return
        nudge = nudge_offset(self.document, event.key(), event.modifiers())
        if nudge is not None and self.document.selection and self.gesture is None:
            if self.picked.indices:
                nudge_plants(self.document, self.picked, *nudge)
            else:
                nudge_selection(self.document, *nudge)
            return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.document.selection:
            self.details_wanted.emit()
            return
        super().keyPressEvent(event)

    def _escape(self) -> None:
        """End the gesture, else the tool, else the selection."""
        if self.cancel_gesture():
            return
        if self.picked.indices:
            self.picked.pick(())
        elif self.tool != "select":
            self.take_tool("select")
        else:
            self.document.select(())

    @override
    @guarded
    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if self._panning.key_up(event):
            self._show_cursor()
            return
        super().keyReleaseEvent(event)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if self._panning.lose_focus():
            self._show_cursor()

    # -- events: drops ----------------------------------------------------------------------

    @override
    @guarded
    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        crop_drop.drag_enter(self, event)

    @override
    @guarded
    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        crop_drop.drag_move(self, event)

    @override
    @guarded
    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        self.cancel_gesture()

    @override
    @guarded
    def dropEvent(self, event: QDropEvent) -> None:
        if crop_drop.drop(self, event):
            self.setFocus(Qt.FocusReason.MouseFocusReason)

    @override
    def paint_gesture(self, painter: QPainter) -> None:
        if self.gesture is not None:
            self.gesture.paint(painter)
