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
        (["-o", "new.bedwright"], "-o goes with --add or --take"),
        (["--renamed"], "--renamed goes with --take"),
        (["--take", "none.json"], "none.json: cannot be read"),
        (["--take", "none.json", "--bed", "North"], "do not go with --take"),
        (["--add", "note: wet", "--kind", "note"], "do not go with --add"),
        (["--add", "note: wet", "--renamed"], "--renamed goes with --take"),
        (["--add", " "], "no line is given"),
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


def test_lines_are_shown_and_written_into_a_new_file_only(bedwright, refused, kept, tmp_path):
    new = str(tmp_path / "new.bedwright")
    lines = ("--add", "slugs in North on 3 May 2026", "--add", "note: first swallow")
    code, out, _ = bedwright("records", kept, *lines)
    assert code == 0
    assert out.splitlines()[:2] == ["2 records:", "3 May 2026, North: slugs"]
    assert len(load(kept).records) == 4
    code, out, _ = bedwright("records", kept, *lines, "-o", new)
    assert (code, out.splitlines()[-1]) == (0, f"{new}: Plot with these records")
    assert len(load(kept).records) == 4
    assert [one.kind for one in load(new).records[4:]] == ["seen", "note"]
    assert "is not overwritten" in refused("records", kept, *lines, "-o", new)


def test_lines_come_from_standard_input(bedwright, kept, tmp_path, monkeypatch):
    new = tmp_path / "new.bedwright"
    typed = io.TextIOWrapper(io.BytesIO("slugs in North on 3 May 2026\n\nnote: früh\n".encode()))
    monkeypatch.setattr("sys.stdin", typed)
    assert bedwright("records", kept, "--add", "-", "-o", str(new))[0] == 0
    assert [one.words for one in load(new).records[4:]] == ["", "früh"]
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"note: \xff")))
    code, _, err = bedwright("records", kept, "--add", "-")
    assert (code, "no text" in err) == (2, True)


def test_where_a_line_is_not_understood_nothing_is_written(bedwright, kept, tmp_path, monkeypatch):
    new = tmp_path / "new.bedwright"
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"wobble\nnote: wet\nslugs in Nowhere\n")))
    code, out, err = bedwright("records", kept, "--add", "note: dry", "--add", "-", "-o", str(new))
    assert (code, out) == (2, "")
    faults = err.splitlines()
    assert [line.split(":")[1].strip() for line in faults[:2]] == ["line 2", "line 4"]
    assert "'wobble' is not understood" in faults[0]
    assert faults[2] == "bedwright: 2 lines were not understood; nothing is written."
    assert not new.exists()


def test_what_a_line_means_may_hang_on_the_lines_before(bedwright, kept, tmp_path):
    """Work ticked off twice gets the day of the later line, as in the window."""
    new = str(tmp_path / "new.bedwright")
    first, second = (f"thinned cabbage in North on {day} July 2025" for day in (8, 9))
    code, _, err = bedwright("records", kept, "--add", first, "--add", second, "-o", new)
    assert (code, err) == (0, "")
    assert [one.day.isoformat() for one in load(new).records if one.kind == "done"] == ["2025-07-09"]


def test_several_lines_stand_behind_one_option(bedwright, kept, tmp_path):
    new = str(tmp_path / "new.bedwright")
    lines = ("slugs in North on 3 May 2026", "note: first swallow")
    assert bedwright("records", kept, "--add", *lines, "--add", "note: dry", "-o", new)[0] == 0
    assert [one.words for one in load(new).records[4:]] == ["", "first swallow", "dry"]


def test_a_slip_of_the_pen_is_written_only_when_it_is_sure(bedwright, refused, kept, tmp_path):
    new = tmp_path / "new.bedwright"
    line = "picked 600 kg cabbage in North on 3 Sept 2025"
    code, out, err = bedwright("records", kept, "--add", line)
    assert code == 0
    assert "line 1: 600 kg is " in err
    assert "times what is expected of it: a slip of the pen?" in err
    assert out.startswith("1 record:")
    code, _, err = bedwright("records", kept, "--add", line, "-o", str(new))
    assert code == 2
    assert "1 line may be a slip of the pen; nothing is written" in err
    assert not new.exists()
    assert bedwright("records", kept, "--add", line, "-o", str(new), "--sure")[0] == 0
    assert load(new).records[-1].amount.value == 600_000
    assert "--sure goes with --add" in refused("records", kept, "--sure")


def test_a_part_never_ends_the_whole_planting(bedwright, kept, tmp_path):
    new = tmp_path / "new.bedwright"
    code, _, err = bedwright(
        "records", kept, "--add", "a few cabbages in North died on 3 July 2025", "-o", str(new)
    )
    assert code == 2
    assert "'a few cabbages': how much of it?" in err
    assert not new.exists()
    lost = "half the cabbages in North died on 3 July 2025"
    assert bedwright("records", kept, "--add", lost, "-o", str(new))[0] == 0
    assert (load(new).records[-1].kind, load(new).records[-1].lost) == ("seen", 0.5)


def test_notes_whose_records_were_removed_are_taken_only_when_asked_for(bedwright, kept, notes, tmp_path):
    new, less, more = (str(tmp_path / f"{name}.bedwright") for name in ("new", "less", "more"))
    assert bedwright("records", kept, "--take", notes, "-o", new)[0] == 1
    taken = load(new)
    save(e.remove_records(taken, [taken.records[-1].id]), less)
    out = bedwright("records", less, "--take", notes, "-o", more)[1]
    assert "0 new notes, 1 removed here since and 1 in conflict" in out
    assert f"{more} is not written" in out
    assert bedwright("records", less, "--take", notes, "--again", "-o", more)[1].endswith("all that is new\n")
    assert load(more).records == taken.records
