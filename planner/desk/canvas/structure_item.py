"""A structure on the sheet."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPainterPathStroker, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.canvas.guarded import guarded_painting
from planner.desk.theme.palette import Look
from planner.garden import Structure
from planner.ground import shapes
from planner.ground.obstacles import footprint
from planner.ground.ribs import Line, marks, ribs

#: Order of painting above the beds (0). Tunnels and glasshouses lie under the beds inside them, arches over
#: the paths they cross.
_LAYERS = {"lawn": -8, "tunnel": -5, "glasshouse": -5, "arch": 30, "tree": 25, "gate": 6}
_USUAL_LAYER = 5
#: Width of the rim by which a lawn is picked. [m]
RIM = 0.3


class StructureItem(QGraphicsItem):
    """Paints one structure: solid ones filled, glazed and spanning ones in outline, boards and paths pale, lawns as tufts."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.look = look
        self.structure: Structure | None = None
        self._outline = QPainterPath()
        self._feet = QPainterPath()
        self._ribs: tuple[QLineF, ...] = ()
        self._marks: tuple[QLineF, ...] = ()

    def show_structure(self, structure: Structure, look: Look) -> None:
        """Show a structure; does nothing where nothing changed.

        Parameters
        ----------
        structure : Structure
        look : Look
        """
        if structure is self.structure and look is self.look:
            return
        self.prepareGeometryChange()
        self.structure, self.look = structure, look
        self._outline = transform.path(shapes.plan_polygon(structure.outline))
        self._feet = transform.path(footprint(structure)) if structure.kind == "arch" else QPainterPath()
        self._ribs, self._marks = _lines(ribs(structure)), _lines(marks(structure))
        self.setZValue(_LAYERS.get(structure.kind, _USUAL_LAYER))
        self.update()

    @override
    def boundingRect(self) -> QRectF:
        around = self._outline.boundingRect()
        for line in self._marks:
            around = around.united(QRectF(line.p1(), line.p2()).normalized())
        return around.adjusted(-8, -8, 8, 8)

    @override
    def shape(self) -> QPainterPath:
        if self.structure is None or self.structure.kind != "lawn":
            return self._outline
        stroker = QPainterPathStroker()  # by its rim: what lies on the lawn is picked within
        stroker.setWidth(RIM * transform.SCALE)
        return stroker.createStroke(self._outline)

    @override
    @guarded_painting
    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        structure = self.structure
        if structure is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        quiet = structure.kind in ("lawn", "path")
        glazed = structure.kind in ("tunnel", "glasshouse")
        line = QColor(self.look.glass if glazed else self.look.pencil if quiet else self.look.ink)
        painter.fillPath(self._outline, _fill_colour(structure, self.look))
        pen = QPen(line, 1.2)
        pen.setCosmetic(True)
        if structure.kind in ("arch", "tree"):
            pen.setStyle(Qt.PenStyle.DashLine)
        painter.strokePath(self._outline, pen)
        thin = QPen(line, 0.8)
        thin.setCosmetic(True)
        painter.setPen(thin)
        for rib in self._ribs:
            painter.drawLine(rib)
        if not self._feet.isEmpty():
            painter.fillPath(self._feet, self.look.ink)
        if self._marks:
            mark = QPen(line, 1.6)
            mark.setCosmetic(True)
            painter.setPen(mark)
            painter.drawLines(self._marks)


def _lines(found: Sequence[Line]) -> tuple[QLineF, ...]:
    """Lines on the plan as lines of the scene."""
    return tuple(QLineF(transform.to_scene(*a), transform.to_scene(*b)) for a, b in found)


def _fill_colour(structure: Structure, look: Look) -> QColor:
    if structure.kind == "gate":
        return look.sheet  # the opening in its fence
    if structure.kind == "lawn":
        return QColor(0, 0, 0, 0)  # the paper, with tufts
    fill = QColor(look.glass if structure.kind in ("tunnel", "glasshouse") else look.built)
    if structure.kind in ("tunnel", "glasshouse", "arch"):
        fill.setAlphaF(0.16)
    elif structure.kind in ("tree", "hedge"):
        fill.setAlphaF(0.45)
    elif structure.stood_on:
        fill.setAlphaF(0.3)
    return fill
