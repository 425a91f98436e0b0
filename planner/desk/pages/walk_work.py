"""The work of a bed on a walk: a box to click, the number to type, and what is to be done."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from planner.desk.pages.harvest_page import wrapped_label
from planner.listings.phrases import days_in_short
from planner.listings.tasks import task_words
from planner.listings.walk import WalkStop
from planner.words import full_day_words, say


class WalkWork(QWidget):
    """The numbered work of a bed.

    Signals
    -------
    clicked : int, bool
        The box of the work with a number, and whether it is checked now.
    """

    clicked = Signal(int, bool)

    def __init__(self) -> None:
        super().__init__()
        self.boxes: list[QCheckBox] = []
        self._rows: list[QWidget] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(4)
        self._grid.setVerticalSpacing(1)
        self._grid.setColumnStretch(1, 1)

    def show_stop(self, stop: WalkStop | None) -> None:
        """Show the work of a bed; None shows nothing."""
        for row in self._rows:
            self._grid.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows, self.boxes = [], []
        tasks = stop.work if stop is not None else ()
        for number, task in enumerate(tasks, 1):
            assert stop is not None
            line = work_line(number, stop)
            box, words = QCheckBox(), wrapped_label()
            box.setAccessibleName(line)
            box.setToolTip(
                say("Take back that it is done") if task.done is not None else say("Tick it off as done")
            )
            box.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # what is typed goes on into the line
            box.setCheckState(
                Qt.CheckState.Checked
                if task.done is not None
                else Qt.CheckState.PartiallyChecked
                if task.done_before
                else Qt.CheckState.Unchecked
            )
            box.setEnabled(task.key not in stop.needless)
            box.clicked.connect(lambda _checked, at=number, one=task: self._on_clicked(at, one.done is None))
            words.setText(line)
            self._grid.addWidget(box, number, 0, Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(words, number, 1)
            self._rows += [box, words]
            self.boxes.append(box)
        self.setVisible(bool(tasks))

    def _on_clicked(self, number: int, done: bool) -> None:
        # Later: the edit shows the work anew, which must not delete the box that emits this signal.
        QTimer.singleShot(0, self, lambda: self.clicked.emit(number, done))


def work_line(number: int, stop: WalkStop) -> str:
    """A piece of work under its number, with its days or when it was done."""
    task = stop.work[number - 1]
    words, _amount = task_words(task)
    if task.key in stop.needless:
        return say("{number}  {work}: need not be done any more", number=number, work=words)
    if task.done is not None:
        return say(
            "{number}  {work}: done on {day}", number=number, work=words, day=full_day_words(task.done)
        )
    if task.done_before:
        return say("{number}  {work}: done before", number=number, work=words)
    days = days_in_short(task.date, task.until)
    return say("{number}  {work}: {days}", number=number, work=words, days=days)
