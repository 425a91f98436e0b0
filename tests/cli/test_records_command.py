"""bedwright records: listing what happened, and taking notes from outside."""

from __future__ import annotations

import csv
import io
import json

import openpyxl
import pytest
from plot_garden import GARDEN
from pocket_files import note, notes_data

from planner.garden import Site
from planner.garden import edits as e
from planner.storage import load, save

RECORDS = (
    {"kind": "note", "day": "2025-05-03", "words": "Cold spring", "by": "Mara"},
    {"kind": "picked", "day": "2025-09-03", "planting": "p1", "amount": {"value": 1250, "unit": "g"}},
    {"kind": "seen", "day": "2025-06-03", "bed": "b1", "harm": "slugs"},
    {"kind": "note", "day": "2023-06-03", "bed": "b4", "words": "=1+1"},
)


@pytest.fixture
def kept(tmp_path):
    """A garden file with records."""
    path = tmp_path / "kept.bedwright"
    save(e.add_records(GARDEN, RECORDS)[0], path)
    return str(path)


@pytest.fixture
def notes(tmp_path):
    """A file of notes: one new, one for a planting that is no more."""
    path = tmp_path / "notes.json"
    found = (
        note(1, "note", "2026-05-03", bed="b1", words="Weeded"),
        note(2, "note", "2026-05-04", planting="p9", words="Lost"),
    )
    path.write_bytes(notes_data(GARDEN, *found))
    return str(path)


def test_a_garden_without_records_says_so(bedwright, file):
    assert bedwright("records", file) == (0, "Plot: nothing is written down yet.\n", "")


def test_records_are_listed_by_day(bedwright, kept):
    code, out, _ = bedwright("records", kept)
    assert code == 0
    title, _, heads, *lines = out.splitlines()
    assert title == "Plot: 4 records"
    assert heads.split() == ["Day", "Where", "What", "Written", "by"]
    assert [" ".join(line.split()) for line in lines] == [
        "3 Jun 2023 Old Note: =1+1",
        "3 May 2025 The garden Note: Cold spring Mara",
        "3 Jun 2025 North Slugs",
        "3 Sep 2025 Cabbage Drum in North Picked 1.25 kg",
    ]


@pytest.mark.parametrize(
    ("arguments", "days"),
    [
        (["--bed", "North"], ["2025-06-03", "2025-09-03"]),
        (["--bed", "old"], ["2023-06-03"]),
        (["--crop", "cabbage"], ["2025-09-03"]),
        (["--crop", "carot"], []),
        (["--kind", "note", "seen"], ["2023-06-03", "2025-05-03", "2025-06-03"]),
        (["--year", "2023"], ["2023-06-03"]),
        (["MARA"], ["2025-05-03"]),
        (["slugs", "north"], ["2025-06-03"]),
        (["slugs", "south"], []),
    ],
)
def test_records_are_chosen(bedwright, kept, arguments, days):
    code, out, _ = bedwright("records", kept, *arguments, "--json")
    assert code == 0
    assert [one["date"] for one in json.loads(out)["records"]] == days


def test_a_choice_without_records_says_how_many_there_are(bedwright, kept):
    assert bedwright("records", kept, "nothing")[1] == "Plot: 4 records, and none of those.\n"


def test_tables_hold_a_line_for_each_record_and_no_formula(bedwright, kept, tmp_path):
    text = bedwright("records", kept, "--csv", "-")[1]
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert [row["date"] for row in rows] == ["2023-06-03", "2025-05-03", "2025-06-03", "2025-09-03"]
    assert rows[0]["words"] == "'=1+1"
    assert (rows[3]["amount"], rows[3]["unit"], rows[3]["crop_name"]) == ("1250.0", "g", "cabbage")
    book = tmp_path / "records.xlsx"
    assert bedwright("records", kept, "--xlsx", str(book))[0] == 0
    sheet = openpyxl.load_workbook(book).active
    assert sheet.max_row == 5


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        (["--kind", "tower"], "there is no kind of record 'tower'"),
        (["--crop", "tower"], "there is no crop 'tower'"),
        (["--bed", "tower"], "there is no bed 'tower'"),
        (["-o", "new.bedwright"], "-o goes with --take"),
        (["--renamed"], "--renamed goes with --take"),
        (["--take", "none.json"], "none.json: cannot be read"),
        (["--take", "none.json", "--bed", "North"], "do not go with --take"),
    ],
)
def test_what_is_typed_wrong_is_refused(refused, kept, arguments, line):
    assert line in refused("records", kept, *arguments)


def test_without_a_new_file_notes_are_only_shown(bedwright, kept, notes):
    before = load(kept)
    code, out, _ = bedwright("records", kept, "--take", notes)
    assert code == 1, "a note could not be taken"
    assert out.splitlines() == [
        f"{notes}: 1 new note and 1 in conflict",
        "  3 May 2026, North: Note: Weeded",
        "Not taken, since the garden knows otherwise:",
        f"  {notes}, note 2, 4 May 2026, Lost: its planting is no longer in the garden.",
    ]
    assert load(kept) == before


def test_notes_are_taken_once(bedwright, refused, kept, notes, tmp_path):
    new, newer = str(tmp_path / "new.bedwright"), str(tmp_path / "newer.bedwright")
    code, out, _ = bedwright("records", kept, "--take", notes, "-o", new)
    assert code == 1
    assert out.endswith(f"{new}: Plot with all that is new\n")
    assert len(load(new).records) == 5
    assert load(kept).records == load(new).records[:4]
    assert "is not overwritten" in refused("records", kept, "--take", notes, "-o", new)
    code, out, _ = bedwright("records", new, "--take", notes, "--take", notes, "-o", newer)
    assert "0 new notes, 2 there already and 2 in conflict" in out
    assert out.endswith(f"{newer} is not written: no note is new\n")
    assert not (tmp_path / "newer.bedwright").exists()


def test_notes_of_another_garden_are_refused_unless_it_was_renamed(bedwright, refused, kept, tmp_path):
    path = tmp_path / "notes.json"
    other = GARDEN.with_(site=Site(name="Elsewhere"))
    path.write_bytes(notes_data(other, note(1, "note", "2026-05-03", words="Weeded")))
    line = refused("records", kept, "--take", str(path))
    assert "its notes are of the garden 'Elsewhere', not of 'Plot'" in line
    assert bedwright("records", kept, "--take", str(path), "--renamed")[0] == 0


def test_a_broken_file_of_notes_is_one_line(refused, kept, tmp_path):
    path = tmp_path / "notes.json"
    path.write_text("<html>")
    assert "is damaged in line 1" in refused("records", kept, "--take", str(path))
