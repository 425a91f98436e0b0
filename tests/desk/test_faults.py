"""A fault of the program in the middle of something: told, put back, survived."""

from __future__ import annotations

import pytest
from hand import Hand

from planner.desk.gestures.moving import MoveThings
from planner.desk.gestures.placing import PlaceCrop


def divide_by_zero(*_args) -> None:
    divmod(1, 0)  # raised by C code, as most errors are


@pytest.fixture
def drawn(hand: Hand) -> Hand:
    hand.do("tool rectangle")
    hand.drag((-2.0, 1.0), (2.0, 0.0))
    hand.do("tool select")
    return hand


def test_a_fault_while_dragging_a_bed_puts_it_back(drawn: Hand, monkeypatch, qtbot) -> None:
    before = drawn.garden
    drawn.carry((0.0, 0.5), (1.0, 1.5))
    monkeypatch.setattr(MoveThings, "_offset", divide_by_zero)
    with qtbot.captureExceptions() as caught:
        drawn.move((1.2, 1.5))
        drawn.release((1.2, 1.5))
    assert [kind for kind, _, _ in caught] == [ZeroDivisionError]
    assert drawn.garden is before
    assert drawn.view.gesture is None
    assert "fault" in drawn.message()


def test_a_fault_while_a_crop_is_dropped_is_survived(drawn: Hand, monkeypatch, qtbot) -> None:
    before = drawn.garden
    monkeypatch.setattr(PlaceCrop, "hold_over", divide_by_zero)
    with qtbot.captureExceptions() as caught:
        drawn.drop("carrot", [(0.0, 0.5)])
    assert caught
    assert drawn.garden is before
    assert drawn.view.gesture is None
    monkeypatch.undo()
    drawn.drop("carrot", [(0.0, 0.5)])
    assert len(drawn.garden.plantings) == 1


def test_a_fault_while_painting_is_survived(drawn: Hand, monkeypatch, qtbot) -> None:
    monkeypatch.setattr("planner.desk.canvas.guides.paint_catch", divide_by_zero)
    with qtbot.captureExceptions() as caught:
        drawn.view.grab()
        monkeypatch.undo()
    assert caught
    drawn.view.grab()
