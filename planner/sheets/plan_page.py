"""One page with a plan drawn on it: title, the drawing to scale, a key of what has no room for its name, scale, north."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.garden import Bed
from planner.garden.site import UnitSystem
from planner.garden.units import show_length
from planner.listings.nothing_to_draw import NothingToDrawError
from planner.plan import Plan
from planner.sheets import fonts
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.page_chrome import north_arrow, paper_named
from planner.sheets.pen import INK, PENCIL, WHITE
from planner.sheets.plan_drawing import PlanDrawing
from planner.sheets.plan_key import KEY_SIZE, Key
from planner.sheets.plan_picture import PlanPicture, plan_picture
from planner.sheets.scale import bar_length, choose_scale, on_paper, scale_words
from planner.words import full_day_words, join_list, key_words, number_words, say

#: Margin of the page, height of its head and of the scale bar, and room between the frame and the beds. [mm]
_MARGIN, _HEAD, _BAR, _AROUND = 10.0, 16.0, 9.0, 6.0
#: Width kept for the north arrow, half its length, and most length of the scale bar. [mm]
_NORTH, _NORTH_REACH, _BAR_ROOM = 22.0, 5.0, 60.0
#: Names and marks of a poster are so many times as large as those of a page, where there is room.
ENLARGED = 1.75
#: Of more plots than this some have no room for their names.
_MANY_PLOTS = 1000
#: Most share of the page's height that the key takes.
_MOST_KEY = 0.4


@dataclass(frozen=True)
class PlanPage:
    """A page with a plan.

    Attributes
    ----------
    width, height : float
        [mm]
    title, subtitle : str
    drawing : PlanDrawing
    key : Key
    north : float
        Direction of north on the page. [degrees anticlockwise from right]
    scale_text, bar_text : str
    bar : float
        Length of the scale bar. [mm]
    """

    width: float
    height: float
    title: str
    subtitle: str
    drawing: PlanDrawing
    key: Key
    north: float
    scale_text: str
    bar_text: str
    bar: float

    @property
    def words(self) -> str:
        """What the page shows, for those who have it read aloud."""
        return say(
            "Plan of {title}. {subtitle}. {scale}.",
            title=self.title,
            subtitle=self.subtitle,
            scale=self.scale_text,
        )

    def draw(self, pen: DrawingPen) -> None:
        """Draw the page."""
        pen.box(0.0, 0.0, self.width, self.height, fill=WHITE, rgb=None)
        self.drawing.draw(pen)
        room = self.width - 2 * _MARGIN - _NORTH
        top = self.height - _MARGIN
        size = fonts.fitted_size(self.title, room, 13.0, "bold", least=9.0)
        title = "".join(fonts.wrap(self.title, room, size, "bold")[:1])
        pen.text(_MARGIN, top - 4.6, title, size, "bold")
        size = fonts.fitted_size(self.subtitle, room, 9.0, least=8.0)
        for number, line in enumerate(fonts.wrap(self.subtitle, room, size)):
            pen.text(_MARGIN, top - 9.8 - number * fonts.line_height(size), line, size, rgb=PENCIL)
        at = (self.width - _MARGIN - _NORTH / 2, top - _HEAD / 2)
        north_arrow(pen, *at, self.north, _NORTH_REACH)
        self.key.draw(pen, _MARGIN, _MARGIN + _BAR)
        self._draw_bar(pen)

    def _draw_bar(self, pen: DrawingPen) -> None:
        """The scale bar in four parts, its length and the scale beside it."""
        low, part = _MARGIN + 1.0, self.bar / 4
        for k in range(4):
            pen.box(_MARGIN + k * part, low, part, 1.6, fill=(WHITE, INK)[k % 2], rgb=INK, weight=0.2)
        pen.text(_MARGIN, low + 2.6, "0", 8.0, rgb=PENCIL)
        pen.text(_MARGIN + self.bar, low + 2.6, self.bar_text, 8.0, rgb=PENCIL, align="middle")
        pen.text(_MARGIN + self.bar + 8.0, low, self.scale_text, 8.0, rgb=PENCIL)


def plan_page(
    plan: Plan,
    day: dt.date,
    moment: dt.datetime | None = None,
    beds: Sequence[Bed] | None = None,
    paper: str = "a4",
) -> PlanPage:
    """Lay a plan out on a page, upright or across, at the largest scale that fits.

    Parameters
    ----------
    plan : Plan
    day : date
        Of what grows.
    moment : datetime, optional
        For its shadows, by the place's clocks.
    beds : sequence of Bed, optional
        Only these and the ground about them; all by default.
    paper : str
        Name of a paper.

    Raises
    ------
    NothingToDrawError
        Where the garden has no bed, structure or outline in the year.
    BedwrightError
        For a moment where the garden has no place; for a paper that is not known.
    """
    picture = plan_picture(plan, day, moment, beds)
    site = plan.garden.site
    if picture.is_empty:
        raise NothingToDrawError.of(plan)
    sheet = paper_named(paper)
    sides = sorted((sheet.width, sheet.height))
    width, height = min(
        ((sides[0], sides[1]), (sides[1], sides[0])),
        key=lambda one: _whole_scale(picture, one[0], one[1], site.units),
    )
    drawing, key = _fitted(picture, width, height, plan)
    page = _page(plan, width, height, _subtitle(day, moment, picture), drawing, key)
    if beds:
        names = join_list(bed.name for bed in beds)
        page = replace(page, title=say("{garden}: {beds}", garden=site.name, beds=names))
    return page


def _page(plan: Plan, width: float, height: float, subtitle: str, drawing: PlanDrawing, key: Key) -> PlanPage:
    """A page about a drawing."""
    site = plan.garden.site
    bar = bar_length(drawing.scale, site.units, _BAR_ROOM)
    return PlanPage(
        width,
        height,
        site.name,
        subtitle,
        drawing,
        key,
        (90.0 + site.bearing_up) % 360.0,
        say("Scale {scale}", scale=scale_words(drawing.scale, site.units)),
        bar_words(bar, site.units),
        on_paper(bar, drawing.scale),
    )


def _extent(picture: PlanPicture) -> tuple[float, float]:
    """Width and height of what is drawn. [m]"""
    left, low, right, high = picture.bounds
    return right - left, high - low


def _whole_scale(picture: PlanPicture, width: float, height: float, units: UnitSystem) -> int:
    """The largest scale at which a picture fits a page, without a key."""
    return choose_scale(*_extent(picture), _room(width, height, 0), units)


def fitting_page(plan: Plan, picture: PlanPicture, day: dt.date, width: float, height: float) -> PlanPage:
    """Lay a plan out on a poster of any size, at the largest scale that fits.

    Parameters
    ----------
    plan : Plan
    picture : PlanPicture
        Not empty.
    day : date
        Of the picture.
    width, height : float
        Of the page. [mm]
    """
    drawing, key = _fitted(picture, width, height, plan, ENLARGED)
    return _page(plan, width, height, _subtitle(day, None, picture), drawing, key)


def least_size(picture: PlanPicture, scale: int) -> tuple[float, float]:
    """Width and height of the least page for a picture at a scale, without a key. [mm]

    Parameters
    ----------
    picture : PlanPicture
    scale : int
        One to so many.
    """
    wide, high = (on_paper(metres, scale) for metres in _extent(picture))
    none = _room(0.0, 0.0, 0)
    return wide - none[0], high - none[1]


def page_at_scale(
    plan: Plan, picture: PlanPicture, day: dt.date, scale: int, width: float, height: float
) -> PlanPage:
    """Lay a plan out on a poster at a given scale; its key has what room is left, at least a line.

    Parameters
    ----------
    plan : Plan
    picture : PlanPicture
    day : date
    scale : int
        One to so many.
    width, height : float
        Of the page, no less than :func:`least_size` and a line of the key. [mm]
    """
    line = fonts.line_height(KEY_SIZE)
    spare = max(1, int((height - least_size(picture, scale)[1]) / line + 1e-9))
    rows = 0
    while True:
        drawing = PlanDrawing(picture, scale, _frame(width, height, rows), enlarged=ENLARGED)
        key = Key.of(drawing.names, width - 2 * _MARGIN)
        if key.height <= rows or rows == spare:
            break
        rows = min(key.height, spare)
    shown = key if key.height <= rows else key.cut(rows)
    return _page(plan, width, height, _subtitle(day, None, picture), drawing, shown)


def bar_words(length: float, units: UnitSystem) -> str:
    """A round length: ``5 m``, ``0.5 m``, ``20 ft``. [m]"""
    if units == "metric":
        return say("{length} m", length=number_words(length, 0 if length >= 1 else 1))
    return show_length(length, units)


def _subtitle(day: dt.date, moment: dt.datetime | None, picture: PlanPicture) -> str:
    words = _when(day, moment, picture)
    lines = line_words([picture])
    return say("{when}. {lines}", when=words, lines=lines) if lines else words


def _when(day: dt.date, moment: dt.datetime | None, picture: PlanPicture) -> str:
    if moment is None:
        return say("As it grows on {day}", day=full_day_words(day))
    hour = f"{moment:%H:%M}"
    if picture.shadows:
        return say("As it grows on {day}, with the shadows of {hour}", day=full_day_words(day), hour=hour)
    return say("As it grows on {day}; no direct sun at {hour}", day=full_day_words(day), hour=hour)


def line_words(pictures: Sequence[PlanPicture]) -> str:
    """What the dashed and thick lines and the black marks of some pictures are; empty where there are none."""
    kinds = {cover.kind for picture in pictures for cover in picture.covers}
    covers = [key_words(kind) for kind in sorted(kinds - {"film"})]
    supports = [support for picture in pictures for support in picture.supports]
    along = [key_words(kind) for kind in sorted({one.kind for one in supports if one.lines})]
    alone = [key_words(kind) for kind in sorted({one.kind for one in supports if not one.lines})]
    words = [
        say("Dashed lines: {covers}", covers=join_list(covers)) if covers else "",
        say("Dotted lines: film") if "film" in kinds else "",
        say("Thick lines: {supports}", supports=join_list(along)) if along else "",
        say("Black marks: {supports}", supports=join_list(alone)) if alone else "",
    ]
    return ". ".join(word for word in words if word)


def _fitted(
    picture: PlanPicture, width: float, height: float, plan: Plan, enlarged: float = 1.0
) -> tuple[PlanDrawing, Key]:
    """The drawing at the largest scale that leaves room for its key."""
    most = int(_MOST_KEY * height / fonts.line_height(KEY_SIZE))
    # Of very many plots some have no room for their names: names are placed once, with a line of the key kept for that.
    rows = 1 if sum(len(bed.plots) for bed in picture.beds) > _MANY_PLOTS else 0
    while True:
        room = _room(width, height, rows)
        scale = choose_scale(*_extent(picture), room, plan.garden.site.units)
        drawing = PlanDrawing(picture, scale, _frame(width, height, rows), enlarged=enlarged)
        key = Key.of(drawing.names, width - 2 * _MARGIN)
        if key.height <= rows:
            return drawing, key
        if rows == most:
            return drawing, key.cut(most)
        rows = min(key.height, most)


def _frame(width: float, height: float, rows: int) -> tuple[float, float, float, float]:
    """Left, low, right and high of the drawing's frame, above a key of some rows. [mm]"""
    low = _MARGIN + _BAR + rows * fonts.line_height(KEY_SIZE)
    return _MARGIN, low, width - _MARGIN, height - _MARGIN - _HEAD


def _room(width: float, height: float, rows: int) -> tuple[float, float]:
    """Width and height for the beds, beside a key of some rows. [mm]"""
    key = rows * fonts.line_height(KEY_SIZE)
    return width - 2 * (_MARGIN + _AROUND), height - 2 * (_MARGIN + _AROUND) - _HEAD - _BAR - key
