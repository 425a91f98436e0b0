"""Which gesture a press begins: by the tool in hand, and by what lies there."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol, get_args

from PySide6.QtCore import Qt

from planner.desk.canvas.handles import Handle
from planner.desk.canvas.walk_layer import WalkLayer
from planner.desk.gestures.base import Gesture, GestureView, Pointer, Tool
from planner.desk.gestures.drawing import DrawCircle, DrawPolygon, DrawRectangle, Make
from planner.desk.gestures.drawing_ground import DrawArea, DrawBand
from planner.desk.gestures.drawing_support import DrawSupport
from planner.desk.gestures.measuring import Measure
from planner.desk.gestures.moving import MovePlanting, MovePlantings, MoveThings
from planner.desk.gestures.picking import RubberBand, changes_selection
from planner.desk.gestures.plot_edge import MovePlotEdge, draw_plot_edge
from planner.desk.gestures.rows import DragRows, MovePlant
from planner.desk.gestures.sizing import ResizeOutline, ResizePlot
from planner.desk.gestures.underlay import MoveUnderlay, ScaleUnderlay
from planner.desk.gestures.walking import MoveInWalk
from planner.desk.model.document import PLOT_EDGE, Document
from planner.desk.model.picked_plants import PickedPlants
from planner.desk.model.thing_words import locked_words
from planner.garden import Circle, Garden, Outline, Rectangle, edits
from planner.garden.beds import USUAL_HEIGHTS, StructureKind
from planner.ground.arches import arch_between_beds
from planner.words import key_words, say

_BEDS: dict[Tool, Callable[[GestureView, Make, Pointer], Gesture]] = {
    "rectangle": DrawRectangle,
    "circle": DrawCircle,
    "polygon": DrawPolygon,
}

#: How structures are drawn that are no rectangles.
_OTHERWISE: dict[StructureKind, Callable[[GestureView, Make, Pointer], Gesture]] = {
    "tree": DrawCircle,
    "path": DrawBand,
    "lawn": DrawArea,
}
#: What a click puts down, which is only resized afterwards (``practice``).
_POINTS: dict[StructureKind, Outline] = {
    "gate": Rectangle(length=1.0, width=0.1),
    "tap": Circle(radius=0.1),
}


class PickingView(GestureView, Protocol):
    """A view of which things, handles and numbers of the walk can be picked."""

    walk: WalkLayer
    picked: PickedPlants

    def handle_at(self, at: Pointer) -> Handle | None:
        """The handle under the pointer."""
        ...

    def thing_at(self, at: Pointer) -> str | None:
        """Id of what a press takes."""
        ...


def begin(view: PickingView, tool: Tool, at: Pointer) -> Gesture | None:
    """The gesture that a press begins; None where there is none to begin.

    Parameters
    ----------
    view : PickingView
    tool : str
        ``select``, ``rectangle``, ``polygon``, ``circle``, ``measure``, ``walk``, ``support``, ``plot edge``,
        or ``structure:`` and its kind.
    at : Pointer
    """
    document = view.document
    if tool in _BEDS:
        return _BEDS[tool](view, lambda outline: _add_bed(document, outline), at)
    if tool == "measure":
        return Measure(view, at)
    if tool == "walk":
        bed = view.walk.bed_at(at.view) or view.sheet.bed_at(at.scene, 0.0)
        return MoveInWalk(view, view.walk, bed) if bed in view.walk.order else None
    if tool in ("underlay-move", "underlay-scale"):
        underlay = document.garden.underlay
        if not underlay.is_there or underlay.locked:
            view.say(
                say("The underlay is locked; its details unlock it")
                if underlay.locked
                else say("There is no underlay yet")
            )
            return None
        return MoveUnderlay(view) if tool == "underlay-move" else ScaleUnderlay(view)
    if tool == "support":
        if document.selected_plantings:
            return DrawSupport(view, document.selected_plantings[0], at)
        view.say(say("Select the planting first whose support you want to draw"))
        return None
    if tool == "plot edge":
        return draw_plot_edge(view, at)
    for kind in get_args(StructureKind):
        if tool == f"structure:{kind}":
            return _draw_structure(view, kind, at)
    return _pick(view, at)


def _add_bed(document: Document, outline: Outline) -> None:
    made: list[str] = []

    def change(garden: Garden) -> Garden:
        garden, key = edits.add_bed(garden, outline, first_year=None)
        made.append(key)
        return garden

    if document.edit(say("Draw a bed"), change):
        document.select(made)


def _draw_structure(view: GestureView, kind: StructureKind, at: Pointer) -> Gesture:
    document = view.document

    def make(outline: Outline) -> None:
        made: list[str] = []
        if kind == "arch" and outline.shape == "rectangle":
            outline = arch_between_beds(outline, document.plan.beds)

        def change(garden: Garden) -> Garden:
            garden, key = edits.add_structure(garden, kind, outline, USUAL_HEIGHTS[kind])
            made.append(key)
            return garden

        if document.edit(say("Draw: {structure}", structure=key_words(kind)), change):
            document.select(made)
        view.take_tool("select")

    if kind in _POINTS:
        return DrawRectangle(view, make, at, _POINTS[kind])
    return _OTHERWISE.get(kind, DrawRectangle)(view, make, at)


def _pick(view: PickingView, at: Pointer) -> Gesture | None:
    """Drag a handle or what lies there, which is selected first; else draw a rubber band."""
    document = view.document
    handle = view.handle_at(at)
    if handle is not None and handle.kind == "place":
        return MovePlant(view, handle, view.picked)
    of_rows = handle is not None and handle.kind in ("rows", "in_row", "between", "row_turn")
    if handle is not None and of_rows and not changes_selection(at):
        return DragRows(view, handle)
    if handle is not None and not of_rows:
        return (ResizePlot if handle.kind == "plot" else ResizeOutline)(view, handle)
    key = view.thing_at(at)
    if key is None:
        return RubberBand(view, at)
    _select(document, key, at)
    if key in document.garden.plantings_by_id:
        together = document.selected_plantings
        if key in together and len(together) > 1:
            return MovePlantings(view, together, key)
        return MovePlanting(view, key)
    if key == PLOT_EDGE:
        return MovePlotEdge(view)
    if document.is_locked(key):
        view.say(locked_words(document.plan, (key,)))
        return None
    ids = document.movable_things
    return MoveThings(view, ids if key in ids else (key,), key)


def _select(document: Document, key: str, at: Pointer) -> None:
    """Select what was pressed; Shift adds it to the selection, Ctrl adds it or takes it out."""
    if at.held(Qt.KeyboardModifier.ShiftModifier) and key not in document.selection:
        document.select((*document.selection, key))
    elif at.held(Qt.KeyboardModifier.ControlModifier):
        others = tuple(k for k in document.selection if k != key)
        document.select(others if key in document.selection else (*others, key))
    elif key not in document.selection:
        document.select((key,))
