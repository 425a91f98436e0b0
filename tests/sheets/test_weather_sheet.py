"""The weather of a year as one picture: what stands on it, in three kinds of files, in two unit systems."""

from __future__ import annotations

import datetime as dt
import io
import math
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
import resvg_py

from planner.garden import Garden, Site
from planner.importing.weather_table import read_tables
from planner.plan import Plan
from planner.season.place_weather import heat_of, place_weather
from planner.sheets.chart_drawing import room_on_paper
from planner.sheets.chart_marks import Area, Dot, Line, Room, Words, ticks
from planner.sheets.output import SheetError
from planner.sheets.plan_files import plan_png, plan_svg
from planner.sheets.weather_charts import CHARTS, draw_chart
from planner.sheets.weather_sheet import weather_picture, write_weather_sheet

FILES = Path(__file__).parents[1] / "reference" / "weather"
TODAY = dt.date(2026, 6, 20)


def plan_of(name: str, **site) -> Plan:
    kept = read_tables([FILES / f"{name}_climate.txt.gz"]).kept()
    return Plan(Garden(site=Site(name="Plot", **site), weather=kept), 2026)


@pytest.fixture(scope="module")
def brussels() -> Plan:
    return plan_of("brussels", latitude=50.8)


def pdf_text(plan: Plan, paper: str = "a4") -> str:
    stream = io.BytesIO()
    write_weather_sheet(plan, stream, paper, TODAY)
    with pypdfium2.PdfDocument(stream.getvalue()) as document:
        assert len(document) == 1
        return " ".join(document[0].get_textpage().get_text_range().split())


def test_the_sheet_says_what_the_years_say(brussels):
    text = pdf_text(brussels)
    for words in (
        "Plot: the weather of a year, 1976 to 2005",
        "Minimum and maximum over the year, °C",
        "Rain by month, mm",
        "last frost",
        "first frost",
        "10 %",
        "Last frost of spring",
        "from 30 years",
        "within 15 days about each",
        "95 % interval",
    ):
        assert words in text, words


def test_it_fits_every_paper_and_the_south_begins_in_july():
    plan = plan_of("cordoba", latitude=-31.4, units="feet_inches")
    for paper in ("a4", "a3", "letter"):
        text = pdf_text(plan, paper)
        assert "Minimum and maximum over the year, °F" in text
        assert "Rain by month, inches" in text
        assert text.index("Jul") < text.index("Jan")


def test_the_same_plan_gives_the_same_bytes(brussels):
    one, other = io.BytesIO(), io.BytesIO()
    for stream in (one, other):
        write_weather_sheet(brussels, stream, "a4", TODAY)
    assert one.getvalue() == other.getvalue()


def test_another_renderer_draws_the_svg(brussels):
    drawn = resvg_py.svg_to_bytes(svg_string=plan_svg(weather_picture(brussels)), dpi=96)
    assert bytes(drawn).startswith(b"\x89PNG")
    assert plan_png(weather_picture(brussels), 800).startswith(b"\x89PNG")


def test_without_years_it_says_what_to_do():
    with pytest.raises(SheetError, match=r"no years of weather are kept\. Read the weather tables"):
        weather_picture(Plan(Garden(), 2026))


# -- charts -----------------------------------------------------------------------------------------


def rooms() -> list[Room]:
    return [
        room_on_paper(250.0, 90.0, 11.0),
        Room(220.0, 210.0, 16.0, lambda text: 7.0 * len(text)),
        Room(1600.0, 900.0, 16.0, lambda text: 7.0 * len(text)),
    ]


@pytest.mark.parametrize("name", CHARTS)
@pytest.mark.parametrize("room", rooms())
@pytest.mark.parametrize("units", ["metric", "feet_inches"])
def test_nothing_of_a_chart_lies_outside_its_room(brussels, name, room, units):
    place = place_weather(brussels.garden.weather, brussels.garden.site)
    assert place is not None
    chart = draw_chart(name, place, heat_of(place.table, 5.0), room, units, 2003)
    assert chart is not None
    assert 0 < chart.left < chart.right <= room.width
    assert 0 < chart.top < chart.bottom < room.height
    for mark in chart.marks:
        if isinstance(mark, Line | Area):
            places = mark.places if isinstance(mark, Line) else mark.corners
            assert all(0 <= x <= room.width and 0 <= y <= room.height for x, y in places)
            assert all(math.isfinite(part) for one in places for part in one)
        elif isinstance(mark, Dot):
            assert chart.left <= mark.x <= chart.right
            assert chart.top <= mark.y <= chart.bottom
        elif isinstance(mark, Words):
            assert 0 <= mark.y <= room.height
            shift = {"left": 0.0, "middle": 0.5, "right": 1.0}[mark.anchor]
            begin = mark.x - shift * room.measure(mark.text)
            assert begin > -0.5


def test_dots_are_the_frosts_of_the_years(brussels):
    place = place_weather(brussels.garden.weather, brussels.garden.site)
    assert place is not None
    room = Room(800.0, 400.0, 16.0, lambda text: 7.0 * len(text))
    chart = draw_chart("frosts", place, heat_of(place.table, 5.0), room, "metric")
    assert chart is not None
    dots = [mark for mark in chart.marks if isinstance(mark, Dot)]
    frosts = place.frosts_by_year()
    assert sum(dot.filled for dot in dots) == sum(last is not None for _, last, _ in frosts)
    assert sum(not dot.filled for dot in dots) == sum(first is not None for *_, first in frosts)
    first = next(dot for dot in dots if dot.filled)
    assert chart.step_at(first.x, first.y) == 0, "the first year is the uppermost"
    day = frosts[0][1]
    assert day is not None
    share = (first.x - chart.left) / (chart.right - chart.left)
    assert share * 365 == pytest.approx((day - dt.date(day.year, 1, 1)).days + 0.5, abs=1.1)


def test_a_bar_of_rain_is_as_high_as_its_month(brussels):
    place = place_weather(brussels.garden.weather, brussels.garden.site)
    assert place is not None
    assert place.rain is not None
    room = Room(800.0, 400.0, 16.0, lambda text: 7.0 * len(text))
    chart = draw_chart("rain", place, heat_of(place.table, 5.0), room, "metric")
    assert chart is not None
    heights = [
        chart.bottom - min(y for _, y in mark.corners) for mark in chart.marks if isinstance(mark, Area)
    ]
    np.testing.assert_allclose(np.array(heights) / heights[0], place.rain.bands[1] / place.rain.bands[1, 0])


def test_ticks_are_round_and_hold_the_values():
    for low, high in ((0.0, 1.0), (-7.3, 31.2), (0.0, 2834.0), (9.1, 11.5), (5.0, 5.0)):
        found = ticks(low, high, 7)
        assert found[0] <= low + 1e-9
        assert found[-1] >= high - 1e-9
        assert len(found) <= 8
