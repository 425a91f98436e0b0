"""Direct sun of a bed or planting: hours on the day, over the months, and what takes them."""

from __future__ import annotations

import datetime as dt
import threading
from dataclasses import dataclass, field

from PySide6.QtCore import QObject, QRectF, QRunnable, Qt, QThreadPool, QTimer, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.model.document import Document
from planner.desk.theme.palette import letters
from planner.errors import BedwrightError
from planner.garden import Bed, Planting
from planner.light import AreaSunHours, Shade, hours_over, on_day, sample_days, shade_sources
from planner.plan import Plan
from planner.season.spans import Span

#: Hours at the full height of a bar.
FULL = 16.0


@dataclass(frozen=True)
class Sun:
    """What is told of a bed or planting."""

    key: str
    on_day: AreaSunHours | None = None
    over_days: AreaSunHours | None = None
    months: tuple[tuple[dt.date, AreaSunHours], ...] = ()
    taken: tuple[Shade, ...] = ()
    why_not: str = ""


@dataclass
class _Ask:
    plan: Plan
    thing: Bed | Planting
    day: dt.date
    stop: threading.Event = field(default_factory=threading.Event)


def work_out(ask: _Ask) -> Sun | None:
    """Hours of a bed or planting; None where it was stopped."""
    plan, thing = ask.plan, ask.thing
    try:
        place = plan.place
    except BedwrightError as error:
        return Sun(thing.id, why_not=str(error))
    receiver = plan.ground_of(thing)
    if receiver.shape.is_empty:
        return Sun(thing.id)
    stopped = ask.stop.is_set

    def light(days) -> AreaSunHours | None:
        return hours_over([receiver], place, days, plan.casters, cancelled=stopped).get(thing.id)

    months = []
    for number in range(12):
        month = (plan.span.first.month - 1 + number) % 12 + 1
        year = plan.span.first.year + (month < plan.span.first.month)
        day = dt.date(year, month, 15)
        if isinstance(thing, Planting) and not _stands_in(plan.span_of(thing), day):
            continue
        found = light(on_day(day))
        if stopped():
            return None
        if found is not None:
            months.append((day, found))
    over, taken = None, ()
    if isinstance(thing, Planting):
        span = plan.span_of(thing)
        within = Span(max(span.first, plan.span.first), min(span.last, plan.span.last))
        if within.first <= within.last:
            days = sample_days(within, 6)
            over = light(days)
            if stopped():
                return None
            taken = shade_sources(receiver, place, days, plan.casters)[:3]
    return None if stopped() else Sun(thing.id, light(on_day(ask.day)), over, tuple(months), taken)


def _stands_in(span: Span, day: dt.date) -> bool:
    return span.first <= day + dt.timedelta(days=15) and span.last >= day - dt.timedelta(days=14)


class _Told(QObject):
    found = Signal(object)


class _Job(QRunnable):
    def __init__(self, ask: _Ask, told: _Told) -> None:
        super().__init__()
        self.ask, self.told = ask, told

    def run(self) -> None:
        """Work it out beside the window, on a plan of its own."""
        try:
            found = work_out(self.ask)
            if found is not None:
                self.told.found.emit(found)
        except RuntimeError:  # the window went meanwhile
            return


class SunBars(QWidget):
    """A line of words and a bar for each month."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.sun: Sun | None = None
        self._key = ""
        self._asked: tuple[object, ...] = ()
        self._ask: _Ask | None = None
        self._told = _Told(self)
        self._told.found.connect(self._take)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.bars = _Bars(self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(self.words)
        column.addWidget(self.bars)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(150)
        self._later.timeout.connect(self._start)
        document.day_changed.connect(lambda: self.show_thing(self._key))

    def show_thing(self, key: str) -> None:
        """Take another bed or planting; its numbers follow in a moment."""
        self._key = key
        if self._ask is not None:
            self._ask.stop.set()
        if self.sun is not None and self.sun.key != key:
            self.sun = None
            self.words.setText("…")
            self.bars.update()
        if key and self.isVisible():
            self._later.start()

    @override
    def showEvent(self, event) -> None:
        super().showEvent(event)
        self.show_thing(self._key)

    def _start(self) -> None:
        plan, garden = self.document.plan, self.document.garden
        thing = garden.beds_by_id.get(self._key) or garden.plantings_by_id.get(self._key)
        day = self.document.moment.date()
        asked = (plan, thing, day)
        if thing is None or (asked == self._asked and self.sun is not None and self.sun.key == self._key):
            return
        self._asked = asked
        self._ask = _Ask(plan.after(plan.garden), thing, day)
        QThreadPool.globalInstance().start(_Job(self._ask, self._told))

    def _take(self, sun: Sun) -> None:
        if sun.key != self._key:
            return
        self.sun = sun
        self.words.setText(self._line(sun))
        self.bars.setAccessibleDescription(
            ", ".join(f"{day:%B} {light.mean:.1f} hours" for day, light in sun.months)
        )
        self.bars.setVisible(bool(sun.months))
        self.bars.update()

    def _line(self, sun: Sun) -> str:
        if sun.why_not:
            return sun.why_not
        lines = []
        if sun.on_day is not None:
            light = sun.on_day
            lines.append(
                f"{light.mean:.1f} h of direct sun on {self.document.moment:%d %b} "
                f"({light.least:.1f} to {light.best:.1f}; {light.unshaded:.1f} unshaded)"
            )
        if sun.over_days is not None:
            planting = self.document.garden.plantings_by_id.get(sun.key)
            need = self.document.plan.figures_of(planting).number("sun_hours") if planting else None
            wants = f"; it wants {need:g} h" if need else ""
            lines.append(f"{sun.over_days.mean:.1f} h a day over its days{wants}")
        if sun.taken:
            lines.append(
                "Taken by " + ", ".join(f"{t.name} {t.hours:.1f} h" for t in sun.taken if t.hours >= 0.05)
            )
        return "\n".join(line for line in lines if line != "Taken by ")


class _Bars(QWidget):
    def __init__(self, owner: SunBars) -> None:
        super().__init__()
        self.owner = owner
        self.setFixedHeight(62)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Hours of direct sun by month")

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        sun = self.owner.sun
        if sun is None or not sun.months:
            return
        painter = QPainter(self)
        palette = self.palette()
        painter.setFont(letters(9))
        width, height = self.width() / 12, self.height() - 17.0
        first = self.owner.document.plan.span.first
        for day, light in sun.months:
            column = ((day.year - first.year) * 12 + day.month - first.month) % 12
            x = column * width
            for hours, brush in ((light.unshaded, palette.mid()), (light.mean, palette.highlight())):
                high = min(hours / FULL, 1.0) * (height - 12)
                painter.fillRect(QRectF(x + 3, height - high, width - 6, high), brush)
            painter.setPen(QPen(palette.windowText().color(), 1))
            top = height - min(light.unshaded / FULL, 1.0) * (height - 12)
            painter.drawText(
                QRectF(x, top - 15, width, 14), Qt.AlignmentFlag.AlignCenter, f"{light.mean:.0f}"
            )
            painter.drawText(QRectF(x, height + 1, width, 15), Qt.AlignmentFlag.AlignCenter, f"{day:%b}"[:1])
        painter.end()
