"""The drawing of a proposed layout with the slider of its day."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSlider, QVBoxLayout, QWidget

from planner.desk.pages.layout_picture import LayoutPicture
from planner.desk.theme.palette import LookSwitch
from planner.listings.found_layout import FoundLayout, LayoutRow
from planner.season.spans import Span
from planner.words import day_words, say

#: Days from one step of the slider to the next.
STEP = 7


class LayoutDrawing(QWidget):
    """A proposed layout as a small plan, on a day that is chosen below it or over all of the year.

    Signals
    -------
    picked : object
        The LayoutRow of the planting that was clicked.

    Attributes
    ----------
    alone : QPushButton
        Whether the drawing has the room of the list as well.
    """

    picked = Signal(object)

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self.picture = LayoutPicture(look)
        self.picture.picked.connect(self.picked)
        self._days: Span | None = None
        self.day = QSlider(Qt.Orientation.Horizontal)
        self.day.setAccessibleName(say("Day that is drawn"))
        self.day.setPageStep(4)
        self.day.valueChanged.connect(self._show_day)
        self.words = QLabel()
        self.words.setMinimumWidth(self.fontMetrics().horizontalAdvance(say("all of the year")) + 8)
        self.alone = QPushButton(say("Larger"))
        self.alone.setCheckable(True)
        self.alone.setToolTip(say("Gives the drawing the room of the list as well"))
        line = QHBoxLayout()
        line.addWidget(self.words)
        line.addWidget(self.day, 1)
        line.addWidget(self.alone)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.picture, 1)
        column.addLayout(line)

    def show_layout(self, found: FoundLayout | None) -> None:
        """Show another layout; of another year on the day on which most of the ground is planted."""
        self.picture.show_layout(found)
        if found is not None and found.year != self._days:
            self._days = found.year
            self.day.setRange(0, (found.year.last - found.year.first).days // STEP + 1)
            self.day.setValue(_fullest(found))
        self._show_day()

    def show_row(self, row: LayoutRow) -> None:
        """Go to the first day of a planting, where it is not drawn on the day shown."""
        day = self._day()
        if row.span is None or self._days is None or day is None or row.span.holds(day):
            return
        first = max(row.span.first, self._days.first)
        self.day.setValue(-(-(first - self._days.first).days // STEP) + 1)

    def _day(self) -> dt.date | None:
        """The day of the slider; None of its first step, which is all of the year."""
        step = self.day.value()
        return self._days.first + dt.timedelta(days=STEP * (step - 1)) if self._days and step else None

    def _show_day(self) -> None:
        day = self._day()
        words = day_words(day) if day is not None else say("all of the year")
        self.words.setText(words)
        self.day.setAccessibleDescription(words)
        self.picture.show_day(day)


def _fullest(found: FoundLayout) -> int:
    """The step of the day on which most of the ground is planted."""
    rows = [one for one in (*found.rows, *found.standing) if one.span is not None]
    first, last = found.year.first, found.year.last

    def planted(step: int) -> float:
        day = first + dt.timedelta(days=STEP * (step - 1))
        return sum(float(one.ground.area) for one in rows if one.span is not None and one.span.holds(day))

    return max(range(1, (last - first).days // STEP + 2), key=planted)
