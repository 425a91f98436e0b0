"""The page of odds: the weakest first, the curve of the chosen planting, and its planned day moved by mouse and keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from planner import resources
from planner.desk.pages.chart_view import MARGIN
from planner.garden import WeatherYears
from planner.plan.lived_otherwise import day_curve
from planner.season.weather_years import years_of
from planner.storage import load
from tests.invented_weather import invented

pytestmark = pytest.mark.one_window


def wait_for_curve(hand_bot, page) -> None:
    hand_bot.waitUntil(lambda: page.curve is not None, timeout=20_000)


@pytest.fixture
def page(hand, qtbot):
    """The page in front, over thirty invented years of a sample garden, with a planting chosen whose best day is another."""
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    kept = WeatherYears(years=years_of(invented("hollow_lane")), elevation=garden.site.elevation)
    hand.document.commit("weather", garden.with_(weather=kept), year=2026)
    pages = hand.window.pages
    pages.bring(pages.odds)
    found = pages.odds
    mizuna = next(one for one in hand.document.plan.plantings if one.crop == "mizuna")
    found.table.choose(mizuna.id)
    wait_for_curve(qtbot, found)
    return found


def test_without_years_it_says_where_they_come_from(hand):
    pages = hand.window.pages
    pages.bring(pages.odds)
    assert "weather station" in pages.odds.state.text()
    assert not pages.odds.parts.isVisible()


def test_the_weakest_planting_is_the_first(page):
    lost = [row.sorts[3] for row in page.table.rows]
    assert lost[0] == max(lost)
    assert lost[-1] == min(lost)


def test_the_curve_is_that_of_the_plan(page):
    curve = day_curve(page.document.plan, page.chosen)
    assert [(one.day, one.odds) for one in page.curve.tried] == [(one.day, one.odds) for one in curve.tried]
    assert page.losses.chart is not None
    assert page.losses.chart.steps == len(curve.tried)
    assert page.curve.best.day != page.curve.planned.day
    assert "sooner" in page.gain.text()
    assert page.start.isVisible()


def test_the_button_starts_it_on_the_best_day_and_undo_takes_it_back(hand, page):
    before, best = page.document.garden, page.curve.best.day
    page.start.click()
    planting = page.chosen
    assert page.document.plan.span_of(planting).first == best
    page.document.undo_stack.undo()
    assert page.document.garden == before


def test_dragging_the_planned_day_moves_the_planting(hand, page):
    view, chart = page.losses, page.losses.chart
    wanted = view.planned - 4
    day = page.curve.tried[wanted].day

    def place(step: int) -> QPoint:
        (x, _), _ = chart.line_of(step)
        return QPoint(round(x + MARGIN), round((chart.top + chart.bottom) / 2 + MARGIN))

    QTest.mousePress(view, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, place(view.planned))
    QTest.mouseMove(view, place(wanted + 1))
    QTest.mouseMove(view, place(wanted))
    QTest.mouseRelease(view, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, place(wanted))
    assert page.document.plan.span_of(page.chosen).first == day


def test_a_day_is_chosen_by_keys(hand, page):
    view = page.losses
    view.setFocus()
    view.mark(view.planned)
    QTest.keyClick(view, Qt.Key.Key_Right)
    day = page.curve.tried[view.marked].day
    assert view.accessibleDescription()
    QTest.keyClick(view, Qt.Key.Key_Return)
    assert page.document.plan.span_of(page.chosen).first == day


def test_sorts_and_shelter_are_compared(page):
    assert len(page.sorts.rows) == 3
    assert [row.key for row in page.shelters.rows] == ["open", "fleece", "low tunnel", "tunnel", "glasshouse"]
    assert sum("as planned" in row.cells[0] for row in page.sorts.rows) == 1
