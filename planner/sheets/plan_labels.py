"""Names on a drawn plan: none lies over another, and what has no room for its name gets a number."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely

from planner.ground.shapes import turned
from planner.sheets import fonts
from planner.sheets.family_inks import Rgb, mixed
from planner.sheets.fonts import POINT, Style
from planner.sheets.pen import INK, PENCIL, WHITE

#: Sizes of the names of beds, plots and structures, the best first. [points]
_BED_SIZES, _PLOT_SIZES, _STRUCTURE_SIZE = (8.0,), (8.0,), 8.0
#: Sizes of numbers. [points]
_NUMBER_SIZES = (8.0,)
#: Room around words, across and up. [mm]
_PAD = (0.6, 0.35)
#: Distance of words from the edge of the ground that they lie on. [mm]
_EDGE = 0.3
#: Height of words as a share of their size, and of their base line above their box.
_HEIGHT, _BASE = 0.95, 0.22
#: Shares of a plot's length and width at which its name is tried, the best first.
_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)
#: Share of its family's ink in the name of a plot, which must be read on its tint. [0 to 1]
_INK_SHARE = 0.45
#: Side of the cells by which names near each other are found. [mm]
_CELL = 12.0
#: Distance of a name from the bed it stands beside. [mm]
_BESIDE = 0.4
#: Another bed is so many times as far from a name as its own at the least.
_NEARER = 1.6
#: What lies so near to an edge of some ground faces it. [mm]
_DEEP = 0.5
#: Beds so many times as long as wide at the least have their names along them, too.
_LONG = 2.0


@dataclass(frozen=True)
class PlacedName:
    """Words in their place.

    Attributes
    ----------
    text : str
    box : shapely.Polygon
        What they take. [mm on the page]
    at : tuple of float
        Middle of their base line. [mm on the page]
    size : float
        [points]
    style : {"regular", "bold", "italic"}
    turn : float
        [degrees anticlockwise]
    rgb : tuple of float
    ground : tuple of float or None
        Ink of the box behind them; None for none.
    """

    text: str
    box: shapely.Polygon
    at: tuple[float, float]
    size: float
    style: Style
    turn: float
    rgb: Rgb
    ground: Rgb | None


@dataclass(frozen=True)
class PlotToName:
    """A plot on the page.

    Attributes
    ----------
    bed : str
        Name of its bed.
    names : tuple of str
        The fullest first; the number stands for the fullest.
    ground : shapely.Geometry
        [mm]
    turn : float
        Direction of its bed. [degrees anticlockwise]
    tint, line : tuple of float
        Its family's inks.
    """

    bed: str
    names: tuple[str, ...]
    ground: shapely.Geometry
    turn: float
    tint: Rgb
    line: Rgb


@dataclass
class PlanNames:
    """Finds places for names on a page.

    Parameters
    ----------
    frame : shapely.Polygon
        Within which they lie. [mm]
    placed : list of PlacedName
        Those that have one.
    numbers : dict of str to int
        Number of each name that had no room, as in the key.
    unnamed : dict of str to list of str
        By bed, the names of plots that have no room even for a number.
    enlarged : float
        How many times as large as on a page names are where there is room for that; those of structures at any rate.
    """

    frame: shapely.Polygon
    placed: list[PlacedName] = field(default_factory=list)
    numbers: dict[str, int] = field(default_factory=dict)
    unnamed: dict[str, list[str]] = field(default_factory=dict)
    enlarged: float = 1.0
    _taken: dict[tuple[int, int], list[shapely.Polygon]] = field(default_factory=dict, repr=False)

    def _sizes(self, usual: Sequence[float]) -> tuple[float, ...]:
        """Sizes that are tried, the best first. [points]"""
        larger = [size * self.enlarged for size in usual] if self.enlarged > 1.0 else []
        return (*larger, *usual)

    def name_beds(
        self,
        beds: Sequence[tuple[str, shapely.Geometry]],
        planted: shapely.Geometry,
        in_the_way: Iterable[shapely.Geometry],
    ) -> None:
        """Name beds: beside them where nothing lies and no other bed is nearer, else on their free ground, else on their plots.

        Parameters
        ----------
        beds : sequence of (str, shapely.Geometry)
            Names and grounds. [mm]
        planted : shapely.Geometry
            All plots. [mm]
        in_the_way : iterable of shapely.Geometry
            Structures beside which names stand, too. [mm]
        """
        taken = shapely.STRtree([*(ground for _, ground in beds), *in_the_way])
        near = shapely.STRtree([ground for _, ground in beds])
        sizes = self._sizes(_BED_SIZES)
        for own, (name, ground) in enumerate(beds):
            free = shapely.difference(ground, planted)
            turns = (0.0,) if (along := _along(ground)) is None else (0.0, along)
            for size, turn, box, room in _bed_places(name, ground, free, sizes, turns):
                clear = (
                    shapely.covers(room, box)
                    if room is not None
                    else not len(taken.query(box, "intersects")) and _nearest(own, near, box)
                )
                if clear and self._free(box):
                    self._place(name, box, size, "bold", turn, INK, WHITE if room is ground else None)
                    break

    def name_plots(self, plots: Sequence[PlotToName]) -> None:
        """Name plots on their ground, level or along their bed; number those without room."""
        large = _may_hold(plots, "", _NUMBER_SIZES[-1])
        stands_for: dict[str, set[str]] = {}
        for plot in plots:
            for name in plot.names:
                stands_for.setdefault(name, set()).add(plot.names[0])
        without_room = [
            (plot, tried)
            for plot, tried in zip(plots, large, strict=True)
            if not (tried and self._name_plot(plot, _telling(plot, stands_for), self._sizes(_PLOT_SIZES)))
        ]
        for plot, tried in without_room:
            number = self.numbers.get(plot.names[0], len(self.numbers) + 1)
            if tried and self._name_plot(plot, (str(number),), self._sizes(_NUMBER_SIZES)):
                self.numbers[plot.names[0]] = number
            else:
                self.unnamed.setdefault(plot.bed, []).append(plot.names[0])

    def name_structures(
        self,
        structures: Sequence[tuple[Sequence[str], shapely.Geometry, Rgb]],
        in_the_way: Sequence[shapely.Geometry],
    ) -> None:
        """Name structures on their ground or beside it, where there is room.

        Parameters
        ----------
        structures : sequence of (sequence of str, shapely.Geometry, tuple of float)
            Names, the fullest first, grounds with the marks on them, and inks of the grounds. [mm]
        in_the_way : sequence of shapely.Geometry
            What names do not cover. [mm]
        """
        taken, others = shapely.STRtree(in_the_way), [ground for _, ground, _ in structures]
        size = _STRUCTURE_SIZE * self.enlarged
        for names, ground, ink in structures:
            on = [
                (name, box, turn, ink)
                for name in names
                for turn in (0.0, _level(_direction(ground)))
                if (room := _room(ground, turn)) is not None
                for box in _inside(name, room, turn, size, "italic")
                if shapely.covers(ground, box)
            ]
            beside = [
                (name, box, 0.0, None)
                for name in names
                for box in _beside(name, ground, size, "italic")
                if not shapely.intersects(others, box).any()
            ]
            for name, box, turn, behind in (*on, *beside):
                if self._free(box) and not len(taken.query(box, "intersects")):
                    self._place(name, box, size, "italic", turn, PENCIL, behind)
                    break

    def _name_plot(self, plot: PlotToName, names: Sequence[str], sizes: Sequence[float]) -> bool:
        turns = dict.fromkeys((0.0, _level(plot.turn), _level(plot.turn + 90.0)))
        rooms = [(turn, room) for turn in turns if (room := _room(plot.ground, turn)) is not None]
        for name, size, (turn, room) in itertools.product(names, sizes, rooms):
            for box in _inside(name, room, turn, size, "bold"):
                if shapely.covers(plot.ground, box) and self._free(box):
                    self._place(name, box, size, "bold", turn, mixed(plot.line, INK, _INK_SHARE), plot.tint)
                    return True
        return False

    def _free(self, box: shapely.Polygon) -> bool:
        """Whether a box lies in the frame and meets no name."""
        if not shapely.covers(self.frame, box):
            return False
        near = [other for cell in _cells(box) for other in self._taken.get(cell, ())]
        return not near or not bool(shapely.intersects(box, near).any())

    def _place(
        self,
        text: str,
        box: shapely.Polygon,
        size: float,
        style: Style,
        turn: float,
        rgb: Rgb,
        ground: Rgb | None,
    ) -> None:
        middle = shapely.centroid(box)
        down = (0.5 - _BASE) * _HEIGHT * size * POINT
        step = shapely.get_coordinates(turned(shapely.Point(0.0, -down), turn))[0]
        at = (middle.x + float(step[0]), middle.y + float(step[1]))
        for cell in _cells(box):
            self._taken.setdefault(cell, []).append(box)
        self.placed.append(PlacedName(text, box, at, size, style, turn, rgb, ground))


def _nearest(own: int, beds: shapely.STRtree, box: shapely.Polygon) -> bool:
    """Whether a name is so much nearer to its own bed than to any other that it cannot be taken for that one's."""
    reach = _NEARER * float(shapely.distance(beds.geometries[own], box))
    return set(beds.query(box, "dwithin", reach).tolist()) <= {own}


def _telling(plot: PlotToName, stands_for: Mapping[str, set[str]]) -> list[str]:
    """Names of a plot without those that stand for others, too: two sorts of a crop are told apart."""
    return [name for name in plot.names if len(stands_for[name]) == 1]


def _bed_places(
    name: str,
    ground: shapely.Geometry,
    free: shapely.Geometry,
    sizes: Sequence[float],
    turns: Sequence[float],
) -> Iterator[tuple[float, float, shapely.Polygon, shapely.Geometry | None]]:
    """Sizes, turns and boxes for the name of a bed, the best first, with the ground on which a box lies."""
    for turn, size in itertools.product(turns, sizes):
        for box in _beside(name, turned(ground, -turn), size, "bold"):
            yield size, turn, turned(box, turn), None
    for there, turn in itertools.product((free, ground), turns):
        for size, box, room in _on(name, there, "bold", sizes, turn):
            yield size, turn, box, room


def _extent(text: str, size: float, style: Style) -> tuple[float, float]:
    """Width and height of a text with the room around it. [mm]"""
    return fonts.width(text, size, style) + 2 * _PAD[0], _HEIGHT * size * POINT + 2 * _PAD[1]


def _may_hold(plots: Sequence[PlotToName], text: str, size: float) -> list[bool]:
    """Which plots are as long from corner to corner as the box of a text at least: the others hold it in no direction."""
    if not plots:
        return []
    bounds = shapely.bounds([plot.ground for plot in plots])
    across = np.hypot(bounds[:, 2] - bounds[:, 0], bounds[:, 3] - bounds[:, 1])
    found: list[bool] = (across >= math.hypot(*_extent(text, size, "bold"))).tolist()
    return found


def _box(x: float, y: float, wide: float, tall: float) -> shapely.Polygon:
    return shapely.box(x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)


def _cells(box: shapely.Polygon) -> Iterator[tuple[int, int]]:
    """Cells of the page that a box touches, by which boxes near each other are found."""
    left, low, right, high = (math.floor(value / _CELL) for value in shapely.bounds(box))
    return itertools.product(range(left, right + 1), range(low, high + 1))


_Room = tuple[float, float, float, float]


def _room(ground: shapely.Geometry, turn: float) -> _Room | None:
    """Left, low, right and high of the largest part of some ground, level after a turn; None where there is none."""
    parts = [part for part in shapely.get_parts(ground) if not part.is_empty]
    if not parts:
        return None
    part = parts[0] if len(parts) == 1 else max(parts, key=lambda one: one.area)
    left, low, right, high = (float(value) for value in shapely.bounds(turned(part, -turn)))
    return left + _EDGE, low + _EDGE, right - _EDGE, high - _EDGE


def _inside(text: str, room: _Room, turn: float, size: float, style: Style) -> Iterator[shapely.Polygon]:
    """Boxes of a text in a room, the best first; none where the room is too small."""
    left, low, right, high = room
    wide, tall = _extent(text, size, style)
    if wide > right - left or tall > high - low:
        return
    for up, along in itertools.product(_SHARES, _SHARES):
        x, y = left + along * (right - left), low + up * (high - low)
        x = min(max(x, left + wide / 2), right - wide / 2)
        y = min(max(y, low + tall / 2), high - tall / 2)
        yield turned(_box(x, y, wide, tall), turn)


def _on(
    text: str, ground: shapely.Geometry, style: Style, sizes: Sequence[float], turn: float = 0.0
) -> Iterator[tuple[float, shapely.Polygon, shapely.Geometry]]:
    """Sizes and boxes of a text on some ground, with the ground."""
    room = _room(ground, turn)
    if room is None:
        return
    for size in sizes:
        for box in _inside(text, room, turn, size, style):
            yield size, box, ground


def _beside(text: str, ground: shapely.Geometry, size: float, style: Style) -> Iterator[shapely.Polygon]:
    """Boxes of a text above, below, right and left of some ground."""
    left, low, right, high = (float(value) for value in shapely.bounds(ground))
    wide, tall = _extent(text, size, style)
    across, up = wide / 2 + _BESIDE, tall / 2 + _BESIDE
    places = []
    for edge, y in ((high, high + up), (low, low - up)):
        first, last = _facing(ground, edge, (left, right), 0)
        middle = (first + last) / 2
        fits = wide <= last - first
        places += [(x, y) for x in ((first + wide / 2, middle, last - wide / 2) if fits else (middle,))]
    for edge, x in ((right, right + across), (left, left - across)):
        first, last = _facing(ground, edge, (low, high), 1)
        places.append((x, (first + last) / 2))
    for x, y in places:
        yield _box(x, y, wide, tall)


def _facing(
    ground: shapely.Geometry, edge: float, whole: tuple[float, float], axis: int
) -> tuple[float, float]:
    """Where some ground reaches its uppermost, lowest, right or left edge: of an angle one of its legs. [mm]"""
    (first, last), deep = whole, _DEEP
    strip = (
        shapely.box(first, edge - deep, last, edge + deep)
        if axis == 0
        else shapely.box(edge - deep, first, edge + deep, last)
    )
    facing = shapely.bounds(shapely.intersection(ground, strip))
    return (float(facing[axis]), float(facing[axis + 2])) if np.isfinite(facing).all() else whole


def _level(turn: float) -> float:
    """A direction of reading that is never upside down. [degrees]"""
    turn = turn % 180.0
    return round(turn - 180.0 if turn > 90.0 + 1e-9 else turn, 6)


def _along(ground: shapely.Geometry) -> float | None:
    """Direction of reading along a long bed that does not lie level; None of all others. [degrees]"""
    corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(ground))
    if len(corners) < 4:
        return None
    one, other = np.hypot(*np.diff(corners[:3], axis=0).T)
    turn = _level(_direction(ground))
    return turn if turn and max(one, other) >= _LONG * min(one, other) else None


def _direction(ground: shapely.Geometry) -> float:
    """Direction of the long side of the box about some ground. [degrees anticlockwise from right]"""
    corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(ground))
    if len(corners) < 4:
        return 0.0
    sides = np.diff(corners[:3], axis=0)
    x, y = sides[int(np.argmax(np.hypot(sides[:, 0], sides[:, 1])))]
    return float(np.degrees(np.arctan2(y, x)))
