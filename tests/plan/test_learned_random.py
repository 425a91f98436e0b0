"""Whatever is recorded, plantings of which nothing is told stay as they are but for what was learned."""

from __future__ import annotations

import contextlib
import random

import pytest
from random_records import record_fields
from random_values import Draw

from planner import resources
from planner.amounts.yields import planting_yield
from planner.garden import Garden
from planner.garden import edits as e
from planner.plan import Plan
from planner.plan.history import years_side_by_side
from planner.storage import load

RECORDS = 150


@pytest.fixture(scope="module")
def sample() -> Garden:
    return load(resources.sample_folder() / "hollow_lane.bedwright").with_(records=())


@pytest.fixture(scope="module")
def unrecorded(sample: Garden) -> Plan:
    return Plan(sample, 2026)


def recorded(garden: Garden, seed: int) -> Garden:
    """The garden with records drawn at random, of those that are possible."""
    rng = random.Random(seed)
    for _ in range(RECORDS):
        with contextlib.suppress(e.EditError):
            garden = e.add_records(garden, [record_fields(Draw(rng, garden))])[0]
    return garden


@pytest.mark.parametrize("seed", range(3))
def test_records_change_nothing_that_they_do_not_speak_of(
    sample: Garden, unrecorded: Plan, seed: int
) -> None:
    of = recorded(sample, seed)
    assert len(of.records) > RECORDS / 2
    told = {one.planting for one in of.records}
    off, on = Plan(e.use_learned(of, "never"), 2026), Plan(of, 2026)
    for one in of.plantings:
        if one.id in told:
            continue
        before = unrecorded.dates(one)
        assert repr(off.dates(one)) == repr(before)
        assert planting_yield(off, one) == planting_yield(unrecorded, one)
        if on.figures_of(one).learned is None:
            assert repr(on.dates(one)) == repr(before)
            assert planting_yield(on, one) == planting_yield(unrecorded, one)
    assert years_side_by_side(on)


@pytest.mark.parametrize("seed", range(3))
def test_weights_and_figures_are_possible(sample: Garden, seed: int) -> None:
    for one in Plan(recorded(sample, 10 + seed), 2026).learned.own:
        if one.shrunk is None:
            continue
        assert 0 < one.shrunk.weight <= 1
        assert one.shrunk.value >= 0
        factors = [year.factor for year in one.years if year.factor is not None]
        if factors and one.published is not None:
            assert min(1.0, *factors) - 1e-9 <= one.shrunk.value <= max(1.0, *factors) + 1e-9
