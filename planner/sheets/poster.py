"""The plan as a poster over several pages, in true scale: they overlap, and have marks by which they are cut and laid together."""

from __future__ import annotations

import datetime as dt
import math
import re
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import shapely

from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.listings.nothing_to_draw import NothingToDrawError
from planner.plan import Plan
from planner.sheets import fonts
from planner.sheets.page_chrome import Paper, check_line
from planner.sheets.pen import INK, PENCIL, WHITE, Pen
from planner.sheets.plan_key import KEY_SIZE
from planner.sheets.plan_page import PlanPage, fitting_page, least_size, page_at_scale
from planner.sheets.plan_picture import PlanPicture, plan_picture
from planner.sheets.scale import choose_scale, scale_words
from planner.sheets.tile_pen import TilePen
from planner.words import day_words, join_list, say, whole_words

#: Margins of a page of a poster: sides and top, and the foot with its line to check the printer. [mm]
_MARGIN, _FOOT = 10.0, 24.0
#: What neighbouring pages both show. [mm]
OVERLAP = 12.0
#: Most pages of a poster, and most on a side.
MOST_PAGES, _MOST_ON_A_SIDE = 80, 20
#: Length of the marks at the edges, half the size of a cross, and height of the key of pages. [mm]
_MARK, _CROSS, _JOIN = 5.0, 3.0, 13.0
#: Places of the crosses along an edge between two pages. [share of its length]
_CROSSES = (0.2, 0.8)
#: Least and largest number of a scale that is asked for.
_LEAST_SCALE, _MOST_SCALE = 5, 5000
_PAGES = re.compile(r"(\d{1,3})\s*[x×*]\s*(\d{1,3})", re.IGNORECASE)
_SCALE = re.compile(r"1\s*:\s*(\d{1,6})")


class PosterError(BedwrightError):
    """A poster that cannot be made."""


class PosterWish(NamedTuple):
    """How large a poster is wanted: so many pages across and down, or a scale of one to so many; the others are 0."""

    across: int = 0
    down: int = 0
    scale: int = 0


def poster_wish(text: str) -> PosterWish:
    """Read how large a poster is wanted: ``2x3`` pages across and down, or a scale as ``1:25``.

    Parameters
    ----------
    text : str

    Raises
    ------
    PosterError
        For anything else, and for more pages than a poster may have.
    """
    found = _SCALE.fullmatch(text.strip())
    if found is not None and _LEAST_SCALE <= int(found[1]) <= _MOST_SCALE:
        return PosterWish(scale=int(found[1]))
    pages = _PAGES.fullmatch(text.strip())
    if pages is not None:
        across, down = int(pages[1]), int(pages[2])
        if 0 < across <= _MOST_ON_A_SIDE and 0 < down <= _MOST_ON_A_SIDE and across * down <= MOST_PAGES:
            return PosterWish(across, down)
    raise PosterError(
        say("no poster can be made as '{text}'", text=text.strip()),
        fix=say(
            "Give its pages across and down, as 2x3, up to {pages} in all, or its scale from 1:{least} to 1:{most}",
            pages=MOST_PAGES,
            least=_LEAST_SCALE,
            most=_MOST_SCALE,
        ),
    )


@dataclass(frozen=True)
class Poster:
    """A poster.

    Attributes
    ----------
    paper : Paper
        Of each page, upright or across.
    across, down : int
        Pages.
    page : PlanPage
        The whole poster.
    printed : date
        Day of printing.
    units : {"metric", "feet_inches"}
    """

    paper: Paper
    across: int
    down: int
    page: PlanPage
    printed: dt.date
    units: UnitSystem

    @property
    def count(self) -> int:
        """Number of pages."""
        return self.across * self.down

    @cached_property
    def letters(self) -> tuple[str, ...]:
        """Letters of the pages, row by row from the top."""
        return tuple(_letter(number) for number in range(self.count))

    def window(self, number: int) -> tuple[float, float, float, float]:
        """Left, low, right and high of what a page shows, on the poster. [mm]

        Parameters
        ----------
        number : int
            Of the page, counted from 0.
        """
        wide, high = _tile(self.paper)
        down, across = divmod(number, self.across)
        left = across * (wide - OVERLAP)
        top = self.page.height - down * (high - OVERLAP)
        return left, top - high, left + wide, top

    def on_page(self, number: int, x: float, y: float) -> tuple[float, float]:
        """A place of the poster on one of its pages. [mm]"""
        left, low, _, _ = self.window(number)
        return x - left + _MARGIN, y - low + _FOOT

    def neighbours(self, number: int) -> dict[str, int]:
        """Pages at the left, right, top and bottom of a page, where there are."""
        down, across = divmod(number, self.across)
        found = {
            "left": (across > 0, number - 1),
            "right": (across < self.across - 1, number + 1),
            "top": (down > 0, number - self.across),
            "bottom": (down < self.down - 1, number + self.across),
        }
        return {side: other for side, (there, other) in found.items() if there}

    def crosses(self, number: int) -> list[tuple[float, float]]:
        """Places of the crosses on a page, on the poster: in the middle of what it shares with each neighbour. [mm]"""
        left, low, right, high = self.window(number)
        wide, tall, half = right - left, high - low, OVERLAP / 2
        at = {
            "left": [(left + half, low + share * tall) for share in _CROSSES],
            "right": [(right - half, low + share * tall) for share in _CROSSES],
            "top": [(left + share * wide, high - half) for share in _CROSSES],
            "bottom": [(left + share * wide, low + half) for share in _CROSSES],
        }
        return [place for side in self.neighbours(number) for place in at[side]]

    def draw(self, pen: Pen, number: int) -> None:
        """Draw a page: its part of the poster, the marks, and its foot.

        Parameters
        ----------
        pen : Pen
        number : int
            Counted from 0.
        """
        window = self.window(number)
        wide, high = _tile(self.paper)
        with pen.clipped(shapely.box(_MARGIN, _FOOT, _MARGIN + wide, _FOOT + high)):
            self.page.draw(TilePen(pen, window, (_MARGIN, _FOOT)))
            for place in self.crosses(number):
                x, y = self.on_page(number, *place)
                for dx, dy in ((_CROSS, 0.0), (0.0, _CROSS)):
                    pen.line(x - dx, y - dy, x + dx, y + dy, WHITE, 0.5)
                    pen.line(x - dx, y - dy, x + dx, y + dy, INK, 0.12)
        self._draw_edges(pen, number)
        self._draw_foot(pen, number)

    def _draw_edges(self, pen: Pen, number: int) -> None:
        """Solid marks where a page is cut, dashed ones where its neighbour's edge comes to lie, and the neighbours."""
        wide, high = _tile(self.paper)
        left, low, right, top = _MARGIN, _FOOT, _MARGIN + wide, _FOOT + high
        there = self.neighbours(number)
        cut: tuple[float, ...] = ()
        upright = [(left, cut)] if "left" in there else []
        upright += [(right - OVERLAP, (1.2, 0.8))] if "right" in there else []
        for x, dash in upright:
            pen.line(x, top + 1.0, x, top + 1.0 + _MARK, INK, 0.2, dash)
            pen.line(x, low - 1.0, x, low - 1.0 - _MARK, INK, 0.2, dash)
        level = [(top, cut)] if "top" in there else []
        level += [(low + OVERLAP, (1.2, 0.8))] if "bottom" in there else []
        for y, dash in level:
            pen.line(left - 1.0, y, left - 1.0 - _MARK, y, INK, 0.2, dash)
            pen.line(right + 1.0, y, right + 1.0 + _MARK, y, INK, 0.2, dash)
        at = {
            "left": (left - 4.0, (low + top) / 2, 90.0),
            "right": (right + 6.5, (low + top) / 2, 90.0),
            "top": ((left + right) / 2, top + 3.0, 0.0),
            "bottom": ((left + right) / 2, low - 5.0, 0.0),
        }
        for side, other in there.items():
            x, y, turn = at[side]
            words = say("to {letter}", letter=self.letters[other])
            pen.text(x, y, words, 9.0, "bold", PENCIL, "middle", turn)

    def _draw_foot(self, pen: Pen, number: int) -> None:
        """The page's letter, how it is joined, the line to check the printer, and the key of all pages."""
        letter, foot = self.letters[number], 3.5
        pen.text(_MARGIN, foot + 0.5, letter, 26.0, "bold")
        left = _MARGIN + max(14.0, fonts.width(letter, 26.0, "bold") + 3.0)
        cell = min(5.0, _JOIN / self.down, 30.0 / self.across)
        key = self.paper.width - _MARGIN - cell * self.across
        room = key - left - 4.0
        words = say(
            "{garden} · page {letter} of {count} · {scale} · printed {day}",
            garden=self.page.title,
            letter=letter,
            count=self.count,
            scale=self.page.scale_text,
            day=day_words(self.printed),
        )
        lines = [*fonts.wrap(words, room, 8.0)[:1], *fonts.wrap(self._joining(number), room, 8.0)[:2]]
        check_line(pen, left, foot + 9.6, room)
        pen.lines(left, foot + 8.6, lines, 8.0)
        for other in range(self.count):
            down, across = divmod(other, self.across)
            x, y = key + across * cell, foot + _JOIN - (down + 1) * cell
            mine = other == number
            pen.box(x, y, cell, cell, fill=INK if mine else WHITE, rgb=PENCIL, weight=0.15)
            size = min(8.0, 0.62 * cell / fonts.POINT)
            if size >= 5.0:
                rgb = WHITE if mine else INK
                pen.text(x + cell / 2, y + 0.28 * cell, self.letters[other], size, "bold", rgb, "middle")

    def _joining(self, number: int) -> str:
        """What is cut and what it is laid on."""
        there = self.neighbours(number)
        onto = [self.letters[there[side]] for side in ("left", "top") if side in there]
        if not onto:
            return say("Others are laid on this page, up to its dashed marks; the crosses coincide.")
        return say(
            "Cut between the solid marks and lay it on {letters}, up to the dashed marks; the crosses coincide.",
            letters=join_list(onto),
        )


def make_poster(plan: Plan, day: dt.date, wish: PosterWish, paper: Paper, printed: dt.date) -> Poster:
    """Lay a plan out as a poster.

    Parameters
    ----------
    plan : Plan
    day : date
        Of what grows.
    wish : PosterWish
    paper : Paper
        Taken upright or across, whatever gives the larger scale or needs fewer pages.
    printed : date
        Day of printing.

    Raises
    ------
    NothingToDrawError
        Where the garden has no bed, structure or outline in the year.
    PosterError
        Where a scale takes more pages than a poster may have.
    """
    picture = plan_picture(plan, day)
    if picture.is_empty:
        raise NothingToDrawError.of(plan)
    units = plan.garden.site.units
    sides = [_sheet(paper, *sorted((paper.width, paper.height))[::step]) for step in (1, -1)]
    if not wish.scale:
        sheet = min(sides, key=lambda one: _rough_scale(picture, one, wish, units))
        page = fitting_page(plan, picture, day, *_whole(sheet, wish.across, wish.down))
        return Poster(sheet, wish.across, wish.down, page, printed, units)
    needed = least_size(picture, wish.scale)
    counts = [_pages_for(one, needed) for one in sides]
    sheet, (across, down) = min(zip(sides, counts, strict=True), key=lambda pair: pair[1][0] * pair[1][1])
    count = whole_words(across * down)
    if across * down > MOST_PAGES:
        raise PosterError(
            say(
                "at {scale} the poster takes {count} pages, and no more than {most} are made",
                scale=scale_words(wish.scale, units),
                count=count,
                most=MOST_PAGES,
            ),
            plan.garden.site.name,
            say("Take a smaller scale, or say how many pages it is to have, as 3x4"),
        )
    page = page_at_scale(plan, picture, day, wish.scale, *_whole(sheet, across, down))
    return Poster(sheet, across, down, page, printed, units)


def _sheet(paper: Paper, width: float, height: float) -> Paper:
    return Paper(paper.name, width, height)


def _tile(paper: Paper) -> tuple[float, float]:
    """Width and height of what a page shows of the poster. [mm]"""
    return paper.width - 2 * _MARGIN, paper.height - _MARGIN - _FOOT


def _whole(paper: Paper, across: int, down: int) -> tuple[float, float]:
    """Width and height of a poster of so many pages. [mm]"""
    wide, high = _tile(paper)
    return across * (wide - OVERLAP) + OVERLAP, down * (high - OVERLAP) + OVERLAP


def _rough_scale(picture: PlanPicture, paper: Paper, wish: PosterWish, units: UnitSystem) -> int:
    """The scale of a poster of so many pages, before its key is known."""
    around = least_size(picture, 10**9)
    room = tuple(
        side - least for side, least in zip(_whole(paper, wish.across, wish.down), around, strict=True)
    )
    left, low, right, high = picture.bounds
    return choose_scale(right - left, high - low, (room[0], room[1]), units)


def _pages_for(paper: Paper, needed: tuple[float, float]) -> tuple[int, int]:
    """Pages across and down that hold a poster of a size, with a line of its key. [mm]"""
    wide, high = _tile(paper)
    tall = needed[1] + fonts.line_height(KEY_SIZE)
    return (
        max(1, math.ceil((needed[0] - OVERLAP) / (wide - OVERLAP) - 1e-9)),
        max(1, math.ceil((tall - OVERLAP) / (high - OVERLAP) - 1e-9)),
    )


def _letter(number: int) -> str:
    """A, B … Z, AA, AB …"""
    found = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        found = chr(ord("A") + rest) + found
    return found
