"""Small drawings of the crop page: the year of a crop, and germination over soil temperature."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.crops import Crop
from planner.desk.model.document import Document
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import LookSwitch, letters
from planner.season.counting_back import latest_start

_DAY = dt.timedelta(days=1)


class YearBar(QWidget):
    """When a crop is sown, set out and ripe, against this garden's frosts where they are known."""

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.crop: Crop | None = None
        self.setFixedHeight(92)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Year of the crop")

    def show_crop(self, crop: Crop) -> None:
        """Take another crop."""
        self.crop = crop
        self.setAccessibleDescription("; ".join(f"{w}: {a:%d %b} to {b:%d %b}" for w, a, b, _ in self.bars()))
        self.update()

    def frosts(self) -> tuple[dt.date, dt.date, bool]:
        """Last and first frost of the year shown, and whether the garden knows them."""
        plan = self.document.plan
        climate = plan.garden.climate
        south = (plan.garden.site.latitude or 0) < 0
        known = climate.last_frost is not None and climate.first_frost is not None
        frosts = plan.frosts()
        if frosts.last is not None and frosts.autumn is not None:
            return frosts.last, frosts.autumn, known
        last, first = ("09-25", "05-10") if south else ("05-05", "10-10")
        return _within(plan.span.first, last), _within(plan.span.first, first), known

    def counted_back(self, field: str) -> str | None:
        """The last day to sow or set out where only the autumn frost sets it; None where something else does."""
        latest = self._counted_back(field) if self.frosts()[2] else None
        return f"{latest.day} {latest:%b}" if latest is not None else None

    def _counted_back(self, field: str) -> dt.date | None:
        way = {"sow_until": "sown", "set_out_until": "raised"}.get(field)
        if self.crop is None or way is None or self.crop.number(field.replace("until", "from")) is None:
            return None
        entry = getattr(self.crop, field)
        return None if entry is None or entry.applies else latest_start(self.crop, way, self.frosts()[1])

    def bars(self) -> list[tuple[str, dt.date, dt.date, str]]:
        """Words, first and last day, and kind of each bar."""
        crop = self.crop
        if crop is None:
            return []
        last, first, _ = self.frosts()
        found = []
        for words, low, high, frost, kind in (
            ("sow", "sow_from", "sow_until", last, "sow"),
            ("set out", "set_out_from", "set_out_until", last, "out"),
            ("autumn planting", "autumn_from", "autumn_until", first, "out"),
        ):
            a, b = crop.number(low), crop.number(high)
            if a is None:
                continue
            begin = frost + _DAY * round(a * 7)
            end = frost + _DAY * round((a + 2 if b is None else b) * 7)
            end = max(self._counted_back(high) or end, begin)
            found.append((words, begin, end, kind))
        days = crop.number("days_to_maturity")
        begins = [bar for bar in found if bar[0] != "autumn planting"] or found
        if days is not None and begins and crop.life_cycle != "perennial":
            counted = crop.maturity_from.value if crop.maturity_from else "sowing"
            base = next(
                (bar for bar in begins if (bar[0] == "set out") == (counted == "setting out")), begins[0]
            )
            found.append(self._harvest(crop, base[1], "raised" if base[0] == "set out" else "sown", days))
        return found

    def _harvest(
        self, crop: Crop, begin: dt.date, start: str, days: float
    ) -> tuple[str, dt.date, dt.date, str]:
        """The bar of the harvest: as the garden's own dates have it, by days alone where it has none."""
        ways = crop.starts.value if crop.starts else ()
        dates = self.document.plan.usual_dates(crop, start if start in ways else "")
        words = "harvest, if begun at the earliest"
        if not dates.ripens and start == "sown" and "raised" in ways:
            dates, words = self.document.plan.usual_dates(crop, "raised"), "harvest, if raised under cover"
        if not dates.ripens:
            words, frost = "does not ripen in the open here", self.frosts()[1]
            return words, frost, frost, "pick"
        if dates.first_harvest is not None and self.frosts()[2]:
            ripe = dates.first_harvest.day
            over = dates.last_harvest.day if dates.last_harvest is not None else ripe + 14 * _DAY
            return words, ripe, over, "pick"
        ripe = begin + _DAY * round(days)
        return words, ripe, ripe + _DAY * round(crop.number("harvest_days") or 14), "pick"

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look, span = self.look.now, self.document.plan.span
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.field)
        left, width = 10.0, self.width() - 20.0

        def x_of(day: dt.date) -> float:
            return left + min(max((day - span.first).days / span.days, 0.0), 1.0) * width

        last, first, known = self.frosts()
        cold = QColor(look.glass)
        cold.setAlphaF(0.18)
        if last < first:
            painter.fillRect(QRectF(left, 20, x_of(last) - left, 66), cold)
            painter.fillRect(QRectF(x_of(first), 20, left + width - x_of(first), 66), cold)
        else:
            painter.fillRect(QRectF(x_of(first), 20, x_of(last) - x_of(first), 66), cold)
        painter.setFont(letters(9))
        day = span.first
        while day <= span.last:
            x = x_of(day)
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(x, 4), QPointF(x, 86))
            painter.setPen(look.pencil)
            painter.drawText(QPointF(x + 3, 15), f"{day:%b}")
            day = (day.replace(day=1) + _DAY * 32).replace(day=1)
        if self.crop is None:
            return
        ink = plant_symbols.family_ink(self.crop.family, dark=look.dark)
        for i, (words, begin, end, kind) in enumerate(self.bars()):
            top = 24 + i * 15
            rect = QRectF(x_of(begin), top, max(x_of(end) - x_of(begin), 3), 10)
            painter.setPen(
                QPen(
                    plant_symbols.colour(ink.line_rgb),
                    1,
                    Qt.PenStyle.DashLine if kind == "sow" else Qt.PenStyle.SolidLine,
                )
            )
            painter.setBrush(
                plant_symbols.colour(ink.line_rgb) if kind == "pick" else plant_symbols.colour(ink.tint_rgb)
            )
            painter.drawRect(rect)
            painter.setPen(look.ink)
            room = painter.fontMetrics().horizontalAdvance(words) + 8
            at = rect.right() + 5 if rect.right() + room < self.width() else rect.left() - room
            painter.drawText(QPointF(at, top + 10), words)
        if not known:
            painter.setPen(look.pencil)
            text = "frost dates of this garden are not set: an example is shown"
            painter.drawText(QRectF(left, 74, width, 16), Qt.AlignmentFlag.AlignRight, text)
        painter.end()


def _within(first: dt.date, text: str) -> dt.date:
    month, number = int(text[:2]), int(text[3:])
    for year in (first.year, first.year + 1):
        try:
            day = dt.date(year, month, number)
        except ValueError:  # 29 February in a common year
            day = dt.date(year, 3, 1)
        if day >= first:
            return day
    return first


class GerminationPlot(QWidget):
    """Days to emergence, and the share of seed that comes up, over soil temperature."""

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self.look = look
        self.crop: Crop | None = None
        self.celsius = True
        self.setFixedHeight(190)
        self.setAccessibleName("Germination by soil temperature")

    def show_crop(self, crop: Crop, *, celsius: bool) -> bool:
        """Take another crop; returns whether anything is known to plot."""
        self.crop, self.celsius = crop, celsius
        days = crop.emergence_days
        words = (
            ", ".join(f"{v:g} days at {t:g} degrees Celsius" for t, v in days.at)
            if days and days.applies
            else ""
        )
        self.setAccessibleDescription(words)
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
        days = crop.emergence_days.at if crop.emergence_days and crop.emergence_days.applies else ()
        share = crop.normal_seedlings.at if crop.normal_seedlings and crop.normal_seedlings.applies else ()
        most = max([v for _, v in days], default=30)
        top = next(v for v in (10, 15, 20, 30, 40, 60, 80, 100, 200, 400) if v >= most or v == 400)
        painter.setFont(letters(9))

        def x_of(t: float) -> float:
            return area.left() + t / 40 * area.width()

        for t in range(0, 41, 5):
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(x_of(t), area.top()), QPointF(x_of(t), area.bottom()))
            painter.setPen(look.pencil)
            label = f"{t}" if self.celsius else f"{t * 9 / 5 + 32:.0f}"
            painter.drawText(
                QRectF(x_of(t) - 20, area.bottom() + 3, 40, 16), Qt.AlignmentFlag.AlignCenter, label
            )
        unit = "soil temperature, °C" if self.celsius else "soil temperature, °F"
        painter.drawText(
            QRectF(area.left(), area.bottom() + 17, area.width(), 16), Qt.AlignmentFlag.AlignCenter, unit
        )
        for i in range(5):
            y = area.bottom() - i / 4 * area.height()
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))
            painter.setPen(look.ink)
            painter.drawText(QRectF(4, y - 8, 36, 16), Qt.AlignmentFlag.AlignRight, f"{top * i / 4:g}")
            if share:
                painter.setPen(look.pencil)
                painter.drawText(
                    QRectF(area.right() + 6, y - 8, 44, 16), Qt.AlignmentFlag.AlignLeft, f"{25 * i} %"
                )
        self._best(painter, area, x_of)
        ink = plant_symbols.colour(plant_symbols.family_ink(crop.family, dark=look.dark).line_rgb)
        self._curve(
            painter,
            [QPointF(x_of(t), area.bottom() - v * area.height()) for t, v in share],
            look.pencil,
            dashed=True,
        )
        self._curve(
            painter, [QPointF(x_of(t), area.bottom() - min(v / top, 1) * area.height()) for t, v in days], ink
        )
        painter.setPen(ink)
        painter.drawText(QPointF(area.left() - 40, 16), "● days to emergence")
        if share:
            painter.setPen(look.pencil)
            text = "○ normal seedlings"
            painter.drawText(QRectF(area.left(), 2, area.width() + 46, 18), Qt.AlignmentFlag.AlignRight, text)
        painter.end()

    def _best(self, painter: QPainter, area: QRectF, x_of) -> None:
        crop = self.crop
        assert crop is not None
        best = crop.number("soil_best")
        if best is None:
            return
        painter.setPen(QPen(self.look.now.accent, 1, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(x_of(best), area.top()), QPointF(x_of(best), area.bottom()))
        painter.drawText(QPointF(x_of(best) + 3, area.top() + 11), "best")

    @staticmethod
    def _curve(painter: QPainter, points: list[QPointF], ink: QColor, *, dashed: bool = False) -> None:
        if not points:
            return
        painter.setPen(QPen(ink, 1.6, Qt.PenStyle.DashLine if dashed else Qt.PenStyle.SolidLine))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(QPolygonF(points))
        painter.setPen(QPen(ink, 1.4))
        for point in points:
            painter.setBrush(Qt.BrushStyle.NoBrush if dashed else ink)
            painter.drawEllipse(point, 3, 3)
