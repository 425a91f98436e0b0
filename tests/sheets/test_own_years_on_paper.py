"""Sheets name the records of the garden where a figure follows from them."""

from __future__ import annotations

from own_years import garden_of_years

from planner.garden import edits as e
from planner.plan import Plan
from planner.sheets.page_chrome import PAPERS
from planner.sheets.sheet_sources import SheetSources

YEARS = {
    2023: {"sow": (5, 20), "grams": {(8, 20): 900, (9, 1): 4000}, "end": (10, 1)},
    2024: {"sow": (5, 25), "grams": {(8, 24): 900, (9, 4): 5000}, "end": (10, 1)},
    2025: {"sow": (5, 15), "grams": {(8, 11): 1900, (9, 1): 5000}, "end": (10, 1)},
    2026: {},
}


def named(plan: Plan) -> list[str]:
    sources = SheetSources(plan)
    sources.add_bed(plan.garden.beds[3])
    assert sources.blocks(PAPERS["a4"])
    return [sources._title(key) for key in sources._uses]


def test_a_yield_of_own_years_names_them() -> None:
    of = garden_of_years("dwarf_bean", YEARS)
    assert "Records of this garden, 2023-2025" in named(Plan(of, 2026))
    assert not any("this garden" in one for one in named(Plan(e.use_learned(of, "never"), 2026)))
