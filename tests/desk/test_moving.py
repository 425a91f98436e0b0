"""Selecting, moving, turning and resizing with the mouse and the arrow keys."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hand import ALT, CTRL, SHIFT, Hand, near, stand
from making import bed, garden, rectangle
from PySide6.QtCore import Qt

from planner.desk.canvas import transform
from planner.garden import Circle, Polygon, Rectangle, edits
from planner.ground import shapes
from planner.ground.dropping import plot_box

pytestmark = pytest.mark.one_window


def two_beds(**fields):
    return garden(
        bed("b1", rectangle(center=(-0.5, 2.0)), name="North"),
        bed("b2", rectangle(center=(-0.5, -2.0)), name="South"),
        **fields,
    )


@pytest.fixture
def beds(open_hand) -> Hand:
    return open_hand(two_beds())


@pytest.fixture
def planted(open_hand) -> Hand:
    """North holds a stretch of carrots, South nothing."""
    made, _ = stand(two_beds(), "b1", "carrot", plot={"kind": "stretch", "start": 1.0, "end": 3.0})
    return open_hand(made)


# -- selecting --------------------------------------------------------------------------------


def test_clicking_selects_and_clicking_nothing_selects_nothing(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    assert beds.selected() == {"b1"}
    beds.click((0.0, -2.0))
    assert beds.selected() == {"b2"}
    beds.click((3.5, 0.0))
    assert beds.selected() == set()
    assert beds.steps == 0


def test_shift_adds_and_ctrl_takes_away(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    beds.click((0.0, -2.0), SHIFT)
    assert beds.selected() == {"b1", "b2"}
    beds.click((0.0, 2.0), CTRL)
    assert beds.selected() == {"b2"}
    beds.click((0.0, 2.0), CTRL)
    assert beds.selected() == {"b1", "b2"}


def test_a_plain_click_on_one_of_several_selects_only_that(beds: Hand) -> None:
    beds.do("select all")
    beds.click((0.0, 2.0))
    assert beds.selected() == {"b1"}


def test_a_planting_is_selected_by_its_plot_and_its_bed_with_alt(planted: Hand) -> None:
    planted.click((-1.0, 1.9))
    assert planted.selected() == {"p1"}
    planted.click((-1.0, 1.9), ALT)
    assert planted.selected() == {"b1"}
    planted.click((1.7, 1.9))
    assert planted.selected() == {"b1"}


def test_a_rubber_band_picks_what_lies_wholly_in_it(beds: Hand) -> None:
    beds.drag((-3.6, 3.2), (3.2, 0.4))
    assert beds.selected() == {"b1"}
    beds.drag((3.2, -0.4), (-3.6, -3.2), SHIFT)
    assert beds.selected() == {"b1", "b2"}
    beds.drag((-3.6, 3.2), (0.0, -3.2))
    assert beds.selected() == set()
    assert beds.steps == 0


# -- moving -----------------------------------------------------------------------------------


def test_moving_a_bed_is_one_step_on_the_grid(beds: Hand) -> None:
    beds.drag((0.0, 2.0), (0.32, 2.21))
    assert near(beds.bed("North").outline.center, (-0.2, 2.2))
    assert (beds.steps, beds.step) == (1, "Move North")
    beds.do("undo")
    assert near(beds.bed("North").outline.center, (-0.5, 2.0))


def test_alt_holds_the_snapping_off(beds: Hand) -> None:
    beds.drag((0.0, 2.0), (0.337, 2.213), ALT)
    assert near(beds.bed("North").outline.center, (-0.163, 2.213), 1e-4)


def test_snapping_can_be_turned_off(beds: Hand) -> None:
    beds.do("snap")
    beds.drag((0.0, 2.0), (0.337, 2.213))
    assert near(beds.bed("North").outline.center, (-0.163, 2.213), 1e-4)


@pytest.mark.own_window
def test_a_moved_bed_catches_the_edges_of_others(open_hand) -> None:
    hand = open_hand(
        garden(
            bed("b1", rectangle(center=(0.033, 2.0)), name="A"),
            bed("b2", rectangle(center=(0.5, -1), length=2), name="B"),
        )
    )
    hand.drag((0.5, -1.0), (-1.36, -1.0))  # its left edge comes near A's at -2.367
    assert near((hand.bed("B").outline.center[0],), (-2.367 + 1.0,), 1e-6)


def test_shift_keeps_to_one_axis(beds: Hand) -> None:
    beds.drag((0.0, 2.0), (1.0, 2.4), SHIFT, begin=Qt.KeyboardModifier.NoModifier)
    assert near(beds.bed("North").outline.center, (0.5, 2.0))


def test_several_beds_move_together(beds: Hand) -> None:
    beds.do("select all")
    beds.drag((0.0, 2.0), (1.0, 2.0))
    assert [b.outline.center[0] for b in beds.garden.beds] == pytest.approx([0.5, 0.5])
    assert (beds.steps, beds.step) == (1, "Move 2 beds")


def test_escape_puts_a_moved_bed_back(beds: Hand) -> None:
    before = beds.garden
    beds.carry((0.0, 2.0), (1.0, 1.0))
    assert beds.garden is not before
    beds.key(Qt.Key.Key_Escape)
    assert beds.garden is before
    beds.release((1.0, 1.0))
    assert beds.garden is before
    assert beds.steps == 0


def test_a_trembling_click_moves_nothing(beds: Hand) -> None:
    before = beds.garden
    beds.press((0.0, 2.0))
    beds.move((0.02, 2.01))
    beds.release((0.02, 2.01))
    assert beds.garden is before


def test_a_bed_taken_to_where_it_was_is_no_step(beds: Hand) -> None:
    before = beds.garden
    beds.carry((0.0, 2.0), (1.0, 1.0))
    beds.move((0.0, 2.0))
    beds.release((0.0, 2.0))
    assert beds.steps == 0
    assert beds.garden is before


# -- running gestures and the history -----------------------------------------------------------


def test_undo_while_a_bed_is_dragged_puts_it_back_and_undoes_the_step_before(beds: Hand) -> None:
    first = beds.garden
    beds.drag((0.0, 2.0), (1.0, 2.0))
    beds.carry((0.0, -2.0), (2.0, -1.0))
    beds.do("undo")
    assert beds.view.gesture is None
    assert beds.garden is first
    beds.move((1.0, -1.0))
    beds.release((1.0, -1.0))
    assert beds.garden is first
    assert beds.steps == 0


def test_redo_while_a_bed_is_dragged_puts_it_back_first(beds: Hand) -> None:
    beds.drag((0.0, 2.0), (1.0, 2.0))
    last = beds.garden
    beds.do("undo")
    beds.carry((0.0, -2.0), (2.0, -1.0))
    beds.do("redo")
    beds.release((2.0, -1.0))
    assert beds.garden is last
    assert beds.steps == 1


@pytest.mark.parametrize("name", ["delete", "cut", "duplicate"])
def test_nothing_is_taken_away_while_it_is_dragged(beds: Hand, name: str) -> None:
    beds.carry((0.0, 2.0), (1.0, 2.0))
    beds.window.action(name).trigger()
    beds.release((1.0, 2.0))
    assert [b.name for b in beds.garden.beds] == ["North", "South"]
    assert near(beds.bed("North").outline.center, (0.5, 2.0))
    assert beds.steps == 1


def test_another_tool_puts_a_running_gesture_back(beds: Hand) -> None:
    before = beds.garden
    beds.carry((0.0, 2.0), (1.0, 2.0))
    beds.do("tool rectangle")
    assert beds.garden is before


# -- keys -------------------------------------------------------------------------------------


def test_nudges_become_one_step(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    for _ in range(3):
        beds.key(Qt.Key.Key_Right)
    beds.key(Qt.Key.Key_Up)
    assert near(beds.bed("North").outline.center, (-0.2, 2.1))
    assert (beds.steps, beds.step) == (1, "Move North")
    beds.key(Qt.Key.Key_Left, SHIFT)
    assert near(beds.bed("North").outline.center, (-0.21, 2.1))
    assert beds.steps == 1
    beds.do("undo")
    assert near(beds.bed("North").outline.center, (-0.5, 2.0))


def test_nudges_of_different_beds_are_different_steps(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    beds.key(Qt.Key.Key_Right)
    beds.click((0.0, -2.0))
    beds.key(Qt.Key.Key_Right)
    assert beds.steps == 2


def test_a_nudge_after_saving_is_a_step_of_its_own(beds: Hand, tmp_path) -> None:
    beds.click((0.0, 2.0))
    beds.key(Qt.Key.Key_Right)
    beds.prompts.answers["save"] = str(tmp_path / "a.bedwright")
    beds.do("save")
    beds.key(Qt.Key.Key_Right)
    assert beds.document.changed
    beds.do("undo")
    assert not beds.document.changed


def test_a_planting_is_nudged_within_its_bed(planted: Hand) -> None:
    planted.click((-1.0, 1.9))
    planted.key(Qt.Key.Key_Right)
    plot = planted.garden.plantings[0].plot
    assert near((plot.start, plot.end), (1.1, 3.1))
    for _ in range(40):
        planted.key(Qt.Key.Key_Left)
    plot = planted.garden.plantings[0].plot
    assert near((plot.start, plot.end), (0.0, 2.0))
    assert planted.steps == 1


def test_tab_goes_through_everything_and_back(planted: Hand) -> None:
    planted.view.setFocus()
    seen = []
    for _ in range(3):
        planted.key(Qt.Key.Key_Tab)
        seen.append(planted.document.selection)
    assert seen == [("b1",), ("p1",), ("b2",)]
    planted.key(Qt.Key.Key_Backtab, SHIFT)
    assert planted.selected() == {"p1"}
    assert "Carrot" in planted.message()


def test_enter_goes_to_the_details(planted: Hand, qapp) -> None:
    planted.click((0.0, -2.0))
    planted.key(Qt.Key.Key_Return)
    assert qapp.focusWidget() is planted.window.docks.details.bed.name


def test_turning_by_keys_becomes_one_step(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    beds.shortcut("Ctrl+[")
    beds.shortcut("Ctrl+[")
    assert beds.bed("North").outline.turn == 30
    assert beds.steps == 1


def test_deleting_a_bed_takes_its_plantings_and_undo_brings_them_back(planted: Hand) -> None:
    first = planted.garden
    planted.click((1.7, 1.9))
    planted.key(Qt.Key.Key_Delete)
    assert [b.id for b in planted.garden.beds] == ["b2"]
    assert planted.garden.plantings == ()
    assert planted.selected() == set()
    planted.shortcut("Ctrl+Z")
    assert planted.garden is first


# -- resizing and turning ---------------------------------------------------------------------


def test_there_are_nine_handles_on_a_rectangle(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    kinds = [handle.kind for handle in beds.view.handles()]
    assert kinds.count("side") == 8
    assert kinds.count("turn") == 1


@pytest.mark.parametrize("turn", [0.0, 90.0, 30.0])
@pytest.mark.parametrize("which", [(sx, sy) for sx in (-1, 0, 1) for sy in (-1, 0, 1) if (sx, sy) != (0, 0)])
def test_each_handle_moves_its_sides_and_no_others(reopen, turn: float, which) -> None:
    hand = reopen(garden(bed("b1", Rectangle(center=(0.2, 0.1), length=3.0, width=1.2, turn=turn))))
    hand.document.select(["b1"])
    before = shapes.to_plan(hand.garden.beds[0].outline, [(-which[0] * 1.5, -which[1] * 0.6)])[0]
    handle = next(h for h in hand.view.handles() if h.which == which)
    angle = math.radians(turn)
    by = (0.3 * which[0], 0.2 * which[1])
    away = (
        math.cos(angle) * by[0] - math.sin(angle) * by[1],
        math.sin(angle) * by[0] + math.cos(angle) * by[1],
    )
    hand.drag(handle.plan, (handle.plan[0] + away[0], handle.plan[1] + away[1]), ALT)
    outline = hand.garden.beds[0].outline
    assert near((outline.length, outline.width), (3.0 + 0.3 * abs(which[0]), 1.2 + 0.2 * abs(which[1])), 1e-5)
    assert outline.turn == turn
    held = (-which[0] * outline.length / 2, -which[1] * outline.width / 2)
    assert near(shapes.to_plan(outline, [held])[0], before, 1e-5)
    assert (hand.steps, hand.step) == (1, "Resize b1")


@pytest.mark.own_window
def test_a_resized_side_snaps_to_the_grid(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    handle = next(h for h in beds.view.handles() if h.which == (1, 0))
    beds.drag(handle.plan, (handle.plan[0] + 0.52, handle.plan[1] + 0.07))
    outline = beds.bed("North").outline
    assert near((outline.length, outline.width), (5.3, 1.2))


def test_ctrl_moves_the_opposite_side_too(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    handle = next(h for h in beds.view.handles() if h.which == (1, 0))
    beds.drag(handle.plan, (handle.plan[0] + 0.5, handle.plan[1]), CTRL, begin=Qt.KeyboardModifier.NoModifier)
    outline = beds.bed("North").outline
    assert near((outline.length, *outline.center), (5.8, -0.5, 2.0))


def test_a_side_pulled_through_the_other_stops_at_the_least_size(beds: Hand) -> None:
    beds.click((0.0, 2.0))
    handle = next(h for h in beds.view.handles() if h.which == (0, 1))
    beds.drag(handle.plan, (handle.plan[0], handle.plan[1] - 3.0), ALT)
    assert beds.bed("North").outline.width == pytest.approx(0.02)


def test_a_trembling_click_on_a_handle_resizes_nothing(open_hand) -> None:
    hand = open_hand(garden(bed("b1", rectangle(4.83, 1.23))))
    hand.document.select(["b1"])
    handle = next(h for h in hand.view.handles() if h.which == (1, 1))
    before = hand.garden
    hand.press(handle.plan)
    hand.move((handle.plan[0] + 0.01, handle.plan[1] + 0.01))
    hand.release((handle.plan[0] + 0.01, handle.plan[1] + 0.01))
    assert hand.garden is before


def test_escape_puts_a_resized_bed_back(beds: Hand) -> None:
    before = beds.garden
    beds.click((0.0, 2.0))
    handle = next(h for h in beds.view.handles() if h.which == (1, 0))
    beds.carry(handle.plan, (handle.plan[0] + 0.5, handle.plan[1]))
    assert beds.garden is not before
    beds.key(Qt.Key.Key_Escape)
    beds.release((handle.plan[0] + 0.5, handle.plan[1]))
    assert beds.garden is before


@pytest.mark.parametrize(("held", "turn"), [(None, 45.0), (ALT, 43.5)])
def test_the_turning_handle_turns_in_steps_or_freely(beds: Hand, held, turn: float) -> None:
    beds.click((0.0, 2.0))
    handle = next(h for h in beds.view.handles() if h.kind == "turn")
    angle = math.radians(90 + 43.5)
    cx, cy = beds.bed("North").outline.center
    goal = (cx + 1.5 * math.cos(angle), cy + 1.5 * math.sin(angle))
    beds.drag(handle.plan, goal, held or Qt.KeyboardModifier.NoModifier)
    assert beds.bed("North").outline.turn == pytest.approx(turn)
    assert (beds.steps, beds.step) == (1, "Turn North")


@pytest.mark.own_window
def test_a_circle_is_resized_by_its_radius(open_hand) -> None:
    hand = open_hand(garden(bed("b1", Circle(radius=1.0))))
    hand.document.select(["b1"])
    hand.drag((1.0, 0.0), (1.53, 0.0))
    assert hand.garden.beds[0].outline.radius == pytest.approx(1.5)


def test_a_corner_of_a_polygon_is_moved_and_may_not_cross(open_hand) -> None:
    ring = ((-2.0, -1.0), (2.0, -1.0), (2.0, 1.0), (-2.0, 1.0))
    hand = open_hand(garden(bed("b1", Polygon(points=ring), name="Kite")))
    hand.document.select(["b1"])
    hand.drag((2.0, 1.0), (2.5, 1.5))
    assert hand.garden.beds[0].outline.points[2] == pytest.approx((2.5, 1.5))
    kept = hand.garden
    hand.drag((2.5, 1.5), (-3.0, 0.0))
    assert hand.garden is kept
    assert hand.steps == 1
    assert "Kite" in hand.message()
    assert "cross" in hand.message()


# -- plots ------------------------------------------------------------------------------------


def test_a_plot_is_resized_by_its_end(planted: Hand) -> None:
    planted.click((-1.0, 1.9))
    right = next(h for h in planted.view.handles() if h.which == (1.0, 0.0))
    planted.drag(right.plan, (right.plan[0] + 0.51, right.plan[1]))
    plot = planted.garden.plantings[0].plot
    assert near((plot.start, plot.end), (1.0, 3.5))
    assert (planted.steps, planted.step) == (1, "Resize carrot")


def test_a_plot_resized_across_becomes_a_region_and_stays_in_its_bed(planted: Hand) -> None:
    planted.click((-1.0, 1.9))
    top = next(h for h in planted.view.handles() if h.which == (0.0, 1.0))
    planted.drag(top.plan, (top.plan[0], top.plan[1] - 0.6))
    planting = planted.garden.plantings[0]
    assert planting.plot.kind == "region"
    assert near(plot_box(planted.bed("North"), planting.plot), (-1.4, -0.6, 0.6, 0.0), 1e-5)


def test_a_plot_is_moved_along_its_bed_and_stops_at_the_end(planted: Hand) -> None:
    planted.drag((-1.0, 1.9), (-0.49, 1.9))
    plot = planted.garden.plantings[0].plot
    assert near((plot.start, plot.end), (1.5, 3.5))
    planted.drag((0.0, 1.9), (3.4, 1.9))
    plot = planted.garden.plantings[0].plot
    assert near((plot.start, plot.end), (2.8, 4.8))
    assert planted.steps == 2


def test_a_planting_is_moved_to_another_bed(planted: Hand) -> None:
    planted.drag((-1.0, 1.9), (-1.0, -2.0))
    assert planted.garden.plantings[0].bed == "b2"
    assert (planted.steps, planted.step) == (1, "Move carrot")
    planted.do("undo")
    assert planted.garden.plantings[0].bed == "b1"


def test_a_planting_is_not_moved_to_a_full_bed(open_hand) -> None:
    made, _ = stand(two_beds(), "b1", "carrot", plot={"kind": "stretch", "start": 1.0, "end": 3.0})
    made, _ = stand(made, "b2", "onion")
    hand = open_hand(made)
    hand.drag((-1.0, 1.9), (-1.0, -2.0))
    assert hand.garden is made
    assert "no free ground" in " ".join(hand.said)


@pytest.mark.parametrize("key", [Qt.Key.Key_A, Qt.Key.Key_Space, Qt.Key.Key_Tab, Qt.Key.Key_Left])
def test_a_key_while_a_planting_is_carried_does_no_harm(planted: Hand, key: Qt.Key) -> None:
    planted.carry((0.0, 2.0), (0.0, -2.0))
    planted.key(key)
    planted.release((0.0, -2.0))
    assert planted.garden.plantings[0].bed == "b2"
    assert planted.steps == 1


def test_escape_puts_a_moved_planting_back(planted: Hand) -> None:
    before = planted.garden
    planted.carry((-1.0, 1.9), (-1.0, -2.0))
    planted.key(Qt.Key.Key_Escape)
    planted.release((-1.0, -2.0))
    assert planted.garden is before


def test_plants_are_drawn_where_their_bed_is_moved_and_turned_to(planted: Hand) -> None:
    item = planted.view.sheet.beds["b1"]
    planted.document.show_day(None)
    for change in (
        lambda g: edits.move_things(g, ["b1"], 0.7, -1.3),
        lambda g: edits.turn_things(g, ["b1"], 40.0),
    ):
        planted.document.preview(change)
        planted.document.edit("Move", change)
        (painted,) = item.painted
        outline = planted.document.garden.beds_by_id["b1"].outline
        points = shapes.to_plan(outline, planted.document.plan.placed(painted.planting).layout.points)
        assert len(points) > 10
        assert np.allclose(painted.points, transform.scene_points(points))


# -- several plantings ---------------------------------------------------------------------------


@pytest.fixture
def three(open_hand) -> Hand:
    """Two plantings in North, one in South, and room in Middle."""
    made = garden(
        bed("b1", rectangle(center=(0.0, 2.0)), name="North"),
        bed("b2", rectangle(center=(0.0, 0.0)), name="Middle"),
        bed("b3", rectangle(center=(0.0, -2.0)), name="South"),
    )
    made, _ = stand(made, "b1", "carrot", plot={"kind": "stretch", "start": 0.5, "end": 1.5})
    made, _ = stand(made, "b1", "onion", plot={"kind": "stretch", "start": 1.5, "end": 3.0})
    made, _ = stand(made, "b3", "beetroot", plot={"kind": "stretch", "start": 0.5, "end": 1.5})
    hand = open_hand(made)
    hand.document.show_year(2026)
    hand.click((-1.5, 2.2))
    hand.click((-0.5, 2.2), SHIFT)
    assert hand.selected() == {"p1", "p2"}
    return hand


def plots_of(hand: Hand) -> list[tuple[str, float, float]]:
    return [(p.bed, round(p.plot.start, 2), round(p.plot.end, 2)) for p in hand.garden.plantings]


def test_several_plantings_are_dragged_within_their_bed_as_one_step(three: Hand) -> None:
    three.drag((-1.5, 2.2), (-0.7, 2.2))
    assert plots_of(three)[:2] == [("b1", 1.3, 2.3), ("b1", 2.3, 3.8)]
    assert (three.steps, three.step) == (1, "Move 2 plantings")
    assert three.selected() == {"p1", "p2"}
    three.do("undo")
    assert plots_of(three)[:2] == [("b1", 0.5, 1.5), ("b1", 1.5, 3.0)]


def test_several_plantings_are_dragged_to_another_bed_as_one_step(three: Hand) -> None:
    three.drag((-0.5, 2.2), (-0.5, 0.2))
    assert plots_of(three)[:2] == [("b2", 0.5, 1.5), ("b2", 1.5, 3.0)]
    assert three.steps == 1
    three.do("undo")
    assert plots_of(three)[:2] == [("b1", 0.5, 1.5), ("b1", 1.5, 3.0)]


def test_plantings_of_several_beds_go_on_by_as_much(three: Hand) -> None:
    three.click((-1.5, -1.8), SHIFT)
    three.drag((-0.5, 2.2), (0.3, 2.2))
    assert plots_of(three) == [("b1", 1.3, 2.3), ("b1", 2.3, 3.8), ("b3", 1.3, 2.3)]
    assert three.step == "Move 3 plantings"


def test_where_one_may_not_land_none_is_moved_and_it_is_said(three: Hand) -> None:
    three.click((-1.5, -1.8), SHIFT)
    before = three.garden
    three.drag((-0.5, 2.2), (-0.5, 0.2))  # beetroot would go beyond the last bed
    assert three.garden is before
    assert three.steps == 0
    assert three.message() == "beetroot: no bed lies there; none of the 3 is moved"


def test_escape_puts_all_of_them_back(three: Hand) -> None:
    before = three.garden
    three.carry((-0.5, 2.2), (-0.5, 0.2))
    assert three.garden is not before
    three.key(Qt.Key.Key_Escape)
    assert three.garden is before


def test_a_plain_click_on_one_of_several_picks_it_out(three: Hand) -> None:
    three.click((-0.5, 2.2))
    assert three.selected() == {"p2"}
