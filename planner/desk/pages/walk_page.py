"""A walk entered with the keyboard alone: bed after bed in walking order, a line for each thing that was seen or done."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QListWidget, QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.forms.day_field import DayField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.forms.record_entry import RecordEntry
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.walk_work import WalkWork, work_line
from planner.desk.theme.palette import letters
from planner.garden import Garden, edits
from planner.garden.records import RecordBase
from planner.garden.units import month_first
from planner.listings.record_words import KIND_WORDS, lesson_lines, record_place, record_sentence
from planner.listings.tasks import task_words
from planner.listings.walk import WalkStop, standing_words, walk_goes_on, walk_stops
from planner.plan import Plan
from planner.plan.recorded import lessons_in_plan, records_of_bed
from planner.words import full_day_words, join_list, say, say_count
from planner.words.recent_days import recent_day_as_typed

#: Breadth of the list of beds. [pixels]
_LIST_WIDTH = 170
#: A narrower page has no list of beds. [pixels]
NARROW = 430
#: A line of numbers alone ticks off the work that has them.
_NUMBERS = re.compile(r"\d{1,2}(?:[\s,]+\d{1,2})*")


class WalkPage(QWidget):
    """The beds in walking order; Enter in an empty line goes to the next.

    Letters and numbers stay as they are until the page is left or another day is chosen; a line that is not entered yet
    stays with its bed.

    Attributes
    ----------
    at : int
        Number of the bed shown, from 0.

    Signals
    -------
    said : str
        A line for the status bar.
    """

    said = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Walk"))
        self.stops: tuple[WalkStop, ...] = ()
        self.at = 0
        self._begun: tuple[dt.date, tuple[WalkStop, ...]] | None = None
        self._lines: dict[str, str] = {}
        self._line_of = ""
        self.day = DayField(say("Day of the walk"), dt.date.today(), self._read_day)
        self.day.typed.connect(self._change_day)
        self.beds = QListWidget()
        self.beds.setAccessibleName(say("Beds in walking order"))
        self.beds.setFixedWidth(_LIST_WIDTH)
        self.beds.currentRowChanged.connect(self._choose)
        self.name = QLabel()
        self.name.setFont(letters(15, bold=True))
        self.name.setTextFormat(Qt.TextFormat.PlainText)
        self.stands, self.happened = wrapped_label(), wrapped_label(second=True)
        self.work = WalkWork()
        self.work.clicked.connect(self._on_box_clicked)
        self.entry = RecordEntry(document, self._about)
        self.entry.today = lambda: self.day.day
        self.entry.read_otherwise = self._read_numbers
        self.hint = wrapped_label(second=True)
        self.hint.setText(
            say(
                "Begin with the letter of a planting, or type the number of work that is done, or click its box. Enter in an "
                "empty line goes on, Shift and Enter goes back."
            )
        )
        self.entry.line.installEventFilter(self)
        self._lay_out()
        self.seen = WhenSeen(self, self.refresh)
        self.seen.follow()
        document.garden_settled.connect(self.seen.follow)
        document.year_changed.connect(self.seen.follow)
        document.opened.connect(self._begin_anew)

    def _lay_out(self) -> None:
        head = FlowLayout()
        head.add_group(QLabel(say("Walk of")), self.day)
        before, after = QPushButton(say("Bed before")), QPushButton(say("Next bed"))
        before.clicked.connect(lambda: self.go(-1))
        after.clicked.connect(lambda: self.go(1))
        head.addWidget(before)
        head.addWidget(after)
        card = QVBoxLayout()
        card.addWidget(self.name)
        card.addWidget(self.stands)
        card.addWidget(self.work)
        card.addWidget(self.entry)
        card.addWidget(self.happened)
        card.addWidget(self.hint)
        card.addStretch(1)
        row = QHBoxLayout()
        row.addWidget(self.beds)
        row.addSpacing(10)
        row.addLayout(card, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addLayout(row, 1)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.entry.line.setFocus(Qt.FocusReason.OtherFocusReason)

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        if not event.spontaneous():  # the page is left, the window is not only made small
            self._begun = None

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.beds.setVisible(self.width() >= NARROW)

    # -- where the walk is ------------------------------------------------------------------

    @property
    def stop(self) -> WalkStop | None:
        """The bed shown; None where no bed is in use."""
        return self.stops[self.at] if self.at < len(self.stops) else None

    def _about(self) -> tuple[str, ...]:
        return (self.stop.bed.id,) if self.stop is not None else ()

    def _read_day(self, text: str) -> dt.date:
        return recent_day_as_typed(
            text, dt.date.today(), month_first=month_first(self.document.garden.site.units)
        )

    def _change_day(self, _day: dt.date) -> None:
        self.refresh()

    def _begin_anew(self) -> None:
        self.at = 0
        self._begun = None
        self._lines, self._line_of = {}, ""
        self.entry.line.clear()
        self.seen.follow()

    def _choose(self, row: int) -> None:
        if row >= 0 and row != self.at:
            self.at = row
            self._show_stop()
            self.entry.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def go(self, by: int) -> None:
        """Go to another bed; after the last one it is said that the walk is over."""
        last = len(self.stops) - 1
        if self.at + by > last:
            self._say_it_is_over(last + 1)
            return
        self.at = max(self.at + by, 0)
        self.beds.setCurrentRow(self.at)
        self._show_stop()

    def _say_it_is_over(self, count: int) -> None:
        over = say_count("The walk of {count} bed is over", "The walk of {count} beds is over", count)
        self._keep_line()
        left = [stop.bed.name for stop in self.stops if self._lines.get(stop.bed.id, "").strip()]
        if left:
            over = say("{over}; a line is not entered yet in {beds}", over=over, beds=join_list(left))
        self.said.emit(over)

    def _keep_line(self) -> None:
        """Keep what is typed and not entered with the bed it was typed for."""
        if self._line_of:
            self._lines[self._line_of] = self.entry.line.text()

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the walk as it is now."""
        plan, day = self.entry.plan, self.day.day
        self.stops = walk_stops(plan, day)
        if self._begun is not None and self._begun[0] == day:
            self.stops = walk_goes_on(self._begun[1], self.stops, plan)
        self._begun = day, self.stops
        self.at = max(0, min(self.at, len(self.stops) - 1))
        blocked = self.beds.blockSignals(True)
        self.beds.clear()
        for number, stop in enumerate(self.stops, 1):
            words = say("{number}. {bed}", number=number, bed=stop.bed.name)
            entered = len(self._of_the_day(stop))
            self.beds.addItem(say("{bed} · {count}", bed=words, count=entered) if entered else words)
        self.beds.setCurrentRow(self.at)
        self.beds.blockSignals(blocked)
        self._show_stop()

    def _of_the_day(self, stop: WalkStop) -> list[RecordBase]:
        records = records_of_bed(self.entry.plan, stop.bed.id)
        return [one for one in records if one.day == self.day.day]

    def _show_stop(self) -> None:
        stop, plan = self.stop, self.entry.plan
        self.entry.setEnabled(stop is not None)
        self._show_line_of(stop)
        if stop is None:
            self.name.setText(say("No bed is in use on {day}", day=full_day_words(self.day.day)))
            for label in (self.stands, self.happened):
                label.clear()
            self.work.show_stop(None)
            return
        self.entry.called = {letter: one.id for letter, one in stop.plantings if letter}
        first = min(self.entry.called, default="a").lower()
        self.entry.line.setPlaceholderText(say("{letter} slugs, half of it", letter=first))
        self.name.setText(stop.bed.name)
        standing = [
            say("{letter}  {planting}", letter=letter, planting=standing_words(plan, one, self.day.day))
            for letter, one in stop.plantings
        ]
        self.stands.setText("\n".join(standing) if standing else say("Nothing stands here."))
        self.work.show_stop(stop)
        lines = lesson_lines(lessons_in_plan(plan, bed=stop.bed.id))
        lines += [_happened(plan, one) for one in self._of_the_day(stop) if one.kind != "lesson"]
        self.happened.setText("\n".join(lines))
        self.entry.show_meaning()

    def _show_line_of(self, stop: WalkStop | None) -> None:
        """Show the line that was begun for a bed."""
        key = stop.bed.id if stop is not None else ""
        if key != self._line_of:
            self._keep_line()
            self._line_of = key
            self.entry.line.setText(self._lines.get(key, ""))

    # -- keys -------------------------------------------------------------------------------

    def _read_numbers(self, text: str) -> tuple[str, bool] | None:
        """What a line of numbers alone ticks off, and whether it can; None of any other line."""
        stop = self.stop
        if stop is None or not _NUMBERS.fullmatch(text.strip()):
            return None
        lines = []
        for number in _numbers_in(text):
            if not 1 <= number <= len(stop.work):
                return say("There is no work {number} here", number=number), False
            task = stop.work[number - 1]
            if task.key in stop.needless:
                return work_line(number, stop), False
            words, _amount = task_words(task)
            if task.done is not None:
                day = full_day_words(task.done)
                return say(
                    "{number}  {work} is done already, on {day}", number=number, work=words, day=day
                ), False
            lines.append(
                say(
                    "{day}: {number}  {work} is ticked off",
                    day=full_day_words(self.day.day),
                    number=number,
                    work=words,
                )
            )
        return "\n".join(lines), True

    def tick(self, numbers: list[int]) -> bool:
        """Tick off the work of the bed that has some numbers, as one step."""
        stop, day = self.stop, self.day.day
        read = self._read_numbers(" ".join(map(str, numbers)))
        if stop is None or read is None:
            return False
        meaning, possible = read
        if not possible:
            self.entry.complain(meaning)
            return False
        tasks = [stop.work[number - 1] for number in dict.fromkeys(numbers)]

        def change(garden: Garden) -> Garden:
            for task in tasks:
                garden = edits.tick(garden, task.subject, task.kind, day, task.cover, bool(task.every))
            return garden

        return self._edit(
            say("Tick off work in {bed}", bed=stop.bed.name),
            change,
            say("Done: {work}", work=join_list(task_words(task)[0] for task in tasks)),
        )

    def take_back(self, number: int) -> bool:
        """Take back that the work of the bed which has a number is done."""
        stop = self.stop
        if stop is None:
            return False
        task = stop.work[number - 1]
        return self._edit(
            say("Take back work in {bed}", bed=stop.bed.name),
            lambda garden: edits.untick(
                garden, task.subject, task.kind, task.done, task.cover, bool(task.every)
            ),
            say("Not done: {work}", work=task_words(task)[0]),
        )

    def _edit(self, words: str, change: Callable[[Garden], Garden], told: str) -> bool:
        refused: list[str] = []
        connection = self.document.edit_refused.connect(refused.append)
        done = self.document.edit(words, change)
        self.document.edit_refused.disconnect(connection)
        if done:
            self.entry.tell(told)
            self.said.emit(told)
        elif refused:
            self.entry.complain(refused[0])
        return done

    def _on_box_clicked(self, number: int, checked: bool) -> None:
        done = self.tick([number]) if checked else self.take_back(number)
        if not done:
            self.work.show_stop(self.stop)
        self.entry.line.setFocus(Qt.FocusReason.OtherFocusReason)

    @override
    def eventFilter(self, watched: object, event: QEvent) -> bool:
        if event.type() != QEvent.Type.KeyPress or not isinstance(event, QKeyEvent):
            return False
        text, key = self.entry.line.text().strip(), event.key()
        if key in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp):
            self.go(1 if key == Qt.Key.Key_PageDown else -1)
            return True
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
                self.go(-1)
                return True
            if not text:
                self.go(1)
                return True
            if _NUMBERS.fullmatch(text):
                if self.tick(_numbers_in(text)):
                    self.entry.line.clear()
                return True
        return False


def _numbers_in(text: str) -> list[int]:
    return [int(number) for number in re.findall(r"\d+", text)]


def _happened(plan: Plan, record: RecordBase) -> str:
    what = record_sentence(plan.garden, record) or say(KIND_WORDS[record.kind])
    return say("{place}: {what}", place=record_place(plan, record), what=what)
