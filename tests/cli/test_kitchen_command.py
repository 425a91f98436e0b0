"""bedwright kitchen and enough: who eats from a garden, and how much to plant for them."""

from __future__ import annotations

import json

import pytest
from sample_reading import FOLDER

from planner.garden import Eaten, Household
from planner.storage import load, save


@pytest.fixture
def hollow(tmp_path):
    """A copy of the sample garden, without own amounts."""
    path = tmp_path / "g.bedwright"
    garden = load(FOLDER / "hollow_lane.bedwright")
    save(garden.with_(household=Household(persons=4)), path)
    return path


def test_a_household_is_entered_shown_and_taken_back(bedwright, hollow):
    code, out, _ = bedwright(
        "kitchen", str(hollow), "--persons", "2,5", "--eats", "Onion", "8", "--eats", "leek", "0.3", "week",
        "--place", "Cellar", "clamp", "3", "--no-place", "loft",
    )  # fmt: skip
    assert code == 0
    assert out.splitlines() == [
        "Hollow Lane: 2.5 persons",
        "  onion: 8.0 kg a person in a year",
        "  leek: 300 g a person in a week",
        "  Cellar: 3 °C, 95 % humidity",
        "How much to plant for them: bedwright enough CROP FILE --until DAY, with --for-use bottling, freezing, drying or store",
    ]
    garden = load(hollow)
    assert garden.household.persons == 2.5
    assert garden.household.eats == (
        Eaten(crop="onion", kilograms=8),
        Eaten(crop="leek", kilograms=0.3, per="week"),
    )
    assert [(place.id, place.kind) for place in garden.store_places] == [("k1", "clamp")]
    assert bedwright("kitchen", str(hollow), "--eats", "onion", "-")[0] == 0
    assert [one.crop for one in load(hollow).household.eats] == ["leek"]


def test_what_is_only_asked_changes_nothing(bedwright, hollow):
    before = hollow.read_bytes()
    assert bedwright("kitchen", str(hollow))[1].startswith("Hollow Lane: 4 persons")
    assert hollow.read_bytes() == before


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--persons", "many"], "--persons: 'many' is no number. Write one like 2 or 2.5"),
        (["--persons", "-1"], "persons"),
        (["--eats", "onion"], "--eats: 'onion' is no amount. Write it like: --eats potato 60"),
        (["--eats", "unobtainium", "3"], "--eats: there is no crop 'unobtainium'"),
        (["--place", "Attic", "attic"], "--place: 'attic' is no kind of place. Write 'cellar', 'fridge'"),
        (["--no-place", "Attic"], "--no-place: there is no place 'Attic'. There is 'Cellar' or 'Loft'"),
    ],
)
def test_what_is_refused_says_how_to_mend_it(refused, hollow, arguments, words):
    assert words in refused("kitchen", str(hollow), *arguments)


def test_potatoes_for_one_until_march(bedwright, hollow):
    code, out, _ = bedwright(
        "enough", "potato", str(hollow), "--year", "2027", "--for", "1", "--until", "31 Mar"
    )
    assert code == 0
    assert out.startswith("potato for 1 person until 31 Mar 2028\n")
    found = json.loads(
        bedwright("enough", "potato", str(hollow), "--year", "2027", "--for", "1", "--until", "31 Mar", "--json")[1]
    )  # fmt: skip
    assert found["until"] == "2028-03-31"
    assert found["harvest_g"] > 10_000
    assert sum(spot["harvest_g"] for spot in found["room"]) >= found["harvest_g"]
    assert found["plants"] == sum(spot["plants"] for spot in found["room"])


@pytest.mark.parametrize(
    ("use", "purpose"), [("fresh", "kitchen"), ("bottling", "bottling"), ("drying", "drying")]
)
def test_what_it_is_for_can_be_said(bedwright, hollow, use, purpose):
    arguments = (
        "enough",
        "pea",
        str(hollow),
        "--for",
        "2",
        "--until",
        "2027-05-01",
        "--for-use",
        use,
        "--json",
    )
    found = json.loads(bedwright(*arguments)[1])
    assert found["purpose"] == purpose
    assert (found["keeps_until"] == "2027-05-01") == (use != "fresh")


def test_the_household_eats_where_nobody_is_named(bedwright, hollow):
    arguments = ("enough", "onion", str(hollow), "--until", "1 Mar", "--json")
    assert json.loads(bedwright(*arguments)[1])["persons"] == 4
    mine = json.loads(bedwright(*arguments, "--eats", "0.5")[1])
    assert (mine["weekly_g"], mine["source"]) == (2000, "own")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["unobtainium"], "there is no crop 'unobtainium'"),
        (["carot"], "Did you mean 'carrot'?"),
        (["leek"], "how much of leek a person eats is not known. Say what one person eats of it in a week"),
        (["corn salad", "--eats", "0.1"], "no yield of corn salad is known"),
        (["onion", "--for", "0"], "'0' is no number of persons"),
    ],
)
def test_what_enough_refuses_says_how_to_mend_it(refused, hollow, arguments, words):
    crop, *rest = arguments
    assert words in refused("enough", crop, str(hollow), "--until", "1 Mar", *rest)


def test_without_persons_the_harvest_is_listed_and_nothing_held_against_it(bedwright, tmp_path):
    path = str(FOLDER / "red_mesa.bedwright")
    code, out, _ = bedwright("amounts", path, "--what", "harvest")
    assert code == 0
    assert "By week" in out
    assert "bedwright kitchen FILE --persons 4" in out
    assert " lb" in out, "a garden in feet weighs in pounds"
    assert "bedwright kitchen FILE --persons 4" in bedwright("amounts", path, "--what", "store")[1]


def test_the_table_of_the_harvest_adds_up_to_the_report(bedwright, hollow):
    import csv
    import io

    rows = list(
        csv.DictReader(io.StringIO(bedwright("amounts", str(hollow), "--what", "harvest", "--csv", "-")[1]))
    )
    found = json.loads(bedwright("amounts", str(hollow), "--what", "harvest", "--json")[1])
    assert sum(int(row["harvest_g"] or 0) for row in rows) == sum(
        one["harvest_g"] for one in found["plantings"]
    )
    assert sum(one["harvest_g"] for one in found["plantings"]) == sum(
        one["harvest_g"] for one in found["eaten"]
    )
    unknown = {row["planting_id"] for row in rows if not row["week"]}
    assert unknown == {one["planting_id"] for one in found["plantings"] if one["missing"]}


def test_the_store_of_hollow_lane_names_the_day_the_onions_run_out(bedwright):
    path = str(FOLDER / "hollow_lane.bedwright")
    out = bedwright("amounts", path, "--what", "store")[1]
    onions = [line for line in out.splitlines() if line.lstrip().startswith("onion")]
    assert len(onions) == 1
    # 17,560 g, at 1,371 g a week (12 kg x 4 persons / 35), last for 90 days from 20 August on
    assert "17 Nov" in onions[0]
    found = json.loads(bedwright("amounts", path, "--what", "store", "--json")[1])
    new = next(one for one in found["stores"] if one["crop"] == "onion" and one["first"] == "2026-08-20")
    levels = [level["stored_g"] for level in new["levels"] if level["date"] >= "2026-09-01"]
    assert levels == sorted(levels, reverse=True)
    assert (new["gone"], new["spoilt_g"]) == ("2026-11-17", 0)


def test_days_of_another_year_have_it(bedwright):
    out = bedwright("amounts", str(FOLDER / "hollow_lane.bedwright"), "--what", "harvest")[1]
    (onions,) = [line for line in out.splitlines() if line.startswith("  Onion, ")]
    assert onions.startswith("  Onion, 16 Nov 2026 – 7 Feb 2027: ")


def test_an_unknown_part_is_refused(refused, hollow):
    assert "--what" in refused("amounts", str(hollow), "--what", "soup")


def test_a_crop_is_kept_in_one_place_and_wherever_it_keeps_best_again(bedwright, hollow):
    code, out, _ = bedwright("kitchen", str(hollow), "--keep-in", "Onion", "cellar")
    assert code == 0
    assert "; for onion only" in next(line for line in out.splitlines() if "Cellar" in line)
    assert load(hollow).store_places[0].crops == ("onion",)
    bedwright("kitchen", str(hollow), "--keep-in", "onion", "Loft")
    assert [place.crops for place in load(hollow).store_places] == [(), ("onion",)]
    bedwright("kitchen", str(hollow), "--keep-in", "onion", "-")
    assert [place.crops for place in load(hollow).store_places] == [(), ()]


def test_enough_is_worked_out_for_a_place(bedwright, hollow):
    words = (
        "enough",
        "potato",
        str(hollow),
        "--year",
        "2027",
        "--until",
        "2028-03-31",
        "--json",
        "--keep-in",
    )
    days = {}
    for place in ("Cellar", "Loft"):
        code, out, _ = bedwright(*words, place)
        assert code == 0
        days[place] = json.loads(out)["keeps_until"]
    assert days["Loft"] != days["Cellar"]
    code, _, fault = bedwright(*words, "Attic")
    assert code == 2
    assert "--keep-in: there is no place 'Attic'. There is 'Cellar' or 'Loft'" in fault
