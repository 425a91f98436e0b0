"""Dragging the number of a bed to another place in the walking order."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter
from typing_extensions import override

from planner.desk.canvas.walk_layer import WalkLayer
from planner.desk.gestures.base import Gesture, GestureView, Pointer
from planner.desk.model.document import Document
from planner.garden import edits
from planner.words import later, say

_HINT = later("Drag the number of a bed onto the bed whose number it is to get")


def walk_to(document: Document, order: tuple[str, ...], key: str, place: int) -> bool:
    """Let one walk to a bed at another place in the order, as one step; False where it is there already.

    Parameters
    ----------
    document : Document
    order : tuple of str
        Ids of the beds as they are walked to now.
    key : str
        The bed.
    place : int
        Its number afterwards, from 0.
    """
    new = edits.moved_in_order(order, key, place)
    if new == order:
        return False
    words = say(
        "Walk to {bed} as number {number}",
        bed=document.garden.beds_by_id[key].name,
        number=new.index(key) + 1,
    )
    return document.edit(words, lambda garden: edits.walk_in_order(garden, new))


def walk_by_itself(document: Document) -> bool:
    """Let the program find the walk again, as one step; False where it does already."""
    return document.edit(
        say("Let the walk be found by itself"), lambda garden: edits.walk_in_order(garden, ())
    )


class MoveInWalk(Gesture):
    """Drags the number of a bed; where it is let go over another bed, that bed's number is its own, and the others move up."""

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, view: GestureView, layer: WalkLayer, key: str) -> None:
        super().__init__(view)
        self.hint = say(_HINT)
        self._layer, self._key = layer, key
        self._place: int | None = None
        self._at: Pointer | None = None
        layer.try_order(layer.order, key)

    @override
    def move(self, at: Pointer) -> None:
        order = self._layer.order
        bed = self._layer.bed_at(at.view) or self.view.sheet.bed_at(at.scene, 0.0)
        self._place = order.index(bed) if bed in order else None
        tried = order if self._place is None else edits.moved_in_order(order, self._key, self._place)
        self._at = at
        self._layer.try_order(tried, self._key)

    @override
    def finish(self, at: Pointer) -> bool:
        self._layer.try_order(None)
        if self._place is None or not walk_to(self.document, self._layer.order, self._key, self._place):
            self.document.select((self._key,))
        return True

    @override
    def cancel(self) -> None:
        self._layer.try_order(None)

    @override
    def paint(self, painter: QPainter) -> None:
        if self._at is None:
            return
        name = self.document.garden.beds_by_id[self._key].name
        second = "" if self._place is None else say("number {number}", number=self._place + 1)
        self.paint_chip(painter, self._at.view + QPointF(16, 12), [name, second])
