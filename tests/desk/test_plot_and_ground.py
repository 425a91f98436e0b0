"""The edge of the plot, paths, lawns, composts, gates and taps: drawn, measured, changed and taken back."""

from __future__ import annotations

import pytest
from hand import Hand, near
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner import storage
from planner.desk.model.document import PLOT_EDGE
from planner.garden import Garden
from planner.ground.shapes import outline_area, plan_polygon

KEY = Qt.Key


def the_structure(hand: Hand):
    (made,) = hand.garden.structures
    return made


def test_a_dragged_path_is_a_straight_band_of_the_usual_width(hand: Hand) -> None:
    hand.do("tool structure:path")
    hand.drag((-3.0, 1.0), (2.0, 1.0))
    path = the_structure(hand)
    assert path.outline.shape == "band"
    assert near((outline_area(path.outline),), (5.0 * 0.6,))
    assert (hand.steps, hand.step) == (1, "Draw: path")
    assert hand.view.tool == "select"


def test_a_path_with_a_corner_gets_the_width_that_is_typed(hand: Hand) -> None:
    hand.do("tool structure:path")
    for place in ((-3.0, 0.0), (0.0, 0.0), (0.0, 2.0)):
        hand.click(place)
    for sign in "0,8":
        QTest.keyClicks(hand.view, sign)
    hand.key(KEY.Key_Return)
    path = the_structure(hand)
    assert path.outline.width == 0.8
    # Along the middle line 5 m; at the corner the rim is as long outside as inside it is short.
    assert near((outline_area(path.outline),), (5.0 * 0.8,), 1e-5)
    assert plan_polygon(path.outline).bounds == pytest.approx((-3.0, -0.4, 0.4, 2.0))
    hand.document.select((path.id,))
    hand.type(hand.window.docks.details.structure.wide, "1 m")
    assert the_structure(hand).outline.width == 1.0
    hand.drag((0.0, 2.0), (0.0, 3.0))  # the handle at its end
    assert near((outline_area(the_structure(hand).outline),), (6.0,), 1e-5)
    hand.do("undo")
    assert near((outline_area(the_structure(hand).outline),), (5.0,), 1e-5)
    assert storage.parse(storage.dump(hand.garden), "a file") == hand.garden


def test_a_path_that_crosses_itself_is_refused_and_goes_on(hand: Hand) -> None:
    hand.do("tool structure:path")
    for place in ((-2.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0), (0.0, -2.0)):
        hand.click(place)
    hand.key(KEY.Key_Return)
    assert hand.garden == Garden()
    assert "two parts" in hand.said[-1]
    hand.key(KEY.Key_Backspace)
    hand.key(KEY.Key_Return)
    assert the_structure(hand).kind == "path"


@pytest.mark.parametrize(("kind", "area"), [("gate", 0.1), ("tap", 0.0314)])
def test_a_click_puts_down_a_gate_or_a_tap(hand: Hand, kind: str, area: float) -> None:
    hand.do(f"tool structure:{kind}")
    hand.click((1.0, 1.0))
    made = the_structure(hand)
    assert near(made.outline.center, (1.0, 1.0))
    assert outline_area(made.outline) == pytest.approx(area, rel=0.01)


def test_a_lawn_takes_no_ground_from_the_beds_in_it_and_is_picked_by_its_rim(hand: Hand) -> None:
    hand.do("tool structure:lawn")
    hand.drag((-4.0, 3.0), (4.0, -3.0))
    lawn = the_structure(hand)
    hand.do("tool rectangle")
    hand.drag((-2.0, 1.0), (2.0, -0.2))
    (made,) = hand.garden.beds
    assert hand.document.plan.obstacles(made).is_empty
    hand.do("tool select")
    hand.click((3.0, -2.0))
    assert hand.selected() == set()
    hand.click((4.0, -2.0))
    assert hand.selected() == {lawn.id}


def test_the_edge_of_the_plot_is_drawn_measured_moved_resized_and_removed(hand: Hand) -> None:
    hand.do("tool plot edge")
    for place in ((-4.0, -3.0), (4.0, -3.0), (4.0, 3.0), (0.0, 3.0), (-4.0, 0.0)):
        hand.click(place)
    hand.key(KEY.Key_Return)
    outline = hand.garden.site.outline
    assert outline is not None
    assert outline_area(outline) == pytest.approx(48 - 6)
    assert hand.selected() == {PLOT_EDGE}
    form = hand.window.docks.details.plot
    assert form.isVisible()
    assert "42" in form.measures.text()
    hand.window.docks.contents.follow()
    assert "Edge of the plot" in hand.window.docks.contents.topLevelItem(0).text(0)
    hand.drag((0.0, 3.0), (-4.0, 3.0))  # a corner
    assert outline_area(hand.garden.site.outline) == pytest.approx(48)
    hand.document.select(())
    hand.drag((2.0, -3.0), (2.5, -3.0))  # its line
    assert plan_polygon(hand.garden.site.outline).bounds == pytest.approx((-3.5, -3.0, 4.5, 3.0))
    hand.key(KEY.Key_Up)
    assert plan_polygon(hand.garden.site.outline).bounds[1] == pytest.approx(-2.9)
    steps = hand.steps
    hand.do("delete")
    assert hand.garden.site.outline is None
    for _ in range(steps + 1):
        hand.do("undo")
    assert hand.garden == Garden()


def test_a_plot_dragged_as_a_rectangle_gets_typed_measures(hand: Hand) -> None:
    hand.do("tool plot edge")
    hand.drag((-4.0, 3.0), (4.0, -3.0))
    hand.type(hand.window.docks.details.plot.sizes.length, "12 m")
    assert outline_area(hand.garden.site.outline) == pytest.approx(12 * 6)
