"""The Print page: a list of all sheets, what is chosen of one, and its pages as they will be printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal, SignalInstance
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.model.document import Document
from planner.desk.pages.sheet_choices import SheetChoices
from planner.desk.pages.sheet_preview import SheetPreview
from planner.desk.theme.palette import LookSwitch
from planner.errors import BedwrightError
from planner.plan import Plan
from planner.words import say

if TYPE_CHECKING:
    from planner.sheets.kinds import SheetKind, SheetWish

#: Wait after an edit before the sheets are made again. [ms]
DELAY = 250
#: Width of the list of sheets at first. [pixels]
LIST_WIDTH = 190


class PaperPage(QWidget):
    """All kinds of sheets, with a preview.

    Signals
    -------
    save_wanted, print_wanted : object
        The sheets chosen are to be written or printed; a :class:`planner.sheets.kinds.SheetWish`.
    calibration_wanted : object
        A page that shows where labels will lie is to be written.
    wrong : str
        Something is not possible; one line says why.
    """

    save_wanted = Signal(object)
    print_wanted = Signal(object)
    calibration_wanted = Signal(object)
    wrong = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.setAccessibleName(say("Print"))
        self._shown: tuple[Plan, SheetWish] | None = None
        self._fresh = True
        self.kinds = QListWidget()
        self.kinds.setAccessibleName(say("Sheets"))
        self.kinds.setWordWrap(True)
        self.choices = SheetChoices(document)
        self.preview = SheetPreview()
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setProperty("second", True)
        self.missing = QLabel()
        self.missing.setWordWrap(True)
        self.missing.setProperty("warn", True)
        self.missing.hide()
        self.save, self.send = QPushButton(say("Save as PDF…")), QPushButton(say("Print…"))
        self.calibrate = QPushButton(say("Calibration page…"))
        self._lay_out()
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(DELAY)
        self._timer.timeout.connect(self.refresh)
        self.kinds.currentRowChanged.connect(self._choose_kind)
        self.choices.changed.connect(self.refresh)
        self.choices.wrong.connect(self.wrong)
        self.save.clicked.connect(lambda: self._ask(self.save_wanted))
        self.send.clicked.connect(lambda: self._ask(self.print_wanted))
        self.calibrate.clicked.connect(lambda: self._ask(self.calibration_wanted))
        document.garden_settled.connect(self._timer.start)
        document.year_changed.connect(self._start_afresh)
        document.opened.connect(self._start_afresh)

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        for button in (self.save, self.send, self.calibrate):
            buttons.addWidget(button)
        buttons.addStretch(1)
        right = QWidget()
        column = QVBoxLayout(right)
        column.setContentsMargins(8, 0, 0, 0)
        column.addWidget(self.words)
        column.addWidget(self.missing)
        column.addWidget(self.choices)
        column.addLayout(buttons)
        column.addWidget(self.preview, 1)
        splitter = QSplitter(Qt.Orientation.Horizontal)
        splitter.addWidget(self.kinds)
        splitter.addWidget(right)
        splitter.setStretchFactor(1, 1)
        splitter.setSizes([LIST_WIDTH, 3 * LIST_WIDTH])
        splitter.setCollapsible(1, False)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(14, 12, 14, 12)
        outside.addWidget(splitter)

    def _fill(self) -> None:
        """List the kinds of sheets; they take long to import, and are listed when the page is first seen."""
        from planner.sheets.kinds import SHEET_KINDS, contents_of, title_of

        if self.kinds.count():
            return
        for kind in SHEET_KINDS:
            item = QListWidgetItem(title_of(kind))
            item.setToolTip(contents_of(kind))
            item.setData(Qt.ItemDataRole.UserRole, kind)
            self.kinds.addItem(item)
        self.kinds.setCurrentRow(0)

    def show_kind(self, kind: SheetKind) -> None:
        """Choose a kind of sheets."""
        self._fill()
        rows = range(self.kinds.count())
        self.kinds.setCurrentRow(
            next(n for n in rows if self.kinds.item(n).data(Qt.ItemDataRole.UserRole) == kind)
        )

    def _choose_kind(self, row: int) -> None:
        from planner.sheets.kinds import contents_of

        if row < 0:
            return
        kind: SheetKind = self.kinds.item(row).data(Qt.ItemDataRole.UserRole)
        self.words.setText(contents_of(kind))
        self.calibrate.setVisible(kind == "labels")
        self.choices.show_kind(kind)
        self.refresh()

    def _start_afresh(self) -> None:
        self._fresh = True
        self._timer.start()

    def refresh(self) -> None:
        """Make the sheets again, where they are others (only while the page can be seen)."""
        if not self.isVisible() or not self.kinds.count():
            return
        self.choices.follow(fresh=self._fresh)
        self.choices.show_kind(self.choices.kind)
        self._fresh = False
        try:
            wanted = (self.document.plan, self.choices.wish())
        except BedwrightError as error:
            self._shown = None
            self.preview.say_why_not(str(error))
            return
        if wanted != self._shown:
            if self._shown is None or wanted[0] is not self._shown[0]:
                self._say_what_is_missing(wanted[0])
            self._shown = wanted
            self.preview.show_sheets(*wanted)

    def _say_what_is_missing(self, plan: Plan) -> None:
        """Say above the sheets which signs of the garden's names they cannot show."""
        from planner.sheets.missing_signs import missing_in, missing_words

        words = missing_words(missing_in(plan))
        self.missing.setText("\n".join(words))
        self.missing.setVisible(bool(words))

    def _ask(self, signal: SignalInstance) -> None:
        try:
            wish = self.choices.wish()
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return
        signal.emit(wish)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._fill()
        self.refresh()
