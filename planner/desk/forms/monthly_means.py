"""Twelve monthly means of the minimum and the maximum, typed or pasted."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QWidget
from typing_extensions import override

from planner.desk.forms.fields import TypedField
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import edits
from planner.garden.site import UnitSystem
from planner.garden.units import parse_temperature, show_mean_temperature
from planner.importing.monthly_means import PastedMeans, read_monthly_means
from planner.words import later, say, say_count
from planner.words.dates import month_words

_MINIMUM, _MAXIMUM = 0, 1
_COLUMNS = ("monthly_minimum", "monthly_maximum")
_TITLES: dict[UnitSystem, tuple[str, str]] = {
    "metric": (later("Minimum, °C"), later("Maximum, °C")),
    "feet_inches": (later("Minimum, °F"), later("Maximum, °F")),
}
_NAMES = (later("Mean minimum of {month}"), later("Mean maximum of {month}"))

#: A column and a month, both from 0.
Cell = tuple[int, int]


class MonthlyMeans(QWidget):
    """A table of fields, a line a month.

    A column is stored once all its twelve months are given; until then what was typed waits in the table, and so
    does a minimum above its maximum.

    Signals
    -------
    wrong : str
        What was typed or pasted is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self._waiting: dict[Cell, float] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(4)
        self._grid.setVerticalSpacing(2)
        self._titles = (QLabel(), QLabel())
        for column, title in enumerate(self._titles):
            title.setWordWrap(True)
            self._grid.addWidget(title, 0, column + 1)
        self.fields: dict[Cell, TypedField] = {}
        for month in range(12):
            self._grid.addWidget(QLabel(month_words(month + 1, short=True)), month + 1, 0)
            for column in (_MINIMUM, _MAXIMUM):
                self._add_field((column, month))
        self._grid.setColumnStretch(1, 1)
        self._grid.setColumnStretch(2, 1)
        self.state = QLabel()
        self.state.setWordWrap(True)
        self.state.setTextFormat(Qt.TextFormat.PlainText)
        self.paste_button = WrappedButton(say("Paste from a spreadsheet"))
        self.paste_button.setToolTip(say("Two columns or two rows of twelve numbers: minimum and maximum"))
        self.paste_button.clicked.connect(lambda: self.paste())
        self.remove_button = WrappedButton(say("Remove the monthly means"))
        self.remove_button.clicked.connect(self._remove)
        for row, widget in enumerate((self.state, self.paste_button, self.remove_button), start=13):
            self._grid.addWidget(widget, row, 0, 1, 3)
        document.opened.connect(self._forget)

    def _add_field(self, cell: Cell) -> None:
        column, month = cell
        name = say(_NAMES[column], month=month_words(month + 1))
        field = _MeanField(name, self)
        self.fields[cell] = field
        self._grid.addWidget(field, month + 1, column + 1)
        field.wrong.connect(lambda why: self._refuse(why, cell))
        field.typed.connect(lambda value: self._take({cell: value}))
        field.righted.connect(lambda: self._give_up(cell))
        field.pasted.connect(lambda: self.paste(cell))

    @property
    def units(self) -> UnitSystem:
        """The garden's unit system."""
        return self.document.garden.site.units

    # -- typing -----------------------------------------------------------------------------

    def paste(self, at: Cell = (_MINIMUM, 0)) -> None:
        """Fill the table from the clipboard, as one step.

        Parameters
        ----------
        at : (int, int)
            Column of a single series that does not say what it is, and month of its first number; all others begin
            in January where they are twelve.
        """
        try:
            means = read_monthly_means(QGuiApplication.clipboard().text(), self.units)
        except BedwrightError as error:
            self._refuse(str(error))
            return
        self._take(_cells_of(means, at))

    def _take(self, typed: dict[Cell, float | None]) -> None:
        """Store what was typed together with what waits, as far as it can be."""
        for cell, value in typed.items():
            self.fields[cell].accept()
            self._waiting.pop(cell, None)
            if value is not None:
                self._waiting[cell] = value
        reasons = self._reasons()
        ready = self._stored() | {c: v for c, v in self._waiting.items() if c[1] not in reasons}
        changes = {}
        for column, name in enumerate(_COLUMNS):
            cells = [(column, month) for month in range(12)]
            if all(cell in ready for cell in cells):
                changes[name] = tuple(ready[cell] for cell in cells)
                for cell in [cell for cell in cells if cell[1] not in reasons]:
                    if self._waiting.pop(cell, None) is not None:
                        self.fields[cell].accept()
        self.document.edit(
            say("Type the monthly means"), lambda garden: edits.change_climate(garden, **changes)
        )
        self.refresh()
        if reasons:
            self.wrong.emit(next(iter(reasons.values())))

    def _stored(self) -> dict[Cell, float]:
        climate = self.document.stable.climate
        return {
            (column, month): value
            for column, name in enumerate(_COLUMNS)
            for month, value in enumerate(getattr(climate, name) or ())
        }

    def _reasons(self) -> dict[int, str]:
        """Why the means of some months cannot be, by month from 0."""
        table = self._stored() | self._waiting
        found = {}
        for month in range(12):
            low, high = table.get((_MINIMUM, month)), table.get((_MAXIMUM, month))
            if low is not None and high is not None and low > high:
                words = say(
                    "the mean minimum {low} is above the mean maximum {high}",
                    low=show_mean_temperature(low, self.units),
                    high=show_mean_temperature(high, self.units),
                )
                found[month] = str(BedwrightError(words, month_words(month + 1), say("Mend one of the two")))
        return found

    def _give_up(self, cell: Cell) -> None:
        """The field shows its stored value again, or none."""
        if self._waiting.pop(cell, None) is not None:
            self._take({})

    def _refuse(self, why: str, cell: Cell | None = None) -> None:
        if cell is not None:
            self._waiting.pop(cell, None)  # the field holds what was typed
        self._show_state(why, wrong=True)
        self.wrong.emit(why)

    def _remove(self) -> None:
        self._waiting.clear()
        for field in self.fields.values():
            field.accept()
        change = dict.fromkeys(_COLUMNS)
        self.document.edit(
            say("Remove the monthly means"), lambda garden: edits.change_climate(garden, **change)
        )
        self.refresh()

    def _forget(self) -> None:
        """Another garden is open: nothing that was typed before belongs to it."""
        self._waiting.clear()
        for field in self.fields.values():
            field.accept()

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show what is stored, and what waits."""
        for column, title in enumerate(self._titles):
            title.setText(say(_TITLES[self.units][column]))
        stored, reasons = self._stored(), self._reasons()
        for cell, field in self.fields.items():
            field.show_value(stored.get(cell))
            if cell in self._waiting:
                waiting = show_mean_temperature(self._waiting[cell], self.units)
                text = field.text() if field.isModified() else waiting
                field.refuse(text, reasons.get(cell[1], ""))
        refused = [field.draft[1] for field in self.fields.values() if field.is_wrong and field.draft]
        self._show_state(refused[0] if refused else self._state_words(), wrong=bool(refused))
        self.remove_button.setEnabled(bool(stored or self._waiting))

    def _state_words(self) -> str:
        if not self._waiting:
            return (
                "" if self._stored() else say("Without them nothing is said about the warmth of the place.")
            )
        return say_count(
            "{count} mean waits here; a column is stored once its twelve months are there.",
            "{count} means wait here; a column is stored once its twelve months are there.",
            len(self._waiting),
        )

    def _show_state(self, text: str, *, wrong: bool) -> None:
        self.state.setText(text)
        self.state.setProperty("warn", wrong)
        self.state.style().unpolish(self.state)
        self.state.style().polish(self.state)


class _MeanField(TypedField):
    """One mean; several numbers that are pasted into it fill the table.

    Signals
    -------
    pasted
        Several numbers lie on the clipboard, and are to be pasted from here on.
    """

    pasted = Signal()

    def __init__(self, name: str, table: MonthlyMeans) -> None:
        super().__init__(
            name,
            lambda text: parse_temperature(text, table.units),
            lambda value: show_mean_temperature(value, table.units),
            may_be_empty=True,
        )
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste) and _holds_several():
            self.pasted.emit()
            return
        super().keyPressEvent(event)

    @override
    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        menu = self.createStandardContextMenu()
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        if _holds_several():
            menu.addAction(say("Paste from a spreadsheet"), self.pasted.emit)
        menu.popup(event.globalPos())


def _holds_several() -> bool:
    """Whether the clipboard holds more than one number."""
    text = QGuiApplication.clipboard().text().strip()
    return any(mark in text for mark in "\n\t;") or len(text.split()) > 2


def _cells_of(means: PastedMeans, at: Cell) -> dict[Cell, float | None]:
    """Cells of the table that pasted means fill; see :meth:`MonthlyMeans.paste`."""
    column, first = at
    found: dict[Cell, float | None] = {}
    for to, series in ((_MINIMUM, means.minimum), (_MAXIMUM, means.maximum), (column, means.either)):
        begin = first if first + len(series) <= 12 else 0
        found |= {(to, begin + month): value for month, value in enumerate(series)}
    return found
