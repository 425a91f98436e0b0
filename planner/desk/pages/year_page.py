"""The year of the whole garden: beds down, months across, and the work of a week to tick off."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import QFontMetricsF, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QComboBox,
    QDateEdit,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSplitter,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.amounts.tasks import tasks
from planner.desk.canvas.planting_bar import paint_bar
from planner.desk.forms.fields import date_of
from planner.desk.forms.wrapped import WrappedItems
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch, letters
from planner.garden import Bed, Planting, edits
from planner.season.tasks import Task, monday

#: Height of the months' line; least height of a bed's row; height of a lane in it. [pixels]
HEAD, ROW, LANE = 24, 24, 17
NAMES = 130
_DAY = dt.timedelta(days=1)
_TASK_ROLE = Qt.ItemDataRole.UserRole


def lanes_of(spans: list[tuple[dt.date, dt.date]]) -> list[int]:
    """A lane for each span so that spans of a lane share no day; the fewest lanes."""
    ends: list[dt.date] = []
    found = [0] * len(spans)
    for i in sorted(range(len(spans)), key=lambda i: spans[i]):
        first, last = spans[i]
        free = next((lane for lane, end in enumerate(ends) if end < first), None)
        if free is None:
            ends.append(last)
            free = len(ends) - 1
        else:
            ends[free] = last
        found[i] = free
    return found


class YearChart(QWidget):
    """All beds over the year; bare ground shows as bare.

    Signals
    -------
    picked : str
        A planting or bed that was clicked.
    """

    picked = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.setAccessibleName("All beds over the year")
        self._rows: list[tuple[Bed, float, list[tuple[Planting, int]], int]] = []
        self._dragging = False
        document.garden_settled.connect(self.follow)
        document.year_changed.connect(self.follow)
        document.day_changed.connect(self.update)
        document.selection_changed.connect(self.update)
        look.changed.connect(self.update)
        self.follow()

    def follow(self) -> None:
        """Bring the rows in step with the plan."""
        plan = self.document.plan
        self._rows, top = [], float(HEAD)
        for bed in plan.beds:
            plantings = plan.in_bed(bed)
            spans = [(plan.span_of(p).first, plan.span_of(p).last) for p in plantings]
            lanes = lanes_of(spans)
            count = max(lanes, default=0) + 1
            self._rows.append((bed, top, list(zip(plantings, lanes, strict=True)), count))
            top += max(ROW, count * LANE + 7)
        self.setMinimumHeight(round(top) + 8)
        self.setMinimumWidth(560)
        self.update()

    def x_of(self, day: dt.date) -> float:
        """Place of a day's beginning. [pixels]"""
        span = self.document.plan.span
        return NAMES + (day - span.first).days / span.days * (self.width() - NAMES - 12)

    def day_at(self, x: float) -> dt.date:
        """The day at a place. [pixels]"""
        span = self.document.plan.span
        days = int((x - NAMES) / (self.width() - NAMES - 12) * span.days)
        return span.first + _DAY * min(max(days, 0), span.days - 1)

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        position = event.position()
        if position.x() >= NAMES:
            self._dragging = True
            self.document.show_day(self.day_at(position.x()))
        for bed, top, plantings, count in self._rows:
            if top <= position.y() < top + max(ROW, count * LANE + 7):
                day = self.day_at(position.x())
                lane = int((position.y() - top - 3) // LANE)
                hit = [p.id for p, at in plantings if at == lane and self.document.plan.span_of(p).holds(day)]
                self.picked.emit(hit[0] if hit and position.x() >= NAMES else bed.id)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._dragging:
            self.document.show_day(self.day_at(event.position().x()))

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._dragging = False

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look, plan = self.look.now, self.document.plan
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.sheet)
        painter.setFont(letters(9, bold=True))
        metrics = QFontMetricsF(painter.font())
        left, right = NAMES, self.width() - 12
        for bed, top, _plantings, count in self._rows:
            height = max(ROW, count * LANE + 7)
            painter.fillRect(QRectF(left, top + 2, right - left, height - 4), look.soil)
            painter.setPen(look.accent if bed.id in self.document.selection else look.ink)
            painter.setFont(letters(9, bold=True))
            text = metrics.elidedText(bed.name, Qt.TextElideMode.ElideRight, NAMES - 16)
            painter.drawText(QRectF(8, top, NAMES - 12, ROW), Qt.AlignmentFlag.AlignVCenter, text)
        self._months(painter, plan.span.first, plan.span.last)
        for _bed, top, plantings, _count in self._rows:
            for planting, lane in plantings:
                chosen = planting.id in self.document.selection
                at = top + 3 + lane * LANE
                paint_bar(painter, self, look, planting, at, LANE + 3, chosen=chosen)
                self._name(painter, planting, at)
        if self.document.day is not None:
            x = self.x_of(self.document.day)
            painter.setPen(QPen(look.accent, 1.6))
            painter.drawLine(QPointF(x, 4), QPointF(x, self.height()))
        painter.end()

    def _name(self, painter: QPainter, planting: Planting, top: float) -> None:
        look, plan = self.look.now, self.document.plan
        span, year = plan.span_of(planting), plan.span
        left, right = self.x_of(max(span.first, year.first)), self.x_of(min(span.last, year.last) + _DAY)
        crop = self.document.catalogue.get(planting.crop)
        painter.setFont(letters(9))
        metrics = QFontMetricsF(painter.font())
        text = metrics.elidedText(
            crop.name if crop else planting.crop, Qt.TextElideMode.ElideRight, right - left - 10
        )
        if len(text) < 3:
            return
        place = QRectF(left + 3, top + 3, metrics.horizontalAdvance(text) + 5, LANE - 3)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRoundedRect(place, 2, 2)
        painter.setPen(look.ink)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, text)

    def _months(self, painter: QPainter, first: dt.date, last: dt.date) -> None:
        look = self.look.now
        painter.setFont(letters(9))
        day = first
        while day <= last:
            x = round(self.x_of(day)) + 0.5
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(x, 4), QPointF(x, self.height()))
            painter.setPen(look.pencil)
            painter.drawText(QPointF(x + 4, 16), f"{day:%b}")
            day = (day.replace(day=1) + _DAY * 32).replace(day=1)


class YearPage(QWidget):
    """Board and week.

    Signals
    -------
    said : str
    """

    said = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.setAccessibleName("Year")
        self.board = YearChart(document, look)
        self.board.picked.connect(lambda key: document.select((key,)))
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setWidget(self.board)
        self.list = QTreeWidget()
        self.list.setAccessibleName("Work of the week")
        self.list.setHeaderHidden(True)
        self.list.setRootIsDecorated(False)
        self.list.setWordWrap(True)
        self._delegate = WrappedItems(self.list, 60)
        self.list.setItemDelegate(self._delegate)
        self.list.setIndentation(12)
        self.list.itemChanged.connect(self._ticked)
        self.list.itemSelectionChanged.connect(self._chosen)
        self.week = QLabel()
        self.week.setFont(letters(10, bold=True))
        before, after = QPushButton("Week before"), QPushButton("Week after")
        before.clicked.connect(lambda: self._step(-7))
        after.clicked.connect(lambda: self._step(7))
        self.bed = QComboBox()
        self.bed.setAccessibleName("Bed")
        self.kind = QComboBox()
        self.kind.setAccessibleName("Kind of work")
        for box in (self.bed, self.kind):
            box.activated.connect(lambda _i: self._fill())
        self.done = QDateEdit()
        self.done.setAccessibleName("Done on")
        self.done.setDisplayFormat("d MMM yyyy")
        self.done.setCalendarPopup(True)
        head, filters, foot = QHBoxLayout(), QHBoxLayout(), QHBoxLayout()
        head.addWidget(self.week, 1)
        head.addWidget(before)
        head.addWidget(after)
        filters.addWidget(self.bed, 1)
        filters.addWidget(self.kind, 1)
        foot.addWidget(QLabel("Ticked off as done on"))
        foot.addWidget(self.done)
        foot.addStretch(1)
        side = QWidget()
        column = QVBoxLayout(side)
        column.setContentsMargins(10, 8, 10, 8)
        column.addLayout(head)
        column.addLayout(filters)
        column.addWidget(self.list, 1)
        column.addLayout(foot)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.addWidget(area)
        split.addWidget(side)
        split.setStretchFactor(0, 1)
        split.setSizes([700, 380])
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(split)
        self._filling = False
        self.shown: list[Task] = []
        document.garden_settled.connect(self.refresh)
        document.year_changed.connect(self.refresh)
        document.day_changed.connect(self.refresh)

    @property
    def monday(self) -> dt.date:
        """First day of the week shown: that of the day shown on the sheet."""
        return monday(self.document.day or self.document.plan.span.first)

    def _step(self, days: int) -> None:
        day = self.document.day or self.document.plan.span.first
        self.document.show_day(day + _DAY * days)

    def refresh(self) -> None:
        """Show what holds now (only while the page can be seen)."""
        if self.isVisible():
            self._fill()

    @override
    def showEvent(self, event) -> None:
        super().showEvent(event)
        self.refresh()

    def _choices(self, found: tuple[Task, ...]) -> None:
        for box, words, names in (
            (self.bed, "all beds", sorted({task.bed_name for task in found})),
            (self.kind, "all work", sorted({task.kind for task in found})),
        ):
            now = box.currentText()
            box.clear()
            box.addItems([words, *names])
            box.setCurrentIndex(max(0, box.findText(now)))

    def _fill(self) -> None:
        first = self.monday
        last = first + _DAY * 6
        found = tasks(self.document.plan, first, last)
        self._choices(found)
        bed = self.bed.currentText() if self.bed.currentIndex() > 0 else ""
        kind = self.kind.currentText() if self.kind.currentIndex() > 0 else ""
        self.shown = [t for t in found if bed in ("", t.bed_name) and kind in ("", t.kind)]
        self.week.setText(f"{first:%d %b} to {last:%d %b %Y}")
        # A day is proposed for ticks; the person corrects it.
        today = dt.date.today()
        day = today if first <= today <= last else self.document.day or first
        self.done.setDate(day)
        self._filling = True
        self.list.clear()
        begun = [task for task in self.shown if task.date < first and not task.done]
        fresh = [task for task in self.shown if task not in begun]
        for title, part in (("This week", fresh), ("Going on", begun)):
            if part:
                head = QTreeWidgetItem([title])
                head.setFont(0, letters(9, bold=True))
                self.list.addTopLevelItem(head)
                for task in part:
                    head.addChild(self._item(task))
                head.setExpanded(True)
        if not self.shown:
            self.list.addTopLevelItem(QTreeWidgetItem(["Nothing to do in this week."]))
        self._filling = False

    def _item(self, task: Task) -> QTreeWidgetItem:
        item = QTreeWidgetItem([self._words(task)])
        item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
        item.setCheckState(0, Qt.CheckState.Checked if task.done else Qt.CheckState.Unchecked)
        item.setData(0, _TASK_ROLE, task)
        item.setToolTip(0, task.why)
        if task.done:
            item.setForeground(0, self.look.now.pencil)
        return item

    @staticmethod
    def _words(task: Task) -> str:
        days = (
            f"{task.date:%a %d %b}" if task.date == task.until else f"{task.date:%d %b} to {task.until:%d %b}"
        )
        pinned = " (pinned)" if task.origin == "by hand" else ""
        done = f", done on {task.done:%d %b}" if task.done else ""
        return f"{days}{pinned}{done}: {task.text}"

    def _ticked(self, item: QTreeWidgetItem, _column: int) -> None:
        task = item.data(0, _TASK_ROLE)
        if self._filling or not isinstance(task, Task):
            return
        checked = item.checkState(0) == Qt.CheckState.Checked
        day = date_of(self.done)
        # Later: the list is filled anew by it, and must not lose the item that is telling of its tick.
        QTimer.singleShot(0, self, lambda: self._tick(task, checked, day))

    def _tick(self, task: Task, checked: bool, day: dt.date) -> None:
        if checked:
            words = f"Tick off: {task.kind} {task.crop}"
            done = self.document.edit(words, lambda g: edits.tick(g, task.planting, task.kind, day))
        else:
            words = f"Take back: {task.kind} {task.crop}"
            done = self.document.edit(words, lambda g: edits.untick(g, task.planting, task.kind))
        if not done:
            self._fill()

    def _chosen(self) -> None:
        keys = [t.planting for i in self.list.selectedItems() if isinstance(t := i.data(0, _TASK_ROLE), Task)]
        if keys:
            self.document.select(keys)
