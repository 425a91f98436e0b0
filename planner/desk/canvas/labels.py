"""Where labels are placed: beside what they name, never on each other.

Positions are in pixels at the zoom in force. Each label takes the first of its places that is free;
a label that finds none is left out until there is room.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from PySide6.QtCore import QRectF, QSizeF

#: Side of the cells in which occupied places are looked up. [pixels]
CELL = 128.0

#: What a label names; tells how it is drawn.
LabelKind = Literal["bed", "size", "planting", "structure"]


@dataclass(frozen=True)
class Label:
    """Words for a thing.

    Attributes
    ----------
    key : str
        Id of the thing named.
    text : str
    kind : {"bed", "size", "planting", "structure"}
    outside : tuple of QRectF
        Places beside what it names, best first; used only where no bed lies. [pixels at this zoom]
    inside : tuple of QRectF
        Places on what it names, used where none of the others is free. [pixels at this zoom]
    family : str
        Botanical family of a planting, for its ink.
    """

    key: str
    text: str
    kind: LabelKind
    outside: tuple[QRectF, ...] = ()
    inside: tuple[QRectF, ...] = ()
    family: str = ""


@dataclass
class OccupiedArea:
    """Occupied rectangles, in a grid of cells."""

    cells: dict[tuple[int, int], list[QRectF]] = field(default_factory=dict)

    def _cells_of(self, rect: QRectF) -> Iterable[tuple[int, int]]:
        for i in range(int(rect.left() // CELL), int(rect.right() // CELL) + 1):
            for j in range(int(rect.top() // CELL), int(rect.bottom() // CELL) + 1):
                yield i, j

    def is_free(self, rect: QRectF) -> bool:
        """Whether nothing occupies any part of a rectangle."""
        for cell in self._cells_of(rect):  # no generator: this is asked for every label of the garden
            for other in self.cells.get(cell, ()):
                if rect.intersects(other):
                    return False
        return True

    def add(self, rect: QRectF) -> None:
        """Mark a rectangle as occupied."""
        for cell in self._cells_of(rect):
            self.cells.setdefault(cell, []).append(rect)


def place_labels(labels: Iterable[Label], drawn: Iterable[QRectF] = ()) -> list[tuple[Label, QRectF]]:
    """Give each label a place, the first ones first.

    Parameters
    ----------
    labels : iterable of Label
        Of several labels of one kind for the same thing, only the first that finds a place is written.
    drawn : iterable of QRectF
        Extents of beds, which no label beside something may cover. [pixels]
    """
    words, beds = OccupiedArea(), OccupiedArea()
    for rect in drawn:
        beds.add(rect.adjusted(1, 1, -1, -1))
    placed: list[tuple[Label, QRectF]] = []
    written = set[tuple[str, LabelKind]]()
    for label in labels:
        if (label.key, label.kind) in written:
            continue
        place = _first_free(label, words, beds)
        if place is not None:
            words.add(place)
            written.add((label.key, label.kind))
            placed.append((label, place))
    return placed


def _first_free(label: Label, words: OccupiedArea, beds: OccupiedArea) -> QRectF | None:
    """The first of a label's places that is free; None where none is."""
    for rect in label.outside:
        if words.is_free(rect) and beds.is_free(rect):
            return rect
    for rect in label.inside:
        if words.is_free(rect):
            return rect
    return None


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
