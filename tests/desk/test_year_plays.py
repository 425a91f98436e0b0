"""The year plays, and two days are seen side by side."""

from __future__ import annotations

import datetime as dt

from making import bed, garden, planting
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from planner.garden import Garden, edits


def make() -> Garden:
    return garden(
        bed("b1", name="North"),
        planting("p1", year=2026, first=dt.date(2026, 4, 10), last=dt.date(2026, 6, 20)),
        planting("p2", crop="lettuce", year=2026, first=dt.date(2026, 7, 1), last=dt.date(2026, 9, 1)),
        site={"latitude": 52.0},
    )


def opened(open_hand):
    hand = open_hand(make())
    hand.document.show_year(2026)
    hand.document.show_day(dt.date(2026, 5, 1))
    return hand


def test_the_year_plays_to_its_end_and_any_key_stops_it(open_hand, qtbot) -> None:
    hand = opened(open_hand)
    window, document = hand.window, hand.document
    player = window.pages.player
    player.speed.setValue(player.speed.minimum())
    window.action("play year").trigger()
    assert player.playing
    qtbot.waitUntil(lambda: document.day > dt.date(2026, 5, 8), timeout=5000)
    grid = window.view.grid_shown
    QTest.keyClick(window.view, Qt.Key.Key_G)  # a command otherwise: now it only stops
    assert not player.playing
    assert window.view.grid_shown is grid
    day = document.day
    qtbot.wait(80)
    assert document.day == day
    document.show_day(dt.date(2026, 12, 28))
    player.play()
    qtbot.waitUntil(lambda: not player.playing, timeout=5000)
    assert document.day == dt.date(2026, 12, 31)


def test_with_less_motion_the_day_jumps_by_weeks(open_hand, qtbot, settings) -> None:
    hand = opened(open_hand)
    player, days = hand.window.pages.player, []
    hand.window.action("less motion").setChecked(True)
    assert player.less_motion
    assert settings.value("less motion", False, bool)
    player.speed.setValue(player.speed.minimum())
    hand.document.show_day(dt.date(2026, 1, 1))
    hand.document.day_changed.connect(lambda: days.append(hand.document.day))
    player.play()
    qtbot.waitUntil(lambda: len(days) >= 3, timeout=5000)
    player.stop()
    assert all((day - dt.date(2026, 1, 1)).days % 7 == 0 for day in days)
    hand.window.action("less motion").setChecked(False)


def test_two_days_are_seen_of_one_garden(open_hand, qtbot, qapp) -> None:
    hand = opened(open_hand)
    window, document = hand.window, hand.document
    window.action("two days").setChecked(True)
    qapp.processEvents()
    two = window.pages.two_days
    second = two.second
    two.slider.setValue((dt.date(2026, 8, 1) - dt.date(2026, 1, 1)).days)

    def shown(view) -> list[str]:
        return [painted.planting.id for item in view.sheet.beds.values() for painted in item.painted]

    assert (shown(window.view), shown(second)) == (["p1"], ["p2"])
    # Panned and zoomed together, from either side.
    window.view.scale_to(120.0)
    window.view.scroll_by(QPointF(30, -20))
    assert second.pixels_per_metre == window.view.pixels_per_metre
    middle = QPointF(40, 40)
    assert (second.scene_at(middle) - window.view.scene_at(middle)).manhattanLength() < 2
    second.scale_to(70.0)
    assert abs(window.view.pixels_per_metre - 70.0) < 1e-6
    assert (second.scene_at(middle) - window.view.scene_at(middle)).manhattanLength() < 2
    # An edit, a selection and colours are in both.
    document.edit("Move", lambda made: edits.move_things(made, ["b1"], 0.5, 0.0))
    assert (
        second.sheet.beds["b1"].shape().boundingRect() == window.view.sheet.beds["b1"].shape().boundingRect()
    )
    document.select(("b1",))
    assert second.document.selection == ("b1",)
    window.action("colour tended").trigger()
    assert second.sheet.beds["b1"].painted[0].ink == "tended/nobody"
    window.action("two days").setChecked(False)
    assert two.second is None
    qapp.processEvents()
    document.edit("Move", lambda made: edits.move_things(made, ["b1"], 0.5, 0.0))
