"""Which crops fit a bed on a day: one rule with what is offered for free ground, and a reason for each of the others."""

from __future__ import annotations

import datetime as dt

import pytest
from test_filling import BEDS, CATALOGUE, there

from planner.garden import edits
from planner.plan import Plan
from planner.proposal.filling import fillings
from planner.proposal.fitting import fits
from planner.season.practice import stays_for_years

D = dt.date
KEYS = ("lettuce", "radish", "spinach", "turnip", "pea", "tomato", "potato", "kale", "phacelia", "asparagus")


@pytest.mark.parametrize("day", [D(2026, 5, 20), D(2026, 7, 20)])
def test_a_crop_fits_where_it_is_offered_and_every_other_says_why(day: dt.date):
    plan = Plan(there(), 2026, CATALOGUE)
    crops = [CATALOGUE.crops[key] for key in KEYS]
    for bed in plan.beds:
        offered = {one.crop.key for one in fillings(plan, bed, day, crops=KEYS)}
        found = fits(plan, [bed], day, crops)
        assert found.keys() == set(KEYS)
        for crop in crops:
            fit = found[crop.key]
            assert (fit.filling is None) == bool(fit.why)
            if not stays_for_years(crop):
                assert (fit.filling is not None) == (crop.key in offered), (bed.name, crop.key, fit.why)


def test_reasons_are_those_of_the_season_the_ground_and_the_family():
    plan = Plan(there(), 2026, CATALOGUE)
    crops = [CATALOGUE.crops[key] for key in KEYS]
    found = fits(plan, [plan.garden.beds_by_id["b2"]], D(2026, 5, 20), crops)
    assert found["lettuce"].why.startswith("no ground free 20 May to ")
    assert found["asparagus"].filling is None
    bare = Plan(edits.remove(there(), ["p5"]), 2026, CATALOGUE)
    spinach = fits(bare, [bare.garden.beds_by_id["b2"]], D(2026, 4, 10), crops)["spinach"].why
    assert spinach == "wants 3 years of rest: the beet family (Amaranthaceae) a year ago"
    anywhere = fits(plan, plan.beds, D(2026, 7, 20), crops)
    assert anywhere["lettuce"].filling is not None
    assert anywhere["lettuce"].filling.planting.bed in {one.id for one in BEDS}
    assert anywhere["tomato"].why.startswith("goes in ")
    assert fits(plan, (), D(2026, 7, 20), crops) == {}
