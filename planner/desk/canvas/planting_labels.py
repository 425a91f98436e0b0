"""Where the plantings of one bed are named on it: in words along their plots, in fewer words, or by a number.

Positions are in pixels at the zoom in force. Nothing here knows other beds: names of plantings never leave theirs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainterPath

from planner.sheets.short_names import shorter_crop_names

#: Words may cover this share of the plot that they name; a number may cover more.
MOST_COVERED = 0.7
#: So far the corners of a number may lie over the edge of a bed that is turned. [pixels]
OVER = 2.0
#: Room between words and the edge of the plot. [pixels]
EDGE = 1.0
#: Places along a plot that are tried for a number where the middle is taken.
_SLIDES = (0.5, 0.3, 0.7, 0.1, 0.9, 0.0, 1.0)


class Written(NamedTuple):
    """Words, and the room they take when they lie level. [pixels]"""

    text: str
    width: float
    height: float


@dataclass(frozen=True)
class NamedPlot:
    """A planting that is to be named.

    Attributes
    ----------
    key : str
        Its id.
    area : QRectF
        Extents of its plot. [pixels]
    path : QPainterPath or None
        Its plot, where that is no level rectangle. [pixels]
    ground : float
        Area of the plot. [pixels2]
    words : tuple of Written
        What may be written, the longest first.
    """

    key: str
    area: QRectF
    path: QPainterPath | None
    ground: float
    words: tuple[Written, ...]


@dataclass(frozen=True)
class NamePlace:
    """Where a planting is named.

    Attributes
    ----------
    key : str
        Id of the planting.
    text : str
        Empty where a number is to be written.
    rect : QRectF
        [pixels]
    upright : bool
        Whether it reads from below to above.
    """

    key: str
    text: str
    rect: QRectF
    upright: bool = False


def shorter_names(full: str, name: str, crop: str, count: str) -> tuple[str, ...]:
    """What may be written for a planting, by one rule, the longest first.

    Everything; name and number of plants; the name with its variety; the crop alone; its first words as letters
    (``B. lettuce``); its last word cut to four letters or more (``Lett.``).

    Parameters
    ----------
    full : str
        Name, rows, number of plants, cover.
    name : str
        Crop and variety.
    crop : str
    count : str
        Name and number of plants.
    """
    return tuple(dict.fromkeys((full, count, name, *shorter_crop_names(crop))))


def places_in_bed(
    bed: QRectF, outline: QPainterPath | None, plots: Sequence[NamedPlot], number: tuple[float, float]
) -> tuple[NamePlace, ...]:
    """Name the plantings of a bed.

    Parameters
    ----------
    bed : QRectF
        Extents of the bed. [pixels]
    outline : QPainterPath or None
        Its outline, where that is no level rectangle. [pixels]
    plots : sequence of NamedPlot
    number : tuple of float
        Width and height of a number. [pixels]

    Returns
    -------
    tuple of NamePlace
        In the order of the plots; those without a place are left out.
    """
    if min(bed.width(), bed.height()) < number[1]:
        return ()
    best: dict[str, NamePlace] = {}
    # Where one finds no place beside the words of others, all are tried again with fewer.
    for words in (True, False):
        found = _Bed(bed, outline, number).named(plots, words=words)
        if len(found) > len(best):
            best = found
        if len(best) == len(plots):
            break
    return tuple(best[plot.key] for plot in plots if plot.key in best)


class _Bed:
    """A bed on which names have taken their places."""

    def __init__(self, bed: QRectF, outline: QPainterPath | None, number: tuple[float, float]) -> None:
        self._bed, self._outline, self._number = bed, outline, number
        self._taken: list[QRectF] = []

    def named(self, plots: Sequence[NamedPlot], *, words: bool) -> dict[str, NamePlace]:
        """Name plantings, those with the least ground first: the others have more places to choose from."""
        found = {}
        for plot in sorted(plots, key=lambda one: (one.ground, one.key)):
            place = (self._in_words(plot) if words else None) or self._by_number(plot)
            if place is not None:
                found[plot.key] = place
                self._taken.append(place.rect)
        return found

    def _in_words(self, plot: NamedPlot) -> NamePlace | None:
        area = plot.area
        across, down = area.width() - 2 * EDGE, area.height() - 2 * EDGE
        for text, width, height in plot.words:
            if width * height > MOST_COVERED * plot.ground:
                continue
            for wide, high, upright in ((width, height, False), (height, width, True)):
                if wide > across or high > down or (upright and down < across):
                    continue
                rect = self._first_free(_inside(area, wide, high), self._within(plot.path))
                if rect is not None:
                    return NamePlace(plot.key, text, rect, upright)
        return None

    def _by_number(self, plot: NamedPlot) -> NamePlace | None:
        """A number on the plot, or with its middle on it where it is small."""
        (wide, high), area = self._number, plot.area
        rect = self._first_free(_inside(area, wide, high, _SLIDES), self._within(plot.path))
        if rect is None:
            places = _about(area, wide, high)
            if plot.path is not None:
                path = plot.path
                places = (one for one in places if path.contains(one.center()))
            rect = self._first_free(map(self._moved_in, places), self._on_bed)
        return NamePlace(plot.key, "", rect) if rect is not None else None

    def _moved_in(self, rect: QRectF) -> QRectF:
        """A place at the rim moved onto the bed."""
        bed = self._bed
        if bed.contains(rect):
            return rect
        x = max(bed.left() - rect.left(), 0.0) + min(bed.right() - rect.right(), 0.0)
        y = max(bed.top() - rect.top(), 0.0) + min(bed.bottom() - rect.bottom(), 0.0)
        return rect.translated(x, y)

    def _on_bed(self, rect: QRectF) -> bool:
        if self._outline is None:
            return self._bed.contains(rect)
        return self._outline.contains(rect.adjusted(OVER, OVER, -OVER, -OVER))

    def _within(self, path: QPainterPath | None) -> Callable[[QRectF], bool]:
        return path.contains if path is not None else self._bed.contains

    def _first_free(self, places: Iterator[QRectF], fits: Callable[[QRectF], bool]) -> QRectF | None:
        for rect in places:
            if not any(map(rect.intersects, self._taken)) and fits(rect):
                return rect
        return None


def _inside(
    area: QRectF, wide: float, high: float, slides: Sequence[float] = (0.5, 0.25, 0.75, 0.0, 1.0)
) -> Iterator[QRectF]:
    """Places for words in an area: its middle, then others, those along its long side first."""
    across, down = area.width() - 2 * EDGE - wide, area.height() - 2 * EDGE - high
    if across < 0 or down < 0:
        return
    left, top = area.left() + EDGE, area.top() + EDGE
    pairs = ((x, y) for y in slides for x in slides)
    if area.height() > area.width():
        pairs = ((x, y) for x in slides for y in slides)
    for x, y in pairs:
        yield QRectF(left + x * across, top + y * down, wide, high)


def _about(area: QRectF, wide: float, high: float) -> Iterator[QRectF]:
    """Places for a number whose middle lies on an area."""
    along = area.width() >= area.height()
    for slide in _SLIDES:
        x = area.left() + (slide if along else 0.5) * area.width()
        y = area.top() + (0.5 if along else slide) * area.height()
        yield QRectF(x - wide / 2, y - high / 2, wide, high)
