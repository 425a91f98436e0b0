"""The page of materials: totals that open, the cut list drawn, the shed and what is spread, edited in place."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox

from planner.amounts.covers import covers
from planner.desk.main_window.page_tabs import LEAST_WIDTH
from planner.desk.main_window.window import Window
from planner.desk.pages.cut_drawing import GAP
from planner.desk.pages.materials_page import MaterialsPage
from planner.desk.theme.palette import letters
from planner.garden import Dressing, Garden, ShedItem, Site, Stretch

pytestmark = pytest.mark.one_window

SHED = (
    ShedItem(id="m1", kind="peg", number=4),
    ShedItem(id="m2", kind="fleece", length=10.0, width=2.0, sold=True),
)


def made(units: str = "metric", shed: tuple[ShedItem, ...] = SHED) -> Garden:
    return garden(
        bed("b1", rectangle(), name="North"),
        bed("b2", rectangle(center=(0, -3)), name="South"),
        planting(
            "p1",
            first="2026-04-01",
            last="2026-07-01",
            covers=({"kind": "fleece", "last": "2026-06-01"},),
            plot=Stretch(start=0, end=2.0),
        ),
        planting("p2", "b2", first="2026-07-10", last="2026-10-01", covers=({"kind": "netting"},)),
        site=Site(latitude=52.0, units=units),
        shed=shed,
        dressings=(
            Dressing(id="d1", bed="b1", kind="compost", day=dt.date(2026, 3, 10), depth=0.05),
            Dressing(id="d2", bed="b2", kind="lime", day=dt.date(2026, 2, 10), rate=150.0),
            Dressing(id="d3", bed="b2", kind="compost", day=dt.date(2025, 3, 10), depth=0.05),
        ),
    )


@pytest.fixture
def hand(open_hand) -> Hand:
    return opened(open_hand, made())


def opened(open_hand, of: Garden) -> Hand:
    hand = open_hand(of)
    hand.document.show_year(2026)
    hand.window.pages.bring(page(hand.window))
    return hand


def page(window: Window) -> MaterialsPage:
    return window.pages.materials


def row(table, name: str):
    return next(one for one in table.rows if one.cells[0] == name)


# -- covers and supports ------------------------------------------------------------------------------------


def test_totals_open_to_the_plantings_with_their_days_and_sizes(hand: Hand) -> None:
    taken = page(hand.window).taken
    pegs = row(taken.table, "peg")
    assert {part.cells[0] for part in pegs.parts} == {"carrot in North", "carrot in South"}
    # Four of the shed serve both, one after the other; the rest is to be got.
    by_planting = {one.parts[0].planting.id: one.size.weights for one in covers(hand.document.plan).laid}
    assert int(pegs.cells[2]) == max(by_planting.values())
    assert (pegs.cells[3], int(pegs.cells[5])) == ("4", max(by_planting.values()) - 4)
    (part,) = row(taken.table, "fleece").parts
    # 2.00 m of ground, on each side 15 cm of edge and what plants of 26.5 cm lift.
    assert part.cells == ("carrot in North", "2.83 × 1.71 m", "1", "", "", "1", "1 Apr – 1 Jun")


def test_enter_on_a_part_shows_its_planting_on_the_sheet(hand: Hand) -> None:
    table = page(hand.window).taken.table
    table.setCurrentIndex(table.model().index(0, 0))
    QTest.keyClick(table, Qt.Key.Key_Right)
    QTest.keyClick(table, Qt.Key.Key_Down)
    QTest.keyClick(table, Qt.Key.Key_Return)
    assert hand.window.pages.shows_sheet
    assert hand.selected() == {"p1"}


def test_the_cut_list_is_drawn_to_scale_with_its_rests_hatched(hand: Hand) -> None:
    drawing = page(hand.window).taken.drawing
    block = drawing.blocks[0]
    assert block.words == "fleece 2.00 m wide: get 1 of 10.00 m, the least there can be"
    (cut,) = block.cuts
    line = drawing._placed[0].lines[0]
    assert drawing.words_at(line.center()) == "1 × 10.00 m: 2.83 m; 7.17 m left"
    picture = drawing.grab().toImage()
    ratio = picture.devicePixelRatio()
    look = hand.window.look.now

    def colours(share: float) -> set[int]:
        """Colours between two lengths of the bar that have no words on them."""
        left = line.right() - (line.width() - bar_left(drawing)) * (1 - share)
        top = line.top() + 3
        return {
            picture.pixel(QPoint(round((left + dx) * ratio), round((top + dy) * ratio)))
            for dx in range(8)
            for dy in range(12)
        }

    assert colours(0.02) == {look.soil.rgb()}
    hatched = colours(0.93)
    assert len(hatched) > 1
    assert look.soil.rgb() not in hatched
    assert cut.rest == pytest.approx(7_170, abs=5)
    assert "7.17 m left" in drawing.accessibleDescription()


def test_parts_that_are_joined_have_a_seam_and_their_whole_is_named(open_hand) -> None:
    short = ShedItem(id="m2", kind="fleece", length=2.0, width=2.0, sold=True)
    drawing = page(opened(open_hand, made(shed=(short,))).window).taken.drawing
    block = drawing.blocks[0]
    assert block.words == "fleece 2.00 m wide: get 2 of 2.00 m, the least there can be"
    assert block.joined[1:] == (
        "2.83 m for carrot in North: joined of 2.00 m and 1.23 m, with an overlap of 0.40 m",
    )
    assert all(line in drawing.accessibleDescription() for line in block.joined)
    (placed, *_) = drawing._placed
    assert placed.joined.top() >= placed.lines[-1].bottom()
    assert drawing.words_at(placed.lines[0].center()) == "1 × 2.00 m: 2.00 m (part of 2.83 m)"
    picture = drawing.grab().toImage()
    ratio = picture.devicePixelRatio()
    line = placed.lines[0]

    def row_colours(dy: float) -> set[int]:
        """Colours of a row of pixels of the bar, within its first and last tenth."""
        left, width = line.left() + bar_left(drawing), line.width() - bar_left(drawing)
        places = range(round((left + width * 0.1) * ratio), round((left + width * 0.4) * ratio))
        return {picture.pixel(QPoint(x, round((line.top() + dy) * ratio))) for x in places}

    assert len(row_colours(1.6)) == 1
    assert len(row_colours(3.0)) > 1, "the seam is dashed"


def bar_left(drawing) -> float:
    """Where its bars begin, right of their numbers. [pixels]"""
    return QFontMetricsF(letters()).horizontalAdvance("1 × 10.00 m") + GAP


def test_nothing_is_said_of_bars_where_the_pointer_is_beside_them(hand: Hand) -> None:
    drawing = page(hand.window).taken.drawing
    assert drawing.words_at(QPointF(5, drawing.height() - 1)) == ""


def test_it_follows_edits_only_while_it_is_seen(hand: Hand) -> None:
    view = page(hand.window).taken
    hand.window.pages.show_sheet()
    before = view.table.rows
    hand.document.select(["p1"])
    hand.choose(hand.window.docks.details.planting.covers.kind, None)
    assert view.table.rows is before
    hand.window.pages.bring(page(hand.window))
    assert [one.cells[0] for one in view.table.rows if one.cells[0] == "fleece"] == []


def test_an_empty_garden_says_what_would_be_here(open_hand) -> None:
    hand = opened(open_hand, Garden())
    view = page(hand.window).taken
    assert view.table.rows == ()
    assert "Nothing is covered or supported" in view.words.text()
    assert not view.below.isVisible()
    page(hand.window).show_view(page(hand.window).spread)
    assert not page(hand.window).spread.add.isEnabled()


# -- the shed -----------------------------------------------------------------------------------------------


@pytest.fixture
def shed(hand: Hand):
    page(hand.window).show_view(page(hand.window).shed)
    return page(hand.window).shed


def put(view, line: int, field: str, text: str) -> bool:
    return view.model.setData(view.model.index(line, view.model.column_of(field)), text)


def shown(view, line: int, field: str) -> str:
    return view.model.index(line, view.model.column_of(field)).data()


def test_a_cell_of_the_shed_is_one_step_in_the_garden_s_units(hand: Hand, shed) -> None:
    assert put(shed, 1, "length", "25 ft")
    assert hand.garden.shed[1].length == pytest.approx(7.62)
    assert shown(shed, 1, "length") == "7.62 m"
    assert put(shed, 1, "weight", "17")
    assert hand.garden.shed[1].weight == 17
    assert shown(shed, 1, "weight") == "17 g/m²"
    assert hand.steps == 2
    hand.do("undo")
    assert hand.garden.shed[1].weight is None


def test_a_garden_in_feet_has_its_shed_in_feet(open_hand) -> None:
    hand = opened(open_hand, made("feet_inches", (*SHED, ShedItem(id="m3", kind="compost", litres=56.634))))
    view = page(hand.window).shed
    page(hand.window).show_view(view)
    assert shown(view, 1, "length") == "32 ft 9 3/4 in"
    assert shown(view, 2, "litres") == "2.0 cu ft"
    assert put(view, 1, "width", "5")
    assert hand.garden.shed[1].width == pytest.approx(1.524)
    assert put(view, 2, "litres", "40 lb")
    assert (hand.garden.shed[2].litres, hand.garden.shed[2].grams) == (None, pytest.approx(18_144, abs=1))


def test_what_is_wrong_is_one_line_and_changes_nothing(hand: Hand, shed) -> None:
    before = hand.garden
    for line, field, text, words in (
        (1, "length", "long", "'long' is no length"),
        (1, "length", "", "fleece needs it"),
        (1, "width", "-2", "-2.0: more than 0 is possible"),
        (0, "number", "some", "'some' is no whole number"),
        (0, "number", "-1", "'-1' is no whole number"),
        (1, "weight", "heavy", "'heavy' is no amount to an area"),
        (1, "weight", "900", "weight 900"),
        (0, "kind", "gold", "'gold' is no material"),
    ):
        assert not put(shed, line, field, text), text
        assert hand.garden is before
        assert words in hand.message()
        assert "\n" not in hand.message()


def test_things_are_added_and_removed_each_as_one_step(hand: Hand, shed) -> None:
    shed.kind.show_value("hoop")
    QTest.mouseClick(shed.add, Qt.MouseButton.LeftButton)
    assert hand.garden.shed[-1].kind == "hoop"
    assert (hand.garden.shed[-1].sold, hand.steps) == (False, 1)
    QTest.mouseClick(shed.add_sold, Qt.MouseButton.LeftButton)
    assert (hand.garden.shed[-1].sold, hand.steps) == (True, 2)
    shed.table.clearSelection()
    shed.table.selectRow(0)
    QTest.mouseClick(shed.remove, Qt.MouseButton.LeftButton)
    assert [item.id for item in hand.garden.shed] == ["m2", "m3", "m4"]
    assert hand.steps == 3
    hand.do("undo")
    assert len(hand.garden.shed) == 4


def test_every_kind_can_be_added(hand: Hand, shed) -> None:
    for kind in shed.kind.values:
        shed.kind.show_value(kind)
        shed.add.click()
        assert hand.garden.shed[-1].kind == kind
    assert hand.steps == len(shed.kind.values)


def test_another_kind_takes_the_sizes_that_it_needs(hand: Hand, shed) -> None:
    assert put(shed, 0, "kind", "netting")
    assert hand.garden.shed[0].length
    assert hand.garden.shed[0].width
    assert put(shed, 0, "kind", "pole")
    assert hand.garden.shed[0].width is None
    assert (
        not shed.model.flags(shed.model.index(0, shed.model.column_of("width"))) & Qt.ItemFlag.ItemIsEditable
    )


def test_a_kind_is_chosen_from_a_list_in_its_cell(hand: Hand, shed) -> None:
    index = shed.model.index(0, shed.model.column_of("sold"))
    shed.table.setCurrentIndex(index)
    shed.table.edit(index)
    box = shed.table.findChild(QComboBox)
    box.setCurrentIndex(2)
    box.activated.emit(2)
    assert hand.garden.shed[0].sold


def test_what_comes_into_the_shed_is_not_got(hand: Hand, shed) -> None:
    shed.kind.show_value("fleece")
    shed.add.click()
    assert put(shed, 2, "width", "2 m")
    page(hand.window).show_view(page(hand.window).taken)
    cells = row(page(hand.window).taken.table, "fleece").cells
    assert (cells[3], cells[5]) == ("1", "")


# -- what is spread -----------------------------------------------------------------------------------------


@pytest.fixture
def spread(hand: Hand):
    page(hand.window).show_view(page(hand.window).spread)
    return page(hand.window).spread


def test_totals_of_what_is_spread_open_to_beds(spread) -> None:
    compost = row(spread.totals, "compost")
    # 4.8 m x 1.2 m x 5 cm: 288 l; barrows of 85 l, bags of 50 l.
    assert compost.cells[2:7] == ("288 l", "4", "", "288 l", "6 of 50 l")
    (part,) = compost.parts
    assert (part.cells[0], part.cells[1], part.shows) == ("North", "5 cm deep", "b1")
    assert [one.kind for one in spread.model.dressings] == ["compost", "lime"]  # of this year


def test_a_cell_of_a_dressing_is_one_step(hand: Hand, spread) -> None:
    for field, text in (
        ("measure", "2 in"),
        ("day", "12 Apr"),
        ("done", "2026-04-13"),
        ("bed", "carrot in South"),
        ("kind", "straw"),
        ("notes", "from Ann"),
    ):
        assert put(spread, 0, field, text), field
    one = hand.garden.dressings[0]
    assert (one.depth, one.day, one.done) == (0.0508, dt.date(2026, 4, 12), dt.date(2026, 4, 13))
    assert (one.bed, one.planting, one.kind, one.notes) == ("b2", "p2", "straw", "from Ann")
    assert hand.steps == 6
    assert put(spread, 0, "done", "")
    assert hand.garden.dressings[0].done is None


def test_a_wrong_cell_of_a_dressing_changes_nothing(hand: Hand, spread) -> None:
    before = hand.garden
    for line, field, text, words in (
        (0, "kind", "lime", "Have the soil tested"),
        (0, "kind", "gold", "'gold' is nothing that is spread"),
        (0, "measure", "thick", "'thick' is no length"),
        (0, "measure", "3 m", "depth 3"),
        (1, "measure", "5 cm", "no amount to an area"),
        (0, "day", "never", "never"),
        (0, "bed", "West", "there is no bed 'West'"),
    ):
        assert not put(spread, line, field, text), text
        assert hand.garden is before
        assert words in hand.message()


def test_a_dressing_is_added_with_its_usual_depth_and_removed(hand: Hand, spread) -> None:
    spread.bed.setCurrentIndex(1)
    spread.kind.show_value("leaf mould")
    assert spread.measure.placeholderText() == "5 cm deep"
    QTest.mouseClick(spread.add, Qt.MouseButton.LeftButton)
    one = hand.garden.dressings[-1]
    assert (one.bed, one.kind, one.depth) == ("b2", "leaf mould", 0.05)
    assert one.day == dt.date(2026, 6, 26)  # two weeks before 10 July
    QTest.mouseClick(spread.remove, Qt.MouseButton.LeftButton)
    assert len(hand.garden.dressings) == 3
    assert hand.steps == 2


def test_lime_is_not_spread_before_a_soil_test_says_how_much(hand: Hand, spread) -> None:
    spread.kind.show_value("lime")
    spread.add.click()
    assert hand.steps == 0
    assert "Have the soil tested" in hand.message()
    hand.type(spread.measure, "120")
    spread.add.click()
    assert hand.garden.dressings[-1].rate == 120


def test_every_view_can_be_worked_in_a_narrow_window(hand: Hand) -> None:
    for view in (page(hand.window).taken, page(hand.window).spread, page(hand.window).shed):
        page(hand.window).show_view(view)
        assert page(hand.window).minimumSizeHint().width() <= LEAST_WIDTH
