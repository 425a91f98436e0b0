"""Drawing the edge of the plot, and moving it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from typing_extensions import override

from planner.desk.gestures.base import Drag, GestureView, Pointer
from planner.desk.gestures.drawing_ground import DrawArea
from planner.desk.model.document import PLOT_EDGE, Document
from planner.garden import Garden, Outline, edits
from planner.words import say


def draw_plot_edge(view: GestureView, at: Pointer) -> DrawArea:
    """Begin to draw the edge of the plot; it takes the place of the one that is there."""

    def make(outline: Outline) -> None:
        document = view.document
        if document.edit(
            say("Draw the edge of the plot"), lambda garden: edits.change_site(garden, outline=outline)
        ):
            document.select((PLOT_EDGE,))
        view.take_tool("select")

    return DrawArea(view, make, at)


def with_plot_edge_moved(garden: Garden, dx: float, dy: float) -> Garden:
    """Move the edge of the plot alone; the garden stays where it is. [m]"""
    outline = garden.site.outline
    if outline is None:
        return garden
    x, y = outline.center
    return edits.change_site(garden, outline=outline.with_(center=(round(x + dx, 6), round(y + dy, 6))))


def nudge_plot_edge(document: Document, dx: float, dy: float) -> None:
    """Move the edge of the plot by an offset; nudges that follow each other are one step."""
    document.edit(
        say("Move the edge of the plot"),
        lambda garden: with_plot_edge_moved(garden, dx, dy),
        merge="nudge edge",
    )


class MovePlotEdge(Drag):
    """Drags the edge of the plot over the plan."""

    cursor = Qt.CursorShape.SizeAllCursor

    def __init__(self, view: GestureView) -> None:
        super().__init__(view)
        self.hint = say("Moves the edge of the plot, not what lies in it; Escape puts back")

    @override
    def step(self) -> str:
        return say("Move the edge of the plot")

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        step = 0.0 if at.held(Qt.KeyboardModifier.AltModifier) else self.view.fine_step
        dx, dy = (b - a for a, b in zip(first.plan, at.plan, strict=True))
        if step > 0:
            dx, dy = round(dx / step) * step, round(dy / step) * step
        return with_plot_edge_moved(garden, dx, dy)
