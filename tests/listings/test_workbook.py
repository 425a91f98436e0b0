"""Workbooks, read back with another library."""

from __future__ import annotations

import datetime as dt
import io

import pytest
from openpyxl import load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from planner.listings.formulas import FORMULA_SIGNS
from planner.listings.workbook import LONGEST_TEXT, MOST_WIDTH, workbook_bytes

COLUMNS = ("what", "number", "day", "yes", "list")


def sheet_of(content: bytes) -> Worksheet:
    return load_workbook(io.BytesIO(content)).active


def read(value: object) -> object:
    """What another program finds in the cell of a value."""
    cell = sheet_of(workbook_bytes([{"a": value}], ("a",), "t"))["A2"]
    assert cell.data_type != "f"
    return cell.value


@pytest.mark.parametrize(
    "value", [0, 3, -2, 0.125, 1e9, True, False, "carrot", "Bed „1“ 🥕", "two\nlines", None]
)
def test_cells_are_what_they_were(value: object) -> None:
    found = read(value)
    assert found == value
    assert isinstance(found, bool) == isinstance(value, bool)


def test_days_are_days_and_texts_like_days_or_numbers_are_texts() -> None:
    content = workbook_bytes(
        [{"a": dt.date(2026, 4, 12), "b": "2026-04-12", "c": "007"}], ("a", "b", "c"), "t"
    )
    day, text, number = next(sheet_of(content).iter_rows(min_row=2))
    assert (day.value, day.is_date, day.number_format) == (dt.datetime(2026, 4, 12), True, "yyyy-mm-dd")
    assert (text.value, text.data_type) == ("2026-04-12", "s")
    assert (number.value, number.data_type) == ("007", "s")


def test_days_before_a_spreadsheet_knows_any_are_texts() -> None:
    assert read(dt.date(1812, 6, 1)) == "1812-06-01"


@pytest.mark.parametrize("sign", [*FORMULA_SIGNS, "{=", "http://a.b/?q=", "mailto:a@b.c", "internal:"])
def test_no_text_is_computed_or_becomes_a_link(sign: str) -> None:
    content = workbook_bytes([{"a": f"{sign}1+1"}], ("a",), f"{sign}1")
    cell = sheet_of(content)["A2"]
    assert (cell.value, cell.data_type, cell.hyperlink) == (f"{sign}1+1", "s", None)


def test_lists_are_joined_and_nothing_is_an_empty_cell() -> None:
    assert read(("a", "b")) == "a; b"
    assert read(()) is None
    assert read("") is None


def test_what_a_cell_cannot_hold_is_cut_and_what_no_file_can_hold_is_marked() -> None:
    assert read("x" * 40_000) == "x" * LONGEST_TEXT
    assert read("half a sign \ud83e") == "half a sign ?"


def test_the_head_is_frozen_with_filters_and_columns_are_as_wide_as_what_they_hold() -> None:
    rows = [{"a": "x" * 30, "b": "y" * 300, "c": 1}]
    sheet = sheet_of(workbook_bytes(rows, ("a", "b", "c"), "shopping"))
    assert sheet.title == "shopping"
    assert sheet.freeze_panes == "A2"
    assert sheet.auto_filter.ref == "A1:C2"
    assert [cell.value for cell in sheet[1]] == ["a", "b", "c"]
    assert all(cell.font.b for cell in sheet[1])
    widths = [sheet.column_dimensions[name].width for name in "ABC"]
    assert 30 < widths[0] < 34
    assert widths[1] == pytest.approx(MOST_WIDTH, abs=1)
    assert widths[2] < 12


def test_an_empty_table_has_its_head() -> None:
    sheet = sheet_of(workbook_bytes([], ("a", "b"), "t"))
    assert [cell.value for cell in sheet[1]] == ["a", "b"]
    assert sheet.max_row == 1


@pytest.mark.parametrize("name", ["", "[]", "'quoted'", "a" * 50, "history"])
def test_any_name_makes_a_sheet(name: str) -> None:
    assert len(sheet_of(workbook_bytes([], ("a",), name)).title) in range(1, 32)


def test_the_same_table_gives_the_same_bytes() -> None:
    rows = [{"a": 1, "b": dt.date(2026, 1, 1)}]
    assert workbook_bytes(rows, ("a", "b"), "t") == workbook_bytes(rows, ("a", "b"), "t")
