"""--csv and --xlsx of all commands, read by pandas and openpyxl, against the JSON of the same command."""

from __future__ import annotations

import io
import json

import openpyxl
import pandas
import pytest
from sample_reading import FOLDER

BALCONY = str(FOLDER / "balcony_boxes.bedwright")
#: Command lines, and the records of their JSON.
TABLES = {
    "tasks": (["tasks", BALCONY], lambda found: found["tasks"]),
    "check": (
        ["check", str(FOLDER / "wattle_bank.bedwright"), "--no-light"],
        lambda found: found["findings"],
    ),
    "sun": (
        ["sun", BALCONY, "--date", "2026-06-21", "--span", "2026-05-01", "2026-07-31"],
        lambda found: [*found["beds"], *found["plantings"]],
    ),
    "crops": (["crops", "bean"], lambda found: [f for c in found["crops"] for f in c["figures"].values()]),
    "coverage": (
        ["crops", "--coverage"],
        lambda found: [f for c in found["by_crop"].values() for f in c["provenance"].items()],
    ),
}


@pytest.mark.parametrize("name", TABLES)
def test_a_table_has_a_line_for_each_record(bedwright, name):
    arguments, records = TABLES[name]
    code, text, _ = bedwright(*arguments, "--csv", "-")
    wanted = records(json.loads(bedwright(*arguments, "--json")[1]))
    assert code in (0, 1)
    table = pandas.read_csv(io.StringIO(text), dtype=str, keep_default_na=False)
    assert len(table) == len(wanted) > 2
    if name in ("tasks", "check", "sun"):
        for column in set(table.columns) & set(wanted[0]):
            plain = [one.get(column) for one in wanted]
            cells = [value for value in plain if isinstance(value, str)]
            assert [
                cell for cell, value in zip(table[column], plain, strict=True) if isinstance(value, str)
            ] == cells


@pytest.mark.parametrize("name", TABLES)
def test_a_byte_order_mark_is_there_by_choice(bedwright, tmp_path, name):
    arguments, _ = TABLES[name]
    out = tmp_path / "table.csv"
    bedwright(*arguments, "--csv", str(out))
    plain = out.read_bytes()
    bedwright(*arguments, "--csv", str(out), "--bom")  # over its older self
    assert out.read_bytes() == b"\xef\xbb\xbf" + plain
    bedwright(*arguments, "--csv", str(out))
    assert out.read_bytes() == plain


@pytest.mark.parametrize("arguments", [["tasks", BALCONY], ["check", BALCONY], ["crops"], ["amounts", BALCONY], ["sun", BALCONY, "--date", "1 Jul"]])  # fmt: skip
def test_a_mark_without_a_table_is_refused(refused, arguments):
    assert "--bom goes with --csv" in refused(*arguments, "--bom")


def test_amounts_take_a_mark_too(bedwright):
    assert bedwright("amounts", BALCONY, "--csv", "-", "--bom")[1].startswith("\ufeff")
    assert bedwright("amounts", BALCONY, "--what", "store", "--csv", "-", "--bom")[1].startswith("\ufeff")


def test_one_kind_of_output_at_a_time(refused):
    assert "not allowed with argument" in refused("check", BALCONY, "--json", "--csv", "-")


@pytest.mark.parametrize("name", TABLES)
def test_a_workbook_holds_the_same_with_days_as_days(bedwright, tmp_path, name):
    arguments, _ = TABLES[name]
    text = bedwright(*arguments, "--csv", "-")[1]
    out = tmp_path / "table.xlsx"
    for _ in range(2):
        assert bedwright(*arguments, "--xlsx", str(out))[0] in (0, 1)
    table = pandas.read_csv(io.StringIO(text), dtype=str, keep_default_na=False)
    sheet = openpyxl.load_workbook(out).active
    assert [cell.value for cell in sheet[1]] == list(table.columns)
    assert sheet.max_row == len(table) + 1
    if "first" in table.columns:
        column = list(table.columns).index("first")
        days = [row[column].value for row in sheet.iter_rows(min_row=2)]
        assert [day.date().isoformat() if day else "" for day in days] == list(table["first"])
