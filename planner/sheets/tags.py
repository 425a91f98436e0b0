"""Letters above a drawing that point at its plots."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import shapely

from planner.sheets import fonts
from planner.sheets.inkbox import Rgb

TAG_SIZE, TAG_HEIGHT = 7.0, 4.4
#: Where along a plot its leader may come down, as shares of its length, the best first.
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.03, 0.97)
_MOST_LEVELS = 12


@dataclass(frozen=True)
class Tagged:
    """A plot that wants a tag: what is seen of it, in the frame."""

    letter: str
    name: str
    rgb: Rgb
    seen: shapely.Geometry


@dataclass(frozen=True)
class Tag:
    """A tag in its place.

    Attributes
    ----------
    text : str
        The letter, with the crop's name where there is room.
    x : float
        Of its middle. [mm on the page]
    foot : float
        Where its leader ends: below its middle, or beside where the ground is crowded. [mm]
    level : int
        Row of tags, from 0 next to the bed.
    target : float
        Where its leader ends, from the bed's lower edge. [m]
    """

    text: str
    rgb: Rgb
    x: float
    foot: float
    level: int
    target: float

    @property
    def wide(self) -> float:
        """Width of its box. [mm]"""
        return tag_width(self.text)


def tag_width(text: str) -> float:
    """Width of a tag's box. [mm]"""
    return max(TAG_HEIGHT, fonts.width(text, TAG_SIZE, "bold") + 2.4)


def place_tags(
    plots: Sequence[Tagged], to_page: Callable[[float], float], scale: float, edges: tuple[float, float]
) -> tuple[Tag, ...]:
    """Places for the tags of some plots.

    No two boxes overlap, and no upright leader runs through a box.  Each plot of which something is
    seen has its letter.

    Parameters
    ----------
    plots : sequence of Tagged
        Those of which nothing is seen get none.
    to_page : callable
        Page millimetres of a distance along the bed.
    scale : float
        Millimetres on paper for a metre.
    edges : tuple of float
        Left and right end of the room. [mm]
    """
    placed: list[Tag] = []
    for plot in plots:
        if plot.seen.is_empty or plot.seen.area < 1e-6:
            continue
        left, _, right, _ = (float(v) for v in shapely.bounds(plot.seen))
        named = f"{plot.letter} · {plot.name}"
        options = [named, plot.letter] if tag_width(named) <= (right - left) * scale else [plot.letter]
        tag = None
        for text in options:
            tag = _free_tag(plot, text, (left, right), (to_page, scale, edges), placed)
            if tag is not None and tag.level == 0:
                break
        placed.append(tag or _beside(plot, (left + right) / 2, (to_page, scale, edges), placed))
    return tuple(placed)


def _free_tag(
    plot: Tagged,
    text: str,
    span: tuple[float, float],
    page: tuple[Callable[[float], float], float, tuple[float, float]],
    placed: Sequence[Tag],
) -> Tag | None:
    to_page, scale, (lowest, highest) = page
    left, right = span
    wide = tag_width(text)
    for level in range(_MOST_LEVELS):
        for share in _SHARES:
            along = left + share * (right - left)
            x = to_page(along)
            if x - wide / 2 < lowest or x + wide / 2 > highest:
                continue
            if not any(_collides(tag, x, wide, level) for tag in placed):
                return Tag(text, plot.rgb, x, x, level, _target(plot.seen, along, scale))
    return None


def _beside(
    plot: Tagged,
    along: float,
    page: tuple[Callable[[float], float], float, tuple[float, float]],
    placed: Sequence[Tag],
) -> Tag:
    """A letter as near as it gets, with a slanting leader."""
    to_page, scale, (lowest, highest) = page
    foot, wide = to_page(along), tag_width(plot.letter)
    target = _target(plot.seen, along, scale)
    steps = range(int(highest - lowest))
    for level in range(_MOST_LEVELS):
        for x in (foot + side * step for step in steps for side in (1.0, -1.0)):
            inside = lowest <= x - wide / 2 and x + wide / 2 <= highest
            if inside and not any(_collides(tag, x, wide, level) for tag in placed):
                return Tag(plot.letter, plot.rgb, x, foot, level, target)
    return Tag(plot.letter, plot.rgb, foot, foot, _MOST_LEVELS, target)


def _collides(tag: Tag, x: float, wide: float, level: int) -> bool:
    """Whether a box at a place overlaps a tag, or one's upright leader runs through the other's box."""
    apart = abs(tag.x - x)
    if tag.level == level:
        return apart < (tag.wide + wide) / 2 + 0.8
    lower_box = tag.wide if tag.level < level else wide  # the other's leader passes beside it
    return apart < lower_box / 2 + 0.6


def _target(seen: shapely.Geometry, along: float, scale: float) -> float:
    """Height in the frame at which a leader ends: a little inside the plot's upper side."""
    _, low, _, high = (float(v) for v in shapely.bounds(seen))
    cut = shapely.intersection(seen, shapely.LineString([(along, low - 1), (along, high + 1)]))
    if cut.is_empty:
        return high
    upper = max(shapely.get_parts(cut), key=lambda piece: shapely.bounds(piece)[3])
    _, bottom, _, top = (float(v) for v in shapely.bounds(upper))
    return top - min(1.3 / scale, (top - bottom) / 2)
