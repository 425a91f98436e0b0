"""What one person eats: against the rows of the publications, reckoned here a second time."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from planner.crops import load_catalogue
from planner.crops.per_person import per_person
from planner.crops.reading import CatalogueError

TABLE = Path(__file__).parents[1] / "reference" / "yield_and_planting_per_person.csv"
LB, FOOT = 0.45359237, 0.3048
#: Feet of row that a plant or a hill takes, as the notes of the figures say.
FEET_EACH = {"asparagus": 100 / 65, "sweet_pepper": 1.5, "sweet_potato": 1.0, "courgette": 4.0}


def rows():
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["crop"])
def test_a_years_amount_is_the_planting_a_person_times_its_yield(row):
    feet = 1.0 if row["planting_unit"] == "ft" else FEET_EACH[row["crop"]]
    least, most = (
        float(row[end]) * feet * float(row["yield_per_100ft"]) / 100 * LB for end in ("least", "most")
    )
    entry = per_person()[row["crop"]]
    if entry.crop != row["crop"]:  # it shares the amount of another crop
        assert row["crop"] in entry.together
        return
    figure = entry.kilograms
    readings = [(figure.value, figure.low, figure.high, figure.source)]
    readings += [(other.value, other.low, other.high, other.source) for other in figure.other]
    value, low, high, _ = next(one for one in readings if one[3] == row["source"])
    if row["crop"] == "spinach":  # 40 to 50 lb to 100 feet
        least, most = least * 40 / 45, most * 50 / 45
    assert (low or value) == pytest.approx(least, abs=0.006)
    assert (high or value) == pytest.approx(most, abs=0.006)


def test_yields_to_100_feet_are_those_of_the_catalogue_or_one_of_its_readings():
    catalogue = load_catalogue()
    unlike = []
    for row in rows():
        figure = catalogue.crops[row["crop"]].yield_per_metre
        printed = float(row["yield_per_100ft"]) * LB / (100 * FOOT)
        numbers = [figure.value, figure.low, figure.high]
        numbers += [n for other in figure.other for n in (other.value, other.low, other.high)]
        spread = [number for number in numbers if number is not None]
        if not min(spread) - 0.01 <= printed <= max(spread) + 0.01:
            unlike.append(row["crop"])
    assert unlike == []


def test_each_amount_has_a_source_and_its_reckoning():
    for one in per_person().values():
        assert one.kilograms.provenance in ("derived", "printed")
        assert one.kilograms.note


def test_crops_that_are_eaten_in_place_of_each_other_share_one_amount():
    shared = per_person()
    assert shared["lettuce"] is shared["leaf_lettuce"] is shared["cos_lettuce"]
    assert shared["potato"] is shared["early_potato"]


def test_faults_are_named_by_file_and_crop(tmp_path, monkeypatch):
    from planner.crops import per_person as module

    (tmp_path / "per_person.toml").write_text('[carrot]\nkilograms = { value = -1, source = "practice" }\n')
    monkeypatch.setattr(module, "load_catalogue", lambda folder: load_catalogue())
    with pytest.raises(CatalogueError, match=r"per_person\.toml, carrot"):
        module.per_person(tmp_path)
