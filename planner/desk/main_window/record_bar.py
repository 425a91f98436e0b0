"""The line below the sheet in which what happened is typed: select, one key, type, Enter."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSizePolicy, QToolButton, QVBoxLayout

from planner.desk.model.document import Document
from planner.desk.model.thing_words import name_of
from planner.words import join_list, say, say_count

if TYPE_CHECKING:
    from planner.desk.forms.record_entry import RecordEntry

#: So many things that are selected are named.
MOST_NAMED = 4


class RecordBar(QFrame):
    """A line for records of what is selected on the sheet; hidden until its key is pressed.

    Signals
    -------
    closed
        It was left: the keys go back to the sheet.
    """

    closed = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Write down what happened"))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self.about = QLabel()
        self.about.setTextFormat(Qt.TextFormat.PlainText)
        self.about.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        shut = QToolButton()
        shut.setText("✕")
        shut.setAccessibleName(say("Close the line"))
        shut.setToolTip(say("Close the line"))
        shut.clicked.connect(self.close_bar)
        head = QHBoxLayout()
        head.addWidget(self.about, 1)
        head.addWidget(shut)
        self._column = column = QVBoxLayout(self)
        column.setContentsMargins(12, 4, 12, 6)
        column.setSpacing(2)
        column.addLayout(head)
        document.selection_changed.connect(self._follow)
        document.opened.connect(self.hide)
        self.hide()

    @cached_property
    def entry(self) -> RecordEntry:
        """The line to type in."""
        from planner.desk.forms.record_entry import RecordEntry

        entry = RecordEntry(self.document)
        entry.left.connect(self.close_bar)
        self._column.addWidget(entry)
        return entry

    def begin(self) -> None:
        """Show the line, ready to be typed in."""
        self.show()
        self._follow()
        self.entry.line.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.entry.line.selectAll()

    def close_bar(self) -> None:
        """Hide the line."""
        self.hide()
        self.closed.emit()

    def _follow(self) -> None:
        if self.isHidden():
            return
        self.about.setText(self._about_words())
        self.entry.show_meaning()

    def _about_words(self) -> str:
        keys = (*self.document.selected_beds, *self.document.selected_plantings)
        if not keys:
            return say("What happened? Name the beds and crops, or select them first.")
        garden = self.document.garden
        names = [
            say(
                "{crop} in {bed}",
                crop=name_of(self.document.plan, [key]),
                bed=garden.beds_by_id[garden.plantings_by_id[key].bed].name,
            )
            if key in garden.plantings_by_id
            else garden.beds_by_id[key].name
            for key in keys[:MOST_NAMED]
        ]
        more = len(keys) - MOST_NAMED
        if more > 0:
            names.append(say_count("{count} more", "{count} more", more))
        return say("What happened to {things}?", things=join_list(names))
