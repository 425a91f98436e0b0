"""The page that proposes a layout: searched for, stopped, outdated by an edit, taken over whole and in part, pinned, undone."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from typing import Any

import pytest
from hand import LEFT, LIMIT, Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from planner.desk.model.layout_process import (
    Answering,
    Failed,
    LayoutProcess,
    LayoutTask,
    Remarks,
    UnlikeTask,
    Whys,
)
from planner.desk.pages.layout_page import WHY_LINES, LayoutPage
from planner.desk.pages.layout_rows import LayoutRows
from planner.garden import Climate, FrostDates, Garden, Site, Wish, edits
from planner.garden.wishes import LayoutWeights
from planner.listings.found_layout import FoundLayout
from planner.listings.proposal import LIMIT_WORDS, WEIGHT_WORDS

CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
#: Three wishes that can be met, and more potatoes than all of the ground holds.
SMALL = garden(
    *(bed(f"b{n}", rectangle(4.0, 1.2, center=(0.0, 3.0 * n)), name=f"Bed {n}") for n in (1, 2)),
    planting("p1", "b1", crop="garlic", year=2026),
    site=Site(latitude=54.0, longitude=-2.0),
    climate=CLIMATE,
    wishes=(
        Wish(id="w1", year=2027, crop="carrot", amount=40),
        Wish(id="w2", year=2027, crop="beetroot", amount=20),
        Wish(id="w3", year=2027, crop="leek", amount=30),
        Wish(id="w4", year=2027, crop="potato", amount=400),
    ),
)
#: Beds that lie half bare, each of which is told.
MANY_BARE = garden(
    *(bed(f"b{n}", rectangle(4.0, 1.2, center=(0.0, 3.0 * n)), name=f"Bed {n}") for n in range(9)),
    planting("p1", "b1", crop="garlic", year=2026),
    site=Site(latitude=54.0, longitude=-2.0),
    climate=CLIMATE,
    wishes=(
        Wish(id="w1", year=2027, crop="carrot", amount=40),
        Wish(id="w2", year=2027, crop="leek", amount=30),
    ),
)
TICK = Qt.ItemDataRole.CheckStateRole


@pytest.fixture
def page(reopen: Callable[[Garden], Hand]) -> Callable[..., tuple[Hand, LayoutPage]]:
    def begin(one: Garden = SMALL) -> tuple[Hand, LayoutPage]:
        hand = reopen(one)
        hand.document.show_year(2026)
        hand.do("propose layout")
        return hand, hand.window.pages.layout_page

    return begin


def click(button: Any) -> None:
    assert button.isEnabled()
    assert button.isVisible()
    QTest.mouseClick(button, LEFT)


def searched(qtbot: Any, page: LayoutPage) -> None:
    """Search for two rounds, and wait until it is known why wishes are not met."""
    page.time.show_value(10.0)
    page.search.begin(page._year_shown(), rounds=2)
    qtbot.waitUntil(lambda: page.search.state == "over" and page.search._remarks is not None, timeout=LIMIT)


def rows(page: LayoutPage) -> list[list[str]]:
    model = page.rows
    return [
        [str(model.data(model.index(row, column))) for column in range(model.columnCount())]
        for row in range(model.rowCount())
    ]


def row_of(page: LayoutPage, crop: str) -> int:
    return next(number for number, row in enumerate(rows(page)) if row[0] == crop)


def wished(hand: Hand) -> dict[str, Any]:
    return {one.wish: one for one in hand.garden.plantings if one.wish}


def test_it_is_searched_for_shown_taken_over_and_undone(page, qtbot):
    hand, shown = page()
    assert shown.isVisible()
    assert shown.year.value == 2027
    assert "Nothing in the garden changes" in shown.state.text()
    assert not shown.body.isVisible()
    click(shown.go)
    assert shown.stop.isEnabled()
    assert not shown.go.isEnabled()
    qtbot.waitUntil(lambda: shown.search.found is not None, timeout=LIMIT)
    if shown.search.state == "searching":
        click(shown.stop)
    qtbot.waitUntil(lambda: shown.search.state == "over", timeout=LIMIT)
    assert "3 of 4 wishes are met" in shown.state.text()
    assert "The checks find nothing that stops a planting" in shown.state.text()
    assert hand.steps == 0
    there = rows(shown)
    assert there[0][:2] == ["Potato", "not met"]
    assert sorted(row[0] for row in there[1:4]) == ["Beetroot", "Carrot", "Leek"]
    drawn = [one.cells[0] for one in shown.drawing.picture._shown()]
    assert sorted(drawn) == ["Beetroot", "Carrot", "Garlic", "Leek"]  # the garlic stands till August
    assert shown.take.text() == "Take over all 3 that are met"
    click(shown.take)
    assert set(wished(hand)) == {"w1", "w2", "w3"}
    assert (hand.steps, hand.step) == (1, "Take over a layout of 2027")
    assert "3 wishes are planted as proposed" in shown.state.text()
    assert hand.document.year == 2027
    assert not shown.take.isEnabled()
    hand.document.undo_stack.undo()
    assert hand.garden is SMALL


def test_a_row_is_explained_and_shown_on_the_drawing(page, qtbot):
    hand, shown = page()
    searched(qtbot, shown)
    shown.table.selectRow(row_of(shown, "Carrot"))
    assert shown.why.text().startswith("Carrot, Bed ")
    assert "Other beds: " in shown.why.text() or "would" in shown.why.text()
    assert shown.drawing.picture.chosen == {"w1"}
    shown.table.selectRow(row_of(shown, "Potato"))
    assert shown.why.text().startswith("Potato, not met:")
    assert "room" in shown.why.text()
    leek = next(one for one in shown.rows.rows if one.wish == "w3")
    shown.drawing.show_row(leek)
    picture = shown.drawing.picture
    middle = leek.ground.centroid
    QTest.mouseClick(picture, LEFT, pos=picture.place(middle.x, middle.y).toPoint())
    assert shown.table.currentIndex().row() == row_of(shown, "Leek")
    assert picture.row_at(QPointF(1, 1)) is None
    click(shown.show_there)
    assert hand.window.pages.shows_sheet
    assert hand.selected() == {leek.planting.bed}


def test_only_what_is_ticked_is_taken_over(page, qtbot):
    hand, shown = page()
    searched(qtbot, shown)
    for crop in ("Carrot", "Leek"):
        index = shown.rows.index(row_of(shown, crop), 0)
        assert shown.rows.setData(index, Qt.CheckState.Unchecked, TICK)
    assert shown.take.text() == "Take over the 1 that is ticked"
    click(shown.take)
    assert set(wished(hand)) == {"w2"}
    assert hand.steps == 1
    assert wished(hand)["w2"].pinned
    assert "can still be taken over" in shown.state.text()
    click(shown.none)
    assert shown.rows.ticked == {"w1", "w3"}
    click(shown.take)
    assert set(wished(hand)) == {"w1", "w2", "w3"}
    assert hand.steps == 2
    hand.document.undo_stack.undo()
    assert "planted as proposed" not in shown.state.text()


def test_what_is_pinned_stays_and_the_others_can_still_be_taken_over(page, qtbot):
    hand, shown = page()
    searched(qtbot, shown)
    shown.table.selectRow(row_of(shown, "Leek"))
    where = next(one.planting for one in shown.rows.rows if one.wish == "w3")
    click(shown.pin)
    assert hand.step == "Pin what is proposed"
    pinned = wished(hand)["w3"]
    assert (pinned.pinned, pinned.bed, pinned.plot) == (True, where.bed, where.plot)
    assert not shown.search.is_running
    assert "1 wish is pinned there" in shown.state.text()
    assert rows(shown)[row_of(shown, "Leek")][LayoutRows.STATE] == "pinned"
    click(shown.take)
    assert wished(hand)["w3"] is pinned
    assert set(wished(hand)) == {"w1", "w2", "w3"}
    searched(qtbot, shown)
    shown.table.selectRow(row_of(shown, "Leek"))
    assert shown.pin.text() == "Let it move"
    assert shown.why.text() == f"Leek, Bed {pinned.bed[1:]}: It is pinned there."
    click(shown.pin)
    assert not wished(hand)["w3"].pinned
    shown.search.cancel()


def test_an_edit_ends_the_search_and_what_was_found_is_outdated(page, qtbot):
    hand, shown = page()
    click(shown.go)
    hand.document.edit("Rename", lambda one: edits.change_bed(one, "b1", name="Long bed"))
    assert shown.search.state == "over"
    assert "The garden has changed since" in shown.state.text()
    hand.document.undo_stack.undo()
    searched(qtbot, shown)
    assert shown.take.isEnabled()
    hand.document.edit("Rename", lambda one: edits.change_bed(one, "b1", name="Long bed"))
    assert "The garden has changed since" in shown.state.text()
    assert not shown.take.isEnabled()
    assert not shown.pin.isEnabled()
    shown._take_over()
    assert not wished(hand)
    hand.document.undo_stack.undo()
    assert shown.take.isEnabled()
    hand.document.open(Garden())
    assert shown.search.found is None
    assert "No bed is in use" in shown.state.text()


def test_unlike_layouts_stay_beside_what_is_pinned(page, qtbot):
    """What is pinned of one is planted in all that leave its ground free, and each can be taken over whole."""
    hand, shown = page(edits.add_bed(SMALL, rectangle(4.0, 1.2, center=(0.0, 9.0)), "Bed 3")[0])
    searched(qtbot, shown)
    click(shown.others)
    qtbot.waitUntil(lambda: shown.search.state == "over", timeout=LIMIT)
    before = shown.search.layouts
    assert len(before) > 1
    shown.table.selectRow(row_of(shown, "Leek"))
    click(shown.pin)
    pinned = wished(hand)["w3"]
    after = shown.search.layouts
    ground = next(one.ground for one in before[0].rows if one.wish == "w3")

    def free(layout: FoundLayout) -> bool:
        return not any(
            one.wish != "w3" and one.ground.intersection(ground).area > 1e-3
            for one in layout.rows
            if one.span
        )

    assert len([one for one in before if free(one)]) == len(after or before[:1])
    for one in after:
        there = [row for row in one.rows if row.wish == "w3"]
        assert [row.stays for row in there] == [True]
        assert there[0].planting.plot == pinned.plot
    if after:
        shown.shown.setCurrentIndex(len(after) - 1)
        shown.shown.activated.emit(len(after) - 1)
        click(shown.take)
        assert wished(hand)["w3"] is pinned
        ids = [one.id for one in hand.garden.plantings]
        assert len(ids) == len(set(ids))
        assert set(wished(hand)) == {"w1", "w2", "w3"}


def test_the_page_of_wishes_begins_the_search_once(page, qtbot):
    hand, shown = page()
    hand.window.pages.bring(hand.window.pages.wishes)
    click(hand.window.pages.wishes.layout_button)
    assert shown.isVisible()
    assert shown.search.is_running
    shown.search.stop()
    qtbot.waitUntil(lambda: shown.search.state == "over", timeout=LIMIT)
    found = shown.search.found
    hand.window.pages.bring(hand.window.pages.wishes)
    click(hand.window.pages.wishes.layout_button)
    assert shown.search.found is found
    assert not shown.search.is_running


def test_both_pages_are_of_one_year(page):
    hand, shown = page()
    wishes = hand.window.pages.wishes
    hand.window.pages.bring(wishes)
    assert [wishes.year.itemText(n) for n in range(wishes.year.count())] == ["2026 (shown)", "2027 (next)"]
    wishes.year.show_value(2026)
    wishes.year.chosen.emit(2026)
    hand.window.pages.bring(shown)
    assert shown.year.value == 2026
    hand.document.show_year(2028)
    assert shown.year.value == 2029


def test_the_whole_page_fits_a_small_window(page, qtbot):
    hand, shown = page()
    hand.window.resize(1280, 800)
    searched(qtbot, shown)
    shown.table.selectRow(0)
    QTest.qWait(50)
    for part in (shown.go, shown.drawing, shown.table, shown.why, shown.take, shown.fill):
        corner = part.mapTo(shown, part.rect().bottomRight())
        assert corner.y() <= shown.height(), part.accessibleName()
    assert shown.drawing.picture.height() >= 170


def test_without_wishes_or_beds_it_says_what_to_do(page):
    hand, shown = page(edits.remove_wishes(SMALL, ["w1", "w2", "w3", "w4"]))
    assert "No wishes for 2027 yet" in shown.state.text()
    assert not shown.go.isEnabled()
    click(shown.wishes)
    assert hand.window.pages.wishes.isVisible()
    hand, shown = page(Garden())
    assert "No bed is in use in" in shown.state.text()
    assert not shown.go.isEnabled()


def test_only_the_selected_beds_are_planned(page, qtbot):
    hand, shown = page()
    hand.document.select(["b2"])
    assert [shown.beds.itemText(n) for n in range(shown.beds.count())] == ["all beds", "1 selected bed"]
    shown.beds.show_value("selected")
    click(shown.go)
    qtbot.waitUntil(lambda: shown.search.found is not None, timeout=LIMIT)
    assert {one.bed for one in shown.search.found.plantings} == {"b2"}
    shown.search.cancel()


def test_weights_are_steps_of_the_garden(page):
    hand, shown = page()
    click(shown.what_counts)
    slider = shown.weights.sliders["walking"]
    assert slider.isVisible()
    slider.setFocus()
    QTest.keyClick(slider, Qt.Key.Key_Right)
    assert hand.garden.site.layout_weights.walking == "much"
    assert slider.accessibleDescription() == "counts much"
    QTest.keyClick(shown.weights.limits["within_benches"], Qt.Key.Key_Space)
    assert hand.garden.site.layout_weights.within_benches
    hand.document.undo_stack.undo()
    hand.document.undo_stack.undo()
    assert hand.garden is SMALL
    assert slider.value() == 1
    click(shown.what_counts)


def test_every_weight_has_its_slider_and_its_plain_name():
    described = {name: field.description for name, field in LayoutWeights.model_fields.items()}
    assert {**WEIGHT_WORDS, **LIMIT_WORDS}.keys() == described.keys()
    for name, words in WEIGHT_WORDS.items():
        assert described[name] == f"{words}."


# -- the other process ---------------------------------------------------------------------------------


def test_without_the_solver_the_first_answer_is_judged_and_says_so(monkeypatch):
    monkeypatch.setitem(sys.modules, "ortools", None)
    monkeypatch.setitem(sys.modules, "ortools.sat.python", None)
    *found, whys, remarks = Answering().answers(LayoutTask(SMALL, 2027, rounds=2), lambda: False)
    assert isinstance(found[-1], FoundLayout)
    assert found[-1].judged
    assert not found[-1].solver
    assert any("pip install ortools" in line for line in found[-1].lines)
    assert isinstance(whys, Whys)
    assert set(whys.lines) == {"w4"}
    assert isinstance(remarks, Remarks)


def test_unlike_layouts_are_shown_in_turn_and_taken_over(page, qtbot):
    hand, shown = page(edits.add_bed(SMALL, rectangle(4.0, 1.2, center=(0.0, 9.0)), "Bed 3")[0])
    assert not shown.others.isVisible()
    searched(qtbot, shown)
    assert not shown.shown.isVisible()
    first = {one.wish: one.planting.bed for one in shown.rows.rows if one.is_proposed}
    click(shown.others)
    assert shown.stop.isEnabled()
    qtbot.waitUntil(lambda: shown.search.state == "over", timeout=LIMIT)
    assert shown.shown.isVisible()
    assert shown.shown.value == 0
    shown.shown.setCurrentIndex(1)
    shown.shown.activated.emit(1)
    other = {one.wish: one.planting.bed for one in shown.rows.rows if one.is_proposed}
    moved = sum(first.get(wish) != other.get(wish) for wish in {*first, *other})
    assert moved >= 1
    assert str(moved) in shown.shown.currentText()
    shown.table.selectRow(row_of(shown, "Potato"))
    assert "room" in shown.why.text()
    click(shown.take)
    assert {wish: one.bed for wish, one in wished(hand).items()} == other
    assert hand.steps == 1


def test_unlike_layouts_are_of_one_that_was_found():
    told = list(Answering().answers(UnlikeTask(), lambda: False))
    assert isinstance(told[0], Failed)


def test_the_process_ends_by_itself_and_is_begun_again():
    process = LayoutProcess()
    try:
        process.begin()
        assert process._process is not None
        process._process.kill()
        process._process.wait()
        told = list(process.search(LayoutTask(Garden(), 2027, rounds=1), lambda: False))
        assert isinstance(told[0], FoundLayout)
        assert told[0].rows == ()
        running = process.search(LayoutTask(SMALL, 2027, rounds=1), lambda: False)
        next(running)
        process._process.kill()
        last = list(running)[-1]
        assert isinstance(last, (Failed, Whys))
        ended = process.search(LayoutTask(SMALL, 2027, seconds=600.0), lambda: True)
        assert list(ended) == []
        assert process._process is None
    finally:
        process.close()


def test_the_other_process_knows_nothing_of_qt():
    code = "import sys; import planner.desk.model.layout_process; print('PySide6' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_what_lies_bare_never_lies_over_the_list(page, qtbot):
    hand, shown = page(MANY_BARE)
    hand.window.resize(1280, 800)
    searched(qtbot, shown)
    qtbot.waitUntil(lambda: shown.why.isVisible(), timeout=LIMIT)
    assert shown.why.text().count("\n") >= 8
    QTest.qWait(50)
    line = shown.why.label.fontMetrics().lineSpacing()
    assert shown.why.height() <= line * (WHY_LINES + 1)
    bar = shown.why.verticalScrollBar()
    assert bar.maximum() > 0  # the rest of the words can be scrolled to
    table = shown.table.mapTo(shown, shown.table.rect().bottomLeft()).y()
    assert shown.why.mapTo(shown, shown.why.rect().topLeft()).y() > table
    last = shown.rows.rowCount() - 1
    shown.table.scrollToBottom()
    at = shown.table.visualRect(shown.rows.index(last, 0)).center()
    viewport = shown.table.viewport()
    whole = hand.window
    assert whole.childAt(viewport.mapTo(whole, at)) is viewport
    QTest.mouseClick(viewport, LEFT, pos=at)
    assert [one.row() for one in shown.table.selectionModel().selectedRows()] == [last]
    few = shown.why.height()
    shown.table.clearSelection()
    assert shown.why.height() > few
