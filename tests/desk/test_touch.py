"""Fingers on a touch screen and on a pad, by events made here; nothing was tried on hardware."""

from __future__ import annotations

import pytest
from hand import Hand
from making import bed, garden, rectangle
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QPointingDevice, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu

from planner.desk.canvas import touch

pytestmark = pytest.mark.one_window


@pytest.fixture(scope="module")
def screen(qapp) -> QPointingDevice:
    return QTest.createTouchDevice()


@pytest.fixture
def two(open_hand) -> Hand:
    return open_hand(garden(bed("b1", rectangle(3, 1.2)), bed("b2", rectangle(3, 1.2, center=(0, 2)))))


class Fingers:
    """Fingers on the sheet, in pixels of its viewport."""

    def __init__(self, hand: Hand, screen: QPointingDevice) -> None:
        self.viewport, self.screen = hand.view.viewport(), screen
        self.down: dict[int, QPoint] = {}

    def press(self, *places: QPointF) -> None:
        for place in places:
            key = len(self.down)
            sequence = QTest.touchEvent(self.viewport, self.screen)
            for other in self.down:
                sequence.stationary(other)
            sequence.press(key, place.toPoint(), self.viewport)
            self.down[key] = place.toPoint()
            sequence.commit()

    def move(self, *places: QPointF) -> None:
        sequence = QTest.touchEvent(self.viewport, self.screen)
        for key, place in enumerate(places):
            sequence.move(key, place.toPoint(), self.viewport)
            self.down[key] = place.toPoint()
        sequence.commit()

    def lift(self) -> None:
        sequence = QTest.touchEvent(self.viewport, self.screen)
        for key, place in self.down.items():
            sequence.release(key, place, self.viewport)
        self.down.clear()
        sequence.commit()


def test_two_fingers_zoom_where_they_are(two: Hand, screen) -> None:
    view, fingers = two.view, Fingers(two, screen)
    zoom = view.pixels_per_metre
    middle = view.to_view((0.4, 0.3))
    place = view.plan_at(middle)
    fingers.press(middle - QPointF(50, 0), middle + QPointF(50, 0))
    for apart in (60, 80, 100):
        fingers.move(middle - QPointF(apart, 0), middle + QPointF(apart, 0))
    fingers.lift()
    assert view.pixels_per_metre == pytest.approx(2 * zoom, rel=0.02)
    assert view.plan_at(middle) == pytest.approx(place, abs=3 / view.pixels_per_metre)
    assert two.steps == 0


def test_two_fingers_move_the_sheet_and_no_thing(two: Hand, screen) -> None:
    view, fingers = two.view, Fingers(two, screen)
    zoom, on_bed = view.pixels_per_metre, view.to_view((0, 0))
    fingers.press(on_bed)
    fingers.move(on_bed + QPointF(30, 0))  # one finger has begun to drag the bed
    fingers.press(on_bed + QPointF(80, 0))
    fingers.move(on_bed + QPointF(30, 40), on_bed + QPointF(80, 40))
    fingers.move(on_bed + QPointF(30, 80), on_bed + QPointF(80, 80))
    fingers.lift()
    moved = view.to_view((0, 0)) - on_bed
    assert moved.toTuple() == pytest.approx((0, 80), abs=3)
    assert view.pixels_per_metre == pytest.approx(zoom)
    assert (two.steps, view.gesture) == (0, None)


def test_one_finger_chooses_and_drags(two: Hand, screen) -> None:
    view, fingers = two.view, Fingers(two, screen)
    fingers.press(view.to_view((1, 2)))
    fingers.lift()
    assert two.document.selection == ("b2",)
    start = view.to_view((1, 2))
    fingers.press(start)
    for step in range(1, 6):
        fingers.move(start + QPointF(0, -step * view.pixels_per_metre / 5))
    fingers.lift()
    assert two.steps == 1
    assert two.garden.beds_by_id["b2"].outline.center[1] == pytest.approx(3.0, abs=0.06)


def test_a_finger_held_still_opens_the_menu_of_what_is_under_it(
    two: Hand, screen, qtbot, monkeypatch
) -> None:
    view, fingers = two.view, Fingers(two, screen)
    view._touch._hold.setInterval(20)
    fingers.press(view.to_view((1, 2)))
    fingers.move(view.to_view((1, 2)) + QPointF(touch.STILL / 2, 0))

    def menu() -> QMenu | None:
        return next((m for m in two.window.findChildren(QMenu) if m.isVisible()), None)

    qtbot.waitUntil(lambda: menu() is not None)
    assert two.document.selection == ("b2",)
    menu().close()
    fingers.lift()
    assert two.document.selection == ("b2",)
    assert two.steps == 0
    view._touch._hold.setInterval(touch.HELD)


def test_two_fingers_on_a_pad_zoom_and_scroll(two: Hand, qapp) -> None:
    view = two.view
    viewport, at = view.viewport(), view.to_view((0.4, 0.3))
    zoom, place = view.pixels_per_metre, view.plan_at(at)
    spot = viewport.mapToGlobal(at)
    pinch = QNativeGestureEvent(
        Qt.NativeGestureType.ZoomNativeGesture,
        QPointingDevice.primaryPointingDevice(),
        2, at, at, spot, 0.25, QPointF(),
    )  # fmt: skip
    QApplication.sendEvent(viewport, pinch)
    assert view.pixels_per_metre == pytest.approx(1.25 * zoom)
    assert view.plan_at(at) == pytest.approx(place, abs=2 / view.pixels_per_metre)
    before = view.to_view((0, 0))
    pan = QWheelEvent(
        at, spot, QPoint(12, -30), QPoint(0, 0), Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.ScrollUpdate, False,
    )  # fmt: skip
    QApplication.sendEvent(viewport, pan)
    assert (view.to_view((0, 0)) - before).toTuple() == pytest.approx((12, -30), abs=1)
    assert view.pixels_per_metre == pytest.approx(1.25 * zoom)


def test_a_touch_that_the_system_takes_away_changes_nothing(two: Hand, screen) -> None:
    view, fingers = two.view, Fingers(two, screen)
    start = view.to_view((1, 2))
    fingers.press(start)
    fingers.move(start + QPointF(0, 60))
    assert view.gesture is not None
    from PySide6.QtGui import QTouchEvent

    QApplication.sendEvent(view.viewport(), QTouchEvent(QEvent.Type.TouchCancel, screen))
    assert view.gesture is None
    fingers.lift()
    assert two.steps == 0
