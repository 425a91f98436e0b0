"""While the wheel turns a picture stands for the sheet; at rest every pixel is painted anew."""

from __future__ import annotations

import pytest
from hand import LIMIT, Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage, QWheelEvent

from planner.garden import edits


def turn(hand: Hand, by: int) -> None:
    """Turn the wheel over a place of the first bed."""
    point = hand.at((0.5, 0.2))
    event = QWheelEvent(
        point, point, QPoint(), QPoint(0, by), Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    hand.view.wheelEvent(event)


def picture(hand: Hand) -> QImage:
    return hand.view.viewport().grab().toImage()


def colour(image: QImage, hand: Hand, place: tuple[float, float]) -> str:
    point = hand.view.to_view(place).toPoint() * image.devicePixelRatio()
    return image.pixelColor(point).name()


@pytest.fixture
def three(open_hand) -> Hand:
    beds = (bed("b1", rectangle(3, 1.2)), bed("b2", rectangle(3, 1.2, center=(0, 2))))
    return open_hand(garden(*beds, planting("p1", "b1", crop="cabbage")))


def test_the_sheet_at_rest_is_that_painted_without_a_picture(three: Hand, qtbot) -> None:
    for by in (240, -360, 120):
        turn(three, by)
        assert three.view.snapshot.shown
        qtbot.waitUntil(lambda: not three.view.snapshot.shown, timeout=LIMIT)
        rested = picture(three)
        three.view.resetCachedContent()
        for item in three.view.sheet.beds.values():
            item.update()
        assert rested == picture(three)


def test_the_picture_lies_where_the_sheet_is(three: Hand) -> None:
    soil, paper = (1.2, 2.4), (0.13, 0.87)
    before = picture(three)
    inks = colour(before, three, soil), colour(before, three, paper)
    zoom = three.view.pixels_per_metre
    turn(three, -120)
    turn(three, -120)
    assert three.view.pixels_per_metre < zoom * 0.8
    assert three.view.snapshot.shown
    during = picture(three)
    assert (colour(during, three, soil), colour(during, three, paper)) == inks
    three.view.snapshot.drop()
    after = picture(three)
    assert (colour(after, three, soil), colour(after, three, paper)) == inks


def test_an_edit_is_seen_at_once(three: Hand) -> None:
    turn(three, 120)
    assert three.view.snapshot.shown
    three.document.edit("Move", lambda g: edits.move_things(g, ["b2"], 0.0, 0.5))
    assert not three.view.snapshot.shown


def test_a_gesture_is_seen_at_once(three: Hand) -> None:
    turn(three, 120)
    three.press((0.0, 2.0))
    three.move((0.4, 2.4))
    assert three.view.gesture is not None
    assert not three.view.may_show_snapshot()
    turn(three, 120)
    moved = picture(three)
    three.view.snapshot.drop()
    assert picture(three) == moved
    three.key(Qt.Key.Key_Escape)
    three.release((0.4, 2.4))


def test_north_and_scale_keep_their_places(three: Hand) -> None:
    turn(three, -120)
    turn(three, -240)
    during = picture(three)
    three.view.snapshot.drop()
    after = picture(three)
    right = int(three.view.area.right()) - 60
    corner = QPoint(right, 0), QPoint(right + 56, 90)
    pixels = [
        [image.pixel(x, y) for x in range(corner[0].x(), corner[1].x()) for y in range(20, 80)]
        for image in (during, after)
    ]
    same = sum(a == b for a, b in zip(*pixels, strict=True))
    assert same > 0.9 * len(pixels[0])
