"""Planting a crop by drag and drop, by clicks, and by the keyboard alone."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import ALT, CTRL, NONE, SHIFT, Hand, near, stand
from making import bed, garden, rectangle
from PySide6.QtCore import QMimeData, QPoint, Qt
from PySide6.QtGui import QDragEnterEvent
from PySide6.QtTest import QTest

from planner.desk.gestures.placing import PlaceCrop
from planner.desk.panels.crop_model import CROP_ROLE
from planner.garden import Circle, Climate
from planner.garden.site import FrostDates
from planner.plan import Plan
from planner.words import day_words

pytestmark = pytest.mark.one_window


def two_beds():
    return garden(
        bed("b1", rectangle(center=(0.0, 2.0)), name="North"),
        bed("b2", rectangle(center=(0.0, -2.0)), name="South"),
    )


def count_of(hand: Hand, index: int = -1) -> int:
    """Plants of a planting, worked out afresh."""
    plan = Plan(hand.garden, hand.document.year, hand.document.catalogue)
    return plan.placed(hand.garden.plantings[index]).plants


@pytest.fixture
def beds(open_hand) -> Hand:
    hand = open_hand(two_beds())
    hand.document.show_year(2026)
    return hand


def test_a_dropped_crop_takes_the_free_ground_and_the_ghost_told_its_number(beds: Hand) -> None:
    assert beds.drop("carrot", [(0.0, 0.0), (1.0, 2.0)], let_go=False)
    ghost = beds.view.gesture.preview
    told = ghost.placed.plants
    assert beds.garden.plantings == ()
    assert any(f"= {told}" in line for line in beds.view.gesture.lines())
    assert beds.drop("carrot", [(1.0, 2.0)])
    (planting,) = beds.garden.plantings
    assert (planting.bed, planting.crop, planting.plot.kind) == ("b1", "carrot", "whole")
    assert count_of(beds) == told > 100
    assert (beds.steps, beds.step) == (1, f"Plant {told} carrot in North")
    assert beds.selected() == {planting.id}
    assert beds.view.gesture is None


def test_shift_takes_a_stretch_from_the_nearer_end_to_the_pointer(beds: Hand) -> None:
    beds.drop("onion", [(-0.9, 2.0)], SHIFT)
    plot = beds.garden.plantings[0].plot
    assert plot.kind == "stretch"
    assert near((plot.start,), (0.0,))
    assert plot.end == pytest.approx(1.5, abs=0.06)


def test_ctrl_takes_the_whole_bed_even_where_something_stands(open_hand) -> None:
    made, _ = stand(two_beds(), "b1", "carrot")
    hand = open_hand(made)
    hand.drop("onion", [(0.0, 2.0)], CTRL)
    assert hand.garden.plantings[1].plot.kind == "whole"


def test_alt_sets_single_plants_that_are_one_planting(beds: Hand) -> None:
    beds.drop("tomato", [(-1.0, 2.1)], ALT)
    beds.drop("tomato", [(1.0, 2.1)], ALT)
    (planting,) = beds.garden.plantings
    assert planting.arrangement.kind == "places"
    assert near([c for point in planting.arrangement.points for c in point], (-1.0, 0.1, 1.0, 0.1), 2e-2)
    assert planting.shares_ground
    assert beds.steps == 2
    assert count_of(beds) == 2


@pytest.mark.parametrize("held", [NONE, SHIFT, CTRL, ALT])
def test_the_ghost_counts_what_is_then_planted(beds: Hand, held) -> None:
    for crop in ("carrot", "courgette"):
        beds.drop(crop, [(0.42, 1.9)], held, let_go=False)
        told = beds.view.gesture.preview.placed.plants
        beds.drop(crop, [(0.42, 1.9)], held)
        assert told > 0
        assert count_of(beds) == told
        beds.do("undo")


def test_dropping_in_free_ground_between_plantings(open_hand) -> None:
    made, _ = stand(two_beds(), "b1", "carrot", plot={"kind": "stretch", "start": 0.0, "end": 1.0})
    made, _ = stand(made, "b1", "onion", plot={"kind": "stretch", "start": 3.0, "end": 4.8})
    hand = open_hand(made)
    hand.drop("pea", [(-0.4, 2.0)])
    plot = hand.garden.plantings[2].plot
    assert near((plot.start, plot.end), (1.0, 3.0), 1e-3)


def test_a_bed_without_free_ground_says_so_and_takes_nothing(open_hand) -> None:
    made, _ = stand(two_beds(), "b1", "asparagus", last="2040-01-01")
    hand = open_hand(made)
    assert not hand.drop("onion", [(0.0, 2.0)])
    assert hand.garden is made
    assert hand.steps == 0
    assert "no free ground" in hand.message()
    assert hand.view.gesture is None


def test_ground_that_falls_free_in_the_year_is_offered_with_its_day(open_hand) -> None:
    made, _ = stand(two_beds(), "b1", "radish", first="2026-03-01", last="2026-05-20")
    hand = open_hand(made)
    hand.drop("leek", [(0.0, 2.0)], let_go=False)
    assert any("from 21 May 2026" in line for line in hand.view.gesture.lines())
    hand.drop("leek", [(0.0, 2.0)])
    assert hand.garden.plantings[1].first == dt.date(2026, 5, 21)


def test_a_full_bed_offers_the_first_days_on_which_the_crop_has_its_ground_to_the_end(open_hand) -> None:
    made, _ = stand(two_beds(), "b1", "pea", first="2026-03-01", last="2026-05-31")
    made, _ = stand(made, "b1", "kale", first="2026-10-15", last="2027-03-01")
    hand = open_hand(made)
    hand.document.show_year(2026)
    hand.drop("radish", [(0.0, 2.0)], let_go=False)
    assert any("from 1 Jun 2026" in line for line in hand.view.gesture.lines()), "between two plantings"
    hand.drop("radish", [(0.0, 2.0)])
    span = hand.document.plan.span_of(hand.garden.plantings[2])
    assert span.first == dt.date(2026, 6, 1)
    assert span.last < dt.date(2026, 10, 15)
    hand.drop("leek", [(0.0, 2.0)], let_go=False)
    assert not any("from " in line for line in hand.view.gesture.lines()), "no gap is long enough for it"


def test_a_drop_on_bare_ground_makes_a_bed_of_the_crops_size_with_it(beds: Hand) -> None:
    assert not beds.drop("carrot", [(0.0, 2.0), (0.0, 1.1)])
    assert beds.garden.plantings == ()
    assert "would lie on North" in beds.message()
    assert beds.drop("lettuce", [(0.0, 0.0)], let_go=False)
    told = beds.view.gesture.preview.placed.plants
    assert any("in a new bed of" in line for line in beds.view.gesture.lines())
    assert len(beds.garden.beds) == 2
    beds.drop("lettuce", [(0.0, 0.0)])
    made = beds.garden.beds[2]
    assert near(made.outline.center, (0.0, 0.0), 0.3)
    assert made.outline.width == beds.garden.beds[0].outline.width
    assert beds.garden.plantings[0].bed == made.id
    assert count_of(beds) == told > 10
    assert (beds.steps, beds.step) == (1, f"Plant {told} butterhead lettuce in a new bed")
    assert beds.selected() == {"p1"}


def test_several_crops_are_spread_over_a_bed_in_the_order_chosen(beds: Hand) -> None:
    crops = beds.window.docks.crops.list
    model = crops.model()
    rows = {model.index(row, 0).data(CROP_ROLE).key: row for row in range(model.rowCount())}
    for key, held in (("onion", NONE), ("carrot", CTRL), ("beetroot", CTRL)):
        index = model.index(rows[key], 0)
        crops.scrollTo(index)
        QTest.mouseClick(crops.viewport(), Qt.MouseButton.LeftButton, held, crops.visualRect(index).center())
    crops.setFocus()
    beds.document.select(["b2"])
    QTest.keyClick(crops, Qt.Key.Key_Return)
    assert "onion" in beds.view.gesture.lines()[0]
    beds.key(Qt.Key.Key_Return)
    assert [one.crop for one in beds.garden.plantings] == ["onion", "carrot", "beetroot"]
    assert {one.bed for one in beds.garden.plantings} == {"b2"}
    ends = [(one.plot.start, one.plot.end) for one in beds.garden.plantings]
    assert ends == sorted(ends)
    assert [ends[0][1], ends[1][1]] == [ends[1][0], ends[2][0]]
    assert (beds.steps, beds.step) == (1, "Plant 3 crops in South")
    assert len(beds.selected()) == 3


def test_a_drag_that_leaves_the_sheet_ends_the_ghost(beds: Hand) -> None:
    beds.drop("carrot", [(0.0, 2.0)], let_go=False)
    assert isinstance(beds.view.gesture, PlaceCrop)
    beds.leave()
    assert beds.view.gesture is None
    assert beds.garden.plantings == ()


def test_what_is_no_crop_is_not_taken(beds: Hand, qapp) -> None:
    data = QMimeData()
    data.setText("carrot")
    event = QDragEnterEvent(QPoint(100, 100), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, NONE)
    event.setAccepted(False)
    qapp.sendEvent(beds.view.viewport(), event)
    assert not event.isAccepted()
    assert beds.view.gesture is None


def test_a_crop_too_large_for_its_bed_says_what_to_do(open_hand) -> None:
    hand = open_hand(garden(bed("b1", rectangle(0.6, 0.4), name="Box")))
    hand.drop("rhubarb", [(0.0, 0.0)])
    assert hand.garden.plantings == ()
    assert "No rhubarb fits" in hand.message()


def test_a_strip_of_thirty_centimetres_holds_a_row(open_hand) -> None:
    hand = open_hand(garden(bed("b1", rectangle(4.8, 0.3), name="Strip")))
    hand.drop("cabbage", [(0.0, 0.0)])
    (planting,) = hand.garden.plantings
    layout = hand.window.document.plan.placed(planting).layout
    assert (layout.row_count, layout.count) == (1, 11)


def test_a_round_bed_is_planted(open_hand) -> None:
    hand = open_hand(garden(bed("b1", Circle(radius=1.0))))
    hand.drop("lettuce", [(0.2, 0.2)])
    assert count_of(hand) > 10


# -- by clicks and keys -------------------------------------------------------------------------


def test_a_crop_taken_with_a_double_click_is_planted_with_a_click(beds: Hand) -> None:
    beds.window.docks.crops.list.doubleClicked.emit(beds.window.docks.crops.list.model().index(0, 0))
    assert isinstance(beds.view.gesture, PlaceCrop)
    beds.move((0.0, 2.0))
    beds.click((0.0, 2.0))
    assert len(beds.garden.plantings) == 1
    assert beds.view.gesture is None


def test_shift_keeps_the_crop_in_hand(beds: Hand) -> None:
    beds.window.commands.navigation.place_crop(beds.document.catalogue.get("carrot"), "", False)
    beds.click((-1.0, 2.0), SHIFT)
    beds.click((1.5, -2.0), SHIFT)
    assert len(beds.garden.plantings) == 2
    assert isinstance(beds.view.gesture, PlaceCrop)
    beds.key(Qt.Key.Key_Escape)
    assert beds.view.gesture is None
    assert beds.steps == 2


def find(hand: Hand, words: str) -> None:
    hand.shortcut("Ctrl+F")
    for sign in words:
        hand.key(Qt.Key(ord(sign.upper())))


def test_the_whole_walk_by_keyboard(beds: Hand, qapp) -> None:
    find(beds, "carrot")
    assert beds.window.docks.crops.search.text() == "carrot"
    assert beds.crops_shown()[0] == "carrot"
    beds.key(Qt.Key.Key_Return)
    assert qapp.focusWidget() is beds.view
    assert "North" in beds.message()
    beds.key(Qt.Key.Key_Down)
    assert "South" in beds.message()
    told = beds.view.gesture.preview.placed.plants
    beds.key(Qt.Key.Key_Return)
    assert [p.bed for p in beds.garden.plantings] == ["b2"]
    assert count_of(beds) == told
    assert beds.view.gesture is None
    assert beds.steps == 1


def test_tab_goes_to_the_next_free_piece(open_hand) -> None:
    made, _ = stand(two_beds(), "b1", "onion", plot={"kind": "stretch", "start": 2.0, "end": 3.0})
    hand = open_hand(made)
    find(hand, "carrot")
    hand.key(Qt.Key.Key_Return)
    hand.key(Qt.Key.Key_Tab)
    hand.key(Qt.Key.Key_Return)
    plot = hand.garden.plantings[1].plot
    assert near((plot.start, plot.end), (3.0, 4.8), 1e-3)


def test_ctrl_enter_takes_the_whole_bed(open_hand) -> None:
    made, _ = stand(two_beds(), "b1", "onion", plot={"kind": "stretch", "start": 2.0, "end": 3.0})
    hand = open_hand(made)
    find(hand, "carrot")
    hand.key(Qt.Key.Key_Return)
    hand.key(Qt.Key.Key_Return, CTRL)
    assert hand.garden.plantings[1].plot.kind == "whole"


def test_without_a_bed_and_with_b_a_new_bed_is_offered_by_key(hand: Hand) -> None:
    find(hand, "carrot")
    hand.key(Qt.Key.Key_Return)
    assert "in a new bed of" in hand.message()
    hand.key(Qt.Key.Key_Tab)
    hand.key(Qt.Key.Key_Escape)
    assert (hand.view.gesture, hand.steps) == (None, 0)
    for crop in ("carrot", "onion"):
        find(hand, crop)
        hand.key(Qt.Key.Key_Return)
        if crop == "onion":
            hand.key(Qt.Key.Key_B)
        hand.key(Qt.Key.Key_Return)
    assert [one.bed for one in hand.garden.plantings] == ["b1", "b2"]
    assert hand.steps == 2


def test_undo_while_a_crop_is_held_lets_it_go(beds: Hand) -> None:
    beds.drop("carrot", [(0.0, 2.0)])
    beds.window.commands.navigation.place_crop(beds.document.catalogue.get("onion"), "", True)
    beds.do("undo")
    assert beds.view.gesture is None
    assert beds.garden.plantings == ()


# -- a planting that does not grow on the day shown ---------------------------------------------


def drawn_ids(hand: Hand) -> set[str]:
    return {each.planting.id for item in hand.view.sheet.beds.values() for each in item.painted}


def test_after_a_drop_the_day_goes_to_when_the_planting_grows(open_hand) -> None:
    spring = FrostDates(risk_90="04-10", risk_50="04-25", risk_10="05-10")
    autumn = FrostDates(risk_10="09-25", risk_50="10-10", risk_90="10-25")
    beds = open_hand(two_beds().with_(climate=Climate(last_frost=spring, first_frost=autumn)))
    beds.document.show_year(2026)
    beds.document.show_day(dt.date(2026, 11, 1))
    beds.drop("radish", [(0.0, 2.0)])
    (planting,) = beds.garden.plantings
    span = beds.document.plan.span_of(planting)
    assert not span.holds(dt.date(2026, 11, 1))
    assert beds.document.day == span.last  # the nearest of its days
    assert drawn_ids(beds) == {planting.id}
    assert day_words(span.last) in beds.message()


def test_after_a_drop_that_can_be_seen_the_day_stays(beds: Hand) -> None:
    beds.document.show_day(dt.date(2026, 7, 15))
    beds.drop("tomato", [(0.0, 2.0)])
    assert beds.document.day == dt.date(2026, 7, 15)
    assert "day shown" not in beds.message()


def test_with_the_whole_year_shown_a_drop_leaves_it_shown(beds: Hand) -> None:
    beds.document.show_day(None)
    beds.drop("radish", [(0.0, 2.0)])
    assert beds.document.day is None


@pytest.fixture
def spring_radish(open_hand) -> Hand:
    made, key = stand(two_beds(), "b1", "radish", first="2026-03-10", last="2026-04-20")
    made, _ = stand(made, "b2", "leek", first="2026-06-10", last="2026-12-20")
    hand = open_hand(made)
    hand.document.show_year(2026)
    hand.document.show_day(dt.date(2026, 7, 15))
    assert key not in drawn_ids(hand)
    return hand


def test_what_is_chosen_in_the_tree_is_shown_on_a_day_on_which_it_grows(spring_radish: Hand) -> None:
    hand, tree = spring_radish, spring_radish.window.docks.contents
    hand.window.docks.left.setCurrentWidget(tree)
    bed_item = tree.topLevelItem(0)
    tree.setCurrentItem(bed_item)
    assert hand.document.day == dt.date(2026, 7, 15)
    tree.setCurrentItem(bed_item.child(0))
    assert hand.document.day == dt.date(2026, 4, 20)
    assert hand.selected() == {"p1"} <= drawn_ids(hand)
    assert "20 Apr" in hand.message()
    tree.setCurrentItem(tree.topLevelItem(1).child(0))
    assert hand.document.day == dt.date(2026, 6, 10)


def test_what_is_looked_for_from_another_page_is_shown_when_it_grows(spring_radish: Hand) -> None:
    spring_radish.window.pages.amounts.planting_wanted.emit("p1")
    assert spring_radish.document.day == dt.date(2026, 4, 20)
    assert "p1" in drawn_ids(spring_radish)


def test_selected_elsewhere_it_is_drawn_faintly_with_its_days(spring_radish: Hand, monkeypatch) -> None:
    from planner.desk.canvas import selection

    texts: list[str] = []
    say = selection.say
    monkeypatch.setattr(selection, "say", lambda text, **parts: texts.append(say(text, **parts)) or texts[-1])
    before = spring_radish.view.viewport().grab().toImage()
    spring_radish.document.select(["p1"])  # as the year page does
    after = spring_radish.view.viewport().grab().toImage()
    assert spring_radish.document.day == dt.date(2026, 7, 15)
    assert texts[-1] == "10 Mar to 20 Apr"
    within = spring_radish.at((-2.0, 2.3)).toPoint()
    assert before.pixelColor(within) != after.pixelColor(within)
    texts.clear()
    spring_radish.document.select(["p2"])
    spring_radish.view.grab()
    assert texts == []
