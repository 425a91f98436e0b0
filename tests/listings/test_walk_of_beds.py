"""The walk: letters and numbers are one and the same on every sheet and page, and stay while it goes on."""

from __future__ import annotations

import datetime as dt

import pytest

from planner import resources
from planner.garden import edits as e
from planner.listings.walk import walk_goes_on, walk_stops
from planner.plan import Plan
from planner.sheets.sheet_year import SheetYear
from planner.storage import load

DAY = dt.date(2026, 8, 14)


@pytest.fixture(scope="module")
def plan() -> Plan:
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    return Plan(garden, 2026)


def letters(stops) -> dict[str, str]:
    return {one.id: letter for stop in stops for letter, one in stop.plantings}


def work(stop) -> list[str]:
    return [task.key for task in stop.work]


def test_a_planting_has_the_letter_that_it_has_on_the_bed_and_week_sheets(plan):
    found = letters(walk_stops(plan, DAY))
    sheets = SheetYear(plan)
    assert len(found) > 30
    assert found == {key: sheets.letter(key) for key in found}


def test_what_is_written_down_deals_no_letters_and_numbers_anew(plan):
    begun = walk_stops(plan, DAY)
    stop = next(one for one in begun if one.bed.name == "Middle 2")
    courgette = next(one for _, one in stop.plantings if one.crop == "courgette")
    garden, _ = e.add_records(
        plan.garden,
        [
            {
                "kind": "picked",
                "planting": courgette.id,
                "day": DAY,
                "amount": {"value": 1200, "unit": "g"},
            },
        ],
    )
    after = plan.after(garden)
    now = walk_stops(after, DAY)
    assert letters(now) == letters(begun)
    assert [work(one) for one in now] == [work(one) for one in begun]
    assert letters(walk_stops(after.after(garden.with_(records=())), DAY)) == letters(begun)


def test_what_ends_and_what_is_done_stays_listed_while_the_walk_goes_on(plan):
    begun = walk_stops(plan, DAY)
    stop = next(one for one in begun if one.bed.name == "Middle 2")
    courgette = next(one for _, one in stop.plantings if one.crop == "courgette")
    fields = {"kind": "ended", "planting": courgette.id, "day": DAY - dt.timedelta(days=3), "why": "eaten"}
    after = plan.after(e.add_records(plan.garden, [fields])[0])
    gone = next(one for one in walk_stops(after, DAY) if one.bed.id == stop.bed.id)
    assert courgette.id not in {one.id for _, one in gone.plantings}
    (on,) = (one for one in walk_goes_on(begun, walk_stops(after, DAY), after) if one.bed.id == stop.bed.id)
    assert letters([on]) == letters([stop])
    assert work(on)[: len(stop.work)] == work(stop)
    assert all(stop.work[work(on).index(key)].planting == courgette.id for key in on.needless)
