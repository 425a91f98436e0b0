"""One page with a plan drawn on it: title, the drawing to scale, a key of what has no room for its name, scale, north."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

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
from planner.words import full_day_words, join_list, number_words, say

#: Margin of the page, height of its head and of the scale bar, and room between the frame and the beds. [mm]
_MARGIN, _HEAD, _BAR, _AROUND = 10.0, 16.0, 9.0, 6.0
#: Width kept for the north arrow, half its length, and most length of the scale bar. [mm]
_NORTH, _NORTH_REACH, _BAR_ROOM = 22.0, 5.0, 60.0
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
        pen.text(_MARGIN, top - 9.8, self.subtitle, size, rgb=PENCIL)
        at = (self.width - _MARGIN - _NORTH / 2, top - _HEAD / 2)
        north_arrow(pen, *at, self.north, _NORTH_REACH)
        self.key.draw(pen, _MARGIN, _MARGIN + _BAR, self.width - 2 * _MARGIN)
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
    low, high = (picture.bounds[2] - picture.bounds[0], picture.bounds[3] - picture.bounds[1])
    width, height = max(
        ((sides[0], sides[1]), (sides[1], sides[0])),
        key=lambda one: -choose_scale(low, high, _room(one[0], one[1], 0), site.units),
    )
    drawing, key = _fitted(picture, width, height, plan)
    bar = bar_length(drawing.scale, site.units, _BAR_ROOM)
    return PlanPage(
        width,
        height,
        say("{garden}: {beds}", garden=site.name, beds=join_list(bed.name for bed in beds))
        if beds
        else site.name,
        _subtitle(day, moment, picture),
        drawing,
        key,
        (90.0 + site.bearing_up) % 360.0,
        say("Scale {scale}", scale=scale_words(drawing.scale, site.units)),
        _bar_words(bar, site.units),
        on_paper(bar, drawing.scale),
    )


def _bar_words(length: float, units: UnitSystem) -> str:
    """A round length: ``5 m``, ``0.5 m``, ``20 ft``. [m]"""
    if units == "metric":
        return say("{length} m", length=number_words(length, 0 if length >= 1 else 1))
    return show_length(length, units)


def _subtitle(day: dt.date, moment: dt.datetime | None, picture: PlanPicture) -> str:
    if moment is None:
        return say("As it grows on {day}", day=full_day_words(day))
    hour = f"{moment:%H:%M}"
    if picture.shadows:
        return say("As it grows on {day}, with the shadows of {hour}", day=full_day_words(day), hour=hour)
    return say("As it grows on {day}; no direct sun at {hour}", day=full_day_words(day), hour=hour)


def _fitted(picture: PlanPicture, width: float, height: float, plan: Plan) -> tuple[PlanDrawing, Key]:
    """The drawing at the largest scale that leaves room for its key."""
    low, high = (picture.bounds[2] - picture.bounds[0], picture.bounds[3] - picture.bounds[1])
    most = int(_MOST_KEY * height / fonts.line_height(KEY_SIZE))
    rows = 0
    while True:
        room = _room(width, height, rows)
        scale = choose_scale(low, high, room, plan.garden.site.units)
        left, bottom = _MARGIN, _MARGIN + _BAR + rows * fonts.line_height(KEY_SIZE)
        drawing = PlanDrawing(picture, scale, (left, bottom, width - _MARGIN, height - _MARGIN - _HEAD))
        key = Key.of(drawing.names, width - 2 * _MARGIN)
        if key.height <= rows:
            return drawing, key
        if rows == most:
            return drawing, key.cut(most)
        rows = min(key.height, most)


def _room(width: float, height: float, rows: int) -> tuple[float, float]:
    """Width and height for the beds, beside a key of some rows. [mm]"""
    key = rows * fonts.line_height(KEY_SIZE)
    return width - 2 * (_MARGIN + _AROUND), height - 2 * (_MARGIN + _AROUND) - _HEAD - _BAR - key
