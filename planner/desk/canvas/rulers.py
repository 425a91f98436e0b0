"""Rulers along the sheet's edges, in the garden's units."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QAccessible, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.scale_steps import scale_steps
from planner.desk.theme.palette import letters
from planner.garden.units import FOOT
from planner.words import say, short_number

#: Breadth of a ruler. [pixels]
RULER = 22
#: A ruler with more marks than this draws none but the numbered ones.
MOST_MARKS = 4_000


class Rulers:
    """The two rulers above and beside what a camera shows."""

    def __init__(self, camera: Camera) -> None:
        self._camera = camera
        camera.setViewportMargins(RULER, RULER, 0, 0)
        self._across, self._up = Ruler(camera, horizontal=True), Ruler(camera, horizontal=False)
        camera.view_changed.connect(self._follow_view)
        camera.pointer_left.connect(lambda: self.point_at(None))

    def point_at(self, point: QPointF | None) -> None:
        """Follow the pointer [pixels of the viewport]; None where it is elsewhere."""
        self._across.point_at(None if point is None else point.x())
        self._up.point_at(None if point is None else point.y())

    def _follow_view(self) -> None:
        area = self._camera.viewport().geometry()
        self._across.setGeometry(area.left(), area.top() - RULER, area.width(), RULER)
        self._up.setGeometry(area.left() - RULER, area.top(), RULER, area.height())
        self._across.update()
        self._up.update()


class Ruler(QWidget):
    """One ruler; a tick follows the pointer."""

    heard_as = QAccessible.Role.Graphic

    def __init__(self, camera: Camera, *, horizontal: bool) -> None:
        super().__init__(camera)
        self._camera, self._horizontal = camera, horizontal
        self._point: float | None = None
        self._units = camera.document.garden.site.units
        camera.document.garden_changed.connect(self._follow_units)
        camera.look.changed.connect(self.update)
        self.setAccessibleName(say("Ruler across") if horizontal else say("Ruler up"))

    def point_at(self, value: float | None) -> None:
        """Put the tick where the pointer is along the ruler [pixels], or (None) take it away."""
        if value != self._point:
            self._point = value
            self.update()

    def _follow_units(self) -> None:
        """Number the ruler anew where the garden's units have changed."""
        units = self._camera.document.garden.site.units
        if units != self._units:
            self._units = units
            self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        camera, look = self._camera, self._camera.look.now
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.panel)
        painter.setPen(QPen(look.grid_major, 1))
        if self._horizontal:
            painter.drawLine(0, RULER - 1, self.width(), RULER - 1)
        else:
            painter.drawLine(RULER - 1, 0, RULER - 1, self.height())
        metric = camera.document.garden.site.units == "metric"
        marks, numbers = scale_steps(camera.pixels_per_metre, metric=metric)
        low, high = self._range()
        painter.setFont(letters(9))
        if (high - low) / marks < MOST_MARKS:
            for i in range(int(low // marks), int(high // marks) + 2):
                self._mark(painter, i * marks, 4)
        for i in range(int(low // numbers), int(high // numbers) + 2):
            value = i * numbers
            self._mark(painter, value, 9)
            self._number(painter, value, metric)
        self._tick(painter)
        painter.end()

    def _range(self) -> tuple[float, float]:
        """Least and greatest coordinate of the plan along the ruler. [m]"""
        left, top = self._camera.plan_at(QPointF(0, 0))
        right, bottom = self._camera.plan_at(QPointF(self.width(), self.height()))
        return (left, right) if self._horizontal else (bottom, top)

    def _tick(self, painter: QPainter) -> None:
        if self._point is None:
            return
        painter.setPen(QPen(self._camera.look.now.accent, 1.5))
        if self._horizontal:
            painter.drawLine(QPointF(self._point, 0), QPointF(self._point, RULER))
        else:
            painter.drawLine(QPointF(0, self._point), QPointF(RULER, self._point))

    def _at(self, value: float) -> float:
        point = self._camera.to_view((value, value))
        return point.x() if self._horizontal else point.y()

    def _mark(self, painter: QPainter, value: float, length: int) -> None:
        painter.setPen(QPen(self._camera.look.now.pencil, 1))
        p = round(self._at(value)) + 0.5
        if self._horizontal:
            painter.drawLine(QPointF(p, RULER - 1 - length), QPointF(p, RULER - 1))
        else:
            painter.drawLine(QPointF(RULER - 1 - length, p), QPointF(RULER - 1, p))

    def _number(self, painter: QPainter, value: float, metric: bool) -> None:
        text = _metres(value) if metric else _feet_and_inches(value)
        painter.setPen(self._camera.look.now.pencil)
        p = self._at(value)
        if self._horizontal:
            painter.drawText(QRectF(p + 3, 0, 60, RULER - 6), Qt.AlignmentFlag.AlignVCenter, text)
            return
        painter.save()
        painter.translate(0, p - 3)
        painter.rotate(-90)
        painter.drawText(QRectF(0, 0, 60, RULER - 6), Qt.AlignmentFlag.AlignVCenter, text)
        painter.restore()


def _metres(value: float) -> str:
    text = short_number(round(value, 2)) if abs(value) > 1e-9 else "0"
    return text.replace("-", "−")


def _feet_and_inches(value: float) -> str:
    inches = round(value / FOOT * 12)
    feet, rest = divmod(abs(inches), 12)
    return ("−" if inches < 0 else "") + (f"{feet}′" if not rest else f"{feet}′{rest}″")
