"""The odds on bed sheet and year sheet: a line a planting, a band above each bar, a legend; nothing without years."""

from __future__ import annotations

import datetime as dt
import io

import pytest
from paper_reading import Paper
from sample_reading import sample

from planner.garden import Garden
from planner.listings.odds_line import odds_line
from planner.plan import Plan
from planner.season.lived.assumed import Assumed
from planner.sheets.bed_sheets import write_bed_sheets
from planner.sheets.year_sheet import write_year_sheet
from planner.storage import load
from tests.recorded_gardens import recorded

PRINTED = dt.date(2026, 3, 1)


def bed_text(plan: Plan, bed: str) -> str:
    stream = io.BytesIO()
    found = next(one for one in plan.beds if one.name == bed)
    write_bed_sheets(plan, stream, beds=[found], today=PRINTED)
    with Paper(stream.getvalue()) as pages:
        return pages.texts()


def year_text(plan: Plan) -> str:
    stream = io.BytesIO()
    write_year_sheet(plan, stream, printed=PRINTED)
    with Paper(stream.getvalue()) as pages:
        return pages.texts()


@pytest.fixture(scope="module")
def plan() -> Plan:
    return Plan(recorded("hollow_lane"), 2026)


def test_each_planting_of_a_bed_sheet_has_its_odds(plan: Plan) -> None:
    text = bed_text(plan, "Middle 2")
    bed = next(one for one in plan.beds if one.name == "Middle 2")
    lines = [odds_line(plan, one) for one in plan.in_bed(bed)]
    assert len(lines) >= 3
    for line in lines:
        assert line in text


def test_a_garden_without_years_has_no_odds_on_paper() -> None:
    bare: Garden = load(sample("hollow_lane"))
    plan = Plan(bare, 2026)
    assert "Odds" not in bed_text(plan, "Middle 2")
    assert "first picked" not in year_text(plan)


def test_the_year_sheet_explains_its_bands_and_what_is_assumed(plan: Plan) -> None:
    text = year_text(plan)
    assert "first picked: 8 of 10 years, box half" in text
    assert "day of printing" in text
    assert "last picked" in text
    assert "An assumption" not in text
    assert "as if 2 °C warmer" in year_text(plan.assuming(Assumed(2.0)))
