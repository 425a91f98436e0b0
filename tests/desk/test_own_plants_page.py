"""Own crops in the window: made like another, given ranges, words and sources, planted, taken from elsewhere."""

from __future__ import annotations

from pathlib import Path

import pytest
from making import bed, garden

from planner import resources
from planner.desk.pages.figure_model import NOTE, OWN, ROWS, SOURCE
from planner.garden import Variety
from planner.garden import edits as e
from planner.storage import load, save

pytestmark = pytest.mark.one_window


@pytest.fixture
def sample(open_hand):
    return open_hand(load(resources.sample_folder() / "hollow_lane.bedwright")).window


@pytest.fixture
def page(sample):
    sample.pages.edit_variety("leek", "")
    return sample.pages.varieties


def _type(page, field: str, column: int, text: str) -> bool:
    model = page.model
    return model.setData(model.index(ROWS.index(field), column), text)


def _shown(page, field: str, column: int) -> str:
    return page.model.data(page.model.index(ROWS.index(field), column))


def test_an_own_crop_begins_with_the_figures_of_the_one_it_is_like(page) -> None:
    page.new_crop("chard")
    crop = page.thing
    assert (crop.like, crop.family, page.about.isHidden()) == ("chard", "Amaranthaceae", False)
    made = page.document.catalogue.crops[crop.key]
    assert made.in_row_spacing == page.document.catalogue.crops["chard"].in_row_spacing
    assert _shown(page, "in_row_spacing", 1) == "15 cm" or _shown(page, "in_row_spacing", 1)


@pytest.mark.parametrize(
    ("typed", "value", "low", "high", "shown"),
    [
        ("45", 45, None, None, "45 days"),
        ("40 to 50", 45, 40, 50, "45 days (40 days to 50 days)"),
        ("42 (40–50)", 42, 40, 50, "42 days (40 days to 50 days)"),
    ],
)
def test_a_figure_may_have_a_range(page, typed, value, low, high, shown) -> None:
    page.new_crop("chard")
    assert _type(page, "days_to_maturity", OWN, typed)
    (own,) = page.thing.figures
    assert (own.value, own.low, own.high) == (value, low, high)
    assert _shown(page, "days_to_maturity", OWN) == shown


def test_words_are_typed_too_and_unknown_ones_told(page) -> None:
    told: list[str] = []
    page.wrong.connect(told.append)
    assert _type(page, "hardiness", OWN, "tender")
    assert page.thing.words[0].words == ("tender",)
    assert not _type(page, "hardiness", OWN, "icy")
    assert "none of very hardy, frost-tolerant" in told[0]
    assert _type(page, "starts", OWN, "sown, raised")
    assert _type(page, "hardiness", OWN, "")
    assert [own.field for own in page.thing.words] == ["starts"]


def test_a_typed_source_becomes_one_of_the_garden_and_is_found_again(page) -> None:
    assert _type(page, "height", OWN, "0.5 m")
    assert _type(page, "height", SOURCE, "Packet 2025")
    assert _type(page, "height", NOTE, "printed at the back")
    assert _type(page, "spread", OWN, "0.2 m")
    assert _type(page, "spread", SOURCE, "packet 2025")
    garden_now = page.document.garden
    assert [source.title for source in garden_now.sources] == ["Packet 2025"]
    assert {own.source for own in page.thing.figures} == {garden_now.sources[0].key}
    assert _shown(page, "spread", SOURCE) == "Packet 2025"
    page.document.undo_stack.undo()
    assert _shown(page, "spread", SOURCE) == ""


def test_an_own_crop_is_listed_planted_and_then_not_removed(sample, page) -> None:
    page.new_crop("chard")
    key = page.thing.key
    page.name.setText("Sea beet")
    page.name.editingFinished.emit()
    document = sample.document
    assert document.catalogue.named("sea beet").key == key
    first = document.garden.beds[0].id
    assert document.edit("Plant", lambda g: e.add_planting(g, first, key, document.year)[0])
    assert any(document.plan.figures_of(p).crop.name == "Sea beet" for p in document.garden.plantings)
    told: list[str] = []
    page.wrong.connect(told.append)
    page.remove.click()
    assert told == ["Sea beet is planted. Remove its plantings of all years first."]
    assert page.thing.key == key


def test_crops_and_varieties_are_taken_from_another_garden(page, tmp_path: Path) -> None:
    other, key = e.put_crop(garden(bed("b1")), name="Tree onion", like="onion")
    other = other.with_(varieties=(Variety(id="v1", crop=key, name="Tall"),))
    path = tmp_path / "other.bedwright"
    save(other, path)
    page.take_from(path)
    dialog = next(w for w in page.children() if w.isWidgetType() and w.isWindow())
    assert dialog.chosen() == ([key], ["v1"])
    dialog.accept()
    assert [own.name for own in page.document.garden.crops] == ["Tree onion"]
    assert "Tall" in [own.name for own in page.document.garden.varieties]


def test_a_table_is_shown_before_it_is_taken_in(page, tmp_path: Path) -> None:
    path = tmp_path / "sorts.csv"
    path.write_text("crop,variety,days\ncarrot,Early Finger,60\n,Nameless,3\n", encoding="utf-8")
    before = len(page.document.garden.varieties)
    page.import_table(path)
    assert len(page.document.garden.varieties) == before
    dialog = next(w for w in page.children() if w.isWidgetType() and w.isWindow())
    dialog.accept()
    assert page.document.garden.varieties[-1].name == "Early Finger"
    assert len(page.document.garden.varieties) == before + 1


def test_a_missing_table_is_told_in_one_line(page, tmp_path: Path) -> None:
    told: list[str] = []
    page.wrong.connect(told.append)
    page.import_table(tmp_path / "none.csv")
    page.take_from(tmp_path / "none.bedwright")
    assert len(told) == 2
    assert all("\n" not in line for line in told)
