"""What is drawn over a picture of weeks: lines across them, and runs of weeks that are marked and named."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QFontMetricsF, QPainter, QPen, QPolygonF

from planner.desk.theme.palette import Look, letters

#: Height of the strip in which marked weeks lie. [pixels]
STRIP = 18


@dataclass(frozen=True)
class Mark:
    """Weeks that are marked.

    Attributes
    ----------
    first, last : int
        Numbers of the weeks.
    name : str
        Written into the mark where there is room.
    lacks : bool
        Whether something is missing in them, else there is too much.
    """

    first: int
    last: int
    name: str
    lacks: bool


def runs(values: Sequence[float | None]) -> list[tuple[int, int]]:
    """First and last number of each run of values above 0."""
    return _runs_of([value is not None and value > 0 for value in values])


def _runs_of(holds: Sequence[bool]) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    for number, one in enumerate(holds):
        if not one:
            continue
        if found and found[-1][1] == number - 1:
            found[-1] = (found[-1][0], number)
        else:
            found.append((number, number))
    return found


def line_pieces(
    values: Sequence[float | None], edges: Sequence[tuple[float, float]], heights: Sequence[float]
) -> list[QPolygonF]:
    """A line across weeks, in pieces where some weeks have none.

    Parameters
    ----------
    values : sequence of float or None
        One a week; None for no line.
    edges : sequence of (float, float)
        Left and right end of each week. [pixels]
    heights : sequence of float
        Of each week; of weeks without a value it does not count. [pixels]
    """
    found = []
    for first, last in _runs_of([value is not None for value in values]):
        points = [QPointF(x, heights[week]) for week in range(first, last + 1) for x in edges[week]]
        found.append(QPolygonF(points))
    return found


def paint_lines(painter: QPainter, pieces: Iterable[QPolygonF], look: Look, *, dashed: bool = False) -> None:
    """Draw a line, with a rim of the paper's colour so that it is seen on every ink."""
    pieces = list(pieces)
    style = Qt.PenStyle.DashLine if dashed else Qt.PenStyle.SolidLine
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for pen in (QPen(look.sheet, 4), QPen(look.ink, 2, style)):
        painter.setPen(pen)
        for piece in pieces:
            painter.drawPolyline(piece)


def paint_strokes(
    painter: QPainter, look: Look, strokes: Sequence[tuple[float, float, float, float]]
) -> None:
    """Draw upright strokes with a bar at each end, with a rim of the paper's colour so that they are seen on every ink.

    Parameters
    ----------
    painter : QPainter
    look : Look
    strokes : sequence of (float, float, float, float)
        Middle, lower end, upper end, and half the width of the bars. [pixels]
    """
    for pen in (QPen(look.sheet, 3.4), QPen(look.ink, 1.4)):
        painter.setPen(pen)
        for x, low, high, half in strokes:
            painter.drawLine(QPointF(x, low), QPointF(x, high))
            for y in (low, high):
                painter.drawLine(QPointF(x - half, y), QPointF(x + half, y))


def paint_name(painter: QPainter, look: Look, name: str, end: QPointF, top: float) -> None:
    """Write what a line is above its right end, or below it where there is no room."""
    painter.setFont(letters(9, bold=True))
    metrics = QFontMetricsF(painter.font())
    wide, high = metrics.horizontalAdvance(name) + 8, metrics.height()
    above = end.y() - high - 2
    place = QRectF(end.x() - wide, above if above > top else end.y() + 3, wide, high)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.chip)
    painter.drawRoundedRect(place, 2, 2)
    painter.setPen(look.ink)
    painter.drawText(place, Qt.AlignmentFlag.AlignCenter, name)


def paint_marks(painter: QPainter, look: Look, marks: Iterable[tuple[Mark, QRectF]]) -> None:
    """Draw marks with their names: what is missing hatched and framed, what is too much filled.

    Parameters
    ----------
    painter : QPainter
    look : Look
    marks : iterable of (Mark, QRectF)
        With the place of each in the strip.
    """
    painter.setFont(letters(9))
    metrics = QFontMetricsF(painter.font())
    for mark, place in marks:
        painter.setPen(QPen(look.warn if mark.lacks else look.pencil, 1.4))
        painter.setBrush(QBrush(look.warn, Qt.BrushStyle.BDiagPattern) if mark.lacks else QBrush(look.soil))
        painter.drawRect(place)
        wide = metrics.horizontalAdvance(mark.name) + 6
        if wide > place.width():
            continue
        label = QRectF(place.center().x() - wide / 2, place.top() + 1, wide, place.height() - 2)
        painter.fillRect(label, look.sheet if mark.lacks else look.soil)
        painter.setPen(look.ink)
        painter.drawText(label, Qt.AlignmentFlag.AlignCenter, mark.name)
