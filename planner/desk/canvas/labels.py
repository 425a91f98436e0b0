"""Where labels are placed: beside what they name, never on each other.

Positions are in pixels at the zoom in force. Each label takes the first of its places that is free;
a label that finds none is left out until there is room.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from PySide6.QtCore import QRectF, QSizeF

from planner.lazy import lazy_property

#: Least side of the cells in which places are looked up. [pixels]
CELL = 32.0

#: What a label names; tells how it is drawn.
LabelKind = Literal["planting", "numbers", "bed", "size", "structure"]


@dataclass(frozen=True)
class Label:
    """Words for a thing.

    Attributes
    ----------
    key : str
        Id of the thing named.
    text : str
    kind : {"planting", "numbers", "bed", "size", "structure"}
        Numbers stand for a bed and those of its plantings that have no name on it.
    outside : tuple of QRectF
        Places beside what it names, best first; used only where no bed lies. [pixels at this zoom]
    inside : tuple of QRectF
        Places on what it names, used where none of the others is free. [pixels at this zoom]
    over : tuple of QRectF
        Places on what it names from which it may stand out, where no other bed lies; the last to be used.
        [pixels at this zoom]
    family : str
        Key of the ink of a planting.
    high : float
        Height of the words where they lie level: in a place of another height they read from below to above; 0 for
        words that always lie level. [pixels]
    settled : bool
        Whether its place depends on no other label.
    number : int
        Of what has no room for its name; 0 where it is named.
    """

    key: str
    text: str
    kind: LabelKind
    outside: tuple[QRectF, ...] = ()
    inside: tuple[QRectF, ...] = ()
    over: tuple[QRectF, ...] = ()
    family: str = ""
    high: float = 0.0
    settled: bool = False
    number: int = 0

    def is_upright(self, rect: QRectF) -> bool:
        """Whether it reads from below to above in one of its places."""
        return self.high > 0 and abs(rect.height() - self.high) > 0.01

    def lies_on_bed(self, rect: QRectF) -> bool:
        """Whether one of its places is on what it names."""
        return rect in self.inside or rect in self.over

    @property
    def places(self) -> tuple[QRectF, ...]:
        """All its places, the best first. [pixels]"""
        return (*self.outside, *self.inside, *self.over)

    @lazy_property
    def bounds(self) -> QRectF:
        """Extents of all its places. [pixels]"""
        found = QRectF()
        for rect in self.places:
            found = found.united(rect)
        return found


class Numbered(NamedTuple):
    """What has a number on the sheet, or is a bed that heads the numbers of its plantings.

    Attributes
    ----------
    key : str
        Id of a planting, or of a bed.
    plantings : tuple of str
        Of a bed: ids of its plantings that are not named on it.
    heads : bool
        Whether it has no number itself.
    number : int
        0 for what has none, and while it is not known.
    """

    key: str
    plantings: tuple[str, ...] = ()
    heads: bool = False
    number: int = 0


#: So far a number may stand out of its bed, whatever is near. [pixels]
OVER = 2.0
#: Kinds of labels, the most needed first.
KINDS: tuple[LabelKind, ...] = ("planting", "numbers", "bed", "size", "structure")
_RANKS = {kind: rank for rank, kind in enumerate(KINDS)}
_NONE: dict[int, QRectF] = {}
#: Groups that may change at once; after more all labels are placed anew.
MOST_CHANGED = 40
#: Order in which labels take their places: kind, group, number in the group.
_Order = tuple[int, int, int]


@dataclass(frozen=True)
class LabelGroup:
    """Labels of things that lie together: a bed with its plantings, or a structure.

    Attributes
    ----------
    labels : tuple of Label
        Of several labels of one kind for the same thing, only the first that finds a place is written.
    drawn : QRectF or None
        Extents of the bed, which no label beside something may cover. [pixels]
    numbered : tuple of Numbered
        What is to have a number.
    """

    labels: tuple[Label, ...]
    drawn: QRectF | None = None
    numbered: tuple[Numbered, ...] = ()

    @lazy_property
    def bounds(self) -> QRectF:
        """Extents of all places that its labels may take. [pixels]"""
        found = QRectF()
        for label in self.labels:
            found = found.united(label.bounds)
        return found

    @property
    def kept_free(self) -> QRectF | None:
        """Ground that no label beside something may cover."""
        return self.drawn.adjusted(1, 1, -1, -1) if self.drawn is not None else None


class _Grid:
    """Rectangles by the cells that they touch."""

    def __init__(self, rects: Iterable[tuple[int, QRectF]], cell: float) -> None:
        self._cell = cell
        self._cells: dict[tuple[int, int], dict[int, QRectF]] = {}
        self._rects: dict[int, QRectF] = {}
        for number, rect in rects:
            self.put(number, rect)

    def put(self, number: int, rect: QRectF | None) -> None:
        """Enter a rectangle under a number in the place of the one that is there; None for none."""
        old = self._rects.pop(number, None)
        for cell in self._cells_of(old) if old is not None else ():
            self._cells[cell].pop(number)
        if rect is not None:
            self._rects[number] = rect
            for cell in self._cells_of(rect):
                self._cells.setdefault(cell, {})[number] = rect

    def _cells_of(self, rect: QRectF) -> list[tuple[int, int]]:
        left, right = int(rect.left() // self._cell), int(rect.right() // self._cell)
        top, low = int(rect.top() // self._cell), int(rect.bottom() // self._cell)
        return [(i, j) for i in range(left, right + 1) for j in range(top, low + 1)]

    def touching(self, rect: QRectF) -> set[int]:
        """Numbers of the rectangles that share ground with one."""
        found: set[int] = set()
        for cell in self._cells_of(rect):
            for number, other in self._cells.get(cell, _NONE).items():
                if number not in found and rect.intersects(other):
                    found.add(number)
        return found


class LabelPlaces:
    """A place for each label, the most needed first: plantings, numbers beside beds, then names of beds, sizes, structures.

    A label is placed when it is asked for, together with those on which its place depends: what is beyond the window costs
    nothing, and no label moves when the window does.

    Parameters
    ----------
    groups : sequence of LabelGroup
    cell : float
        Side of the cells in which places are looked up: about the size of a bed. [pixels]
    """

    def __init__(self, groups: Sequence[LabelGroup], cell: float = CELL) -> None:
        self._groups = list(groups)
        there = list(enumerate(groups))
        self._near = _Grid(((n, group.bounds) for n, group in there if group.labels), max(CELL, cell))
        self._beds = _Grid(((n, rect) for n, group in there if (rect := group.kept_free)), max(CELL, cell))
        self._placed: dict[_Order, QRectF | None] = {}
        self._before: dict[_Order, list[_Order]] = {}
        self._after: dict[_Order, set[_Order]] = {}

    def follow(self, groups: Sequence[LabelGroup]) -> bool:
        """Take other groups in place of some; labels that no change reaches keep their places.

        Parameters
        ----------
        groups : sequence of LabelGroup
            In the order of those before.

        Returns
        -------
        bool
            False where too much differs: then nothing is done.
        """
        if len(groups) != len(self._groups):
            return False
        pairs = enumerate(zip(self._groups, groups, strict=True))
        changed = [n for n, (old, new) in pairs if old is not new and old != new]
        if len(changed) > MOST_CHANGED:
            return False
        reached = set(changed)
        for number in changed:
            reached |= self._reached_from(number)
            new = self._groups[number] = groups[number]
            self._near.put(number, new.bounds if new.labels else None)
            self._beds.put(number, new.kept_free)
        for number in changed:
            reached |= self._reached_from(number)
        again = [order for order in self._placed if order[1] in reached]
        for order in again:
            if order[1] in changed:
                del self._placed[order]
        self._place_again([order for order in again if order in self._placed])
        return True

    def _reached_from(self, number: int) -> set[int]:
        """Groups whose labels may depend on a group as it is."""
        group = self._groups[number]
        rects = [
            *([group.bounds] if group.labels else ()),
            *([group.drawn] if group.drawn is not None else ()),
        ]
        return {other for rect in rects for other in self._near.touching(rect)}

    def _place_again(self, orders: list[_Order]) -> None:
        """Place some labels again, and those after them on whose places these have an effect."""
        heapq.heapify(orders)
        done: _Order | None = None
        while orders:
            order = heapq.heappop(orders)
            if order == done:
                continue
            done, old = order, self._placed[order]
            self._find_those_before(order)
            self._settle(self._before[order])
            new = self._placed[order] = self._first_free(order)
            if (new is None) != (old is None) or (new is not None and new != old):
                for other in self._after.get(order, ()):
                    if other in self._placed:
                        heapq.heappush(orders, other)

    def within(self, area: QRectF) -> list[tuple[Label, QRectF]]:
        """The labels that have a place in an area, in the order in which they took them."""
        wanted = self._orders(self._near.touching(area))
        self._settle(wanted)
        places = ((order, self._placed[order]) for order in wanted)
        return [
            (self._label(order), rect) for order, rect in places if rect is not None and rect.intersects(area)
        ]

    def every(self) -> list[tuple[Label, QRectF]]:
        """All labels that have a place, in the order in which they took them."""
        wanted = self._orders(range(len(self._groups)))
        self._settle(wanted)
        places = ((order, self._placed[order]) for order in wanted)
        return [(self._label(order), rect) for order, rect in places if rect is not None]

    @property
    def right_end(self) -> float:
        """Right end of all labels; minus infinity where there are none. [pixels]"""
        return self._farthest(QRectF.right)

    @property
    def left_end(self) -> float:
        """Left end of all labels; infinity where there are none. [pixels]"""
        return -self._farthest(lambda rect: -rect.left())

    def _farthest(self, end: Callable[[QRectF], float]) -> float:
        """The largest end of all labels; minus infinity where there are none. [pixels]"""
        best = -math.inf
        there = ((end(group.bounds), number) for number, group in enumerate(self._groups) if group.labels)
        for most, number in sorted(there, reverse=True):
            if most <= best:
                break
            orders = self._orders((number,))
            self._settle(orders)
            best = max([best, *(end(rect) for order in orders if (rect := self._placed[order]))])
        return best

    def _label(self, order: _Order) -> Label:
        return self._groups[order[1]].labels[order[2]]

    def _orders(self, groups: Iterable[int]) -> list[_Order]:
        """The labels of some groups, the most needed first."""
        return sorted(
            (KINDS.index(label.kind), group, number)
            for group in groups
            for number, label in enumerate(self._groups[group].labels)
        )

    def _settle(self, wanted: Iterable[_Order]) -> None:
        """Place some labels, and before them those that may be in their way."""
        need, todo = set[_Order](), list(wanted)
        while todo:
            order = todo.pop()
            if order in self._placed or order in need:
                continue
            need.add(order)
            todo += self._find_those_before(order)
        for order in sorted(need):
            self._placed[order] = self._first_free(order)

    def _find_those_before(self, order: _Order) -> list[_Order]:
        """Find the labels on which the place of one depends, and note them."""
        before = self._before[order] = self._in_the_way(order)
        for other in before:
            self._after.setdefault(other, set()).add(order)
        return before

    def _in_the_way(self, order: _Order) -> list[_Order]:
        """Labels that are more needed and may take a place that a label may take, or are of the same thing and kind."""
        label = self._label(order)
        if label.settled:
            return []
        rects = label.places
        found = []
        # The name of a bed lies beside all beds, or on its own: what is written on others is never in its way.
        alone = label.kind in ("numbers", "bed", "size")
        for group in self._near.touching(label.bounds):
            for number, other in enumerate(self._groups[group].labels):
                rank = _RANKS[other.kind]
                if (rank, group, number) >= order or (alone and other.settled and group != order[1]):
                    continue
                same = other.key == label.key and other.kind == label.kind
                if same or (other.bounds.intersects(label.bounds) and _meet(rects, other)):
                    found.append((rank, group, number))
        return found

    def _first_free(self, order: _Order) -> QRectF | None:
        """The first of a label's places that is free; None where none is."""
        label, taken = self._label(order), []
        for other in self._before[order]:
            rect = self._placed[other]
            if rect is not None:
                one = self._label(other)
                if one.key == label.key and one.kind == label.kind:
                    return None
                taken.append(rect)
        for rect in label.outside:
            if not any(map(rect.intersects, taken)) and not self._beds.touching(rect):
                return rect
        for rect in label.inside:
            if not any(map(rect.intersects, taken)):
                return rect
        for rect in label.over:
            if any(map(rect.intersects, taken)):
                continue
            # What hardly stands out of its bed lies on no other: the extents of one with a corner cut out may tell otherwise.
            drawn = self._groups[order[1]].drawn
            within = drawn is not None and drawn.adjusted(-OVER, -OVER, OVER, OVER).contains(rect)
            if within or self._beds.touching(rect) <= {order[1]}:
                return rect
        return None


def around(rect: QRectF, size: QSizeF, gap: float = 1) -> tuple[QRectF, ...]:
    """Places about a rectangle, after that over its left end: over its right end, to its right and left, under it."""
    middle = rect.center().y() - size.height() / 2
    return (
        above_right(rect, size, gap),
        QRectF(rect.right() + 4, middle, size.width(), size.height()),
        QRectF(rect.left() - 4 - size.width(), middle, size.width(), size.height()),
        QRectF(rect.right() + 4, rect.top(), size.width(), size.height()),
        QRectF(rect.left() - 4 - size.width(), rect.top(), size.width(), size.height()),
        QRectF(rect.left(), rect.bottom() + gap, size.width(), size.height()),
    )


def over_middle(rect: QRectF, size: QSizeF) -> tuple[QRectF, ...]:
    """Places along the middle of a rectangle, over whose long sides they may stand out."""
    slides = (0.5, 0.25, 0.75, 0.0, 1.0)
    left, top = rect.center().x() - size.width() / 2, rect.center().y() - size.height() / 2
    if rect.width() >= rect.height():
        room = max(rect.width() - size.width(), 0.0)
        xs = dict.fromkeys(rect.center().x() - size.width() / 2 + room * (slide - 0.5) for slide in slides)
        return tuple(QRectF(x, top, size.width(), size.height()) for x in xs)
    room = max(rect.height() - size.height(), 0.0)
    ys = dict.fromkeys(rect.center().y() - size.height() / 2 + room * (slide - 0.5) for slide in slides)
    return tuple(QRectF(left, y, size.width(), size.height()) for y in ys)


def along(rect: QRectF, size: QSizeF, gap: float = 1) -> tuple[QRectF, ...]:
    """Places for upright words along the left side of a rectangle; a negative gap leads to its right side."""
    left = rect.left() - gap - size.width() if gap >= 0 else rect.right() - gap
    tops = dict.fromkeys((rect.bottom() - size.height(), rect.center().y() - size.height() / 2))
    return tuple(QRectF(left, top, size.width(), size.height()) for top in tops)


def corners(rect: QRectF, size: QSizeF) -> tuple[QRectF, ...]:
    """The four corners of a rectangle, where it is large enough."""
    first = corner(rect, size)
    if not first:
        return ()
    across, down = rect.width() - size.width() - 2, rect.height() - size.height() - 2
    return tuple(first[0].translated(x, y) for y in (0.0, down) for x in (0.0, across))


def _meet(rects: Sequence[QRectF], other: Label) -> bool:
    """Whether a label may take a place that shares ground with one of some rectangles."""
    return any(one.intersects(each) for each in other.places for one in rects)


def above(rect: QRectF, size: QSizeF, gap: float = 2) -> QRectF:
    """Place over the left end of a rectangle."""
    return QRectF(rect.left(), rect.top() - size.height() - gap, size.width(), size.height())


def above_right(rect: QRectF, size: QSizeF, gap: float = 2) -> QRectF:
    """Place over the right end of a rectangle."""
    return QRectF(rect.right() - size.width(), rect.top() - size.height() - gap, size.width(), size.height())


def below(rect: QRectF, size: QSizeF, gap: float = 3) -> QRectF:
    """Place under the left end of a rectangle."""
    return QRectF(rect.left(), rect.bottom() + gap, size.width(), size.height())


def beside(rect: QRectF, size: QSizeF, gap: float = 6) -> QRectF:
    """Place to the right of a rectangle."""
    return QRectF(rect.right() + gap, rect.center().y() - size.height() / 2, size.width(), size.height())


def corner(rect: QRectF, size: QSizeF) -> tuple[QRectF, ...]:
    """The upper left corner of a rectangle, where it is large enough."""
    if size.width() + 6 > rect.width() or size.height() > rect.height():
        return ()
    return (QRectF(rect.left() + 1, rect.top() + 1, size.width(), size.height()),)


def inside(rect: QRectF, size: QSizeF) -> tuple[QRectF, ...]:
    """The middle of a rectangle, where it is large enough."""
    if size.width() + 4 > rect.width() or size.height() + 2 > rect.height():
        return ()
    left, top = rect.center().x() - size.width() / 2, rect.center().y() - size.height() / 2
    return (QRectF(left, top, size.width(), size.height()),)
