"""The weather in the window: reading tables, the page with its charts, the picture and the copy without the years."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialogButtonBox

from planner.desk.forms.weather_dialog import WeatherDialog
from planner.garden import edits
from planner.importing.weather_table import read_tables
from planner.sheets.weather_charts import CHARTS
from planner.storage import load

pytestmark = pytest.mark.one_window
FILES = Path(__file__).parents[1] / "reference" / "weather"
BRUSSELS = FILES / "brussels_climate.txt.gz"


def keep_brussels(document) -> None:
    """Thirty years of Brussels into the garden."""
    kept = read_tables([BRUSSELS]).kept()
    document.edit("weather", lambda garden: garden.with_(weather=kept))


@pytest.fixture
def page(hand):
    """The page in front, with thirty years."""
    keep_brussels(hand.document)
    pages = hand.window.pages
    pages.bring(pages.weather)
    return pages.weather


def whole_years(count: int) -> list[dt.date]:
    """All days of some years."""
    return [dt.date(2001, 1, 1) + dt.timedelta(days=number) for number in range(365 * count)]


def ok(dialog: WeatherDialog):
    return dialog.buttons.button(QDialogButtonBox.StandardButton.Ok)


def test_without_years_one_line_says_what_to_do(hand):
    pages = hand.window.pages
    pages.bring(pages.weather)
    page = pages.weather
    assert page.state.text().startswith("No daily weather yet. Read the table of a station")
    assert not page.area.isVisible()
    assert page.read.isVisible()


def test_tables_are_read_into_the_garden_as_one_step(hand):
    document = hand.document
    before = document.garden
    dialog = WeatherDialog(hand.window, document, [BRUSSELS])
    report = dialog.report.toPlainText()
    assert (
        "date 'Year Month Day', minimum 'Tmin(C)', maximum 'Tmax(C)', in °C, rain 'Prcp(mm)' in mm" in report
    )
    assert "no gaps" in report
    assert "30 years of daily weather: 1976 to 2005" in report
    dialog.place.setText("50.8, 4.36")
    dialog.height_.setText("104")
    dialog._read()
    dialog._accept()
    garden = document.garden
    assert garden.weather.span == (1976, 2005)
    assert (garden.weather.latitude, garden.weather.elevation) == (50.8, 104.0)
    assert garden.climate.years == 30
    document.undo_stack.undo()
    assert document.garden == before


def test_without_the_tick_the_frost_dates_come_alone(hand):
    dialog = WeatherDialog(hand.window, hand.document, [BRUSSELS])
    dialog.keep.setChecked(False)
    dialog._accept()
    assert hand.document.garden.climate.years == 30
    assert hand.document.garden.weather.years == ()


def test_units_and_headings_can_be_named(hand, tmp_path):
    rows = "".join(f"{day},50,68,5\n" for day in whole_years(3))
    (tmp_path / "t.csv").write_text("date,a,b,rain\n" + rows)
    dialog = WeatherDialog(hand.window, hand.document, [tmp_path / "t.csv"])
    assert "no heading that looks like the minimum temperature" in dialog.report.toPlainText()
    assert not ok(dialog).isEnabled()
    dialog.headings["minimum"].show_value("a")
    dialog.headings["maximum"].show_value("b")
    dialog.unit.show_value("F")
    dialog.rain_unit.show_value("tenths mm")
    dialog._read()
    assert "minimum 'a', maximum 'b', in °F, rain 'rain' in tenths of mm" in dialog.report.toPlainText()


def test_of_several_stations_one_is_chosen(hand, tmp_path):
    days = whole_years(1)
    rows = "".join(
        f"{station},{day},{low},{low + 9}\n" for station, low in (("north", 1), ("south", 6)) for day in days
    )
    (tmp_path / "two.csv").write_text("station,date,tmin,tmax\n" + rows)
    dialog = WeatherDialog(hand.window, hand.document, [tmp_path / "two.csv"])
    assert "more than one station (north, south)" in dialog.report.toPlainText()
    assert dialog.station.values == (None, "north", "south")
    dialog.station.show_value("south")
    dialog._read()
    assert "station: south" in dialog.report.toPlainText()


def test_a_place_that_cannot_be_read_is_told(hand):
    dialog = WeatherDialog(hand.window, hand.document, [BRUSSELS])
    dialog.place.setText("nowhere")
    dialog._read()
    assert dialog.report.toPlainText() == "'nowhere' is no latitude and longitude. Write them as 52.2, 0.12."
    assert not ok(dialog).isEnabled()
    dialog.place.clear()
    dialog.height_.setText("20000")
    dialog._read()
    assert dialog.report.toPlainText() == "no station is 20000 m above the sea. Write its height in metres."
    dialog.height_.setText("high")
    dialog._read()
    assert dialog.report.toPlainText().count("\n") == 0
    assert not ok(dialog).isEnabled()


def test_every_chart_is_drawn_and_says_its_figures(page):
    for name in CHARTS:
        view = page.charts[name]
        assert view.chart is not None, name
        assert view.accessibleName()
        assert view.accessibleDescription() == page.sentences[name].text()
        assert any(letter.isdigit() for letter in view.accessibleDescription())
    assert page.state.text().startswith("30 years of daily weather: 1976 to 2005 · Station")
    assert "from 30 years" in page.sentences["trend"].text()


def test_a_chart_is_read_by_keys_and_by_pointer(page, qtbot):
    view = page.charts["warmth"]
    view.setFocus()
    QTest.keyClick(view, Qt.Key.Key_Home)
    assert view.marked == 0
    assert view.accessibleDescription().startswith("1 Jan: minimum ")
    QTest.keyClick(view, Qt.Key.Key_End)
    assert view.accessibleDescription().startswith("31 Dec: minimum ")
    QTest.keyClick(view, Qt.Key.Key_Left)
    assert view.marked == 363
    chart = view.chart
    place = QPointF(10 + chart.left + (chart.right - chart.left) * 200.5 / 365, 10 + chart.bottom - 4)
    QTest.mouseClick(view, Qt.MouseButton.LeftButton, pos=place.toPoint())
    assert abs(view.marked - 200) <= 1
    frosts = page.charts["frosts"]
    frosts.mark(0)
    assert frosts.accessibleDescription().startswith("1976: last frost ")
    page.charts["rain"].mark(3)
    assert page.charts["rain"].accessibleDescription().startswith("April: ")
    page.charts["trend"].mark(29)
    assert page.charts["trend"].accessibleDescription().startswith("2005: ")


def test_a_year_apart_and_another_base(page):
    page._choose_year(2003)
    page.charts["heat"].mark(364)
    assert page.charts["heat"].accessibleDescription().endswith(" in 2003")
    before = page.sentences["heat"].text()
    page.base.show_value(10.0)
    page._show(anew=True)
    assert "over 10 °C" in page.sentences["heat"].text() != before


def test_what_is_drawn_can_be_seen_in_each_look(page, hand):
    view = page.charts["rain"]
    seen = set()
    for wish in ("light", "dark", "contrast"):
        hand.window.look.choose(wish)
        picture = view.grab().toImage()
        chart = view.chart
        ratio = picture.devicePixelRatio()
        x = 10 + chart.left + (chart.right - chart.left) * 0.35 / 12
        inside = picture.pixelColor(int(x * ratio), int((10 + chart.bottom - 6) * ratio))
        paper = picture.pixelColor(3, 3)
        assert inside != paper
        seen.add(paper.name())
    assert len(seen) == 3


def test_two_charts_stand_side_by_side_where_there_is_room(page):
    page.resize(1200, 700)
    page._arrange()
    assert page._columns == 2
    page.resize(500, 700)
    page._arrange()
    assert page._columns == 1


def test_the_years_are_taken_out_and_come_back(page, hand):
    page.forget.click()
    assert hand.document.garden.weather.years == ()
    page.refresh()
    assert not page.area.isVisible()
    hand.document.undo_stack.undo()
    assert len(hand.document.garden.weather.years) == 30


def test_a_copy_without_the_years_goes_round(hand, tmp_path, monkeypatch):
    exports = hand.window.commands.exports
    keep_brussels(hand.document)
    target = tmp_path / "copy.bedwright"
    monkeypatch.setattr(exports._prompts, "save_path", lambda *_words: str(target))
    assert exports.copy_without_weather()
    garden = hand.document.garden
    assert load(target) == edits.change_weather(garden, years=())
    assert len(garden.weather.years) == 30


@pytest.mark.parametrize("suffix", [".pdf", ".svg", ".png"])
def test_the_picture_is_written(hand, tmp_path, monkeypatch, suffix):
    exports = hand.window.commands.exports
    assert not exports.weather_picture()
    keep_brussels(hand.document)
    target = tmp_path / f"weather{suffix}"
    monkeypatch.setattr(exports._prompts, "save_path", lambda *_words: str(target))
    assert exports.weather_picture()
    begins = {".pdf": b"%PDF", ".svg": b"<?xml", ".png": b"\x89PNG"}[suffix]
    assert target.read_bytes().startswith(begins)
