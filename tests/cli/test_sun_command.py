"""Hours of direct sun on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from planner import resources, storage
from planner.cli import main
from planner.garden import Bed, Garden, Rectangle, Site, Structure

LONG, NORTH = {"length": 20.0, "width": 0.2}, 40.0


def _garden(tmp_path: Path, **site: object) -> Path:
    """A long east-west wall with a bed on either side, close to it."""
    beds = tuple(
        Bed(id=name, name=name, outline=Rectangle(center=(0.0, y), length=2.0, width=0.5))
        for name, y in (("north", 0.5), ("south", -0.5))
    )
    wall = Structure(id="w", kind="wall", outline=Rectangle(**LONG), height=2.0)
    file = tmp_path / "wall.bedwright"
    storage.save(
        Garden(site=Site(**{"latitude": NORTH, "longitude": 0.0, **site}), beds=beds, structures=(wall,)),
        file,
    )
    return file


def _hours(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, float]:
    assert main(["sun", *arguments, "--json"]) == 0
    return {row["bed"]: row["mean_h"] for row in json.loads(capsys.readouterr().out)["beds"]}


@pytest.mark.parametrize(("latitude", "dark"), [(40.0, "north"), (-40.0, "south")])
def test_a_wall_shades_the_side_away_from_the_sun(tmp_path, capsys, latitude, dark):
    file = _garden(tmp_path, latitude=latitude)
    hours = _hours(capsys, str(file), "--date", "2026-03-20")
    light = {"north": "south", "south": "north"}[dark]
    # At the equinox the sun is on the equator's side of an east-west wall all day.
    assert hours[dark] == pytest.approx(0.0, abs=0.3)
    assert hours[light] > 11


def test_beds_are_chosen_by_name_and_plantings_come_with_a_span(capsys):
    file = str(resources.sample_folder() / "hollow_lane.bedwright")
    arguments = ["--date", "2026-07-15", "--bed", "West 1", "--span", "2026-05-01", "2026-09-30", "--json"]
    assert main(["sun", file, *arguments]) == 0
    found = json.loads(capsys.readouterr().out)
    rows = [*found["beds"], *found["plantings"]]
    assert {row["bed"] for row in rows} == {"West 1"}
    assert {"potato"} <= {row.get("crop") for row in rows}
    for row in rows:
        assert row["least_h"] <= row["mean_h"] <= row["most_h"] <= row["unshaded_h"] + 0.01


def test_a_day_without_a_year_is_of_the_growing_year(tmp_path, capsys):
    file = str(_garden(tmp_path, first_month=10))
    assert main(["sun", file, "--year", "2026", "--date", "2027-03-20"]) == 0
    whole = capsys.readouterr().out
    assert main(["sun", file, "--year", "2026", "--date", "20 Mar"]) == 0
    assert capsys.readouterr().out == whole


def test_text_says_when_the_sun_rises(capsys):
    assert (
        main(["sun", str(resources.sample_folder() / "hollow_lane.bedwright"), "--date", "2026-06-21"]) == 0
    )
    assert "sunrise 04:" in capsys.readouterr().out


def test_without_a_latitude_it_says_how_to_give_it(tmp_path, capsys):
    file = _garden(tmp_path, latitude=None)
    assert main(["sun", str(file), "--date", "2026-06-21"]) == 2
    complaint = capsys.readouterr().err
    assert "latitude" in complaint
    assert complaint.count("\n") == 1


def test_a_polar_night_has_no_sun_and_a_polar_day_is_told(tmp_path, capsys):
    file = str(_garden(tmp_path, latitude=80.0))
    assert set(_hours(capsys, file, "--date", "2026-12-21").values()) == {0.0}
    assert main(["sun", file, "--date", "2026-06-21"]) == 0
    assert "does not set" in capsys.readouterr().out
