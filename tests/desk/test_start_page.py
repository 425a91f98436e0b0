"""The card with which the program begins, worked with keys and the pointer."""

from __future__ import annotations

import os
import shutil
import time
from pathlib import Path

import pytest
from hand import LIMIT, FakePrompts, Hand
from making import bed, garden, planting
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QRadioButton

from planner import resources
from planner.desk.main_window.prompts import Prompts
from planner.desk.pages.start_page import StartPage
from planner.garden import Garden

KEY = Qt.Key
SHIFT_CTRL = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier


class Keys:
    """Presses keys where the focus is, and counts them, those that are held down too."""

    def __init__(self) -> None:
        self.count = 0

    def press(self, key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self.count += 1 + bin(held.value).count("1")
        QTest.keyClick(QApplication.focusWidget(), key, held)
        QApplication.processEvents()

    def type(self, text: str) -> None:
        for sign in text:
            self.count += 1
            QTest.keyClicks(QApplication.focusWidget(), sign)


def started(hand: Hand) -> StartPage:
    hand.window.start.show()
    QApplication.processEvents()
    page = hand.window.start.page
    assert page is not None
    return page


class NamedBySuggestion(FakePrompts):
    """Lets the real dialog ask where to save."""

    save_path = Prompts.save_path


def test_from_the_first_start_to_the_first_sheet_takes_25_keys_and_one_drag(
    hand: Hand, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    started(hand)
    keys = Keys()
    keys.type("52 n")  # where
    keys.press(KEY.Key_Tab)
    keys.press(KEY.Key_Tab)  # units
    keys.type("15.5")
    keys.press(KEY.Key_Tab)
    keys.type("10.10")
    keys.press(KEY.Key_Return)  # three boxes, as proposed
    assert hand.window.start.page is None
    assert (hand.steps, hand.step) == (1, "Begin the garden")
    assert (hand.garden.site.latitude, hand.garden.climate.risk) == (52.0, 50)
    assert hand.garden.climate.last_frost is not None
    assert hand.garden.climate.last_frost.risk_50 == "05-15"
    assert hand.garden.climate.first_frost is not None
    assert hand.garden.climate.first_frost.risk_50 == "10-10"
    assert hand.drop("lettuce", [hand.bed("Box 2").outline.center])  # the one drag
    assert len(hand.garden.plantings) == 1

    waiting = QTimer(hand.window)

    def accept_the_name() -> None:
        dialog, at = QApplication.activeModalWidget(), QApplication.focusWidget()
        if (
            isinstance(dialog, QFileDialog) and at is not None and dialog.isAncestorOf(at)
        ):  # it may take a while
            waiting.stop()
            keys.press(KEY.Key_Return)

    waiting.timeout.connect(accept_the_name)
    waiting.start(50)
    hand.window.prompts.__class__ = NamedBySuggestion  # it asks as it would ask a person
    keys.press(KEY.Key_P, SHIFT_CTRL)
    (sheet,) = tmp_path.glob("*.pdf")
    assert sheet.read_bytes().startswith(b"%PDF")
    assert keys.count <= 25, keys.count
    assert keys.count == 21


def test_escape_leads_to_an_empty_sheet_and_undo_takes_the_answers_back(hand: Hand):
    page = started(hand)
    keys = Keys()
    keys.press(KEY.Key_Escape)
    assert hand.window.start.page is None
    assert not page.isVisible()
    assert hand.garden == Garden()
    assert QApplication.focusWidget() is hand.view
    page = started(hand)
    keys.type("33.9 s")
    assert "Longest day" in page.picture.shown.words
    page.begin.setFocus()
    keys.press(KEY.Key_Return)
    assert len(hand.garden.beds) == 3
    hand.do("undo")
    assert hand.garden == Garden()


def test_a_new_garden_begins_on_the_card_and_escape_leads_to_an_empty_sheet(hand: Hand):
    hand.document.open(garden(bed("b1"), planting()))
    hand.shortcut("Ctrl+N")
    QApplication.processEvents()
    page = hand.window.start.page
    assert page is not None
    assert page.isVisible()
    assert not hand.garden.beds
    Keys().press(KEY.Key_Escape)
    assert hand.window.start.page is None
    assert not hand.garden.beds
    assert QApplication.focusWidget() is hand.view


def test_tab_goes_round_within_the_card(hand: Hand):
    page = started(hand)
    seen = []
    for _ in range(40):
        at = QApplication.focusWidget()
        if at in seen:
            break
        assert page.isAncestorOf(at)
        seen.append(at)
        QTest.keyClick(at, KEY.Key_Tab)
    assert at is page.answers.where
    names = [widget.accessibleName() or widget.text() for widget in seen]
    assert all(names)
    assert len([widget for widget in seen if isinstance(widget, QRadioButton)]) == 1
    assert len(seen) == 17, names


def test_a_row_of_beds_is_measured_and_a_wrong_size_is_said(hand: Hand):
    page = started(hand)
    page.answers.beds["range"].click()
    hand.type(page.answers.number, "6", end=KEY.Key_Tab)
    hand.type(page.answers.length, "0", end=KEY.Key_Tab)
    assert page.answers.wrong.isVisible()
    assert page.picture.shown.beds is not None
    assert page.picture.shown.beds.number == 6
    hand.type(page.answers.length, "2,5 m", end=KEY.Key_Tab)
    assert not page.answers.wrong.isVisible()
    page.begin.click()
    assert [bed.outline.length for bed in hand.garden.beds] == [2.5] * 6
    assert {bed.kind for bed in hand.garden.beds} == {"open"}


def test_a_wrong_day_is_said_at_its_field(hand: Hand, qapp):
    page = started(hand)
    answers = page.answers
    hand.type(answers.last_frost, "31 Feb", end=KEY.Key_Tab)
    qapp.processEvents()
    said = answers.frost_wrong
    assert said.isVisible()
    assert said.text().startswith("Last frost of spring: ")
    assert not answers.wrong.isVisible()
    field = answers.last_frost
    gap = said.mapTo(page, said.rect().topLeft()).y() - field.mapTo(page, field.rect().bottomLeft()).y()
    assert 0 <= gap <= 8
    answers.beds["range"].click()  # another answer does not take it away
    assert said.isVisible()
    hand.type(answers.first_frost, "1 Oktomber", end=KEY.Key_Tab)
    assert [line.split(":")[0] for line in said.text().splitlines()] == [
        "Last frost of spring",
        "First frost of autumn",
    ]
    page.begin.click()
    assert QApplication.focusWidget() is field
    hand.type(field, "12 May", end=KEY.Key_Tab)
    assert said.text().startswith("First frost of autumn: ")
    hand.choose(answers.risk, None)
    assert not said.isVisible()


def test_a_bed_drawn_by_hand_begins_with_the_tool_in_the_hand(hand: Hand):
    page = started(hand)
    page.answers.beds["drawn"].click()
    page.begin.click()
    assert hand.view.tool == "rectangle"
    assert hand.garden.beds == ()


def test_a_town_gives_place_time_zone_and_units(hand: Hand, qtbot):
    """One test reads the list of towns, in its thread: that takes a second."""
    page = started(hand)
    keys = Keys()
    keys.type("boise")
    qtbot.waitUntil(lambda: page.answers.where.where is not None, timeout=LIMIT)
    keys.press(KEY.Key_Tab)
    assert page.answers.where.text() == "Boise, ID, United States"
    assert page.answers.answers().units == "feet_inches"
    page.begin.click()
    site = hand.garden.site
    assert (site.time_zone, site.units) == ("America/Boise", "feet_inches")
    assert round(site.latitude or 0, 1) == 43.6


def test_gardens_used_last_are_drawn_and_what_is_missing_or_broken_is_said(hand: Hand, tmp_path: Path, qtbot):
    sample = resources.sample_folder() / "balcony_boxes.bedwright"
    mine, broken, gone = (tmp_path / f"{name}.bedwright" for name in ("mine", "broken", "gone"))
    shutil.copy(sample, mine)
    broken.write_text('{"format": "bedwright garden", "beds": [', encoding="utf-8")
    hand.window.settings.setValue("recent", [str(mine), str(broken), str(gone)])
    page = started(hand)
    assert QApplication.focusWidget() is page.recent[0]
    tiles = [*page.recent, *page.samples]
    qtbot.waitUntil(lambda: all(": " in tile.accessibleName() for tile in tiles), timeout=LIMIT)
    assert [tile.accessibleName() for tile in page.recent] == [
        "mine: 3 beds, 8 plantings",
        "broken: The file cannot be read",
        "gone: The file is not there any more",
    ]
    kept = {
        path: path.stat().st_mtime_ns for path in Path(os.environ["BEDWRIGHT_CACHE"]).glob("garden-*.png")
    }
    assert len(kept) == 1 + len(page.samples)
    next(iter(kept)).write_bytes(b"no picture")
    os.utime(mine, (time.time() + 5, time.time() + 5))
    page = started(hand)
    tiles = [*page.recent, *page.samples]
    qtbot.waitUntil(lambda: all(": " in tile.accessibleName() for tile in tiles), timeout=LIMIT)
    now = {path: path.stat().st_mtime_ns for path in Path(os.environ["BEDWRIGHT_CACHE"]).glob("garden-*.png")}
    assert len(now) == len(kept) + 1  # mine was written anew, and is drawn anew
    assert sum(now[path] == kept[path] for path in kept) == len(kept) - 1  # what was broken too
    QTest.keyClick(page.recent[0], KEY.Key_Return)
    assert hand.document.path == mine
    assert hand.window.start.page is None
