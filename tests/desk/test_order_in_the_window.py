"""Mirror, space, match, array and lock in the window; several things and several plantings in one form."""

from __future__ import annotations

import pytest
from hand import Hand, near, stand
from making import bed, garden, rectangle
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner.garden import Circle, Structure


@pytest.fixture
def beds(open_hand) -> Hand:
    """Three beds, a round one, and a shed."""
    made = garden(
        bed("b1", rectangle(2.0, 1.0, center=(-3.0, 1.0)), name="One"),
        bed("b2", rectangle(1.0, 3.0, center=(-1.2, 1.0)), name="Two"),
        bed("b3", rectangle(2.0, 1.0, center=(3.0, 1.0)), name="Three"),
        bed("b4", Circle(radius=0.6, center=(0.5, -2.0)), name="Round"),
        structures=(Structure(id="s1", kind="shed", outline=rectangle(1.5, 1.5, center=(3, -2)), height=2),),
    )
    return open_hand(made)


def test_commands_put_the_selected_in_order_as_one_step_each(beds: Hand) -> None:
    beds.document.select(["b1", "b2", "b3"])
    beds.do("space across")
    assert near(beds.bed("Two").outline.center, (0.0, 1.0))
    beds.do("match size")
    assert near((beds.bed("Two").outline.length, beds.bed("Two").outline.width), (2.0, 1.0))
    beds.document.select(["b3", "b4"])
    beds.do("mirror up")
    assert near(beds.bed("Round").outline.center, (0.5, 0.9), 1e-5)
    assert beds.steps == 3
    assert beds.step == "Mirror 2 beds"


def test_an_array_is_shown_while_it_is_described_and_made_as_one_step(beds: Hand) -> None:
    from planner.desk.main_window.array_dialog import ArrayDialog

    beds.document.select(["b1"])
    beds.do("array")
    (dialog,) = beds.window.findChildren(ArrayDialog)
    assert len(beds.garden.beds) == 7  # three more, to be seen on the sheet
    assert near(beds.garden.beds[-1].outline.center, (-3.0, 1.0 - 3 * 1.6))
    dialog.arc.click()
    assert beds.garden.beds[-1].outline.turn == 90
    dialog.reject()
    assert (len(beds.garden.beds), beds.steps) == (4, 0)
    beds.do("array")
    dialog = beds.window.findChildren(ArrayDialog)[-1]
    dialog.copies.setValue(2)
    beds.type(dialog._fields["distance"], "1.8")
    assert near(beds.garden.beds[-1].outline.center, (-3.0, 1.0 - 2 * 1.8))
    assert (len(beds.garden.beds), beds.steps) == (6, 1)
    assert len(beds.selected()) == 3


def test_a_locked_thing_stays_and_says_so(beds: Hand) -> None:
    beds.document.select(["b1"])
    beds.do("lock")
    form = beds.window.docks.details.bed
    assert form.lock.box.isChecked()
    assert "stays as it is" in form.lock.note.text()
    before = beds.garden
    assert beds.view.handles() == []
    beds.drag((-3.0, 1.0), (-3.0, 3.0))
    assert "One: locked" in beds.said[-1]
    beds.view.setFocus()
    beds.key(Qt.Key.Key_Right)
    beds.do("delete")
    beds.do("turn left")
    assert beds.garden is before
    beds.document.select(["b1", "b3"])
    beds.drag((3.0, 1.0), (3.0, 2.0))
    assert beds.bed("One").outline == before.beds[0].outline
    assert near(beds.bed("Three").outline.center, (3.0, 2.0))
    beds.document.select(["b1"])
    QTest.keyClick(form.lock.box, Qt.Key.Key_Space)
    assert not beds.bed("One").locked


def test_several_beds_and_structures_share_one_form(beds: Hand) -> None:
    beds.document.select(["b1", "b2", "b3", "s1"])
    form = beds.window.docks.details.many
    assert (form.length.text(), form.length.placeholderText()) == ("", "several")
    assert not form.radius.isVisible()
    assert not form.kind.isVisible()
    beds.type(form.wide, "80 cm")  # the shorter side, whichever that is
    assert beds.steps == 1
    assert near((beds.bed("One").outline.width, beds.bed("Two").outline.length), (0.8, 0.8))
    assert near((beds.garden.structures[0].outline.width,), (0.8,))
    beds.document.select(["b1", "b3", "b4"])
    beds.choose(form.kind, "raised")
    assert [each.kind for each in beds.garden.beds] == ["raised", "open", "raised", "raised"]
    beds.type(form.high, "0.4")
    form.lock.box.click()
    assert {each.locked for each in beds.garden.beds if each.kind == "raised"} == {True}
    assert beds.steps == 4


def test_a_years_plantings_are_copied_to_another_with_a_preview(open_hand, qtbot) -> None:
    made = garden(bed("b1", rectangle(), name="North"), bed("b2", rectangle(center=(0, -3)), name="South"))
    made, carrot = stand(made, "b1", "carrot", first="2026-04-10")
    made, _ = stand(made, "b2", "cabbage")
    hand = open_hand(made)
    hand.document.show_year(2026)
    dialog = hand.window.commands.season.copy_year()
    assert (dialog.source.value, dialog.target.value()) == (2026, 2027)
    dialog.target.setValue(2030)
    qtbot.waitUntil(lambda: "come over" in dialog.state.text())
    assert dialog.state.text() == "2 plantings come over"
    row = next(n for n, one in enumerate(dialog.model.plantings) if one.crop == "cabbage")
    dialog.model.tick([row], on=False)
    qtbot.waitUntil(lambda: "1 planting comes over" in dialog.state.text())
    dialog.buttons.button(dialog.buttons.StandardButton.Ok).click()
    new = hand.garden.plantings[-1]
    assert (new.crop, new.year, new.repeats, new.bed) == ("carrot", 2030, carrot, "b1")
    assert str(new.first) == "2030-04-10"
    assert (hand.steps, hand.step, hand.document.year) == (1, "Copy 1 planting to 2030", 2030)
    hand.document.show_year(2026)
    again = hand.window.commands.season.copy_year()  # into the same year there is nothing to copy
    again.target.setValue(2026)
    qtbot.waitUntil(lambda: "another year" in again.state.text())
    again.reject()
