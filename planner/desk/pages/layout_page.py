"""A layout proposed from the wishes of a growing year: searched for beside the window, shown as it grows better, taken over by hand."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QItemSelection, QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLabel,
    QPushButton,
    QSizePolicy,
    QSplitter,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.forms.scrolling import scrolling
from planner.desk.model.document import Document
from planner.desk.model.layout_search import LayoutSearch
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.layout_choice import LayoutChoice
from planner.desk.pages.layout_drawing import LayoutDrawing
from planner.desk.pages.layout_rows import LayoutRows
from planner.desk.pages.layout_words import state_words
from planner.desk.pages.scrolled_words import ScrolledWords
from planner.desk.pages.tables import plain_table, set_widths
from planner.desk.pages.weight_rows import WeightRows
from planner.desk.pages.wish_years import WishYear
from planner.desk.theme.palette import LookSwitch
from planner.garden import Garden, edits
from planner.listings.found_layout import FoundLayout, LayoutRow
from planner.plan import Plan
from planner.proposal.layouts import accepted
from planner.words import later, say, say_count, say_in_context

#: How long to search. [s]
_TIMES = {10.0: later("10 seconds"), 60.0: later("1 minute"), 600.0: later("10 minutes")}
#: Widths of the columns but the last. [pixels]
_WIDTHS = (150, 78, 114, 116, 114)
#: Drawing and list lie side by side from this width on. [pixels]
BESIDE = 820
#: Least heights of drawing and list. [pixels]
LEAST_PICTURE, LEAST_TABLE = 170, 150
#: Height of the line with the day, and of a row of the list. [pixels]
DAY, ROW = 44, 26
#: Most lines of reasons that are shown at once.
WHY_LINES = 5


class LayoutPage(QWidget):
    """Proposes a layout for the wishes of a growing year.

    Signals
    -------
    wishes_wanted
        Wishes are to be written down first.
    fill_wanted : str
        Id of a bed: what could still go in there is asked; empty for the beds that are selected.
    thing_wanted : str
        Id of a planting or bed to show on the sheet.
    said : str
        What was taken over.
    wrong : str
        Why it was not possible.
    """

    wishes_wanted = Signal()
    fill_wanted = Signal(str)
    thing_wanted = Signal(str)
    said = Signal(str)
    wrong = Signal(str)

    def __init__(self, document: Document, look: LookSwitch, wish_year: WishYear) -> None:
        super().__init__()
        self.document, self.wish_year = document, wish_year
        self.setAccessibleName(say("Proposed layout"))
        self.search = LayoutSearch(self, document)
        wish_year.is_held = lambda: self.search.is_running
        self._seed = 0
        self._done = ""
        self._done_for: Garden | None = None
        self._make_head()
        self._make_body(look)
        self._make_foot()
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(self._head)
        column.addWidget(self.weights)
        column.addWidget(self.state)
        column.addWidget(self.body, 1000)
        column.addWidget(self.why)
        column.addLayout(self._foot)
        column.addStretch(1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scrolling(inner))
        self.search.changed.connect(self._follow_search)
        self.search.whys_known.connect(self._show_why)
        self.search.whys_known.connect(self._show_state)
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.selection_changed.connect(seen.follow)
        document.year_changed.connect(seen.follow)
        wish_year.changed.connect(seen.follow)
        document.opened.connect(self._forget)

    # -- making -----------------------------------------------------------------------------

    def _make_head(self) -> None:
        self.year = ChoiceField(say("Growing year that is laid out"), ())
        self.year.chosen.connect(self._choose_year)
        self.beds = ChoiceField(say("Beds that are planned anew"), ())
        self.time = ChoiceField(say("How long to search"), [(one, say(_TIMES[one])) for one in _TIMES])
        self.go, self.stop = QPushButton(say("Search")), QPushButton(say("Stop"))
        self.elsewhere = QPushButton(say("Search elsewhere"))
        self.elsewhere.setToolTip(say("Search anew on other ways: it may find another layout"))
        self.what_counts = QPushButton(say("What counts"))
        self.what_counts.setCheckable(True)
        self.wishes = QPushButton(say("To the wishes"))
        self.weights = WeightRows(self.document)
        self.weights.hide()
        self.go.clicked.connect(self.begin)
        self.stop.clicked.connect(self.search.stop)
        self.elsewhere.clicked.connect(self._search_elsewhere)
        self.what_counts.toggled.connect(self.weights.setVisible)
        self.wishes.clicked.connect(self.wishes_wanted)
        self._head = head = FlowLayout()
        head.add_group(QLabel(say("Layout of")), self.year)
        head.add_group(QLabel(say_in_context("in which beds", "in")), self.beds)
        head.addWidget(self.time)
        for button in (self.go, self.stop, self.elsewhere, self.what_counts, self.wishes):
            head.addWidget(button)
        self.state = wrapped_label()

    def _make_body(self, look: LookSwitch) -> None:
        self.drawing = LayoutDrawing(look)
        self.drawing.setMinimumHeight(LEAST_PICTURE)
        self.drawing.picked.connect(self._pick)
        self.drawing.alone.toggled.connect(self._show_list)
        self.rows = LayoutRows()
        self.rows.ticks_changed.connect(self._follow_ticks)
        self.table = plain_table(self.rows, say("What is proposed"))
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.table.setMinimumHeight(LEAST_TABLE)
        self.table.setWordWrap(False)
        set_widths(self.table, _WIDTHS)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._follow_choice())
        self.table.doubleClicked.connect(lambda index: self._show_on_sheet(self.rows.rows[index.row()]))
        self.table.verticalHeader().setDefaultSectionSize(ROW)
        self.body = QSplitter(Qt.Orientation.Horizontal)
        # It takes what the page leaves it, and the page scrolls only where that is too little.
        self.body.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)
        self.body.setChildrenCollapsible(False)
        self.body.addWidget(self.drawing)
        self.body.addWidget(self.table)
        self.body.setStretchFactor(0, 1)
        self.body.setStretchFactor(1, 1)
        self.body.setSizes([600, 500])
        self.why = ScrolledWords(say("Why there, and what lies bare"), WHY_LINES)

    def _show_list(self, hidden: bool) -> None:
        """Show the list, or leave its room to the drawing."""
        self.table.setVisible(not hidden)

    def _make_foot(self) -> None:
        self.take, self.none = QPushButton(say("Take over")), QPushButton(say("Tick none"))
        self.pin = QPushButton(say("Pin there"))
        self.pin.setToolTip(say("Plants it there for good; a new search lays out the others around it"))
        self.show_there = QPushButton(say("Show on the plan"))
        self.fill = QPushButton(say("What could still go in…"))
        self.others = QPushButton(say("Three unlike layouts"))
        self.others.setToolTip(say("Layouts about as good, with many wishes in other beds"))
        self.shown = LayoutChoice(self.search)
        self.take.clicked.connect(self._take_over)
        self.none.clicked.connect(self._tick_all_or_none)
        self.pin.clicked.connect(self._pin)
        self.show_there.clicked.connect(lambda: self._show_on_sheet(self._current()))
        self.fill.clicked.connect(self._fill)
        self.others.clicked.connect(lambda: self.search.find_unlike())
        self._foot = FlowLayout()
        for button in (self.shown, self.take, self.none, self.pin, self.show_there, self.others, self.fill):
            self._foot.addWidget(button)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        beside = self.width() >= BESIDE
        way = Qt.Orientation.Horizontal if beside else Qt.Orientation.Vertical
        if self.body.orientation() != way:
            self.body.setOrientation(way)
        least = max(LEAST_PICTURE + DAY, LEAST_TABLE) if beside else LEAST_PICTURE + DAY + LEAST_TABLE
        self.body.setMinimumHeight(least)

    # -- what is asked ----------------------------------------------------------------------

    def _year_shown(self) -> int:
        return self.wish_year.year

    def _choose_year(self, year: object) -> None:
        self._done = ""
        self.wish_year.choose(year)

    def _forget(self) -> None:
        self._seed, self._done = 0, ""
        self.rows.tick_all(on=True)
        self.seen.follow()

    def _selected_beds(self) -> tuple[str, ...]:
        """Beds that are selected on the plan, and those of the plantings that are."""
        garden = self.document.garden
        beds = [
            *self.document.selected_beds,
            *(garden.plantings_by_id[key].bed for key in self.document.selected_plantings),
        ]
        return tuple(dict.fromkeys(beds))

    def begin(self) -> None:
        """Search for a layout of what is chosen."""
        beds = self._selected_beds() if self.beds.value == "selected" else None
        self._done = ""
        year = self._year_shown()
        self.wish_year.choose(year)
        self.search.begin(year, beds, seconds=float(str(self.time.value)), seed=self._seed)

    def begin_where_new(self) -> None:
        """Search, unless a layout of the year and the garden as they are is being searched for or was found."""
        search = self.search
        there = search.is_running or (search.found is not None and not search.is_outdated)
        if not (there and search.year == self._year_shown()) and self.go.isEnabled():
            self.begin()

    def _search_elsewhere(self) -> None:
        self._seed += 1
        self.begin()

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Bring what can be chosen, and what is said, in step with the garden."""
        shown = self._year_shown()
        self.wish_year.offer(self.year)
        count = len(self._selected_beds())
        offered: list[tuple[object, str]] = [("all", say("all beds"))]
        if count:
            offered.append(("selected", say_count("{count} selected bed", "{count} selected beds", count)))
        if [words for _, words in offered] != [self.beds.itemText(n) for n in range(self.beds.count())]:
            value = self.beds.value
            self.beds.offer(offered)
            self.beds.show_value(value if value in self.beds.values else "all")
        self.weights.refresh()
        if self.go.isVisible() and any(one.year == shown for one in self.document.garden.wishes):
            self.search.process.begin()  # so that it is ready when it is asked
        self._show_state()

    def _follow_search(self) -> None:
        found = self.search.found
        chosen = {one.wish for one in self._selected()}
        self.rows.show_layout(found)
        self.drawing.show_layout(found)
        self._select_wishes(chosen)
        self._follow_choice()
        self._show_state()

    def _show_state(self) -> None:
        search, year = self.search, self._year_shown()
        garden = self.document.garden
        wished = any(one.year == year for one in garden.wishes)
        beds = any(bed.in_use(year) for bed in garden.beds)
        running, found = search.is_running, search.found
        self.go.setEnabled(wished and beds and not running)
        self.go.setVisible(not running)
        self.stop.setVisible(running)
        self.elsewhere.setEnabled(wished and beds and not running and found is not None)
        self.stop.setEnabled(search.state in ("begun", "searching", "unlike"))
        self.wishes.setVisible(not wished)
        self.body.setVisible(found is not None)
        for button in (self.take, self.none, self.pin, self.show_there, self.others):
            button.setVisible(found is not None)
        self.others.setEnabled(search.may_find_unlike)
        self.shown.refresh()
        self.fill.setEnabled(beds)
        if self._done_for is not self.document.stable:
            self._done = ""
        words = (self._done,) if self._done else state_words(search, year, wished=wished, beds=beds)
        self.state.setText(" ".join(words))
        self._follow_ticks()

    # -- rows -------------------------------------------------------------------------------

    def _selected(self) -> list[LayoutRow]:
        indexes = self.table.selectionModel().selectedRows()
        return [self.rows.rows[one.row()] for one in indexes if one.row() < len(self.rows.rows)]

    def _current(self) -> LayoutRow | None:
        rows = self._selected()
        return rows[0] if rows else None

    def _select_wishes(self, wishes: set[str]) -> None:
        """Select the rows of wishes again, after others came in their place."""
        selection = QItemSelection()
        last = self.rows.columnCount() - 1
        for number, one in enumerate(self.rows.rows):
            if one.wish in wishes:
                selection.select(self.rows.index(number, 0), self.rows.index(number, last))
        self.table.selectionModel().select(selection, QItemSelectionModel.SelectionFlag.ClearAndSelect)

    def _pick(self, row: LayoutRow) -> None:
        """Select the row of what was clicked on the drawing."""
        for number, one in enumerate(self.rows.rows):
            if one is row:
                self.table.selectRow(number)
                self.table.setFocus()
                self.table.scrollTo(self.rows.index(number, 0))

    def _follow_choice(self) -> None:
        rows = self._selected()
        self.drawing.picture.choose(frozenset(one.wish for one in rows if one.wish))
        one = rows[0] if len(rows) == 1 else None
        if one is not None:
            self.drawing.show_row(one)
        self._show_why()
        self._follow_ticks()

    def _show_why(self) -> None:
        rows = self._selected()
        remarks = self.search.remarks if not rows and self.search.found is not None else ()
        self.why.setVisible(len(rows) == 1 or bool(remarks))
        if len(rows) != 1:
            self.why.setText("\n".join(line.strip() for line in remarks))
            return
        row = rows[0]
        state = say("met in part") if row.in_part else say("not met")
        head = say("{crop}, {bed}:", crop=row.cells[0], bed=row.cells[1] or state)
        lines = self.search.why_words(row)
        self.why.setText(" ".join([head, *(say("{sentence}.", sentence=line) for line in lines)]))

    def _show_on_sheet(self, row: LayoutRow | None) -> None:
        if row is None or row.planting is None:
            return
        garden, key = self.document.garden, row.planting.id
        there = garden.plantings_by_id.get(key)
        self.document.show_year(self.search.year)
        self.thing_wanted.emit(
            key if there is not None and there.bed == row.planting.bed else row.planting.bed
        )

    def _fill(self) -> None:
        row = self._current()
        self.fill_wanted.emit(row.planting.bed if row is not None and row.planting is not None else "")

    # -- taking over ------------------------------------------------------------------------

    def _follow_ticks(self) -> None:
        found, search = self.search.found, self.search
        ticked, placed = self.rows.ticked, self.rows.placed
        whole = found is not None and found.judged and not search.is_outdated
        if ticked == placed:
            self.take.setText(
                say_count(
                    "Take over the {count} that is met", "Take over all {count} that are met", len(placed)
                )
            )
        else:
            self.take.setText(
                say_count(
                    "Take over the {count} that is ticked",
                    "Take over the {count} that are ticked",
                    len(ticked),
                )
            )
        self.take.setEnabled(whole and bool(ticked))
        self.none.setText(say("Tick none") if ticked else say("Tick all"))
        self.none.setEnabled(bool(placed))
        rows = self._selected()
        pinned = [one for one in rows if one.stays and one.planting is not None and one.planting.pinned]
        free = [one for one in rows if one.is_proposed]
        self.pin.setText(say("Let it move") if pinned and not free else say("Pin there"))
        self.pin.setEnabled(bool(pinned and not search.is_outdated) or (whole and bool(free)))
        self.show_there.setEnabled(bool(rows) and rows[0].planting is not None)

    def _tick_all_or_none(self) -> None:
        self.rows.tick_all(on=not self.rows.ticked)

    def _take_over(self) -> None:
        """Plant what is ticked, as one step."""
        found, ticked = self.search.found, self.rows.ticked
        if found is None or self.search.is_outdated:
            return
        part, year = ticked != self.rows.placed, self.search.year
        words = say("Take over a layout of {year}", year=year)
        if self._put(words, found, ticked if part else None, pinned=part):
            self._done = (
                say_count(
                    "{count} wish is planted as proposed and pinned there. The others can still be taken over. Undo takes it back.",
                    "{count} wishes are planted as proposed and pinned there. The others can still be taken over. Undo takes it back.",
                    len(ticked),
                )
                if part
                else say_count(
                    "{count} wish is planted as proposed. Undo takes it back.",
                    "{count} wishes are planted as proposed. Undo takes it back.",
                    len(ticked),
                )
            )
            self._done_for = self.document.stable
            if part:
                self.search.go_on_without(ticked)
            self.said.emit(self._done)
            self.document.show_year(year)
            self._show_state()

    def _put(self, text: str, found: FoundLayout, wishes: set[str] | None, *, pinned: bool = False) -> bool:
        plan = self.document.plan
        if plan.year != self.search.year:
            plan = Plan(self.document.stable, self.search.year, plan.catalogue)
        return self.document.edit(
            text, lambda _garden: accepted(plan, found.plantings, found.freed, wishes, pinned=pinned)
        )

    def _pin(self) -> None:
        """Plant what is selected and pin it there, all else of what was found staying; or let what is pinned move, and search anew."""
        rows, found = self._selected(), self.search.found
        if found is None:
            return
        free = {one.wish for one in rows if one.is_proposed}
        if free and self._put(say("Pin what is proposed"), found, free, pinned=True):
            self.search.go_on_without(free)
            self._done = say_count(
                "{count} wish is pinned there. The others can still be taken over as shown, or searched for anew around it.",
                "{count} wishes are pinned there. The others can still be taken over as shown, or searched for anew around them.",
                len(free),
            )
            self._done_for = self.document.stable
            self._show_state()
        if free:
            return
        keys = [one.planting.id for one in rows if one.stays and one.planting is not None]
        if self.document.edit(say("Let pinned plantings move"), lambda garden: _unpinned(garden, keys)):
            self.begin()


def _unpinned(garden: Garden, keys: Sequence[str]) -> Garden:
    for key in keys:
        garden = edits.change_planting(garden, key, pinned=False)
    return garden
