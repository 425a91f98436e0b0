"""The list of crops ordered, narrowed to what fits, with favourites and varieties."""

from __future__ import annotations

import datetime as dt

import pytest
from hand import Hand
from making import bed, garden, rectangle
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QFontMetricsF, QImage, QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QStyleOptionViewItem

from planner.desk.panels.crop_model import (
    CROP_ROLE,
    FAVOURITE_ROLE,
    SUMMARY_ROLE,
    SUN_ROLE,
    VARIETY_ROLE,
    WHY_ROLE,
)
from planner.desk.panels.crop_view import GAP, star_rect
from planner.desk.theme.palette import letters
from planner.garden import Climate, FrostDates, Site, edits
from planner.proposal.fitting import fits

pytestmark = pytest.mark.one_window

CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)


@pytest.fixture
def hand(open_hand) -> Hand:
    made = garden(
        bed("b1", rectangle(), name="North"),
        bed("b2", rectangle(center=(0, -3)), name="South"),
        climate=CLIMATE,
        site=Site(latitude=52.0),
    )
    for year in (2024, 2025, 2026):
        made, _ = edits.add_planting(made, "b1", "potato", year, variety="Early Row")
    made, _ = edits.add_planting(made, "b2", "kale", 2025, last=dt.date(2025, 9, 1))
    hand = open_hand(made)
    hand.document.show_year(2026)
    hand.document.show_day(dt.date(2026, 5, 20))
    return hand


def column(hand: Hand, role: int) -> list[object]:
    model = hand.window.docks.crops.list.model()
    return [model.index(row, 0).data(role) for row in range(model.rowCount())]


def test_what_fits_the_selected_bed_comes_first_and_the_others_say_why(hand: Hand, qtbot) -> None:
    crops = hand.window.docks.crops
    hand.document.select(["b2"])
    hand.choose(crops.choice, "fits")
    qtbot.waitUntil(lambda: crops.state.text().endswith("South on 20 May."), timeout=20_000)
    why = column(hand, WHY_ROLE)
    fitting = why.index(next(words for words in why if words))
    assert fitting > 3
    assert all(why[fitting:]), "what does not fit comes last"
    plan = hand.document.plan
    expected = fits(
        plan, [hand.garden.beds_by_id["b2"]], dt.date(2026, 5, 20), hand.document.catalogue.crops.values()
    )
    assert {crop.key for crop in column(hand, CROP_ROLE)[:fitting]} == {
        key for key, fit in expected.items() if fit.filling is not None
    }
    assert column(hand, SUMMARY_ROLE)[fitting] == why[fitting]
    hand.document.select(["b1"])
    qtbot.waitUntil(lambda: "North" in crops.state.text(), timeout=20_000)
    potato = column(hand, CROP_ROLE).index(hand.document.catalogue.crops["potato"])
    assert column(hand, WHY_ROLE)[potato]
    assert crops.list.accessibleDescription() == crops.state.text()
    hand.choose(crops.choice, "all")
    assert not any(column(hand, WHY_ROLE))


def test_the_sun_of_a_crop_stays_whole_in_a_narrow_list(hand: Hand, qapp) -> None:
    """What is painted at the right of a line is the same however narrow the list is."""
    crops = hand.window.docks.crops
    bay = column(hand, CROP_ROLE).index(hand.document.catalogue.crops["bay"])
    assert column(hand, SUN_ROLE)[bay] == "sun 5 h"
    assert "365 days" in str(column(hand, SUMMARY_ROLE)[bay])
    view, pictures = crops.list, []
    index = view.model().index(bay, 0)
    right = QFontMetricsF(letters(9)).horizontalAdvance("sun 5 h") + GAP
    for width in (300, 170, 130):
        option = QStyleOptionViewItem()
        option.rect = QRect(0, 0, width, 40)
        image = QImage(width, 40, QImage.Format.Format_RGB32)
        image.fill(0xFFFFFF)
        painter = QPainter(image)
        view.itemDelegate().paint(painter, option, index)
        painter.end()
        pictures.append(image.copy(round(width - right - 6), 20, round(right), 20))
    assert pictures[0] == pictures[1] == pictures[2]
    assert len({pictures[0].pixel(x, y) for x in range(40) for y in range(20)}) > 5, "words"


def test_crops_are_ordered_by_harvest_and_by_years_with_varieties_under_them(hand: Hand, qtbot) -> None:
    crops = hand.window.docks.crops
    hand.choose(crops.order, "grown")
    assert hand.crops_shown()[:3] == ["potato", "potato", "kale"]
    assert column(hand, VARIETY_ROLE)[:2] == ["", "Early Row"]
    assert str(column(hand, SUMMARY_ROLE)[0]).startswith("grown in 3 years")
    hand.document.edit("Remove", lambda g: edits.remove(g, ["p1", "p2", "p3"]))
    assert hand.crops_shown()[0] == "kale"
    hand.choose(crops.order, "harvest")
    qtbot.waitUntil(lambda: "pick from" in str(column(hand, SUMMARY_ROLE)[0]), timeout=20_000)
    days = crops.model.facts.harvest
    shown = [days[key] for key in hand.crops_shown() if key in days]
    assert len(shown) > 20
    assert shown == sorted(shown)
    hand.choose(crops.order, "name")


def test_a_star_is_pressed_or_typed_and_is_there_in_another_garden(hand: Hand) -> None:
    crops = hand.window.docks.crops
    first = crops.list.model().index(0, 0)
    star: QPoint = star_rect(crops.list.visualRect(first)).center()
    QTest.mouseClick(crops.list.viewport(), Qt.MouseButton.LeftButton, pos=star)
    crops.list.setFocus()
    crops.list.setCurrentIndex(crops.list.model().index(3, 0))
    QTest.keyClicks(crops.list, "*")
    chosen = [
        crop.key
        for crop, star in zip(column(hand, CROP_ROLE), column(hand, FAVOURITE_ROLE), strict=True)
        if star
    ]
    assert len(chosen) == 2
    hand.choose(crops.choice, "favourites")
    assert hand.crops_shown() == chosen
    assert hand.window.settings.value("crops/favourites").split() == sorted(chosen)
    assert hand.steps == 0, "favourites are no part of the garden"
    for _ in chosen:
        crops.list.setCurrentIndex(crops.list.model().index(0, 0))
        QTest.keyClicks(crops.list, "*")
    assert crops.none.isVisible()
    hand.choose(crops.choice, "all")
