"""No figure on paper is smaller than 8 points, read with PDFium from the pages themselves."""

from __future__ import annotations

import datetime as dt
import io

import pytest
from open_weather import with_weather
from sample_reading import sample

from planner.plan import Plan
from planner.sheets.kinds import SHEET_KINDS, SheetWish, write_sheets
from planner.sheets.label_formats import label_format
from planner.sheets.label_sheets import write_calibration
from planner.sheets.plan_files import plan_pdf
from planner.sheets.plan_page import plan_page
from planner.storage import load
from tests.sheets.paper_reading import Paper

DAY = dt.date(2026, 6, 20)


@pytest.fixture(scope="module")
def plan() -> Plan:
    """A garden in feet and inches with beds so small that their plots have no room for their names."""
    return Plan(with_weather(load(sample("red_mesa"))), 2026)


def sizes(data: bytes) -> dict[str, float]:
    with Paper(data) as paper:
        return {words: size for page in range(len(paper)) for words, size in paper.sizes(page).items()}


@pytest.mark.parametrize("kind", SHEET_KINDS)
def test_no_figure_of_a_sheet_is_smaller(plan, kind):
    stream = io.BytesIO()
    some = tuple(bed.id for bed in plan.beds if plan.in_bed(bed))[:3]
    write_sheets(plan, stream, SheetWish(kind, beds=some, paper="letter"), DAY)
    found = sizes(stream.getvalue())
    assert len(found) > 10
    assert {words: size for words, size in found.items() if size < 7.999} == {}


def test_no_figure_of_a_drawing_or_a_calibration_is_smaller(plan):
    stream = io.BytesIO()
    write_calibration(stream, label_format("a4-3x8"))
    for data in (stream.getvalue(), plan_pdf(plan_page(plan, DAY))):
        found = sizes(data)
        assert len(found) > 10
        assert min(found.values()) >= 7.999
