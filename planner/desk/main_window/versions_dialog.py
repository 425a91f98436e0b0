"""The dialog of earlier versions: what the garden's file held at its last saves, drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from planner.desk.canvas.sheet_picture import SheetPicture
from planner.desk.model.document import Document
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.desk.theme.palette import LookSwitch
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.garden.differences import difference_words
from planner.storage.versions import Version
from planner.words import moment_words, say

_SIZE = 900, 560


class VersionsDialog(QDialog):
    """Shows earlier versions, the newest first, each drawn and compared with the garden that is open.

    Parameters
    ----------
    parent : QWidget
    document : Document
        The garden that is open.
    versions : sequence of Version
        At least one.
    look : LookSwitch
    take : callable
        Called with the garden that is to be taken back.

    Attributes
    ----------
    list : QListWidget
    picture : SheetPicture
    words : QLabel
        What differs.
    """

    def __init__(
        self,
        parent: QWidget,
        document: Document,
        versions: Sequence[Version],
        look: LookSwitch,
        take: Callable[[Version, Garden], None],
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Earlier versions of {name}", name=document.title))
        self._open, self._versions, self._take_back = document, tuple(versions), take
        self._shown: Garden | None = None
        self._drawn = Document(catalogue=document.catalogue)
        self._drawn.setParent(self)
        self.list = QListWidget()
        self.list.setAccessibleName(say("Earlier versions, the newest first"))
        for version in self._versions:
            saved = version.saved.astimezone()
            self.list.addItem(QListWidgetItem(moment_words(saved, seconds=True)))
        self.picture = SheetPicture(self._drawn, look)
        self.picture.setInteractive(False)
        self.picture.setAccessibleName(say("The version drawn"))
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Close)
        self.take = buttons.addButton(say("Take it back"), QDialogButtonBox.ButtonRole.ActionRole)
        self.take.clicked.connect(self._take)
        buttons.rejected.connect(self.reject)
        parts = QSplitter()
        parts.addWidget(self.list)
        parts.addWidget(self.picture)
        parts.setSizes([220, _SIZE[0] - 220])
        parts.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.addWidget(parts, 1)
        layout.addWidget(self.words)
        layout.addWidget(buttons)
        room = self.screen().availableGeometry()
        self.resize(min(_SIZE[0], room.width()), min(_SIZE[1], room.height()))
        self.list.currentRowChanged.connect(self._show)
        self.list.setCurrentRow(0)

    def _show(self, row: int) -> None:
        """Draw a version, and say how it differs."""
        self._shown = None
        self.take.setEnabled(False)
        if row < 0:
            return
        try:
            garden = self._versions[row].read()
        except BedwrightError as error:
            self.words.setText(str(error))
            return
        self._shown = garden
        self._drawn.open(garden)
        self._drawn.show_year(self._open.year)
        self._drawn.show_day(self._open.day)
        self.picture.show_opened()
        now = self._open.stable
        differs = say("Compared with the garden that is open: {what}.", what=difference_words(now, garden))
        self.words.setText(differs)
        self.take.setEnabled(garden != now)

    def _take(self) -> None:
        if self._shown is not None:
            self._take_back(self._versions[self.list.currentRow()], self._shown)
            self.accept()
