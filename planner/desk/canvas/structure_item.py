"""A structure on the sheet."""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.canvas.guarded import guarded_painting
from planner.desk.theme.palette import Look
from planner.garden import Circle, Structure
from planner.ground import shapes
from planner.ground.obstacles import footprint

#: Order of painting above the beds (0). Tunnels and glasshouses lie under the beds inside them, arches over
#: the paths they cross.
_LAYERS = {"tunnel": -5, "glasshouse": -5, "arch": 30, "tree": 25}
_USUAL_LAYER = 5
#: Distance of two lines across a structure, by its kind. [m]
_LINES_APART = {"tunnel": 1.0, "glasshouse": 0.75, "fence": 1.8, "board": 0.3}
#: Distance of two rungs of an arch. [m]
_RUNGS_APART = 0.2


class StructureItem(QGraphicsItem):
    """Paints one structure: solid ones filled, glazed and spanning ones in outline, boards and paths pale."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.look = look
        self.structure: Structure | None = None
        self._outline = QPainterPath()
        self._feet = QPainterPath()
        self._ribs: tuple[QLineF, ...] = ()

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
        self._ribs = _ribs(structure)
        self.setZValue(_LAYERS.get(structure.kind, _USUAL_LAYER))
        self.update()

    @override
    def boundingRect(self) -> QRectF:
        return self._outline.boundingRect().adjusted(-8, -8, 8, 8)

    @override
    def shape(self) -> QPainterPath:
        return self._outline

    @override
    @guarded_painting
    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        structure = self.structure
        if structure is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        line = QColor(self.look.glass if structure.kind in ("tunnel", "glasshouse") else self.look.ink)
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


def _fill_colour(structure: Structure, look: Look) -> QColor:
    fill = QColor(look.glass if structure.kind in ("tunnel", "glasshouse") else look.built)
    if structure.kind in ("tunnel", "glasshouse", "arch"):
        fill.setAlphaF(0.16)
    elif structure.kind in ("tree", "hedge"):
        fill.setAlphaF(0.45)
    elif structure.stood_on:
        fill.setAlphaF(0.3)
    return fill


def _ribs(structure: Structure) -> tuple[QLineF, ...]:
    """Lines that tell a kind apart: hoops of a tunnel, rungs of an arch, posts of a fence, slats of a board."""
    outline = structure.outline
    if outline.shape == "circle" and structure.kind == "tree":
        return _cross(outline)
    if outline.shape != "rectangle":
        return ()
    half_length, half_width = outline.length / 2, outline.width / 2
    if structure.kind == "arch":  # rungs run along the span
        count = max(1, math.floor(outline.width / _RUNGS_APART))
        levels = [(-half_width + outline.width * (i + 0.5) / count) for i in range(count)]
        own = [((-half_length, y), (half_length, y)) for y in levels]
    elif structure.kind in _LINES_APART:
        count = max(1, round(outline.length / _LINES_APART[structure.kind]))
        places = [-half_length + outline.length * i / count for i in range(1, count)]
        own = [((x, -half_width), (x, half_width)) for x in places]
    else:
        return ()
    lines = []
    for a, b in own:
        (ax, ay), (bx, by) = shapes.to_plan(outline, [a, b])
        lines.append(QLineF(transform.to_scene(ax, ay), transform.to_scene(bx, by)))
    return tuple(lines)


def _cross(crown: Circle) -> tuple[QLineF, ...]:
    """The stem of a tree, as a small cross."""
    x, y = crown.center
    arm = min(0.15, crown.radius / 3)
    ends = (((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm)))
    return tuple(QLineF(transform.to_scene(*a), transform.to_scene(*b)) for a, b in ends)
