"""The guided first plan: each step is ticked off when the garden shows that it was done."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path

from hand import Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import Qt


def test_each_step_ticks_itself_off(open_hand: Callable[..., Hand], tmp_path: Path) -> None:
    hand = open_hand()
    guide, window = hand.window.guide, hand.window
    assert guide.isHidden()
    window.action("guide").trigger()
    assert guide.isVisible()
    assert guide.step.name == "bed"
    hand.do("tool rectangle")
    hand.drag((0.0, 0.0), (2.0, 1.0))
    assert guide.step.name == "crop"
    hand.document.show_day(dt.date(hand.document.year, 5, 1))
    assert not guide.done["day"]  # nothing to look at yet
    hand.drop("carrot", [(1.0, 0.5)])
    assert guide.step.name == "day"
    hand.document.show_day(dt.date(hand.document.year, 7, 1))
    assert guide.step.name == "sheet"
    window.prompts.answers["save"] = str(tmp_path / "sheet.pdf")
    window.action("bed sheets").trigger()
    assert guide.step is None
    assert guide.ticks["sheet"].text().startswith("✓")
    guide.skip.click()
    assert guide.isHidden()


def test_it_is_left_at_any_step_and_begins_again(open_hand: Callable[..., Hand]) -> None:
    hand = open_hand()
    there = hand.document.garden
    guide = hand.window.guide
    guide.start()
    assert guide.step.name == "bed"
    guide.skip.click()
    assert guide.step.name == "crop"
    guide.shut.click()
    assert guide.isHidden()
    assert hand.document.garden is there
    guide.start()
    assert guide.step.name == "bed"
    assert not any(guide.done.values())
    guide.leave()


def test_it_begins_at_the_first_step_that_is_not_done(open_hand: Callable[..., Hand]) -> None:
    hand = open_hand(garden(bed("b1", rectangle(2.0, 1.0)), planting("p1")))
    guide = hand.window.guide
    hand.document.show_day(dt.date(hand.document.year, 7, 1))  # before it began
    guide.start()
    assert guide.step.name == "day"
    assert [label.text()[0] for label in guide.ticks.values()] == ["✓", "✓", "▸", "○"]
    hand.document.show_day(dt.date(hand.document.year, 8, 1))
    assert guide.step.name == "sheet"
    guide.leave()


def test_a_bed_without_a_planting_need_not_be_drawn_again(open_hand: Callable[..., Hand]) -> None:
    hand = open_hand(garden(bed("b1", rectangle(2.0, 1.0))))
    hand.window.guide.start()
    assert hand.window.guide.step.name == "crop"
    asked: list[str] = []
    hand.window.guide.more_wanted.connect(asked.append)
    hand.window.guide.more.click()
    assert asked == ["plant"]
    assert hand.window.commands.help.manual.place == "plant"
    assert hand.window.guide.shut.focusPolicy() & Qt.FocusPolicy.TabFocus
