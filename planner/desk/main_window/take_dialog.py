"""The dialog that brings beds, plantings and outlines from a file: how it is read, what would come, and what could not be read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

import shapely
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFormLayout,
    QHeaderView,
    QLabel,
    QLineEdit,
    QSpinBox,
    QSplitter,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.crops import Catalogue
from planner.desk.forms.fields import ChoiceField
from planner.desk.main_window.outline_picture import OutlinePicture
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.pages.import_preview import ImportPreview
from planner.desk.theme.palette import LookSwitch
from planner.errors import BedwrightError
from planner.garden import Bed, Garden, Planting, Structure
from planner.garden.outlines import Outline
from planner.garden.units import show_length
from planner.ground.shapes import plan_polygon
from planner.importing import taken_file
from planner.importing.ground_columns import HEADINGS
from planner.importing.outlines import BED, OUTLINE_KINDS, read_scale
from planner.importing.taken_file import Heading, Preview, TakenFile, Wishes
from planner.plan import Plan
from planner.words import capital, join_list, say
from planner.words.typed_days import YEARS

_SIZE = 980, 640
#: The choice of a size that a scale says.
_BY_SCALE = "scale"


@dataclass(frozen=True)
class _Read:
    """What was read of a file: the file itself the first time, then what it would bring; or one line why it cannot be."""

    file: TakenFile | None = None
    headings: tuple[Heading, ...] = ()
    garden: Garden | None = None
    taken: Garden | None = None
    found: Preview | None = None
    lines: tuple[str, ...] = ()
    there: tuple[shapely.Geometry, ...] = ()
    new: tuple[tuple[str, shapely.Geometry], ...] = ()
    error: str = ""


class TakeDialog(ImportPreview):
    """Shows what a file would bring into the garden, and brings it as one step.

    The file is read in a thread: the window goes on meanwhile.

    Parameters
    ----------
    parent : QWidget
    document : Document
    look : LookSwitch
    path : str

    Attributes
    ----------
    columns : QTableWidget
        Headings of a table, and what each is.
    drawn_size, scale, kind : ChoiceField, QLineEdit, ChoiceField
        Of a drawing: how large it is, and what its outlines become.
    year : QSpinBox
        Growing year of plantings that do not say it.
    picture : OutlinePicture
    made : tuple of str
        Ids of the beds and structures that were brought.
    """

    def __init__(self, parent: QWidget, document: Document, look: LookSwitch, path: str) -> None:
        super().__init__(
            parent, say("Bring in beds and plantings"), say("What could not be read, and what would come")
        )
        self._document, self._path = document, path
        self._file: TakenFile | None = None
        self._read: _Read | None = None
        self._wishes = Wishes(year=document.year)
        self.choices: dict[str, ChoiceField] = {}
        self.made: tuple[str, ...] = ()
        self._jobs = JobQueue(self)
        self.picture = OutlinePicture(look)
        self.picture.setAccessibleName(say("What would come, drawn"))
        self.columns = QTableWidget(0, 3)
        self.drawn_size = ChoiceField(say("Size of the drawing"), ())
        self.scale = QLineEdit("1:50")
        self.kind = ChoiceField(say("What the outlines become"), [(one, one) for one in OUTLINE_KINDS])
        self.sheet = ChoiceField(say("Sheet of the workbook"), ())
        self.year = QSpinBox()
        self._lay_out()
        self._connect()
        room = self.screen().availableGeometry()
        self.resize(min(_SIZE[0], room.width()), min(_SIZE[1], room.height()))
        self._wait()
        self._jobs.start(lambda _: _opened(path), self._show_opened, "file")

    # -- making -----------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self.columns.setAccessibleName(say("Headings of the table, and what each is"))
        self.columns.setHorizontalHeaderLabels([say("Heading"), say("is"), say("First below it")])
        self.columns.verticalHeader().hide()
        self.columns.setShowGrid(False)
        self.columns.setSelectionMode(QTableWidget.SelectionMode.NoSelection)
        self.columns.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.columns.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # Tab goes from choice to choice
        self.columns.horizontalHeader().setStretchLastSection(True)
        self.columns.horizontalHeader().setSectionResizeMode(0, QHeaderView.ResizeMode.ResizeToContents)
        self.year.setRange(*YEARS)
        self.year.setValue(self._wishes.year)
        self.year.setAccessibleName(say("Growing year of plantings without one"))
        self.scale.setAccessibleName(say("Scale"))
        self._form = QFormLayout()
        self._form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.FieldsStayAtSizeHint)
        self._form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        for words, field in (
            (say("Sheet of the workbook"), self.sheet),
            (say("Growing year of plantings without one"), self.year),
            (say("Size of the drawing"), self.drawn_size),
            (say("Scale"), self.scale),
            (say("The outlines become"), self.kind),
        ):
            self._form.addRow(words, field)
            self._form.setRowVisible(field, False)
        left = QWidget()
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 0, 0)
        side.addLayout(self._form)
        side.addWidget(self.columns, 1)
        side.addStretch(0)
        self.columns.hide()
        across = QSplitter()
        across.addWidget(left)
        across.addWidget(self.picture)
        across.setChildrenCollapsible(False)
        across.setSizes([_SIZE[0] // 2, _SIZE[0] // 2])
        below = QSplitter(Qt.Orientation.Vertical)
        below.addWidget(across)
        self.column.removeWidget(self.rows)
        below.addWidget(self.rows)
        below.setChildrenCollapsible(False)
        below.setSizes([_SIZE[1] * 3 // 5, _SIZE[1] * 2 // 5])
        name = QLabel(self._path)
        name.setTextFormat(Qt.TextFormat.PlainText)
        name.setProperty("second", True)
        name.setWordWrap(True)
        self.column.insertWidget(0, name)
        self.column.insertWidget(2, below, 1)

    def _connect(self) -> None:
        self.drawn_size.chosen.connect(self._choose_size)
        self.scale.editingFinished.connect(self._read_again)
        self.kind.chosen.connect(self._read_again)
        self.sheet.chosen.connect(self._choose_sheet)
        self.year.valueChanged.connect(self._read_again)

    # -- the file ---------------------------------------------------------------------------

    def _wait(self) -> None:
        """Nothing can be taken while the file is read."""
        self._read = None
        self.head.setText(say("The file is being read …"))
        self.ok.setText(say("Bring in"))
        self.ok.setEnabled(False)

    def _show_opened(self, read: _Read) -> None:
        """The file was opened: offer how it may be read, and read it as it is guessed."""
        if read.file is None:
            self._show(read)
            return
        self._file = file = read.file
        if file.kind == "table":
            self.sheet.offer([(name, name) for name in file.sheets])
            self._form.setRowVisible(self.sheet, len(file.sheets) > 1)
            self._form.setRowVisible(self.year, True)
            self._show_headings(read.headings)
        else:
            self._form.setRowVisible(self.kind, True)
            self.drawn_size.offer(_sizes(file))
            self._form.setRowVisible(self.drawn_size, file.kind != "map")
        first = next(iter(self.choices.values()), self.year if file.kind == "table" else self.drawn_size)
        (first if first.isVisible() else self.kind).setFocus(Qt.FocusReason.OtherFocusReason)
        self._read_again()

    def _choose_sheet(self) -> None:
        """Another sheet has other headings."""
        file, sheet = self._file, str(self.sheet.value)
        if file is not None:
            self._wait()
            self._jobs.start(lambda _: _with_headings(file, sheet), self._show_sheet, "file")

    def _show_sheet(self, read: _Read) -> None:
        self._show_headings(read.headings)
        self._read_again()

    def _show_headings(self, headings: Sequence[Heading]) -> None:
        """A line of each heading, with the column that it is taken for."""
        self.choices = {}
        self.columns.setRowCount(len(headings))
        self.columns.setVisible(bool(headings))
        choices = [("", say("passed over")), *((name, name) for name in HEADINGS)]
        for row, heading in enumerate(headings):
            choice = ChoiceField(say("{heading} is", heading=heading.text), choices)
            choice.show_value(heading.means)
            choice.chosen.connect(self._read_again)
            self.choices[heading.text] = choice
            for column, text in ((0, heading.text), (2, heading.first)):
                self.columns.setItem(row, column, QTableWidgetItem(text))
            self.columns.setCellWidget(row, 1, choice)
        self.columns.resizeRowsToContents()
        if self.choices:
            self.columns.setColumnWidth(1, next(iter(self.choices.values())).sizeHint().width() + 8)

    def _choose_size(self, size: object) -> None:
        self._form.setRowVisible(self.scale, size == _BY_SCALE)
        self._read_again()

    def _read_again(self, *_: object) -> None:
        """Read the file as it is chosen now."""
        file = self._file
        if file is None:
            return
        self._wait()
        try:
            wishes = self._wished(file)
        except BedwrightError as error:
            self._jobs.cancel("preview")
            self._show(_Read(error=str(error)))
            return
        self._jobs.start(partial(_previewed, file, self._document.plan, wishes), self._show, "preview")

    def _wished(self, file: TakenFile) -> Wishes:
        """How the file is to be read."""
        wishes = replace(self._wishes, year=self.year.value(), kind=str(self.kind.value or BED))
        if file.kind == "table":
            columns = {heading: str(choice.value) for heading, choice in self.choices.items()}
            return replace(wishes, columns=columns, sheet=str(self.sheet.value or ""))
        if self.drawn_size.value == _BY_SCALE:
            return replace(wishes, scale=read_scale(self.scale.text()))
        return replace(wishes, unit=taken_file.UNITS.get(str(self.drawn_size.value)))

    def _show(self, read: _Read) -> None:
        """Show what the file would bring, or why it cannot be read."""
        self._read = read
        if read.found is None:
            self.show_file(capital(read.error), (), say("Bring in"), can_be_taken=False)
        else:
            made, lost = taken_file.made_words(read.found), taken_file.lost_words(read.found)
            summary = [
                say("{things} can be brought in.", things=made) if made else say("Nothing can be brought in.")
            ]
            if lost:
                summary.append(say("{lost}.", lost=lost))
            ok_words = say("Bring in {things}", things=made) if made else say("Bring in")
            self.show_file(" ".join(summary), read.lines, ok_words, can_be_taken=bool(made))
        self.picture.show_outlines(read.there, read.new)

    # -- taking -----------------------------------------------------------------------------

    @override
    def accept(self) -> None:
        """Bring in what is shown, as one step; a garden that has changed meanwhile is compared anew first."""
        read, document = self._read, self._document
        if read is None or read.found is None:
            return
        if read.taken is None or read.garden is not document.stable:
            self._read_again()
            return
        words = say("Bring in {things}", things=taken_file.made_words(read.found))
        if document.commit(words, read.taken):
            self.made = tuple(one.id for one in _outlined(read.found))
            super().accept()
        elif document.only_shown:
            self.head.setText(document.only_shown)

    @override
    def done(self, result: int) -> None:
        for kind in ("file", "preview"):
            self._jobs.cancel(kind)
        super().done(result)


def _sizes(file: TakenFile) -> list[tuple[object, str]]:
    """How large a drawing may be said to be; what the file says itself, or a question, first."""
    names = {
        "m": say("its numbers are metres"),
        "cm": say("its numbers are centimetres"),
        "mm": say("its numbers are millimetres"),
        "ft": say("its numbers are feet"),
        "in": say("its numbers are inches"),
    }
    units: list[tuple[object, str]] = list(names.items())
    if file.kind == "svg":
        return [(None, say("choose")), (_BY_SCALE, say("drawn to scale on paper")), *units]
    own = next((names[key] for key, metres in taken_file.UNITS.items() if metres == file.unit), "")
    if file.unit is not None and not own:
        return [(None, say("as the file says")), *units]
    return [(None, say("as the file says: {unit}", unit=own) if own else say("choose")), *units]


# -- in the thread ------------------------------------------------------------------------------


def _opened(path: str) -> Iterator[_Read]:
    try:
        file = taken_file.open_taken(path)
    except BedwrightError as error:
        yield _Read(error=str(error))
    except OSError as error:
        why = error.strerror or str(error)
        yield _Read(
            error=say("{file} cannot be read: {why}. Check the name and the folder.", file=path, why=why)
        )
    else:
        yield from _with_headings(file, "")


def _with_headings(file: TakenFile, sheet: str) -> Iterator[_Read]:
    """The file with the headings of a sheet; none where there is no table, which reading it will tell of."""
    try:
        yield _Read(file, file.headings(sheet) if file.kind == "table" else ())
    except BedwrightError:
        yield _Read(file)


def _previewed(file: TakenFile, plan: Plan, wishes: Wishes, cancelled: Cancelled) -> Iterator[_Read]:
    garden, catalogue = plan.garden, plan.catalogue
    try:
        found = file.preview(garden, catalogue, wishes)
    except BedwrightError as error:
        yield _Read(error=str(error))
        return
    if cancelled():
        return
    beds = tuple(plan_polygon(one.outline) for one in garden.beds)
    there = (*beds, *(plan_polygon(one.outline) for one in garden.structures))
    new = tuple((one.name, plan_polygon(one.outline)) for one in _outlined(found))
    names = {bed.id: bed.name for bed in (*garden.beds, *found.beds)}
    taken = taken_file.take_preview(garden, found)
    yield _Read(file, (), garden, taken, found, tuple(_lines(found, names, garden, catalogue)), there, new)
    # The dates of what would come are worked out while the preview is looked at, so that bringing it is quick.  Its
    # ids are new: nothing that the window knows is touched.
    after = Plan(taken, plan.year, catalogue, plan.cache)
    for planting in taken.plantings[len(garden.plantings) :]:
        if cancelled():
            return
        after.span_of(planting)


def _outlined(found: Preview) -> list[Bed | Structure]:
    """Beds and structures that would come."""
    things = (one for row in found.rows for one in taken_file.things_of(row))
    return [one for one in things if not isinstance(one, Planting)]


def _lines(found: Preview, names: dict[str, str], garden: Garden, catalogue: Catalogue) -> Iterator[str]:
    """What could not be read, then the other rows of the file as they were understood."""
    for line in taken_file.lost_lines(found):
        yield say("✗ {line}", line=line)
    for row in found.rows:
        things = [_thing_words(one, names, garden, catalogue) for one in taken_file.things_of(row)]
        if things:
            line = say("✓ {where}: {things}", where=taken_file.place_of(row), things=join_list(things))
            yield say("{row} ({notes})", row=line, notes="; ".join(row.notes)) if row.notes else line


def _thing_words(
    thing: Bed | Structure | Planting, names: dict[str, str], garden: Garden, catalogue: Catalogue
) -> str:
    if isinstance(thing, Planting):
        return say("{crop} in {bed}", crop=catalogue.name_of(thing.crop), bed=names[thing.bed])
    size = _size_words(thing.outline, garden)
    if isinstance(thing, Bed):
        return say("bed {name}, {size}", name=thing.name, size=size)
    if thing.name:
        return say("{kind} {name}, {size}", kind=thing.kind, name=thing.name, size=size)
    return say("{kind}, {size}", kind=thing.kind, size=size)


def _size_words(outline: Outline, garden: Garden) -> str:
    """Length and width of a rectangle; of another outline those of what holds it."""
    units = garden.site.units
    if outline.shape == "rectangle":
        sides = (outline.length, outline.width)
    else:
        left, low, right, high = plan_polygon(outline).bounds
        sides = (right - left, high - low)
    return say("{length} by {width}", length=show_length(sides[0], units), width=show_length(sides[1], units))
