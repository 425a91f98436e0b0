"""What the inks of the bars over the year mean, in a line below them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.desk.canvas.planting_bar import BarInks
from planner.desk.canvas.year_axis import frost_shade
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch, letters
from planner.words import join_list, later, say

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


_ENTRIES = {
    "indoors": _Entry(later("raised indoors"), later("indoors"), _indoors),
    "growing": _Entry(later("growing"), later("growing"), _growing),
    "picking": _Entry(later("picking"), later("picking"), _picking),
    "by hand": _Entry(later("day set by hand"), later("by hand"), _by_hand),
    "frost": _Entry(later("frost, the darker the likelier"), later("frost"), _frost),
    "bare": _Entry(later("bare ground"), later("bare"), _bare),
}


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
        self._keys = ("indoors", "growing", "picking", "by hand", more, *also)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(HEIGHT)
        self.setAccessibleName(say("What the bars mean"))
        words = join_list([say(_ENTRIES[key].words) for key in self._keys])
        self.setAccessibleDescription(words)
        self.setToolTip(words)
        document.garden_settled.connect(self.update)
        document.year_changed.connect(self.update)
        look.changed.connect(self.update)

    @override
    def sizeHint(self) -> QSize:
        return QSize(300, HEIGHT)

    def shown(self) -> tuple[tuple[float, str], ...]:
        """Where each entry begins, with its words: in full where all have room, else in few words. [pixels]"""
        metrics = QFontMetricsF(letters(9))
        full = [say(_ENTRIES[key].words) for key in self._keys]
        short = [say(_ENTRIES[key].short) for key in self._keys]
        for texts, spacing in ((full, WIDE), (short, WIDE), (short, NARROW), (short, TIGHT)):
            self.spacing, found = spacing, self._placed(texts, metrics, spacing)
            if len(found) == len(self._keys):
                break
        return found

    def _placed(
        self, texts: list[str], metrics: QFontMetricsF, spacing: Spacing
    ) -> tuple[tuple[float, str], ...]:
        """The texts that have room in the line, each behind its swatch."""
        found, x = [], float(spacing.left)
        for text in texts:
            end = x + spacing.swatch + spacing.near + metrics.horizontalAdvance(text)
            if end > self.width() - 4:
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

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look, inks = self._look.now, self._inks()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.panel)
        shown = self.shown()
        width, near = self.spacing.swatch, self.spacing.near
        top = (HEIGHT - SWATCH_HEIGHT) / 2
        for key, (x, text) in zip(self._keys, shown, strict=False):
            _ENTRIES[key].paint(painter, inks, QRectF(x, top, width, SWATCH_HEIGHT))
            painter.setPen(look.panel_ink)
            painter.setFont(letters(9))
            room = QRectF(x + width + near, 0, self.width() - x, HEIGHT)
            painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, text)
        painter.end()
