"""The walk over the sheet: the round from the gate along the beds, and the number of each bed in it."""

from __future__ import annotations

import math
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from planner.desk.canvas.camera import Camera
from planner.desk.theme.palette import letters
from planner.ground.walk import middles
from planner.plan.walking import beds_in_walking_order, way_of_walk

#: Half the breadth of a number's disc, and of an arrow's head. [pixels]
RADIUS, _ARROW = 11.0, 5.0
#: Pieces of the round shorter than this have no arrow. [pixels]
_LEAST = 46.0


class WalkLayer:
    """The walk of one plan, worked out when it is shown.

    Attributes
    ----------
    shown : bool
    order : tuple of str
        Ids of the beds as they are walked to.
    tried : tuple of str or None
        The order that is shown while a number is dragged.
    """

    def __init__(self, camera: Camera) -> None:
        self._camera = camera
        self.shown = False
        self.order: tuple[str, ...] = ()
        self._plan: object = None
        self._way: tuple[tuple[float, float], ...] = ()
        self._middles: dict[str, tuple[float, float]] = {}
        self.tried: tuple[str, ...] | None = None
        self._held: str | None = None

    def show(self, shown: bool) -> None:
        """Switch on or off."""
        self.shown = shown
        self.try_order(None)

    def try_order(self, order: tuple[str, ...] | None, held: str | None = None) -> None:
        """Show another order while a number is dragged; None shows that of the plan again.

        Parameters
        ----------
        order : tuple of str or None
            Ids of the beds.
        held : str, optional
            The bed whose number is dragged.
        """
        self.tried, self._held = order, held
        self._camera.viewport().update()

    def follow(self) -> None:
        """Take the walk of the plan that the sheet shows."""
        plan = self._camera.document.plan
        if plan is self._plan:
            return
        self._plan = plan
        beds = beds_in_walking_order(plan)
        self.order = tuple(bed.id for bed in beds)
        places = middles([bed.outline for bed in beds]).tolist() if beds else []
        self._middles = {bed.id: (x, y) for bed, (x, y) in zip(beds, places, strict=True)}
        self._way = way_of_walk(plan)

    def bed_at(self, point: QPointF) -> str | None:
        """Id of the bed whose number lies at a point of the viewport; None where none does."""
        if not self.shown:
            return None
        self.follow()
        for key in reversed(self.order):
            away = self._camera.to_view(self._middles[key]) - point
            if math.hypot(away.x(), away.y()) <= RADIUS:
                return key
        return None

    def paint(self, painter: QPainter) -> None:
        """Draw in pixels of the viewport: the round with its direction, then the numbers."""
        if not self.shown:
            return
        self.follow()
        order = self.tried if self.tried is not None else self.order
        gate = self._way[:1] if len(self._way) > len(self.order) + 1 else ()
        places = [*gate, *(self._middles[key] for key in order)]
        points = [self._camera.to_view(place) for place in places]
        if len(points) > 1:
            self._paint_way(painter, [*points, points[0]])
        for number, (key, at) in enumerate(zip(order, points[len(gate) :], strict=True), 1):
            self._paint_number(painter, at, number, held=key == self._held)

    def _paint_way(self, painter: QPainter, points: list[QPointF]) -> None:
        look = self._camera.look.now
        way = QPainterPath(points[0])
        heads = QPainterPath()
        for before, after in pairwise(points):
            way.lineTo(after)
            step = after - before
            length = math.hypot(step.x(), step.y())
            if length >= _LEAST:
                along = step / length * _ARROW
                across = QPointF(-along.y(), along.x())
                tip = before + step / 2 + along
                heads.moveTo(tip - along * 2 + across)
                heads.lineTo(tip)
                heads.lineTo(tip - along * 2 - across)
        rim = QColor(look.sheet)
        rim.setAlphaF(0.8)
        painter.strokePath(way, QPen(rim, 4.5))
        painter.strokePath(way, QPen(look.accent, 1.8, Qt.PenStyle.DashLine))
        painter.strokePath(heads, QPen(look.accent, 2.2))

    def _paint_number(self, painter: QPainter, at: QPointF, number: int, *, held: bool) -> None:
        look = self._camera.look.now
        disc = QRectF(at.x() - RADIUS, at.y() - RADIUS, 2 * RADIUS, 2 * RADIUS)
        painter.setPen(QPen(look.accent, 1.8))
        painter.setBrush(look.accent if held else look.field)
        painter.drawEllipse(disc)
        painter.setFont(letters(9, bold=True))
        painter.setPen(look.on_accent if held else look.ink)
        painter.drawText(disc, Qt.AlignmentFlag.AlignCenter, str(number))
