"""What happened in the garden: one line to type it, a table of all records with filters, and the form of one."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from PySide6.QtCore import QItemSelectionModel, Qt, QTimer, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QResizeEvent
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHeaderView,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.forms.record_entry import RecordEntry
from planner.desk.forms.record_form import RecordForm
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.photograph_adding import PhotographAdder, dropped_files
from planner.desk.pages.photograph_strip import PhotographStrip
from planner.desk.pages.record_model import record_table
from planner.desk.pages.records_model import RecordsModel
from planner.desk.pages.tables import set_widths
from planner.desk.theme.choice_names import name_choice
from planner.garden import Garden, edits
from planner.garden.records import LessonRecord, RecordBase
from planner.listings.picked_sums import picked_words
from planner.listings.record_texts import RecordChoice
from planner.listings.record_words import KIND_WORDS
from planner.plan.pictures import Shot
from planner.season.spans import growing_year, year_span
from planner.storage.photographs import SUFFIXES
from planner.words import capital, say, say_count

#: Widths of the columns but the last. [pixels]
_WIDTHS = (92, 138, 84, 72, 150, 54)
#: Widths of table and form at first; on a narrower page the form is below the table. [pixels]
_TABLE_WIDTH, _FORM_WIDTH, NARROW = 760, 300, 700
#: Least heights of the table, and of the form below it; breadth of the margins. [pixels]
LEAST_TABLE, LEAST_FORM, _MARGINS = 130, 260, 40
#: The search runs when its keys have rested so long. [ms]
REST = 120
#: Time that is given to the texts that are searched, between two looks at what the person does. [s]
PREPARING = 0.01


class RecordsPage(QWidget):
    """The records of the garden.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    said : str
        A line for the status bar.
    walk_wanted
        The walk is to be entered.
    """

    wrong = Signal(str)
    said = Signal(str)
    walk_wanted = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Records"))
        self._offered: tuple[object, ...] = ()
        self.entry = RecordEntry(document, tuple)  # what is selected on the plan is not seen here
        self.model = RecordsModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = record_table(self.model, say("Records"))
        self.table.delete_pressed.connect(self.take_back)
        self.entry.left.connect(self.table.setFocus)
        set_widths(self.table, _WIDTHS)
        self.table.setWordWrap(False)
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._follow_row())
        self.form = RecordForm(document)
        self.form.wrong.connect(self.wrong)
        self.form.added.connect(self._show_added)
        self.form.new_button.clicked.connect(self.table.clearSelection)
        self.strip = PhotographStrip(document)
        self.strip.taken_off.connect(self._take_off)
        self.adder = PhotographAdder(document, self)
        self.adder.said.connect(self.said)
        self.setAcceptDrops(True)
        self._make_filters()
        self._lay_out()
        self._resting = QTimer(self)
        self._resting.setSingleShot(True)
        self._resting.setInterval(REST)
        self._resting.timeout.connect(self._search)
        self.search.textEdited.connect(lambda _text: self._resting.start())
        self.search.returnPressed.connect(self._search)
        self._preparing = QTimer(self)
        self._preparing.setInterval(0)
        self._preparing.timeout.connect(self._prepare)
        self.seen = WhenSeen(self, self.refresh)
        self.seen.follow()
        document.garden_settled.connect(self.seen.follow)
        document.year_changed.connect(self.seen.follow)

    def _make_filters(self) -> None:
        self.search = QLineEdit()
        self.search.setPlaceholderText(say("Search records"))
        self.search.setAccessibleName(say("Search records"))
        self.search.setClearButtonEnabled(True)
        self.search.setMinimumWidth(150)
        self.bed, self.crop, self.kind, self.year = QComboBox(), QComboBox(), QComboBox(), QComboBox()
        for box, name in (
            (self.bed, say("Bed")),
            (self.crop, say("Crop")),
            (self.kind, say("Kind")),
            (self.year, say("Growing year")),
        ):
            name_choice(box, name)
            box.setMinimumContentsLength(8)
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.activated.connect(lambda _index: self._search())
        self.kind.addItem(say("all kinds"), "")
        for kind in KIND_WORDS:
            self.kind.addItem(capital(say(KIND_WORDS[kind])), kind)
        self.count = QLabel()
        self.count.setProperty("second", True)
        self.sums = wrapped_label(second=True)
        self.all_button = QPushButton(say("Show all"))
        self.all_button.setToolTip(say("Clear the search and all filters"))
        self.all_button.clicked.connect(self.clear_filters)
        self.back_button = QPushButton(say("Delete"))
        self.back_button.setToolTip(say("Delete the chosen records; Undo brings them back"))
        self.back_button.clicked.connect(self.take_back)
        self.photograph_button = QPushButton(say("Add photographs…"))
        self.photograph_button.clicked.connect(self._choose_photographs)
        self.walk_button = QPushButton(say("Enter a walk…"))
        self.walk_button.clicked.connect(self.walk_wanted)

    def _lay_out(self) -> None:
        head = FlowLayout()
        for widget in (
            self.search,
            self.bed,
            self.crop,
            self.kind,
            self.year,
            self.all_button,
            self.back_button,
            self.walk_button,
            self.photograph_button,
            self.count,
        ):
            head.addWidget(widget)
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(head)
        column.addWidget(self.table, 1)
        column.addWidget(self.sums)
        column.addWidget(self.strip)
        self.side = QWidget()
        self.side_column = QVBoxLayout(self.side)
        self.side_column.setContentsMargins(0, 0, 0, 0)
        self.side_column.addWidget(self.form)
        area = QScrollArea()
        area.setAccessibleName(say("Part of the page that scrolls"))
        area.setWidgetResizable(True)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        area.setWidget(self.side)
        self._split = QSplitter(Qt.Orientation.Horizontal)
        self._split.addWidget(left)
        self._split.addWidget(area)
        self._split.setStretchFactor(0, 1)
        self._split.setChildrenCollapsible(False)
        self._split.setSizes([_TABLE_WIDTH, _FORM_WIDTH])
        self._left, self._area = left, area
        content = QWidget()
        inner = QVBoxLayout(content)
        inner.setContentsMargins(14, 12, 14, 8)
        inner.addWidget(self.entry)
        inner.addWidget(self._split, 1)
        scrolled = QScrollArea()
        scrolled.setAccessibleName(say("Part of the page that scrolls"))
        scrolled.setWidgetResizable(True)
        scrolled.setFrameShape(QScrollArea.Shape.NoFrame)
        scrolled.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scrolled.setWidget(content)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scrolled)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.width() < NARROW
        orientation = Qt.Orientation.Vertical if narrow else Qt.Orientation.Horizontal
        if self._split.orientation() != orientation:
            self._split.setOrientation(orientation)
            half = max(self.height() // 2, 1)
            self._split.setSizes([half, half] if narrow else [_TABLE_WIDTH, _FORM_WIDTH])
        self._keep_room(narrow=narrow)

    def _keep_room(self, *, narrow: bool) -> None:
        """Keep the height of the filters, which go on in further lines, and of some rows; a low page is scrolled.

        A splitter asks for the least height of one line only.
        """
        self.table.setMinimumHeight(LEAST_TABLE)
        layout = self._left.layout()
        width = self.width() - _MARGINS if narrow else self._split.sizes()[0]
        self._left.setMinimumHeight(layout.minimumHeightForWidth(width) if layout is not None else 0)
        self._area.setMinimumHeight(LEAST_FORM if narrow else 0)

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the records as they are now; those chosen stay chosen."""
        self._offer_filters()
        chosen = self._chosen_keys()
        self.model.refresh()
        self._choose(chosen)
        self._count()
        self.form.refresh()
        self.strip.show_record(self._chosen_record())
        self._preparing.start()

    def _prepare(self) -> None:
        """Write the texts that are searched, a few at a time."""
        if not self.isVisible() or self.model.texts.prepare(self.document.plan, PREPARING):
            self._preparing.stop()

    def _offer_filters(self) -> None:
        garden = self.document.garden
        now = (garden.beds, garden.plantings, garden.records, self.document.catalogue)
        if len(self._offered) == len(now) and all(a is b for a, b in zip(now, self._offered, strict=True)):
            return
        self._offered = now
        crops = {
            garden.plantings_by_id[one.planting].crop for one in garden.records if one.planting is not None
        }
        crops |= {one.crop for one in garden.records if isinstance(one, LessonRecord) and one.crop}
        names = sorted((capital(self.document.catalogue.name_of(key)), key) for key in crops)
        years = sorted(
            {growing_year(garden.site, day) for day in {one.day for one in garden.records}}, reverse=True
        )
        _offer(self.bed, say("all beds"), "", ((bed.name, bed.id) for bed in garden.beds))
        _offer(self.crop, say("all crops"), "", names)
        _offer(self.year, say("all years"), 0, ((f"{year}", year) for year in years))

    def _search(self) -> None:
        self._resting.stop()
        chosen, year = self._chosen_keys(), self.year.currentData()
        self.model.show(
            RecordChoice(
                words=tuple(self.search.text().split()),
                beds=_only(self.bed),
                crops=_only(self.crop),
                kinds=_only(self.kind),
                days=year_span(self.document.garden.site, year) if year else None,
            )
        )
        self._choose(chosen)
        self._count()

    def clear_filters(self) -> None:
        """Show all records."""
        self.search.clear()
        for box in (self.bed, self.crop, self.kind, self.year):
            box.setCurrentIndex(0)
        self._search()

    def _count(self) -> None:
        self.all_button.setEnabled(self.model.wanted != RecordChoice())
        words = picked_words(self.document.plan, self.model.records)
        self.sums.setText(words)
        self.sums.setVisible(bool(words))
        number, of_all = len(self.model.records), len(self.document.garden.records)
        if not of_all:
            self.count.setText(say("Nothing is written down yet: type it in the line above."))
        elif number == of_all:
            self.count.setText(say_count("{count} record", "{count} records", number))
        else:
            self.count.setText(say("{number} of {count} records", number=number, count=of_all))

    def _chosen_keys(self) -> list[str]:
        rows = self.table.selectionModel().selectedRows()
        return [self.model.records[index.row()].id for index in rows if index.row() < len(self.model.records)]

    def _choose(self, keys: Iterable[str]) -> None:
        wanted = set(keys)
        if not wanted or wanted == set(self._chosen_keys()):
            return
        selection = self.table.selectionModel()
        flags = QItemSelectionModel.SelectionFlag.Select | QItemSelectionModel.SelectionFlag.Rows
        for row in sorted(self.model.row_of(key) for key in wanted):
            if row >= 0:
                selection.select(self.model.index(row, 0), flags)

    def _follow_row(self) -> None:
        keys = self._chosen_keys()
        self.back_button.setEnabled(bool(keys))
        self.form.show_thing(keys[0] if len(keys) == 1 else "")
        self.strip.show_record(self._chosen_record())

    def _chosen_record(self) -> RecordBase | None:
        keys = self._chosen_keys()
        return self.document.garden.records_by_id.get(keys[0]) if len(keys) == 1 else None

    def _show_added(self, key: str) -> None:
        row = self.model.row_of(key)
        if row >= 0:
            self.table.scrollTo(self.model.index(row, 0))

    def begin(self, draft: dict[str, object]) -> None:
        """Begin a new record with some fields."""
        self.table.clearSelection()
        self.form.begin(**draft)
        self.form.kind.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_record(self, key: str) -> None:
        """Choose a record by its id."""
        row = self.model.row_of(key)
        if row >= 0:
            self.table.selectRow(row)
            self.table.scrollTo(self.model.index(row, 0))

    # -- edits ------------------------------------------------------------------------------

    def take_back(self) -> None:
        """Delete the chosen records, as one step."""
        keys = self._chosen_keys()
        if keys:
            words = say_count("Delete a record", "Delete {count} records", len(keys))
            self.document.edit(words, lambda garden: edits.remove_records(garden, keys))

    # -- photographs ------------------------------------------------------------------------

    def _choose_photographs(self) -> None:
        path = self.document.path
        kinds = " ".join(f"*{suffix} *{suffix.upper()}" for suffix in sorted(SUFFIXES))
        words = say("Pictures ({kinds})", kinds=kinds)
        chosen = QFileDialog.getOpenFileNames(
            self, say("Add photographs"), str(path.parent) if path is not None else "", words
        )[0]
        if chosen:
            self.add_photographs([Path(each) for each in chosen])

    def add_photographs(self, paths: list[Path]) -> None:
        """Add photographs to the record that is chosen, else to new notes on the bed that is shown or selected."""
        record = self._chosen_record()
        beds = self.document.selected_beds
        bed = self.bed.currentData() or (beds[0] if len(beds) == 1 else None)
        self.adder.add(paths, record.id if record is not None else None, bed)

    def _take_off(self, shots: list[Shot]) -> None:
        """Take photographs off their records; a note that has nothing else goes with its last one."""

        def change(garden: Garden) -> Garden:
            for shot in shots:
                record = garden.records_by_id[shot.record.id]
                left = tuple(one for one in record.photographs if one != shot.photograph)
                bare = record.kind == "note" and not record.words.strip() and not left
                garden = (
                    edits.remove_records(garden, [record.id])
                    if bare
                    else edits.change_record(garden, record.id, photographs=left)
                )
            return garden

        if shots:
            self.document.edit(
                say_count("Take off a photograph", "Take off {count} photographs", len(shots)), change
            )

    @override
    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if dropped_files(event.mimeData()):
            event.setDropAction(Qt.DropAction.LinkAction)
            event.accept()
        else:
            event.ignore()

    @override
    def dropEvent(self, event: QDropEvent) -> None:
        paths = dropped_files(event.mimeData())
        event.setDropAction(Qt.DropAction.LinkAction)  # the files stay where they are
        event.accept()
        self.add_photographs(paths)


def _only(box: QComboBox) -> tuple[str, ...] | None:
    """What a filter is set to, as the only one that is wanted; None where it is set to all."""
    value = box.currentData()
    return (str(value),) if value else None


def _offer(box: QComboBox, every: str, nothing: object, choices: Iterable[tuple[str, object]]) -> None:
    """Offer other choices in a filter; what was chosen stays."""
    now = box.currentData()
    box.clear()
    box.addItem(every, nothing)
    for words, value in choices:
        box.addItem(words, value)
    box.setCurrentIndex(max(0, box.findData(now)))
