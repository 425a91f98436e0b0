"""The settings: one page that shows and changes what the menus do, remembers it, and puts it back."""

from __future__ import annotations

import pytest
from hand import FakePrompts, Hand
from making import bed, garden
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner.desk.main_window import docks as docks_module
from planner.desk.main_window.settings_dialog import SettingsDialog
from planner.desk.main_window.window import Window
from planner.desk.model.document import Document
from planner.desk.model.preferences import CHOICES, SWITCHES
from planner.desk.theme.palette import CONTRAST, LIGHT
from planner.garden import Garden


@pytest.fixture
def dialog(hand: Hand):
    hand.window.look.choose("light")
    hand.window.action("settings").trigger()
    yield hand.window.findChild(SettingsDialog)
    hand.window.look.rest(False)
    hand.window.look.choose("light")


def test_every_preference_has_its_field_and_its_sentence(dialog: SettingsDialog) -> None:
    assert set(dialog.choices) == set(CHOICES)
    assert set(dialog.switches) == set(SWITCHES)
    for name, field in dialog.choices.items():
        assert field.values == CHOICES[name]
    for field in (*dialog.choices.values(), *dialog.switches.values()):
        assert field.accessibleDescription().endswith(".")
    assert [
        box for box in (dialog.layout_button, dialog.recent_button) if not box.accessibleDescription()
    ] == []


def test_a_change_holds_at_once_and_in_the_next_window(dialog: SettingsDialog, hand: Hand, settings) -> None:
    window = hand.window
    field = dialog.choices["look"]
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_End)  # the last choice
    assert window.look.now is CONTRAST
    assert window.action("look contrast").isChecked()
    QTest.keyClick(dialog.switches["snap"], Qt.Key.Key_Space)
    assert not window.view.snapping
    window.action("grid").trigger()
    assert not dialog.switches["grid"].isChecked()
    QTest.keyClick(dialog.switches["less motion"], Qt.Key.Key_Space)
    assert window.pages.player.less_motion
    assert window.look.still
    other = Window(settings, FakePrompts(), Document())
    try:
        assert (other.look.now, other.look.still) == (CONTRAST, True)
        assert (other.view.snapping, other.view.grid_shown, other.view.zoom_at_pointer) == (
            False,
            False,
            True,
        )
    finally:
        other.close()
        other.deleteLater()


def test_reset_gives_everything_its_first_value(dialog: SettingsDialog, hand: Hand) -> None:
    window, preferences = hand.window, hand.window.files.preferences
    for name, values in CHOICES.items():
        preferences.choose(name, values[-1])
    for name, first in SWITCHES.items():
        preferences.switch(name, not first)
    assert window.look.now is CONTRAST
    dialog.reset_button.click()
    assert {name: preferences.choice(name) for name in CHOICES} == {n: v[0] for n, v in CHOICES.items()}
    assert {name: preferences.is_on(name) for name in SWITCHES} == SWITCHES
    assert (window.look.now, window.look.still, window.view.snapping) == (LIGHT, False, True)
    assert [box.isChecked() for box in dialog.switches.values()] == list(SWITCHES.values())


def test_a_new_garden_is_in_the_units_chosen(hand: Hand) -> None:
    hand.window.files.preferences.choose("units", "feet_inches")
    hand.window.action("new").trigger()
    assert hand.garden.site.units == "feet_inches"
    assert hand.garden.beds == ()
    assert hand.window.start.page.answers.units.value == "feet_inches"
    hand.window.start.close()


@pytest.mark.parametrize("name", [*CHOICES, *SWITCHES])
def test_rubbish_in_the_settings_counts_as_nothing(hand: Hand, name: str) -> None:
    hand.window.settings.setValue(name, "rubbish")
    preferences = hand.window.files.preferences
    if name in CHOICES:
        assert preferences.choice(name) == CHOICES[name][0]
    else:
        assert preferences.is_on(name) is SWITCHES[name]


def test_panels_are_where_they_were_with_the_same_screens(hand: Hand, monkeypatch) -> None:
    window, docks = hand.window, hand.window.docks
    docks._left_dock.hide()
    monkeypatch.setattr(docks_module, "screens_key", lambda: "two screens")
    docks.follow_screens(window.settings)  # never seen: nothing moves
    assert not docks._left_dock.isVisible()
    docks._left_dock.show()
    docks._right_dock.hide()
    monkeypatch.setattr(docks_module, "screens_key", lambda: "another one")
    docks.follow_screens(window.settings)
    docks.reset()
    monkeypatch.setattr(docks_module, "screens_key", lambda: "two screens")
    docks.follow_screens(window.settings)
    assert docks._left_dock.isVisible()
    assert not docks._right_dock.isVisible()


def test_the_gardens_used_last_can_be_forgotten(dialog: SettingsDialog, hand: Hand, tmp_path) -> None:
    files = hand.window.files
    files._remember(tmp_path / "mine.bedwright")
    dialog.recent_button.click()
    assert files.recent() == []
    assert hand.document.garden == Garden()


def test_the_page_fits_a_small_screen_and_scrolls_to_the_focus(dialog: SettingsDialog, qapp) -> None:
    dialog.resize(320, 300)
    qapp.processEvents()
    assert dialog.size().toTuple() == (320, 300)
    dialog.recent_button.setFocus(Qt.FocusReason.TabFocusReason)
    qapp.processEvents()
    place = dialog.recent_button.mapTo(dialog, dialog.recent_button.rect().center())
    assert dialog.rect().contains(place)
    assert not dialog.recent_button.visibleRegion().isEmpty()


def test_opening_another_garden_keeps_its_units(hand: Hand) -> None:
    hand.window.files.preferences.choose("units", "feet_inches")
    hand.document.open(garden(bed("b1")))
    assert hand.garden.site.units == "metric"
