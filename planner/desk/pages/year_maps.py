"""A strip of small maps, one a growing year: what stood where."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import NamedTuple

import shapely
from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QAccessible, QHelpEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget
from typing_extensions import override

from planner.desk.pages.map_painting import MappedPlot, paint_map
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plain_tips import plain_tip
from planner.words import join_list, say

#: Greatest width and height of a map, the ground around it, and room for its year. [pixels]
WIDE, HIGH, AROUND, TITLE = 230, 170, 10, 20
#: Half a cross at the place that is looked at. [pixels]
CROSS = 6


class YearMap(NamedTuple):
    """The map of a growing year: grounds of its beds on the plan [m], and its plots, the later above."""

    year: int
    beds: tuple[shapely.Geometry, ...]
    plots: tuple[MappedPlot, ...]


class YearMaps(QWidget):
    """Small maps of growing years side by side.

    Signals
    -------
    place_picked : float, float
        A place on the plan was clicked. [m]
    """

    place_picked = Signal(float, float)

    heard_as = QAccessible.Role.Graphic

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self.look = look
        self.maps: tuple[YearMap, ...] = ()
        self.place: tuple[float, float] | None = None
        self._bounds = (0.0, 0.0, 1.0, 1.0)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("Maps of the years"))
        look.changed.connect(self.update)

    def show_maps(self, maps: Sequence[YearMap], place: tuple[float, float] | None) -> None:
        """Show other maps, and the place that is looked at.

        Parameters
        ----------
        maps : sequence of YearMap
        place : tuple of float, optional
            On the plan. [m]
        """
        self.maps, self.place = tuple(maps), place
        grounds = [ground for one in self.maps for ground in one.beds]
        if grounds:
            left, low, right, high = (float(value) for value in shapely.total_bounds(grounds))
            self._bounds = left, low, max(right, left + 0.1), max(high, low + 0.1)
        self.setAccessibleDescription(
            join_list([say("{year}: {what}", year=one.year, what=self._words(one)) for one in self.maps])
            if self.maps
            else ""
        )
        self.updateGeometry()
        self.setFixedSize(self.sizeHint())
        self.update()

    @staticmethod
    def _words(one: YearMap) -> str:
        words = list(dict.fromkeys(plot.words for plot in one.plots))
        return join_list(words) if words else say("nothing")

    def scale(self) -> float:
        """How large a metre is drawn. [pixels]"""
        left, low, right, high = self._bounds
        return min((WIDE - 2 * AROUND) / (right - left), (HIGH - 2 * AROUND) / (high - low))

    def _step(self) -> float:
        """From one map to the next. [pixels]"""
        return max((self._bounds[2] - self._bounds[0]) * self.scale() + 2 * AROUND, 60.0)

    @override
    def sizeHint(self) -> QSize:
        high = (self._bounds[3] - self._bounds[1]) * self.scale() + 2 * AROUND + TITLE
        return QSize(round(self._step() * max(len(self.maps), 1)), round(high))

    def _at(self, number: int, x: float, y: float) -> QPointF:
        """A place of the plan on a map. [pixels]"""
        left, _, _, high = self._bounds
        scale = self.scale()
        return QPointF(
            number * self._step() + AROUND + (x - left) * scale, TITLE + AROUND + (high - y) * scale
        )

    def place_at(self, point: QPointF) -> tuple[int, float, float] | None:
        """Number of the map at a point of the strip, and the place on the plan; None beside them."""
        number = int(point.x() // self._step())
        if not 0 <= number < len(self.maps):
            return None
        left, _, _, high = self._bounds
        scale = self.scale()
        x = left + (point.x() - number * self._step() - AROUND) / scale
        return number, x, high - (point.y() - TITLE - AROUND) / scale

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look = self.look.now
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.sheet)
        painter.setFont(letters(bold=True))
        for number, one in enumerate(self.maps):
            painter.setPen(look.ink)
            title = QRectF(number * self._step() + AROUND, 2, self._step() - AROUND, TITLE)
            painter.drawText(title, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, str(one.year))
            paint_map(painter, look, one.beds, one.plots, partial(self._at, number))
            if self.place is not None:
                self._paint_cross(painter, number)
        painter.end()

    def _paint_cross(self, painter: QPainter, number: int) -> None:
        assert self.place is not None
        at = self._at(number, *self.place)
        painter.setPen(QPen(self.look.now.accent, 2))
        painter.drawLine(at - QPointF(CROSS, 0), at + QPointF(CROSS, 0))
        painter.drawLine(at - QPointF(0, CROSS), at + QPointF(0, CROSS))

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        found = self.place_at(event.position())
        if found is not None and event.button() == Qt.MouseButton.LeftButton:
            self.place_picked.emit(found[1], found[2])

    @override
    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            words = self.words_at(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), plain_tip(words) if words else "", self)
            return True
        return super().event(event)

    def words_at(self, point: QPointF) -> str:
        """What stood at a point of the strip; empty where nothing did."""
        found = self.place_at(point)
        if found is None:
            return ""
        there = shapely.Point(found[1], found[2])
        plots = [plot.words for plot in self.maps[found[0]].plots if shapely.intersects(plot.ground, there)]
        return join_list(list(dict.fromkeys(plots))) if plots else ""
