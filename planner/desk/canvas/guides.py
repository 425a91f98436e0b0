"""Guides over the sheet: dimension lines of what is selected, and the edges that have caught."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen, QPolygonF

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.handles import outline_of
from planner.desk.canvas.snap import Catch, SnapKind
from planner.desk.theme.palette import Look, letters
from planner.garden import Outline
from planner.garden.units import show_length
from planner.ground import shapes
from planner.words import later, say

#: Of an outline with more sides none is measured.
MOST_SIDES = 16

#: A dimension line is off its outline by this. [pixels]
OFF = 30.0
#: Shorter sides get no dimension line. [pixels]
LEAST_SIDE = 24.0
#: Where the words of a dimension line stand on it, the best first. [part of its length]
WORDS_AT = (0.5, 0.35, 0.65, 0.2, 0.8, 0.0, 1.0)

_Point = tuple[float, float]


def paint_dimensions(painter: QPainter, camera: Camera, labels: Sequence[QRectF] = ()) -> None:
    """Paint dimension lines of the one bed or structure that is selected; sides of polygons with their numbers.

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
    sides = _sides(outline)
    for index, (first, last, length) in enumerate(sides):
        p, q = (camera.to_view((float(x), float(y))) for x, y in shapes.to_plan(outline, [first, last]))
        words = show_length(length, document.garden.site.units)
        if outline.shape == "polygon":  # by which its form knows the side
            number = index + 1 if shapes.goes_left(outline.points) else len(sides) - index
            words = say("{number}: {length}", number=number, length=words)
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
    if outline.shape == "polygon" and not shapes.goes_left(outline.points):
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


#: The word of what caught is off the place by this; half a side of its mark. [pixels]
WORD_OFF, MARK = QPointF(12, -12), 5.0
_WORDS: dict[SnapKind, str] = {
    "corner": later("corner"),
    "edge": later("edge"),
    "extension": later("in line with an edge"),
    "centre": later("centre"),
    "square": later("right angle"),
    "grid": later("grid"),
}


def paint_catch(painter: QPainter, camera: Camera, catch: Catch | None) -> None:
    """Paint what has caught: its lines across the whole viewport, a mark at the place, and a word beside it."""
    if catch is None or not catch.kind:
        return
    look = camera.look.now
    painter.setPen(QPen(look.accent, 1, Qt.PenStyle.DotLine))
    if catch.x is not None:
        at = camera.to_view((catch.x, 0)).x()
        painter.drawLine(QPointF(at, 0), QPointF(at, camera.area.height()))
    if catch.y is not None:
        at = camera.to_view((0, catch.y)).y()
        painter.drawLine(QPointF(0, at), QPointF(camera.area.width(), at))
    place = camera.to_view(catch.place)
    strong = catch.kind != "grid"
    painter.setPen(QPen(look.accent if strong else look.pencil, 1.6 if strong else 1.0))
    _paint_mark(painter, place, catch.kind)
    text = say(_WORDS[catch.kind])
    painter.setFont(letters(9))
    metrics = QFontMetricsF(painter.font())
    box = QRectF(0, 0, metrics.horizontalAdvance(text) + 8, metrics.height())
    box.moveBottomLeft(place + WORD_OFF)
    box.moveRight(min(box.right(), camera.area.right() - 4))
    box.moveTop(max(box.top(), camera.area.top() + 4))
    painter.fillRect(box, look.chip)
    painter.setPen(look.accent if strong else look.pencil)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


def _paint_mark(painter: QPainter, at: QPointF, kind: SnapKind) -> None:
    """Each kind has a mark of its own shape."""
    m = MARK
    if kind == "corner":
        painter.drawRect(QRectF(at.x() - m, at.y() - m, 2 * m, 2 * m))
    elif kind == "centre":
        painter.drawEllipse(at, m, m)
        painter.drawPoint(at)
    elif kind == "square":
        painter.drawPolyline(QPolygonF([at + QPointF(-m, -m), at + QPointF(-m, m), at + QPointF(m, m)]))
    elif kind in ("edge", "extension"):
        slant = QPointF(m, -m)
        painter.drawLine(at - slant, at + slant)
        if kind == "edge":
            painter.drawLine(at + QPointF(-m, -m), at + QPointF(m, m))
    else:
        painter.drawLine(at - QPointF(m, 0), at + QPointF(m, 0))
        painter.drawLine(at - QPointF(0, m), at + QPointF(0, m))


def paint_gap(painter: QPainter, look: Look, p: QPointF, q: QPointF, text: str) -> None:
    """Paint the distance between two things as a dimension line; words that do not fit on it stand beside it.

    Parameters
    ----------
    painter : QPainter
    look : Look
    p, q : QPointF
        Its ends. [pixels]
    text : str
    """
    along = q - p
    pixels = math.hypot(along.x(), along.y())
    if pixels < 2:
        return
    painter.setPen(QPen(look.accent, 1.2))
    painter.drawLine(p, q)
    across = QPointF(-along.y(), along.x()) / pixels
    for point in (p, q):
        painter.drawLine(point - across * 4.5, point + across * 4.5)
    painter.setFont(letters(9))
    metrics = QFontMetricsF(painter.font())
    box = QRectF(0, 0, metrics.horizontalAdvance(text) + 8, metrics.height())
    middle = (p + q) / 2
    needed = abs(along.x()) / pixels * box.width() + abs(along.y()) / pixels * box.height()
    if pixels < needed + 8:
        aside = abs(across.x()) * box.width() / 2 + abs(across.y()) * box.height() / 2 + 6
        middle += (across if across.x() + across.y() > 0 else -across) * aside
    box.moveCenter(middle)
    painter.fillRect(box, look.chip)
    painter.setPen(look.ink)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
