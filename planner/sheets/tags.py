"""Tags above a drawing: the letters of its plots, each with a leader down to its plot."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import shapely

from planner.sheets import fonts
from planner.sheets.family_inks import Rgb

#: Size of a tag's letters. [points]
TAG_SIZE = 7.0
#: Height of a tag's box. [mm]
TAG_HEIGHT = 4.4
#: Shares of a plot's length at which its leader may come down, the best first.
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.03, 0.97)
#: Most rows of tags above each other.
_MOST_LEVELS = 12
#: A plot of which less is drawn gets no tag. [m2]
_LEAST_SEEN = 1e-6
#: Gap between two boxes of one level, and of a box from the leader of another. [mm]
_BOX_GAP, _LEADER_GAP = 0.8, 0.6
#: How far inside its plot a leader ends. [mm]
_INSIDE = 1.3


@dataclass(frozen=True)
class TaggedPlot:
    """A plot that gets a tag.

    Attributes
    ----------
    letter : str
        Its letter on the sheet.
    name : str
        The crop's name, printed with the letter where there is room.
    rgb : tuple of float
        Ink of the tag's box.
    seen : shapely.Geometry
        The part of the plot that is drawn, in the frame. [m]
    """

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
        Of the box's middle. [mm on the page]
    foot : float
        Of the leader's end: below the middle, or beside it where tags are crowded. [mm on the page]
    level : int
        Row of tags, from 0 next to the bed.
    target : float
        Height of the leader's end above the bed's lower edge. [m]
    """

    text: str
    rgb: Rgb
    x: float
    foot: float
    level: int
    target: float

    @property
    def width(self) -> float:
        """Width of its box. [mm]"""
        return tag_width(self.text)


def tag_width(text: str) -> float:
    """Width of a tag's box. [mm]"""
    return max(TAG_HEIGHT, fonts.width(text, TAG_SIZE, "bold") + 2.4)


@dataclass(frozen=True)
class TagRoom:
    """The room above a drawing.

    Attributes
    ----------
    to_page : callable
        Page millimetres of a distance along the bed in metres.
    scale : float
        Paper for a metre of ground. [mm]
    left, right : float
        Ends of the room. [mm on the page]
    """

    to_page: Callable[[float], float]
    scale: float
    left: float
    right: float

    def holds(self, x: float, width: float) -> bool:
        """Whether a box lies in the room.

        Parameters
        ----------
        x : float
            Middle of the box. [mm on the page]
        width : float
            [mm]
        """
        return self.left <= x - width / 2 and x + width / 2 <= self.right


def place_tags(plots: Sequence[TaggedPlot], room: TagRoom) -> tuple[Tag, ...]:
    """Find places for the tags of plots.

    No two boxes overlap, and no upright leader runs through a box.  Each plot of which something is
    seen has its letter.

    Parameters
    ----------
    plots : sequence of TaggedPlot
        Those of which nothing is seen get no tag.
    room : TagRoom
    """
    placed: list[Tag] = []
    for plot in plots:
        if plot.seen.is_empty or plot.seen.area < _LEAST_SEEN:
            continue
        left, _, right, _ = (float(v) for v in shapely.bounds(plot.seen))
        named = f"{plot.letter} · {plot.name}"
        options = [named, plot.letter] if tag_width(named) <= (right - left) * room.scale else [plot.letter]
        tag = None
        for text in options:
            tag = _upright_tag(plot, text, (left, right), room, placed)
            if tag is not None and tag.level == 0:
                break
        placed.append(tag or _slanting_tag(plot, (left + right) / 2, room, placed))
    return tuple(placed)


def _upright_tag(
    plot: TaggedPlot, text: str, extent: tuple[float, float], room: TagRoom, placed: Sequence[Tag]
) -> Tag | None:
    """A tag straight above its plot, as low as it gets; None where there is no room for one."""
    left, right = extent
    width = tag_width(text)
    for level in range(_MOST_LEVELS):
        for share in _SHARES:
            along = left + share * (right - left)
            x = room.to_page(along)
            if room.holds(x, width) and not any(_collides(tag, x, width, level) for tag in placed):
                return Tag(text, plot.rgb, x, x, level, _target(plot.seen, along, room.scale))
    return None


def _slanting_tag(plot: TaggedPlot, along: float, room: TagRoom, placed: Sequence[Tag]) -> Tag:
    """A letter as near as it gets, with a slanting leader."""
    foot, width = room.to_page(along), tag_width(plot.letter)
    target = _target(plot.seen, along, room.scale)
    steps = range(int(room.right - room.left))
    for level in range(_MOST_LEVELS):
        for x in (foot + side * step for step in steps for side in (1.0, -1.0)):
            if room.holds(x, width) and not any(_collides(tag, x, width, level) for tag in placed):
                return Tag(plot.letter, plot.rgb, x, foot, level, target)
    return Tag(plot.letter, plot.rgb, foot, foot, _MOST_LEVELS, target)


def _collides(tag: Tag, x: float, width: float, level: int) -> bool:
    """Whether a box at a place overlaps a tag, or one's upright leader runs through the other's box."""
    apart = abs(tag.x - x)
    if tag.level == level:
        return apart < (tag.width + width) / 2 + _BOX_GAP
    lower_box = tag.width if tag.level < level else width  # past which the leader of the upper one runs
    return apart < lower_box / 2 + _LEADER_GAP


def _target(seen: shapely.Geometry, along: float, scale: float) -> float:
    """Height in the frame at which a leader ends: a little inside the plot's upper side. [m]"""
    _, low, _, high = (float(v) for v in shapely.bounds(seen))
    cut = shapely.intersection(seen, shapely.LineString([(along, low - 1), (along, high + 1)]))
    if cut.is_empty:
        return high
    upper = max(shapely.get_parts(cut), key=lambda piece: shapely.bounds(piece)[3])
    _, bottom, _, top = (float(v) for v in shapely.bounds(upper))
    return top - min(_INSIDE / scale, (top - bottom) / 2)
