"""Colours of the map of direct sun, and its scale in hours."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from planner.desk.theme.palette import Look

#: Ends and middle of the map's colours, dark for shade: they differ in lightness first, so that
#: eyes that do not tell hues apart read them too.
RAMP = ((0.0, (46, 52, 92)), (0.35, (97, 110, 141)), (0.7, (214, 178, 102)), (1.0, (255, 240, 170)))
#: Bright end of the scale. [h]
FULL = 10.0
#: Opacity of the map over the sheet, of 255.
OPACITY = 165
#: Width of the scale. [pixels]
SCALE_WIDTH = 200.0


def sun_colours(hours: NDArray[np.float64]) -> NDArray[np.uint8]:
    """Colours (..., 4) for hours of sun: red, green, blue and opacity."""
    share = np.clip(hours / FULL, 0, 1)
    stops = np.array([stop for stop, _ in RAMP])
    found = np.empty((*hours.shape, 4), np.uint8)
    for channel in range(3):
        values = np.array([rgb[channel] for _, rgb in RAMP], float)
        found[..., channel] = np.interp(share, stops, values).round()
    found[..., 3] = OPACITY
    return found


def paint_light_scale(painter: QPainter, right: float, top: float, title: str, look: Look) -> None:
    """Paint the scale of the map: ten colours with their hours.

    Parameters
    ----------
    painter : QPainter
    right, top : float
        The viewport's right side, and the upper side of what lies below the scale. [pixels]
    title : str
    look : Look
    """
    place = QRectF(right - SCALE_WIDTH - 34, top - 24, SCALE_WIDTH + 20, 48)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.chip)
    painter.drawRoundedRect(place, 4, 4)
    left = place.left() + 10
    colours = sun_colours(np.linspace(0, FULL, 11))
    for i in range(10):
        painter.fillRect(
            QRectF(left + i * SCALE_WIDTH / 10, place.top() + 18, SCALE_WIDTH / 10, 10),
            QColor(*colours[i + 1][:3].tolist()),
        )
    painter.setPen(QPen(look.ink, 1))
    painter.drawText(QPointF(left, place.top() + 13), title)
    for hours in (0, 2, 4, 6, 8, 10):
        text = f"{hours}" if hours < FULL else f"{hours}+"
        painter.drawText(QPointF(left + hours / FULL * SCALE_WIDTH - 4, place.top() + 42), text)
