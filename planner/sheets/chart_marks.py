"""Charts as lists of marks, which the window and the sheets draw alike: lines, areas, dots and words in a box."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

#: What a mark is drawn in: words and outlines, lighter lines, faint lines, warm, cold, wet.
ChartInk = Literal["ink", "pencil", "faint", "warm", "cold", "wet"]
Anchor = Literal["left", "middle", "right"]
Place = tuple[float, float]


@dataclass(frozen=True)
class Line:
    """A line through places.

    Attributes
    ----------
    places : tuple of (float, float)
    ink : str
    weight : float
        In parts of a usual line.
    dash : tuple of float
        Dashes and gaps in turn, in parts of the height of the words; solid where empty.
    """

    places: tuple[Place, ...]
    ink: ChartInk
    weight: float = 1.0
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class Area:
    """An area within corners, of a share of its ink."""

    corners: tuple[Place, ...]
    ink: ChartInk
    share: float = 0.25


@dataclass(frozen=True)
class Dot:
    """A round mark; hollow where it is not filled."""

    x: float
    y: float
    radius: float
    ink: ChartInk
    filled: bool = True


@dataclass(frozen=True)
class Words:
    """Words on a line; ``y`` is their foot."""

    x: float
    y: float
    text: str
    ink: ChartInk = "pencil"
    anchor: Anchor = "left"
    bold: bool = False


Mark = Line | Area | Dot | Words


@dataclass(frozen=True)
class Room:
    """The box that a chart has, with the origin in its upper left corner and y downwards.

    Attributes
    ----------
    width, height : float
    line : float
        Height of a line of words.
    measure : callable
        Width of words.
    gutter : float
        Width to the left of the frame at least, so that charts below each other agree.
    """

    width: float
    height: float
    line: float
    measure: Callable[[str], float]
    gutter: float = 0.0


@dataclass(frozen=True)
class Chart:
    """A chart.

    Attributes
    ----------
    marks : tuple
        From the lowest to the uppermost.
    left, top, right, bottom : float
        The frame in which its values are.
    steps : int
        Into how many parts the frame falls that are read one by one: days, months or years.
    down : bool
        Whether those lie one below the other, not side by side.
    """

    marks: tuple[Mark, ...]
    left: float
    top: float
    right: float
    bottom: float
    steps: int
    down: bool = False

    def step_at(self, x: float, y: float) -> int:
        """Which part a place is in; -1 beside the frame."""
        if not (self.left <= x <= self.right and self.top <= y <= self.bottom) or not self.steps:
            return -1
        share = (
            (y - self.top) / (self.bottom - self.top)
            if self.down
            else (x - self.left) / (self.right - self.left)
        )
        return min(self.steps - 1, int(share * self.steps))

    def line_of(self, step: int) -> tuple[Place, Place]:
        """A line through the middle of a part."""
        share = (step + 0.5) / self.steps
        if self.down:
            y = self.top + share * (self.bottom - self.top)
            return (self.left, y), (self.right, y)
        x = self.left + share * (self.right - self.left)
        return (x, self.top), (x, self.bottom)


def ticks(low: float, high: float, most: int) -> list[float]:
    """Round numbers from a least to a greatest value: 1, 2 or 5 times a power of ten apart.

    Parameters
    ----------
    low, high : float
    most : int
        No more of them.

    Examples
    --------
    >>> ticks(-7, 31, 6)
    [-10.0, 0.0, 10.0, 20.0, 30.0, 40.0]
    """
    span = max(high - low, 1e-9)
    power = 10.0 ** math.floor(math.log10(span / max(most - 1, 1)))
    for step in (1 * power, 2 * power, 5 * power, 10 * power, 20 * power, 50 * power):
        first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
        if last - first < most:
            return [number * step for number in range(first, last + 1)]
    return [low, high]


class Frame:
    """The frame of a chart that is being made: a title, a scale to the left, and places for its values.

    Parameters
    ----------
    room : Room
    title : str
    low, high : float
        Least and greatest value of the scale.
    show : callable
        A value of the scale in words.
    marks : sequence of float, optional
        Values of the scale that are named; round ones by default.
    steps : int
    heads : float
        Lines of words between the title and the frame.
    """

    def __init__(
        self,
        room: Room,
        title: str,
        low: float,
        high: float,
        show: Callable[[float], str],
        steps: int,
        marks: Sequence[float] | None = None,
        heads: float = 0.0,
    ) -> None:
        self.room, self.steps = room, steps
        self.marks: list[Mark] = [Words(0.0, room.line * 0.85, title, "ink", bold=True)]
        self.top, self.bottom = room.line * (1.7 + heads), room.height - room.line * 1.4
        most = max(2, int((self.bottom - self.top) / (1.6 * room.line)))
        values = list(marks) if marks is not None else ticks(low, high, most)
        self.low, self.high = min(low, *values), max(high, *values)
        names = [show(value) for value in values]
        self.left = max(max(map(room.measure, names), default=0.0) + room.line * 0.5, room.gutter)
        self.right = room.width - room.line * 0.4
        for value, name in zip(values, names, strict=True):
            y = self.y(value)
            self.marks.append(Line(((self.left, y), (self.right, y)), "faint"))
            self.marks.append(Words(self.left - room.line * 0.4, y + room.line * 0.3, name, anchor="right"))

    def x(self, at: float) -> float:
        """Where a part begins."""
        return self.left + at / self.steps * (self.right - self.left)

    def y(self, value: float) -> float:
        """Where a value is."""
        share = (value - self.low) / max(self.high - self.low, 1e-9)
        return self.bottom - share * (self.bottom - self.top)

    def add(self, *marks: Mark) -> None:
        """Draw over what is there."""
        self.marks += marks

    def foot(self, places: Iterable[tuple[float, str]], *, centred: bool = True) -> None:
        """Name places below the frame, as many as have room.

        Parameters
        ----------
        places : iterable of (float, str)
            Part of the frame, and its name.
        centred : bool
            Whether the name stands under the place, else after it.
        """
        end = -math.inf
        for at, name in places:
            width = self.room.measure(name)
            x = self.x(at)
            begin = x - width / 2 if centred else x + self.room.line * 0.15
            if begin < end or begin + width > self.room.width:
                continue
            self.add(Words(begin, self.bottom + self.room.line, name))
            end = begin + width + self.room.line * 0.5

    def chart(self, *, down: bool = False) -> Chart:
        """The chart as it is now."""
        self.add(Line(((self.left, self.bottom), (self.right, self.bottom)), "pencil"))
        return Chart(tuple(self.marks), self.left, self.top, self.right, self.bottom, self.steps, down)
