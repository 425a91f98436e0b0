"""What is known of a crop, as lines and ready for JSON."""

from __future__ import annotations

from making import crop

from planner.crops import Catalogue, Crop
from planner.crops.crop import ENTRY_FIELDS
from planner.crops.sources import Source
from planner.listings.crops import WIDEST, crop_lines, crops_table, value_words
from planner.listings.reports.crops import crop_record

FIGURES = {
    "in_row_spacing": {
        "value": 0.3,
        "low": 0.25,
        "high": 0.4,
        "source": "guide",
        "other": [{"value": 0.5, "source": "other"}],
    },
    "row_spacing": {"value": 0.6, "low": 0.5, "source": "guide"},
    "height": {"value": 0.4, "high": 0.6, "source": "guide"},
    "hardiness": {"value": "tender", "source": "estimate"},
    "germination": {"applies": False, "note": "planted as tubers"},
    "starts": {"value": ["raised", "bought", "sown"], "source": "practice"},
}
LEEK = crop("leek", **FIGURES)


def catalogue_of(leek: Crop = LEEK) -> Catalogue:
    """A catalogue with one crop and its sources."""
    keys = ("guide", "other", "practice", "estimate")
    return Catalogue({"leek": leek}, {key: Source(title=f"Leeks by {key}") for key in keys})


def test_lines_have_every_figure_with_range_and_source():
    lines = crop_lines(catalogue_of(), LEEK)
    rows = {line.split()[0]: line.split() for line in lines if line.startswith("  ")}
    assert rows["in_row_spacing"][1:] == ["0.3", "m", "0.25", "to", "0.4", "printed", "[1]"]
    assert rows["row_spacing"][1:] == ["0.6", "m", "from", "0.5", "printed", "[1]"]
    assert rows["height"][1:] == ["0.4", "m", "up", "to", "0.6", "printed", "[1]"]
    assert rows["0.5"] == ["0.5", "[2]"]
    assert rows["germination"][1:4] == ["does", "not", "apply"]
    assert [line.split() for line in lines if "Leeks by" in line] == [
        ["[1]", "Leeks", "by", "guide"],
        ["[2]", "Leeks", "by", "other"],
        ["estimate", "Leeks", "by", "estimate"],
        ["practice", "Leeks", "by", "practice"],
    ]


def test_record_has_every_figure_and_names_the_missing_ones():
    record = crop_record(catalogue_of(), LEEK).row()
    assert set(record["figures"]) == set(FIGURES)
    assert set(record["figures"]) | set(record["not_known"]) == set(ENTRY_FIELDS)
    assert record["figures"]["in_row_spacing"]["other"][0]["value"] == 0.5


def test_values_in_words():
    words = {name: value_words(entry) for name, entry in LEEK.entries()}
    assert words["hardiness"] == "tender"
    assert words["starts"] == "raised, bought, sown"
    assert words["germination"] == "does not apply"


def test_long_values_are_below_the_table():
    many = ["sown", "raised", "bought", "sets", "tubers"]
    long = crop("leek", starts={"value": many, "source": "practice"})
    assert len(", ".join(many)) > WIDEST
    lines = crop_lines(catalogue_of(long), long)
    assert any(line.split()[:2] == ["starts", "(below)"] for line in lines)
    assert f"  starts: {', '.join(many)}, practice" in lines


def test_several_crops_are_a_table():
    assert [line.split() for line in crops_table([LEEK])][1] == [
        "leek",
        "leek",
        "carrot",
        "family",
        "(Apiaceae)",
        "leek",
    ]


def test_aftercare_is_listed_with_when_how_often_and_its_source():
    care = [
        {"task": "pinch out", "after": "start", "days": 21, "every_days": 7, "until": "last harvest", "supports": ["stake", "wire"], "source": "other"},
        {"task": "divide", "month": 3, "to_month": 4, "every_years": 5, "from_year": 5, "source": "practice", "note": "in spring"},
    ]  # fmt: skip
    one = LEEK.model_validate(LEEK.model_dump() | {"aftercare": care})
    lines = crop_lines(catalogue_of(one), one)
    at = lines.index("  Aftercare")
    rows = [line.split() for line in lines[at + 2 : at + 4]]
    assert (
        " ".join(rows[0])
        == "pinch out side shoots 21 days after planting, every 7 days, only on stake and wire [2]"
    )
    assert " ".join(rows[1]) == "lift and divide Usual from March to April, every 5 years practice in spring"
    record = crop_record(catalogue_of(one), one)
    assert [(care.work, care.task, care.provenance) for care in record.aftercare] == [
        ("pinch out", "pinch out", "printed"),
        ("divide", "divide", "practice"),
    ]
    assert crop_record(catalogue_of(), LEEK).aftercare == ()
