"""The walk along the beds on the sheet and as a list, and putting it in another order."""

from __future__ import annotations

import pytest
from making import bed, garden, rectangle
from PySide6.QtCore import QMimeData, QPointF, Qt
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest

from planner.garden import edits
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order

pytestmark = pytest.mark.one_window

GATED, _ = edits.add_structure(
    garden(*(bed(f"b{n}", rectangle(2, 1, center=(3.0 * n, 0.0)), name=f"Bed {n}") for n in range(4))),
    "gate",
    rectangle(1, 0.2, center=(-3, 0)),
    1.2,
)
ROUND = ("b0", "b1", "b2", "b3")


@pytest.fixture
def hand(open_hand):
    hand = open_hand(GATED)
    hand.do("tool walk")
    return hand


def order(hand) -> tuple[str, ...]:
    return tuple(one.id for one in beds_in_walking_order(Plan(hand.garden, hand.document.year)))


def lines(hand) -> list[str]:
    walk = hand.window.docks.walk.list
    return [walk.item(row).text() for row in range(walk.count())]


def test_numbers_are_dragged_on_the_sheet_and_escape_lets_go(hand):
    assert order(hand) == ROUND
    assert hand.view.walk.shown
    walk = hand.view.walk
    assert walk.bed_at(hand.at((9.0, 0.0))) == "b3"
    hand.carry((9.0, 0.0), (3.0, 0.0))
    assert walk.tried == ("b0", "b3", "b1", "b2"), "the numbers show it while it is dragged"
    hand.key(Qt.Key.Key_Escape)
    assert walk.tried is None
    assert hand.steps == 0
    hand.drag((9.0, 0.0), (3.0, 0.0))
    assert order(hand) == ("b0", "b3", "b1", "b2")
    assert (hand.steps, hand.step) == (1, "Walk to Bed 3 as number 2")
    assert lines(hand) == ["1  Bed 0", "2  Bed 3", "3  Bed 1", "4  Bed 2"]
    hand.drag((3.0, 0.3), (5.0, 3.0))  # a bed is held by its ground too; on free ground nothing happens
    assert hand.steps == 1
    hand.click((6.0, 0.0))
    assert hand.selected() == {"b2"}
    hand.do("undo")
    assert order(hand) == ROUND
    hand.key(Qt.Key.Key_Escape)
    assert hand.view.tool == "select"
    assert not hand.view.walk.shown
    assert walk.bed_at(hand.at((9.0, 0.0))) is None


def test_lines_are_moved_with_keys_buttons_and_the_mouse(hand):
    panel = hand.window.docks.walk
    panel.list.setCurrentRow(0)
    assert hand.selected() == {"b0"}
    assert not panel.earlier.isEnabled()
    assert not panel.by_itself.isEnabled()
    for _ in range(2):
        QTest.keyClick(panel.list, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert order(hand) == ("b1", "b2", "b0", "b3")
    assert panel.list.currentRow() == 2
    panel.earlier.click()
    assert order(hand) == ("b1", "b0", "b2", "b3")
    rect = panel.list.visualItemRect(panel.list.item(3))
    drop = QDropEvent(
        QPointF(rect.center().x(), rect.bottom() - 1),
        Qt.DropAction.MoveAction,
        QMimeData(),
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    panel.list.dropEvent(drop)
    assert order(hand) == ("b1", "b2", "b3", "b0")
    assert hand.steps == 4
    assert "by hand" in panel.words.text()
    panel.by_itself.click()
    assert order(hand) == ROUND
    assert hand.garden.site.walk == ()
    assert "by itself" in panel.words.text()
    hand.do("undo")
    assert order(hand) == ("b1", "b2", "b3", "b0")


def test_the_list_follows_the_garden_and_the_selection(hand):
    hand.document.select(("b2",))
    panel = hand.window.docks.walk
    assert panel.list.currentRow() == 2
    hand.document.edit("Remove", lambda one: edits.remove(one, ("b1",)))
    assert lines(hand) == ["1  Bed 0", "2  Bed 2", "3  Bed 3"]
    hand.window.docks.left.setCurrentIndex(0)
    hand.view.take_tool("select")
    hand.window.docks.left.setCurrentWidget(panel)
    assert hand.view.walk.shown, "whoever looks at the list sees the walk"
