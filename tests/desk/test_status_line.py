"""A line in the status bar goes away when it was answered."""

from __future__ import annotations

import pytest
from hand import Hand, stand
from making import bed, garden, rectangle
from PySide6.QtCore import Qt

pytestmark = pytest.mark.one_window


@pytest.fixture
def beds(open_hand) -> Hand:
    made, _ = stand(
        garden(bed("b1", rectangle(), name="North"), bed("b2", rectangle(center=(0, -3)))), "b1", "carrot"
    )
    hand = open_hand(made)
    hand.document.show_year(2026)
    return hand


def test_a_line_that_asks_for_a_selection_goes_with_the_selection(beds: Hand) -> None:
    beds.view.take_tool("support")
    beds.click((0.0, -3.0))
    assert "Select the planting first" in beds.message()
    beds.document.select(["p1"])
    assert beds.message() == ""


def test_a_refusal_goes_with_the_next_step(beds: Hand) -> None:
    beds.document.edit_refused.emit("That is not possible")
    assert beds.message() == "That is not possible"
    beds.click((0.0, -3.0))
    beds.key(Qt.Key.Key_Right)
    assert beds.message() == ""


def test_what_a_step_says_of_itself_stays(beds: Hand) -> None:
    beds.drop("onion", [(0.0, -3.0)])
    assert "Planted" in beds.message()


def test_the_hint_of_a_gesture_goes_with_it(beds: Hand) -> None:
    beds.view.take_tool("measure")
    beds.press((-1.0, -1.0))
    hint = beds.view.gesture.hint
    beds.view.say(hint)
    beds.move((1.0, -1.0))
    beds.view.end_gesture()
    assert hint
    assert beds.message() != hint


def test_a_complaint_goes_when_the_text_is_put_right(beds: Hand) -> None:
    beds.document.select(["b1"])
    field = beds.window.docks.details.bed.name
    beds.document.select(["p1"])
    field = beds.window.docks.details.planting.in_row
    beds.type(field, "wide")
    assert "'wide' is no length" in beds.message()
    field.restore()
    assert beds.message() == ""


def test_a_complaint_that_was_followed_by_news_leaves_the_news(beds: Hand) -> None:
    beds.document.select(["p1"])
    field = beds.window.docks.details.planting.in_row
    beds.type(field, "wide")
    beds.window.status.say("Bed sheets written")
    field.restore()
    assert beds.message() == "Bed sheets written"
