"""How small maps are painted: beds, and the plots in them in the inks of their families."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

import shapely
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from planner.desk.theme.palette import Look
from planner.sheets.family_inks import Rgb, family_ink


class MappedPlot(NamedTuple):
    """A plot on a map: its ground on the plan [m], the family that sets its ink, and its words."""

    ground: shapely.Geometry
    family: str
    words: str


def paint_map(
    painter: QPainter,
    look: Look,
    beds: Iterable[shapely.Geometry],
    plots: Iterable[MappedPlot],
    place: Callable[[float, float], QPointF],
) -> None:
    """Paint beds, and plots over them, the later above.

    Parameters
    ----------
    painter : QPainter
    look : Look
    beds : iterable of shapely.Geometry
        On the plan. [m]
    plots : iterable of MappedPlot
    place : callable
        From a place on the plan [m] to one of the painter. [pixels]
    """
    painter.setPen(QPen(look.pencil, 1))
    painter.setBrush(look.soil)
    for ground in beds:
        draw_ground(painter, ground, place)
    for plot in plots:
        ink = family_ink(plot.family, dark=look.dark)
        painter.setPen(QPen(_colour(ink.line_rgb), 1))
        painter.setBrush(_colour(ink.tint_rgb))
        draw_ground(painter, plot.ground, place)


def draw_ground(
    painter: QPainter, ground: shapely.Geometry, place: Callable[[float, float], QPointF]
) -> None:
    """Draw the polygons of some ground with the painter's pen and brush.

    Parameters
    ----------
    painter : QPainter
    ground : shapely.Geometry
        On the plan. [m]
    place : callable
        From a place on the plan [m] to one of the painter. [pixels]
    """
    for part in shapely.get_parts(ground):
        if isinstance(part, shapely.Polygon):
            painter.drawPolygon(QPolygonF([place(x, y) for x, y in part.exterior.coords]))


def _colour(rgb: Rgb) -> QColor:
    return QColor.fromRgbF(*rgb)
