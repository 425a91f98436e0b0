"""Exports named on a command line never replace a garden or anything else that is no such export."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pikepdf
import pytest

from planner import resources
from planner.cli import command_line

SAMPLE = resources.sample_folder() / "balcony_boxes.bedwright"
EXPORTS = {
    "sheets": ("-o", ".pdf"),
    "amounts": ("--csv", ".csv"),
    "tasks": ("--ics", ".ics"),
}


@pytest.mark.parametrize("command", EXPORTS)
def test_another_garden_is_not_replaced(command: str, tmp_path: Path, refused) -> None:
    option, suffix = EXPORTS[command]
    other = tmp_path / "b.bedwright"
    other.write_bytes(SAMPLE.read_bytes())
    line = refused(command, str(SAMPLE), option, str(other))
    assert f"ends with {suffix}" in line
    assert f"Name it b{suffix}" in line
    assert other.read_bytes() == SAMPLE.read_bytes()
    disguised = other.rename(tmp_path / f"b{suffix}")
    assert "another kind" in refused(command, str(SAMPLE), option, str(disguised))
    assert disguised.read_bytes() == SAMPLE.read_bytes()


@pytest.mark.parametrize("command", EXPORTS)
def test_an_export_replaces_its_older_self(command: str, tmp_path: Path, bedwright) -> None:
    option, suffix = EXPORTS[command]
    target = tmp_path / f"year{suffix}"
    for _ in range(2):
        assert bedwright(command, str(SAMPLE), option, str(target))[0] == 0
    assert target.stat().st_size > 100


def test_sheets_go_to_standard_output(tmp_path: Path, capfdbinary) -> None:
    assert command_line.main(["sheets", str(SAMPLE), "--repeatable", "-o", "-"]) == 0
    shown = capfdbinary.readouterr().out
    assert shown.startswith(b"%PDF-")
    command_line.main(["sheets", str(SAMPLE), "--repeatable", "-o", str(tmp_path / "x.pdf")])
    assert (tmp_path / "x.pdf").read_bytes() == shown


@pytest.mark.parametrize("words", [["sheets", "--kind", "shopping"], ["draw"]])
def test_a_pdf_says_when_it_was_made_unless_it_is_to_be_repeatable(
    words: list[str], tmp_path: Path, bedwright
) -> None:
    command, *options = words
    told, kept = tmp_path / "told.pdf", tmp_path / "kept.pdf"
    before = dt.datetime.now().astimezone().replace(microsecond=0)
    assert bedwright(command, str(SAMPLE), *options, "-o", str(told))[0] == 0
    assert bedwright(command, str(SAMPLE), *options, "-o", str(kept), "--repeatable")[0] == 0
    with pikepdf.open(told) as pdf:
        made = dt.datetime.fromisoformat(pdf.open_metadata()["xmp:CreateDate"])
        assert before <= made <= dt.datetime.now().astimezone()
        assert str(pdf.docinfo.CreationDate).startswith(f"D:{made:%Y%m%d%H%M%S}")
    with pikepdf.open(kept) as pdf:
        assert "/CreationDate" not in pdf.docinfo


def test_only_a_pdf_can_be_made_repeatable(tmp_path: Path, refused) -> None:
    assert "--repeatable goes with a PDF" in refused(
        "draw", str(SAMPLE), "-o", str(tmp_path / "x.svg"), "--repeatable"
    )
