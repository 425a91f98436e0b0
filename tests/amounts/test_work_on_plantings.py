"""Work on plantings: what follows on their ground, and what falls in a span of days."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts.tasks import planting_tasks, tasks
from planner.garden import Climate, FrostDates
from planner.plan import Plan

D = dt.date
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
FIGURES = {"in_row_spacing": 0.4, "row_spacing": 0.4, "germination": 0.8, "seeds_per_gram": 300}
CATALOGUE = catalogue_of(
    crop("carrot", sow_from=-3, days_to_maturity=70, harvest_days=10, **FIGURES),
    crop(
        "courgette",
        hardiness={"value": "warm-loving", "source": "practice"},
        set_out_from=2,
        days_to_maturity=50,
        harvest_days=60,
        **FIGURES,
    ),
)
FIRST = planting(
    "p1", first=D(2026, 4, 1), last=D(2026, 6, 1), plot={"kind": "stretch", "start": 0, "end": 2}
)


def plan_of(*plantings) -> Plan:
    return Plan(garden(bed(), *plantings, climate=CLIMATE), 2026, CATALOGUE)


def followed_by(**fields) -> bool:
    """Whether the work on a planting names the next one on its ground, which begins on 10 June."""
    usual = {"first": D(2026, 6, 10), "plot": {"kind": "stretch", "start": 0, "end": 2}}
    plan = plan_of(FIRST, planting("p2", **{**usual, **fields}))
    return any(task.kind == "sow the next" for task in planting_tasks(plan, FIRST))


@pytest.mark.parametrize(
    ("day", "follows"),
    [(D(2026, 6, 1), False), (D(2026, 6, 2), True), (D(2026, 7, 31), True), (D(2026, 8, 1), False)],
)
def test_the_next_planting_begins_within_sixty_days_of_the_end(day, follows):
    assert followed_by(first=day) is follows


@pytest.mark.parametrize(("start", "follows"), [(1.98, True), (1.9995, False), (2.0, False)])
def test_the_next_planting_shares_ground(start, follows):
    assert followed_by(plot={"kind": "stretch", "start": start, "end": 4.0}) is follows


def test_what_is_meant_to_share_ground_does_not_follow():
    assert not followed_by(shares_ground=True)


def test_work_before_a_planting_is_on_its_plot_falls_in_its_days():
    film = planting(
        crop="courgette", start="bought", first=D(2026, 5, 20), covers=[{"kind": "film"}], year=2026
    )
    plan = plan_of(film)
    (laid,) = [task for task in planting_tasks(plan, film) if task.kind == "film down"]
    assert laid.date < D(2026, 5, 20)
    assert laid in tasks(plan, laid.date, laid.date)
    assert laid not in tasks(plan, laid.date + dt.timedelta(days=1), D(2026, 12, 31))
