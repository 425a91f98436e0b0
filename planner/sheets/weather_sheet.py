"""The weather of a year on one page, to be hung up: warmth with the frosts, rain by month, and what the years say."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import BinaryIO

from planner.listings.place_weather import (
    dry_words,
    frost_words,
    heat_words,
    rain_year_words,
    trend_words,
    warmth_words,
)
from planner.listings.weather_read import kept_line, station_lines
from planner.plan import Plan
from planner.season.place_weather import USUAL_BASE, PlaceWeather, heat_of, place_weather
from planner.sheets import fonts
from planner.sheets.chart_drawing import draw_on_paper, room_on_paper
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.fonts import MM
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, paper_named
from planner.sheets.pen import PENCIL, Pen
from planner.sheets.weather_charts import draw_chart
from planner.words import capital, say

#: Sizes of the title, of the words under it and of the sentences. [points]
_TITLE, _UNDER, _SENTENCE = 18.0, 9.0, 9.0
#: Share of the pictures' height that rain has, and the width left of both for their scales. [mm]
_RAIN, _GUTTER = 0.3, 11.0


@dataclass(frozen=True)
class WeatherPicture:
    """The picture of the weather of a year; see :func:`weather_picture`.

    Attributes
    ----------
    width, height : float
        Of the page. [mm]
    title, subtitle : str
    sentences : tuple of str
        What the years say.
    """

    plan: Plan
    place: PlaceWeather
    paper: Paper
    title: str
    subtitle: str
    sentences: tuple[str, ...]
    foot: float

    @property
    def width(self) -> float:
        """Of the page. [mm]"""
        return self.paper.width

    @property
    def height(self) -> float:
        """Of the page. [mm]"""
        return self.paper.height

    @property
    def words(self) -> str:
        """The picture in sentences."""
        return " ".join(self.sentences)

    def draw(self, pen: DrawingPen) -> None:
        """Draw it, but for the foot of the page."""
        self.draw_title(pen)
        self.draw_charts(pen, self.draw_subtitle(pen), self.draw_sentences(pen))

    def draw_title(self, pen: DrawingPen) -> None:
        """Draw the title."""
        size = fonts.fitted_size(self.title, self.paper.room, _TITLE, "bold")
        pen.text(self.paper.left, self.height - self.paper.top - 6.0, self.title, size, "bold")

    def draw_subtitle(self, pen: DrawingPen) -> float:
        """Draw what is under the title, and return how far down that goes. [mm]"""
        top = self.height - self.paper.top - 11.5
        for line in fonts.wrap(self.subtitle, self.paper.room, _UNDER):
            pen.text(self.paper.left, top, line, _UNDER, rgb=PENCIL)
            top -= fonts.line_height(_UNDER)
        return top

    def draw_sentences(self, pen: DrawingPen) -> float:
        """Draw the sentences at the foot, and return how far up they go. [mm]"""
        lines = list(self._lines())
        high = self.paper.bottom + self.foot + len(lines) * fonts.line_height(_SENTENCE)
        for number, line in enumerate(lines, 1):
            pen.text(self.paper.left, high - number * fonts.line_height(_SENTENCE), line, _SENTENCE)
        return high + 2.0

    def draw_charts(self, pen: DrawingPen, top: float, low: float) -> None:
        """Draw the charts between two heights. [mm]"""
        paper, units = self.paper, self.plan.garden.site.units
        tall = top - low
        rain = tall * _RAIN if self.place.rain is not None else 0.0
        heat = heat_of(self.place.table, USUAL_BASE)
        room = room_on_paper(paper.room, tall - rain, _GUTTER)
        warmth = draw_chart("warmth", self.place, heat, room, units, frosts=True)
        if warmth is not None:
            draw_on_paper(pen, warmth, paper.left, top)
        wet = draw_chart("rain", self.place, heat, room_on_paper(paper.room, max(rain, 1.0), _GUTTER), units)
        if wet is not None and rain:
            draw_on_paper(pen, wet, paper.left, top - tall + rain)

    def _lines(self) -> Iterator[str]:
        for sentence in self.sentences:
            yield from fonts.wrap(sentence, self.paper.room, _SENTENCE)


def weather_picture(plan: Plan, paper: str = "a4", foot: float = 0.0) -> WeatherPicture:
    """The picture of the recorded years of a garden, on a paper laid across.

    Parameters
    ----------
    plan : Plan
    paper : {"a4", "a3", "letter"}
    foot : float
        Height that is left free for the foot of the page. [mm]

    Raises
    ------
    SheetError
        Where the garden keeps no years of weather.
    """
    garden = plan.garden
    place = place_weather(garden.weather, garden.site)
    if place is None:
        raise SheetError(
            say("no years of weather are kept"),
            garden.site.name,
            say("Read the weather tables of a station first"),
        )
    sheet = paper_named(paper)
    across = replace(sheet, width=sheet.height, height=sheet.width)
    first, last = garden.weather.span or (0, 0)
    years = str(first) if first == last else say("{first} to {last}", first=first, last=last)
    heat = heat_of(place.table, USUAL_BASE)
    sentences = [frost_words(place), warmth_words(place, garden.site), heat_words(heat, garden.site)]
    if place.rain is not None:
        sentences += [rain_year_words(place, garden.site), dry_words(place)]
    sentences.append(trend_words(place.trend, garden.site))
    said = [kept_line(garden.weather), *station_lines(garden.weather, garden.site)]
    origin = [say("from {origin}", origin=garden.weather.origin)] if garden.weather.origin else []
    return WeatherPicture(
        plan,
        place,
        across,
        say("{garden}: the weather of a year, {years}", garden=garden.site.name, years=years),
        " · ".join(capital(line) for line in (*said, *origin)),
        tuple(sentences),
        foot,
    )


def write_weather_sheet(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    paper: str = "a4",
    printed: dt.date | None = None,
) -> None:
    """Write the weather of a year as PDF, on one page laid across.

    The same plan, day and paper give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    paper : {"a4", "a3", "letter"}
    printed : date, optional
        Day of printing; the present day by default.

    Raises
    ------
    SheetError
        Where the garden keeps no years of weather, or a path cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    picture = weather_picture(plan, paper)
    words = plan.garden.site.name
    foot = Foot.of(picture.paper, words, printed or dt.date.today(), check=False)
    picture = replace(picture, foot=foot.height + 1.0)
    stream = io.BytesIO()
    across = picture.paper
    with new_canvas(stream, across, picture.title) as canvas:
        canvas.setPageSize((across.width * MM, across.height * MM))
        canvas.bookmark(picture.title)
        pen = Pen(canvas)
        with pen.tagged("H1"):
            picture.draw_title(pen)
        with pen.tagged("P"):
            top = picture.draw_subtitle(pen)
        with pen.tagged("P"):
            low = picture.draw_sentences(pen)
        with pen.tagged("Figure", alt=picture.words):
            picture.draw_charts(pen, top, low)
        foot.draw(pen, 1, 1)
        canvas.showPage()
    write_pdf(target, stream.getvalue())
