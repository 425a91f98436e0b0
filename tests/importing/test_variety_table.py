"""A table of varieties: headings with units, ranges, words, and rows that cannot be read."""

from __future__ import annotations

import pytest
from making import garden

from planner.crops import Catalogue
from planner.garden import Garden, OwnFigure, Site, Variety
from planner.importing.variety_table import (
    VarietyFileError,
    heading_of,
    import_varieties,
    preview,
)


@pytest.mark.parametrize(
    ("text", "field", "unit"),
    [
        ("Crop", "crop", ""), ("Cultivar", "name", ""), ("Days to maturity", "days_to_maturity", ""),
        ("days_to_maturity", "days_to_maturity", ""), ("Height (cm)", "height", "cm"), ("height_cm", "height", "cm"),
        ("Row spacing, in", "row_spacing", "in"), ("Spacing [cm]", "in_row_spacing", "cm"), ("Depth mm", "sowing_depth", "mm"),
        ("Germination %", "germination", "%"), ("Hardiness", "hardiness", ""), ("Best before", "", ""),
    ],
)  # fmt: skip
def test_headings(text: str, field: str, unit: str) -> None:
    found = heading_of(text)
    assert (found.field, found.unit) == (field, unit)


TABLE = """crop;variety;days to maturity;height (cm);spacing cm;hardiness;starts;source;colour
carrots;Early Finger;55-65;;3;;;Seed list 2026;orange
tomato;Sunny;70 (65 to 75);150;45;tender;raised, bought;Seed list 2026;yellow
"""


def test_figures_with_units_and_ranges_words_and_sources(catalogue: Catalogue) -> None:
    found = preview(TABLE.encode(), catalogue, garden())
    assert [(row.error, row.line) for row in found.rows] == [("", 2), ("", 3)]
    assert found.passed_over == ("colour",)
    made = import_varieties(garden(), found)
    early, sunny = made.varieties
    assert [source.title for source in made.sources] == ["Seed list 2026"]
    days = next(own for own in early.figures if own.field == "days_to_maturity")
    assert (early.crop, early.name, days.value, days.low, days.high) == ("carrot", "Early Finger", 60, 55, 65)
    assert days.source == made.sources[0].key
    assert early.number("in_row_spacing") == pytest.approx(0.03)
    assert sunny.number("height") == pytest.approx(1.5)
    assert sunny.number("days_to_maturity") == 70
    assert {own.field: own.words for own in sunny.words} == {
        "hardiness": ("tender",),
        "starts": ("raised", "bought"),
    }


def test_feet_and_inches_are_those_of_the_garden(catalogue: Catalogue) -> None:
    inches = garden(site=Site(units="feet_inches"))
    found = preview(b"crop,variety,spacing\nleek,Long,6\n", catalogue, inches)
    assert import_varieties(inches, found).varieties[0].number("in_row_spacing") == pytest.approx(0.1524)


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("carrot,,60", "no variety is named"), (",Early,60", "no crop is given"), ("xyzzyx,Early,60", "no crop is called"),
        ("carrot,Early,soon", "no number"), ("carrot,Early,-4", "outside"), ("carrot,Early,60,spare", "4 cells under 3 headings"),
    ],
)  # fmt: skip
def test_rows_that_cannot_be_read_say_why_and_leave_the_others(
    catalogue: Catalogue, row: str, words: str
) -> None:
    found = preview(f"crop,variety,days\n{row}\nleek,Long,100\n".encode(), catalogue, garden())
    assert words in found.rows[0].error
    assert found.rows[0].mend
    assert [own.name for own in import_varieties(garden(), found).varieties] == ["Long"]


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "empty"), (b"\x00\x01", "no text"), (b"name,days\nx,3\n", "no column is headed 'crop'"),
        (b"crop,days\nleek,3\n", "no column is headed 'variety'"), (b"crop,variety,name\nleek,a,b\n", "both mean name"),
    ],
)  # fmt: skip
def test_files_that_are_no_table_of_varieties(catalogue: Catalogue, data: bytes, words: str) -> None:
    with pytest.raises(VarietyFileError, match=words):
        preview(data, catalogue, garden())


def test_a_variety_that_is_there_already_takes_the_new_figures_and_keeps_the_rest(
    catalogue: Catalogue,
) -> None:
    figures = (OwnFigure(field="height", value=0.4), OwnFigure(field="days_to_maturity", value=80))
    start = Garden(varieties=(Variety(id="v1", crop="carrot", name="early", figures=figures, notes="sweet"),))
    found = preview(b"crop,variety,days\ncarrot,Early,60\n", catalogue, start)
    assert "it is in the garden already" in found.rows[0].notes[0]
    (own,) = import_varieties(start, found).varieties
    assert (own.id, own.number("height"), own.number("days_to_maturity"), own.notes) == (
        "v1",
        0.4,
        60,
        "sweet",
    )


def test_nothing_good_changes_nothing(catalogue: Catalogue) -> None:
    start = garden()
    assert import_varieties(start, preview(b"crop,variety\n,\nxyzzyx,a\n", catalogue, start)) is start


def test_a_row_twice_makes_one_variety_and_says_so(catalogue: Catalogue) -> None:
    found = preview(b"crop,variety,days\ncarrot,Early,60\ncarrot,early,65\n", catalogue, garden())
    assert found.rows[1].notes == ("it stands in line 2 already; both make one variety",)
    assert found.number == 1
    assert len(import_varieties(garden(), found).varieties) == 1


def test_notes_of_a_variety_that_is_there_stay(catalogue: Catalogue) -> None:
    start = Garden(varieties=(Variety(id="v1", crop="carrot", name="Early", notes="our own selection"),))
    found = preview(b"crop,variety,notes\ncarrot,Early,sweet\n", catalogue, start)
    assert import_varieties(start, found).varieties[0].notes == "our own selection\nsweet"


@pytest.mark.parametrize(
    "heading", ["In the row", "In the row (in)", "Direct sun needed", "To maturity", "Seed keeps"]
)
def test_the_labels_of_the_window_are_headings_too(heading: str) -> None:
    assert heading_of(heading).field
