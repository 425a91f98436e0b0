"""Waiting for warm soil, in the form of a planting: on and off, typed values, and a day set by hand before it."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import Hand
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner import resources
from planner.desk.forms.soil_rule_rows import SoilRuleRows
from planner.garden import SoilRule, edits
from planner.storage import load

pytestmark = pytest.mark.one_window
BEFORE = "A first day or a sowing day that you set by hand comes before this."
BEGUN = {"start": "sown", "covers": (), "pinned_dates": {}, "first": None, "last": None, "soil_rule": None}


@pytest.fixture
def hand(reopen) -> Hand:
    """The first beans of the sample, begun by the calendar."""
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    bean = next(one for one in garden.plantings if one.crop == "dwarf_bean" and one.year == 2026)
    hand = reopen(edits.change_planting(garden, bean.id, **BEGUN))
    hand.document.show_year(2026)
    hand.document.select([bean.id])
    hand.window.docks.details.planting.more.setChecked(True)
    yield hand
    hand.window.docks.details.planting.more.setChecked(False)


def rows_of(hand: Hand) -> SoilRuleRows:
    return hand.window.docks.details.planting.soil


def planting_of(hand: Hand):
    return hand.garden.plantings_by_id[hand.window.docks.details.planting.key]


def choose(hand: Hand, words: str) -> None:
    """Take a choice of the field with the keyboard."""
    field = rows_of(hand).waits
    at = field.findText(words)
    QTest.keyClick(field, Qt.Key.Key_Down if at > field.currentIndex() else Qt.Key.Key_Up)
    assert field.currentText() == words


def enter(field, text: str) -> None:
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def test_it_waits_as_chosen_and_one_undo_takes_each_step_back(hand: Hand) -> None:
    rows, document = rows_of(hand), hand.document
    assert rows.waits.isVisible()
    assert not rows.warmth.isVisible()
    before = document.plan.dates(planting_of(hand)).on_plot.day
    choose(hand, "when the soil is warm")
    rule = planting_of(hand).soil_rule
    assert rule == SoilRule(warmth=10.0, days=3, after=before - dt.timedelta(days=2))
    assert (rows.warmth.text(), rows.days.text()) == ("10.0 °C", "3")
    assert rows.words.text() == BEFORE
    enter(rows.warmth, "12")
    enter(rows.days, "5")
    enter(rows.after, "5 May")
    assert planting_of(hand).soil_rule == SoilRule(warmth=12.0, days=5, after=dt.date(2026, 5, 5))
    begun = document.plan.dates(planting_of(hand)).on_plot
    assert "12 °C for 5 days" in begun.why
    assert begun.day >= dt.date(2026, 5, 9)
    choose(hand, "by the calendar")
    assert planting_of(hand).soil_rule is None
    assert document.plan.dates(planting_of(hand)).on_plot.day == before
    assert not rows.warmth.isVisible()
    for _ in range(5):
        document.undo_stack.undo()
    assert planting_of(hand).soil_rule is None


def test_what_cannot_be_is_refused_beside_its_field(hand: Hand) -> None:
    rows = rows_of(hand)
    choose(hand, "when the soil is warm")
    rule = planting_of(hand).soil_rule
    for field, text in ((rows.warmth, "50"), (rows.days, "0"), (rows.days, "two"), (rows.after, "soon")):
        enter(field, text)
        assert field.is_wrong, text
        assert field.why_wrong
        assert planting_of(hand).soil_rule == rule
        field.restore()
    enter(rows.after, "1 May")
    kept = planting_of(hand).soil_rule
    rows.after.clear()
    rows.after.editingFinished.emit()
    assert planting_of(hand).soil_rule == kept  # a rule has an earliest day
    assert rows.after.text() == "1 May 2026"


def test_a_day_set_by_hand_comes_before_it_and_the_form_says_so(hand: Hand) -> None:
    rows, form = rows_of(hand), hand.window.docks.details.planting
    choose(hand, "when the soil is warm")
    enter(form.first, "20 May")
    assert hand.document.plan.dates(planting_of(hand)).on_plot.day == dt.date(2026, 5, 20)
    assert rows.words.text().startswith("Its day is set by hand and comes before this")
    enter(form.first, "")
    form.first.clear()
    form.first.editingFinished.emit()
    assert rows.words.text() == BEFORE


def test_it_is_read_and_shown_in_fahrenheit_where_the_garden_has_feet(hand: Hand) -> None:
    rows = rows_of(hand)
    choose(hand, "when the soil is warm")
    hand.document.edit("units", lambda garden: edits.change_site(garden, units="feet_inches"))
    assert rows.warmth.text() == "50.0 °F"
    enter(rows.warmth, "59")
    assert planting_of(hand).soil_rule.warmth == pytest.approx(15.0)


def test_the_short_form_shows_it_where_it_waits(hand: Hand) -> None:
    rows, form = rows_of(hand), hand.window.docks.details.planting
    form.more.setChecked(False)
    assert not rows.waits.isVisible()
    form.more.setChecked(True)
    choose(hand, "when the soil is warm")
    form.more.setChecked(False)
    assert all(one.isVisible() for one in (rows.waits, rows.warmth, rows.days, rows.after, rows.words))
