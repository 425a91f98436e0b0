"""Covers of plantings and dressings of beds as lists in the forms."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import Hand, stand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner.amounts.tasks import tasks
from planner.desk.forms.cover_rows import CoverRows
from planner.desk.forms.dressing_rows import DressingRows
from planner.garden import Dressing

pytestmark = pytest.mark.one_window


@pytest.fixture
def hand(open_hand) -> Hand:
    made = garden(
        bed("b1", rectangle(), name="North"),
        bed("b2", rectangle(center=(0, -3)), name="South"),
        planting("p1", first="2026-04-01", last="2026-09-01"),
        dressings=(
            Dressing(id="d1", bed="b1", kind="compost", day=dt.date(2026, 3, 10), depth=0.05),
            Dressing(id="d2", bed="b2", kind="compost", day=dt.date(2026, 3, 10), depth=0.05),
            Dressing(id="d3", bed="b2", kind="straw", day=dt.date(2026, 6, 10), depth=0.1),
        ),
    )
    made, _ = stand(made, "b2", "kale", first="2026-05-01", last="2026-11-01")
    hand = open_hand(made)
    hand.document.show_year(2026)
    hand.window.pages.show_sheet()
    return hand


# -- covers -------------------------------------------------------------------------------------------------


def cover_rows(hand: Hand, *keys: str) -> CoverRows:
    hand.document.select(keys)
    details = hand.window.docks.details
    return (details.planting if len(keys) == 1 else details.plantings).covers


def covers(hand: Hand, key: str = "p1"):
    return hand.garden.plantings_by_id[key].covers


def test_a_cover_is_made_changed_and_taken_away_each_as_one_step(hand: Hand) -> None:
    rows = cover_rows(hand, "p1")
    assert not rows.first.isVisible()
    hand.choose(rows.kind, "fleece")
    hand.type(rows.first, "5 Apr")
    hand.type(rows.last, "2026-05-20")
    hand.type(rows.weight, "30")
    hand.choose(rows.held, "hoops")
    hand.type(rows.height, "60 cm")
    (cover,) = covers(hand)
    assert (cover.kind, cover.first, cover.last) == ("fleece", dt.date(2026, 4, 5), dt.date(2026, 5, 20))
    assert (cover.weight, cover.held, cover.height) == (30, "hoops", pytest.approx(0.6))
    assert hand.steps == 6
    assert "fleece of 30 g/m²" in rows.words.text()
    assert "hoops of" in rows.words.text()
    hand.choose(rows.kind, "netting")
    assert (covers(hand)[0].weight, covers(hand)[0].held) == (None, "hoops")
    hand.type(rows.mesh, "0.8")
    assert covers(hand)[0].mesh == pytest.approx(0.0008)
    hand.choose(rows.kind, "film")
    assert (covers(hand)[0].mesh, covers(hand)[0].held, covers(hand)[0].height) == (None, None, None)
    assert not rows.held.isVisible()
    hand.choose(rows.kind, None)
    assert covers(hand) == ()
    assert hand.steps == 10


def test_a_planting_has_several_covers_of_which_one_is_shown(hand: Hand) -> None:
    rows = cover_rows(hand, "p1")
    assert not rows.add.isVisible()
    hand.choose(rows.kind, "fleece")
    assert not rows.which.isVisible()
    QTest.mouseClick(rows.add, Qt.MouseButton.LeftButton)
    assert rows.which.currentText() == "2: new"
    assert hand.steps == 1
    hand.choose(rows.kind, "netting")
    hand.type(rows.first, "2026-06-01")
    assert [cover.kind for cover in covers(hand)] == ["fleece", "netting"]
    hand.choose(rows.which, 0)
    assert rows.kind.currentText() == "fleece"
    hand.choose(rows.kind, None)
    assert [(cover.kind, cover.first) for cover in covers(hand)] == [("netting", dt.date(2026, 6, 1))]


def test_days_that_cannot_be_are_refused_in_one_line(hand: Hand) -> None:
    rows = cover_rows(hand, "p1")
    hand.choose(rows.kind, "fleece")
    hand.type(rows.first, "2026-06-01")
    before = hand.garden
    hand.type(rows.last, "2026-05-01")
    assert hand.garden is before
    assert rows.last.is_wrong
    assert "before its first" in hand.message()
    hand.type(rows.weight, "1000")
    assert hand.garden is before
    assert rows.weight.is_wrong


def test_several_plantings_are_covered_at_once(hand: Hand) -> None:
    rows = cover_rows(hand, "p1", "p2")
    hand.choose(rows.kind, "netting")
    hand.type(rows.mesh, "7")
    assert [cover.mesh for key in ("p1", "p2") for cover in covers(hand, key)] == [0.007, 0.007]
    assert hand.steps == 2
    only = cover_rows(hand, "p2")
    hand.type(only.mesh, "1.35")
    rows = cover_rows(hand, "p1", "p2")
    assert (rows.mesh.text(), rows.mesh.placeholderText()) == ("", "several")
    hand.choose(rows.kind, None)
    assert covers(hand, "p1") == covers(hand, "p2") == ()


def test_days_worked_out_stand_as_hints(hand: Hand) -> None:
    rows = cover_rows(hand, "p1")
    hand.choose(rows.kind, "fleece")
    assert rows.first.placeholderText() == "1 Apr 2026"
    assert rows.first.text() == ""


# -- dressings ----------------------------------------------------------------------------------------------


def dressing_rows(hand: Hand, *keys: str) -> DressingRows:
    hand.document.select(keys)
    details = hand.window.docks.details
    return (details.bed if len(keys) == 1 else details.many).dressings


def test_a_bed_s_dressing_is_changed_with_one_step_each(hand: Hand) -> None:
    rows = dressing_rows(hand, "b1")
    assert rows.kind.currentText() == "compost"
    # 4.8 m x 1.2 m x 5 cm
    assert rows.words.text() == "288 l (about 3 barrows) on 5.76 m²"
    hand.type(rows.measure, "3")
    hand.type(rows.day, "2026-03-20")
    hand.choose(rows.over, "p1")
    hand.type(rows.done, "2026-03-21")
    hand.type(rows.notes, "sieved")
    one = hand.garden.dressings[0]
    assert (one.depth, one.day, one.planting) == (pytest.approx(0.03), dt.date(2026, 3, 20), "p1")
    assert (one.done, one.notes, hand.steps) == (dt.date(2026, 3, 21), "sieved", 5)
    hand.choose(rows.kind, None)
    assert [each.id for each in hand.garden.dressings] == ["d2", "d3"]


def test_several_dressings_of_a_bed_are_a_list_and_more_are_added(hand: Hand) -> None:
    rows = dressing_rows(hand, "b2")
    assert [rows.which.itemText(n) for n in range(rows.which.count())] == [
        "compost, 5 cm, 10 Mar",
        "straw, 10 cm, 10 Jun",
    ]
    hand.choose(rows.which, 1)
    assert rows.kind.currentText() == "straw"
    QTest.mouseClick(rows.add, Qt.MouseButton.LeftButton)
    hand.choose(rows.kind, "manure")
    one = hand.garden.dressings[-1]
    assert (one.kind, one.bed, one.depth) == ("manure", "b2", 0.05)
    assert one.day == dt.date(2026, 4, 17)  # two weeks before the kale
    assert rows.kind.currentText() == "manure"
    assert hand.steps == 1


def test_lime_asks_for_a_soil_test_until_its_rate_is_typed(hand: Hand) -> None:
    rows = dressing_rows(hand, "b1")
    QTest.mouseClick(rows.add, Qt.MouseButton.LeftButton)
    hand.choose(rows.kind, "lime")
    assert hand.steps == 0
    assert "Have the soil tested" in rows.words.text()
    hand.type(rows.measure, "5 cm")
    assert rows.measure.is_wrong
    hand.type(rows.measure, "150")
    assert hand.garden.dressings[-1].rate == 150
    assert hand.steps == 1
    assert rows.words.text() == "864 g on 5.76 m²"


@pytest.mark.own_window
def test_compost_does_not_become_lime_without_a_rate(hand: Hand) -> None:
    rows = dressing_rows(hand, "b1")
    hand.choose(rows.kind, "lime")
    assert hand.steps == 0
    assert "Have the soil tested" in hand.message()
    assert rows.kind.currentText() == "compost"


def test_what_is_alike_on_several_beds_is_changed_on_all_as_one_step(hand: Hand) -> None:
    rows = dressing_rows(hand, "b1", "b2")
    assert rows.which.itemText(0) == "compost, 5 cm, 10 Mar"
    hand.type(rows.measure, "2 cm")
    assert [one.depth for one in hand.garden.dressings] == [0.02, 0.02, 0.1]
    assert hand.steps == 1
    QTest.mouseClick(rows.add, Qt.MouseButton.LeftButton)
    hand.choose(rows.kind, "feed")
    hand.type(rows.measure, "80 g/m2")
    assert [(one.bed, one.rate) for one in hand.garden.dressings[3:]] == [("b1", 80.0), ("b2", 80.0)]
    assert len({one.day for one in hand.garden.dressings[3:]}) == 1
    assert hand.steps == 2
    hand.choose(rows.kind, None)
    assert len(hand.garden.dressings) == 3
    assert hand.steps == 3


def test_without_a_bed_among_several_things_nothing_is_asked(hand: Hand) -> None:
    rows = dressing_rows(hand, "b1", "p2")
    assert rows.kind.isVisible()
    hand.document.select(["p1", "p2"])
    assert not rows.kind.isVisible()


# -- the week's work ----------------------------------------------------------------------------------------


def test_what_is_spread_is_ticked_off_on_the_year_page(hand: Hand) -> None:
    hand.document.show_day(dt.date(2026, 3, 10))
    page = hand.window.pages.year
    hand.window.pages.bring(page)
    line = next(task for task in page.shown if task.dressing == "d1")
    page._tick(line, True, dt.date(2026, 3, 12))
    assert hand.garden.dressings[0].done == dt.date(2026, 3, 12)
    (done,) = (task for task in page.shown if task.dressing == "d1")
    assert done.done == dt.date(2026, 3, 12)
    page._tick(done, False, dt.date(2026, 3, 12))
    assert hand.garden.dressings[0].done is None
    assert hand.steps == 2


def test_the_year_page_follows_a_dressing_that_stands_for_a_mulch(hand: Hand) -> None:
    page = hand.window.pages.year
    hand.window.pages.bring(page)
    first, last = hand.document.plan.span.first, hand.document.plan.span.last
    assert page._work.between(hand.document.plan, first, last) == tasks(hand.document.plan, first, last)
    made = hand.garden.with_(dressings=())
    hand.document.edit("Spread nothing", lambda _garden: made)
    assert page._work.between(hand.document.plan, first, last) == tasks(hand.document.plan, first, last)
