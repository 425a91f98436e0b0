"""Raising in the window: benches over the year, what is filled, and the benches themselves."""

from __future__ import annotations

import pytest
from hand import LIMIT
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from planner import resources, storage
from planner.amounts.bench import bench_year
from planner.amounts.raising import raisings
from planner.amounts.trays_in_use import container_totals
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.pages.bench_stacks import bench_stacks
from planner.desk.pages.bench_table import LENGTH
from planner.desk.pages.raising_page import BENCHES, EACH, TOTALS
from planner.garden import edits
from planner.plan import Plan
from planner.words import day_words

pytestmark = pytest.mark.one_window


def sample(name: str):
    return storage.load(resources.sample_folder() / f"{name}.bedwright")


@pytest.fixture
def hand(open_hand):
    """A hand on the sample garden with benches, its page of raising at the front."""
    made = open_hand(sample("hollow_lane"))
    made.window.pages.bring(made.window.pages.raising)
    return made


def page_of(hand):
    return hand.window.pages.raising


def bench_of(hand, kind: str):
    return next(bench for bench in hand.garden.benches if bench.kind == kind)


# -- the pictures ------------------------------------------------------------------------------


def test_the_bands_of_a_week_are_the_trays_of_its_fullest_day():
    plan = Plan(sample("hollow_lane"), 2026)
    year = bench_year(plan)
    weeks = {(week.bench.id, week.monday): week.trays for week in year.weeks()}
    shown = bench_stacks(plan)
    assert [one.bench.id for one in shown] == [bench.id for bench in plan.garden.benches]
    for one in shown:
        for number, monday in enumerate(one.stack.mondays):
            sum_of = one.stack.sum_of(number)
            assert sum_of == pytest.approx(weeks.get((one.bench.id, monday), 0))
    assert sum(weeks.values()) > 50


def test_all_that_stands_on_a_bench_on_a_fullest_day_has_a_band():
    plan = Plan(sample("hollow_lane"), 2026)
    for one in bench_stacks(plan):
        bands = {band.key for band in one.stack.bands}
        for week in one.weeks:
            if week is not None:
                there = one.year.trays_on(one.bench.id, week.day)
                assert there.keys() <= bands
                assert there.keys() <= set(week.plantings)


def test_a_garden_without_benches_sees_what_it_would_want(open_hand):
    garden = sample("hollow_lane")
    for bench in garden.benches:
        garden = edits.remove_bench(garden, bench.id)
    hand = open_hand(garden)
    page = page_of(hand)
    hand.window.pages.bring(page)
    assert page.nothing.text() == "No benches are entered. This is what they would have to hold:"
    assert [one.title.text() for one in page.pictures.values()] == [
        "On a heated bench would stand", "On a cool bench would stand", "In a cold frame would stand"
    ]  # fmt: skip
    assert all(picture.weeks.stack.limit == () for picture in page.pictures.values())
    QTest.mouseClick(page.enter, Qt.MouseButton.LeftButton)
    assert page.choice.currentIndex() == BENCHES
    QTest.mouseClick(page.benches.add, Qt.MouseButton.LeftButton)
    assert not page.enter.isVisible()
    assert len(page.pictures) == 1


@pytest.mark.own_window
def test_a_garden_in_which_nothing_is_raised_says_so(open_hand):
    hand = open_hand()
    page = page_of(hand)
    hand.window.pages.bring(page)
    assert page.nothing.text().startswith(f"Nothing is raised in {hand.document.year}.")
    assert page.pictures == {}
    assert page.totals.rows == ()


def test_a_marked_week_is_told_on_every_bench(hand):
    page = page_of(hand)
    heated, cool, frame = page.pictures.values()
    assert heated.week.text().startswith("Fullest week, ")
    heated.weeks.setFocus()
    QTest.keyClick(heated.weeks, Qt.Key.Key_End)
    assert cool.weeks.marked == heated.weeks.marked == len(heated.weeks.stack.mondays) - 1
    assert heated.week.text().endswith(": nothing stands there.")
    full = bench_stacks(hand.document.plan)[0].fullest
    cool.weeks.mark(full)
    assert heated.weeks.marked == full
    assert "9 trays" in heated.week.text()
    assert "runner bean" in heated.week.text()
    assert frame.week.text()


def test_a_click_on_a_band_selects_its_planting_here_and_on_the_sheet(hand):
    page = page_of(hand)
    weeks = next(iter(page.pictures.values())).weeks
    band = weeks.stack.bands[0]
    number = next(n for n, value in enumerate(band.values) if value)
    left, right = weeks._edges(weeks.stack, number)
    y = weeks._y_of(band.values[number] / 2, weeks._top(weeks.stack))
    assert weeks.band_at(QPointF((left + right) / 2, y)) == band
    QTest.mouseClick(weeks, Qt.MouseButton.LeftButton, pos=QPointF((left + right) / 2, y).toPoint())
    assert hand.selected() == {band.key}
    assert page.choice.currentIndex() == EACH
    assert [row.shows for row in page.each.selected_rows()] == [band.key]
    assert {picture.weeks.picked for picture in page.pictures.values()} == {band.key}


# -- the tables --------------------------------------------------------------------------------


def test_totals_are_those_of_the_containers_and_open_to_their_plantings(hand):
    page, parts = page_of(hand), raisings(hand.document.plan)
    totals = container_totals(hand.document.plan)
    assert [row.cells[4:7] for row in page.totals.rows] == [
        (f"{one.number:,}", f"{one.trays}", day_words(one.day, hand.document.plan.year)) for one in totals
    ]
    for row, total in zip(page.totals.rows, totals, strict=True):
        assert sum(int(part.cells[4].replace(",", "")) for part in row.parts) == total.number
        assert sum(part.sorts[7] for part in row.parts) == pytest.approx(total.litres)
    assert sum(len(row.parts) for row in page.totals.rows) == sum(len(part.fills) for part in parts)


def test_enter_on_a_planting_shows_it_on_the_sheet(hand):
    page = page_of(hand)
    page.choice.setCurrentIndex(EACH)
    key = page.each.rows[3].shows
    assert page.each.choose_from(key)
    page.each.setFocus()
    QTest.keyClick(page.each, Qt.Key.Key_Return)
    assert hand.selected() == {key}
    assert hand.window.pages.shows_sheet


def test_the_page_follows_edits_only_while_it_is_seen(hand, qtbot):
    page = page_of(hand)
    page.choice.setCurrentIndex(EACH)
    before = page.each.rows
    key = before[0].shows
    assert hand.document.edit("Remove", lambda garden: edits.remove(garden, [key]))
    qtbot.waitUntil(lambda: len(page.each.rows) == len(before) - 1, timeout=LIMIT)
    hand.window.pages.show_sheet()
    with qtbot.waitSignal(hand.document.garden_settled, timeout=LIMIT):
        hand.document.undo_stack.undo()
    assert len(page.each.rows) == len(before) - 1
    hand.window.pages.bring(page)
    assert page.each.rows == before


# -- the benches -------------------------------------------------------------------------------


def test_benches_are_added_changed_and_removed_in_one_step_each(hand):
    page, steps = page_of(hand), hand.steps
    page.choice.setCurrentIndex(BENCHES)
    model = page.benches.model
    page.benches.kind.setCurrentIndex(2)
    QTest.mouseClick(page.benches.add, Qt.MouseButton.LeftButton)
    new = hand.garden.benches[-1]
    assert (new.kind, new.length, new.width, hand.steps) == ("cold frame", 1.2, 0.6, steps + 1)
    row = model.rowCount() - 1
    assert model.setData(model.index(row, LENGTH), "2.5 m")
    assert model.setData(model.index(row, 0), "Frame at the wall")
    assert model.setData(model.index(row, 1), "heated")
    new = hand.garden.benches[-1]
    assert (new.name, new.kind, new.length, hand.steps) == ("Frame at the wall", "heated", 2.5, steps + 4)
    page.benches.table.selectRow(row)
    QTest.mouseClick(page.benches.remove, Qt.MouseButton.LeftButton)
    assert len(hand.garden.benches) == row
    for _ in range(5):
        hand.document.undo_stack.undo()
    assert hand.garden == sample("hollow_lane")


@pytest.mark.parametrize("typed", ["wide", "-1", "0", "1e9"])
def test_a_wrong_size_is_refused_in_one_line(hand, typed):
    page, before, said = page_of(hand), hand.garden, []
    page.choice.setCurrentIndex(BENCHES)
    page.wrong.connect(said.append)
    hand.document.edit_refused.connect(said.append)
    model = page.benches.model
    assert not model.setData(model.index(0, LENGTH), typed)
    assert hand.garden is before
    (line,) = said
    assert "\n" not in line
    assert "ength" in line


def test_a_kind_is_chosen_from_a_list(hand, qtbot):
    page = page_of(hand)
    page.choice.setCurrentIndex(BENCHES)
    table = page.benches.table
    table.edit(page.benches.model.index(1, 1))
    editor = table.findChild(type(page.choice))
    assert [editor.itemText(n) for n in range(editor.count())] == ["heated", "cool", "cold frame"]
    editor.setCurrentIndex(0)
    editor.activated.emit(0)
    assert hand.garden.benches[1].kind == "heated"


def test_benches_in_feet_are_typed_and_shown_in_feet(open_hand):
    hand = open_hand(sample("red_mesa"))
    page = page_of(hand)
    hand.window.pages.bring(page)
    page.choice.setCurrentIndex(BENCHES)
    QTest.mouseClick(page.benches.add, Qt.MouseButton.LeftButton)
    model = page.benches.model
    assert [model.index(0, column).data() for column in (2, 3)] == ["4 ft", "2 ft"]
    model.setData(model.index(0, LENGTH), "6 ft")
    assert hand.garden.benches[0].length == pytest.approx(1.8288)


def test_benches_pass_the_model_tester(hand, qtmodeltester):
    page_of(hand).choice.setCurrentIndex(BENCHES)
    assert page_of(hand).benches.model.rowCount() == 3
    qtmodeltester.check(page_of(hand).benches.model)


def test_a_bench_that_is_too_small_says_so_and_offers_what_makes_room(open_hand, qtbot):
    garden = sample("hollow_lane")
    heated = garden.benches[0]
    garden = edits.put_bench(garden, heated.id, length=1.2)[0]
    hand = open_hand(garden)
    page = page_of(hand)
    hand.window.pages.bring(page)
    picture = page.pictures[heated.id]
    qtbot.waitUntil(lambda: bool(picture._findings), timeout=LIMIT)
    (finding,) = picture._findings
    assert "holds 6 trays" in finding.text

    def buttons(kind: type[QPushButton]) -> list[QPushButton]:
        return [one for one in picture.findChildren(kind) if one.isVisible()]

    # The checks go on: they may publish the finding anew, and its buttons come a turn later.
    qtbot.waitUntil(lambda: len(buttons(QPushButton)) == 1, timeout=LIMIT)
    QTest.mouseClick(buttons(QPushButton)[0], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bool(buttons(WrappedButton)), timeout=LIMIT)
    assert [one.text() for one in buttons(WrappedButton)] == [fix.text for fix in finding.fixes]
    steps = hand.steps
    QTest.mouseClick(buttons(WrappedButton)[0], Qt.MouseButton.LeftButton)
    assert hand.steps == steps + 1
    qtbot.waitUntil(lambda: not picture._findings, timeout=LIMIT)
    assert all(there.capacity == 6 for there in bench_year(hand.document.plan).benches[:1])
    assert bench_year(hand.document.plan).benches[0].too_full() == ()


@pytest.mark.own_window
def test_the_first_table_is_that_of_trays_and_mix(hand):
    page = page_of(hand)
    assert page.choice.currentIndex() == TOTALS
    assert page.sum.text().startswith("Mix in all: ")
