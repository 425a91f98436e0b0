"""The frame of a dialog that shows what a file would bring, before anything of it is taken."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QLabel, QPlainTextEdit, QVBoxLayout, QWidget

from planner.desk.theme.dialog_buttons import DialogButtons

_SIZE = 680, 440


class ImportPreview(QDialog):
    """A summary, the rows of the file as they are understood, and a button that takes them.

    Parameters
    ----------
    parent : QWidget
    title : str
        Of the window.
    rows_name : str
        What the rows are called to a screen reader.

    Attributes
    ----------
    head : QLabel
        The summary.
    rows : QPlainTextEdit
    ok : QPushButton
    column : QVBoxLayout
        Summary, rows and buttons, one below the other.
    """

    def __init__(self, parent: QWidget, title: str, rows_name: str) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(title)
        self.resize(*_SIZE)
        self.head = QLabel()
        self.head.setTextFormat(Qt.TextFormat.PlainText)  # names in it may look like markup
        self.head.setWordWrap(True)
        self.rows = QPlainTextEdit()
        self.rows.setReadOnly(True)
        self.rows.setAccessibleName(rows_name)
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        self.ok = buttons.button(QDialogButtonBox.StandardButton.Ok)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        self.column = QVBoxLayout(self)
        self.column.addWidget(self.head)
        self.column.addWidget(self.rows, 1)
        self.column.addWidget(buttons)

    def show_file(self, summary: str, lines: Iterable[str], ok_words: str, *, can_be_taken: bool) -> None:
        """Show what a file holds.

        Parameters
        ----------
        summary : str
        lines : iterable of str
            One of each row.
        ok_words : str
            What the button says that takes it.
        can_be_taken : bool
            Whether there is anything to take.
        """
        self.head.setText(summary)
        self.rows.setPlainText("\n".join(lines))
        self.ok.setText(ok_words)
        self.ok.setEnabled(can_be_taken)
        if can_be_taken:
            self.ok.setDefault(True)
