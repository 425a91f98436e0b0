"""The form of a planting: short first, all of it on request, every field explained."""

from __future__ import annotations

import pytest
from hand import Hand, stand
from making import bed, garden, rectangle
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner.desk.forms.fields import ChoiceField, NotesField, TypedField
from planner.desk.forms.planting_form import PlantingForm
from planner.garden import edits

pytestmark = pytest.mark.own_window


@pytest.fixture
def hand(open_hand) -> Hand:
    made, _ = stand(garden(bed("b1", rectangle(), name="North")), "b1", "carrot")
    made, _ = stand(made, "b1", "kale", purpose="store", covers=({"kind": "netting"},))
    hand = open_hand(made)
    hand.document.show_year(2026)
    hand.document.select(["p1"])
    return hand


def shown(form: PlantingForm) -> set[str]:
    """Names of the fields that can be seen."""
    kinds = (TypedField, ChoiceField, NotesField)
    return {each.accessibleName() for kind in kinds for each in form.findChildren(kind) if each.isVisible()}


SHORT = {
    "Variety",
    "Arrangement",
    "Number of rows",
    "Plot begins at",
    "Plot ends at",
    "First day",
    "Last day",
}


def test_what_where_when_and_how_many_come_first_and_the_rest_stays_as_chosen(hand: Hand) -> None:
    form = hand.window.docks.details.planting
    assert shown(form) == SHORT
    QTest.keyClick(form.more, Qt.Key.Key_Space)
    assert {"Purpose", "Kind of cover", "Support", "Notes on the planting"} < shown(form)
    hand.document.select(["p2"])
    assert "Support" in shown(form)
    assert hand.window.settings.value("planting/more", type=bool) is True
    QTest.keyClick(form.more, Qt.Key.Key_Space)
    hand.document.select(["p1"])
    assert shown(form) == SHORT


def test_what_differs_from_the_usual_is_shown_all_the_same(hand: Hand) -> None:
    form = hand.window.docks.details.planting
    hand.document.select(["p2"])
    assert {"Purpose", "Kind of cover"} == shown(form) - SHORT - {
        "Day on which it is laid",
        "Day on which it comes off",
        "How it is held",
        "Mesh of the net",
    }
    hand.choose(form.purpose, "kitchen")
    assert "Purpose" in shown(form), "it stays where it was while the same planting is shown"
    hand.document.select(["p1"])
    hand.document.select(["p2"])
    assert "Purpose" not in shown(form)
    hand.document.edit(
        "Turn", lambda g: edits.change_planting(g, "p2", arrangement={"kind": "rows", "turn": 90})
    )
    assert "Angle of the rows" in shown(form)


def test_every_field_explains_itself_on_hover_and_to_a_screen_reader(hand: Hand) -> None:
    form = hand.window.docks.details.planting
    for kind in (TypedField, ChoiceField, NotesField):
        for field in form.findChildren(kind):
            assert len(field.accessibleDescription()) > 20, field.accessibleName()
            assert "<span>" in field.toolTip(), field.accessibleName()
