"""What each growth form looks like from the side: one drawing a form, in a unit square over the soil."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath


@dataclass
class SideView:
    """A plant from the side: x from -0.5 to 0.5 over its spread, y from 0 at the soil to -1 at its top.

    Attributes
    ----------
    lines : QPainterPath
        Stems and outlines.
    leaves : QPainterPath
        Areas filled with the family's tint, each with an outline.
    solid : QPainterPath
        Areas filled with the family's ink: flowers, ears, swollen roots.
    """

    lines: QPainterPath = field(default_factory=QPainterPath)
    leaves: QPainterPath = field(default_factory=QPainterPath)
    solid: QPainterPath = field(default_factory=QPainterPath)

    def stem(self, *points: tuple[float, float]) -> None:
        """Draw a stem from point to point, bowed where there are three."""
        self.lines.moveTo(QPointF(points[0][0], -points[0][1]))
        if len(points) == 3:
            (bx, by), (ex, ey) = points[1:]
            self.lines.quadTo(QPointF(bx, -by), QPointF(ex, -ey))
        else:
            for x, y in points[1:]:
                self.lines.lineTo(QPointF(x, -y))

    def leaf(self, base: tuple[float, float], tip: tuple[float, float], width: float) -> None:
        """Draw a pointed leaf from its base to its tip; ``width`` is a share of its length."""
        (bx, by), (tx, ty) = base, tip
        mx, my = (bx + tx) / 2, (by + ty) / 2
        ox, oy = -(ty - by) * width, (tx - bx) * width
        self.leaves.moveTo(QPointF(bx, -by))
        self.leaves.quadTo(QPointF(mx + ox, -(my + oy)), QPointF(tx, -ty))
        self.leaves.quadTo(QPointF(mx - ox, -(my - oy)), QPointF(bx, -by))

    def round(self, x: float, y: float, rx: float, ry: float, *, solid: bool = False) -> None:
        """Draw an ellipse about a point."""
        path = self.solid if solid else self.leaves
        path.addEllipse(QRectF(x - rx, -y - ry, 2 * rx, 2 * ry))


def _fan(
    view: SideView, count: int, low: float, width: float, *, foot: float = 0.0, top: float = 1.0
) -> None:
    """Leaves from one point, spread like a fan; the outer ones end at ``low``."""
    for i in range(count):
        part = i / (count - 1) * 2 - 1  # -1 at the left, 1 at the right
        height = top - (top - low) * part * part
        view.leaf((0.02 * part, foot), (0.49 * part, height), width)


def _rosette(view: SideView) -> None:
    _fan(view, 7, 0.25, 0.34)


def _root(view: SideView) -> None:
    _fan(view, 5, 0.45, 0.16, foot=0.04)
    view.round(0, -0.05, 0.13, 0.10, solid=True)


def _bulb(view: SideView) -> None:
    _fan(view, 5, 0.6, 0.09, foot=0.08)
    view.round(0, 0.0, 0.16, 0.09, solid=True)


def _head(view: SideView) -> None:
    view.stem((0, 0), (0, 0.3))
    for side in (-1, 1):
        view.leaf((0, 0.12), (0.49 * side, 0.5), 0.35)
        view.leaf((0, 0.18), (0.42 * side, 0.78), 0.35)
    view.round(0, 0.64, 0.30, 0.36)


def _bush(view: SideView) -> None:
    view.stem((0, 0), (0, 0.55))
    for side in (-1, 1):
        view.stem((0, 0.08), (0.12 * side, 0.4), (0.3 * side, 0.5))
    for x, y, r in (
        (-0.3, 0.45, 0.2),
        (0.3, 0.45, 0.2),
        (-0.16, 0.72, 0.22),
        (0.16, 0.72, 0.22),
        (0, 0.5, 0.24),
    ):
        view.round(x, y, r, r * 1.15)


def _upright(view: SideView) -> None:
    view.stem((0, 0), (0, 0.97))
    for i in range(6):
        side, y = 1 if i % 2 else -1, 0.16 + 0.14 * i
        reach = 0.47 * (1 - 0.1 * i)
        view.leaf((0, y), (reach * side, y + 0.1), 0.22)


def _climber(view: SideView) -> None:
    view.lines.moveTo(0, 0)
    view.lines.lineTo(0, -1)
    turns = [(0.10 * math.sin(i / 2.6), i / 60) for i in range(60)]
    view.stem(turns[0], turns[1])
    for point in turns[2:]:
        view.lines.lineTo(QPointF(point[0], -point[1]))
    for i in range(9):
        side, y = 1 if i % 2 else -1, 0.08 + 0.1 * i
        view.leaf((0.05 * side, y), (0.46 * side, y + 0.05), 0.3)


def _sprawler(view: SideView) -> None:
    view.stem((-0.48, 0.12), (-0.2, 0.05), (0, 0.1))
    view.stem((0, 0.1), (0.2, 0.05), (0.48, 0.12))
    for x in (-0.42, -0.25, -0.08, 0.09, 0.26, 0.43):
        view.stem((x, 0.08), (x * 0.98, 0.62))
        view.round(x * 0.95, 0.72, 0.11, 0.26)
    view.round(0.17, 0.16, 0.10, 0.16, solid=True)


def _grass(view: SideView) -> None:
    for x, tip in ((-0.12, -0.48), (-0.06, -0.3), (0.06, 0.32), (0.12, 0.49)):
        view.leaf((x, 0.0), (tip, 0.62 + 0.2 * (0.5 - abs(tip))), 0.08)
    for x in (-0.1, 0.0, 0.1):
        view.stem((x * 0.4, 0), (x, 0.85))
        view.round(x, 0.89, 0.025, 0.11, solid=True)


def _fern(view: SideView) -> None:
    for lean in (-0.34, -0.12, 0.12, 0.34):
        view.stem((lean * 0.1, 0), (lean * 0.4, 0.6), (lean, 0.97))
        for i in range(8):
            part = 0.25 + i * 0.09
            x, y = lean * part * part, part * 0.97
            reach = 0.16 * (1.15 - part)
            view.stem((x, y), (x - reach, y + 0.07))
            view.stem((x, y), (x + reach, y + 0.07))


def _cane(view: SideView) -> None:
    for lean in (-0.42, -0.2, 0.04, 0.24, 0.44):
        view.stem((lean * 0.35, 0), (lean * 0.5, 0.75), (lean, 0.97 - 0.2 * abs(lean)))
        for part in (0.35, 0.55, 0.75, 0.9):
            x, y = lean * (0.35 + 0.6 * part * part), part * 0.92
            view.leaf((x, y), (x + 0.1, y + 0.05), 0.35)
            view.leaf((x, y), (x - 0.1, y + 0.05), 0.35)


def _shrub(view: SideView) -> None:
    for lean in (-0.25, 0.0, 0.25):
        view.stem((lean * 0.12, 0), (lean * 0.6, 0.3), (lean, 0.6))
    for x, y, r in (
        (-0.27, 0.55, 0.23),
        (0.27, 0.55, 0.23),
        (-0.13, 0.76, 0.23),
        (0.14, 0.77, 0.22),
        (0, 0.52, 0.22),
    ):
        view.round(x, y, r, r)


def _mat(view: SideView) -> None:
    for i in range(9):
        x = -0.44 + 0.11 * i
        height = 0.95 - 0.9 * x * x * 2
        view.stem((x * 0.8, 0), (x, height * 0.6))
        view.round(x, height * 0.62, 0.085, height * 0.36)


def _flower(view: SideView) -> None:
    for lean, top in ((-0.33, 0.72), (0.0, 0.92), (0.33, 0.76)):
        view.stem((lean * 0.15, 0), (lean * 0.4, top * 0.6), (lean, top))
        view.round(lean, top, 0.12, 0.08, solid=True)
        for part, side in ((0.3, -1), (0.42, 1), (0.58, -1)):
            x, y = lean * (0.15 + 0.6 * part), top * part
            view.leaf((x, y), (x + 0.17 * side, y + 0.1), 0.25)


_DRAWN: dict[str, Callable[[SideView], None]] = {
    "rosette": _rosette,
    "root": _root,
    "bulb": _bulb,
    "head": _head,
    "bush": _bush,
    "upright": _upright,
    "climber": _climber,
    "sprawler": _sprawler,
    "grass": _grass,
    "fern": _fern,
    "cane": _cane,
    "shrub": _shrub,
    "mat": _mat,
    "flower": _flower,
}


@lru_cache(maxsize=32)
def side_view(form: str) -> SideView:
    """The side view of a growth form; that of a bush where the form is not known."""
    view = SideView()
    _DRAWN.get(form, _bush)(view)
    return view
