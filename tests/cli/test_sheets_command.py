"""bedwright sheets: which beds and weeks are written, and what is refused."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pypdfium2
import pytest

from planner import resources
from planner.garden import Site
from planner.storage import save
from tests.making import bed, garden, planting

SAMPLE = str(resources.sample_folder() / "hollow_lane.bedwright")


@pytest.fixture
def written(monkeypatch):
    """Takes the place of the writer of bed sheets and records what it is to write."""
    calls: list[dict[str, Any]] = []

    def write_bed_sheets(plan, path, beds, paper, today, progress, *, tint=False, **_choices):
        calls.append(
            {"year": plan.year, "path": path, "beds": beds, "paper": paper, "today": today, "tint": tint}
        )

    monkeypatch.setattr("planner.sheets.kinds.write_bed_sheets", write_bed_sheets)
    return calls


def test_sheets_of_all_beds(bedwright, file, written):
    assert bedwright("sheets", file, "-o", "x.pdf")[0] == 0
    today = dt.date.today()
    assert written == [
        {"year": 2025, "path": "x.pdf", "beds": None, "paper": "a4", "today": today, "tint": False}
    ]


def test_tinted_sheets(bedwright, file, written):
    assert bedwright("sheets", file, "-o", "x.pdf", "--tint")[0] == 0
    assert written[0]["tint"]


def test_sheets_of_beds_by_name_or_id(bedwright, file, written):
    bedwright("sheets", file, "-o", "x.pdf", "--bed", "SOUTH", "--bed", "b1", "North", "--paper", "letter")
    assert [bed.id for bed in written[0]["beds"]] == ["b1", "b2", "b3"]
    assert written[0]["paper"] == "letter"


def test_sheets_of_a_bed_there_is_not(refused, file, written):
    assert "there is no bed 'Nroth'. Did you mean 'North'?" in refused(
        "sheets", file, "-o", "x.pdf", "--bed", "Nroth"
    )
    assert "Beds are: North, South, south." in refused("sheets", file, "-o", "x.pdf", "--bed", "zzz")
    assert "bed 'Old' is not in use in 2025" in refused("sheets", file, "-o", "x.pdf", "--bed", "Old")
    assert written == []


def test_sheets_over_the_garden_itself(refused, file, written):
    assert "is the garden file itself" in refused("sheets", file, "-o", file)
    assert written == []


def test_sheets_on_paper_there_is_not(refused, file):
    assert "--paper" in refused("sheets", file, "-o", "x.pdf", "--paper", "a2")


def test_sheets_where_nothing_can_be_written(refused, file, tmp_path):
    out = str(tmp_path / "no" / "x.pdf")
    assert out in refused("sheets", file, "-o", out, "--year", "2023")


def test_sheets_are_a_pdf(bedwright, file, tmp_path):
    out = tmp_path / "x.pdf"
    assert bedwright("sheets", file, "-o", str(out), "--bed", "North")[0] == 0
    assert out.read_bytes().startswith(b"%PDF-")


def test_the_command_knows_the_kinds_of_the_sheets():
    from planner.cli import sheets
    from planner.sheets import kinds

    assert sheets.KINDS == kinds.SHEET_KINDS
    assert sheets._OF_BEDS == kinds.OF_BEDS
    assert sheets._OF_DAYS == kinds.OF_DAYS
    assert sheets._OF_A_DAY == kinds.OF_A_DAY


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--kind", "walk", "--day", "2026-05-14"), "walk sheet for 2026-05-14"),
        (("--kind", "map", "--day", "2026-07-01"), "garden map for 2026-07-01"),
        (("--kind", "water", "--day", "2026-07-06"), "watering sheet for 2026-07-06"),
        (("--kind", "labels", "--codes", "--used", "3"), "labels for 2026"),
        (("--kind", "labels", "--labels", "a4 3x7 63.5x38.1 2.5x0", "--shift", "1,-0.5", "--calibrate"), "calibration of labels"),
        (("--kind", "labels", "--paper", "letter", "--bed", "West 1"), "labels for 2026"),
        (("--kind", "year", "--paper", "a3"), "year sheet for 2026"),
        (("--kind", "shopping"), "shopping list for 2026"),
        (("--kind", "raising"), "raising sheet for 2026"),
        (("--kind", "map", "--strip"), "garden map for 2026"),
        (("--kind", "map", "--days", "2026-04-01,2026-08-01"), "garden map for 2026"),
        (("--kind", "map", "--poster", "2x1", "--day", "2026-07-01"), "garden map for 2026-07-01"),
    ],
)  # fmt: skip
def test_every_kind_is_written(bedwright, tmp_path, options, said):
    target = tmp_path / "out.pdf"
    code, out, err = bedwright("sheets", SAMPLE, "--year", "2026", *options, "-o", str(target))
    assert code == 0, err
    assert said in out
    assert target.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--kind", "labels", "--shift", "wide"), "--shift 'wide' is no pair of numbers"),
        (("--kind", "labels", "--labels", "mine"), "no sheet of labels 'mine'"),
        (("--kind", "labels", "--used", "24"), "24 labels cannot be used of a sheet of 24"),
        (("--codes",), "--codes goes with --kind labels"),
        (("--kind", "week", "--day", "2026-05-14"), "--day goes with --kind walk, water or map"),
        (("--kind", "walk", "--day", "someday"), "someday"),
        (("--kind", "shopping", "--bed", "West 1"), "the shopping list is of the whole garden"),
        (("--strip",), "--strip goes with --kind map"),
        (("--kind", "map", "--poster", "wide"), "no poster can be made as 'wide'"),
        (("--kind", "map", "--poster", "1:5"), "no more than 80 are made"),
        (("--kind", "map", "--poster", "2x2", "--strip"), "a poster shows one day"),
        (
            ("--kind", "map", "--days", "2026-05-01", "--day", "2026-05-01"),
            "--day goes with a map of one day",
        ),
        (("--kind", "map", "--days", "1.1,2.1,3.1,4.1,5.1,6.1,7.1"), "no more than 6"),
        (("--kind", "map", "--days", "someday"), "someday"),
        (("--kind", "raising", "--bed", "West 1"), "the raising sheet is of the whole garden"),
        (("--kind", "map", "--bed", "West 1"), "the garden map is of the whole garden"),
    ],
)
def test_what_does_not_go_together_is_refused_in_one_line(bedwright, tmp_path, options, said):
    code, _out, err = bedwright("sheets", SAMPLE, "--year", "2026", *options, "-o", str(tmp_path / "out.pdf"))
    assert code == 2
    assert said in err
    assert err.strip().count("\n") == 0
    assert not (tmp_path / "out.pdf").exists()


def test_a_folder_of_everything_is_told_file_by_file(bedwright, tmp_path):
    small = str(resources.sample_folder() / "balcony_boxes.bedwright")
    code, out, err = bedwright("sheets", small, "--year", "2026", "--all", "-o", str(tmp_path / "all"))
    assert code == 0, err
    assert "all: 25 files for 2026" in out.replace("\n", " ")
    assert "bed-sheets.pdf" in out
    assert "Not written: raising.pdf, nothing is raised in 2026" in out
    assert len(list((tmp_path / "all").iterdir())) == 25


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--all", "--kind", "walk"), "not allowed with"),
        (("--all", "--bed", "West 1"), "--bed goes with one kind of sheets"),
        (("--all", "--from", "2026-05-01"), "--from goes with one kind of sheets"),
        (("--all", "--per-row"), "--per-row goes with one kind of sheets"),
        (("--all", "-o", "-"), "--all writes a folder"),
        (("--all", "-o", SAMPLE), "is a file and no folder"),
    ],
)
def test_what_does_not_go_with_all_is_refused(refused, tmp_path, options, said):
    out = () if "-o" in options else ("-o", str(tmp_path / "all"))
    assert said in refused("sheets", SAMPLE, *options, *out)
    assert not (tmp_path / "all").exists()


def test_signs_that_no_font_has_are_told_before_the_sheets_are_written(bedwright, tmp_path):
    garden = tmp_path / "signs.bedwright"
    bedwright("new", str(garden), "--sample", "balcony_boxes")
    garden.write_text(garden.read_text("utf-8").replace('"Box left"', '"Box \U00012000"'), "utf-8")
    code, _, told = bedwright("sheets", str(garden), "--kind", "shopping", "-o", str(tmp_path / "x.pdf"))
    assert code == 0
    assert "No font has all signs of “Box \U00012000”" in told
    assert "Install a TrueType font (.ttf) for Cuneiform." in told
    assert told.count("\n") == 1


@pytest.mark.parametrize(("units", "size"), [("metric", (595, 842)), ("feet_inches", (612, 792))])
def test_paper_is_that_of_the_units(bedwright, tmp_path, units, size):
    document = garden(bed("b1"), planting("p1", "b1"), site=Site(name="Plot", units=units))
    save(document, tmp_path / "g.bedwright")
    out = tmp_path / "o.pdf"
    assert bedwright("sheets", str(tmp_path / "g.bedwright"), "-o", str(out))[0] == 0
    with pypdfium2.PdfDocument(out) as found:
        assert tuple(round(side) for side in found[0].get_size()) == size


def test_days_that_run_into_the_next_year_are_said_and_days_named_twice_refused(bedwright, tmp_path):

    file, out = str(resources.sample_folder() / "balcony_boxes.bedwright"), str(tmp_path / "o.pdf")
    code, _, err = bedwright("sheets", file, "-o", out, "--weeks", "--from", "1 Jun 2026", "--to", "1 May")
    assert (code, "taken as 2027-05-01, of the year after" in err) == (0, True)
    code, _, err = bedwright("sheets", file, "-o", out, "--weeks", "--from", "1 May 2026", "--to", "1 Jun")
    assert (code, err) == (0, "")
    code, _, err = bedwright("sheets", file, "-o", out, "--kind", "map", "--days", "1 Mar 2026,2026-03-01")
    assert (code, "names 2026-03-01 twice" in err) == (2, True)
