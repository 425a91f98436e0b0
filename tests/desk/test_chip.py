"""The sign beside the pointer: inside the viewport, and off the bed it speaks of."""

from __future__ import annotations

import pytest
from hand import CTRL, Hand
from making import bed, garden, rectangle
from PySide6.QtCore import QPointF, QRectF, QSizeF

from planner.desk.canvas import chip
from planner.desk.canvas.chip import INSET, chip_place

pytestmark = pytest.mark.one_window

AREA = QRectF(0, 0, 800, 500)
SIZE = QSizeF(260, 80)


def test_without_anything_to_keep_off_it_lies_at_its_point_inside_the_viewport():
    assert chip_place(AREA, SIZE, QPointF(100, 100)) == QRectF(100, 100, 260, 80)
    assert chip_place(AREA, SIZE, QPointF(790, 490)).bottomRight() == QPointF(800 - INSET, 500 - INSET)


def test_at_a_point_that_is_off_already_it_stays():
    off = QRectF(300, 300, 100, 50)
    assert chip_place(AREA, SIZE, QPointF(20, 20), off) == QRectF(20, 20, 260, 80)


@pytest.mark.parametrize("x", range(40, 790, 50))
@pytest.mark.parametrize("y", range(20, 480, 40))
def test_it_never_covers_a_bed_beside_which_there_is_room(x, y):
    """A bed as it lies under the pointer, wherever that is."""
    for width, height in ((300, 80), (80, 300), (500, 200)):
        off = QRectF(x - width / 2, y - height / 2, width, height)
        place = chip_place(AREA, SIZE, QPointF(x + 18, y + 18), off)
        assert AREA.contains(place)
        assert not place.intersects(off)


def test_where_the_bed_fills_the_view_as_little_of_it_as_can_be_is_covered():
    off = QRectF(-50, 40, 900, 600)  # 40 pixels are free at the top
    place = chip_place(AREA, SIZE, QPointF(400, 300), off)
    assert place.top() == INSET


def test_a_viewport_smaller_than_the_sign_has_it_at_its_corner():
    place = chip_place(QRectF(0, 0, 100, 50), SIZE, QPointF(50, 20), QRectF(10, 10, 50, 20))
    assert place.topLeft() == QPointF(INSET, INSET)


@pytest.mark.parametrize("turn", [0.0, 30.0, 90.0])
def test_a_crop_held_over_a_bed_leaves_the_bed_in_sight(open_hand, monkeypatch, turn) -> None:
    hand: Hand = open_hand(garden(bed("b1", rectangle(4.8, 1.2, turn=turn), name="North")))
    places: list[QRectF] = []
    real = chip.chip_place

    def noted(*args):
        places.append(real(*args))
        return places[-1]

    monkeypatch.setattr(chip, "chip_place", noted)
    for at in ((-0.4, 0.0), (0.0, 0.3), (0.4, -0.2)):
        hand.drop("carrot", [at], CTRL, let_go=False)
        hand.view.gesture.work_out_consequences()
        hand.view.viewport().grab()
        outline = hand.view.viewportTransform().mapRect(hand.view.rect_of("b1"))
        assert not places[-1].intersects(outline)
        assert hand.view.area.contains(places[-1])
