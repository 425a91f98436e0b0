"""Guides over the sheet: dimension lines of what is selected, and the edges that have caught."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import shapely
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.handles import outline_of
from planner.desk.theme.palette import Look, letters
from planner.garden import Outline
from planner.garden.units import show_length
from planner.ground import shapes

#: Of an outline with more sides none is measured.
MOST_SIDES = 16
#: Coordinates of the edges that have caught: x and y, None for none. [m]
SnapLines = tuple[float | None, float | None]

#: A dimension line is off its outline by this. [pixels]
OFF = 30.0
#: Shorter sides get no dimension line. [pixels]
LEAST_SIDE = 24.0
#: Where the words of a dimension line stand on it, the best first. [part of its length]
WORDS_AT = (0.5, 0.35, 0.65, 0.2, 0.8, 0.0, 1.0)

_Point = tuple[float, float]


def paint_dimensions(painter: QPainter, camera: Camera, labels: Sequence[QRectF] = ()) -> None:
    """Paint dimension lines of the one bed or structure that is selected; polygons have none.

    Parameters
    ----------
    painter : QPainter
    camera : Camera
    labels : sequence of QRectF
        What is written on the sheet already, and is to stay readable. [pixels of the viewport]
    """
    document = camera.document
    if len(document.selection) != 1:
        return
    (key,) = document.selection
    outline = outline_of(document.garden, key)
    if outline is None:
        return
    painter.setFont(letters(9))
    for first, last, length in _sides(outline):
        p, q = (camera.to_view((float(x), float(y))) for x, y in shapes.to_plan(outline, [first, last]))
        words = show_length(length, document.garden.site.units)
        _paint_dimension(painter, p, q, words, camera.look.now, labels)


def _sides(outline: Outline) -> list[tuple[_Point, _Point, float]]:
    """What is measured: ends in own coordinates, and the length. [m]"""
    if outline.shape == "rectangle":
        a, b = outline.length / 2, outline.width / 2
        return [((-a, -b), (a, -b), outline.length), ((a, -b), (a, b), outline.width)]
    if outline.shape == "circle":
        r = outline.radius
        return [((-r, -r), (r, -r), 2 * r)]
    corners = outline.line if outline.shape == "band" else (*outline.points, outline.points[0])
    if len(corners) > MOST_SIDES + 1:
        return []
    if outline.shape == "polygon" and not shapely.is_ccw(shapely.LinearRing(outline.points)):
        corners = corners[::-1]  # the measures of a plot lie outside of it
    return [(a, b, math.dist(a, b)) for a, b in itertools.pairwise(corners)]


def place_of_words(p: QPointF, q: QPointF, extent: QSizeF, labels: Sequence[QRectF]) -> QRectF:
    """Find where the words of a dimension line cover the least of what is written already.

    Parameters
    ----------
    p, q : QPointF
        Ends of the line. [pixels]
    extent : QSizeF
        Of the words. [pixels]
    labels : sequence of QRectF
        What is written already. [pixels]

    Returns
    -------
    QRectF
        Centred on the line, as near to its middle as may be.
    """

    def covered(place: QRectF) -> float:
        common = (place.intersected(label) for label in labels)
        return sum(rect.width() * rect.height() for rect in common)

    places = []
    for part in WORDS_AT:
        place = QRectF(QPointF(), extent)
        place.moveCenter(p + (q - p) * part)
        places.append(place)
    return min(places, key=covered)


def _paint_dimension(
    painter: QPainter, p: QPointF, q: QPointF, text: str, look: Look, labels: Sequence[QRectF]
) -> None:
    along = q - p
    pixels = math.hypot(along.x(), along.y())
    if pixels < LEAST_SIDE:
        return
    # Off the outline by a fixed distance on the screen, to its right as one walks along it.
    across = QPointF(-along.y(), along.x()) / pixels
    off = QPointF(-along.y(), along.x()) * (OFF / pixels)
    p, q = p + off, q + off
    painter.setPen(QPen(look.pencil, 1))
    painter.drawLine(p, q)
    tick = (along / pixels + across) * 4.5
    for end in (p, q):
        painter.drawLine(end - tick, end + tick)
    metrics = QFontMetricsF(painter.font())
    extent = QSizeF(metrics.horizontalAdvance(text) + 8, metrics.height())
    place = place_of_words(p, q, extent, labels)
    painter.fillRect(place, look.sheet)
    painter.setPen(look.ink)
    painter.drawText(place, Qt.AlignmentFlag.AlignCenter, text)


def paint_snap_lines(painter: QPainter, camera: Camera, lines: SnapLines) -> None:
    """Paint edges that have caught, across the whole viewport."""
    painter.setPen(QPen(camera.look.now.accent, 1, Qt.PenStyle.DotLine))
    x, y = lines
    if x is not None:
        at = camera.to_view((x, 0)).x()
        painter.drawLine(QPointF(at, 0), QPointF(at, camera.area.height()))
    if y is not None:
        at = camera.to_view((0, y)).y()
        painter.drawLine(QPointF(0, at), QPointF(camera.area.width(), at))
