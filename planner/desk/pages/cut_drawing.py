"""The cut list drawn: bars and rolls to scale, their pieces with their lengths, and what is left of each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QFontMetricsF, QHelpEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget
from typing_extensions import override

from planner.amounts.cutting import Cut
from planner.amounts.materials import Material
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plain_tips import plain_tip
from planner.garden.site import UnitSystem
from planner.garden.units import show_length
from planner.listings.materials import cut_words, cutting_words, estimated_words, too_long_words
from planner.plan import Plan
from planner.words import say

#: Height of a bar, from bar to bar, and from one material to the next. [pixels]
BAR, STEP, APART = 20.0, 26.0, 14.0
#: Ground left at the sides, and between words and bars. [pixels]
MARGIN, GAP = 2.0, 8.0
#: Narrower pieces have no outline of their own. [pixels]
_LEAST_PIECE = 3.0
#: Least width that is left for the longest bar; on a narrower page what is written beside it is cut off. [pixels]
_LEAST_BAR = 120.0


class CutBlock(NamedTuple):
    """One material: what is said of it, and its bars; sentences without bars stand by themselves."""

    words: str
    cuts: tuple[Cut, ...] = ()


def cut_blocks(plan: Plan, materials: Sequence[Material]) -> tuple[CutBlock, ...]:
    """The cut list of some materials, with its sentences.

    Parameters
    ----------
    plan : Plan
        For its garden's units and shed.
    materials : sequence of Material
    """
    units = plan.garden.site.units
    found = []
    for one in materials:
        for cutting in one.cuttings:
            if cutting.cuts.cuts:
                found.append(CutBlock(cutting_words(one.kind, cutting, units), cutting.cuts.cuts))
            found += [CutBlock(line) for line in too_long_words(one.kind, cutting.cuts, units)]
    estimated = estimated_words(plan, materials)
    return (*found, CutBlock(estimated)) if estimated else tuple(found)


class _Placed(NamedTuple):
    """A block with its place: the rectangle of its words, and of each bar's line."""

    block: CutBlock
    words: QRectF
    lines: tuple[QRectF, ...]


class CutDrawing(QWidget):
    """The picture, as high as it needs to be."""

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self._look = look
        self._units: UnitSystem = "metric"
        self._blocks: tuple[CutBlock, ...] = ()
        self._placed: list[_Placed] = []
        self.setAccessibleName(say("Cut list"))
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setSizePolicy(policy)
        look.changed.connect(self.update)

    def show_blocks(self, blocks: Sequence[CutBlock], units: UnitSystem) -> None:
        """Show another cut list."""
        if tuple(blocks) == self._blocks and units == self._units:
            return
        self._blocks, self._units = tuple(blocks), units
        self.setAccessibleDescription("\n".join(self.lines()))
        self._place()
        self.update()

    @property
    def blocks(self) -> tuple[CutBlock, ...]:
        """What is shown."""
        return self._blocks

    def lines(self) -> list[str]:
        """All that is shown, in words."""
        return [
            line
            for block in self._blocks
            for line in (block.words, *(cut_words(cut, self._units) for cut in block.cuts))
        ]

    # -- places -----------------------------------------------------------------------------

    def _place(self) -> None:
        width, below = max(self.width() - 2 * MARGIN, 1.0), 4.0
        metrics = QFontMetricsF(letters())
        self._placed = []
        for block in self._blocks:
            room = QRectF(0, 0, width, 10_000)
            words = metrics.boundingRect(room, int(Qt.TextFlag.TextWordWrap), block.words)
            rect = QRectF(MARGIN, below, width, words.height())
            below += words.height() + 4
            lines = tuple(QRectF(MARGIN, below + n * STEP, width, BAR) for n in range(len(block.cuts)))
            below += len(lines) * STEP + APART
            self._placed.append(_Placed(block, rect, lines))
        self.setFixedHeight(round(below))

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.oldSize().width() != self.width():
            self._place()

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(160, self.height())

    # -- painting ---------------------------------------------------------------------------

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(letters())
        for one in self._placed:
            end = one.lines[-1].bottom() if one.lines else one.words.bottom()
            if one.words.top() > event.rect().bottom() or end < event.rect().top():
                continue
            painter.setPen(self._look.now.panel_ink)
            painter.drawText(one.words, int(Qt.TextFlag.TextWordWrap), one.block.words)
            if one.lines:
                self._paint_bars(painter, one)
        painter.end()

    def _paint_bars(self, painter: QPainter, one: _Placed) -> None:
        metrics = QFontMetricsF(painter.font())
        numbers = [self._number(cut) for cut in one.block.cuts]
        left = max(map(metrics.horizontalAdvance, numbers)) + GAP
        tail = metrics.horizontalAdvance(self._tail(True)) + GAP if self._any_tail(one) else 0.0
        width = one.lines[0].width()
        scale = max(width - left - tail, min(_LEAST_BAR, width - left)) / max(c.bar for c in one.block.cuts)
        for cut, number, line in zip(one.block.cuts, numbers, one.lines, strict=True):
            painter.setPen(self._look.now.pencil)
            middle = int(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft)
            painter.drawText(line, middle, number)
            bar = QRectF(line.left() + left, line.top(), cut.bar * scale, BAR)
            self._paint_bar(painter, metrics, cut, bar, scale)
            if cut.on_hand:
                beside = QRectF(bar.right() + GAP, line.top(), tail + GAP, BAR)
                painter.setPen(self._look.now.pencil)
                painter.drawText(beside, middle, self._tail(True))

    def _any_tail(self, one: _Placed) -> bool:
        """Whether words stand to the right of its bars."""
        return any(cut.on_hand for cut in one.block.cuts)

    @staticmethod
    def _tail(on_hand: bool) -> str:
        return say("from the shed") if on_hand else ""

    def _number(self, cut: Cut) -> str:
        return say("{count} × {bar}", count=cut.times, bar=self._length(cut.bar))

    def _length(self, millimetres: int) -> str:
        return show_length(millimetres / 1000, self._units)

    def _paint_bar(
        self, painter: QPainter, metrics: QFontMetricsF, cut: Cut, bar: QRectF, scale: float
    ) -> None:
        look, at = self._look.now, bar.left()
        for length, number in cut.pieces:
            each = length * scale
            group = QRectF(at, bar.top(), each * number, BAR)
            painter.fillRect(group, look.soil)
            painter.setPen(QPen(look.pencil, 1))
            if each >= _LEAST_PIECE:
                for n in range(number):
                    painter.drawRect(QRectF(at + n * each, bar.top(), each, BAR))
            else:
                painter.drawRect(group)
            self._label_pieces(painter, metrics, group, length, number)
            at = group.right()
        rest = QRectF(at, bar.top(), bar.right() - at, BAR)
        if cut.rest:
            painter.fillRect(rest, QBrush(look.pencil, Qt.BrushStyle.BDiagPattern))
            painter.setPen(QPen(look.pencil, 1, Qt.PenStyle.DashLine))
            painter.drawRect(rest)
            words = self._length(cut.rest)
            room = metrics.horizontalAdvance(words) + 8
            if room <= rest.width():
                chip = QRectF(0, 0, room, BAR - 4)
                chip.moveCenter(rest.center())
                painter.fillRect(chip, look.panel)
                painter.setPen(look.pencil)
                painter.drawText(chip, int(Qt.AlignmentFlag.AlignCenter), words)
        painter.setPen(QPen(look.ink, 1.4))
        painter.drawRect(bar)

    def _label_pieces(
        self, painter: QPainter, metrics: QFontMetricsF, group: QRectF, length: int, number: int
    ) -> None:
        """The length on each piece; where those are too narrow, once on all of a length."""
        words = self._length(length)
        painter.setPen(self._look.now.ink)
        each = group.width() / number
        if metrics.horizontalAdvance(words) + 4 <= each:
            for n in range(number):
                place = QRectF(group.left() + n * each, group.top(), each, BAR)
                painter.drawText(place, int(Qt.AlignmentFlag.AlignCenter), words)
            return
        words = say("{count} × {bar}", count=number, bar=words)
        room = metrics.horizontalAdvance(words) + 6
        if number > 1 and room <= group.width():
            chip = QRectF(0, 0, room, BAR - 4)
            chip.moveCenter(group.center())
            painter.fillRect(chip, self._look.now.soil)
            painter.drawText(chip, int(Qt.AlignmentFlag.AlignCenter), words)

    # -- pointer ----------------------------------------------------------------------------

    @override
    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            words = self.words_at(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), plain_tip(words), self)
            return True
        return super().event(event)

    def words_at(self, point: QPointF) -> str:
        """How the bar at a point is cut, in words; empty beside the bars."""
        return next(
            (
                cut_words(cut, self._units)
                for one in self._placed
                for cut, line in zip(one.block.cuts, one.lines, strict=True)
                if line.contains(point)
            ),
            "",
        )
