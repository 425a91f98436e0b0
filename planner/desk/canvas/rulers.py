"""Rulers along the sheet's edges, in the garden's units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.theme.palette import letters
from planner.garden.units import FOOT

if TYPE_CHECKING:
    from planner.desk.main_window.sheet_view import SheetView

#: Breadth of a ruler. [pixels]
RULER = 22
#: Least distance of two marks, and of two numbers. [pixels]
LEAST_MARK, LEAST_NUMBER = 6.0, 58.0

_METRIC = (0.01, 0.05, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0, 100.0, 500.0)
_FEET = (FOOT / 12, FOOT / 4, FOOT, 2 * FOOT, 5 * FOOT, 10 * FOOT, 50 * FOOT, 100 * FOOT, 500 * FOOT)


def steps(pixels_per_metre: float, *, metric: bool) -> tuple[float, float]:
    """Distance of marks and of numbers on a ruler. [m]"""
    ladder = _METRIC if metric else _FEET
    marks = next((s for s in ladder if s * pixels_per_metre >= LEAST_MARK), ladder[-1])
    numbers = next((s for s in ladder if s * pixels_per_metre >= LEAST_NUMBER), ladder[-1])
    return marks, numbers


class Ruler(QWidget):
    """One ruler; a red-free tick follows the pointer."""

    def __init__(self, view: SheetView, *, horizontal: bool) -> None:
        super().__init__(view)
        self.view, self.horizontal = view, horizontal
        self._point: float | None = None
        self.setAccessibleName("Ruler across" if horizontal else "Ruler up")

    def point_at(self, point: QPointF | None) -> None:
        """Follow the pointer. [pixels of the viewport]"""
        value = None if point is None else (point.x() if self.horizontal else point.y())
        if value != self._point:
            self._point = value
            self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        view, look = self.view, self.view.look.now
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.panel)
        painter.setPen(QPen(look.grid_major, 1))
        if self.horizontal:
            painter.drawLine(0, RULER - 1, self.width(), RULER - 1)
        else:
            painter.drawLine(RULER - 1, 0, RULER - 1, self.height())
        metric = view.document.garden.site.units == "metric"
        marks, numbers = steps(view.pixels_per_metre, metric=metric)
        start, end = view._scene_at(QPointF(0, 0)), view._scene_at(QPointF(self.width(), self.height()))
        low, high = (
            (start.x() / transform.SCALE, end.x() / transform.SCALE)
            if self.horizontal
            else (-end.y() / transform.SCALE, -start.y() / transform.SCALE)
        )
        painter.setFont(letters(9))
        if (high - low) / marks < 4_000:
            for i in range(int(low // marks), int(high // marks) + 2):
                self._mark(painter, i * marks, 4)
        for i in range(int(low // numbers), int(high // numbers) + 2):
            value = i * numbers
            self._mark(painter, value, 9)
            self._number(painter, value, metric)
        if self._point is not None:
            painter.setPen(QPen(look.accent, 1.5))
            p = self._point
            if self.horizontal:
                painter.drawLine(QPointF(p, 0), QPointF(p, RULER))
            else:
                painter.drawLine(QPointF(0, p), QPointF(RULER, p))
        painter.end()

    def _at(self, value: float) -> float:
        point = self.view.to_view((value, value))
        return point.x() if self.horizontal else point.y()

    def _mark(self, painter: QPainter, value: float, length: int) -> None:
        painter.setPen(QPen(self.view.look.now.pencil, 1))
        p = round(self._at(value)) + 0.5
        if self.horizontal:
            painter.drawLine(QPointF(p, RULER - 1 - length), QPointF(p, RULER - 1))
        else:
            painter.drawLine(QPointF(RULER - 1 - length, p), QPointF(RULER - 1, p))

    def _number(self, painter: QPainter, value: float, metric: bool) -> None:
        if metric:
            text = f"{value:.2f}".rstrip("0").rstrip(".") if abs(value) > 1e-9 else "0"
            text = text.replace("-", "−")
        else:
            inches = round(value / FOOT * 12)
            feet, rest = divmod(abs(inches), 12)
            text = ("−" if inches < 0 else "") + (f"{feet}′" if not rest else f"{feet}′{rest}″")
        painter.setPen(self.view.look.now.pencil)
        p = self._at(value)
        if self.horizontal:
            painter.drawText(QRectF(p + 3, 0, 60, RULER - 6), Qt.AlignmentFlag.AlignVCenter, text)
            return
        painter.save()
        painter.translate(0, p - 3)
        painter.rotate(-90)
        painter.drawText(QRectF(0, 0, 60, RULER - 6), Qt.AlignmentFlag.AlignVCenter, text)
        painter.restore()
