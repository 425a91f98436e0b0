"""Covers and supports share one shed."""

from __future__ import annotations

import datetime as dt
import random

from making import bed, garden, planting, rectangle

from planner.amounts.covers import covers
from planner.amounts.materials_year import materials_of_year
from planner.amounts.supports import supports
from planner.garden import Climate, FrostDates, ShedItem, Site, Stretch
from planner.plan import Plan

CLIMATE = Climate(last_frost=FrostDates(risk_50="05-06"), first_frost=FrostDates(risk_50="10-17"))


def both(*shed: ShedItem) -> Plan:
    """A tunnel on hoops over one half of a bed, an arch of hoops over the other, at the same time."""
    tunnel = planting(
        "p1",
        plot=Stretch(start=0, end=2.4),
        first="2026-04-10",
        covers=({"kind": "low tunnel", "first": "2026-04-10", "last": "2026-06-10", "height": 1.6},),
    )
    arch = planting(
        "p2",
        crop="climbing_bean",
        plot=Stretch(start=2.4, end=4.8),
        first="2026-05-20",
        support={"kind": "arch", "height": 2.0},
    )
    made = garden(bed("b1", rectangle()), tunnel, arch, site=Site(latitude=52.0), climate=CLIMATE, shed=shed)
    return Plan(made, 2026)


def hoops(plan: Plan):
    return next(one for one in materials_of_year(plan).materials if one.kind == "hoop")


def test_a_hoop_in_the_shed_does_not_serve_a_tunnel_and_an_arch_at_once():
    bare = both()
    wanted = {use.job.key: use.number for pile in hoops(bare).piles for use in pile.uses}
    assert len(wanted) == 2, "both take hoops"
    many = sum(wanted.values())
    long = ShedItem(id="m1", kind="hoop", length=7.0, number=max(wanted.values()))
    plan = both(long)
    # By themselves either finds all its hoops there; together they do not.
    alone = [
        next(one for one in part.materials if one.kind == "hoop").number("new")
        for part in (covers(plan), supports(plan))
    ]
    together = hoops(plan)
    assert alone == [0, 0]
    # Whole or cut: cut they serve the arch, for which no hoop that is sold is long enough.
    cut = sum(pile.cut for pile in together.piles)
    assert together.number("shed") + cut == long.number
    assert together.number("new") - cut == many - long.number > 0


def test_nothing_of_the_shed_is_used_twice_on_a_day():
    rng = random.Random(5)
    for _ in range(40):
        shed = tuple(
            ShedItem(
                id=f"m{n}", kind="hoop", length=rng.choice((2.5, 3.0, 4.0, 7.0)), number=rng.randint(1, 6)
            )
            for n in range(3)
        )
        there = {item.id: item.number for item in shed}
        for pile in hoops(both(*shed)).piles:
            if pile.origin != "shed":
                continue
            for day in (dt.date(2026, 4, 10) + dt.timedelta(days=n) for n in range(0, 200, 7)):
                used = sum(use.number for use in pile.uses if use.job.first <= day <= use.job.last)
                assert used <= there[pile.key]


def test_all_covers_and_supports_are_those_that_are_listed_by_themselves():
    plan = both()
    year = materials_of_year(plan)
    assert year.laid == covers(plan).laid
    assert year.put_up == supports(plan).put_up
    assert year.string == supports(plan).string
