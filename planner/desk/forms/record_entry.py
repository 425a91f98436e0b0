"""A line in which records are typed, with what it will write shown before Enter."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import QEvent, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLabel, QLineEdit, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.importing.typed_records import (
    TypedRecords,
    add_typed_records,
    read_typed_records,
    try_typed_records,
    typed_lines,
    typed_warnings,
)
from planner.plan import Plan
from planner.season.spans import growing_year
from planner.words import later, say, say_count

#: What is typed is read when the keys have rested so long. [ms]
REST = 90
#: So many records of a line are shown by themselves.
MOST_SHOWN = 5
EXAMPLE = later("slugs in Bed 2, half of it")


class RecordEntry(QWidget):
    """A line in which what happened is typed.

    Parameters
    ----------
    document : Document
    about : callable, optional
        Ids of the beds and plantings that are meant where a line names none; what is selected by default.

    Attributes
    ----------
    today : callable
        The present day.
    called : mapping of str to str
        Plantings by a capital letter.
    read_otherwise : callable
        Takes the line; what it means where that is no record, and whether it can be done; None where it is one.

    Signals
    -------
    written : int
        So many records were written down.
    left
        Escape was pressed in an empty line.
    """

    written = Signal(int)
    left = Signal()

    def __init__(self, document: Document, about: Callable[[], Sequence[str]] | None = None) -> None:
        super().__init__()
        self.document = document
        self.today: Callable[[], dt.date] = dt.date.today
        self.called: Mapping[str, str] = {}
        self.read_otherwise: Callable[[str], tuple[str, bool] | None] = lambda _text: None
        self._about = about if about is not None else self._selected
        self._other_year: tuple[Plan, Plan] | None = None
        self._asked_about = self._asked_to_leave = ""
        self._slip: tuple[str, str] | None = None
        self.line = QLineEdit()
        self.line.setAccessibleName(say("What happened"))
        self.line.setPlaceholderText(say(EXAMPLE))
        examples = (
            say(
                "Type what happened, where, when and how much, in any order; words of your own behind a colon:"
            ),
            say("sown: beds 3 to 7 on Tuesday"),
            say("picked 1.2 kg tomato in North, given away"),
            say("carrot up in Bed 4 on 3 May"),
            say("measured height 43 cm of leek in Bed 1"),
            say("lesson carrot: sow thinner"),
        )
        self.line.setToolTip("\n".join(examples))
        self.line.setClearButtonEnabled(True)
        self.meaning = QLabel()
        self.meaning.setTextFormat(Qt.TextFormat.PlainText)
        self.meaning.setWordWrap(True)
        self.meaning.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.meaning.setProperty("second", True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(3)
        column.addWidget(self.line)
        column.addWidget(self.meaning)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST)
        self._rest.timeout.connect(self.show_meaning)
        self.line.textEdited.connect(lambda _text: self._rest.start())
        self.line.installEventFilter(self)

    def _selected(self) -> Sequence[str]:
        return (*self.document.selected_beds, *self.document.selected_plantings)

    # -- reading ----------------------------------------------------------------------------

    @property
    def plan(self) -> Plan:
        """The plan of the growing year of the present day."""
        plan = self.document.plan
        year = growing_year(plan.garden.site, self.today())
        if plan.year == year:
            return plan
        if self._other_year is None or self._other_year[0] is not plan:
            self._other_year = plan, plan.after(plan.garden, year)
        return self._other_year[1]

    def _read(self) -> TypedRecords:
        return read_typed_records(self.plan, self.line.text(), self.today(), self._about(), self.called)

    def show_meaning(self) -> None:
        """Show what the line will write, or what is not clear in it yet."""
        self._rest.stop()
        if not self.line.text().strip():
            self._show("", warn=False)
            return
        otherwise = self.read_otherwise(self.line.text())
        if otherwise is not None:
            meaning, possible = otherwise
            self._show(meaning, warn=not possible)
            return
        try:
            typed = self._read()
            try_typed_records(self.document.garden, typed)
        except BedwrightError as error:
            self._show_error(error, warn=False)
            return
        lines = list(typed_lines(self.plan, typed))
        more = len(lines) - MOST_SHOWN
        if more > 0:
            lines[MOST_SHOWN:] = [say_count("and {count} more", "and {count} more", more)]
        warnings = typed_warnings(self.plan, typed)
        self._show("\n".join([*lines, *warnings]), warn=bool(warnings))

    def complain(self, text: str) -> None:
        """Say below the line why it cannot be taken."""
        self._rest.stop()
        self._show(text, warn=True)

    def tell(self, text: str) -> None:
        """Say below the line what was done."""
        self._rest.stop()
        self._show(text, warn=False)

    def _show_error(self, error: BedwrightError, *, warn: bool) -> None:
        """Say why the line is not clear; a word that is perhaps meant is taken by a key."""
        slip = getattr(error, "slip", None)
        words = str(error)
        if slip is not None:
            words = say("{error} Tab puts it in.", error=words)
        self._show(words, warn=warn)
        self._slip = slip

    def _stays_at_tab(self) -> bool:
        """Put in what is meant; a line with something in it is left by a second Tab only, as who types on types into a box."""
        if self._rest.isActive():  # typed just now, and not read yet
            self.show_meaning()
        if self._take_what_is_meant():
            return True
        text = self.line.text()
        if not text.strip() or self._asked_to_leave == text:
            self._asked_to_leave = ""
            return False
        self._asked_to_leave = text
        words = say(
            "There is no word to put in. Enter writes the line down; a second Tab leaves it as it is."
        )
        self._show("\n".join(filter(None, (self.meaning.text(), words))), warn=False)
        return True

    def _take_what_is_meant(self) -> bool:
        """Put the word that is perhaps meant in the place of the slip; False where there is none."""
        if self._slip is None:
            return False
        wrong, meant = self._slip
        text = self.line.text()
        at = text.casefold().find(wrong.casefold())
        if at < 0:
            return False
        self.line.setText(text[:at] + meant + text[at + len(wrong) :])
        self.show_meaning()
        return True

    def _show(self, text: str, *, warn: bool) -> None:
        self._slip = None
        self.meaning.setText(text)
        self.line.setAccessibleDescription(text)
        if bool(self.meaning.property("warn")) != warn:
            self.meaning.setProperty("warn", warn)
            self.meaning.setProperty("second", not warn)
            self.meaning.style().unpolish(self.meaning)
            self.meaning.style().polish(self.meaning)

    # -- writing ----------------------------------------------------------------------------

    def write(self) -> bool:
        """Write down what the line says, as one step; False where it is not clear."""
        self._rest.stop()
        try:
            typed = self._read()
        except BedwrightError as error:
            self._show_error(error, warn=True)
            return False
        warnings = typed_warnings(self.plan, typed)
        if warnings and self._asked_about != self.line.text():
            self._asked_about = self.line.text()
            again = say("Press Enter once more to write it down all the same")
            self._show("\n".join([*typed_lines(self.plan, typed), *warnings, again]), warn=True)
            return False
        refused: list[str] = []
        connection = self.document.edit_refused.connect(refused.append)
        count = len(typed.fields)
        words = say_count("Write down a record", "Write down {count} records", count)
        done = self.document.edit(words, lambda garden: add_typed_records(garden, typed))
        self.document.edit_refused.disconnect(connection)
        if not done:
            self._show(refused[0] if refused else say("that is written down already"), warn=True)
            return False
        self.line.setText("")  # and what was typed is no more to be brought back by undo: the record is
        self._asked_about = ""
        said = typed_lines(self.plan, typed)
        self._show(
            say("Written down: {record}", record=said[0])
            if count == 1
            else say_count("{count} record written down", "{count} records written down", count),
            warn=False,
        )
        self.written.emit(count)
        return True

    @override
    def eventFilter(self, watched: object, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            undoes = event.matches(QKeySequence.StandardKey.Undo) and not self.line.isUndoAvailable()
            redoes = event.matches(QKeySequence.StandardKey.Redo) and not self.line.isRedoAvailable()
            if undoes or redoes:  # nothing is typed: the window's own undo is meant
                event.ignore()
                return True
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.write()
                return True
            if event.key() == Qt.Key.Key_Tab and self._stays_at_tab():
                return True
            if event.key() == Qt.Key.Key_Escape:
                if self.line.text():
                    self.line.clear()
                    self._show("", warn=False)
                else:
                    self.left.emit()
                return True
        return False
