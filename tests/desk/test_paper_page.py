"""The Print page: every kind of sheets is shown as it is written."""

from __future__ import annotations

import datetime as dt
import time

import pikepdf
import pypdfium2
import pytest

from planner import resources
from planner.garden import Garden
from planner.garden import edits as e
from planner.listings.all_tables import TABLES
from planner.sheets.kinds import SHEET_KINDS
from planner.storage import load


@pytest.fixture
def sample(open_hand):
    return open_hand(load(resources.sample_folder() / "balcony_boxes.bedwright")).window


@pytest.fixture
def page(sample, qtbot):
    sample.pages.setCurrentWidget(sample.pages.paper)
    qtbot.waitUntil(lambda: sample.pages.paper.preview.complete, timeout=60_000)
    return sample.pages.paper


def settle(page, qtbot) -> None:
    qtbot.waitUntil(lambda: page.preview.complete, timeout=60_000)


def test_bed_sheets_have_a_page_at_least_for_each_bed_with_a_planting(page, qtbot):
    plan = page.document.plan
    planted = [bed for bed in plan.beds if plan.in_bed(bed)]
    assert page.preview.pages >= len(planted)
    assert not page.preview.sheet.pixmap().isNull()
    page.choices.bed.setCurrentIndex(1)
    page.choices.changed.emit()
    settle(page, qtbot)
    assert page.preview.pages < len(planted)


@pytest.mark.parametrize("kind", [kind for kind in SHEET_KINDS if kind not in ("raising", "weather")])
def test_what_is_shown_is_what_is_written(page, sample, qtbot, tmp_path, kind):
    page.show_kind(kind)
    if kind == "week":
        page.choices.first.typed.emit(dt.date(2026, 5, 4))
        page.choices.last.typed.emit(dt.date(2026, 5, 31))
    settle(page, qtbot)
    assert page.preview.pages >= 1, page.preview.sheet.text()
    assert not page.preview.sheet.pixmap().isNull()
    sample.prompts.answers["save"] = str(tmp_path / "out.pdf")
    page.save.click()
    with pypdfium2.PdfDocument(tmp_path / "out.pdf") as written:
        assert len(written) == page.preview.pages
    assert str(tmp_path / "out.pdf") in sample.status.message.text()


def test_choices_are_those_of_their_kind(page, qtbot):
    shown = {}
    for kind in SHEET_KINDS:
        page.show_kind(kind)
        settle(page, qtbot)
        choices = page.choices
        shown[kind] = [
            name
            for name in ("bed", "first", "day", "paper", "labels", "codes")
            if getattr(choices, name).isVisible()
        ]
    assert shown == {
        "bed": ["bed", "paper"],
        "week": ["bed", "first", "paper"],
        "year": ["paper"],
        "raising": ["paper"],
        "map": ["day", "paper"],
        "walk": ["bed", "day", "paper"],
        "water": ["bed", "day", "paper"],
        "shopping": ["paper"],
        "labels": ["bed", "labels", "codes"],
        "weather": ["paper"],
    }


def test_what_is_raised_is_shown_or_told_to_be_nothing(page, open_hand, qtbot):
    page.show_kind("raising")
    settle(page, qtbot)
    assert "nothing is raised in 2026" in page.preview.sheet.text()
    other = open_hand(load(resources.sample_folder() / "wattle_bank.bedwright")).window.pages.paper
    other.window().pages.setCurrentWidget(other)
    other.show_kind("raising")
    settle(other, qtbot)
    assert other.preview.pages > 3


def test_the_map_is_of_a_day_or_of_four_or_a_poster(page, qtbot):
    page.show_kind("map")
    settle(page, qtbot)
    assert page.choices.day.isVisible()
    assert not page.choices.poster.isVisible()
    page.choices.map_form.setCurrentIndex(page.choices.map_form.findData("strip"))
    page.choices.map_form.activated.emit(1)
    settle(page, qtbot)
    assert page.choices.wish().strip
    assert not page.choices.day.isVisible()
    page.choices.map_form.setCurrentIndex(page.choices.map_form.findData("poster"))
    page.choices.map_form.activated.emit(2)
    page.choices.poster.setText("2x2")
    page.choices.poster.editingFinished.emit()
    settle(page, qtbot)
    assert page.preview.pages == 4
    page.choices.poster.setText("wide")
    page.choices.poster.editingFinished.emit()
    settle(page, qtbot)
    assert "no poster can be made as 'wide'" in page.preview.sheet.text()


def test_weeks_are_those_between_the_days_typed(page, qtbot):
    page.show_kind("week")
    page.choices.first.typed.emit(dt.date(2026, 5, 4))
    page.choices.last.typed.emit(dt.date(2026, 5, 10))
    settle(page, qtbot)
    few = page.preview.pages
    page.choices.last.typed.emit(dt.date(2026, 6, 28))
    settle(page, qtbot)
    assert page.preview.pages > few
    page.choices.last.typed.emit(dt.date(2026, 1, 1))
    settle(page, qtbot)
    assert "before the first" in page.preview.sheet.text()


def test_labels_that_do_not_fit_are_told_in_place_of_pages(page, qtbot):
    page.show_kind("labels")
    page.choices.own_labels.setText("a4 9x9 60x60")
    page.choices.changed.emit()
    settle(page, qtbot)
    assert "larger than their paper" in page.preview.sheet.text()
    page.choices.shift.setText("wide")
    page.choices.changed.emit()
    settle(page, qtbot)
    assert "no pair of numbers" in page.preview.sheet.text()
    told: list[str] = []
    page.wrong.connect(told.append)
    page.save.click()
    assert len(told) == 1


def test_the_preview_follows_edits_and_years(page, sample, qtbot):
    before = page.preview.pages
    bed = next(bed for bed in sample.document.plan.beds if sample.document.plan.in_bed(bed))
    sample.document.edit("Remove a bed", lambda g: e.remove(g, [bed.id]))
    qtbot.waitUntil(lambda: page.preview.complete and page.preview.pages < before, timeout=60_000)


def test_an_empty_garden_says_what_to_do(open_hand, qtbot):
    page = open_hand(Garden()).window.pages.paper
    page.document.garden_settled.emit()
    page.window().pages.setCurrentWidget(page)
    for kind in SHEET_KINDS:
        page.show_kind(kind)
        settle(page, qtbot)
        assert page.preview.sheet.text().count("\n") == 0
        assert len(page.preview.sheet.text()) > 10


def test_everything_goes_into_a_folder(open_hand, tmp_path):
    """Of an empty garden: its tables are there, and there is no sheet to make."""
    window, folder = open_hand(Garden()).window, tmp_path / "all"
    window.action("everything").trigger()
    assert not folder.exists()
    window.prompts.answers["folder"] = str(folder)
    window.action("everything").trigger()
    count = len(list(folder.iterdir()))
    assert count == 1 + len(TABLES)
    assert window.status.message.text() == f"{count} files written to {folder}"
    (folder / "store.csv").write_text("mine")
    window.action("everything").trigger()
    assert "a file of another kind" in window.prompts.errors[-1]
    assert (folder / "store.csv").read_text() == "mine"


def test_each_kind_has_a_file_name_of_its_own(sample):
    names = {what: sample.files.suggestion(".pdf", what) for what in ("", "bed sheets", "week sheets")}
    assert len(set(names.values())) == 3
    assert names["week sheets"].endswith("week sheets.pdf")


def test_a_further_wish_takes_the_place_of_one_that_is_still_made(page, qtbot):
    page.show_kind("week")
    page.show_kind("walk")
    begin = time.monotonic()
    settle(page, qtbot)
    assert time.monotonic() - begin < 60
    qtbot.wait(200)
    page.show_kind("shopping")
    settle(page, qtbot)
    assert page.choices.kind == "shopping"
    assert page.preview.pages <= 3


def test_signs_that_no_font_has_are_told_above_the_sheets(page, qtbot):
    assert not page.missing.isVisible()
    first = page.document.plan.beds[0]
    page.document.edit("Name", lambda garden: e.change_bed(garden, first.id, name="Box \U00012000"))
    qtbot.waitUntil(page.missing.isVisible, timeout=60_000)
    assert "No font has all signs of “Box \U00012000”" in page.missing.text()
    page.document.undo_stack.undo()
    qtbot.waitUntil(lambda: not page.missing.isVisible(), timeout=60_000)
    settle(page, qtbot)


def test_a_sheet_written_from_the_window_says_when_it_was_made(page, sample, qtbot, tmp_path):
    page.show_kind("shopping")
    settle(page, qtbot)
    sample.prompts.answers["save"] = str(tmp_path / "out.pdf")
    page.save.click()
    with pikepdf.open(tmp_path / "out.pdf") as pdf:
        made = dt.datetime.fromisoformat(pdf.open_metadata()["xmp:CreateDate"])
    assert abs(dt.datetime.now().astimezone() - made) < dt.timedelta(minutes=10)
