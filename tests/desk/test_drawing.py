"""Drawing beds and structures with the mouse; measuring."""

from __future__ import annotations

import pytest
from hand import ALT, CTRL, SHIFT, Hand, near, stand
from making import bed, garden, rectangle
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from planner.checks import check_only
from planner.garden import Structure
from planner.garden.units import FOOT

pytestmark = pytest.mark.one_window


def only_bed(hand: Hand):
    (made,) = hand.garden.beds
    return made


def test_dragging_from_corner_to_corner_draws_a_bed(hand: Hand) -> None:
    hand.do("tool rectangle")
    hand.drag((-2.03, 1.02), (2.01, -0.18))
    made = only_bed(hand)
    assert near((made.outline.length, made.outline.width), (4.0, 1.2))
    assert near(made.outline.center, (0.0, 0.4))
    assert (hand.steps, hand.step) == (1, "Draw a bed")
    assert hand.selected() == {made.id}


def test_drawing_with_plain_mouse_presses_of_the_test_library(hand: Hand) -> None:
    viewport = hand.view.viewport()
    start, end = (hand.at(p).toPoint() for p in ((-1.0, 1.0), (1.0, 0.0)))
    hand.shortcut("R")
    QTest.mousePress(viewport, Qt.MouseButton.LeftButton, pos=start)
    QTest.mouseMove(viewport, (start + end) / 2)
    QTest.mouseMove(viewport, end)
    QTest.mouseRelease(viewport, Qt.MouseButton.LeftButton, pos=end)
    assert near((only_bed(hand).outline.length, only_bed(hand).outline.width), (2.0, 1.0))


@pytest.mark.parametrize(
    ("held", "size", "center"),
    [
        (SHIFT, (2.0, 2.0), (1.0, -1.0)),
        (CTRL, (4.0, 1.0), (0.0, 0.0)),
        (ALT, (2.04, 0.53), (1.02, -0.265)),
    ],
)
def test_keys_held_while_drawing(hand: Hand, held, size, center) -> None:
    hand.do("tool rectangle")
    hand.drag((0.0, 0.0), (2.04, -0.53), held)
    outline = only_bed(hand).outline
    assert near((outline.length, outline.width), size)
    assert near(outline.center, center)


def test_a_circle_is_drawn_from_its_centre(hand: Hand) -> None:
    hand.do("tool circle")
    hand.drag((1.0, 1.0), (1.0, 2.0))
    outline = only_bed(hand).outline
    assert outline.shape == "circle"
    assert near((outline.radius, *outline.center), (1.0, 1.0, 1.0))


@pytest.mark.parametrize("tool", ["rectangle", "circle"])
def test_a_drag_that_is_too_small_draws_nothing_and_says_so(hand: Hand, tool: str) -> None:
    hand.do(f"tool {tool}")
    hand.click((0.0, 0.0))
    start = hand.at((0.0, 0.0))
    hand.view.scale_to(3.0)  # far out, where a trembling hand covers a metre
    start = hand.view.scene_at(start)
    place = (start.x() / 100, -start.y() / 100)
    hand.press(place)
    hand.move((place[0] + 1.0, place[1] + 0.2))
    hand.release((place[0] + 1.0, place[1] + 0.2))
    assert hand.garden.beds == ()
    assert hand.steps == 0
    assert "Drag from one corner" in hand.message()


@pytest.mark.parametrize("tool", ["rectangle", "circle"])
def test_escape_while_drawing_leaves_the_sheet_as_it_was(hand: Hand, tool: str) -> None:
    before = hand.garden
    hand.do(f"tool {tool}")
    hand.carry((0.0, 0.0), (1.5, 1.0))
    hand.key(Qt.Key.Key_Escape)
    hand.release((1.5, 1.0))
    assert hand.garden is before
    assert hand.steps == 0
    assert hand.view.tool == tool
    hand.key(Qt.Key.Key_Escape)
    assert hand.view.tool == "select"


def draw_corners(hand: Hand, *corners) -> None:
    hand.do("tool polygon")
    for corner in corners:
        hand.click(corner)


def test_a_polygon_is_closed_with_enter(hand: Hand) -> None:
    draw_corners(hand, (-1.0, 0.0), (1.0, 0.0), (1.0, 2.0), (0.0, 1.0))
    assert hand.garden.beds == ()
    hand.key(Qt.Key.Key_Return)
    outline = only_bed(hand).outline
    assert outline.shape == "polygon"
    assert len(outline.points) == 4
    assert hand.steps == 1
    assert hand.view.gesture is None


def test_a_polygon_is_closed_with_a_click_on_its_first_corner(hand: Hand) -> None:
    draw_corners(hand, (-1.0, 0.0), (1.0, 0.0), (1.0, 2.0), (-1.02, 0.01))
    assert len(only_bed(hand).outline.points) == 3
    assert hand.steps == 1


def test_backspace_takes_a_corner_back(hand: Hand) -> None:
    draw_corners(hand, (-1.0, 0.0), (1.0, 0.0), (1.0, 2.0), (3.0, 3.0))
    hand.key(Qt.Key.Key_Backspace)
    hand.key(Qt.Key.Key_Return)
    assert len(only_bed(hand).outline.points) == 3


def test_a_polygon_of_two_corners_is_not_closed(hand: Hand) -> None:
    draw_corners(hand, (-1.0, 0.0), (1.0, 0.0))
    hand.key(Qt.Key.Key_Return)
    assert hand.garden.beds == ()
    assert "three corners" in hand.message()
    assert hand.view.gesture is not None


def test_a_self_crossing_polygon_says_why_and_can_be_mended(hand: Hand) -> None:
    draw_corners(hand, (-1.0, 0.0), (1.0, 1.0), (1.0, 0.0), (-1.0, 1.0))
    hand.key(Qt.Key.Key_Return)
    assert hand.garden.beds == ()
    assert hand.steps == 0
    assert "cross" in hand.message()
    hand.key(Qt.Key.Key_Backspace)
    hand.key(Qt.Key.Key_Return)
    assert len(hand.garden.beds) == 1


def test_a_polygon_on_one_line_says_why(hand: Hand) -> None:
    draw_corners(hand, (-1.0, 0.0), (0.0, 0.0), (1.0, 0.0))
    hand.key(Qt.Key.Key_Return)
    assert hand.garden.beds == ()
    assert hand.message()


def test_escape_and_right_click_give_a_polygon_up(hand: Hand) -> None:
    for way in ("escape", "right"):
        draw_corners(hand, (-1.0, 0.0), (1.0, 0.0), (1.0, 2.0))
        if way == "escape":
            hand.key(Qt.Key.Key_Escape)
        else:
            QTest.mousePress(hand.view.viewport(), Qt.MouseButton.RightButton, pos=QPoint(300, 200))
        assert hand.view.gesture is None
    assert hand.garden.beds == ()


def test_drawing_catches_the_edge_of_another_bed(open_hand) -> None:
    hand = open_hand(garden(bed("b1", rectangle(center=(0.03, 2.0)), name="Upper")))
    hand.do("tool rectangle")
    hand.drag((-2.36, 0.9), (2.42, -0.3))  # its edges stand at -2.37 and 2.43, off the grid
    made = hand.garden.beds[1].outline
    assert near((made.center[0], made.length), (0.03, 4.8))


def test_drawing_on_the_feet_grid(open_hand) -> None:
    hand = open_hand(garden(site={"units": "feet_inches"}))
    hand.do("tool rectangle")
    hand.drag((0.0, 0.0), (2.46, 1.20))
    outline = only_bed(hand).outline
    assert near((outline.length / FOOT, outline.width / FOOT), (8.0, 4.0), 1e-4)


def test_a_structure_is_drawn_once_and_the_tool_put_down(hand: Hand) -> None:
    hand.do("tool structure:wall")
    hand.drag((-1.0, 0.0), (1.0, 0.3))
    (wall,) = hand.garden.structures
    assert wall.kind == "wall"
    assert hand.view.tool == "select"
    assert hand.view.gesture is None
    assert hand.steps == 1
    hand.do("tool structure:tree")
    hand.drag((2.0, 2.0), (3.0, 2.0))
    assert hand.garden.structures[1].outline.shape == "circle"


def test_measuring_changes_nothing(hand: Hand) -> None:
    hand.do("tool measure")
    hand.drag((0.0, 0.0), (3.0, 4.0))
    assert hand.steps == 0
    assert "5.00 m" in hand.message()
    assert "3.00 m across" in hand.message()


def test_a_wheel_turn_zooms_at_the_pointer(hand: Hand, qapp) -> None:
    from PySide6.QtCore import QPointF
    from PySide6.QtGui import QWheelEvent

    place, zoom = (2.0, 1.0), hand.view.pixels_per_metre
    point = hand.at(place)
    event = QWheelEvent(
        point, point, QPoint(), QPoint(0, 240), Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    qapp.sendEvent(hand.view.viewport(), event)
    assert hand.view.pixels_per_metre > zoom * 1.2
    moved: QPointF = hand.view.to_view(place) - point
    assert abs(moved.x()) + abs(moved.y()) < 3


def test_a_support_is_drawn_by_dragging_and_its_plants_follow(open_hand):
    from planner.garden import Bed, Garden, Planting, Rectangle

    bed = Bed(id="b1", name="One", outline=Rectangle(length=4.0, width=1.2))
    pea = Planting(
        id="p1", bed="b1", crop="pea", year=2026, arrangement={"kind": "rows", "in_row_spacing": 0.1}
    )
    hand = open_hand(Garden(beds=(bed,), plantings=(pea,)))
    view, document = hand.view, hand.document
    document.select(("p1",))
    view.take_tool("support")
    hand.drag((-1.0, 0.0), (1.0, 0.0))
    support = document.garden.plantings[0].support
    assert support.line == ((-1.0, 0.0), (1.0, 0.0))
    assert document.plan.placed(document.garden.plantings[0]).plants == 40
    assert document.undo_stack.count() == 1
    assert view.tool == "select"
    document.undo_stack.undo()
    assert document.garden.plantings[0].support is None


def test_beans_at_an_arch_drawn_from_bed_to_bed(open_hand) -> None:
    """The box from bed to bed spans the path, and a strip of the bed at its foot holds a whole row of beans."""
    beds = (bed("b1", rectangle(4.8, 1.2)), bed("b2", rectangle(4.8, 1.2, center=(0.0, 1.8))))
    hand = open_hand(garden(*beds))
    hand.do("tool structure:arch")
    hand.drag((-2.2, 0.5), (2.2, 1.3), ALT)
    (arch,) = hand.garden.structures
    assert near((arch.outline.length, arch.outline.width, arch.outline.turn), (0.8, 4.4, 90.0), 1e-2)
    hand.drop("runner_bean", [(0.0, 0.0)])
    hand.drag((0.0, -0.6), (0.0, 0.5))  # the handle in the middle of the plot's lower side
    (beans,) = hand.garden.plantings
    plan = hand.document.plan
    assert plan.placed(beans).layout.row_count == 1
    assert plan.placed(beans).plants == 31
    assert plan.arch_of(beans) is arch
    assert [one.text for one in check_only(plan, ("support", "crowding", "outside"))] == []


def test_a_structure_that_lets_light_through_says_what_it_is_made_of(open_hand) -> None:
    outline = rectangle(6, 3)
    tunnel = Structure(id="s1", kind="tunnel", outline=outline, height=2.2)
    wall = Structure(id="s2", kind="wall", outline=rectangle(6, 0.3, center=(0, 5)), height=2)
    hand = open_hand(garden(structures=(tunnel, wall)))
    hand.view.show_all()
    hand.view.grab()
    written = {label.key: label.text for label, _ in hand.view.labels.all_placed()}
    assert written["s1"].startswith("tunnel · clear film, one layer, ")
    assert written["s1"].endswith(" % of the sun")
    assert written["s2"] == "wall"
    hand.view.scale_to(21.0)  # too far away for more than its kind
    hand.view.grab()
    assert {label.key: label.text for label, _ in hand.view.labels.all_placed()}["s1"].startswith("tunnel")


# -- measures that are typed while one draws --------------------------------------------------------


def typed(hand: Hand, *keys) -> None:
    """Keys to the sheet: a text sign by sign, others as they are."""
    for key in keys:
        if isinstance(key, str):
            for sign in key:
                QTest.keyClicks(hand.view, sign)
        else:
            hand.key(key)


TAB, ENTER, BACK = Qt.Key.Key_Tab, Qt.Key.Key_Return, Qt.Key.Key_Backspace
LEFT_KEY, RIGHT_KEY, UP_KEY, DOWN_KEY = (
    Qt.Key.Key_Left,
    Qt.Key.Key_Right,
    Qt.Key.Key_Up,
    Qt.Key.Key_Down,
)


@pytest.mark.parametrize(
    ("end", "keys", "size"),
    [
        ((1.0, -0.5), ("4.8", TAB, "120cm", ENTER), (4.8, 1.2)),
        ((1.0, -0.5), ("4,8", ENTER), (4.8, 0.5)),  # the width is the pointer's
        ((0.5, 1.0), ("4.8", TAB, "1.2", ENTER), (1.2, 4.8)),  # the length goes where the pointer goes
        ((1.0, -0.5), ("4.85", BACK, TAB, "9", BACK, "1.2", ENTER), (4.8, 1.2)),
        ((1.0, -0.5), ("15'6", TAB, "4ft", ENTER), (15.5 * FOOT, 4 * FOOT)),
    ],
)
def test_the_measures_of_a_rectangle_are_typed_while_it_is_drawn(hand: Hand, end, keys, size) -> None:
    hand.do("tool rectangle")
    hand.carry((0.0, 0.0), end)
    typed(hand, *keys)
    outline = only_bed(hand).outline
    assert near((outline.length, outline.width), size)
    left = outline.center[0] - outline.length / 2
    assert near((left,), (0.0,))
    assert hand.steps == 1
    hand.release(end)
    assert hand.steps == 1


def test_letting_go_keeps_what_was_typed(hand: Hand) -> None:
    hand.do("tool circle")
    hand.carry((0.0, 0.0), (0.5, 0.0))
    typed(hand, "3", TAB, "2.5")  # the diameter takes the radius's place
    hand.release((0.5, 0.0))
    assert near((only_bed(hand).outline.radius,), (1.25,))


def test_what_cannot_be_read_as_a_measure_is_said_and_nothing_is_drawn(hand: Hand) -> None:
    hand.do("tool rectangle")
    hand.carry((0.0, 0.0), (1.0, 1.0))
    typed(hand, "4x", ENTER)
    assert hand.steps == 0
    assert "Length: '4x' is no length" in hand.said[-1]
    typed(hand, BACK, ENTER)
    assert hand.steps == 1


def test_an_l_shaped_bed_is_drawn_by_the_keyboard_alone(hand: Hand) -> None:
    hand.view.setFocus()
    hand.shortcut("P")
    typed(hand, ENTER, ENTER)  # the cross; the first corner at it
    typed(hand, RIGHT_KEY, "4", ENTER, UP_KEY, "120 cm", ENTER, LEFT_KEY, "2,8", ENTER)
    typed(hand, "1.3", TAB, "90", ENTER, "1.2", TAB, "180", ENTER)
    typed(hand, ENTER)
    outline = only_bed(hand).outline
    corners = outline.points
    assert len(corners) == 6
    x0, y0 = corners[0]
    moved = [(x - x0, y - y0) for x, y in corners]
    wanted = [(0, 0), (4, 0), (4, 1.2), (1.2, 1.2), (1.2, 2.5), (0, 2.5)]
    assert all(near(a, b) for a, b in zip(moved, wanted, strict=True))
    assert (hand.steps, hand.view.gesture) == (1, None)


def test_a_structure_and_a_support_are_drawn_by_the_keyboard_alone(open_hand) -> None:
    hand = open_hand(stand(garden(bed("b1", rectangle(4.0, 1.2, turn=90.0))), "b1", "runner_bean")[0])
    hand.do("tool structure:wall")
    hand.view.setFocus()
    typed(hand, ENTER, RIGHT_KEY, RIGHT_KEY, ENTER, UP_KEY, "6", TAB, "0.3", ENTER)
    (wall,) = hand.garden.structures
    assert near((wall.outline.length, wall.outline.width), (0.3, 6.0))
    hand.document.select((hand.garden.plantings[0].id,))
    hand.do("tool support")
    typed(hand, ENTER, ENTER, "1.5", TAB, "90", ENTER)
    line = hand.garden.plantings[0].support.line
    assert near((line[1][0] - line[0][0], line[1][1] - line[0][1]), (1.5, 0.0))  # the bed is turned
    assert hand.view.tool == "select"


def test_a_side_is_caught_square_to_the_one_before_and_alt_holds_that_off(hand: Hand) -> None:
    draw_corners(hand, (-1.0, 0.0), (0.5, 1.5))  # on the slant
    hand.move((-0.31, 2.35))
    assert hand.view.gesture._end() == pytest.approx((-0.33, 2.33), abs=0.02)
    assert hand.view._catch.kind == "square"
    hand.view.grab()
    hand.move((-0.31, 2.35), ALT)
    assert hand.view._catch is None
    assert hand.view.gesture._end() == pytest.approx((-0.31, 2.35), abs=0.01)
    hand.key(Qt.Key.Key_Escape)
    assert hand.view._catch is None
