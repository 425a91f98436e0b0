"""The dialog for free ground: what could still go into a bed from a day on, and one of it planted."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from PySide6.QtCore import QModelIndex, QSize, Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.forms.day_field import DayField
from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.main_window.docks import room_on_screen
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.own_plan import OwnPlan
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.tables import HeadedModel, Index, plain_table, set_widths
from planner.garden.units import month_first
from planner.listings.filling import filling_cells, filling_heads
from planner.plan import Plan
from planner.proposal.filling import Filling, fillings
from planner.words import capital, later, say, say_count
from planner.words.typed_days import date_as_typed

#: Its size at first, and the least. [pixels]
_SIZE, _LEAST = (960, 480), (420, 300)
_WIDTHS = (150, 115, 90, 75, 105, 80, 80)
_HINT = later(
    "Crops that come to a harvest there before the ground is wanted again, the best first: wishes that are not met, what was grown here "
    "before, other quick crops, green manure."
)
_NOTHING = later("Nothing: no ground is free for long enough from that day on, or nothing is begun then.")


class _Found(NamedTuple):
    """What could go into a bed from a day on, of the plan that was asked."""

    plan: Plan
    bed: str
    day: dt.date
    fillings: tuple[Filling, ...]
    cells: tuple[tuple[str, ...], ...]


class FillingRows(HeadedModel):
    """Crops that could go into free ground."""

    def __init__(self) -> None:
        super().__init__()
        self.heads = tuple(capital(words) for words in filling_heads())
        self.cells: Sequence[tuple[str, ...]] = ()

    def show_cells(self, cells: Sequence[tuple[str, ...]]) -> None:
        """Show other rows."""
        self.beginResetModel()
        self.cells = cells
        self.endResetModel()

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.cells)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole) and index.isValid():
            return self.cells[index.row()][index.column()]
        return None


class FillDialog(QDialog):
    """Shows what could still go into a bed from a day on, and plants what is chosen.

    It is not modal, and follows the garden: what was planted is no longer free.

    Parameters
    ----------
    parent : QWidget
    document : Document
    plant : callable
        Plants a filling; False where that is refused.
    """

    def __init__(self, parent: QWidget, document: Document, plant: Callable[[Filling], bool]) -> None:
        super().__init__(parent)
        self.document, self._plant_it = document, plant
        self.setWindowTitle(say("What could still go in"))
        self.jobs = JobQueue(self)
        self._own_plan = OwnPlan()
        self._found: _Found | None = None
        self._plan: Plan | None = None
        self.bed = ChoiceField(say("Bed"), ())
        self.bed.chosen.connect(lambda _bed: self._work_out())
        self.day = DayField(say("Free from"), document.plan.span.first, self._read_day)
        self.day.typed.connect(lambda _day: self._work_out())
        hint = wrapped_label(second=True)
        hint.setText(say(_HINT))
        self.rows = FillingRows()
        self.table = plain_table(self.rows, say("What could still go in"))
        self.table.setWordWrap(False)
        set_widths(self.table, _WIDTHS)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._follow_choice())
        self.table.doubleClicked.connect(lambda _index: self._plant())
        self.state = wrapped_label()
        self.plant, self.shut = QPushButton(say("Plant it")), QPushButton(say("Close"))
        self.plant.clicked.connect(self._plant)
        self.shut.clicked.connect(self.reject)
        head = FlowLayout()
        head.add_group(QLabel(say("What could still go into")), self.bed)
        head.add_group(QLabel(say("from")), self.day)
        foot = QHBoxLayout()
        foot.addWidget(self.state, 1)
        foot.addWidget(self.plant)
        foot.addWidget(self.shut)
        column = QVBoxLayout(self)
        column.addLayout(head)
        column.addWidget(hint)
        column.addWidget(self.table, 1)
        column.addLayout(foot)
        for button in (self.plant, self.shut):
            button.setAutoDefault(False)
        self.day.marked.connect(self._complain)
        document.garden_settled.connect(self._follow)
        document.year_changed.connect(self._follow)
        document.opened.connect(self.reject)
        self.setMinimumSize(*_LEAST)
        self.resize(QSize(*_SIZE).boundedTo(room_on_screen(parent)))

    def begin(self, bed: str, day: dt.date) -> None:
        """Show what could go into a bed from a day on."""
        self._offer_beds(bed)
        self.day.show_day(day)
        self.show()
        self.raise_()
        self.activateWindow()
        self.table.setFocus()
        self._work_out()

    def _offer_beds(self, shown: str) -> None:
        self.bed.offer([(bed.id, bed.name) for bed in self.document.plan.beds])
        self.bed.show_value(shown)

    def _read_day(self, text: str) -> dt.date:
        plan = self.document.plan
        return date_as_typed(text, plan.span.first, month_first=month_first(plan.garden.site.units))

    def _follow(self) -> None:
        """Another value or year of the document is shown."""
        if self.isVisible() and self.document.plan is not self._plan:
            self._offer_beds(str(self.bed.value))
            self._work_out()

    def _work_out(self) -> None:
        plan, key, day = self.document.plan, str(self.bed.value), self.day.day
        self._plan, self._found = plan, None
        bed = plan.garden.beds_by_id.get(key)
        self.rows.show_cells(())
        self._follow_choice()
        if bed is None:
            self._complain(say("No bed is in use in {year}.", year=plan.year))
            return
        self._complain("")
        self.state.setText(say("Being worked out…"))

        own = self._own_plan

        def work(_cancelled: Cancelled) -> Iterator[_Found]:
            tried = own.of(plan)
            found = fillings(tried, bed, day)
            yield _Found(plan, key, day, found, tuple(filling_cells(tried, one) for one in found))

        self.jobs.start(work, self._show_found)

    def _show_found(self, found: _Found) -> None:
        if found.plan is not self.document.plan or not self.isVisible():
            return
        self._found = found
        self.rows.show_cells(found.cells)
        count = len(found.cells)
        self.state.setText(say_count("{count} crop", "{count} crops", count) if count else say(_NOTHING))
        if count:
            self.table.selectRow(0)
        self._follow_choice()

    def _complain(self, why: str) -> None:
        if bool(self.state.property("warn")) != bool(why):
            self.state.setProperty("warn", bool(why))
            self.state.style().unpolish(self.state)
            self.state.style().polish(self.state)
        self.state.setText(why)

    @property
    def chosen(self) -> Filling | None:
        """The crop that is chosen."""
        rows = self.table.selectionModel().selectedRows()
        return self._found.fillings[rows[0].row()] if rows and self._found is not None else None

    def _follow_choice(self) -> None:
        self.plant.setEnabled(self.chosen is not None)

    def _plant(self) -> None:
        chosen = self.chosen
        if chosen is not None and self._found is not None and self._found.plan is self.document.plan:
            self._plant_it(chosen)
