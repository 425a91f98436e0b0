"""Labels of the plots in a drawing: letter, crop and variety.

A label stands in its plot between the plants where there is room, else above or below the bed with a leader that
crosses no other plot, else in its plot over the plants.  Where none of that goes the plot has its letter alone, and
the name is printed below the drawing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

import numpy as np
import shapely

from planner.sheets import fonts

#: Size of the labels. [points]
LABEL_SIZE = 8.0
#: Height of a line of a label, and of one level of labels above or below the bed. [mm]
LINE, LEVEL = 3.5, 4.9
#: Room for the mark of the crop's plants before the letter, and on both sides of the words. [mm]
MARK_ROOM, PAD = 4.2, 0.9
#: Gap between two boxes, and between a box and the leader of another. [mm]
_GAP = 0.8
#: Most levels of labels above or below.
_MOST_LEVELS = 8
#: Shares of a plot's length at which a leader may end, the best first.
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
#: How far inside its plot a leader ends. [mm]
_INSIDE = 1.3
#: A plot of which less is drawn has no label. [mm2]
_LEAST_SEEN = 0.05
#: Plots beyond these have their letters alone.
_MOST_NAMED = 40
#: More stations are not looked at one by one: the label then stands outside.
_MOST_LOOKED_AT = 20_000

Side = Literal["inside", "above", "below"]


@dataclass(frozen=True)
class PlotToLabel:
    """A plot that gets a label, on the page: from the drawing's left and the bed's lower edge. [mm]

    Attributes
    ----------
    letter, name : str
    seen : shapely.Geometry
        The part of the plot that is drawn.
    stations : numpy.ndarray
        Places of its plants and of those of others (n, 2).
    radius : float
        Of a plant's mark.
    days : str
        When it is there, on a line of its own; empty where the drawing's days say so.
    growth_form : str
        Chooses the mark beside the letter.
    """

    letter: str
    name: str
    seen: shapely.Geometry
    stations: np.ndarray = field(default_factory=lambda: np.empty((0, 2)))
    radius: float = 1.0
    days: str = ""
    growth_form: str = "bush"

    @property
    def text(self) -> str:
        """Letter and name."""
        return f"{self.letter}  {self.name}" if self.name else self.letter


class Room(NamedTuple):
    """Ends of the room for boxes, and height of the bed, on the page. [mm]"""

    left: float
    right: float
    height: float


@dataclass(frozen=True)
class Label:
    """A label in its place. [mm]

    Attributes
    ----------
    plot : PlotToLabel
    side : str
        ``inside``, ``above`` or ``below`` the bed.
    left, width : float
        Of its box.
    low : float
        Lower edge of a box inside; of others see ``level``.
    level : int
        Row of labels above or below, from 0 next to the bed.
    foot, target : float
        Of the leader: its place along the bed, and the height at which it ends in the plot.
    alone : bool
        Only the letter is printed.
    """

    plot: PlotToLabel
    side: Side
    left: float
    width: float
    low: float = 0.0
    level: int = 0
    foot: float = 0.0
    target: float = 0.0
    alone: bool = False

    @property
    def right(self) -> float:
        """Right edge of its box."""
        return self.left + self.width


def label_width(plot: PlotToLabel) -> float:
    """Width of a label's box. [mm]"""
    words = fonts.width(plot.text, LABEL_SIZE, "bold")
    return max(words + MARK_ROOM, fonts.width(plot.days, LABEL_SIZE)) + 2 * PAD


def label_height(plot: PlotToLabel) -> float:
    """Height of a label's box. [mm]"""
    return LINE * (2 if plot.days else 1) + 0.6


def place_labels(plots: Sequence[PlotToLabel], room: Room) -> tuple[Label, ...]:
    """Find places for labels: no two overlap, and no leader crosses another plot or another label.

    Parameters
    ----------
    plots : sequence of PlotToLabel
        Those of which nothing is seen get no label.
    room : Room
    """
    seen = [plot for plot in plots if not plot.seen.is_empty and plot.seen.area >= _LEAST_SEEN]
    placed: list[Label] = []
    bounds = shapely.bounds([plot.seen for plot in seen]) if seen else np.empty((0, 4))
    for number, plot in enumerate(seen):
        if number >= _MOST_NAMED:
            placed.append(_letter_alone(plot, placed))
            continue
        label = _between_plants(plot, placed)
        if label is None:
            above_or_below = (bounds[:, 0] < bounds[number, 2]) & (bounds[:, 2] > bounds[number, 0])
            above_or_below[number] = False
            others = shapely.union_all([seen[k].seen for k in np.flatnonzero(above_or_below)])
            label = _outside(plot, others, room, placed)
        placed.append(label or _over_plants(plot, placed) or _letter_alone(plot, placed))
    return tuple(placed)


# -- inside ---------------------------------------------------------------------------------------


def _places_inside(plot: PlotToLabel, width: float, height: float) -> Iterable[tuple[float, float]]:
    """Lower left corners at which a box lies in the plot, the middle ones first."""
    left, low, right, high = (float(v) for v in shapely.bounds(plot.seen))
    if right - left < width + 0.4 or high - low < height + 0.4:
        return []
    xs = left + 0.2 + (right - left - width - 0.4) * np.array([0.5, 0.25, 0.75, 0.02, 0.98])
    steps = max(2, min(24, int((high - low - height) / 1.2) + 1))
    ys = np.linspace(low + 0.2, high - height - 0.2, steps)
    ys = ys[np.argsort(np.abs(ys + height / 2 - (low + high) / 2), kind="stable")]
    corners = np.array([(x, y) for y in ys for x in xs])
    boxes = shapely.box(corners[:, 0], corners[:, 1], corners[:, 0] + width, corners[:, 1] + height)
    inner = shapely.buffer(plot.seen, 0.05, join_style="mitre")
    shapely.prepare(inner)
    held = shapely.contains(inner, boxes)
    return [tuple(corner) for corner in corners[held].tolist()]


def _clear(corner: tuple[float, float], width: float, height: float, placed: Sequence[Label]) -> bool:
    """Whether a box inside meets no box that is there."""
    x, y = corner
    for label in placed:
        if label.side != "inside":
            if y < label.target < y + height and x - _GAP < label.foot < x + width + _GAP:
                return False
            continue
        high = label.low + label_height(label.plot)
        apart = x > label.right + _GAP or x + width < label.left - _GAP
        if not (apart or y > high + _GAP or y + height < label.low - _GAP):
            return False
    return True


def _between_plants(plot: PlotToLabel, placed: Sequence[Label]) -> Label | None:
    if len(plot.stations) > _MOST_LOOKED_AT:
        return None
    width, height = label_width(plot), label_height(plot)
    corners = list(_places_inside(plot, width, height))
    if not corners:
        return None
    reach = plot.radius
    left, low, right, high = shapely.bounds(plot.seen)
    x, y = plot.stations[:, 0], plot.stations[:, 1]
    near = (x > left - reach) & (x < right + reach) & (y > low - reach) & (y < high + reach)
    x, y = x[near], y[near]
    height_of = None
    for corner in corners:
        if corner[1] != height_of:
            height_of = corner[1]
            level = x[(y > height_of - reach) & (y < height_of + height + reach)]
        hit = (level > corner[0] - reach) & (level < corner[0] + width + reach)
        if not hit.any() and _clear(corner, width, height, placed):
            return Label(plot, "inside", corner[0], width, corner[1])
    return None


def _over_plants(plot: PlotToLabel, placed: Sequence[Label]) -> Label | None:
    width, height = label_width(plot), label_height(plot)
    for corner in _places_inside(plot, width, height):
        if _clear(corner, width, height, placed):
            return Label(plot, "inside", corner[0], width, corner[1])
    return None


def _letter_alone(plot: PlotToLabel, placed: Sequence[Label]) -> Label:
    """The letter where there is room for it, or else at the plot's middle."""
    width, height = fonts.width(plot.letter, LABEL_SIZE, "bold") + 2 * PAD, LINE + 0.6
    for corner in _places_inside(plot, width, height):
        if _clear(corner, width, height, placed):
            return Label(plot, "inside", corner[0], width, corner[1], alone=True)
    middle = shapely.point_on_surface(plot.seen)
    return Label(plot, "inside", middle.x - width / 2, width, middle.y - height / 2, alone=True)


# -- outside --------------------------------------------------------------------------------------


def _outside(
    plot: PlotToLabel, others: shapely.Geometry, room: Room, placed: Sequence[Label]
) -> Label | None:
    """A label above the bed or else below it, as near as it gets."""
    width = label_width(plot)
    if width > room.right - room.left:
        return None
    foreign = shapely.difference(others, plot.seen)
    feet: dict[Side, list[tuple[float, float]]] = {}
    sides: tuple[Side, ...] = ("above", "below")
    for level in range(_MOST_LEVELS):
        for side in sides:
            if side not in feet:
                feet[side] = _feet(plot, foreign, room, side)
            for foot, target in feet[side]:
                for share in (0.5, 0.08, 0.92, 0.3, 0.7):
                    left = min(max(foot - share * width, room.left), room.right - width)
                    label = Label(plot, side, left, width, 0.0, level, foot, target)
                    if label.left < foot < label.right and not any(_collides(label, one) for one in placed):
                        return label
    return None


def _feet(plot: PlotToLabel, foreign: shapely.Geometry, room: Room, side: Side) -> list[tuple[float, float]]:
    """Places of leaders that come upright from outside and cross no other plot, each with the height of its end."""
    left, low, right, high = (float(v) for v in shapely.bounds(plot.seen))
    xs = left + np.array(_SHARES) * (right - left)
    cuts = shapely.intersection(
        plot.seen, _upright(xs, np.full_like(xs, low - 1), np.full_like(xs, high + 1))
    )
    kept, targets = [], []
    for x, cut in zip(xs.tolist(), cuts, strict=True):
        if cut.is_empty:
            continue
        ends = shapely.bounds(shapely.get_parts(cut)).reshape(-1, 4)
        bottom, top = ends[np.argmax(ends[:, 3]) if side == "above" else np.argmin(ends[:, 1])][[1, 3]]
        inside = min(_INSIDE, (top - bottom) / 2)
        kept.append(x)
        targets.append(float(top - inside if side == "above" else bottom + inside))
    if not kept:
        return []
    outer = np.full(len(kept), room.height + 0.1 if side == "above" else -0.1)
    leaders = _upright(np.array(kept), np.array(targets), outer)
    free = shapely.length(shapely.intersection(leaders, foreign)) < 1e-6
    return [place for place, ok in zip(zip(kept, targets, strict=True), free.tolist(), strict=True) if ok]


def _upright(x: np.ndarray, low: np.ndarray, high: np.ndarray) -> np.ndarray:
    """Upright lines at places, from heights to heights. [mm]"""
    ends = np.stack([np.column_stack([x, low]), np.column_stack([x, high])], axis=1)
    lines: np.ndarray = shapely.linestrings(ends)
    return lines


def _collides(one: Label, other: Label) -> bool:
    """Whether two boxes outside overlap, or the leader of one runs through the other's box."""
    if other.side == "inside":
        high = other.low + label_height(other.plot)
        inside = other.left - _GAP < one.foot < other.right + _GAP
        past = one.target < high if one.side == "above" else one.target > other.low
        return inside and past
    if other.side != one.side:
        return False
    apart = max(one.left, other.left) - min(one.right, other.right)
    if one.level == other.level:
        return apart < _GAP
    lower, upper = (one, other) if one.level < other.level else (other, one)
    return lower.left - _GAP < upper.foot < lower.right + _GAP
