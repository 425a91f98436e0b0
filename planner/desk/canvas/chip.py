"""A small sign of a few lines beside the pointer."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from planner.desk.theme.palette import Look, letters

#: The sign stays this far inside the viewport. [pixels]
INSET = 6
#: Least distance of the sign from what it keeps off. [pixels]
GAP = 8
#: Room left beside the widest line. [pixels]
SIDE_ROOM = 60


def chip_place(area: QRectF, size: QSizeF, at: QPointF, off: QRectF | None = None) -> QRectF:
    """Where a sign lies: at a point, inside the viewport, and off what it speaks of as far as there is room.

    Parameters
    ----------
    area : QRectF
        The viewport. [pixels]
    size : QSizeF
    at : QPointF
        Its upper left corner, where there is room. [pixels]
    off : QRectF, optional
        What it keeps off. [pixels]
    """
    inner = area.adjusted(INSET, INSET, -INSET, -INSET)

    def inside(left: float, top: float) -> QRectF:
        left = max(min(left, inner.right() - size.width()), inner.left())
        top = max(min(top, inner.bottom() - size.height()), inner.top())
        return QRectF(QPointF(left, top), size)

    if off is None or not inside(at.x(), at.y()).intersects(off):
        return inside(at.x(), at.y())
    lefts = (at.x(), off.right() + GAP, off.left() - GAP - size.width(), inner.left(), inner.right())
    tops = (at.y(), off.bottom() + GAP, off.top() - GAP - size.height(), inner.top(), inner.bottom())

    def cost(place: QRectF) -> tuple[int, int]:
        common = place.intersected(off)
        away = place.topLeft() - at
        return round(common.width() * common.height()), round(abs(away.x()) + abs(away.y()))

    return min((inside(left, top) for top in tops for left in lefts), key=cost)


def paint_chip(
    painter: QPainter,
    area: QRectF,
    look: Look,
    at: QPointF,
    lines: Sequence[str],
    *,
    warn: bool = False,
    off: QRectF | None = None,
) -> None:
    """Paint a sign of a few lines, the first one bold; it stays inside the viewport.

    Parameters
    ----------
    painter : QPainter
    area : QRectF
        The viewport. [pixels]
    look : Look
    at : QPointF
        Its upper left corner, where there is room. [pixels]
    lines : sequence of str
        Empty ones are left out.
    warn : bool
        Whether it warns: its frame and last line take the colour of warnings.
    off : QRectF, optional
        What it keeps off, because it speaks of it. [pixels]
    """
    lines = [line for line in lines if line]
    if not lines:
        return
    fonts = [letters(10, bold=True), *[letters(9)] * (len(lines) - 1)]
    metrics = [QFontMetricsF(font) for font in fonts]
    widest = area.width() - SIDE_ROOM
    texts = [
        m.elidedText(line, Qt.TextElideMode.ElideRight, widest)
        for m, line in zip(metrics, lines, strict=True)
    ]
    width = max(m.horizontalAdvance(t) for m, t in zip(metrics, texts, strict=True)) + 20
    height = sum(m.height() for m in metrics) + 12
    place = chip_place(area, QSizeF(width, height), at, off)
    painter.setPen(QPen(look.warn if warn else look.accent, 1.4))
    painter.setBrush(QColor(look.field))
    painter.drawRoundedRect(place, 4, 4)
    y = place.top() + 6
    for i, (text, font, m) in enumerate(zip(texts, fonts, metrics, strict=True)):
        painter.setFont(font)
        painter.setPen(look.warn if warn and i == len(texts) - 1 else look.ink if i == 0 else look.pencil)
        painter.drawText(QPointF(place.left() + 10, y + m.ascent()), text)
        y += m.height()
