"""Stamps: small pictures of plants, drawn once and blitted by the thousand.

A stamp is keyed by growth form, family, size in device pixels and look.  All stamps of one bed's
planting are put down in one call from a numpy array.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import cast

import numpy as np
import shiboken6
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPixmap, QPolygonF

from planner.crops import Crop
from planner.sheets.family_inks import family_ink
from planner.sheets.growth_marks import mark
from planner.sheets.hatches import HATCHES

#: Below this size a plant is no longer drawn by itself. [device pixels]
LEAST_STAMP = 3.0
#: Largest stamp; above it the stamp is scaled up. [device pixels]
LARGEST_STAMP = 512


def colour(rgb: tuple[float, float, float], alpha: float = 1.0) -> QColor:
    """A colour of the ink box for Qt."""
    return QColor.fromRgbF(*rgb, alpha)


def banded(size: float) -> int:
    """The size a stamp is drawn at: sharp up to 40 px, then in bands of a tenth."""
    if size <= 40:
        return max(3, round(size))
    return min(LARGEST_STAMP, round(40 * 1.1 ** round(math.log(size / 40, 1.1))))


def mark_path(form: str, radius: float) -> tuple[QPainterPath, QPainterPath]:
    """A growth form's mark about the origin, y down: lines, and filled parts."""
    lines, fills = QPainterPath(), QPainterPath()
    for stroke in mark(form):
        points = [QPointF(x * radius, -y * radius) for x, y in stroke.points]
        target = fills if stroke.filled else lines
        target.addPolygon(QPolygonF(points))
        if stroke.closed or stroke.filled:
            target.closeSubpath()
    return lines, fills


@lru_cache(maxsize=2048)
def canopy_stamp(family: str, pixels: int, dark: bool) -> QPixmap:
    """The ground a plant covers: a disc of the family's tint."""
    ink = family_ink(family, dark=dark)
    picture = QPixmap(pixels + 2, pixels + 2)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    rim = colour(ink.line_rgb, 0.55)
    painter.setPen(QPen(rim, 1.0) if pixels >= 8 else Qt.PenStyle.NoPen)
    painter.setBrush(colour(ink.tint_rgb, 0.72))
    painter.drawEllipse(QRectF(1.5, 1.5, pixels - 1, pixels - 1))
    painter.end()
    return picture


@lru_cache(maxsize=2048)
def mark_stamp(form: str, family: str, pixels: int, dark: bool) -> QPixmap:
    """The mark of a growth form in a family's ink."""
    ink = family_ink(family, dark=dark)
    picture = QPixmap(pixels + 2, pixels + 2)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    draw_mark(painter, QPointF(pixels / 2 + 1, pixels / 2 + 1), form, pixels / 2, colour(ink.line_rgb))
    painter.end()
    return picture


def draw_mark(painter: QPainter, at: QPointF, form: str, radius: float, ink: QColor) -> None:
    """Draw one mark; below 5 px across it is a dot."""
    painter.save()
    painter.translate(at)
    if radius < 2.5:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        painter.drawEllipse(QPointF(0, 0), max(radius * 0.7, 0.8), max(radius * 0.7, 0.8))
    else:
        lines, fills = mark_path(form, radius * 0.82)
        pen = QPen(ink, min(max(radius / 9, 0.9), 3.0))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.strokePath(lines, pen)
        painter.fillPath(fills, ink)
    painter.restore()


@lru_cache(maxsize=256)
def ghost_stamp(pixels: int, rgba: int) -> QPixmap:
    """The mark of a station that is not planted yet: a cross."""
    picture = QPixmap(pixels + 2, pixels + 2)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, pixels > 8)
    painter.setPen(QPen(QColor.fromRgba(rgba), 1.4))
    middle, arm = pixels / 2 + 1, min(pixels / 2, 6)
    painter.drawLine(QPointF(middle - arm, middle), QPointF(middle + arm, middle))
    painter.drawLine(QPointF(middle, middle - arm), QPointF(middle, middle + arm))
    painter.end()
    return picture


def put_down(painter: QPainter, stamp: QPixmap, device: NDArray[np.float64], scale: float = 1.0) -> None:
    """Blit one stamp at many places.

    Parameters
    ----------
    painter : QPainter
        With an identity transform.
    stamp : QPixmap
    device : ndarray (n, 2)
        Centres in the painter's device coordinates.
    scale : float
        Of the stamp.
    """
    count = len(device)
    if not count:
        return
    fragments = np.zeros((count, 10))
    fragments[:, 0:2] = device if scale != 1.0 else np.round(device * 2) / 2
    fragments[:, 4] = stamp.width()
    fragments[:, 5] = stamp.height()
    fragments[:, 6:8] = scale
    fragments[:, 9] = 1.0
    # The wrapper takes a pointer to the first fragment and their number; the array outlives the call.
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, bool(scale != 1.0))
    first = cast(
        "QPainter.PixmapFragment", shiboken6.wrapInstance(fragments.ctypes.data, QPainter.PixmapFragment)
    )
    painter.drawPixmapFragments(first, count, stamp, QPainter.PixmapFragmentHint(0))


@lru_cache(maxsize=256)
def hatch_brush(family: str, dark: bool, strength: float = 0.35, wash: float = 0.0) -> QBrush:
    """A family's hatch as a brush of device pixels, over a wash of its tint."""
    ink = family_ink(family, dark=dark)
    hatch = HATCHES[ink.hatch]
    side = max(6, round(hatch.gap * 96 / 25.4 / 4) * 4)
    tile = QPixmap(side, side)
    tile.fill(colour(ink.tint_rgb, wash) if wash else Qt.GlobalColor.transparent)
    painter = QPainter(tile)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(colour(ink.line_rgb, strength), 1.0))
    part = 0.5 if hatch.broken else 1.0
    for angle in hatch.angles:
        if angle == 0.0:
            painter.drawLine(QPointF(0, side / 2), QPointF(part * side, side / 2))
        elif angle == 90.0:
            painter.drawLine(QPointF(side / 2, 0), QPointF(side / 2, part * side))
        else:
            for shift in (-side, 0, side):
                if angle == 45.0:
                    painter.drawLine(QPointF(shift, side), QPointF(shift + part * side, side - part * side))
                else:
                    painter.drawLine(QPointF(shift, 0), QPointF(shift + part * side, part * side))
    if not hatch.angles:
        painter.setBrush(colour(ink.line_rgb, strength))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.drawEllipse(QPointF(side / 2, side / 2), 1.0, 1.0)
    painter.end()
    return QBrush(tile)


@lru_cache(maxsize=16)
def weave(rgba: int, gap: int) -> QBrush:
    """A fine weave of crossed lines, for covers."""
    tile = QPixmap(gap, gap)
    tile.fill(Qt.GlobalColor.transparent)
    painter = QPainter(tile)
    ink = QColor.fromRgba(rgba)
    ink.setAlphaF(0.16)
    painter.setPen(QPen(ink, 1))
    painter.drawLine(0, gap // 2, gap, gap // 2)
    painter.drawLine(gap // 2, 0, gap // 2, gap)
    painter.end()
    return QBrush(tile)


def shade(rgba: int, strength: float) -> QBrush:
    """A flat wash."""
    ink = QColor.fromRgba(rgba)
    ink.setAlphaF(strength)
    return QBrush(ink)


def crop_picture(crop: Crop, side: int, dark: bool, ratio: float = 1.0) -> QPixmap:
    """A crop's mark on a disc of its family's tint.

    Parameters
    ----------
    crop : Crop
    side : int
        Of the picture. [pixels at a ratio of 1]
    dark : bool
        Whether the look is dark.
    ratio : float
        Pixels of the device to a pixel of the window.
    """
    picture = QPixmap(round(side * ratio), round(side * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    ink = family_ink(crop.family, dark=dark)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(colour(ink.line_rgb, 0.7), 1))
    painter.setBrush(colour(ink.tint_rgb))
    middle = QPointF(side // 2, side // 2)
    painter.drawEllipse(middle, side // 2 - 1, side // 2 - 1)
    draw_mark(painter, middle, crop.growth_form, side / 2 - 3, colour(ink.line_rgb))
    painter.end()
    return picture
