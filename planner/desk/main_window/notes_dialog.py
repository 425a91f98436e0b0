"""The dialog of notes from outside: what they would bring, before anything is taken."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QLabel,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.wrapped import WrappedItems
from planner.desk.model.document import Document
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.importing.note_words import new_lines, other_lines, summary_words
from planner.importing.notes import NoteRow, NotesPreview, preview, take
from planner.importing.notes_file import NotesFile
from planner.words import join_list, say

_SIZE = 720, 480
_ROW = Qt.ItemDataRole.UserRole


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
    lines : QTreeWidget
        What is new has a box each: what is not ticked is left out this time.
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
        self.lines = QTreeWidget()
        self.lines.setHeaderHidden(True)
        self.lines.setRootIsDecorated(False)
        self.lines.setWordWrap(True)
        self._items = WrappedItems(self.lines, 38)
        self.lines.setItemDelegate(self._items)
        self._left_out: set[tuple[int, int]] = set()
        self.lines.itemChanged.connect(self._on_ticked)
        self.lines.setAccessibleName(say("What the notes tell"))
        self.again = QCheckBox(say("Also take those whose records were removed here"))
        self.again.toggled.connect(self._show)
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Close)
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
        plan = self._document.plan
        blocked = self.lines.blockSignals(True)
        self.lines.clear()
        for line in other:
            self.lines.addTopLevelItem(QTreeWidgetItem([line]))
        for row, line in new_lines(plan, found):
            item = QTreeWidgetItem([line])
            item.setData(0, _ROW, row)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            left_out = (row.file, row.number) in self._left_out
            item.setCheckState(0, Qt.CheckState.Unchecked if left_out else Qt.CheckState.Checked)
            self.lines.addTopLevelItem(item)
        for line in other_lines(plan, found, self._names):
            self.lines.addTopLevelItem(QTreeWidgetItem([line]))
        self.lines.blockSignals(blocked)
        self._follow_ticks()

    def _on_ticked(self, item: QTreeWidgetItem) -> None:
        row = item.data(0, _ROW)
        if isinstance(row, NoteRow):
            (self._left_out.discard if item.checkState(0) == Qt.CheckState.Checked else self._left_out.add)(
                (row.file, row.number)
            )
            self._follow_ticks()

    def _wanted(self) -> NotesPreview:
        """What becomes of the notes that are not left out."""
        found = self._preview()
        return found.without(row for row in found.new if (row.file, row.number) in self._left_out)

    def _follow_ticks(self) -> None:
        count, all_of = len(self._wanted().new), len(self._preview().new)
        self.take.setEnabled(count > 0)
        self.take.setText(
            say("Take what is new")
            if count == all_of
            else say("Take {count} of {all}", count=count, all=all_of)
        )

    def _take(self) -> None:
        garden = self._document.stable
        found = self._wanted()  # the garden may have changed since they were shown
        if self._document.commit(say("Take notes from outside"), take(garden, found)):
            self._say(say("Taken: {notes}", notes=summary_words(found)))
        self.accept()
