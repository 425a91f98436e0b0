"""Plans of several days of a year side by side, all at one scale, with one key."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from planner.listings.nothing_to_draw import NothingToDrawError
from planner.listings.phrases import season
from planner.plan import Plan
from planner.sheets import fonts
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.page_chrome import north_arrow, paper_named
from planner.sheets.pen import FAINT, INK, PENCIL, WHITE
from planner.sheets.plan_drawing import PlanDrawing
from planner.sheets.plan_key import KEY_SIZE, Key
from planner.sheets.plan_labels import PlanNames
from planner.sheets.plan_page import bar_words, line_words
from planner.sheets.plan_picture import PlanPicture, plan_picture
from planner.sheets.scale import bar_length, close_scale, on_paper, scale_words
from planner.words import full_day_words, join_list, later, say

#: Days of the four drawings north of the equator, by month and day (practice), and what they are called.
_SEASONS: dict[tuple[int, int], str] = {
    (4, 20): later("Spring"),
    (6, 20): later("Early summer"),
    (8, 25): later("Late summer"),
    (12, 15): later("Winter"),
}
#: So many days are drawn at the most.
MOST_DAYS = 6
#: Margin of the page, heights of its head, of the lines of the scale and of a drawing's head, gap between drawings, room
#: between a drawing's frame and the beds. [mm]
_MARGIN, _HEAD, _SCALE, _OVER, _GAP, _AROUND = 10.0, 13.0, 11.5, 6.0, 4.0, 2.5
#: Lines of the key for which room is kept at first.
_USUAL_KEY = 4
#: Gap above the key. [mm]
_OVER_KEY = 2.0
#: Most share of the page's height that the key takes, and most length of the scale bar. [0 to 1], [mm]
_MOST_KEY, _BAR_ROOM = 0.3, 50.0


@dataclass(frozen=True)
class StripDay:
    """A day that is drawn, and what it is called; a day that was asked for has no name."""

    day: dt.date
    name: str = ""

    @property
    def words(self) -> str:
        """Head of its drawing."""
        day = full_day_words(self.day)
        return say("{name}: {day}", name=self.name, day=day) if self.name else day


def four_days(plan: Plan) -> tuple[StripDay, ...]:
    """A day of spring, early summer, late summer and winter of the plan's growing year, in the order in which they come.

    Parameters
    ----------
    plan : Plan
        South of the equator they are half a year later.
    """
    southern, year = plan.garden.site.southern, plan.span
    found = []
    for key in _SEASONS:
        month, number = key
        month = (month + 5) % 12 + 1 if southern else month
        first = dt.date(year.first.year, month, number)
        day = first if year.holds(first) else first.replace(year=first.year + 1)
        found.append(StripDay(day, say(_SEASONS[key])))
    return tuple(sorted(found, key=lambda one: one.day))


@dataclass(frozen=True)
class StripPage:
    """A page with the plan on several days.

    Attributes
    ----------
    width, height : float
        [mm]
    title : str
    days : tuple of StripDay
    drawings : tuple of PlanDrawing
        One a day.
    key : Key
        Of all drawings.
    north : float
        Direction of north on the page. [degrees anticlockwise from right]
    scale_text, bar_text : str
    bar : float
        Length of the scale bar. [mm]
    """

    width: float
    height: float
    title: str
    days: tuple[StripDay, ...]
    drawings: tuple[PlanDrawing, ...]
    key: Key
    north: float
    scale_text: str
    bar_text: str
    bar: float

    @property
    def words(self) -> str:
        """What the page shows, for those who have it read aloud."""
        return say(
            "Plan of {title} on {days}. {scale}.",
            title=self.title,
            days=join_list(full_day_words(one.day) for one in self.days),
            scale=self.scale_text,
        )

    def draw(self, pen: DrawingPen) -> None:
        """Draw the page."""
        pen.box(0.0, 0.0, self.width, self.height, fill=WHITE, rgb=None)
        room = self.width - 2 * _MARGIN - 20.0
        size = fonts.fitted_size(self.title, room, 13.0, "bold", least=8.0)
        title = "".join(fonts.wrap(self.title, room, size, "bold")[:1])
        pen.text(_MARGIN, self.height - _MARGIN - 5.0, title, size, "bold")
        north_arrow(pen, self.width - _MARGIN - 8.0, self.height - _MARGIN - 4.5, self.north, 4.0)
        for one, drawing in zip(self.days, self.drawings, strict=True):
            left, low, right, high = drawing.frame
            words = one.words
            size = fonts.fitted_size(words, right - left, 10.0, "bold", least=7.0)
            pen.text(left, high + 1.6, words, size, "bold")
            drawing.draw(pen)
            pen.box(left, low, right - left, high - low, rgb=FAINT, weight=0.2)
        self.key.draw(pen, _MARGIN, _MARGIN + _SCALE)
        low, part = _MARGIN, self.bar / 4
        for k in range(4):
            pen.box(_MARGIN + k * part, low, part, 1.6, fill=(WHITE, INK)[k % 2], rgb=INK, weight=0.2)
        words = say("{length} · {scale}", length=self.bar_text, scale=self.scale_text)
        kinds = line_words([one.picture for one in self.drawings])
        if kinds:
            words = say("{scale}. {lines}", scale=words, lines=kinds)
        lines = fonts.wrap(words, self.width - 2 * _MARGIN - self.bar - 2.0, KEY_SIZE)
        for number, line in enumerate(reversed(lines)):
            pen.text(
                _MARGIN + self.bar + 2.0,
                low + number * fonts.line_height(KEY_SIZE),
                line,
                KEY_SIZE,
                rgb=PENCIL,
            )


def strip_page(plan: Plan, days: Sequence[StripDay], paper: str = "a4") -> StripPage:
    """Lay the plan out on several days, in the order and on the side of the paper that give the largest scale.

    Parameters
    ----------
    plan : Plan
    days : sequence of StripDay
        One to :data:`MOST_DAYS`.
    paper : str
        Name of a paper.

    Raises
    ------
    NothingToDrawError
        Where the garden has no bed, structure or outline in the year.
    """
    pictures = [plan_picture(plan, one.day) for one in days]
    if pictures[0].is_empty:
        raise NothingToDrawError.of(plan)
    sheet, site = paper_named(paper), plan.garden.site
    sides = (sheet.width, sheet.height), (sheet.height, sheet.width)
    tried = _largest(plan, pictures, sides)
    shape, key, scale = tried.shape, tried.key, tried.drawings[0].scale
    bar = bar_length(scale, site.units, _BAR_ROOM)
    return StripPage(
        shape.width,
        shape.height,
        say("{garden} through {season}", garden=site.name, season=season(site, plan.year)),
        tuple(days),
        tried.drawings,
        key if key.height <= shape.rows else key.cut(shape.rows),
        (90.0 + site.bearing_up) % 360.0,
        say("Scale {scale}", scale=scale_words(scale, site.units)),
        bar_words(bar, site.units),
        on_paper(bar, scale),
    )


@dataclass(frozen=True)
class _Shape:
    """A page and how the drawings stand on it: so many across and down, above a key of some rows. [mm]"""

    width: float
    height: float
    across: int
    down: int
    rows: int

    @property
    def frame(self) -> tuple[float, float]:
        """Width and height of a drawing's frame; below 0 where there is no room. [mm]"""
        key = self.rows * fonts.line_height(KEY_SIZE) + _OVER_KEY
        wide = self.width - 2 * _MARGIN - (self.across - 1) * _GAP
        high = self.height - 2 * _MARGIN - _HEAD - _SCALE - key - (self.down - 1) * _GAP
        return wide / self.across, high / self.down - _OVER

    def scale(self, picture: PlanPicture, plan: Plan) -> int:
        """The largest scale at which a picture fits a frame."""
        left, low, right, high = picture.bounds
        wide, tall = (max(side - 2 * _AROUND, 1.0) for side in self.frame)
        return close_scale(right - left, high - low, (wide, tall), plan.garden.site.units)

    def frames(self, count: int) -> list[tuple[float, float, float, float]]:
        """Left, low, right and high of each frame, row by row from the top. [mm]"""
        wide, tall = self.frame
        found = []
        for number in range(count):
            down, across = divmod(number, self.across)
            left = _MARGIN + across * (wide + _GAP)
            high = self.height - _MARGIN - _HEAD - _OVER - down * (tall + _OVER + _GAP)
            found.append((left, high - tall, left + wide, high))
        return found


class _Laid(NamedTuple):
    """Drawings on a page, and the key of all of them, which may be too long."""

    shape: _Shape
    drawings: tuple[PlanDrawing, ...]
    key: Key

    @property
    def most(self) -> int:
        """Most lines of the key."""
        return int(_MOST_KEY * self.shape.height / fonts.line_height(KEY_SIZE))


def _largest(plan: Plan, pictures: Sequence[PlanPicture], sides: Sequence[tuple[float, float]]) -> _Laid:
    """The drawings as large as they can be above their key, on the side of the paper and in the order that allow it."""
    count = len(pictures)
    shapes = sorted(
        (
            (
                _Shape(*side, across, math.ceil(count / across), 0)
                for side in sides
                for across in range(1, count + 1)
            )
        ),
        key=lambda one: (one.scale(pictures[0], plan), one.across * one.down),
    )
    best: _Laid | None = None
    for shape in shapes:
        # Without a key it would be as large as this at the most.
        if best is None or shape.scale(pictures[0], plan) < best.drawings[0].scale:
            laid = _above_key(plan, pictures, shape)
            if best is None or laid.drawings[0].scale < best.drawings[0].scale:
                best = laid
    assert best is not None
    return best


def _above_key(plan: Plan, pictures: Sequence[PlanPicture], shape: _Shape) -> _Laid:
    """The drawings on one shape of page, above a key that is as long as it has to be, or as it may be."""
    tried = _laid(plan, pictures, replace(shape, rows=_USUAL_KEY))
    while tried.key.height > tried.shape.rows < tried.most:
        tried = _laid(plan, pictures, replace(shape, rows=min(tried.key.height, tried.most)))
    if tried.key.height < tried.shape.rows:
        fewer = _laid(plan, pictures, replace(shape, rows=tried.key.height))
        if fewer.key.height <= fewer.shape.rows:
            return fewer
    return tried


def _laid(plan: Plan, pictures: Sequence[PlanPicture], shape: _Shape) -> _Laid:
    """The drawings as large as a shape of page allows."""
    drawings, names = _drawings(pictures, shape, shape.scale(pictures[0], plan))
    return _Laid(shape, drawings, Key.of(names, shape.width - 2 * _MARGIN))


def _drawings(
    pictures: Sequence[PlanPicture], shape: _Shape, scale: int
) -> tuple[tuple[PlanDrawing, ...], PlanNames]:
    """The drawings, and what the key of all of them lists: the same name has the same number on each."""
    found: list[PlanDrawing] = []
    numbers: dict[str, int] = {}
    unnamed: dict[str, list[str]] = {}
    for picture, frame in zip(pictures, shape.frames(len(pictures)), strict=True):
        drawing = PlanDrawing(picture, scale, frame, numbers)
        numbers = drawing.names.numbers
        for bed, names in drawing.names.unnamed.items():
            there = unnamed.setdefault(bed, [])
            there += [name for name in names if name not in there]
        found.append(drawing)
    return tuple(found), PlanNames(found[0].names.frame, numbers=numbers, unnamed=unnamed)
