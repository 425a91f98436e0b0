"""The year as a picture: beds down, weeks across, each planting a bar by its stages, frost as bands, the day of printing a line."""

from __future__ import annotations

import datetime as dt
import io
import math
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import BinaryIO, NamedTuple

import shapely

from planner.garden import Bed, Planting
from planner.garden.site import RISKS
from planner.listings.odds_line import assumption_line, odds_shown
from planner.listings.phrases import days_in_short
from planner.plan import Plan
from planner.season.frosts import day_within
from planner.season.lanes import lanes_of
from planner.season.lived.odds import spreads_of
from planner.sheets import fonts
from planner.sheets.family_inks import Ink, Rgb, family_ink
from planner.sheets.fonts import MM
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, paper_named
from planner.sheets.pen import FAINT, GROUND, INK, PENCIL, WHITE, Pen
from planner.sheets.short_names import shorter_crop_names
from planner.words import capital, say
from planner.words.dates import month_words

#: So many beds are on a page at the most.
MOST_BEDS = 40
#: Room for the names of beds; heights of the title, of months and weeks, and of the legend. [mm]
_NAMES, _TITLE, _HEADS, _LEGEND = 30.0, 8.0, 9.0, 6.0
#: A bar with its name, and the gaps between lanes and beds. [mm]
_LANE, _BETWEEN = 5.2, 0.8
#: Height of words, in a lane or across several. [mm]
_WORDS = 3.1
#: Height of the line of the odds above a bar, and least height of a lane with one. [mm]
_ODDS, _LEAST_WITH_ODDS = 1.0, 2.6
_SIZE, _BED_SIZE, _TITLE_SIZE = 8.0, 8.5, 14.0
#: Ink of the frost bands, of which one lies on the other the likelier frost is, its share, and ink of the day of printing.
_FROST: Rgb = (0.54, 0.66, 0.71)
_FROST_SHARE = 0.22
_TODAY: Rgb = (0.08, 0.39, 0.72)
#: The cold half of the year is drawn so long before the last and after the first frost. [days]
_COLD = 120
_DAY = dt.timedelta(days=1)


def write_year_sheet(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    paper: str = "a4",
    printed: dt.date | None = None,
) -> None:
    """Write the year as a picture as PDF, on pages of the paper laid across; up to forty beds are on one page.

    The same plan, day and paper give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    paper : {"a4", "a3", "letter"}
    printed : date, optional
        Day of printing; the present day by default. It is drawn as a line where the growing year holds it.

    Raises
    ------
    SheetError
        Where no bed is in use, or a path cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    sheet = paper_named(paper)
    if not plan.beds:
        raise SheetError(
            say("no bed is in use in {year}", year=plan.year), plan.garden.site.name, say("Draw a bed first")
        )
    across = replace(sheet, width=sheet.height, height=sheet.width, left=12.0)
    pages = year_pages(plan, across, printed or dt.date.today())
    stream = io.BytesIO()
    title = say("{garden}: year {year}", garden=plan.garden.site.name, year=plan.year)
    with new_canvas(stream, across, title) as canvas:
        pen = Pen(canvas)
        canvas.setPageSize((across.width * MM, across.height * MM))
        for number, page in enumerate(pages):
            page.draw(pen, number, len(pages))
            canvas.showPage()
    write_pdf(target, stream.getvalue())


def year_pages(plan: Plan, paper: Paper, printed: dt.date) -> list[YearPage]:
    """The pages of the year, each with about as many beds.

    Parameters
    ----------
    plan : Plan
    paper : Paper
        Laid across.
    printed : date
    """
    count = math.ceil(len(plan.beds) / MOST_BEDS)
    each = math.ceil(len(plan.beds) / count)
    rows = [_row_of(plan, bed) for bed in plan.beds]
    return [YearPage(plan, paper, printed, tuple(rows[k : k + each])) for k in range(0, len(rows), each)]


class _Row(NamedTuple):
    """A bed with its plantings, each in a lane, and the number of lanes."""

    bed: Bed
    plantings: tuple[tuple[Planting, int], ...]
    lanes: int


def _row_of(plan: Plan, bed: Bed) -> _Row:
    plantings = plan.in_bed(bed)
    lanes = lanes_of([(plan.span_of(one).first, plan.span_of(one).last) for one in plantings])
    return _Row(bed, tuple(zip(plantings, lanes, strict=True)), max(lanes, default=0) + 1)


class _Box(NamedTuple):
    """A rectangle on the page. [mm]"""

    left: float
    low: float
    right: float
    high: float

    def meets(self, other: _Box) -> bool:
        """Whether it shares ground with another."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.low < other.high
            and other.low < self.high
        )


@dataclass(frozen=True)
class YearPage:
    """A page of the year.

    Attributes
    ----------
    plan : Plan
    paper : Paper
        Laid across.
    printed : date
    rows : tuple of _Row
        Its beds, from above to below.
    """

    plan: Plan
    paper: Paper
    printed: dt.date
    rows: tuple[_Row, ...]

    # -- scale ------------------------------------------------------------------------------

    @property
    def foot(self) -> Foot:
        """Foot of the page."""
        words = say("{garden}, year {year}", garden=self.plan.garden.site.name, year=self.plan.year)
        return Foot.of(self.paper, words, self.printed, check=False)

    @property
    def left(self) -> float:
        """Where the first day begins. [mm]"""
        return self.paper.left + _NAMES

    @property
    def top(self) -> float:
        """Upper edge of the first bed. [mm]"""
        return self.paper.height - self.paper.top - _TITLE - _HEADS

    @property
    def lane(self) -> float:
        """Height of a lane: less than a name needs where there are many. [mm]"""
        low = self.paper.bottom + self.foot.height + _LEGEND
        lanes = sum(row.lanes for row in self.rows)
        return min(_LANE, (self.top - low - _BETWEEN * len(self.rows)) / lanes)

    def x_of(self, day: dt.date) -> float:
        """Where a day begins. [mm]"""
        span = self.plan.span
        width = self.paper.width - self.paper.right - self.left
        return self.left + (day - span.first).days / span.days * width

    def tops(self) -> Iterator[tuple[_Row, float, float]]:
        """The beds with their upper and lower edges. [mm]"""
        top = self.top
        for row in self.rows:
            low = top - row.lanes * self.lane - _BETWEEN
            yield row, top, low
            top = low

    # -- drawing ----------------------------------------------------------------------------

    def draw(self, pen: Pen, number: int, pages: int) -> None:
        """Draw the page.

        Parameters
        ----------
        pen : Pen
        number, pages : int
            Which page, counted from 0, and of how many.
        """
        paper = self.paper
        title = say("{garden}: year {year}", garden=self.plan.garden.site.name, year=self.plan.year)
        size = fonts.fitted_size(title, paper.room, _TITLE_SIZE, "bold")
        with pen.tagged("H1"):
            pen.text(paper.left, paper.height - paper.top - 5.0, title, size, "bold")
        low = min(low for _, _, low in self.tops())
        with pen.tagged("Figure", alt=self.words()):
            for row, top, under in self.tops():
                self._ground(pen, row, top, under)
            self._frost(pen, low)
            self._calendar(pen, low)
            for row, top, under in self.tops():
                self._bed(pen, row, top, under)
            assumed = assumption_line(self.plan) if self.spreads else ""
            if assumed:
                pen.text(
                    self.paper.width - self.paper.right,
                    paper.height - paper.top - 5.0,
                    assumed,
                    _SIZE,
                    align="right",
                )
            if self.plan.span.holds(self.printed):
                x = (self.x_of(self.printed) + self.x_of(self.printed + _DAY)) / 2
                pen.line(x, low, x, self.top + 0.4, _TODAY, 0.5)
            for row, top, under in self.tops():
                self._names(pen, row, top, under)
            self._legend(pen, low - 4.6)
        self.foot.draw(pen, number + 1, pages)

    def words(self) -> str:
        """What the picture shows, bed after bed."""
        plan = self.plan
        parts = []
        for row in self.rows:
            names = [
                f"{plan.catalogue.name_of(one.crop)} {days_in_short(plan.span_of(one).first, plan.span_of(one).last)}"
                for one, _ in row.plantings
            ]
            parts.append(f"{row.bed.name}: {'; '.join(names) or say('bare')}")
        return ". ".join(parts)

    def _frost(self, pen: Pen, low: float) -> None:
        """Bands from where frost is possible to where it is likely."""
        for left, right in _frost_bands(self.plan):
            band = shapely.box(self.x_of(left), low, self.x_of(right), self.top + _HEADS - 4.8)
            pen.shape(band, fill=_FROST, opacity=_FROST_SHARE)

    def _ground(self, pen: Pen, row: _Row, top: float, low: float) -> None:
        pen.line(self.paper.left, low, self.paper.width - self.paper.right, low, FAINT, 0.15)
        if not row.plantings:
            return
        for first, last in _planted(self.plan, row):
            x, end = self.x_of(first), self.x_of(last + _DAY)
            pen.box(x, low + 0.2, end - x, top - low - 0.4, fill=GROUND, rgb=None)

    def _calendar(self, pen: Pen, low: float) -> None:
        """Months with their names, and weeks with their numbers."""
        span, top = self.plan.span, self.top
        day = span.first - _DAY * span.first.weekday()
        week = self.x_of(span.first + _DAY * 7) - self.x_of(span.first)
        each = 1 if week > fonts.width("00", _SIZE) + 0.6 else 2
        lines = []
        while day <= span.last:
            x = self.x_of(max(day, span.first))
            lines.append((x, low, x, top))
            end = self.x_of(min(day + _DAY * 7, span.last + _DAY))
            number = day.isocalendar().week
            if number % each == 0 and end - x > fonts.width(str(number), _SIZE):
                pen.text((x + end) / 2, top + 0.9, str(number), _SIZE, rgb=PENCIL, align="middle")
            day += _DAY * 7
        pen.segments(lines, FAINT, 0.08)
        day = span.first
        while day <= span.last:
            x = self.x_of(day)
            pen.line(x, low, x, top + _HEADS - 1.0, PENCIL, 0.2)
            pen.text(x + 1.0, top + _HEADS - 4.2, month_words(day.month, short=True), _SIZE, "bold")
            day = (day.replace(day=1) + _DAY * 32).replace(day=1)
        pen.text(self.paper.left, top + 0.9, say("Week"), _SIZE, rgb=PENCIL)

    def _bed(self, pen: Pen, row: _Row, top: float, low: float) -> None:
        size = fonts.fitted_size(row.bed.name, _NAMES - 2.0, _BED_SIZE, "bold", _SIZE)
        name = _cut(row.bed.name, _NAMES - 2.0, size)
        pen.bookmark(row.bed.name, top)
        pen.text(self.paper.left, (top + low) / 2 - 0.34 * size * fonts.POINT, name, size, "bold")
        for planting, lane in row.plantings:
            self._bar(pen, planting, top - _BETWEEN / 2 - lane * self.lane)

    def _names(self, pen: Pen, row: _Row, top: float, low: float) -> None:
        """The names of a bed's plantings, those with the fewest days first: the others have more room."""
        taken: list[_Box] = []
        for planting, lane in sorted(row.plantings, key=lambda one: self._length(one[0])):
            self._name(pen, planting, top - _BETWEEN / 2 - lane * self.lane, (low, top), taken)

    def _length(self, planting: Planting) -> float:
        box = self._days(planting)
        return box[1] - box[0] if box is not None else 0.0

    def _days(self, planting: Planting) -> tuple[float, float] | None:
        """Where the days of a planting on its plot are. [mm]"""
        return self._stretch(self.plan.span_of(planting).first, self.plan.span_of(planting).last)

    def _stretch(self, first: dt.date, last: dt.date) -> tuple[float, float] | None:
        year = self.plan.span
        if last < year.first or first > year.last:
            return None
        left = self.x_of(max(first, year.first))
        return left, max(self.x_of(min(last, year.last) + _DAY), left + 0.6)

    def _bar(self, pen: Pen, planting: Planting, top: float) -> None:
        """The bar of a planting, hatched while it grows, solid while it is picked, a dashed frame while it is raised."""
        height, ink = self.lane - 0.3, self._ink(planting)
        if self.spreads:
            self._spreads(pen, planting, top)
            height -= _ODDS
            top -= _ODDS
        low, span = top - height, self.plan.span_of(planting)
        stages = self.plan.dates(planting).stages()
        for stage in stages:
            bench = self._stretch(stage.first, stage.last) if stage.name == "indoors" else None
            if bench is not None:
                box = shapely.box(bench[0], low + height * 0.25, bench[1], top - height * 0.25)
                pen.shape(box, rgb=ink.line_rgb, weight=0.18, dash=(0.8, 0.6))
        days = self._days(planting)
        if days is None:
            return
        whole = shapely.box(days[0], low, days[1], top)
        pen.box(days[0], low, days[1] - days[0], height, fill=ink.tint_rgb, rgb=None)
        pen.hatch(whole, ink.hatch, ink.tint_rgb, ink.line_rgb)
        for stage in stages:
            first, last = max(stage.first, span.first), min(stage.last, span.last)
            picked = self._stretch(first, last) if stage.name == "picking" and first <= last else None
            if picked is not None:
                pen.box(picked[0], low, picked[1] - picked[0], height, fill=ink.line_rgb, rgb=None)
        pen.box(days[0], low, days[1] - days[0], height, rgb=ink.line_rgb, weight=0.18)

    @cached_property
    def spreads(self) -> bool:
        """Whether the days of picking of the recorded years are drawn: where some are kept, and the lanes are high enough."""
        return self.plan.recorded is not None and self.lane >= _LEAST_WITH_ODDS

    def _spreads(self, pen: Pen, planting: Planting, top: float) -> None:
        """Between which days it is first and last picked in the recorded years, above its bar."""
        year = self.plan.span
        for spread, first in spreads_of(odds_shown(self.plan, planting)):
            if spread.nine_tenths < year.first or spread.tenth > year.last:
                continue
            middle = [self.x_of(min(max(day, year.first), year.last)) for day in spread]
            half = (self.x_of(year.first + _DAY) - self.x_of(year.first)) / 2
            low, quarter, centre, most, high = (x + half for x in middle)
            _draw_spread(pen, (low, quarter, centre, most, high), top - _ODDS / 2 + 0.1, first=first)

    def _name(
        self, pen: Pen, planting: Planting, top: float, row: tuple[float, float], taken: list[_Box]
    ) -> None:
        """The name of a planting on its bar, beside the names that are in the row already, as long as there is room for."""
        days = self._days(planting)
        if days is None:
            return
        middle = top - (self.lane - 0.3) / 2
        low = min(max(middle - _WORDS / 2, row[0] + 0.1), max(row[1] - 0.1 - _WORDS, row[0] + 0.1))
        crop = capital(self.plan.catalogue.name_of(planting.crop))
        full = (f"{crop} ‘{planting.variety}’",) if planting.variety else ()
        for text in (*full, *shorter_crop_names(crop)):
            width = fonts.width(text, _SIZE) + 1.6
            room = days[1] - days[0] - 0.6 - width
            places = (
                [days[0] + 0.3 + share * room for share in (0.0, 0.25, 0.5, 0.75, 1.0)] if room >= 0 else []
            )
            for x in places:
                box = _Box(x, low, x + width, low + _WORDS)
                if not any(map(box.meets, taken)):
                    taken.append(box)
                    self._write(pen, text, box, self._ink(planting))
                    return

    def _write(self, pen: Pen, text: str, box: _Box, ink: Ink) -> None:
        pen.box(box.left, box.low, box.right - box.left, _WORDS, fill=WHITE, rgb=None)
        pen.box(box.left, box.low + 0.3, 0.6, _WORDS - 0.6, fill=ink.line_rgb, rgb=None)
        pen.text(box.left + 1.1, box.low + 0.75, text, _SIZE)

    def _ink(self, planting: Planting) -> Ink:
        crop = self.plan.figures_of(planting).crop
        return family_ink(crop.family if crop is not None else "")

    def _legend(self, pen: Pen, low: float) -> None:
        """What the inks of the bars mean."""
        plantings = [one for row in self.rows for one, _ in row.plantings]
        ink, x, high = self._ink(plantings[0]) if plantings else family_ink(""), self.left, low + 3.0
        apart = 6.0
        kinds = [
            ("indoors", say("raised indoors")),
            ("growing", say("growing")),
            ("picking", say("picking")),
            ("frost", say("frost, the darker the likelier")),
            ("today", say("day of printing")),
        ]
        if self.spreads:
            kinds[3:3] = [
                ("first", say("first picked: 8 of 10 years, box half")),
                ("last", say("last picked")),
            ]
            taken = sum(9.5 + fonts.width(words, _SIZE) for _, words in kinds)
            x = self.paper.left
            apart = min(6.0, (self.paper.room - taken) / (len(kinds) - 1))
        for kind, words in kinds:
            box = shapely.box(x, low, x + 8.0, high)
            if kind == "indoors":
                pen.shape(box, rgb=ink.line_rgb, weight=0.18, dash=(0.8, 0.6))
            elif kind == "growing":
                pen.box(x, low, 8.0, 3.0, fill=ink.tint_rgb, rgb=None)
                pen.hatch(box, ink.hatch, ink.tint_rgb, ink.line_rgb)
                pen.box(x, low, 8.0, 3.0, rgb=ink.line_rgb, weight=0.18)
            elif kind == "picking":
                pen.box(x, low, 8.0, 3.0, fill=ink.line_rgb, rgb=None)
            elif kind in ("first", "last"):
                places = x + 0.5, x + 2.5, x + 4.0, x + 6.0, x + 7.5
                _draw_spread(pen, places, low + 1.5, first=kind == "first")
            elif kind == "frost":
                for step in range(len(RISKS)):
                    band = shapely.box(x + step * 8.0 / 3, low, x + 8.0, high)
                    pen.shape(band, fill=_FROST, opacity=_FROST_SHARE)
            else:
                pen.line(x + 4.0, low, x + 4.0, high, _TODAY, 0.5)
            pen.text(x + 9.5, low + 0.6, words, _SIZE)
            x += 9.5 + fonts.width(words, _SIZE) + apart


def _draw_spread(
    pen: Pen, places: tuple[float, float, float, float, float], y: float, *, first: bool
) -> None:
    """A line over eight years in ten, a box over half of them, filled for the first picking, a stroke in the middle. [mm]"""
    low, quarter, middle, most, high = places
    pen.segments(
        [(low, y, high, y), (low, y - 0.35, low, y + 0.35), (high, y - 0.35, high, y + 0.35)], INK, 0.15
    )
    fill = INK if first else WHITE
    pen.box(quarter, y - 0.3, max(most - quarter, 0.4), 0.6, fill=fill, rgb=INK, weight=0.12)
    pen.line(middle, y - 0.5, middle, y + 0.5, INK, 0.2)


def _frost_bands(plan: Plan) -> list[tuple[dt.date, dt.date]]:
    """First day and day after the last of each band: one for each risk of the last frost, and of the first."""
    climate, span = plan.garden.climate, plan.span
    found = []
    for dates, spring in ((climate.last_frost, True), (climate.first_frost, False)):
        if dates is None:
            continue
        days = [day_within(dates.at(risk), span.first) for risk in RISKS]
        edge = (min(days) - _DAY * _COLD) if spring else (max(days) + _DAY * _COLD)
        edge = min(max(edge, span.first), span.last + _DAY)
        found += [(edge, day) if spring else (day, edge) for day in days]
    return found


def _planted(plan: Plan, row: _Row) -> list[tuple[dt.date, dt.date]]:
    """The stretches of the growing year in which something stands in a bed."""
    year = plan.span
    spans = sorted(
        (max(span.first, year.first), min(span.last, year.last))
        for span in (plan.span_of(one) for one, _ in row.plantings)
        if span.meets(year)
    )
    found: list[tuple[dt.date, dt.date]] = []
    for first, last in spans:
        if found and first <= found[-1][1] + _DAY:
            found[-1] = (found[-1][0], max(found[-1][1], last))
        else:
            found.append((first, last))
    return found


def _cut(text: str, room: float, size: float) -> str:
    """A text cut to a width, with dots where it is. [mm]"""
    if fonts.width(text, size, "bold") <= room:
        return text
    parts: Sequence[str] = [text[:length] for length in range(len(text) - 1, 0, -1)]
    return next((f"{part}…" for part in parts if fonts.width(f"{part}…", size, "bold") <= room), "…")
