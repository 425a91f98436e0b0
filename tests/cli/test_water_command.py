"""bedwright water: need by bed, a week, a drought year, a tank, tables and what is refused."""

from __future__ import annotations

import csv
import io
import json

import pytest
from making import bed, planting, rectangle
from plan.test_water import grown

from planner.garden import Climate
from planner.plan import Plan
from planner.plan.water import garden_water
from planner.storage import save


@pytest.fixture(scope="module")
def plot():
    first, second = (
        bed("a", name="North", outline=rectangle(4.8, 1.2), drip_lines=True),
        bed("b", name="South", outline=rectangle(4.8, 1.2, center=(0.0, 4.0))),
    )
    return grown(
        first,
        second,
        plantings=(
            planting("p1", crop="cabbage", bed="a", year=2026, start="raised"),
            planting("p2", crop="lettuce", bed="b", year=2026),
        ),
    )


@pytest.fixture
def watered(plot, tmp_path):
    path = tmp_path / "watered.bedwright"
    save(plot, path)
    return str(path)


def test_the_year_is_told_by_bed_with_a_tank_and_drip_lines(bedwright, watered):
    code, out, _ = bedwright("water", watered, "--year", "2026")
    assert code == 0
    assert "From 30 recorded years, 1995 to 2024." in out
    for words in ("North", "South", "dry year", "eight years of ten need less", "Tank:", "Zone 1: North;"):
        assert words in out


def test_a_week_is_told_bed_by_bed(bedwright, watered):
    code, out, _ = bedwright("water", watered, "--year", "2026", "--week", "2026-07-08", "--bed", "North")
    assert code == 0
    assert out.startswith("6 – 12 Jul: ")
    assert "drip lines" in out
    assert "South" not in out
    assert "As in the median of the recorded years" in out


def test_a_week_of_the_drought_year_is_that_of_its_recorded_weather(bedwright, watered, plot):
    water = garden_water(Plan(plot, 2026))
    assert water is not None
    year = water.weather.years[water.drought]
    code, out, _ = bedwright("water", watered, "--year", "2026", "--week", "2026-07-08", "--drought")
    assert code == 0
    assert f"As in {year}, by its recorded weather." in out


def test_the_report_and_the_table_give_the_same_weeks(bedwright, watered):
    report = json.loads(bedwright("water", watered, "--year", "2026", "--json")[1])
    table = list(csv.DictReader(io.StringIO(bedwright("water", watered, "--year", "2026", "--csv", "-")[1])))
    of_report = sum(week["need_l"] for week in report["weeks"])
    assert of_report > 0
    assert sum(float(row["need_l"]) for row in table) == pytest.approx(of_report)


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--tank", "3"), "--tank 3.0 is no volume of a tank"),
        (("--drought",), "--drought goes with --week"),
        (("--bed", "Nroth"), "there is no bed 'Nroth'"),
    ],
)
def test_what_is_wrong_is_refused_in_one_line(refused, watered, options, said):
    assert said in refused("water", watered, "--year", "2026", *options)


def test_without_a_climate_nothing_is_told(refused, plot, tmp_path):
    path = tmp_path / "unknown.bedwright"
    save(grown(*plot.beds, plantings=plot.plantings, weather=False, climate=Climate()), path)
    assert "nothing is known of the climate" in refused("water", str(path), "--year", "2026")


def test_watering_stands_among_the_work_of_a_week(bedwright, watered):
    asked = ("--year", "2026", "--from", "2026-07-06", "--to", "2026-07-12")
    out = bedwright("tasks", watered, *asked)[1]
    (line,) = [line for line in out.splitlines() if line.startswith("  Water, ")]
    assert "North" in line
    assert "South" in line
    of_south = bedwright("tasks", watered, *asked, "--bed", "South")[1]
    assert "South" in of_south
    assert "North" not in of_south


def test_a_garden_without_daily_weather_lists_no_watering(bedwright, file):
    assert "Water, " not in bedwright("tasks", file, "--year", "2025")[1]
