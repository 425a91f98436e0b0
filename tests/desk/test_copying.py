"""Copying and pasting, in one garden and between two; duplicating."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import Hand, near, stand
from making import bed, garden, rectangle
from PySide6.QtCore import QMimeData
from PySide6.QtGui import QCursor

from planner.desk.model.clipboard import THINGS_MIME
from planner.garden.edits import put_variety

pytestmark = pytest.mark.one_window


@pytest.fixture(autouse=True)
def empty_clipboard(qapp):
    qapp.clipboard().clear()
    yield
    qapp.clipboard().clear()


def full_bed():
    made = garden(
        bed("b1", rectangle(center=(0.0, 2.0)), name="North"),
        bed("b2", rectangle(center=(0, -2.0)), name="South"),
    )
    made, _ = stand(made, "b1", "carrot", variety="Nantes")
    made, _ = put_variety(made, crop="carrot", name="Nantes")
    return made


def point_at(hand: Hand, place) -> None:
    QCursor.setPos(hand.view.viewport().mapToGlobal(hand.at(place).toPoint()))


def test_a_bed_is_pasted_with_its_plantings_into_another_garden(open_hand) -> None:
    one, other = open_hand(full_bed()), open_hand(garden(bed("b1", rectangle(), name="North")))
    one.document.select(["b1"])
    one.do("copy")
    other.do("paste here")
    assert [b.name for b in other.garden.beds] == ["North", "North 1"]
    assert near(other.bed("North 1").outline.center, (0.0, 2.0))
    (planting,) = other.garden.plantings
    assert (planting.crop, planting.variety, planting.bed) == ("carrot", "Nantes", other.bed("North 1").id)
    assert [v.name for v in other.garden.varieties] == ["Nantes"]
    assert other.steps == 1
    assert other.selected() == {other.bed("North 1").id}
    assert one.steps == 0


def test_a_bed_is_pasted_where_the_pointer_is(open_hand) -> None:
    hand = open_hand(full_bed())
    hand.document.select(["b1"])
    hand.do("copy")
    point_at(hand, (1.0, 0.5))
    hand.do("paste")
    assert near(hand.garden.beds[-1].outline.center, (1.0, 0.5), 0.051)


def test_a_planting_alone_goes_to_the_selected_bed_with_its_variety(open_hand) -> None:
    one, other = open_hand(full_bed()), open_hand(garden(bed("b7", rectangle(), name="There")))
    other.document.show_year(2026)
    one.document.select(["p1"])
    one.do("copy")
    other.document.select(["b7"])
    other.do("paste here")
    (planting,) = other.garden.plantings
    assert (planting.bed, planting.variety, planting.year) == ("b7", "Nantes", 2026)
    assert [v.name for v in other.garden.varieties] == ["Nantes"]


def test_a_planting_pasted_in_another_year_stands_in_that_year(open_hand) -> None:
    made, _ = stand(full_bed(), "b2", "radish", first="2026-03-01", last="2026-05-20")
    hand = open_hand(made)
    hand.document.select(["p2"])
    hand.do("copy")
    hand.document.show_year(2027)
    hand.document.select(["b1"])
    hand.do("paste here")
    planting = hand.garden.plantings[-1]
    assert (planting.year, planting.bed) == (2027, "b1")
    assert (planting.first, planting.last) == (dt.date(2027, 3, 1), dt.date(2027, 5, 20))
    assert planting in hand.document.plan.plantings


def test_a_planting_without_a_bed_to_go_to_says_so(open_hand) -> None:
    one, other = open_hand(full_bed()), open_hand()
    one.document.select(["p1"])
    one.do("copy")
    other.do("paste here")
    assert other.steps == 0
    assert "Select a bed" in other.message()


def test_cut_and_paste_in_place_brings_it_back(open_hand) -> None:
    hand = open_hand(full_bed())
    hand.document.select(["b1"])
    hand.do("cut")
    assert [b.name for b in hand.garden.beds] == ["South"]
    hand.do("paste here")
    assert near(hand.bed("North").outline.center, (0.0, 2.0))
    assert len(hand.garden.plantings) == 1
    assert hand.steps == 2


def test_a_duplicate_lies_beside_the_first_and_alone_is_selected(open_hand) -> None:
    hand = open_hand(full_bed())
    hand.document.select(["b1"])
    hand.shortcut("Ctrl+D")
    copy = hand.garden.beds[-1]
    assert near(copy.outline.center, (0.0, 2.0 - 1.2 - 0.45))  # the least width of a path between the two
    assert len(hand.garden.plantings) == 2
    assert hand.selected() == {copy.id}
    assert hand.steps == 1


def test_a_duplicate_can_be_seen(open_hand) -> None:
    hand = open_hand(full_bed())
    hand.document.select(["b1"])
    hand.do("show selection")  # too near for a second bed
    hand.do("duplicate")
    (key,) = hand.selected()
    assert hand.view.area.contains(hand.view.viewportTransform().mapRect(hand.view.rect_of(key)))


def test_paste_is_possible_only_with_something_to_paste(open_hand, qapp) -> None:
    hand = open_hand(full_bed())
    assert not hand.window.action("paste").isEnabled()
    hand.document.select(["b1"])
    hand.do("copy")
    assert hand.window.action("paste").isEnabled()


@pytest.mark.parametrize("data", [b"", b"b1\n\n{", b"\xff\xfe\x00", b"b1\n\n[]"])
def test_a_damaged_clipboard_pastes_nothing(hand: Hand, qapp, data: bytes) -> None:
    mime = QMimeData()
    mime.setData(THINGS_MIME, data)
    qapp.clipboard().setMimeData(mime)
    hand.do("paste")
    assert hand.steps == 0
    assert "nothing of a garden" in hand.message()


@pytest.mark.parametrize("name", ["Quote \"double\" 'single'", "حديقة", "🌱🥕", "Peas & <b>beans</b>"])
def test_names_of_every_kind_survive_the_clipboard(open_hand, name: str) -> None:
    one, other = open_hand(garden(bed("b1", rectangle(), name=name))), open_hand()
    one.document.select(["b1"])
    one.do("copy")
    other.do("paste here")
    assert other.garden.beds[0].name == name
