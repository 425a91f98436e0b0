"""What the inks of the bars over the year mean, in a line below them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Literal, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.desk.canvas.odds_band import paint_spread
from planner.desk.canvas.planting_bar import BarInks
from planner.desk.canvas.year_axis import frost_shade
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch, letters
from planner.listings.odds_line import assumption_line
from planner.season.lived.assumed import assumed_words
from planner.words import capital, join_list, later, say

#: Height of the line, and of a swatch. [pixels]
HEIGHT, SWATCH_HEIGHT = 20, 11


class Spacing(NamedTuple):
    """Where the first entry begins, width of a swatch, space from it to its words, and between entries. [pixels]"""

    left: int
    swatch: int
    near: int
    apart: int


WIDE, NARROW, TIGHT = Spacing(10, 24, 5, 14), Spacing(5, 16, 3, 6), Spacing(3, 10, 2, 4)


@dataclass(frozen=True)
class _Entry:
    """A swatch and what it means, in full and in few words."""

    words: str
    short: str
    paint: Callable[[QPainter, BarInks, QRectF], None]


def _indoors(painter: QPainter, inks: BarInks, rect: QRectF) -> None:
    inks.paint_indoors(painter, rect.adjusted(0, -2, 0, 2))


def _growing(painter: QPainter, inks: BarInks, rect: QRectF) -> None:
    inks.paint_growing(painter, rect)
    inks.paint_frame(painter, rect)


def _picking(painter: QPainter, inks: BarInks, rect: QRectF) -> None:
    inks.paint_growing(painter, rect)
    inks.paint_picking(painter, rect)
    inks.paint_frame(painter, rect)


def _by_hand(painter: QPainter, inks: BarInks, rect: QRectF) -> None:
    _growing(painter, inks, rect)
    inks.paint_set_by_hand(painter, QPointF(rect.left(), rect.center().y()))


def _frost(painter: QPainter, inks: BarInks, rect: QRectF) -> None:
    third = rect.width() / 3
    for number in range(3):
        painter.fillRect(rect.adjusted(0, 0, -third * number, 0), frost_shade(inks.look))


def _bare(painter: QPainter, inks: BarInks, rect: QRectF) -> None:
    painter.fillRect(rect, inks.look.soil)


def _spread(painter: QPainter, inks: BarInks, rect: QRectF, *, first: bool) -> None:
    left, width = rect.left() + 1, rect.width() - 2
    places = left, left + 0.3 * width, left + 0.5 * width, left + 0.75 * width, left + width
    paint_spread(painter, inks.look, places, rect.center().y(), first=first)


_ENTRIES = {
    "indoors": _Entry(later("raised indoors"), later("indoors"), _indoors),
    "growing": _Entry(later("growing"), later("growing"), _growing),
    "picking": _Entry(later("picking"), later("picking"), _picking),
    "by hand": _Entry(later("day set by hand"), later("by hand"), _by_hand),
    "frost": _Entry(later("frost, the darker the likelier"), later("frost"), _frost),
    "bare": _Entry(later("bare ground"), later("bare"), _bare),
    "first": _Entry(
        later("first picked in 8 of 10 years, box: half of them"),
        later("first picked"),
        partial(_spread, first=True),
    ),
    "last": _Entry(later("last picked"), later("last picked"), partial(_spread, first=False)),
}
#: What is shown besides where the garden keeps recorded years.
_OF_YEARS = ("first", "last")


class BarLegend(QWidget):
    """A line of swatches in the inks of the bars, with what they mean.

    Parameters
    ----------
    document : Document
        The swatches have the ink of its first planting.
    look : LookSwitch
    more, *also : {"frost", "bare"}
        What the drawing shows besides the bars.
    """

    heard_as = QAccessible.Role.Graphic

    def __init__(
        self,
        document: Document,
        look: LookSwitch,
        more: Literal["frost", "bare"],
        *also: Literal["frost", "bare"],
    ) -> None:
        super().__init__()
        self._document, self._look = document, look
        self.spacing = WIDE
        self._says_assumed = True
        self._bars = ("indoors", "growing", "picking", "by hand", more, *also)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(HEIGHT)
        self.setAccessibleName(say("What the bars mean"))
        document.garden_settled.connect(self._follow)
        document.year_changed.connect(self._follow)
        look.changed.connect(self.update)
        self._follow()

    @property
    def _keys(self) -> tuple[str, ...]:
        """What the drawing shows now."""
        recorded = self._document.plan.recorded is not None
        return (*self._bars, *_OF_YEARS) if recorded else self._bars

    def _follow(self) -> None:
        """Bring the legend in step with what is drawn, and with what is assumed of the recorded years."""
        words = join_list([say(_ENTRIES[key].words) for key in self._keys])
        assumed = assumption_line(self._document.plan)
        if assumed:
            words = say("{words}. {more}", words=words, more=assumed)
        self.setAccessibleDescription(words)
        self.setToolTip(words)
        self.update()

    @override
    def sizeHint(self) -> QSize:
        return QSize(300, HEIGHT)

    def shown(self) -> tuple[tuple[float, str], ...]:
        """Where each entry begins, with its words: in full where all have room, else in few words. [pixels]"""
        metrics = QFontMetricsF(letters(9))
        full = [say(_ENTRIES[key].words) for key in self._keys]
        short = [say(_ENTRIES[key].short) for key in self._keys]
        # What is assumed stands in the status bar too: it gives way to what the inks mean.
        for self._says_assumed in (True, False):
            for texts, spacing in ((full, WIDE), (short, WIDE), (short, NARROW), (short, TIGHT)):
                self.spacing, found = spacing, self._placed(texts, metrics, spacing)
                if len(found) == len(self._keys):
                    return found
        return found

    def _placed(
        self, texts: list[str], metrics: QFontMetricsF, spacing: Spacing
    ) -> tuple[tuple[float, str], ...]:
        """The texts that have room in the line, each behind its swatch."""
        found, x = [], float(spacing.left)
        assumed = self._assumed()
        room = self.width() - 4
        if assumed:
            room -= round(QFontMetricsF(letters(9, bold=True)).horizontalAdvance(assumed)) + 14
        for text in texts:
            end = x + spacing.swatch + spacing.near + metrics.horizontalAdvance(text)
            if end > room:
                break
            found.append((x, text))
            x = end + spacing.apart
        return tuple(found)

    def _inks(self) -> BarInks:
        plan = self._document.plan
        for planting in plan.garden.plantings:
            crop = plan.catalogue.get(planting.crop)
            if crop is not None and plan.span_of(planting).meets(plan.span):
                return BarInks(self._look.now, crop.family)
        return BarInks(self._look.now, "")

    def _assumed(self) -> str:
        """What is assumed of the recorded years; empty where it has no room."""
        if not self._says_assumed:
            return ""
        plan = self._document.plan
        return capital(assumed_words(plan.assumed, plan.garden.site.units))

    def _paint_assumed(self, painter: QPainter) -> None:
        """What is assumed of the recorded years, at the right end."""
        painter.setPen(self._look.now.accent)
        painter.setFont(letters(9, bold=True))
        at_right = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
        painter.drawText(QRectF(0, 0, self.width() - 8, HEIGHT), at_right, self._assumed())

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look, inks = self._look.now, self._inks()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.panel)
        shown = self.shown()
        self._paint_assumed(painter)
        width, near = self.spacing.swatch, self.spacing.near
        top = (HEIGHT - SWATCH_HEIGHT) / 2
        for key, (x, text) in zip(self._keys, shown, strict=False):
            _ENTRIES[key].paint(painter, inks, QRectF(x, top, width, SWATCH_HEIGHT))
            painter.setPen(look.panel_ink)
            painter.setFont(letters(9))
            room = QRectF(x + width + near, 0, self.width() - x, HEIGHT)
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, text)
        painter.end()
