"""Raising: the benches over the year, what is filled, and the days of each planting until it is set out."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from planner.amounts.raising import Raised, raisings
from planner.desk.model.document import Document
from planner.desk.model.findings_model import FindingsModel
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.bench_picture import BenchPicture, words_label
from planner.desk.pages.bench_stacks import BenchStack, bench_stacks
from planner.desk.pages.bench_table import BenchTable
from planner.desk.pages.opening_table import OpeningTable
from planner.desk.pages.raising_tables import (
    EACH_NUMBERS,
    TOTAL_NUMBERS,
    planting_heads,
    planting_rows,
    total_heads,
    total_rows,
)
from planner.desk.theme.choice_names import name_choice
from planner.desk.theme.palette import LookSwitch
from planner.listings.raising import mix_line, nursery_beds, stand_in_line
from planner.words import say

#: What the lower part shows.
TOTALS, EACH, BENCHES = 0, 1, 2
#: Heights of pictures and tables at first. [pixels]
_HEIGHTS = (430, 260)


class RaisingPage(QWidget):
    """The raised plantings of the growing year.

    Signals
    -------
    planting_wanted : str
        Id of a planting to show on the sheet.
    wrong : str
        Something is not possible; one line says why.
    """

    planting_wanted = Signal(str)
    wrong = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self._look = document, look
        self._findings: FindingsModel | None = None
        self.setAccessibleName(say("Raising"))
        splitter = QSplitter(Qt.Orientation.Vertical)
        splitter.addWidget(self._make_pictures())
        splitter.addWidget(self._make_tables())
        splitter.setSizes(_HEIGHTS)
        splitter.setCollapsible(0, False)
        splitter.setCollapsible(1, False)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addWidget(splitter)
        self._when_seen = WhenSeen(self, self.refresh)
        document.garden_settled.connect(self._when_seen.follow)
        document.year_changed.connect(self._when_seen.follow)
        document.selection_changed.connect(self._follow_selection)
        self._when_seen.follow()

    def _make_pictures(self) -> QWidget:
        self.nothing = words_label()
        self.enter = QPushButton(say("Enter a bench…"))
        self.enter.clicked.connect(lambda: self._show_table(BENCHES))
        self.pictures: dict[str, BenchPicture] = {}
        inside = QWidget()
        self._column = QVBoxLayout(inside)
        self._column.setContentsMargins(0, 0, 6, 0)
        self._column.addWidget(self.nothing)
        self._column.addWidget(self.enter, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addStretch(0)
        area = QScrollArea()
        area.setAccessibleName(say("Part of the page that scrolls"))
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(inside)
        return area

    def _make_tables(self) -> QWidget:
        self.choice = QComboBox()
        name_choice(self.choice, say("What is listed"))
        self.choice.addItems([say("Trays and mix to fill"), say("Each planting"), say("The benches")])
        self.choice.currentIndexChanged.connect(self._show_table)
        self.sum = words_label()
        policy = self.sum.sizePolicy()
        policy.setRetainSizeWhenHidden(True)  # the choice beside it stays as wide as it is
        self.sum.setSizePolicy(policy)
        self.totals = OpeningTable(total_heads(), say("What is filled"), TOTAL_NUMBERS)
        self.each = OpeningTable(planting_heads(), say("Raised plantings"), EACH_NUMBERS)
        self.each.setRootIsDecorated(False)
        for table in (self.totals, self.each):
            table.sort_rows()
            table.header().setStretchLastSection(False)
            table.shown.connect(self.planting_wanted)
        self.benches = BenchTable(self.document)
        self.benches.wrong.connect(self.wrong)
        self._stack = QStackedWidget()
        for widget in (self.totals, self.each, self.benches):
            self._stack.addWidget(widget)
        below = QWidget()
        head = QHBoxLayout()
        head.addWidget(self.choice)
        head.addWidget(self.sum, 1)
        column = QVBoxLayout(below)
        column.setContentsMargins(0, 8, 0, 0)
        column.addLayout(head)
        column.addWidget(self._stack, 1)
        return below

    def follow_findings(self, findings: FindingsModel) -> None:
        """Say beside each bench where the checks find it too small."""
        self._findings = findings
        findings.changed.connect(self._show_findings)

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show what is raised now."""
        plan = self.document.plan
        parts, units = raisings(plan), plan.garden.site.units
        self._fill_table(parts)
        lines = [mix_line(parts, units)] if any(part.fills for part in parts) else []
        lines += nursery_beds(plan, parts, units)
        lines += [stand_in_line()] if not all(part.emerge_known for part in parts) else []
        self.sum.setText("  ".join(say("{sentence}.", sentence=line) for line in lines))
        self._show_benches(bench_stacks(plan))

    def _show_benches(self, shown: tuple[BenchStack, ...]) -> None:
        entered = bool(self.document.garden.benches)
        self.enter.setVisible(not entered)
        if not entered and shown:
            self.nothing.setText(say("No benches are entered. This is what they would have to hold:"))
        elif not shown or all(one.fullest < 0 for one in shown):
            self.nothing.setText(
                say(
                    "Nothing is raised in {year}. Plantings that start raised and set out have their trays here.",
                    year=self.document.year,
                )
            )
        else:
            self.nothing.clear()
        self.nothing.setVisible(bool(self.nothing.text()))
        keys = [one.bench.id for one in shown]
        if keys != list(self.pictures):
            self._lay_out(keys)
        for one in shown:
            self.pictures[one.bench.id].show_bench(one)
        self._show_findings()
        self._follow_selection()

    def _lay_out(self, keys: list[str]) -> None:
        """One picture for each bench, in the order of their ids; those that stay keep their marks."""
        before, self.pictures = self.pictures, {}
        for key, picture in before.items():
            self._column.removeWidget(picture)
            if key not in keys:
                picture.hide()
                picture.deleteLater()
        for key in keys:
            picture = before.get(key) or self._new_picture()
            self.pictures[key] = picture
            self._column.insertWidget(self._column.count() - 1, picture, 1)

    def _new_picture(self) -> BenchPicture:
        picture = BenchPicture(self.document, self._look)
        picture.weeks.band_picked.connect(self._pick)
        picture.weeks.week_marked.connect(self._mark_all)
        return picture

    def _mark_all(self, week: int) -> None:
        """The same week is marked on every bench."""
        for picture in self.pictures.values():
            picture.weeks.mark(week)

    def _show_findings(self) -> None:
        if self._findings is None or not self.isVisible():
            return
        found = [one for one in self._findings.open if one.check == "bench"]
        for key, picture in self.pictures.items():
            picture.show_findings([one for one in found if one.subject[:1] == (key,)])

    def _fill_table(self, parts: Sequence[Raised]) -> None:
        """Bring the table at the front in step."""
        plan = self.document.plan
        if self._stack.currentIndex() == BENCHES:
            self.benches.refresh()
        elif self._stack.currentIndex() == EACH:
            self.each.show_rows(planting_rows(parts, plan.garden.site.units))
        else:
            self.totals.show_rows(total_rows(plan, parts))

    def _show_table(self, number: int) -> None:
        """Bring a table to the front."""
        self.choice.setCurrentIndex(number)
        if number == self._stack.currentIndex():
            return
        self._stack.setCurrentIndex(number)
        self.sum.setVisible(number != BENCHES)
        self._fill_table(raisings(self.document.plan))

    # -- what is chosen ---------------------------------------------------------------------

    def _pick(self, key: str) -> None:
        """A band was clicked: its planting is selected, on the sheet as well."""
        if any(part.planting.id == key for part in raisings(self.document.plan)):
            self._show_table(EACH)
            self.each.choose_from(key)
        self.document.select((key,))

    def _follow_selection(self) -> None:
        chosen = self.document.selected_plantings
        for picture in self.pictures.values():
            picture.weeks.pick(chosen[0] if len(chosen) == 1 else "")
