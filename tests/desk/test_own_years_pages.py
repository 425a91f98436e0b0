"""The pages of years side by side, own figures and trials."""

from __future__ import annotations

import datetime as dt

import pytest
from own_years import garden_of_years
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from planner.desk.pages.crop_text import CropText
from planner.garden import edits as e
from planner.garden.trials import TrialEntry

pytestmark = pytest.mark.one_window

YEARS = {
    2023: {"sow": (5, 20), "up": (6, 5), "grams": {(8, 20): 900, (9, 1): 4000}, "end": (10, 1)},
    2024: {
        "sow": (5, 25),
        "up": (6, 8),
        "grams": {(8, 24): 900, (9, 4): 2000},
        "end": (9, 9),
        "why": "eaten",
    },
    2025: {"sow": (5, 15), "up": (6, 2), "grams": {(8, 11): 1900, (9, 1): 5000}, "end": (10, 1)},
    2026: {},
}


@pytest.fixture
def hand(open_hand):
    """A window on a garden with three recorded years of dwarf beans, and a trial."""
    of = garden_of_years("dwarf_bean", YEARS)
    entries = tuple(
        TrialEntry(planting=key, treatment=name) for key, name in (("p0", "early"), ("p1", "late"))
    )
    of, _ = e.put_trial(of, question="Late or early?", entries=entries)
    return open_hand(of)


def test_each_year_has_its_map_and_its_plantings(hand, qapp):
    page = hand.window.pages.years
    hand.window.pages.bring(page)
    assert [one.year for one in page.maps.maps] == [2026, 2025, 2024, 2023]
    assert [row.cells[0] for row in page.table.rows] == ["2026", "2025", "2024", "2023"]
    (lost,) = page.table.rows[2].parts
    assert lost.cells[6] == "eaten by animals 9 Sep"
    assert page.table.rows[2].cells[6] == "1 lost"
    assert page.table.rows[1].cells[4] == "6.9 kg"
    assert "2024: dwarf bean" in page.maps.accessibleDescription()
    page.maps.grab()


def test_a_click_on_a_map_shows_the_history_of_that_ground(hand, qapp):
    page = hand.window.pages.years
    hand.window.pages.bring(page)
    number = [one.year for one in page.maps.maps].index(2024)
    middle = page.maps._at(number, 0.0, 2.0)
    assert page.maps.words_at(middle) == "dwarf bean"
    assert page.maps.words_at(page.maps._at(0, 0.0, 2.0)) == ""
    QTest.mouseClick(page.maps, Qt.MouseButton.LeftButton, pos=middle.toPoint())
    assert [row.cells[0] for row in page.table.rows] == ["2024"]
    assert page.words.text().startswith("The ground at")
    assert page.maps.place == pytest.approx((0.0, 2.0), abs=0.2)
    page.whole.click()
    assert len(page.table.rows) == 4
    assert page.maps.place_at(QPointF(-5, 5)) is None


def test_a_crop_is_looked_at_by_itself(hand, qapp):
    page, document = hand.window.pages.years, hand.document
    hand.window.pages.bring(page)
    document.edit("Plant", lambda of: e.add_planting(of, "b0", "carrot", 2026)[0])
    qapp.processEvents()
    page._choose("carrot")
    assert [row.cells[0] for row in page.table.rows] == ["2026"]
    document.undo_stack.undo()
    qapp.processEvents()
    assert len(page.table.rows) == 4, "a crop that is gone is chosen no more"


def test_own_figures_are_used_left_out_and_left_to_the_rule(hand, qapp):
    page, document = hand.window.pages.learned, hand.document
    hand.window.pages.bring(page)
    row = next(row for row in page.table.rows if row.cells[2] == "days until it comes up")
    assert row.cells[3:6] == ("2 (2023, 2025)", "17", "16")
    assert row.cells[8] == "71 %"
    assert "2025 is left out" not in page.left_out.text()
    assert (page.use.isEnabled(), page.by_rule.isEnabled()) == (False, False)
    page.table.choose(row.key)
    assert "count for three quarters, the published figure for one quarter" in page.left_out.text()
    assert (page.use.isEnabled(), page.leave.isEnabled(), page.by_rule.isEnabled()) == (True, True, False)
    page.use.click()
    qapp.processEvents()
    assert document.plan.learned.used
    assert next(one.cells[7] for one in page.table.rows if one.key == row.key) == "yes, as chosen"
    assert page.by_rule.isEnabled()
    page.by_rule.click()
    qapp.processEvents()
    assert not document.garden.site.learned.choices
    assert document.undo_stack.count() == 2


def test_the_page_names_what_was_lost_and_each_year_that_is_left_out(open_hand, qapp):
    slip = {**YEARS, 2023: {**YEARS[2023], "grams": {(9, 1): 490_000}}, 2024: {**YEARS[2024], "grams": {}}}
    hand = open_hand(garden_of_years("dwarf_bean", slip))
    page = hand.window.pages.learned
    hand.window.pages.bring(page)
    text = page.left_out.text()
    assert "lost in 1 of 3 years: 2024 (eaten by animals)." in text
    assert "2023 is left out of the yield: 490 kg is more than" in text
    assert "perhaps a slip of the pen." in text


def test_the_page_of_a_crop_names_the_gardens_own_figures(hand, qapp):
    crop = hand.document.plan.catalogue.crops["dwarf_bean"]
    text = CropText(crop, hand.document.plan, hand.window.look.now, {}, lore=False).html()
    own = text.split("This garden&#x27;s own figures")[1].split("</table>")[0]
    assert "Days until it comes up" in own
    assert "published 16" in own
    assert "used: no, 2 years" in own


def test_all_of_it_can_be_switched_off(hand, qapp):
    page, document = hand.window.pages.learned, hand.document
    hand.window.pages.bring(page)
    assert page.wanted.isChecked()
    page.wanted.click()
    assert document.garden.site.learned.use == "never"
    document.undo_stack.undo()
    qapp.processEvents()
    assert page.wanted.isChecked()


def test_a_trial_is_read_out(hand, qapp):
    page = hand.window.pages.trials
    hand.window.pages.bring(page)
    (row,) = page.table.rows
    assert [part.cells[0] for part in row.parts] == ["early", "late"]
    page.table.choose(row.key)
    assert "with one bed of each can prove nothing" in page.shows.text()


@pytest.mark.own_window
def test_plantings_are_compared_changed_and_compared_no_more(hand, qapp):
    page, document = hand.window.pages.trials, hand.document
    hand.window.pages.bring(page)
    assert (page.change.isEnabled(), page.remove.isEnabled()) == (False, False)
    document.edit("Plant", lambda of: e.add_planting(of, "b0", "carrot", 2026, variety="Early")[0])
    dialog = page.open_dialog()
    assert [dialog.table.item(row, 2).text() for row in range(dialog.table.rowCount())] == ["", "Early"]
    dialog.question.setText("Which?")
    assert not dialog.ok.isEnabled()
    dialog.table.item(0, 2).setText("Beans")
    for row in (0, 1):
        dialog.table.item(row, 0).setCheckState(Qt.CheckState.Checked)
    assert dialog.ok.isEnabled()
    dialog.ok.click()
    qapp.processEvents()
    assert [row.cells[0] for row in page.table.rows] == ["Late or early?", "Which?"]
    assert [one.treatment for one in document.garden.trials[1].entries] == ["Beans", "Early"]
    page.table.choose(document.garden.trials[0].id)
    dialog = page.open_dialog(page._chosen())
    assert len(dialog.entries()) == 2, "plantings of other years stay in it"
    dialog.measure.setText("height")
    dialog.ok.click()
    qapp.processEvents()
    assert document.garden.trials[0].measure == "height"
    page.remove.click()
    qapp.processEvents()
    assert [one.question for one in document.garden.trials] == ["Which?"]
    assert document.undo_stack.count() == 4


def test_a_trial_is_laid_out_as_one_step(hand, qapp):
    page, document = hand.window.pages.trials, hand.document
    hand.window.pages.bring(page)
    dialog = page.open_lay_dialog()
    assert not dialog.ok.isEnabled()
    dialog.question.setText("Which carrot?")
    dialog.crop.show_value("carrot")
    dialog.bed.show_value("b0")
    dialog.varieties.setText("Early, Late, Early")
    dialog.ok.click()
    qapp.processEvents()
    trial = document.garden.trials[1]
    assert sorted(one.treatment for one in trial.entries) == ["Early"] * 3 + ["Late"] * 3
    row = page.table.selected_rows()[0]
    assert row.cells[:2] == ("Which carrot?", "6")
    assert row.cells[4].endswith("0 of 6 measured")
    assert sorted(part.cells[:2] for part in row.parts) == [("Early", "3"), ("Late", "3")]
    assert document.undo_stack.count() == 1
    refused = []
    document.edit_refused.connect(refused.append)
    dialog = page.open_lay_dialog()
    dialog.question.setText("Again?")
    dialog.bed.show_value("b0")
    dialog.varieties.setText("A, B")
    dialog.ok.click()
    qapp.processEvents()
    assert "do not fit" in refused[0]
    assert dialog.isVisible()
    assert (dialog.question.text(), dialog.varieties.text()) == ("Again?", "A, B")
    assert dialog.problem.text() == refused[0]
    assert "Let each stand there less often" in dialog.problem.text()
    assert "block" not in dialog.problem.text()
    dialog.reject()


def test_a_record_brings_the_pages_in_step(hand, qapp):
    page, document = hand.window.pages.years, hand.document
    hand.window.pages.bring(page)
    record = {
        "kind": "picked",
        "planting": "p0",
        "day": dt.date(2023, 9, 9),
        "amount": {"value": 1100, "unit": "g"},
    }
    document.edit("Record", lambda of: e.add_records(of, [record])[0])
    qapp.processEvents()
    assert page.table.rows[3].cells[4] == "6.0 kg"


def test_an_empty_garden_says_so(open_hand, qapp):
    pages = open_hand().window.pages
    for page, words in (
        (pages.years, "Nothing stood there"),
        (pages.learned, "No record tells"),
        (pages.trials, "has no trial"),
    ):
        pages.bring(page)
        assert words in page.words.text()
