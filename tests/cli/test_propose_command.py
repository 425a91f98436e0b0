"""``bedwright propose``: layouts written and told, gaps filled, and what is asked wrongly."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from making import bed, garden, planting, rectangle

from planner.cli import main
from planner.garden import Climate, FrostDates, Household, Site, Wish
from planner.garden.household import Eaten
from planner.listings.reports.schemas import report_schema
from planner.plan import Plan
from planner.storage import load, save

CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
BEDS = [bed(f"b{n}", rectangle(3.0, 1.2, center=(0.0, 2.0 * n)), name=f"Bed {n}") for n in range(3)]
PAST = (planting("p1", "b0", crop="parsnip", year=2025), planting("p2", "b1", crop="lettuce", year=2026))
WISHES = (
    Wish(id="w1", year=2027, crop="carrot", amount=100),
    Wish(id="w2", year=2027, crop="cabbage", amount=9, importance="must"),
    Wish(id="w3", year=2027, crop="potato", amount=500, importance="could"),
)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return written(tmp_path, wishes=WISHES)


def written(folder: Path, **fields: Any) -> Path:
    there = garden(*BEDS, *PAST, site=Site(latitude=54.0, longitude=-2.0), climate=CLIMATE, **fields)
    save(there, folder / "garden.bedwright")
    return folder / "garden.bedwright"


def test_a_layout_is_told_and_written(file: Path, capsys: pytest.CaptureFixture[str]):
    new = file.with_name("new.bedwright")
    assert main(["propose", str(file), "-o", str(new), "--effort", "1"]) == 0
    out = capsys.readouterr().out
    assert "Layout of 2027: 2 of 3 wishes are met" in out
    assert "The checks find nothing that stops a planting" in out
    assert "None of these beds has room for all of it" in out
    after = load(new)
    assert {one.wish for one in after.plantings if one.year == 2027} == {"w1", "w2"}
    assert after.plantings[:2] == load(file).plantings[:2]
    carrot = next(one for one in after.plantings if one.wish == "w1")
    assert carrot.bed != "b0"  # parsnips stood there until 2026
    assert Plan(after, 2027).placed(carrot).plants >= 100


def test_the_report_keeps_to_its_schema_and_says_the_same(file: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["propose", str(file), "--effort", "1", "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    jsonschema.validate(report, report_schema("propose"))
    assert {one["wish_id"] for one in report["placed"]} == {"w1", "w2"}
    assert [(one["wish_id"], one["importance"]) for one in report["unmet"]] == [("w3", "could")]
    assert all(one["why"] for one in report["placed"])


def test_wishes_are_made_of_plantings(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    file, new = written(tmp_path), tmp_path / "new.bedwright"
    assert main(["propose", str(file), "--wishes", "plantings", "-o", str(new), "--effort", "1"]) == 0
    assert "Layout of 2027" in capsys.readouterr().out
    assert [(one.year, one.crop, one.like) for one in load(new).wishes] == [(2027, "lettuce", "p2")]


def test_wishes_are_made_of_what_is_eaten(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    household = Household(persons=2, eats=(Eaten(crop="carrot", kilograms=4),))
    file = written(tmp_path, household=household)
    assert main(["propose", str(file), "--year", "2027", "--wishes", "household", "--effort", "1"]) == 0
    assert "carrot" in capsys.readouterr().out
    assert main(["propose", str(written(tmp_path)), "--year", "2027", "--wishes", "household"]) == 2
    assert "the household does not say how many eat" in capsys.readouterr().err


def test_a_garden_without_wishes_says_where_they_come_from(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    assert main(["propose", str(written(tmp_path))]) == 2
    error = capsys.readouterr().err
    assert "has no wishes for 2026" in error
    assert "--wishes plantings" in error


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--effort", "x"], "no whole number"),
        (["--seconds", "-1"], "no number of seconds"),
        (["--effort", "1", "--seconds", "1"], "either by --effort or by --seconds"),
        (["--bed", "Nowhere"], "there is no bed 'Nowhere'"),
    ],
)
def test_what_is_asked_wrongly_is_one_line(
    file: Path, capsys: pytest.CaptureFixture[str], options: list[str], words: str
):
    try:
        code = main(["propose", str(file), *options])
    except SystemExit as end:
        code = int(end.code or 0)
    assert code == 2
    assert words in capsys.readouterr().err


def test_a_file_that_is_there_is_not_written_over(file: Path, capsys: pytest.CaptureFixture[str]):
    before = file.read_bytes()
    assert main(["propose", str(file), "-o", str(file)]) == 2
    assert file.read_bytes() == before
    assert "is there already and is not overwritten" in capsys.readouterr().err


def test_gaps_are_filled(file: Path, capsys: pytest.CaptureFixture[str]):
    assert main(["propose", str(file), "--year", "2027", "--fill", "20 Jul", "--bed", "Bed 2"]) == 0
    out = capsys.readouterr().out
    assert "What could still go in from 20 Jul 2027 on" in out
    assert "grown here before" in out
    assert main(["propose", str(file), "--year", "2027", "--fill", "20 Jul", "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    jsonschema.validate(report, report_schema("filling"))
    assert [one["bed"] for one in report["beds"]] == ["Bed 0", "Bed 1", "Bed 2"]
    assert all(one["on_plot"] >= "2027-07-20" for there in report["beds"] for one in there["fillings"])


def test_other_layouts_and_what_forbids_are_told(file: Path, capsys: pytest.CaptureFixture[str]):
    tight = tuple(
        Wish(id=f"w{n}", year=2027, crop=crop, amount=2.5, unit="m2")
        for n, crop in enumerate(("pea", "onion", "leek", "beetroot"))
    )
    path = written(file.parent, wishes=tight)
    assert main(["propose", str(path), "--effort", "1", "--unlike", "2", "--forbids", "--no-reasons"]) == 0
    out = capsys.readouterr().out
    assert "Another layout, 1, costs" in out
    assert "as long as all of these hold there is no place for it" in out
    assert "the place of" in out
