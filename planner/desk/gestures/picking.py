"""Picking: what a press takes, and what a rubber band selects."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.canvas.camera import Camera
from planner.desk.canvas.label_layer import LabelLayer
from planner.desk.canvas.plot_edge import is_on_plot_edge
from planner.desk.gestures.base import Gesture, GestureView, Pointer, dragged
from planner.desk.model.document import PLOT_EDGE

#: How near the rim of a bed a press takes the bed, not the planting on it. [pixels]
RIM = 6.0


def changes_selection(at: Pointer) -> bool:
    """Whether the keys held say that a click adds to the selection or takes from it."""
    return at.held(Qt.KeyboardModifier.ShiftModifier) or at.held(Qt.KeyboardModifier.ControlModifier)


def thing_at(camera: Camera, labels: LabelLayer, at: Pointer) -> str | None:
    """What a press takes: a planting by its plot, a bed by its rim, free ground or name.

    With Alt it is the bed beneath a planting, and what lies under a structure over a path.

    Parameters
    ----------
    camera : Camera
    labels : LabelLayer
        A press on a label takes what it names.
    at : Pointer

    Returns
    -------
    str or None
        Id of a bed, structure or planting, or the edge of the plot.
    """
    sheet = camera.sheet
    reach = RIM / camera.pixels_per_metre * transform.SCALE
    bed = sheet.bed_at(at.scene, reach)
    labelled = labels.key_at(at.view)
    beneath = at.held(Qt.KeyboardModifier.AltModifier) and labelled in camera.document.garden.plantings_by_id
    if labelled is not None and not beneath:
        return labelled
    if at.held(Qt.KeyboardModifier.AltModifier):
        return bed or sheet.structure_at(at.scene)
    if bed is None:
        built = sheet.structure_at(at.scene)
        return PLOT_EDGE if built is None and is_on_plot_edge(camera, at.plan) else built
    rim = sheet.beds[bed].shape().boundingRect().adjusted(reach, reach, -reach, -reach)
    planting = sheet.planting_at(at.scene)
    if planting is not None and (
        rim.contains(at.scene) or rim.width() < 4 * reach or rim.height() < 4 * reach
    ):
        return planting
    return bed


class RubberBand(Gesture):
    """Selects what lies in a rectangle."""

    def __init__(self, view: GestureView, first: Pointer) -> None:
        super().__init__(view)
        self.first = self.last = first

    @override
    def move(self, at: Pointer) -> None:
        self.last = at
        self.repaint()

    @override
    def finish(self, at: Pointer) -> bool:
        selected = self.document.selection if at.held(Qt.KeyboardModifier.ShiftModifier) else ()
        if not dragged(self.first, at):
            self.document.select(selected)
            return True
        rect = QRectF(self.first.scene, at.scene).normalized()
        sheet = self.view.sheet
        found = [key for key, bed in sheet.beds.items() if rect.contains(bed.shape().boundingRect())]
        found += [
            key for key, built in sheet.structures.items() if rect.contains(built.shape().boundingRect())
        ]
        self.document.select((*selected, *found))
        self.repaint()
        return True

    @override
    def paint(self, painter: QPainter) -> None:
        rect = QRectF(self.first.view, self.last.view).normalized()
        fill = QColor(self.view.look.now.accent)
        fill.setAlpha(30)
        painter.fillRect(rect, fill)
        painter.setPen(QPen(self.view.look.now.accent, 1, Qt.PenStyle.DashLine))
        painter.drawRect(rect)
