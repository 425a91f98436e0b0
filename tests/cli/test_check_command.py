"""bedwright check: lines, JSON and exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner import resources
from planner.checks import check_all
from planner.cli import main
from planner.garden import Bed, Garden, Planting, Rectangle
from planner.garden import edits as e
from planner.plan import Plan
from planner.storage import save


@pytest.fixture
def taken_twice(tmp_path: Path) -> Path:
    """A file of a garden in which two plantings take the same ground."""
    ground = Bed(id="b1", name="North", outline=Rectangle(length=4.8, width=1.2))
    two = tuple(Planting(id=f"p{i}", bed="b1", crop="lettuce", year=2026, start="raised") for i in (1, 2))
    path = tmp_path / "g.bedwright"
    save(Garden(beds=(ground,), plantings=two), path)
    return path


def test_sample_without_a_stop_exits_with_0(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(resources.sample_folder() / "hollow_lane.bedwright")]) == 0
    out = capsys.readouterr().out
    assert "growing year 2026" in out
    assert "rotation: Tomato" in out


def test_stop_exits_with_1_until_it_is_waived(taken_twice: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(taken_twice)]) == 1
    assert "both take" in capsys.readouterr().out
    from planner.storage import load

    garden = load(taken_twice)
    for one in check_all(Plan(garden, 2026)):
        garden = e.waive(garden, one.key, "sown on purpose")
    save(garden, taken_twice)
    assert main(["check", str(taken_twice)]) == 0
    assert "accepted (1)" in capsys.readouterr().out


def test_json_has_all_fields_of_each_finding(taken_twice: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(taken_twice), "--json"]) == 1
    (record,) = json.loads(capsys.readouterr().out)["findings"]
    assert record["beds"] == ["North"]
    assert record["severity"] == "stop"
    assert record["mends"]
    assert record["accepted"] is None


def test_year_and_lore_are_taken(capsys: pytest.CaptureFixture[str]) -> None:
    path = str(resources.sample_folder() / "hollow_lane.bedwright")
    assert main(["check", path, "--year", "2025", "--json"]) == 0
    plain = json.loads(capsys.readouterr().out)["findings"]
    assert main(["check", path, "--year", "2025", "--json", "--hearsay"]) == 0
    lore = json.loads(capsys.readouterr().out)["findings"]
    assert len(lore) > len(plain) > 0
    assert all(record["first"] < "2026-01-01" for record in plain)


def test_garden_without_findings_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "empty.bedwright"
    save(Garden(), path)
    assert main(["check", str(path)]) == 0
    assert "Garden: nothing is planted in " in capsys.readouterr().out
