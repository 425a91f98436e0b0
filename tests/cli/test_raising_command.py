"""bedwright amounts --what raising: text, JSON and CSV, with and without benches."""

from __future__ import annotations

import csv
import io
import json
import math

import pytest
from making import bed, garden, planting
from sample_reading import FOLDER

from planner.garden import Climate, FrostDates, Site
from planner.garden import edits as e
from planner.garden.volumes import show_volume
from planner.listings.reports.raising import RAISING_COLUMNS
from planner.storage import load, save

CLIMATE = Climate(last_frost=FrostDates(risk_50="05-01"), first_frost=FrostDates(risk_50="10-15"))
SAMPLE = str(FOLDER / "hollow_lane.bedwright")


def document(**site: object):
    one = planting(
        crop="cabbage", start="raised", first="2026-05-01", arrangement={"kind": "places", "points": [(0.1 * i, 0) for i in range(20)]},
        raising={"way": "pots", "width": 0.09},
    )  # fmt: skip
    two = planting("p2", crop="leek", start="raised", raising={"way": "nursery bed"})
    start = garden(bed(name="North"), one, two, climate=CLIMATE, site=Site(name="Plot", **site))
    return e.put_bench(start, kind="cool", name="Sill", length=1.2, width=0.3)[0]


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "g.bedwright"
    save(document(), path)
    return str(path)


def test_raising_as_text(bedwright, file):
    code, out, err = bedwright("amounts", file, "--what", "raising")
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "Plot, growing year 2026"
    filled = next(line for line in lines if line.split()[:2] == ["North", "cabbage"])
    number, part = filled.split()[5], filled.split()[10]
    assert float(part) == pytest.approx(int(number) / 15, abs=0.005)
    trays = math.ceil(int(number) / 15)
    assert any("leek for North" in line and "of nursery bed" in line for line in lines)
    assert "  Sill (cool, 1.20 m × 0.30 m): 2 trays." in lines
    assert any("Sill is too small from" in line for line in lines) is (trays > 2)
    where = next(line for line in lines if line.startswith("  North, cabbage: Sill "))
    assert "in the open 23 – 30 Apr" in where, "hardened off where there is no cold frame"
    assert any(line.startswith("  Volumes after") and "from memory" in line for line in lines)


def test_raising_as_json_and_csv_say_the_same(bedwright, file, tmp_path):
    found = json.loads(bedwright("amounts", file, "--what", "raising", "--json")[1])
    cabbage, leek = found["plantings"]
    assert (cabbage["way"], cabbage["way_entered"], leek["way"], leek["fills"]) == (
        "pots",
        True,
        "nursery bed",
        [],
    )
    assert leek["nursery_area_m2"] > 0
    assert found["mix_l"] == pytest.approx(sum(total["mix_l"] for total in found["totals"]), abs=0.002)
    assert found["loose_mix_l"] == pytest.approx(1.15 * found["mix_l"], abs=0.01)
    assert {there["bench"] for there in cabbage["on_bench"]} == {"Sill", ""}
    assert found["benches"][0]["capacity"] == 2
    assert all(week["capacity"] == 2 for week in found["weeks"])
    target = tmp_path / "t.csv"
    assert bedwright("amounts", file, "--what", "raising", "--csv", str(target))[0] == 0
    rows = list(csv.DictReader(io.StringIO(target.read_bytes().decode())))
    assert tuple(rows[0]) == RAISING_COLUMNS
    fill = cabbage["fills"][0]
    assert [int(rows[0][name]) for name in ("number", "trays", "left_over")] == [
        fill["number"], fill["trays"], fill["left_over"],
    ]  # fmt: skip


def test_a_garden_without_benches_learns_what_they_would_hold(bedwright, tmp_path):
    path = tmp_path / "g.bedwright"
    save(e.remove_bench(document(), "t1"), path)
    out = bedwright("amounts", str(path), "--what", "raising")[1]
    assert "No benches are entered; what they would have to hold:" in out
    found = json.loads(bedwright("amounts", str(path), "--what", "raising", "--json")[1])
    assert found["benches"] == []
    assert {week["bench_kind"] for week in found["weeks"]} == {"heated", "cool", "cold frame"}
    assert all(week["capacity"] is None and week["free_m2"] is None for week in found["weeks"])


def test_feet_gardens_get_quarts_inches_and_feet(bedwright, tmp_path):
    path = tmp_path / "g.bedwright"
    save(document(units="feet_inches"), path)
    out = bedwright("amounts", str(path), "--what", "raising")[1]
    assert " qt" in out
    assert "pots of 3 1/2 in" in out
    assert "sq ft" in out
    assert " l\n" not in out
    # POTS_DEALER: 2.8 quarts are 2.65 litres
    assert show_volume(2.65, "feet_inches") == "2.8 qt"


def test_nothing_raised_is_told(bedwright, tmp_path):
    path = tmp_path / "g.bedwright"
    save(garden(bed(), planting()), path)
    code, out, _ = bedwright("amounts", str(path), "--what", "raising")
    assert (code, out.splitlines()[-1]) == (0, "Nothing is raised in 2026.")


def test_what_is_not_known_is_refused_in_a_line(bedwright, file):
    code, _, err = bedwright("amounts", file, "--what", "lorries")
    assert code == 2
    assert err.count("\n") == 1
    assert "raising" in err


def test_the_plants_are_listed_where_nothing_else_is_asked(bedwright):
    assert bedwright("amounts", SAMPLE)[1] == bedwright("amounts", SAMPLE, "--what", "plants")[1]
    assert load(FOLDER / "hollow_lane.bedwright").years()
