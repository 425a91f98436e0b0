"""Records of the garden as a table whose cells are edited in place: one record a row, one undo step a cell."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple, Protocol

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.desk.pages.choice_cells import ChoiceCells
from planner.desk.pages.tables import HeadedModel, Index, PlainTable, plain_table
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.words import say


class Edited(Protocol):
    """What the rows are of, and what an edit changes: the document, or a garden that is only made ready."""

    @property
    def garden(self) -> Garden:
        """The value shown."""
        ...

    def edit(self, text: str, change: Callable[[Garden], Garden], merge: str = "") -> bool:
        """Do an edit; False where it is refused or changes nothing."""
        ...


class RecordColumn(NamedTuple):
    """A column: its head, and how its cells are shown and read.

    Attributes
    ----------
    head : str
    show : callable
        The text of a record.
    read : callable
        Changed fields from a text and its record.
    right : bool
        Its cells are numbers.
    choices : tuple of str
        The texts that may be chosen; empty where they are typed.
    """

    head: str
    show: Callable[[Any], str]
    read: Callable[[str, Any], dict[str, Any]]
    right: bool = False
    choices: tuple[str, ...] = ()


class RecordModel(HeadedModel):
    """Records of one part of the garden.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(
        self,
        document: Edited,
        columns: Sequence[RecordColumn],
        records: Callable[[Garden], Sequence[Any]],
        put: Callable[[Garden, str, dict[str, Any]], Garden],
        words: str,
    ) -> None:
        """A table of records.

        Parameters
        ----------
        document : Edited
        columns : sequence of RecordColumn
        records : callable
            The records of a garden; each has an ``id``.
        put : callable
            Changes fields of the record of an id.
        words : str
            What changing a cell is called in the Edit menu.
        """
        super().__init__()
        self.document, self.columns = document, tuple(columns)
        self.heads = tuple(column.head for column in columns)
        self._records_of, self._put, self._edit_words = records, put, words
        self.records: tuple[Any, ...] = ()

    def refresh(self) -> None:
        """Bring the rows in step with the garden."""
        new = tuple(self._records_of(self.document.garden))
        if len(new) != len(self.records):
            self.beginResetModel()
            self.records = new
            self.endResetModel()
        elif new:
            self.records = new
            self.dataChanged.emit(self.index(0, 0), self.index(len(new) - 1, len(self.columns) - 1))

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.records)

    @override
    def is_editable(self, column: int) -> bool:
        return True

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.records):
            return None
        column = self.columns[index.column()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return column.show(self.records[index.row()])
        if role == Qt.ItemDataRole.TextAlignmentRole and column.right:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or index.row() >= len(self.records):
            return False
        record, column = self.records[index.row()], self.columns[index.column()]
        text = str(value).strip()
        if text == column.show(record):
            return False
        try:
            fields = column.read(text, record)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return False
        return self.document.edit(self._edit_words, lambda garden: self._put(garden, record.id, fields))


def record_table(model: RecordModel, name: str) -> PlainTable:
    """A table of records; cells that are chosen offer their list.

    Parameters
    ----------
    model : RecordModel
    name : str
        What it is called to a screen reader.
    """
    table = plain_table(model, name)
    for number, column in enumerate(model.columns):
        if column.choices:
            table.setItemDelegateForColumn(number, ChoiceCells(table, column.choices))
    return table


def plain_text(head: str, field: str) -> RecordColumn:
    """A column of words."""
    return RecordColumn(head, lambda record: str(getattr(record, field)), lambda text, _record: {field: text})


def whole_number(head: str, field: str, *, needed: bool = False) -> RecordColumn:
    """A column of whole numbers; an emptied cell means that none is given, where that may be."""

    def read(text: str, _record: Any) -> dict[str, Any]:
        plain = text.replace(",", "").replace("\u202f", "").replace(" ", "")
        if not plain and not needed:
            return {field: None}
        if not plain.isdecimal():
            raise BedwrightError(say("'{text}' is no whole number", text=text), fix=say("Type one like 250"))
        return {field: int(plain)}

    return RecordColumn(head, lambda record: _shown(getattr(record, field)), read, right=True)


def decimal_number(head: str, field: str, show: Callable[[float], str], example: str) -> RecordColumn:
    """A column of numbers that may have a fraction; an emptied cell means that none is given.

    Parameters
    ----------
    head, field : str
    show : callable
    example : str
        Named where something else was typed.
    """

    def read(text: str, _record: Any) -> dict[str, Any]:
        number = "".join(sign for sign in text if sign.isdigit() or sign in ".,").replace(",", ".")
        if not text:
            return {field: None}
        try:
            return {field: float(number)}
        except ValueError:
            raise BedwrightError(
                say("'{text}' is no number", text=text), fix=say("Type one like {example}", example=example)
            ) from None

    def shown(record: Any) -> str:
        value = getattr(record, field)
        return "" if value is None else show(value)

    return RecordColumn(head, shown, read, right=True)


def yes_or_no(head: str, field: str) -> RecordColumn:
    """A column that says whether something holds."""
    yes, no = say("yes"), say("no")
    return RecordColumn(
        head,
        lambda record: yes if getattr(record, field) else no,
        lambda text, _record: {field: text == yes},
        choices=(no, yes),
    )


def _shown(value: int | None) -> str:
    return "" if value is None else f"{value}"
