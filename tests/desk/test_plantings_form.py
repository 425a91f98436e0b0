"""Several plantings edited at once: what they share is shown, what differs says so, one step changes all."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import Hand, stand
from making import bed, garden, rectangle
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner.desk.forms.plantings_form import PlantingsForm

pytestmark = pytest.mark.one_window


@pytest.fixture
def hand(open_hand) -> Hand:
    made = garden(bed("b1", rectangle(), name="North"), bed("b2", rectangle(center=(0, -3)), name="South"))
    made, _ = stand(
        made,
        "b1",
        "carrot",
        tended_by="Ann",
        notes="Early",
        covers=({"kind": "fleece", "first": "2026-04-01"},),
    )
    made, _ = stand(made, "b2", "onion", tended_by="Ben", first="2026-04-10")
    made, _ = stand(made, "b2", "kale", tended_by="Ann", purpose="store", last="2026-11-01")
    hand = open_hand(made)
    hand.document.show_year(2026)
    hand.document.select(["p1", "p2"])
    return hand


def form(hand: Hand) -> PlantingsForm:
    return hand.window.docks.details.plantings


def each(hand: Hand, name: str):
    return [getattr(planting, name) for planting in hand.garden.plantings]


def test_what_they_have_in_common_is_shown_and_what_differs_says_so(hand: Hand) -> None:
    shown = form(hand)
    assert hand.window.docks.details.stack.currentWidget() is shown
    assert shown.heading.text() == "2 plantings"
    assert "North and South" in shown.under.text()
    assert "Carrot and onion" in shown.counts.text()
    assert shown.purpose.currentText() != ""
    assert (shown.tended.text(), shown.tended.placeholderText()) == ("", "several")
    assert (shown.first.text(), shown.first.placeholderText()) == ("", "several")
    assert (shown.last.text(), shown.last.placeholderText()) == ("", "worked out")
    assert (shown.covers.kind.currentIndex(), shown.covers.kind.placeholderText()) == (-1, "several")
    assert "differ" in shown.notes.placeholderText()
    hand.document.select(["p1", "p3"])
    assert shown.tended.text() == "Ann"
    assert (shown.purpose.currentIndex(), shown.purpose.placeholderText()) == (-1, "several")


def test_all_are_covered_as_one_step_each_on_its_own_days(hand: Hand) -> None:
    hand.choose(form(hand).covers.kind, "netting")
    covers = each(hand, "covers")
    assert [cover.kind for (cover,) in covers[:2]] == ["netting", "netting"]
    assert covers[0][0].first == dt.date(2026, 4, 1)
    assert covers[2] == ()
    assert (hand.steps, hand.step) == (1, "Change the cover of 2 plantings")
    assert form(hand).covers.kind.currentText() == "netting"
    hand.do("undo")
    assert [len(cover) for cover in each(hand, "covers")] == [1, 0, 0]
    assert form(hand).covers.kind.currentIndex() == -1


def test_days_are_given_to_all(hand: Hand) -> None:
    hand.type(form(hand).first, "2026-05-02")
    assert each(hand, "first") == [dt.date(2026, 5, 2), dt.date(2026, 5, 2), None]
    assert hand.steps == 1
    hand.type(form(hand).first, "")
    assert each(hand, "first") == [None, None, None]
    hand.type(form(hand).picked, "2026-08-01")
    assert [pins.first_harvest for pins in each(hand, "pinned_dates")] == [dt.date(2026, 8, 1)] * 2 + [None]


def test_a_day_that_one_refuses_changes_none_and_stays_to_be_corrected(hand: Hand) -> None:
    hand.document.select(["p1", "p3"])
    before = hand.garden
    hand.type(form(hand).first, "2026-12-02")
    assert hand.garden is before
    assert "kale" in hand.message()
    assert form(hand).first.text() == "2026-12-02"
    assert form(hand).first.is_wrong


def test_who_tends_them_is_changed_for_all(hand: Hand) -> None:
    hand.type(form(hand).tended, "Cleo")
    assert each(hand, "tended_by") == ["Cleo", "Cleo", "Ann"]


def test_leaving_a_mixed_field_empty_changes_nothing(hand: Hand) -> None:
    hand.type(form(hand).tended, "")
    hand.type(form(hand).first, "")
    assert hand.steps == 0


def write(hand: Hand, text: str) -> None:
    notes = form(hand).notes
    notes.setFocus()
    notes.selectAll()
    QTest.keyClicks(notes, text)
    QTest.keyClick(notes, Qt.Key.Key_Tab)


def test_a_note_is_added_to_notes_that_differ(hand: Hand) -> None:
    write(hand, "Water")
    assert each(hand, "notes") == ["Early\nWater", "Water", ""]
    assert hand.steps == 1
    assert form(hand).notes.toPlainText() == ""


def test_a_note_they_share_is_changed(hand: Hand) -> None:
    hand.document.select(["p2", "p3"])
    write(hand, "Late")
    assert each(hand, "notes") == ["Early", "Late", "Late"]
    write(hand, "Later")
    assert each(hand, "notes") == ["Early", "Later", "Later"]


def test_beds_among_them_show_the_form_of_several_things(hand: Hand) -> None:
    hand.document.select(["b1", "p2"])
    assert hand.window.docks.details.stack.currentWidget() is hand.window.docks.details.many


def test_start_season_and_spacing_of_all_are_changed_as_one_step_each(hand: Hand) -> None:
    shown = form(hand)
    assert (shown.in_row.text(), shown.in_row.placeholderText()) == ("", "as published")
    hand.type(shown.in_row, "12")
    hand.choose(shown.start, "raised")
    hand.choose(shown.timing, "spring")
    assert hand.steps == 3
    changed = [(p.arrangement.in_row_spacing, p.start, p.timing) for p in hand.garden.plantings]
    assert changed[:2] == [(0.12, "raised", "spring")] * 2
    assert changed[2] == (None, None, None)
