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
#: Feet of row that a hill takes (ume_chart).
FEET_EACH = {"courgette": 4.0, "cucumber": 4.0, "pumpkin": 4.0}


def rows():
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["crop"])
def test_what_is_planted_for_a_person_is_what_is_printed(row):
    entry = per_person()[row["crop"]]
    if entry.crop != row["crop"]:  # it shares the amount of another crop
        assert row["crop"] in entry.together
        return
    figure = entry.plants if entry.plants is not None else entry.row
    if figure.source != row["source"]:
        figure = next((one for one in figure.other if one.source == row["source"]), None)
        assert figure is not None
        return
    each = 1.0
    if entry.row is not None:
        each = FOOT * FEET_EACH.get(row["crop"], 1.0)
    for printed, ours in ((row["least"], figure.low), (row["most"], figure.high)):
        assert (ours or figure.value) == pytest.approx(float(printed) * each, abs=0.002)


def test_in_kilograms_it_is_that_times_the_yield_of_its_crop():
    crops = load_catalogue().crops
    people = per_person()
    assert people["carrot"].kilograms.value == pytest.approx(
        7.5 * FOOT * crops["carrot"].number("yield_per_metre"), rel=0.001
    )
    assert people["tomato"].kilograms.value == pytest.approx(4 * crops["tomato"].number("yield_per_plant"))
    onion = crops["onion"]
    assert people["onion"].kilograms.value == pytest.approx(
        37.5 * onion.number("in_row_spacing") * onion.number("yield_per_metre")
    )


def test_yields_to_100_feet_are_those_of_the_catalogue_or_one_of_its_readings():
    catalogue = load_catalogue()
    unlike = []
    for row in rows():
        figure = catalogue.crops[row["crop"]].yield_per_metre
        if figure is None:
            continue
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

    (tmp_path / "per_person.toml").write_text('[carrot]\nrow = { value = -1, source = "practice" }\n')
    monkeypatch.setattr(module, "load_catalogue", lambda folder: load_catalogue())
    with pytest.raises(CatalogueError, match=r"per_person\.toml, carrot"):
        module.per_person(tmp_path)
