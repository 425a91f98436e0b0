"""The pages beside the sheet: a crop, amounts, seed, paper."""

from __future__ import annotations

from pathlib import Path

import pytest
from hand import LIMIT
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from planner import resources, storage
from planner.amounts import amounts, totals
from planner.desk.pages.figure_model import NOTE, ROWS
from planner.garden import Garden
from planner.plan.crop_year import last_day_to_start

pytestmark = pytest.mark.one_window


@pytest.fixture
def sample(open_hand):
    return open_hand(storage.load(resources.sample_folder() / "hollow_lane.bedwright")).window


def _show(window, title: str):
    index = next(i for i in range(window.pages.count()) if window.pages.tabText(i) == title)
    window.pages.setCurrentIndex(index)
    return window.pages.currentWidget()


def test_every_crop_has_a_page_with_all_its_sources(sample):
    page = _show(sample, "About this crop")
    catalogue = sample.document.catalogue
    for crop in catalogue.crops.values():
        page.show_crop(crop)
        text = " ".join(page.text.toPlainText().split())
        for name, entry in crop.entries():
            if entry.source and entry.source not in ("practice", "estimate"):
                title = " ".join(catalogue.sources[entry.source].title.split())
                assert title in text, (crop.key, name, entry.source)


def test_a_window_that_only_frost_ends_shows_its_last_day_in_this_garden(sample):
    page = _show(sample, "About this crop")
    zinnia = sample.document.catalogue.crops["zinnia"]
    frost = sample.document.plan.frosts().first
    page.show_crop(zinnia)
    day = last_day_to_start(sample.document.plan, zinnia, "set_out_until")
    assert day < frost
    text = " ".join(page.text.toPlainText().split())
    assert f"Set out until {day.day} {day:%b} worked out for this garden [" in text
    assert ("set out", day) in [(stage.kind, stage.last) for stage in page.year.stages()]


def test_bar_of_the_harvest_is_the_gardens_own(sample):
    page, crops = _show(sample, "About this crop"), sample.document.catalogue.crops
    page.show_crop(crops["melon"])
    assert "does not ripen in the open here" in page.year.accessibleDescription()
    page.show_crop(crops["african_marigold"])
    assert "harvest, if raised under cover" in page.year.accessibleDescription(), (
        "sown where it stands it flowers too late"
    )
    ripe, frost = page.year.stages()[-1].first, sample.document.plan.frosts().autumn
    assert sample.document.plan.frosts().last < ripe < frost


def test_lore_is_hidden_until_it_is_asked_for(sample):
    page = _show(sample, "About this crop")
    page.show_crop(sample.document.catalogue.crops["carrot"])
    before = page.text.toPlainText().count("folklore")
    page.lore = True
    page._refresh()
    assert page.text.toPlainText().count("folklore") > before


def test_what_is_known_from_the_laboratory_only_is_marked(sample):
    page = _show(sample, "About this crop")
    page.show_crop(sample.document.catalogue.crops["lettuce"])
    assert "laboratory only" in page.text.toPlainText()
    page.show_crop(sample.document.catalogue.crops["carrot"])
    assert "laboratory only" not in page.text.toPlainText()


def test_several_crops_of_a_rule_are_named(sample):
    page = _show(sample, "About this crop")
    page.show_crop(sample.document.catalogue.crops["dill"])
    assert "cabbage, red cabbage, savoy cabbage and spring cabbage" in page.text.toPlainText()


def test_an_own_figure_stands_beside_the_published_one(sample):
    page = _show(sample, "About this crop")
    page.show_crop(sample.document.catalogue.crops["carrot"])
    assert "Long Hallow" in page.text.toPlainText()
    assert "(the crop: 7.6 cm)" in page.text.toPlainText()


def test_amounts_page_has_a_row_a_variety_and_a_row_a_planting(sample):
    page = sample.pages.amounts
    sample.pages.bring(page)
    parts = amounts(sample.document.plan)
    assert len(page.table.rows) == len(totals(parts))
    page.choice.setCurrentIndex(1)
    page.refresh()
    assert len(page.table.rows) == len(parts)
    shown = sum(int(row.cells[3]) for row in page.table.rows)
    assert shown == sum(part.plants for part in parts)


def test_amounts_pass_the_model_tester(sample, qtmodeltester):
    page = sample.pages.amounts
    sample.pages.bring(page)
    qtmodeltester.check(page.table.model())


def test_stock_and_figures_pass_the_model_tester(sample, qtmodeltester):
    qtmodeltester.check(sample.pages.stock.model)
    qtmodeltester.check(sample.pages.varieties.model)


@pytest.mark.parametrize(
    ("column", "typed", "field", "value"),
    [
        (2, "250", "seeds", 250),
        (3, "1,5", "grams", 1.5),
        (4, "2024", "packed", 2024),
        (5, "82 %", "germination", 0.82),
    ],
)
def test_a_cell_of_the_stock_is_typed_as_one_step(sample, column, typed, field, value):
    _show(sample, "Seed")
    model = sample.pages.stock.model
    lot = next(lot for lot in sample.document.garden.stock if lot.crop == "beetroot")
    row = model.lots.index(lot)
    index = model.index(row, column)
    if field == "seeds":
        model.setData(model.index(row, 3), "")  # a lot has seeds or grams
    before = sample.document.undo_stack.count()
    assert model.setData(index, typed)
    assert getattr(sample.document.garden.stock[row], field) == value
    assert sample.document.undo_stack.count() == before + 1


def test_rubbish_in_the_stock_is_told_and_changes_nothing(sample):
    _show(sample, "Seed")
    told: list[str] = []
    sample.pages.stock.wrong.connect(told.append)
    before = sample.document.garden
    assert not sample.pages.stock.model.setData(sample.pages.stock.model.index(0, 4), "some time ago")
    assert sample.document.garden is before
    assert len(told) == 1
    assert "\n" not in told[0]


def test_a_table_is_taken_over_only_when_confirmed(sample, tmp_path: Path):
    file = tmp_path / "seed.csv"
    file.write_text("crop,variety,seeds,year\ncarrot,Early,200,2026\nunheard of,,10,2025\n", "utf-8")
    page = _show(sample, "Seed").currentWidget()
    before = len(sample.document.garden.stock)
    page.import_table(file)
    assert len(sample.document.garden.stock) == before
    preview = next(w for w in page.children() if w.isWidgetType() and w.isWindow())
    preview.accept()
    assert len(sample.document.garden.stock) == before + 1
    assert sample.document.garden.stock[-1].crop == "carrot"
    sample.document.undo_stack.undo()
    assert len(sample.document.garden.stock) == before


def test_a_variety_begins_with_its_crops_figures_and_takes_its_own(sample):
    _show(sample, "Seed")
    editor = sample.pages.varieties
    editor.new("leek")
    variety = editor.variety
    assert variety is not None
    assert variety.figures == ()
    row = ROWS.index("in_row_spacing")
    assert editor.model.setData(editor.model.index(row, 2), "12")
    assert editor.variety.number("in_row_spacing") == pytest.approx(0.12)
    assert editor.model.setData(editor.model.index(row, NOTE), "the packet")
    assert editor.variety.figures[0].note == "the packet"
    assert editor.model.setData(editor.model.index(row, 2), "")
    assert editor.variety.figures == ()


@pytest.mark.parametrize("typed", ["0", "-3", "99 m", "wide"])
def test_an_impossible_own_figure_is_told_and_refused(sample, typed):
    editor = sample.pages.varieties
    editor.new("leek")
    told: list[str] = []
    editor.wrong.connect(told.append)
    row = ROWS.index("in_row_spacing")
    assert not editor.model.setData(editor.model.index(row, 2), typed)
    assert editor.variety.figures == ()
    assert len(told) == 1


def test_a_renamed_variety_keeps_its_plantings(sample):
    document = sample.document
    editor = sample.pages.varieties
    old = next(own for own in document.garden.varieties if own.name == "Long Hallow")
    used = [p.id for p in document.garden.plantings if document.garden.own_variety(p) is old]
    assert used
    editor.show_own(old.id)
    editor.name.setText("Long Lane")
    editor.name.editingFinished.emit()
    new = next(own for own in document.garden.varieties if own.id == old.id)
    assert new.name == "Long Lane"
    assert [p.id for p in document.garden.plantings if document.garden.own_variety(p) is new] == used


def test_every_page_is_reached_with_a_key(sample):
    for number in range(sample.pages.count()):
        assert sample.action(f"page {number}").shortcut().toString() == f"Ctrl+{number + 1}"
        sample.action(f"page {number}").trigger()
        assert sample.pages.currentIndex() == number


def test_the_day_goes_with_the_ribbon(sample, qtbot):
    ribbon = sample.ribbon
    day = sample.document.plan.span.first.replace(month=9, day=3)
    x = ribbon.x_of(day) + 1
    qtbot.mouseClick(ribbon, Qt.MouseButton.LeftButton, pos=ribbon.rect().topLeft() + _point(x, 60))
    assert sample.document.day == day
    qtbot.keyClick(ribbon, Qt.Key.Key_Right)
    assert sample.document.day.day == 4


def _point(x: float, y: float):
    from PySide6.QtCore import QPoint

    return QPoint(round(x), round(y))


@pytest.mark.parametrize(
    ("action", "suffix", "begins"),
    [
        ("bed sheets", ".pdf", b"%PDF"),
        ("week sheets", ".pdf", b"%PDF"),
        ("calendar", ".ics", b"BEGIN:VCALENDAR"),
        ("amounts", ".csv", b""),
        ("pocket page", ".html", b"<!doctype html><!-- Bedwright"),
    ],
)
def test_everything_that_leaves_is_written_where_it_was_said(sample, tmp_path: Path, action, suffix, begins):
    target = tmp_path / f"out{suffix}"
    sample.prompts.answers["save"] = str(tmp_path / "out")
    sample.action(action).trigger()
    assert target.read_bytes().startswith(begins)
    assert target.stat().st_size > 1000
    assert str(target) in sample.status.message.text()


@pytest.mark.parametrize("action", ["bed sheets", "week sheets", "calendar", "amounts"])
def test_what_cannot_be_written_is_told_in_one_line(sample, tmp_path: Path, action):
    sample.prompts.answers["save"] = str(tmp_path / "nowhere" / "out.x")
    sample.action(action).trigger()
    (told,) = sample.prompts.errors
    assert "\n" not in told
    assert "nowhere" in told


def test_shadows_and_map_are_shown_and_say_where_a_latitude_is_missing(sample, open_hand, qtbot):
    document, shadows = sample.document, sample.view.light.shadows
    sample.action("shadow").setChecked(True)
    document.show_hour(16.0)
    assert shadows.paths(document.plan, document.moment)
    document.show_hour(1.0)
    assert not shadows.paths(document.plan, document.moment)
    sample.action("light map").setChecked(True)
    qtbot.waitUntil(
        lambda: sample.view.light.map is not None and sample.view.light.map.finished, timeout=LIMIT
    )
    hours = sample.view.light.hours_at((2.0, 4.0))
    assert hours is not None
    assert 0 <= hours <= sample.view.light.map.unshaded
    nowhere = open_hand().window
    nowhere.action("shadow").setChecked(True)
    assert "latitude" in nowhere.status.message.text()


def test_hours_of_a_bed_follow_when_it_is_selected(sample, qtbot):
    bed = sample.document.plan.beds[0]
    sample.document.select((bed.id,))
    bars = sample.docks.details.bed.sun
    qtbot.waitUntil(lambda: bars.sun is not None and bars.sun.key == bed.id, timeout=LIMIT)
    assert len(bars.sun.months) == 12
    assert "h of direct sun" in bars.words.text()
    light = bars.sun.on_day
    assert light.least <= light.mean <= light.best <= light.unshaded + 1e-6


def test_reach_and_paths_are_told(sample, qtbot):
    sample.action("access").setChecked(True)
    qtbot.waitUntil(lambda: "narrower" in sample.status.message.text(), timeout=LIMIT)


@pytest.mark.parametrize("keys", ["Esc", "Ctrl+1"])
@pytest.mark.parametrize("page", range(6))
def test_escape_and_ctrl_1_lead_back_to_the_sheet(reopen, keys, page):
    hand = reopen(Garden())
    hand.shortcut(f"Ctrl+{page + 1}")
    hand.window.pages.currentWidget().setFocus()
    hand.shortcut(keys)
    assert hand.window.pages.shows_sheet
    assert QApplication.focusWidget() is hand.view


def test_escape_leads_back_to_the_sheet_from_a_list_beside_it(hand):
    hand.do("find crop")
    assert QApplication.focusWidget() is hand.window.docks.crops.search
    hand.shortcut("Esc")
    assert QApplication.focusWidget() is hand.view


def test_escape_in_a_field_puts_its_text_back_first(open_hand):
    hand = open_hand(storage.load(resources.sample_folder() / "balcony_boxes.bedwright"))
    field = hand.window.docks.details.garden.name
    hand.type(field, "Other", end=Qt.Key.Key_Escape)
    assert field.text() == hand.garden.site.name
    assert QApplication.focusWidget() is field
    hand.shortcut("Esc")
    assert QApplication.focusWidget() is hand.view
