"""The cut list drawn: bars and rolls to scale, their pieces with their lengths, and what is left of each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QAccessible,
    QBrush,
    QFontMetricsF,
    QHelpEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget
from typing_extensions import override

from planner.amounts.cuts import Cut
from planner.amounts.materials import Cutting, Material
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plain_tips import plain_tip
from planner.garden.site import UnitSystem
from planner.garden.units import show_length
from planner.listings.materials import (
    bar_words,
    cut_words,
    cutting_words,
    estimated_words,
    joined_words,
    serves_of,
    too_long_words,
)
from planner.plan import Plan
from planner.words import say

#: Height of a bar, from bar to bar, and from one material to the next. [pixels]
BAR, STEP, APART = 20.0, 26.0, 14.0
#: Ground left at the sides, and between words and bars. [pixels]
MARGIN, GAP = 2.0, 8.0
#: Narrower pieces have no outline of their own. [pixels]
_LEAST_PIECE = 3.0
#: From the edge of a part of something longer to the seam that marks it. [pixels]
_SEAM = 3.0
#: Least width that is left for the longest bar; on a narrower page what is written beside it is cut off. [pixels]
_LEAST_BAR = 120.0


class CutBlock(NamedTuple):
    """One material: what is said of it, its bars, and what is joined; sentences without bars stand by themselves."""

    words: str
    cutting: Cutting | None = None
    joined: tuple[str, ...] = ()

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """Its bars."""
        return self.cutting.cuts.cuts if self.cutting is not None else ()

    def bar_words(self, cut: Cut, units: UnitSystem) -> str:
        """How a bar of it is cut."""
        return cut_words(cut, self.cutting, units) if self.cutting is not None else ""


def cut_blocks(plan: Plan, materials: Sequence[Material], names: Mapping[str, str]) -> tuple[CutBlock, ...]:
    """The cut list of some materials, with its sentences.

    Parameters
    ----------
    plan : Plan
        For its garden's units and shed.
    materials : sequence of Material
    names : mapping of str to str
        What each job is, by its key: named with what is joined.
    """
    units = plan.garden.site.units
    found = []
    for one in materials:
        for cutting in one.cuttings:
            if cutting.cuts.cuts:
                joined = joined_words(cutting, serves_of(one, cutting, names), units)
                if joined:
                    joined.insert(0, say("Pieces with a dashed seam are parts that are joined:"))
                found.append(CutBlock(cutting_words(one.kind, cutting, units), cutting, tuple(joined)))
            found += [CutBlock(line) for line in too_long_words(one.kind, cutting.cuts, units)]
    estimated = estimated_words(plan, materials)
    return (*found, CutBlock(estimated)) if estimated else tuple(found)


def _groups(cut: Cut) -> Iterator[tuple[int, int, bool]]:
    """Pieces of a bar that are alike: their length [mm], how many, and whether they are parts of something longer."""
    for length, number in cut.pieces:
        parts = sum(many for part, _, many in cut.of if part == length)
        if number > parts:
            yield length, number - parts, False
        if parts:
            yield length, parts, True


class _Placed(NamedTuple):
    """A block with its place: the rectangle of its words, of each bar's line, and of what is said of joined pieces."""

    block: CutBlock
    words: QRectF
    lines: tuple[QRectF, ...]
    joined: QRectF


class CutDrawing(QWidget):
    """The picture, as high as it needs to be."""

    heard_as = QAccessible.Role.Graphic

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
            for line in (
                block.words,
                *(block.bar_words(cut, self._units) for cut in block.cuts),
                *block.joined,
            )
        ]

    # -- places -----------------------------------------------------------------------------

    def _place(self) -> None:
        width, below = max(self.width() - 2 * MARGIN, 1.0), 4.0
        metrics = QFontMetricsF(letters())
        self._placed = []
        for block in self._blocks:
            rect = self._wrapped(metrics, block.words, below, width)
            below += rect.height() + 4
            lines = tuple(QRectF(MARGIN, below + n * STEP, width, BAR) for n in range(len(block.cuts)))
            below += len(lines) * STEP
            joined = self._wrapped(metrics, "\n".join(block.joined), below, width)
            below += joined.height() + APART
            self._placed.append(_Placed(block, rect, lines, joined))
        self.setFixedHeight(round(below))

    @staticmethod
    def _wrapped(metrics: QFontMetricsF, words: str, top: float, width: float) -> QRectF:
        """Where words stand that are as wide as the page at most; of no height without words."""
        room = QRectF(0, 0, width, 10_000)
        height = metrics.boundingRect(room, int(Qt.TextFlag.TextWordWrap), words).height() if words else 0.0
        return QRectF(MARGIN, top, width, height)

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
            if one.words.top() > event.rect().bottom() or one.joined.bottom() < event.rect().top():
                continue
            painter.setPen(self._look.now.panel_ink)
            painter.drawText(one.words, int(Qt.TextFlag.TextWordWrap), one.block.words)
            if one.lines:
                self._paint_bars(painter, one)
            if one.block.joined:
                painter.setPen(self._look.now.panel_ink)
                painter.drawText(one.joined, int(Qt.TextFlag.TextWordWrap), "\n".join(one.block.joined))
        painter.end()

    def _paint_bars(self, painter: QPainter, one: _Placed) -> None:
        metrics = QFontMetricsF(painter.font())
        numbers = [self._number(cut, one.block) for cut in one.block.cuts]
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

    def _number(self, cut: Cut, block: CutBlock) -> str:
        bar = bar_words(cut, block.cutting, self._units) if block.cutting is not None else ""
        return say("{count} × {bar}", count=cut.times, bar=bar)

    def _length(self, millimetres: int) -> str:
        return show_length(millimetres / 1000, self._units)

    def _paint_bar(
        self, painter: QPainter, metrics: QFontMetricsF, cut: Cut, bar: QRectF, scale: float
    ) -> None:
        look, at = self._look.now, bar.left()
        for length, number, joined in _groups(cut):
            each = length * scale
            group = QRectF(at, bar.top(), each * number, BAR)
            painter.fillRect(group, look.soil)
            painter.setPen(QPen(look.pencil, 1))
            if each >= _LEAST_PIECE:
                for n in range(number):
                    painter.drawRect(QRectF(at + n * each, bar.top(), each, BAR))
            else:
                painter.drawRect(group)
            if joined and each > 2 * _SEAM:
                painter.setPen(QPen(look.pencil, 1, Qt.PenStyle.DashLine))
                for n in range(number):
                    piece = QRectF(at + n * each, bar.top(), each, BAR)
                    painter.drawRect(piece.adjusted(_SEAM, _SEAM, -_SEAM, -_SEAM))
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
                one.block.bar_words(cut, self._units)
                for one in self._placed
                for cut, line in zip(one.block.cuts, one.lines, strict=True)
                if line.contains(point)
            ),
            "",
        )
