"""bedwright draw."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
from sample_reading import FOLDER

SAMPLE = str(FOLDER / "balcony_boxes.bedwright")


@pytest.mark.parametrize(("ending", "begins"), [("svg", b"<?xml"), ("png", b"\x89PNG"), ("PDF", b"%PDF-")])
def test_the_ending_says_what_is_written(bedwright, tmp_path, ending, begins):
    out = tmp_path / f"plan.{ending}"
    for _ in range(2):  # an older picture is replaced
        code, said, _ = bedwright("draw", SAMPLE, "-o", str(out), "--day", "21 Jun 2026", "--hour", "10:30")
        assert code == 0
        assert out.read_bytes().startswith(begins)
    assert said.endswith(
        "Balcony boxes. As it grows on 21 Jun 2026, with the shadows of 10:30. Black marks: stake. Scale 1 : 15.\n"
    )


def test_an_svg_goes_to_standard_output(bedwright):
    code, out, _ = bedwright("draw", SAMPLE, "-o", "-", "--bed", "pot")
    assert code == 0
    assert out.startswith("<?xml")
    assert out.rstrip().endswith("</svg>")


def test_days_and_years_are_those_of_the_garden(bedwright, tmp_path):
    out = str(tmp_path / "plan.svg")
    said = bedwright("draw", SAMPLE, "-o", out, "--day", "2024-01-02")[1]
    assert "As it grows on 2 Jan 2024" in said
    assert "nothing is planted in 2024" in said
    assert "As it grows on 4 Jul 2026" in bedwright("draw", SAMPLE, "-o", out, "--day", "4 Jul")[1]


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        (("-o", "plan.gif"), "neither .svg, .png, .pdf nor .geojson"),
        (("-o", "plan.svg", "--width", "500"), "--width goes with a PNG"),
        (("-o", "plan.png", "--width", "50"), "Give a width from 200 to 6000"),
        (("-o", "plan.png", "--hour", "24"), "is no hour"),
        (("-o", "plan.png", "--hour", "9:3x"), "is no hour"),
        (("-o", "plan.geojson", "--hour", "9"), "--hour goes with a picture"),
        (("-o", "plan.geojson", "--paper", "a4"), "--paper goes with a picture"),
        (("-o", "plan.geojson", "--width", "900"), "--width goes with a PNG"),
        (("-o", "plan.png", "--bed", "Pott"), "Did you mean 'Pot'?"),
        (("-o", "plan.png", "--day", "31 Feb"), "31"),
    ],
)
def test_what_cannot_be_drawn_is_told_in_a_line(refused, monkeypatch, tmp_path, arguments, line):
    monkeypatch.chdir(tmp_path)
    assert line in refused("draw", SAMPLE, *arguments)
    assert not list(tmp_path.iterdir())


def test_shadows_need_a_place(refused, file, tmp_path):
    line = refused("draw", file, "-o", str(tmp_path / "plan.svg"), "--hour", "12")
    assert "latitude" in line


def test_files_of_another_kind_are_left_alone(refused, file, tmp_path):
    out = tmp_path / "diary.png"
    out.write_text("Dear diary")
    assert "another kind" in refused("draw", SAMPLE, "-o", str(out))
    assert out.read_text() == "Dear diary"
    out = tmp_path / "icon.svg"
    out.write_text("<html>")
    assert "another kind" in refused("draw", SAMPLE, "-o", str(out))


def test_nothing_of_qt_is_needed(tmp_path):
    out = tmp_path / "plan.png"
    program = (
        "import sys; sys.modules['PySide6'] = None; from planner.cli import main;"
        f"sys.exit(main(['draw', {SAMPLE!r}, '-o', {str(out)!r}, '--hour', '12']))"
    )
    subprocess.run([sys.executable, "-c", program], check=True, cwd=FOLDER.parent, capture_output=True)
    assert out.read_bytes().startswith(b"\x89PNG")


def test_the_ground_is_written_at_its_place(bedwright, tmp_path):
    out = tmp_path / "plan.geojson"
    for _ in range(2):
        code, said, _ = bedwright(
            "draw", SAMPLE, "-o", str(out), "--bed", "Pot", "Box left", "--day", "30 Jun 2026"
        )
        assert code == 0
    features = json.loads(out.read_text("utf-8"))["features"]
    assert said == f"{out}: {len(features)} outlines, longitude and latitude on WGS 84\n"
    assert [one["properties"]["name"] for one in features if one["properties"]["thing"] == "bed"] == [
        "Box left",
        "Pot",
    ]
    crops = {one["properties"]["crop"] for one in features if one["properties"]["thing"] == "planting"}
    assert crops == {"lettuce", "radish", "tomato", "basil"}


def test_a_ground_without_a_place_is_told_in_a_line(refused, file, tmp_path):
    line = refused("draw", file, "-o", str(tmp_path / "plan.geojson"))
    assert line.endswith(
        "its place on the Earth is not known. Type latitude and longitude in the garden's details.\n"
    )
