"""The year as a picture on paper: beds down, weeks across."""

from __future__ import annotations

import datetime as dt
import io
from dataclasses import replace

import pytest
from forty_beds import forty_beds
from paper_reading import Paper

from planner.garden import Garden
from planner.plan import Plan
from planner.sheets.output import SheetError
from planner.sheets.page_chrome import paper_named
from planner.sheets.year_sheet import _frost_bands, write_year_sheet, year_pages
from planner.storage import load
from tests.sample_reading import sample

DAY = dt.date(2026, 6, 20)


def written(plan: Plan, paper: str = "a4") -> bytes:
    stream = io.BytesIO()
    write_year_sheet(plan, stream, paper, DAY)
    return stream.getvalue()


@pytest.mark.parametrize(("paper", "width"), [("a4", 297.0), ("a3", 420.0), ("letter", 279.4)])
def test_forty_beds_with_all_names_are_on_one_page_laid_across(paper, width):
    plan = Plan(forty_beds(), 2026)
    data = written(plan, paper)
    assert data == written(plan, paper)
    with Paper(data) as pages:
        assert len(pages) == 1
        text = pages.text(0)
        assert pages.document[0].get_width() * 25.4 / 72 == pytest.approx(width, abs=0.1)
    for bed in plan.beds:
        assert bed.name in text
    for name in ("Butterhead lettuce", "Leek ‘Blauwgroene Winter’", "Spinach"):
        assert text.count(name) == 10
    assert "Jan" in text
    assert "Dec" in text


def test_more_beds_have_more_pages():
    beds = forty_beds().beds
    more = Garden(beds=(*beds, *(replace_id(bed, f"x{n}") for n, bed in enumerate(beds[:5]))))
    pages = year_pages(Plan(more, 2026), paper_named("a4"), DAY)
    assert [len(page.rows) for page in pages] == [23, 22]


def replace_id(bed, key):
    return bed.model_copy(update={"id": key})


def test_bars_lie_where_their_days_are():
    plan = Plan(load(sample("hollow_lane")), 2026)
    across = replace(paper_named("a4"), width=297.0, height=210.0, left=12.0)
    (page,) = year_pages(plan, across, DAY)
    assert page.x_of(plan.span.first) == page.left
    assert page.x_of(plan.span.last + dt.timedelta(days=1)) == pytest.approx(297.0 - across.right)
    rows = list(page.tops())
    assert all(top > low for _, top, low in rows)
    assert rows[-1][2] > across.bottom + page.foot.height  # nothing lies on the foot
    assert len(_frost_bands(plan)) == 6
    assert page.words().count(":") >= len(plan.beds)


def test_a_garden_without_beds_has_no_year():
    with pytest.raises(SheetError, match="no bed is in use"):
        written(Plan(Garden(), 2026))
