"""Tables: CSV that no spreadsheet computes, and columns in line."""

from __future__ import annotations

import csv
import io

import pytest

from planner.importing.stock_cells import unguarded
from planner.listings.formulas import FORMULA_SIGNS, safe_text
from planner.listings.tables import aligned, csv_text, width


def test_csv_is_rfc_4180():
    text = csv_text([{"a": 'say "x"', "b": 1.5}, {"a": "one, two", "b": None}], ["a", "b"])
    assert text == 'a,b\r\n"say ""x""",1.5\r\n"one, two",\r\n'
    assert list(csv.reader(io.StringIO(text))) == [["a", "b"], ['say "x"', "1.5"], ["one, two", ""]]


def test_csv_of_nothing_has_its_header():
    assert csv_text([], ["a", "b"]) == "a,b\r\n"


def test_lists_share_a_cell():
    assert csv_text([{"a": ["x", "y"]}], ["a"]) == "a\r\nx; y\r\n"


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "  =1", "\rx", "＝1", "|x", "%x"])
def test_formulas_become_text(text):
    assert safe_text(text) == "'" + text
    assert csv_text([{"a": [text]}], ["a"]).split("\r\n", 1)[1].lstrip('"').startswith("'")


@pytest.mark.parametrize(
    "text", ["\t=1", "x;=1+1", "x; +1", "x\t@A1", "a\n-1", "x;'=1", "=1;=2", ";\n=1", "x;''+1"]
)
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_no_delimiter_makes_a_formula_of_a_part_and_all_is_read_back(text, delimiter):
    written = csv_text([{"a": text, "b": "end"}], ["a", "b"])
    cells = [cell for row in csv.reader(io.StringIO(written), delimiter=delimiter) for cell in row]
    assert not [cell for cell in cells if cell.lstrip(' "').startswith(FORMULA_SIGNS)]
    (row,) = csv.DictReader(io.StringIO(written))
    assert unguarded(row["a"]) == text


@pytest.mark.parametrize("text", ["carrot", "1", "Bed =1", "", "'quoted"])
def test_other_text_stays(text):
    assert safe_text(text) == text


def test_numbers_stay_numbers():
    assert csv_text([{"a": -1.5}], ["a"]) == "a\r\n-1.5\r\n"


@pytest.mark.parametrize(
    ("text", "columns"),
    [("abc", 3), ("é", 1), ("e\u0301", 1), ("畑", 2), ("Ａ", 2), ("ערוגה", 5), ("\u202e", 0)],
)
def test_width_on_a_terminal(text, columns):
    assert width(text) == columns


def test_columns_are_in_line():
    lines = aligned(("name", "n"), [("a", "1"), ("畑畑畑", "10")], right={1}, indent="")
    assert lines == ["name     n", "a        1", "畑畑畑  10"]
