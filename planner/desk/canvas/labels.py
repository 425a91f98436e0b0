"""Where the words on the sheet stand: beside what they name, never on each other.

Positions are worked out in pixels at the zoom in force, by taking for each label the first of its
places that is free; labels that find none are left out until there is room.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from PySide6.QtCore import QRectF, QSizeF

#: Side of the cells in which taken places are looked up. [pixels]
CELL = 128.0


@dataclass(frozen=True)
class Label:
    """Words for a thing.

    Attributes
    ----------
    key : str
        Id of the thing named.
    text : str
    kind : str
        ``bed``, ``size``, ``planting`` or ``structure``; tells how it is drawn.
    outside : tuple of QRectF
        Places beside what it names, best first; taken only where no bed lies. [pixels at this zoom]
    inside : tuple of QRectF
        Places on what it names, where none of the others is free.
    """

    key: str
    text: str
    kind: str
    outside: tuple[QRectF, ...] = ()
    inside: tuple[QRectF, ...] = ()
    family: str = ""


@dataclass
class OccupiedArea:
    """What is taken on the sheet, in cells."""

    cells: dict[tuple[int, int], list[QRectF]] = field(default_factory=dict)

    def _cells_of(self, rect: QRectF) -> Iterable[tuple[int, int]]:
        for i in range(int(rect.left() // CELL), int(rect.right() // CELL) + 1):
            for j in range(int(rect.top() // CELL), int(rect.bottom() // CELL) + 1):
                yield i, j

    def free(self, rect: QRectF) -> bool:
        """Whether nothing stands there."""
        return not any(
            rect.intersects(other) for cell in self._cells_of(rect) for other in self.cells.get(cell, ())
        )

    def take(self, rect: QRectF) -> None:
        """Mark a place as taken."""
        for cell in self._cells_of(rect):
            self.cells.setdefault(cell, []).append(rect)


def settle(labels: Iterable[Label], drawn: Iterable[QRectF] = ()) -> list[tuple[Label, QRectF]]:
    """Give each label a place, the first ones first.

    Parameters
    ----------
    labels : iterable of Label
    drawn : iterable of QRectF
        Extents of beds, which no label beside something may cover. [pixels]
    """
    words, beds = OccupiedArea(), OccupiedArea()
    for rect in drawn:
        beds.take(rect.adjusted(1, 1, -1, -1))
    settled = []
    for label in labels:
        free = [rect for rect in label.outside if words.free(rect) and beds.free(rect)]
        free = free or [rect for rect in label.inside if words.free(rect)]
        if free:
            words.take(free[0])
            settled.append((label, free[0]))
    return settled


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
