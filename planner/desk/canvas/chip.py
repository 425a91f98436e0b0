"""A small sign of a few lines beside the pointer."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from planner.desk.theme.palette import Look, letters

#: The sign stays this far inside the viewport. [pixels]
INSET = 6
#: Room left beside the widest line. [pixels]
SIDE_ROOM = 60


def paint_chip(
    painter: QPainter, area: QRectF, look: Look, at: QPointF, lines: Sequence[str], *, warn: bool = False
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
    inner = area.adjusted(INSET, INSET, -INSET, -INSET)
    left = min(max(at.x(), inner.left()), inner.right() - width)
    top = min(max(at.y(), inner.top()), inner.bottom() - height)
    painter.setPen(QPen(look.warn if warn else look.accent, 1.4))
    painter.setBrush(QColor(look.field))
    painter.drawRoundedRect(QRectF(left, top, width, height), 4, 4)
    y = top + 6
    for i, (text, font, m) in enumerate(zip(texts, fonts, metrics, strict=True)):
        painter.setFont(font)
        painter.setPen(look.warn if warn and i == len(texts) - 1 else look.ink if i == 0 else look.pencil)
        painter.drawText(QPointF(left + 10, y + m.ascent()), text)
        y += m.height()
