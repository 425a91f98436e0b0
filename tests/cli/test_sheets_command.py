"""bedwright sheets: which beds and weeks are written, and what is refused."""

from __future__ import annotations

import datetime as dt
import sys
import types
from typing import Any

import pytest


@pytest.fixture
def written(monkeypatch):
    """Takes the place of the writer of bed sheets and records what it is to write."""
    calls: list[dict[str, Any]] = []

    def write_bed_sheets(plan, path, beds=None, paper="a4", today=None, *, tint=False):
        calls.append(
            {"year": plan.year, "path": path, "beds": beds, "paper": paper, "today": today, "tint": tint}
        )

    module = types.ModuleType("planner.sheets.bed_sheets")
    module.write_bed_sheets = write_bed_sheets  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "planner.sheets.bed_sheets", module)
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
    assert "--paper" in refused("sheets", file, "-o", "x.pdf", "--paper", "a3")


def test_sheets_where_nothing_can_be_written(refused, file, tmp_path):
    out = str(tmp_path / "no" / "x.pdf")
    assert out in refused("sheets", file, "-o", out, "--year", "2023")


def test_sheets_are_a_pdf(bedwright, file, tmp_path):
    out = tmp_path / "x.pdf"
    assert bedwright("sheets", file, "-o", str(out), "--bed", "North")[0] == 0
    assert out.read_bytes().startswith(b"%PDF-")
