"""Work in words, as lines and as rows."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts.work import work_between
from planner.garden import Climate, FrostDates
from planner.garden import edits as e
from planner.garden.raising import Raising
from planner.listings.reports.tasks import tasks_report
from planner.listings.tasks import task_days, task_words, tasks_lines
from planner.plan import Plan

D = dt.date
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
FIGURES = {"in_row_spacing": 0.4, "row_spacing": 0.4, "germination": 0.8, "seeds_per_gram": 300}
CATALOGUE = catalogue_of(
    crop(
        "cabbage",
        starts={"value": ["raised"], "source": "practice"},
        weeks_to_raise=6,
        set_out_from=-1,
        days_to_maturity=80,
        harvest_days=30,
        maturity_from="setting out",
        **FIGURES,
    ),
    crop("carrot", sow_from=-3, days_to_maturity=70, harvest_days=10, **FIGURES),
)
CABBAGE = planting("p1", crop="cabbage", variety="Drum", covers=[{"kind": "netting"}])
CARROT = planting("p2", first=D(2026, 4, 10))


def plan_of(*plantings, name: str = "Long bed", **fields) -> Plan:
    return Plan(garden(bed(name=name), *plantings, climate=CLIMATE, **fields), 2026, CATALOGUE)


def words(plan: Plan) -> dict[str, tuple[str, str]]:
    return {task.kind: task_words(task) for task in work_between(plan)}


def test_bed_and_amount_have_columns_of_their_own():
    found = words(plan_of(CABBAGE))
    assert found["sow"][0] == "Sow cabbage Drum indoors"
    assert found["sow"][1].startswith("for 36 plants, ")
    assert found["sow"][1].endswith("\u00a0g), in ⅜ of a seed tray, 1.9 l of mix")
    assert found["prick out"] == (
        "Prick out cabbage Drum",
        "36 plants, into 36 cells of a tray of 128, 0.83 l of mix",
    )
    assert found["set out"] == ("Set out cabbage Drum", "36 plants")
    assert found["cover on"] == ("Cover cabbage Drum with netting", "36 plants")
    assert found["cover off"] == ("Take the netting off cabbage Drum", "36 plants")
    assert found["pick"] == ("Pick cabbage Drum", "36 plants")


@pytest.mark.parametrize(
    ("raising", "sown"),
    [
        (
            {"way": "cells", "cells": 128},
            "49 seeds (0.16\u00a0g), in 49 cells of a tray of 128, 1.1 l of mix",
        ),
        ({"way": "cells", "cells": 36}, "49 seeds (0.16\u00a0g), in 49 cells of 2 trays of 36, 6.8 l of mix"),
        ({"way": "pots"}, "49 seeds (0.16\u00a0g), in 49 pots of 9 cm, 16 l of mix"),
        ({"way": "blocks", "width": 0.05}, "49 seeds (0.16\u00a0g), in 49 blocks of 5 cm, 6.1 l of mix"),
        ({"way": "nursery bed"}, "49 seeds (0.16\u00a0g), 0.18 m² of nursery bed"),
    ],
)
def test_sowing_names_what_is_filled(raising, sown):
    found = words(plan_of(CABBAGE.with_(raising=Raising(**raising))))
    work = (
        "Sow cabbage Drum in a nursery bed" if raising["way"] == "nursery bed" else "Sow cabbage Drum indoors"
    )
    assert found["sow"] == (work, f"for 36 plants, {sown}")
    assert "prick out" not in found


def test_a_garden_in_feet_fills_inches_with_quarts():
    plan = plan_of(CABBAGE.with_(raising=Raising(way="pots")))
    plan = plan.after(e.change_site(plan.garden, units="feet_inches"))
    assert words(plan)["sow"][1].endswith(", in 49 pots of 3 1/2 in, 17 qt of mix")


def test_a_drill_says_how_it_is_sown():
    sown = words(plan_of(CARROT))["sow"]
    assert sown[0] == "Sow carrot"
    assert sown[1].startswith("36 plants, ")
    assert "for each plant" in sown[1]


def test_what_follows_on_the_ground_has_no_amount():
    first = planting("p1", first=D(2026, 4, 10))
    cleared = plan_of(first).dates(first).clear
    assert cleared is not None
    found = words(plan_of(first, planting("p2", first=cleared.day + dt.timedelta(days=2))))
    assert found["sow the next"] == ("Carrot follows carrot", "")


@pytest.mark.parametrize("name", ["carrot", "in a row", "Bed 1, south", "for x in y", ".", "1"])
def test_names_of_beds_lose_no_work(name):
    for kind, (work, _) in words(plan_of(CABBAGE, name=name)).items():
        assert "abbage" in work, kind
        assert work.split()[0].lower() in ("sow", "prick", "harden", "set", "cover", "take", "pick", "clear")


def test_days_given_by_hand_are_marked():
    pinned = CARROT.with_(pinned_dates={"first_harvest": D(2026, 7, 19)})
    for one, mark in ((CARROT, ""), (pinned, "*")):
        plan = plan_of(one)
        picked = plan.dates(one)
        assert picked.first_harvest is not None
        assert picked.last_harvest is not None
        first, last = picked.first_harvest.day, picked.last_harvest.day
        assert (first.month, last.month) == (7, 7)  # one month is written once
        found = {task.kind: task_days(task) for task in work_between(plan)}
        assert found["sow"] == "10 Apr*"
        assert found["pick"] == f"{first.day} – {last.day} Jul{mark}"


def test_rows_for_json_are_whole():
    plan = plan_of(CABBAGE)
    document = e.tick(plan.garden, "p1", "sow", D(2026, 3, 20))
    plan = plan.after(document)
    report = tasks_report(plan, work_between(plan), plan.span.first, plan.span.last)
    rows = report.row()["tasks"]
    sow = rows[0]
    assert (sow["first"], sow["done"], sow["origin"], sow["crop"]) == (
        "2026-03-20",
        "2026-03-20",
        "done",
        "cabbage",
    )
    assert rows[-1]["done"] is None


def test_text_has_a_box_a_line_and_says_what_is_odd_and_unknown():
    plan = plan_of(CABBAGE, planting("p2", last=D(2026, 4, 20)))
    plan = plan.after(e.tick(plan.garden, "p1", "sow", D(2026, 3, 20)))
    lines = tasks_lines(plan, work_between(plan), D(2026, 1, 1), D(2026, 12, 31))
    assert lines[0] == "Garden, work from 1 Jan 2026 to 31 Dec 2026"
    assert (
        "  [x]  20 Mar  Sow cabbage Drum indoors for Long bed, 49 seeds (0.16 g), in ⅜ of a seed tray, 1.9 l of mix."
        in lines
    )
    assert "* set by hand" in lines
    assert any("carrot is cleared on 20 Apr, before its first harvest" in line for line in lines)
    bare = Plan(garden(bed(), planting()), 2026, CATALOGUE)
    lines = tasks_lines(bare, (), D(2026, 1, 1), D(2026, 12, 31))
    assert lines[2] == "Nothing to do."
    assert lines[-1] == "  b1: The last spring frost is not given: when carrot starts is not known."
