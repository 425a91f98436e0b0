"""A small box beside the pointer with the measures of what is drawn; the one that is typed into is marked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from planner.desk.canvas.chip import chip_place
from planner.desk.theme.palette import Look, letters

#: Around the rows, between a name and its value, and above and below the words of a row. [pixels]
ROOM, BETWEEN, ROW_ROOM = 6.0, 14.0, 2.0


@dataclass(frozen=True)
class MeasureRow:
    """One measure in the box.

    Attributes
    ----------
    name, text : str
    is_active : bool
        Whether digits go here.
    is_typed : bool
        Whether it was typed, and no longer follows the pointer.
    is_wrong : bool
        Whether its text cannot be read.
    """

    name: str
    text: str
    is_active: bool = False
    is_typed: bool = False
    is_wrong: bool = False


def paint_measures(
    painter: QPainter, area: QRectF, look: Look, at: QPointF, rows: Sequence[MeasureRow], note: str = ""
) -> None:
    """Paint the box with a point as its upper left corner, inside the viewport.

    Parameters
    ----------
    painter : QPainter
    area : QRectF
        The viewport. [pixels]
    look : Look
    at : QPointF
        [pixels]
    rows : sequence of MeasureRow
    note : str
        A further line below.
    """
    plain, bold = letters(9), letters(9, bold=True)
    names, values = QFontMetricsF(plain), QFontMetricsF(bold)
    # A mark like that of a text cursor, so that the active row is not told by its colour alone.
    texts = [f"{row.text}▏" if row.is_active else row.text for row in rows]
    left = max(names.horizontalAdvance(row.name) for row in rows) + BETWEEN
    width = left + max(max(values.horizontalAdvance(text) for text in texts), 56.0)
    width = max(width, names.horizontalAdvance(note)) + 4 * ROOM
    high = values.height() + 2 * ROW_ROOM
    height = high * len(rows) + (names.height() if note else 0.0) + 2 * ROOM
    place = chip_place(area, QSizeF(width, height), at)
    painter.setPen(QPen(look.accent, 1.4))
    painter.setBrush(QColor(look.field))
    painter.drawRoundedRect(place, 4, 4)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    y = place.top() + ROOM
    for row, text in zip(rows, texts, strict=True):
        line = QRectF(place.left() + ROOM, y, place.width() - 2 * ROOM, high)
        if row.is_active:
            painter.fillRect(line, look.accent)
        words = line.adjusted(ROOM, 0, -ROOM, 0)
        painter.setFont(plain)
        painter.setPen(look.on_accent if row.is_active else look.pencil)
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, row.name)
        painter.setFont(bold if row.is_typed or row.is_active else plain)
        painter.setPen(look.on_accent if row.is_active else look.warn if row.is_wrong else look.ink)
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, text)
        y += high
    if note:
        painter.setFont(plain)
        painter.setPen(look.pencil)
        rest = QRectF(place.left() + 2 * ROOM, y, place.width() - 4 * ROOM, names.height())
        painter.drawText(rest, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, note)
