"""A folder of everything, each file read by a program that did not write it."""

from __future__ import annotations

import csv
import datetime as dt
import json
import xml.etree.ElementTree as ElementTree
import zipfile
from pathlib import Path

import jsonschema
import pypdfium2
import pytest

from planner.garden import Garden
from planner.listings.all_tables import TABLES, columns_of, table_of
from planner.listings.export_files import ExportError
from planner.listings.reports.schemas import report_schema
from planner.listings.tables import csv_text
from planner.plan import Plan
from planner.sheets.folder import FolderWish, write_folder
from planner.sheets.kinds import SHEET_KINDS
from planner.storage import load
from tests.sample_reading import sample

TODAY = dt.date(2026, 3, 1)
SHEETS = {
    f"{name}.pdf"
    for name in (
        "bed-sheets",
        "week-sheets",
        "year",
        "raising",
        "map",
        "walk",
        "watering",
        "shopping-list",
        "labels",
        "weather",
    )
}


@pytest.fixture(scope="module")
def plan() -> Plan:
    return Plan(load(sample("balcony_boxes")), 2026)


@pytest.fixture(scope="module")
def folder(plan, tmp_path_factory):
    """The folder of a small garden, what was told of it, and how far it was each time that was asked."""
    at = tmp_path_factory.mktemp("paper") / "all"
    steps: list[tuple[int, int]] = []
    files = write_folder(plan, at, FolderWish(), TODAY, lambda done, whole: steps.append((done, whole)))
    return at, files, steps


def test_no_cell_of_a_table_is_a_piece_of_program():
    """A garden that raises plants: every cell is one plain value, a list of texts at most."""
    raising = Plan(load(sample("hollow_lane")), 2026)
    for name in TABLES:
        table = table_of(raising, name)
        for line in csv.reader(csv_text(table.rows, table.columns).splitlines()):
            assert not [cell for cell in line if cell.lstrip().startswith(("{", "["))], name
    filled = [row for row in table_of(raising, "tasks").rows if row["container"]]
    assert sum(row["mix_l"] for row in filled) == pytest.approx(
        sum(row["mix_l"] for row in table_of(raising, "raising").rows), abs=0.1
    )


def test_every_kind_of_sheet_and_every_table_has_a_file_of_its_own(folder):
    at, files, steps = folder
    assert len(SHEETS) == len(SHEET_KINDS)
    names = [one.name for one in files]
    assert len(set(names)) == len(names)
    others = {"map-four-days.pdf", "tables.xlsx", "work.ics", "ground.geojson", "plan.svg", "pocket.html"}
    assert set(names) == SHEETS | others | {f"{name}.csv" for name in TABLES}
    assert {path.name for path in at.iterdir()} == {one.name for one in files if not one.why_not}
    assert [(one.name, one.why_not) for one in files if one.why_not] == [
        ("raising.pdf", "nothing is raised in 2026"),
        ("weather.pdf", "no years of weather are kept"),
    ]
    assert list(dict.fromkeys(steps)) == [(number, len(files)) for number in range(len(files) + 1)]


def test_each_file_is_what_its_name_says(folder, plan):
    at, _, _ = folder
    for path in at.glob("*.pdf"):
        with pypdfium2.PdfDocument(path) as document:
            assert len(document) >= 1
    for name in TABLES:
        with (at / f"{name}.csv").open(encoding="utf-8", newline="") as stream:
            rows = list(csv.reader(stream))
        table = table_of(plan, name)
        assert rows[0] == list(table.columns)
        assert len(rows) == 1 + len(table.rows)
    with zipfile.ZipFile(at / "tables.xlsx") as book:
        tree = ElementTree.fromstring(book.read("xl/workbook.xml"))
        assert [one.get("name") for one in tree.iter() if one.tag.endswith("}sheet")] == list(TABLES)
        for number, name in enumerate(TABLES, 1):
            sheet = ElementTree.fromstring(book.read(f"xl/worksheets/sheet{number}.xml"))
            assert sum(one.tag.endswith("}row") for one in sheet.iter()) == 1 + len(table_of(plan, name).rows)
    assert (at / "work.ics").read_text(encoding="utf-8").count("BEGIN:VEVENT") > 3
    jsonschema.validate(json.loads((at / "ground.geojson").read_text(encoding="utf-8")), report_schema("map"))
    assert ElementTree.parse(at / "plan.svg").getroot().tag.endswith("svg")


def test_a_second_time_older_files_are_written_anew(folder, plan):
    at, files, _ = folder
    before = {path.name: path.read_bytes() for path in at.iterdir()}
    (at / "notes.txt").write_text("mine", encoding="utf-8")
    (at / "plan.svg").write_text("<?xml version='1.0'?><svg/>", encoding="utf-8")
    assert write_folder(plan, at, FolderWish(), TODAY) == files
    for name, content in before.items():
        if name != "work.ics":  # its sequence number rises
            assert (at / name).read_bytes() == content, name
    assert (at / "notes.txt").read_text(encoding="utf-8") == "mine"


def test_a_file_of_another_kind_stays_and_nothing_is_written(plan, tmp_path: Path):
    (tmp_path / "store.csv").write_text("a diary", encoding="utf-8")
    with pytest.raises(ExportError, match="file of another kind"):
        write_folder(plan, tmp_path, FolderWish(), TODAY)
    assert [path.name for path in tmp_path.iterdir()] == ["store.csv"]
    assert (tmp_path / "store.csv").read_text(encoding="utf-8") == "a diary"


def test_a_file_is_no_folder(plan, tmp_path: Path):
    (tmp_path / "all").write_text("", encoding="utf-8")
    with pytest.raises(ExportError, match="is a file and no folder"):
        write_folder(plan, tmp_path / "all", FolderWish(), TODAY)


def test_an_empty_garden_has_its_tables_and_says_of_each_sheet_why_not(tmp_path: Path):
    files = write_folder(Plan(Garden(), 2026), tmp_path / "none", FolderWish("letter"), TODAY)
    missing = {one.name for one in files if one.why_not}
    assert SHEETS | {"plan.svg", "work.ics", "ground.geojson", "map-four-days.pdf", "pocket.html"} == missing
    assert all("\n" not in one.why_not for one in files)


def test_work_that_is_stopped_leaves_nothing(plan, tmp_path: Path):
    def stop(done: int, whole: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write_folder(plan, tmp_path / "all", FolderWish(), TODAY, stop)
    assert not (tmp_path / "all").exists()


def test_columns_are_known_without_working_a_table_out(plan) -> None:
    for name in TABLES:
        assert tuple(table_of(plan, name).columns) == tuple(columns_of(name))


def test_the_work_can_stop_before_each_finding() -> None:
    calls: list[int] = []

    def step() -> None:
        calls.append(1)
        if len(calls) == 3:
            raise InterruptedError

    with pytest.raises(InterruptedError):
        table_of(Plan(load(sample("hollow_lane")), 2026), "findings", step)
    assert len(calls) == 3
