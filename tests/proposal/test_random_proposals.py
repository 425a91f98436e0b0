"""Layouts of gardens at random: no wish, bed or planting may break a proposal, and each holds all rules of its puzzle."""

from __future__ import annotations

import datetime as dt
import random

import pytest
from random_edits import random_edit

from planner.garden import Garden
from planner.listings.proposal import forbidding_lines, proposal_lines
from planner.plan import Plan
from planner.proposal.bare import bare_in_winter
from planner.proposal.filling import fillings
from planner.proposal.propose import propose
from planner.proposal.puzzle import faults_of
from planner.proposal.reasons import Reasons
from planner.proposal.wishes import wishes_from

EDITS = (
    "add_bed",
    "add_planting",
    "put_wish",
    "put_wish",
    "put_wish",
    "add_structure",
    "change_bed",
    "put_variety",
    None,
    None,
)


def garden_at_random(rng: random.Random) -> Garden:
    garden = Garden()
    for _ in range(40):
        garden = random_edit(rng, garden, rng.choice(EDITS)) or garden
    return garden


@pytest.mark.parametrize("seed", range(12))
def test_a_garden_at_random_is_laid_out_and_told(seed: int):
    garden = garden_at_random(random.Random(seed))
    years = sorted({one.year for one in garden.wishes}) or [2026]
    plan = Plan(garden, years[-1])
    *_, last = propose(plan, rounds=0)
    assert last.judged
    assert not faults_of(last.of.puzzle, last.layout)
    reasons = Reasons(last.of, last.layout)
    assert proposal_lines(last, reasons)
    assert forbidding_lines(last, reasons)
    assert all(one.year == plan.year + 1 for one in wishes_from(plan))
    for bed in plan.beds[:1]:
        assert all(one.plants > 0 for one in fillings(plan, bed, dt.date(plan.year, 6, 1)))
        assert all(one.end > one.start for one in bare_in_winter(plan, [bed]))
