"""``bedwright odds``: the plantings of a year in the recorded years of weather."""

from __future__ import annotations

import csv
import io
import json

import jsonschema
import pytest
from station_years import BRUSSELS, station_years

from planner import resources
from planner.listings.reports.schemas import report_schema
from planner.plan import Plan
from planner.storage import load, save
from planner.words.catalogue import use_language


@pytest.fixture(scope="module")
def lane(tmp_path_factory):
    """The largest sample with thirty years of Brussels."""
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    path = tmp_path_factory.mktemp("odds") / "lane.bedwright"
    save(garden.with_(weather=station_years(BRUSSELS.name)), path)
    return str(path)


def test_the_weakest_planting_is_listed_first(bedwright, lane):
    code, out, _ = bedwright("odds", lane, "--year", "2026")
    assert code == 0
    assert "in the weather of 1976 to 2005 at brussels" in out
    rows = [line for line in out.splitlines() if " of " in line and "weather" not in line]
    picked = [line.split(" of ")[0].split()[-1] for line in rows]
    shares = [int(one) for one in picked if one.isdigit()]
    assert len(shares) > 40
    assert shares[0] < 30
    assert "Odds are of the weather alone" in out


def test_json_keeps_to_its_schema_and_says_what_the_plan_says(bedwright, lane):
    code, out, _ = bedwright("odds", lane, "--year", "2026", "--json")
    assert code == 0
    found = json.loads(out)
    schema = report_schema("odds")
    jsonschema.Draft202012Validator(schema, format_checker=jsonschema.FormatChecker()).validate(found)
    plan = Plan(load(lane), 2026)
    lost = [1 - one["picked_years"] / one["counted_years"] for one in found["plantings"]]
    assert lost == sorted(lost, reverse=True)
    for one in found["plantings"]:
        odds = plan.odds(plan.garden.plantings_by_id[one["planting_id"]])
        assert odds is not None
        assert one["counted_years"] == odds.years
        assert one["counted_years"] + len(one["left_out"]) == 30
        fates = ("picked_years", "frost_years", "bolted_years", "unripe_years", "cleared_years")
        assert sum(one[name] for name in fates) == one["counted_years"]
        if odds.first is not None:
            assert one["first_picking_days"]["by_50"] == odds.first.middle.isoformat()
            days = list(one["first_picking_days"].values())
            assert days == sorted(days)


def test_beds_are_named(bedwright, refused, lane):
    plan = Plan(load(lane), 2026)
    bed = plan.bed_of(plan.plantings[0])
    found = json.loads(bedwright("odds", lane, bed.id, "--year", "2026", "--json")[1])
    assert {one["bed_id"] for one in found["plantings"]} == {bed.id}
    assert "there is no bed 'Nowhere'" in refused("odds", lane, "Nowhere")


def test_a_table_has_a_row_a_planting(bedwright, lane):
    out = bedwright("odds", lane, "--year", "2026", "--csv", "-")[1]
    rows = list(csv.DictReader(io.StringIO(out)))
    assert len(rows) > 40
    assert all(row["counted_years"] for row in rows)
    assert any(row["first_picking_10"] < row["first_picking_90"] for row in rows)


def test_a_garden_without_years_is_told_how_to_get_them(refused):
    line = refused("odds", str(resources.sample_folder() / "wattle_bank.bedwright"), "--year", "2019")
    assert "keeps no years of daily weather" in line or "odds" in line


def test_odds_in_german(bedwright, lane):
    use_language("de")
    try:
        out = bedwright("odds", lane, "--year", "2026")[1]
    finally:
        use_language("en")
    assert "geerntet in" in out
    assert "zwischen" in out
