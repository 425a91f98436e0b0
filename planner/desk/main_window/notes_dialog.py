"""The dialog of notes from outside: what they would bring, before anything is taken."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QLabel,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from planner.desk.model.document import Document
from planner.importing.note_words import note_lines, summary_words
from planner.importing.notes import NotesPreview, preview, take
from planner.importing.notes_file import NotesFile
from planner.words import join_list, say

_SIZE = 720, 480


class NotesDialog(QDialog):
    """Shows what becomes of each note, and takes those that are new as one step.

    Parameters
    ----------
    parent : QWidget
    document : Document
    names : sequence of str
        Of the files.
    notes : sequence of NotesFile
        What they hold, in the same order.
    say_line : callable
        Shows a line in the status bar.

    Attributes
    ----------
    words : QLabel
        How many notes are new, there already, in conflict and unreadable.
    lines : QPlainTextEdit
    again : QCheckBox
        Whether notes are taken whose records were removed since; hidden where there are none.
    take : QPushButton
    """

    def __init__(
        self,
        parent: QWidget,
        document: Document,
        names: Sequence[str],
        notes: Sequence[NotesFile],
        say_line: Callable[[str], None],
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Notes from outside"))
        self._document, self._notes, self._say = document, tuple(notes), say_line
        self._names = tuple(names)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.lines = QPlainTextEdit()
        self.lines.setReadOnly(True)
        self.lines.setAccessibleName(say("What the notes tell"))
        self.again = QCheckBox(say("Also take those whose records were removed here"))
        self.again.toggled.connect(self._show)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.take = buttons.addButton(say("Take what is new"), QDialogButtonBox.ButtonRole.ActionRole)
        self.take.clicked.connect(self._take)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(self.words)
        layout.addWidget(self.lines, 1)
        layout.addWidget(self.again)
        layout.addWidget(buttons)
        self._show()
        self.again.setVisible(bool(self._preview().of_status("removed")))
        room = self.screen().availableGeometry()
        self.resize(min(_SIZE[0], room.width()), min(_SIZE[1], room.height()))

    def _preview(self) -> NotesPreview:
        return preview(self._document.stable, self._notes, again=self.again.isChecked())

    def _show(self) -> None:
        """Show what becomes of each note."""
        found = self._preview()
        self.words.setText(say("{files}: {notes}", files=join_list(self._names), notes=summary_words(found)))
        other = [
            say(
                "{file} was written for the garden “{name}”. Take it only if that is this one.",
                file=self._names[at],
                name=name,
            )
            for at, name in found.other_gardens
        ]
        lines = note_lines(self._document.plan, found, self._names)
        self.lines.setPlainText("\n".join((*other, *lines)))
        self.take.setEnabled(bool(found.new))

    def _take(self) -> None:
        garden = self._document.stable
        found = self._preview()  # the garden may have changed since they were shown
        if self._document.commit(say("Take notes from outside"), take(garden, found)):
            self._say(say("Taken: {notes}", notes=summary_words(found)))
        self.accept()
