"""Small drawings of the crop page: the year of a crop, and germination over soil temperature."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QAccessible, QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.crops import Crop
from planner.crops.figures import Series
from planner.desk.canvas.year_axis import YearAxis, paint_months
from planner.desk.model.document import Document
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import LookSwitch, letters
from planner.plan.crop_year import (
    FrostPair,
    Stage,
    StageKind,
    crop_year,
    frost_pair,
    last_day_to_start,
)
from planner.sheets.family_inks import Ink, family_ink
from planner.words import day_words, later, percent, say, short_number

#: What each stage of a crop's year is called.
_STAGES: dict[StageKind, str] = {
    "sow": later("sow"),
    "set out": later("set out"),
    "autumn planting": later("autumn planting"),
    "harvest": later("harvest, if begun at the earliest"),
    "harvest raised": later("harvest, if raised under cover"),
    "unripe": later("does not ripen in the open here"),
}
#: Stages that are drawn as a harvest.
_HARVESTS = ("harvest", "harvest raised", "unripe")
#: Ground left at either side of the year. [pixels]
MARGIN = 10.0
#: Where the bands of cold begin and end. [pixels]
COLD_TOP, COLD_HEIGHT = 20, 66
#: Highest soil temperature drawn. [deg C]
WARMEST = 40
#: Ends of the scale of days, of which the least is taken that holds all.
_DAY_SCALES = (10, 15, 20, 30, 40, 60, 80, 100, 200, 400)


class YearBar(QWidget):
    """When a crop is sown, set out and ripe, against this garden's frosts where they are known."""

    heard_as = QAccessible.Role.Graphic

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.crop: Crop | None = None
        self.setFixedHeight(92)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("Year of the crop"))

    def show_crop(self, crop: Crop) -> None:
        """Show another crop."""
        self.crop = crop
        self.setAccessibleDescription(
            "; ".join(
                say(
                    "{stage}: {first} to {last}",
                    stage=say(_STAGES[stage.kind]),
                    first=day_words(stage.first),
                    last=day_words(stage.last),
                )
                for stage in self.stages()
            )
        )
        self.update()

    def stages(self) -> tuple[Stage, ...]:
        """The stages drawn."""
        return crop_year(self.document.plan, self.crop) if self.crop is not None else ()

    def latest_day(self, field: str) -> str | None:
        """The last day to sow or set out where only the autumn frost sets it; None where something else does."""
        plan = self.document.plan
        if self.crop is None or not frost_pair(plan).known:
            return None
        latest = last_day_to_start(plan, self.crop, field)
        return day_words(latest) if latest is not None else None

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look, plan = self.look.now, self.document.plan
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.field)
        axis = YearAxis(plan.span, MARGIN, self.width() - 2 * MARGIN)
        frosts = frost_pair(plan)
        self._paint_cold(painter, axis, frosts)
        paint_months(painter, axis, look, 4, 86, (3, 15))
        if self.crop is None:
            return
        ink = family_ink(self.crop.family, dark=look.dark)
        for number, stage in enumerate(self.stages()):
            self._paint_stage(painter, axis, ink, stage, 24 + number * 15)
        if not frosts.known:
            painter.setPen(look.pencil)
            text = say("frost dates of this garden are not set: an example is shown")
            painter.drawText(QRectF(axis.left, 74, axis.width, 16), Qt.AlignmentFlag.AlignRight, text)
        painter.end()

    def _paint_cold(self, painter: QPainter, axis: YearAxis, frosts: FrostPair) -> None:
        cold = QColor(self.look.now.glass)
        cold.setAlphaF(0.18)
        last, first, end = _held(axis, frosts.last), _held(axis, frosts.first), axis.left + axis.width
        bands = [(axis.left, last), (first, end)] if frosts.last < frosts.first else [(first, last)]
        for left, right in bands:
            painter.fillRect(QRectF(left, COLD_TOP, right - left, COLD_HEIGHT), cold)

    def _paint_stage(self, painter: QPainter, axis: YearAxis, ink: Ink, stage: Stage, top: float) -> None:
        left, right = _held(axis, stage.first), _held(axis, stage.last)
        rect = QRectF(left, top, max(right - left, 3), 10)
        line = plant_symbols.colour(ink.line_rgb)
        dashes = Qt.PenStyle.DashLine if stage.kind == "sow" else Qt.PenStyle.SolidLine
        painter.setPen(QPen(line, 1, dashes))
        painter.setBrush(line if stage.kind in _HARVESTS else plant_symbols.colour(ink.tint_rgb))
        painter.drawRect(rect)
        painter.setPen(self.look.now.ink)
        words = say(_STAGES[stage.kind])
        room = painter.fontMetrics().horizontalAdvance(words) + 8
        at = rect.right() + 5 if rect.right() + room < self.width() else rect.left() - room
        painter.drawText(QPointF(at, top + 10), words)


def _held(axis: YearAxis, day: dt.date) -> float:
    """Where a day begins, held within the axis. [pixels]"""
    return min(max(axis.x_of(day), axis.left), axis.left + axis.width)


#: The point of a temperature [deg C] and a height from 0 at the bottom to 1 at the top.
_Place = Callable[[float, float], QPointF]


class GerminationPlot(QWidget):
    """Days to emergence, and the share of seed that comes up, over soil temperature."""

    heard_as = QAccessible.Role.Chart

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self.look = look
        self.crop: Crop | None = None
        self.celsius = True
        self.setFixedHeight(190)
        self.setAccessibleName(say("Germination by soil temperature"))

    def show_crop(self, crop: Crop, *, celsius: bool) -> bool:
        """Show another crop; returns whether anything is known to plot."""
        self.crop, self.celsius = crop, celsius
        days = _points(crop.emergence_days)
        words = (
            say("{days} days at {degrees} degrees Celsius", days=short_number(v), degrees=short_number(t))
            for t, v in days
        )
        self.setAccessibleDescription(", ".join(words))
        self.update()
        return any(s is not None and s.applies for s in (crop.emergence_days, crop.normal_seedlings))

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look, crop = self.look.now, self.crop
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.field)
        if crop is None:
            return
        area = QRectF(46, 26, self.width() - 100, self.height() - 58)
        days, share = _points(crop.emergence_days), _points(crop.normal_seedlings)
        most = max([value for _, value in days], default=30)
        top = next(scale for scale in _DAY_SCALES if scale >= most or scale == _DAY_SCALES[-1])
        painter.setFont(letters(9))

        def place(temperature: float, part: float) -> QPointF:
            return QPointF(
                area.left() + temperature / WARMEST * area.width(), area.bottom() - part * area.height()
            )

        self._paint_temperatures(painter, area, place)
        self._paint_scales(painter, area, top, with_share=bool(share))
        self._paint_best(painter, crop, area, place)
        ink = plant_symbols.colour(family_ink(crop.family, dark=look.dark).line_rgb)
        _paint_curve(painter, [place(t, part) for t, part in share], look.pencil, dashed=True)
        _paint_curve(painter, [place(t, min(value / top, 1)) for t, value in days], ink)
        painter.setPen(ink)
        painter.drawText(QPointF(area.left() - 40, 16), say("● days to emergence"))
        if share:
            painter.setPen(look.pencil)
            head = QRectF(area.left(), 2, area.width() + 46, 18)
            painter.drawText(head, Qt.AlignmentFlag.AlignRight, say("○ normal seedlings"))
        painter.end()

    def _paint_temperatures(self, painter: QPainter, area: QRectF, place: _Place) -> None:
        """Lines at every five degrees, with their numbers and unit below."""
        look = self.look.now
        for temperature in range(0, WARMEST + 1, 5):
            x = place(temperature, 0).x()
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()))
            painter.setPen(look.pencil)
            label = f"{temperature}" if self.celsius else f"{temperature * 9 / 5 + 32:.0f}"
            below = QRectF(x - 20, area.bottom() + 3, 40, 16)
            painter.drawText(below, Qt.AlignmentFlag.AlignCenter, label)
        unit = say("soil temperature, °C") if self.celsius else say("soil temperature, °F")
        below = QRectF(area.left(), area.bottom() + 17, area.width(), 16)
        painter.drawText(below, Qt.AlignmentFlag.AlignCenter, unit)

    def _paint_scales(self, painter: QPainter, area: QRectF, top: float, *, with_share: bool) -> None:
        """Days at the left, the share of seedlings at the right."""
        look = self.look.now
        for i in range(5):
            y = area.bottom() - i / 4 * area.height()
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))
            painter.setPen(look.ink)
            painter.drawText(QRectF(4, y - 8, 36, 16), Qt.AlignmentFlag.AlignRight, short_number(top * i / 4))
            if with_share:
                painter.setPen(look.pencil)
                beside = QRectF(area.right() + 6, y - 8, 44, 16)
                painter.drawText(beside, Qt.AlignmentFlag.AlignLeft, percent(i / 4))

    def _paint_best(self, painter: QPainter, crop: Crop, area: QRectF, place: _Place) -> None:
        best = crop.number("soil_best")
        if best is None:
            return
        x = place(best, 0).x()
        painter.setPen(QPen(self.look.now.accent, 1, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()))
        painter.drawText(QPointF(x + 3, area.top() - 3), say("best"))


def _points(series: Series | None) -> tuple[tuple[float, float], ...]:
    return series.at if series is not None and series.applies else ()


def _paint_curve(painter: QPainter, points: list[QPointF], ink: QColor, *, dashed: bool = False) -> None:
    if not points:
        return
    painter.setPen(QPen(ink, 1.6, Qt.PenStyle.DashLine if dashed else Qt.PenStyle.SolidLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolyline(QPolygonF(points))
    painter.setPen(QPen(ink, 1.4))
    for point in points:
        painter.setBrush(Qt.BrushStyle.NoBrush if dashed else ink)
        painter.drawEllipse(point, 3, 3)
