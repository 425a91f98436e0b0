"""The key of the numbers on the sheet: a quiet strip beside it, there only while plantings have numbers for names."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QListWidget, QListWidgetItem, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.canvas.labels import Numbered
from planner.desk.canvas.sheet_picture import SheetPicture
from planner.desk.model.document import Document
from planner.desk.model.thing_words import thing_words
from planner.desk.theme.plain_tips import plain_tip
from planner.plan import Plan
from planner.words import capital, say

#: Breadth of the strip. [pixels]
BREADTH = 138
#: A sheet of less breadth, with the strip's, keeps it all. [pixels]
LEAST_ROOM = 330
#: Beside a sheet of less breadth, with the strip's, the strip is narrower. [pixels]
NARROW, LEAST_BREADTH = 600, 112
#: The strip follows when nothing has moved on the sheet for so long. [ms]
RESTED = 160
#: Before plantings under their bed.
INDENT = "    "
_KEY = Qt.ItemDataRole.UserRole


class NumberKey(QWidget):
    """What the numbers on the sheet stand for; a click, or Return, goes to the planting or bed.

    A number of a bed is followed by those of its plantings that are not named on it.

    Parameters
    ----------
    document : Document
    view : SheetPicture
        The sheet.

    Signals
    -------
    planting_wanted : str
        Id of the planting, or of the bed, that was clicked.
    """

    planting_wanted = Signal(str)

    def __init__(self, document: Document, view: SheetPicture) -> None:
        super().__init__()
        self._document, self._view = document, view
        self._shown: tuple[object, ...] = ()
        self._appeared_for: tuple[object, ...] = ()
        self._useless_for: tuple[object, ...] = ()
        self.setAccessibleName(say("Key of the numbers"))
        self.setFixedWidth(BREADTH)
        self.head = QLabel(say("Numbers"))
        self.list = QListWidget()
        self.list.setAccessibleName(say("Key of the numbers"))
        self.list.setStyleSheet("QListWidget { border: 0; background: transparent; }")
        self.list.setFrameShape(QListWidget.Shape.NoFrame)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.list.itemClicked.connect(self._go)
        self.list.itemActivated.connect(self._go)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 8, 4, 4)
        column.addWidget(self.head)
        column.addWidget(self.list, 1)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(RESTED)
        self._rest.timeout.connect(self.follow)
        for changed in (
            document.garden_changed,
            document.beds_placed,
            document.day_changed,
            document.year_changed,
            document.opened,
            view.zoomed,
        ):
            changed.connect(self._wait)
        document.selection_changed.connect(self._mark)
        view.installEventFilter(self)
        self.hide()

    def name(self, words: str) -> None:
        """Write over it what it is of; nothing in particular for no words."""
        self.head.setText(words or say("Numbers"))

    def _wait(self, *_what: object) -> None:
        self._rest.start()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Show:
            self._wait()  # what changed while another page was in front
        return False

    def follow(self) -> None:
        """Show the key of the numbers that are on the sheet now; hide where there are none."""
        self._rest.stop()
        if not self._view.isVisible():
            return
        keys = self._view.labels.numbered
        self._show_or_hide(bool(keys))
        plan = self._document.plan
        shown = (plan, keys)
        if not keys or shown == self._shown:
            return
        self._shown = shown
        self.list.clear()
        for entry in keys:
            for key, words in _lines(plan, entry):
                item = QListWidgetItem(words)
                item.setData(_KEY, key)
                item.setToolTip(plain_tip(thing_words(plan, key)))
                self.list.addItem(item)
        self._mark()

    def _show_or_hide(self, wanted: bool) -> None:
        """Appear where there are numbers.

        The strip takes room from the sheet, which is fitted anew then.  Where no number has room after that, it goes, and does not
        come back for the same room, so that it does not come and go by itself; a tiny sheet keeps all of its room.
        """
        room = self._view.width() + (0 if self.isHidden() else self.width()), self._view.height()
        now: tuple[dt.date | None, object, object] = (self._document.day, self._document.garden, room)
        if wanted and self.isHidden():
            if now != self._useless_for and room[0] >= LEAST_ROOM:
                self._appeared_for = now
                self.setFixedWidth(BREADTH if room[0] >= NARROW else LEAST_BREADTH)
                self.show()
        elif not self.isHidden() and (not wanted or room[0] < LEAST_ROOM):
            if self._view.fitted and now == self._appeared_for:
                self._useless_for = now
            self.hide()

    def _mark(self) -> None:
        """Mark the planting that is selected."""
        chosen = set(self._document.selection)
        for row in range(self.list.count()):
            item = self.list.item(row)
            item.setSelected(item.data(_KEY) in chosen)

    def _go(self, item: QListWidgetItem) -> None:
        self.planting_wanted.emit(str(item.data(_KEY)))

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._wait()


def _lines(plan: Plan, entry: Numbered) -> list[tuple[str, str]]:
    """Lines for what has a number: the id of what each is of, and its words."""
    garden = plan.garden
    if entry.key in garden.plantings_by_id:
        return [(entry.key, f"{entry.number}  {_crop(plan, entry.key)}")]
    name = garden.beds_by_id[entry.key].name
    bed = (entry.key, f"{entry.number}  {name}" if entry.number else name)
    return [bed, *((key, f"{INDENT}{_crop(plan, key)}") for key in entry.plantings)]


def _crop(plan: Plan, planting: str) -> str:
    return capital(plan.catalogue.name_of(plan.garden.plantings_by_id[planting].crop))
