"""A crop dragged from the list over the sheet, and dropped."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent

from planner.crops import Crop
from planner.desk.gestures.base import Gesture, GestureView, Pointer
from planner.desk.gestures.placing import PlaceCrop
from planner.desk.gestures.spreading import SpreadCrops
from planner.desk.model.crop_drag import dragged_crops


class DropView(GestureView, Protocol):
    """A view that a crop can be dragged over."""

    gesture: Gesture | None

    def cancel_gesture(self) -> bool:
        """Put back what a gesture has moved."""
        ...

    def pointer(self, position: QPointF, modifiers: Qt.KeyboardModifier) -> Pointer:
        """The pointer at a point of the viewport."""
        ...


def held(view: GestureView, crops: Sequence[tuple[Crop, str]]) -> PlaceCrop:
    """The gesture that holds a crop, or several, over the sheet."""
    return PlaceCrop(view, *crops[0]) if len(crops) == 1 else SpreadCrops(view, crops)


def drag_enter(view: DropView, event: QDragEnterEvent) -> None:
    """Hold the dragged crop over the sheet; anything else is refused."""
    dragged = dragged_crops(event.mimeData(), view.document.catalogue)
    if not dragged:
        event.ignore()
        return
    view.cancel_gesture()
    view.gesture = held(view, dragged)
    view.say(view.gesture.hint)
    event.acceptProposedAction()


def drag_move(view: DropView, event: QDragMoveEvent) -> None:
    """Preview the drop, and tell the drag whether it may land."""
    gesture = view.gesture
    if not isinstance(gesture, PlaceCrop):
        event.ignore()
        return
    may_land = gesture.over(view.pointer(event.position(), event.modifiers()))
    event.setDropAction(Qt.DropAction.CopyAction)
    if may_land:
        event.accept()
    else:
        event.ignore()


def drop(view: DropView, event: QDropEvent) -> bool:
    """Plant the crop; returns whether there was one."""
    gesture = view.gesture
    if not isinstance(gesture, PlaceCrop):
        return False
    gesture.over(view.pointer(event.position(), event.modifiers()))
    gesture.plant()
    view.end_gesture()
    event.setDropAction(Qt.DropAction.CopyAction)
    event.accept()
    return True
