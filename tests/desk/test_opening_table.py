"""Tables whose totals open, and pictures over weeks."""

from __future__ import annotations

import datetime as dt

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from planner.desk.pages.opening_table import OpeningTable, Row
from planner.desk.pages.stacked_weeks import Band, Stack, StackedWeeks, scale_step
from planner.desk.theme.palette import LookSwitch
from planner.season.spans import Span

ROWS = (
    Row(
        ("beans", "12"),
        parts=(Row(("North", "5"), shows="p1"), Row(("South", "7"), shows="p2")),
        sorts=("beans", 12.0),
    ),
    Row(("asters", "3"), parts=(Row(("West", "3"), shows="p3"),), sorts=("asters", 3.0)),
)


@pytest.fixture
def table(qtbot):
    made = OpeningTable(("Crop", "Plants"), "Plants", right=(1,))
    qtbot.addWidget(made)
    made.show_rows(ROWS)
    made.show()
    return made


def test_a_total_opens_to_its_parts_with_the_keyboard_and_enter_shows_one(table):
    shown = []
    table.shown.connect(shown.append)
    table.setCurrentIndex(table.model().index(0, 0))
    QTest.keyClick(table, Qt.Key.Key_Return)
    assert shown == []  # a total comes from several
    QTest.keyClick(table, Qt.Key.Key_Right)
    QTest.keyClick(table, Qt.Key.Key_Down)
    QTest.keyClick(table, Qt.Key.Key_Down)
    QTest.keyClick(table, Qt.Key.Key_Return)
    assert shown == ["p2"]


def test_what_is_open_and_chosen_stays_so_when_rows_change(table):
    table.expand(table.model().index(0, 0))
    table.setCurrentIndex(table.model().index(0, 0))
    table.show_rows((Row(("almonds", "1")), *ROWS))
    assert [table.isExpanded(table.model().index(n, 0)) for n in range(3)] == [False, True, False]
    assert table.selected_rows()[0].cells == ("beans", "12")


def test_it_is_sorted_by_numbers_and_not_by_their_digits(table):
    table.sort_rows(1)
    first = table.model().index(0, 0)
    assert first.data() == "asters"
    table.sortByColumn(1, Qt.SortOrder.DescendingOrder)
    assert table.model().index(0, 0).data() == "beans"


def test_the_model_is_sound(table, qtmodeltester):
    qtmodeltester.check(table.model())


MONDAYS = tuple(dt.date(2026, 1, 5) + dt.timedelta(days=7 * n) for n in range(52))


def stack(limit: float = 4.0) -> Stack:
    first = tuple(2.0 if 10 <= n < 20 else 0.0 for n in range(52))
    second = tuple(3.0 if 15 <= n < 30 else 0.0 for n in range(52))
    return Stack(
        MONDAYS,
        Span(dt.date(2026, 1, 1), dt.date(2026, 12, 31)),
        (Band("a", "lettuce", "Asteraceae", first), Band("b", "tomato", "Solanaceae", second)),
        (limit,) * 52,
        "room for",
        "trays",
        limits_below=True,
    )


@pytest.fixture
def picture(qtbot):
    made = StackedWeeks(LookSwitch(), "Weeks", lambda week: f"week {week}")
    qtbot.addWidget(made)
    made.resize(700, 260)
    made.show_stack(stack())
    made.show()
    return made


def place(picture: StackedWeeks, week: int, value: float) -> QPointF:
    left, right = picture._edges(picture.stack, week)
    return QPointF((left + right) / 2, picture._y_of(value, picture._top(picture.stack)))


def test_bands_lie_above_each_other(picture):
    assert picture.band_at(place(picture, 12, 1.0)).key == "a"
    assert picture.band_at(place(picture, 12, 2.5)) is None
    assert picture.band_at(place(picture, 17, 1.0)).key == "a"
    assert picture.band_at(place(picture, 17, 4.5)).key == "b"
    assert picture.band_at(place(picture, 25, 1.0)).key == "b"


def test_a_click_marks_its_week_and_arrows_go_on(picture):
    weeks, bands = [], []
    picture.week_marked.connect(weeks.append)
    picture.band_picked.connect(bands.append)
    QTest.mouseClick(picture, Qt.MouseButton.LeftButton, pos=place(picture, 17, 4.5).toPoint())
    QTest.keyClick(picture, Qt.Key.Key_Right)
    QTest.keyClick(picture, Qt.Key.Key_End)
    QTest.keyClick(picture, Qt.Key.Key_Right)
    assert (weeks, bands) == ([17, 18, 51], ["b"])
    assert picture.accessibleDescription() == "week 51"


def test_a_mark_stays_at_its_week_when_the_amounts_change(picture):
    picture.mark(20)
    picture.show_stack(stack(limit=9.0))
    assert picture.marked == 20


@pytest.mark.parametrize(
    ("highest", "step"),
    [(1.0, 0.5), (4.0, 1.0), (4.1, 2.0), (7.9, 2.0), (30.0, 10.0), (100.0, 50.0), (0.012, 0.005)],
)
def test_marks_of_a_scale_are_round_and_few(highest, step):
    assert scale_step(highest) == pytest.approx(step)
