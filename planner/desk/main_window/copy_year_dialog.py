"""The dialog that copies a growing year's plantings to another year: which, and where each would stand."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from PySide6.QtCore import QSize
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.fields import ChoiceField
from planner.desk.main_window.docks import room_on_screen
from planner.desk.main_window.turn_parts import turn_page, turn_table
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.own_plan import OwnPlan
from planner.desk.pages.turn_tables import RepeatModel
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.proposal.repeat import Repeated, repeat_one_by_one, repeatable
from planner.words import say, say_count

_SIZE, _LEAST = QSize(860, 520), QSize(520, 340)
_WIDTHS = (180, 110, 80, 170, 280)
#: Growing years that can be chosen.
FIRST_YEAR, LAST_YEAR = 1900, 2200


class CopyYearDialog(QDialog):
    """Chooses two years and what comes over; where each planting would stand is worked out one by one beside the window.

    Parameters
    ----------
    parent : QWidget
    document : Document
    take : callable
        Called with the garden that has the copies, their number, and the year they are in.

    Attributes
    ----------
    model : RepeatModel
    state : QLabel
        How far it is worked out, and how many find a place.
    """

    def __init__(self, parent: QWidget, document: Document, take: Callable[[Garden, int, int], None]) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Copy a year's plantings"))
        self._document, self._take = document, take
        self._working = False
        self._garden: Garden | None = None
        self._found: list[Repeated] = []
        years = document.garden.years()
        self.source = ChoiceField(say("Year whose plantings are copied"), [(y, str(y)) for y in years])
        self.source.show_value(document.year if document.year in years else max(years, default=document.year))
        self.target = QSpinBox()
        self.target.setRange(FIRST_YEAR, LAST_YEAR)
        self.target.setAccessibleName(say("Year into which they are copied"))
        self.target.setValue((self._source_year or document.year) + 1)
        self.model = RepeatModel()
        self.table = turn_table(self.model, say("Plantings to copy"), _WIDTHS, 4)
        self.every, self.none = QPushButton(say("Tick all")), QPushButton(say("Tick none"))
        self.every.clicked.connect(lambda: self.model.tick(range(self.model.rowCount()), on=True))
        self.none.clicked.connect(lambda: self.model.tick(range(self.model.rowCount()), on=False))
        self.state = QLabel()
        self.state.setWordWrap(True)
        hint = say(
            "Each stays in its place if rotation, light and its neighbours allow it; otherwise the nearest fit place is looked for. "
            "Days that were set by hand move along. Nothing is planted twice."
        )
        years_row = QHBoxLayout()
        for widget in (QLabel(say("From")), self.source, QLabel(say("to")), self.target):
            years_row.addWidget(widget)
        years_row.addStretch(1)
        self.buttons = DialogButtons(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setText(say("Copy them"))
        self.buttons.accepted.connect(self._accept)
        self.buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addLayout(years_row)
        column.addWidget(turn_page(hint, (self.every, self.none), self.table, self.state), 1)
        column.addWidget(self.buttons)
        self.setMinimumSize(_LEAST.boundedTo(room_on_screen(self)))
        self.resize(_SIZE.boundedTo(room_on_screen(self)))
        self._jobs = JobQueue(self)
        self._own_before, self._own_after = OwnPlan(), OwnPlan()
        self.source.chosen.connect(lambda _year: self._show_year())
        self.target.valueChanged.connect(lambda _year: self._begin())
        self.model.changed.connect(self._begin)
        self.finished.connect(lambda _result: self._jobs.cancel())
        self._show_year()

    @property
    def _source_year(self) -> int | None:
        year = self.source.value
        return year if isinstance(year, int) else None

    def _show_year(self) -> None:
        """List the plantings of the year that is chosen, all of them ticked."""
        year = self._source_year
        if year is None:
            self._say_state()
            return
        plan = self._document.plan
        before = plan if plan.year == year else plan.what_if(plan.garden).after(plan.garden, year)
        self.model.show_plantings(before, repeatable(before))
        self.model.ticked = {one.id for one in self.model.plantings}
        self._begin()

    def _begin(self) -> None:
        """Work out anew where those that are ticked would stand."""
        self._jobs.cancel()
        self._garden, self._found, self._working = None, [], False
        self.model.show_found(())
        source, target, keys = self._source_year, self.target.value(), self.model.keys()
        if source is not None and keys:
            plan, own_before, own_after = self._document.plan, self._own_before, self._own_after

            def work(cancelled: Cancelled) -> Iterator[tuple[Garden, Repeated] | str | None]:
                try:
                    steps = repeat_one_by_one(own_before.of(plan, source), own_after.of(plan, target), keys)
                    for after, one in steps:
                        if cancelled():
                            return
                        yield after.garden, one
                    yield None
                except BedwrightError as error:
                    yield str(error)

            self._working = True
            self._jobs.start(work, self._receive)
        self._say_state()

    def _receive(self, step: tuple[Garden, Repeated] | str | None) -> None:
        """Show the place of one more planting; what is wrong; or that all have one."""
        if isinstance(step, tuple):
            self._garden, one = step
            self._found.append(one)
            self.model.show_found(self._found)
        else:
            self._working = False
        self._say_state(step if isinstance(step, str) else "")

    @property
    def _copied(self) -> int:
        return sum(one.new is not None and not one.already for one in self._found)

    def _say_state(self, wrong: str = "") -> None:
        done = not self._working
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(done and self._copied > 0)
        if wrong or not self.model.plantings:
            self.state.setText(wrong or say("No plantings can be copied."))
        elif not done:
            self.state.setText(
                say("Looking for places: {done} of {all}", done=len(self._found), all=len(self.model.keys()))
            )
        else:
            words = say_count("{count} planting comes over", "{count} plantings come over", self._copied)
            lost = sum(one.new is None for one in self._found)
            if lost:
                words = say(
                    "{sentence}; {rest}",
                    sentence=words,
                    rest=say_count("{count} finds no fit place", "{count} find no fit place", lost),
                )
            self.state.setText(words)

    def _accept(self) -> None:
        if self._garden is not None and not self._working:
            self._take(self._garden, self._copied, self.target.value())
            self.accept()
