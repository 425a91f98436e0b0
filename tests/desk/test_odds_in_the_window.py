"""Odds of the recorded years in the window: bands, legend, form, tips, harvest and store, and what is assumed of them."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor, QImage, QPainter
from sample_reading import sample

from planner.amounts.harvest import harvests
from planner.amounts.harvest_years import harvest_years
from planner.desk.canvas.odds_band import paint_spread
from planner.desk.model.hover_words import hover_words
from planner.desk.theme.palette import DARK, LIGHT
from planner.listings.odds_line import odds_line
from planner.season.lived.assumed import AS_RECORDED, Assumed
from planner.season.lived.odds import odds_words, spreads_of
from planner.storage import load, save
from tests.recorded_gardens import recorded

pytestmark = pytest.mark.one_window


@pytest.fixture
def window(open_hand, qapp):
    """A window with a garden that keeps thirty years."""
    hand = open_hand(recorded("hollow_lane"))
    hand.window.resize(1500, 900)
    qapp.processEvents()
    return hand.window


def _tomato(document) -> str:
    return next(one.id for one in document.plan.plantings if one.crop == "tomato")


def test_the_legend_says_what_the_bands_are_and_is_quiet_without_years(window, open_hand, qapp):
    shown = [words for _, words in window.pages.legend.shown()]
    assert shown[-1] == "last picked"
    assert "first picked in 8 of 10 years, box: half of them" in window.pages.legend.accessibleDescription()
    plain = open_hand(load(sample("hollow_lane"))).window
    assert all("picked" not in words for _, words in plain.pages.legend.shown())
    assert "8 of 10" not in plain.pages.legend.accessibleDescription()


@pytest.mark.parametrize("look", [LIGHT, DARK])
def test_the_first_picking_has_a_filled_box_and_the_last_an_open_one(qapp, look):
    def middle_of(first: bool) -> QColor:
        image = QImage(100, 20, QImage.Format.Format_RGB32)
        image.fill(look.sheet)
        painter = QPainter(image)
        painter.scale(2, 2)
        paint_spread(painter, look, (5, 12, 25, 38, 45), 5.0, first=first)
        painter.end()
        return image.pixelColor(36, 10)  # in the box, beside the stroke of the middle

    assert middle_of(first=True) == look.ink
    assert middle_of(first=False) == look.sheet


def test_form_and_tips_say_the_odds_in_words(window, qapp):
    document = window.document
    key = _tomato(document)
    planting = document.garden.plantings_by_id[key]
    odds = document.plan.odds(planting)
    words = odds_words(odds)
    words = words[0].upper() + words[1:]
    assert odds_line(document.plan, planting) == words
    assert words in hover_words(document.plan, planting, None)
    assert words in window.ribbon._tip(planting)
    document.select((key,))
    qapp.processEvents()
    form = window.docks.details.planting
    form.more.setChecked(True)
    qapp.processEvents()
    assert form.odds.text().splitlines()[0] == words
    assert form.odds.isVisible()


def test_without_years_form_and_tips_are_as_they_were(open_hand, qapp):
    window = open_hand(load(sample("hollow_lane"))).window
    document = window.document
    planting = document.garden.plantings_by_id[_tomato(document)]
    assert odds_line(document.plan, planting) == ""
    assert spreads_of(document.plan.odds(planting)) == ()
    document.select((planting.id,))
    form = window.docks.details.planting
    form.more.setChecked(True)
    qapp.processEvents()
    assert not form.odds.isVisible()


def test_harvest_weeks_have_strokes_between_low_and_high(window, qapp):
    window.pages.bring(window.pages.harvest)
    qapp.processEvents()
    page, plan = window.pages.harvest, window.document.plan
    stack = page.picture.stack
    years = harvest_years(plan, harvests(plan))
    week = max(
        range(len(stack.mondays)), key=lambda number: stack.spread[number][1] if stack.spread[number] else 0
    )
    low, _, high = years.of_week(stack.mondays[week])
    grams = 1000.0 if stack.unit == "kg" else 1.0
    assert stack.spread[week] == pytest.approx((low / grams, high / grams))
    assert stack.highest >= high / grams
    assert "In 8 of 10 recorded years" in page._words_of(week)
    assert "Strokes:" in page.lines.text()
    assert "in the worst" in page.sum.text()


def test_the_store_tells_its_worst_year(window, qapp):
    window.pages.bring(window.pages.store)
    qapp.processEvents()
    assert "In the worst of the recorded years:" in window.pages.store.first.toPlainText()
    assert "Onion: nothing goes into store in 2007" in window.pages.store.first.toPlainText()


def test_what_is_assumed_is_marked_everywhere_and_never_saved(window, qapp, tmp_path):
    document = window.document
    before, text = (
        document.garden,
        odds_line(document.plan, document.garden.plantings_by_id[_tomato(document)]),
    )
    window.commands.view.assume()
    dialog = window.commands.view._assuming
    dialog.warmer.setText("2")
    dialog.warmer.editingFinished.emit()
    qapp.processEvents()
    planting = document.garden.plantings_by_id[_tomato(document)]
    assert document.plan.assumed == Assumed(2.0)
    assert document.garden is before
    assert not document.changed
    assert window.status.assumed.text() == "As if 2 °C warmer"
    assert window.status.assumed.isVisible()
    assert "as if 2 °C warmer" in window.pages.legend.accessibleDescription()
    assert odds_line(document.plan, planting).startswith("As if 2 °C warmer: ")
    assert text not in odds_line(document.plan, planting)
    save(document.garden, tmp_path / "warm.bedwright")
    assert load(tmp_path / "warm.bedwright").weather == before.weather
    dialog.plain.click()
    qapp.processEvents()
    assert document.plan.assumed == AS_RECORDED
    assert not window.status.assumed.isVisible()
    assert odds_line(document.plan, planting) == text
    dialog.close()


def test_too_much_is_refused_and_a_garden_without_years_says_so(window, open_hand, qapp):
    window.commands.view.assume()
    dialog = window.commands.view._assuming
    dialog.warmer.setText("40")
    dialog.warmer.editingFinished.emit()
    assert "from -10 to 10" in dialog.state.text().replace("−", "-")
    assert window.document.plan.assumed == AS_RECORDED
    dialog.close()
    plain = open_hand(load(sample("hollow_lane"))).window
    plain.commands.view.assume()
    bare = plain.commands.view._assuming
    assert not bare.warmer.isEnabled()
    assert "keeps no recorded years" in bare.state.text()
    bare.close()


def test_years_of_another_garden_stand_in(window, qapp, tmp_path):
    other = tmp_path / "other.bedwright"
    save(recorded("red_mesa"), other)
    window.commands.view.assume()
    dialog = window.commands.view._assuming
    dialog._choose = lambda: str(other)
    dialog.other.click()
    qapp.processEvents()
    assert window.status.assumed.text() == "As if with the years of Invented"
    assert window.document.plan.assumed.station == recorded("red_mesa").weather
    dialog._choose = lambda: str(sample("balcony_boxes"))
    dialog.other.click()
    assert "keeps no recorded years" in dialog.state.text()
    window.document.open(load(sample("hollow_lane")))
    assert window.document.plan.assumed == AS_RECORDED
    assert not window.status.assumed.isVisible()
    dialog.close()
