"""Row by row on the sheet: handles with a live count, rows of varieties, single plants, each also by keys."""

from __future__ import annotations

import pytest
from hand import SHIFT, Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import Qt

from planner.desk.canvas.handles import Handle
from planner.garden import Variety, edits
from planner.plan import Plan

pytestmark = pytest.mark.one_window

ROWS = {"kind": "rows", "in_row_spacing": 0.3, "row_spacing": 0.3}


@pytest.fixture
def hand(open_hand) -> Hand:
    hand = open_hand(
        garden(
            bed("b1", rectangle(3.0, 1.2), name="North"),
            planting("p1", "b1", crop="lettuce", arrangement=ROWS, first="2026-05-01", last="2026-09-01"),
            varieties=(
                Variety(id="v1", crop="lettuce", name="Amber"),
                Variety(id="v2", crop="lettuce", name="Mild"),
            ),
        )
    )
    hand.document.show_year(2026)
    hand.document.select(["p1"])
    return hand


def plants(hand: Hand) -> dict[str, int]:
    """Plants by the variety, worked out afresh."""
    plan = Plan(hand.garden, 2026, hand.document.catalogue)
    found: dict[str, int] = {}
    for one in hand.garden.plantings:
        found[one.variety] = found.get(one.variety, 0) + plan.placed(one).plants
    return found


def handle(hand: Hand, kind: str) -> Handle:
    return next(one for one in hand.view.handles() if one.kind == kind)


def test_handles_change_rows_spacings_and_direction_with_the_count_live(hand: Hand) -> None:
    x, y = handle(hand, "rows").plan
    hand.carry((x, y), (x, y - 0.3))
    assert any("3 rows × 10 = 30" in line for line in hand.view.gesture._lines())
    hand.release((x, y - 0.3))
    assert (hand.garden.plantings[0].arrangement.rows, plants(hand)) == (3, {"": 30})
    assert hand.steps == 1
    assert "3 rows × 10 = 30" in hand.message()
    one = handle(hand, "in_row")
    x, y = one.plan
    hand.drag((x, y), (x + 0.2 * one.which[0], y))
    assert hand.garden.plantings[0].arrangement.in_row_spacing == 0.5
    one = handle(hand, "between")
    x, y = one.plan
    hand.drag((x, y), (x, y + 0.1 * one.which[0]))
    assert hand.garden.plantings[0].arrangement.row_spacing == pytest.approx(0.4)
    x, y = handle(hand, "row_turn").plan
    hand.drag((x, y), (0.0, 1.1))
    assert 60 <= hand.garden.plantings[0].arrangement.turn <= 90
    assert hand.steps == 4
    for _ in range(4):
        hand.do("undo")
    assert plants(hand) == {"": 40}


def test_the_keys_do_what_the_handles_do(hand: Hand) -> None:
    hand.shortcut("Ctrl+Alt+Down")
    hand.shortcut("Ctrl+Alt+Down")
    assert (hand.garden.plantings[0].arrangement.rows, hand.steps) == (2, 1)
    assert "2 rows × 10 = 20" in hand.message()
    hand.do("wider in row")
    hand.do("wider between")
    hand.do("turn rows")
    arrangement = hand.garden.plantings[0].arrangement
    assert (arrangement.in_row_spacing, arrangement.row_spacing, arrangement.turn) == (0.31, 0.31, 15)


def test_a_variety_dropped_on_a_row_takes_it_and_with_shift_all_up_to_the_nearer_side(hand: Hand) -> None:
    hand.drop("lettuce", [(0.0, 0.15)], variety="Amber")
    assert plants(hand) == {"": 30, "Amber": 10}
    assert (hand.steps, hand.step) == (1, "Give 1 row to butterhead lettuce ‘Amber’")
    chosen = [hand.garden.plantings_by_id[key].variety for key in hand.selected()]
    assert chosen == ["Amber"]
    hand.do("undo")
    hand.drop("lettuce", [(0.0, -0.15)], SHIFT, variety="Mild")
    assert plants(hand) == {"": 20, "Mild": 20}


def test_split_into_rows_of_the_varieties_of_the_garden(hand: Hand) -> None:
    hand.do("split rows")
    assert plants(hand) == {"Amber": 20, "Mild": 20}
    assert len(hand.selected()) == 2
    assert "Amber: 20 and Mild: 20" in hand.message()
    hand.do("undo")
    assert plants(hand) == {"": 40}
    hand.document.edit("No varieties", lambda g: edits.remove_part(edits.remove_part(g, "v1"), "v2"))
    hand.document.select(["p1"])
    hand.do("split rows")
    assert len(hand.garden.plantings) == 4


def test_single_plants_are_picked_moved_and_removed(hand: Hand) -> None:
    hand.do("single plants")
    assert (plants(hand), hand.view.picked.indices) == ({"": 40}, {0})
    assert hand.message().startswith("Plant 1 of 40: 0.15 m along the bed")
    hand.shortcut("Ctrl+.")
    hand.view.setFocus()
    before = hand.garden.plantings[0].arrangement.points
    hand.key(Qt.Key.Key_Right, SHIFT)
    hand.key(Qt.Key.Key_Right, SHIFT)
    after = hand.garden.plantings[0].arrangement.points
    assert after[1][0] == pytest.approx(before[1][0] + 0.02)
    assert after[2:] == before[2:]
    assert hand.steps == 2
    places = {int(one.which[0]): one.plan for one in hand.view.handles() if one.kind == "place"}
    hand.click(places[5])
    hand.click(places[6], SHIFT)
    assert hand.view.picked.indices == {5, 6}
    x, y = places[6]
    hand.drag((x, y), (x + 0.1, y + 0.05))
    moved = hand.garden.plantings[0].arrangement.points
    assert [moved[n][0] == pytest.approx(before[n][0] + 0.1) for n in (5, 6, 7)] == [True, True, False]
    hand.do("delete")
    assert plants(hand) == {"": 38}
    assert "38 plants are left" in hand.message()
    assert hand.view.picked.indices == frozenset()
    hand.do("undo")
    assert plants(hand) == {"": 40}
