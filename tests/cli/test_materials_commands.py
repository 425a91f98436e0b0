"""bedwright amounts --what covers, supports, ground: text, JSON, CSV, errors, units."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json

import pytest
from making import bed, garden, planting, rectangle
from sample_reading import FOLDER

from planner.garden import Climate, Dressing, FrostDates, Garden, ShedItem, Site
from planner.storage import save

#: The words of this file.
PARTS = ("covers", "supports", "ground")
HOLLOW = str(FOLDER / "hollow_lane.bedwright")


def plot(**site: object) -> Garden:
    return garden(
        bed("b1", rectangle(4.8, 1.2), name="North"),
        planting(
            "p1",
            covers=[
                {"kind": "fleece", "held": "hoops", "first": "2026-04-10", "last": "2026-05-20", "weight": 30}
            ],
            first=dt.date(2026, 4, 10),
            last=dt.date(2026, 8, 1),
        ),
        planting(
            "p2",
            crop="pea",
            support={"kind": "net", "lines": 1},
            first=dt.date(2026, 8, 5),
            last=dt.date(2026, 10, 1),
        ),
        site=Site(name="Plot", latitude=52.0, **site),
        climate=Climate(last_frost=FrostDates(risk_50="05-06"), first_frost=FrostDates(risk_50="10-17")),
        dressings=(
            Dressing(id="d1", bed="b1", kind="compost", day=dt.date(2026, 3, 1), depth=0.05),
            Dressing(id="d2", bed="b1", kind="lime", day=dt.date(2026, 2, 1), rate=200.0),
        ),
        shed=(
            ShedItem(id="m1", kind="compost", litres=100.0),
            ShedItem(id="m2", kind="hoop", length=2.0, number=3),
            ShedItem(id="m3", kind="hoop", length=5.0, sold=True),
        ),
    )


@pytest.fixture
def plot_file(tmp_path):
    path = tmp_path / "p.bedwright"
    save(plot(), path)
    return str(path)


def test_covers_as_text(bedwright, plot_file):
    code, out, err = bedwright("amounts", plot_file, "--what", "covers")
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "Plot, covers of 2026"
    row = next(line for line in lines if "carrot in North" in line)
    assert row.split("  ")[1] == "fleece of 30 g/m² on hoops"
    assert "4.80 × 1.20 m" in row
    assert any("hoop" in line and "in the shed" in line for line in lines)
    assert "Cut list" in lines
    assert any(line.startswith("  hoop: get 1 of 5.00 m, the least there can be") for line in lines)


def test_supports_as_text(bedwright, plot_file):
    lines = bedwright("amounts", plot_file, "--what", "supports")[1].splitlines()
    assert any("net, 1.80 m high" in line and "pea in North" in line for line in lines)
    assert any("1 net of 4.80 × 1.80 m and 4 posts of 2.25 m" in line for line in lines)
    assert "  9.60 m of string to get" in lines


def test_ground_as_text(bedwright, plot_file):
    lines = bedwright("amounts", plot_file, "--what", "ground")[1].splitlines()
    assert next(line for line in lines if line.startswith("  1 Mar")).split()[2:] == [
        "compost", "North", "5.76", "m²", "5", "cm", "deep", "288", "l",
    ]  # fmt: skip
    total = next(line for line in lines if line.startswith("  compost"))
    assert total.split() == ["compost", "288", "l", "4", "100", "l", "188", "l", "4", "of", "50", "l"]


def test_gardens_in_feet_have_quarts_ounces_and_feet(bedwright, tmp_path):
    path = tmp_path / "f.bedwright"
    save(plot(units="feet_inches"), path)
    ground = bedwright("amounts", str(path), "--what", "ground")[1]
    assert "2 in deep" in ground
    assert "10.2 cu ft" in ground
    assert "5.9 oz a sq yd" in ground
    for word in PARTS:
        out = bedwright("amounts", str(path), "--what", word)[1]
        assert " m²" not in out.replace("g/m²", "")
        assert " m " not in out
        assert " cm" not in out


@pytest.mark.parametrize("word", PARTS)
def test_csv_holds_what_json_holds(bedwright, word):
    records = {"covers": "covers", "supports": "supports", "ground": "spread"}[word]
    as_json = json.loads(bedwright("amounts", HOLLOW, "--what", word, "--json")[1])[records]
    rows = list(csv.DictReader(io.StringIO(bedwright("amounts", HOLLOW, "--what", word, "--csv", "-")[1])))
    assert len(rows) == len(as_json) > 0
    for row, record in zip(rows, as_json, strict=True):
        assert list(row) == list(record)
        for name, value in record.items():
            wanted = "; ".join(value) if isinstance(value, list) else "" if value is None else str(value)
            assert row[name] == wanted


def test_every_cut_of_the_json_adds_up(bedwright):
    for word in ("covers", "supports"):
        report = json.loads(bedwright("amounts", HOLLOW, "--what", word, "--json")[1])
        for cut_list in report["cut_lists"]:
            bought = sum(
                one["length_m"] * one["number"] for one in cut_list["cuts"] if one["supply"] == "new"
            )
            assert bought == pytest.approx(cut_list["bought_m"])
            assert cut_list["bought_least_m"] <= cut_list["bought_m"]
            for one in cut_list["cuts"]:
                pieces = sum(piece["length_m"] * piece["number"] for piece in one["pieces"])
                assert pieces + one["left_m"] == pytest.approx(one["length_m"])


@pytest.mark.parametrize("word", PARTS)
def test_nothing_wanted_is_said(bedwright, tmp_path, word):
    path = tmp_path / "e.bedwright"
    save(garden(bed(), site=Site(name="Bare")), path)
    code, out, _ = bedwright("amounts", str(path), "--what", word, "--year", "2026")
    assert code == 0
    assert out.splitlines()[-1].endswith("in 2026.")
    assert json.loads(bedwright("amounts", str(path), "--what", word, "--json")[1])["report"] == word


def test_an_unknown_word_is_one_line(refused):
    line = refused("amounts", HOLLOW, "--what", "cover")
    assert "'cover'" in line
    assert "covers" in line


def test_without_a_word_it_is_the_plants(bedwright):
    assert bedwright("amounts", HOLLOW)[1] == bedwright("amounts", HOLLOW, "--what", "plants")[1]


def test_a_table_replaces_only_a_table_of_its_kind(bedwright, tmp_path):
    target = tmp_path / "covers.csv"
    assert bedwright("amounts", HOLLOW, "--what", "covers", "--csv", str(target))[0] == 0
    assert bedwright("amounts", HOLLOW, "--what", "covers", "--csv", str(target))[0] == 0
    assert bedwright("amounts", HOLLOW, "--what", "ground", "--csv", str(target))[0] == 2
