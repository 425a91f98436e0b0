"""What the inks of the plantings on the sheet mean, in a line or two below it."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QRectF, QSize, Qt, QTimer
from PySide6.QtGui import QAccessible, QFontMetricsF, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.desk.model.colouring import Colouring, Meaning
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import LookSwitch, letters
from planner.sheets.family_inks import family_ink
from planner.words import say

#: Height of a line, height and width of a swatch, room about it and between entries. [pixels]
LINE, HIGH, WIDE, NEAR, APART, EDGE = 20, 11, 20, 5, 14, 10
#: It follows when nothing has changed for so long: it asks for all that is drawn. [ms]
RESTED = 150
#: More lines are not shown: the rest is told by the tool tip.
MOST_LINES = 2


class _Placed(NamedTuple):
    """An entry and where its swatch begins. [pixels]"""

    meaning: Meaning
    x: float
    line: int


class ColourLegend(QWidget):
    """Swatches of the inks on the sheet, each with its hatch, and what they mean.

    Parameters
    ----------
    document : Document
    look : LookSwitch
    colouring : Colouring
    """

    heard_as = QAccessible.Role.Graphic

    def __init__(self, document: Document, look: LookSwitch, colouring: Colouring) -> None:
        super().__init__()
        self._look, self._colouring = look, colouring
        self._meanings: tuple[Meaning, ...] = ()
        self._placed: list[_Placed] = []
        self._left_out, self._end = 0, 0.0
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(LINE)
        self.setAccessibleName(say("What the colours mean"))
        self._when_seen = WhenSeen(self, self.follow)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(RESTED)
        self._rest.timeout.connect(self._when_seen.follow)
        for changed in (document.garden_settled, document.year_changed, document.day_changed):
            changed.connect(self._rest.start)
        colouring.changed.connect(self._when_seen.follow)
        look.changed.connect(self.update)
        self._when_seen.follow()

    @override
    def sizeHint(self) -> QSize:
        return QSize(300, self.height())

    @property
    def shown(self) -> tuple[Meaning, ...]:
        """The entries that have room."""
        return tuple(one.meaning for one in self._placed)

    def follow(self) -> None:
        """Bring the legend in step with what is on the sheet."""
        self._meanings = self._colouring.meanings()
        words = self._colouring.words(self._meanings)
        self.setAccessibleDescription(words)
        self.setToolTip(words)
        self._place()

    def _place(self) -> None:
        meanings, metrics = self._meanings, QFontMetricsF(letters(9))
        head = QFontMetricsF(letters(9, bold=True)).horizontalAdvance(self._colouring.head)
        begin, more = EDGE + head + APART, metrics.horizontalAdvance(self._more(99))
        self._placed, x, line = [], begin, 0
        for place, meaning in enumerate(meanings):
            width = WIDE + NEAR + metrics.horizontalAdvance(meaning.words)
            last = line == MOST_LINES - 1 and place < len(meanings) - 1
            if x + width + (APART + more if last else 0) > self.width() - 4 and x > begin:
                if line == MOST_LINES - 1:
                    break
                x, line = begin, line + 1
            self._placed.append(_Placed(meaning, x, line))
            x += width + APART
        self._left_out = len(meanings) - len(self._placed)
        self._end = x
        self.setFixedHeight(LINE * (line + 1))
        self.update()

    @staticmethod
    def _more(count: int) -> str:
        return say("and {count} more", count=str(count))

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._place()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look = self._look.now
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.panel)
        painter.setPen(look.panel_ink)
        painter.setFont(letters(9, bold=True))
        centre = Qt.AlignmentFlag.AlignVCenter
        painter.drawText(QRectF(EDGE, 0, self.width(), LINE), centre, self._colouring.head)
        painter.setFont(letters(9))
        for meaning, x, line in self._placed:
            swatch = QRectF(x, line * LINE + (LINE - HIGH) / 2, WIDE, HIGH)
            painter.fillRect(swatch, plant_symbols.hatch_brush(meaning.ink, look.dark, 0.55, 1.0))
            ink = plant_symbols.colour(family_ink(meaning.ink, dark=look.dark).line_rgb)
            painter.setPen(QPen(ink, 1.0))
            painter.drawRect(swatch)
            painter.setPen(look.panel_ink)
            room = QRectF(x + WIDE + NEAR, line * LINE, self.width(), LINE)
            painter.drawText(room, centre, meaning.words)
        if self._left_out and self._placed:
            painter.setPen(look.pencil)
            room = QRectF(self._end, self._placed[-1].line * LINE, self.width(), LINE)
            painter.drawText(room, centre, self._more(self._left_out))
        painter.end()
