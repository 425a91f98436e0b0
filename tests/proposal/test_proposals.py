"""Proposals as a gardener meets them: beside layouts made by hand, over years on end, and by the ordinary checks."""

from __future__ import annotations

from functools import cache

import pytest
from hand_made.compare import Compared, compared, garden_of, names, plan_of
from making import bed, garden, planting, rectangle

from planner.amounts.bench import capacity, on_bench_in_year
from planner.checks import check_all
from planner.crops import load_catalogue
from planner.crops.containers import tray_area
from planner.garden import Bench, Climate, FrostDates, Garden, ShedItem, Site, Wish
from planner.garden.edits.common import put
from planner.garden.wishes import LayoutWeights
from planner.plan import Plan
from planner.proposal import propose as propose_module
from planner.proposal.propose import Proposal, propose
from planner.proposal.puzzle import faults_of
from planner.proposal.reasons import Reasons

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)


@cache
def laid_out(name: str) -> Compared:
    """A garden laid out with little effort: no more is needed to meet as many wishes as by hand."""
    return compared(name, rounds=1)


def judged(garden: Garden, year: int) -> list[str]:
    """What the checks find that no proposal may have."""
    found = check_all(Plan(garden, year, CATALOGUE))
    return [one.text for one in found if one.severity == "stop" or one.check == "rotation"]


@pytest.mark.parametrize("name", names())
def test_as_many_wishes_are_met_as_by_hand(name: str):
    """The layouts by hand were made by somebody else, before the first proposal was (``hand_made/``)."""
    one = laid_out(name)
    assert one.proposed >= one.by_hand
    musts = [wish for wish in one.proposal.unmet if wish.importance == "must"]
    assert not musts


@pytest.mark.parametrize("name", names())
def test_the_checks_find_nothing_grave_in_a_proposal(name: str):
    proposal = laid_out(name).proposal
    assert proposal.judged
    year = proposal.of.plan.year
    allowed = {one.id for one in proposal.of.wishes if one.back_after is not None}
    found = check_all(Plan(proposal.garden, year, CATALOGUE))
    by_id = proposal.garden.plantings_by_id
    before = {one.key for one in check_all(Plan(proposal.of.plan.garden, year, CATALOGUE))}
    wrong = [
        one.text
        for one in found
        if (one.severity == "stop" and one.key not in before)
        or (one.check == "rotation" and by_id[one.plantings[0]].wish not in allowed)
    ]
    assert not wrong


@pytest.mark.parametrize("name", names())
def test_each_wish_has_as_many_plants_as_it_asks_for(name: str):
    """By the plan, not by the puzzle: all its plantings together."""
    proposal = laid_out(name).proposal
    plan = Plan(proposal.garden, proposal.of.plan.year, CATALOGUE)
    unmet = {one.id for one in (*proposal.unmet, *proposal.in_part)}
    for wish in proposal.of.wishes:
        if wish.id in unmet or wish.amount is None or wish.unit in ("g", "people"):
            continue
        there = [plan.placed(one) for one in plan.garden.plantings if one.wish == wish.id]
        have = {
            "plants": sum(one.plants for one in there),
            "m": sum(one.layout.row_length for one in there),
            "m2": sum(one.area for one in there),
        }[wish.unit]
        assert have >= wish.amount * (1 - 1e-6), wish.crop
        assert len(there) <= wish.parts


def test_the_same_effort_and_seed_give_the_same_layout():
    plan = plan_of(garden_of("pump_yard"))
    one, other = ([*propose(plan, rounds=3, seed=5)][-1] for _ in range(2))
    assert one.garden == other.garden
    assert one.cost == other.cost


def test_every_step_holds_all_rules_and_the_first_comes_before_any_search():
    steps = [*propose(plan_of(garden_of("pump_yard")), rounds=2)]
    assert steps[0].round == 0
    assert not steps[0].judged
    assert all(not faults_of(one.of.puzzle, one.layout) for one in steps)
    assert [one.judged for one in steps[:-1]] == [False] * (len(steps) - 1)


def test_without_the_solver_the_first_answer_is_judged(monkeypatch: pytest.MonkeyPatch):
    def missing(*_args: object, **_fields: object) -> None:
        raise propose_module.SolverError("OR-Tools is not installed")

    monkeypatch.setattr(propose_module, "search", missing)
    *_, last = propose(plan_of(garden_of("pump_yard")))
    assert (last.solver, last.judged, last.round) == (False, True, 0)
    assert not judged(last.garden, last.of.plan.year)


def test_only_some_beds_are_planned_anew():
    plan = plan_of(garden_of("eight_boards"))
    two = {one.id for one in plan.beds[:2]}
    *_, last = propose(plan, beds=two, rounds=1)
    before = set(plan.garden.plantings)
    assert {one.bed for one in last.garden.plantings if one not in before} <= two


# -- years on end -------------------------------------------------------------------------------------


def test_three_years_on_end_keep_every_rotation_and_starve_no_wish():
    beds = [bed(f"b{n}", rectangle(4.0, 1.2, center=(0.0, 2.0 * n)), name=f"Bed {n}") for n in range(6)]
    crops = ("potato", "onion", "carrot", "pea", "cabbage", "lettuce", "beetroot", "leek")
    now = garden(*beds, site=Site(latitude=54.0, longitude=-2.0), climate=CLIMATE)
    met: dict[str, int] = dict.fromkeys(crops, 0)
    for year in (2027, 2028, 2029):
        wishes = tuple(
            Wish(id=f"w{year}{n}", year=year, crop=crop, amount=2.4, unit="m2")
            for n, crop in enumerate(crops)
        )
        now = put(now, wishes=(*now.wishes, *wishes))
        *_, last = propose(Plan(now, year, CATALOGUE), rounds=2)
        now = last.garden
        for one in {one.wish: one for one in now.plantings if one.year == year}.values():
            met[one.crop] += 1
    assert all(not judged(now, year) for year in (2027, 2028, 2029))
    assert min(met.values()) >= 2
    assert sum(met.values()) >= 22  # of 24


# -- reasons ------------------------------------------------------------------------------------------


def reasons_of(proposal: Proposal) -> Reasons:
    return Reasons(proposal.of, proposal.layout)


def test_a_placement_says_what_shut_the_other_beds():
    """Four beds, each shut for one reason, and one that is open."""
    beds = [bed(f"b{n}", rectangle(3.0, 1.2, center=(0.0, 2.0 * n)), name=f"Bed {n}") for n in range(4)]
    there = garden(
        *beds,
        planting("p1", "b1", crop="parsnip", year=2025),
        planting("p2", "b2", crop="kale", year=2027, pinned=True),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        wishes=(
            Wish(id="w1", year=2027, crop="carrot", amount=3.0, unit="m2"),
            Wish(id="w2", year=2027, crop="carrot", amount=3.0, unit="m2", importance="could"),
        ),
    )
    *_, last = propose(Plan(there, 2027, CATALOGUE), rounds=2)
    (one, other) = reasons_of(last).placements()
    where = {
        one.wish.id: last.of.strips[last.of.puzzle.options[one.choices[0].option].bed].bed.id
        for one in (one, other)
    }
    assert set(where.values()) == {"b0", "b3"}
    verdicts = {last.of.strips[each.bed].bed.id: each.verdict for each in one.others}
    assert verdicts["b1"] == "rotation"
    assert verdicts["b2"] == "stands"
    assert verdicts[where["w2"]] == "full"


def test_the_most_of_an_unmet_wish_that_fits_is_counted_on_the_real_ground():
    beds = [bed("b0", rectangle(3.0, 1.2), name="Bed 0")]
    there = garden(
        *beds,
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        wishes=(
            Wish(id="w1", year=2027, crop="onion", amount=2.0, unit="m2", importance="must"),
            Wish(id="w2", year=2027, crop="carrot", amount=900, in_part=False),
        ),
    )
    *_, last = propose(Plan(there, 2027, CATALOGUE), rounds=1)
    assert [one.id for one in last.unmet] == ["w2"]
    most = reasons_of(last).most_that_fits(1)
    assert most is not None
    plan = Plan(last.garden, 2027, CATALOGUE)
    free = most.offer.way.draft.with_(id="p99", bed="b0", plot=most.offer.strip.plot(most.start, most.length))
    assert plan.trial(free).plants == most.amount
    (onion,) = last.garden.plantings
    assert not plan.trial(free).plot.intersection(plan.placed(onion).plot).area > 1e-6
    longer = free.with_(plot=most.offer.strip.plot(max(most.start - 1, 0), most.length + 1))
    assert plan.trial(longer).plot.intersection(plan.placed(onion).plot).area > 1e-6


# -- stocks that are limits ---------------------------------------------------------------------------


def raising_garden(**weights: bool) -> Garden:
    beds = [bed(f"b{n}", rectangle(4.0, 1.2, center=(0.0, 2.0 * n)), name=f"Bed {n}") for n in range(9)]
    wishes = tuple(
        Wish(id=f"w{n}", year=2027, crop=crop, amount=18, start="raised")
        for n, crop in enumerate(
            ("cabbage", "broccoli", "kale", "cauliflower", "leek", "celeriac", "lettuce", "chard")
        )
    )
    site = Site(latitude=54.0, longitude=-2.0, layout_weights=LayoutWeights(**weights))
    bench = Bench(id="n1", name="Sill", kind="heated", length=0.6, width=0.3)
    return garden(*beds, site=site, climate=CLIMATE, wishes=wishes, benches=(bench,))


def most_on_benches(garden: Garden) -> float:
    """The most ground that trays take on any day, by what the bench page reckons. [m2]"""
    plan = Plan(garden, 2027, CATALOGUE)
    standings = [part for one in on_bench_in_year(plan) for part in one.standings]
    return max(
        (
            sum(one.share for one in standings if one.first <= day <= one.last)
            for day in {s.first for s in standings}
        ),
        default=0.0,
    )


def test_no_more_is_raised_than_the_benches_hold_where_that_is_wished():
    *_, free = propose(Plan(raising_garden(), 2027, CATALOGUE), rounds=1)
    *_, held = propose(Plan(raising_garden(within_benches=True), 2027, CATALOGUE), rounds=1)
    room = sum(capacity(one) for one in held.garden.benches) * tray_area()
    assert most_on_benches(free.garden) > room
    assert 0 < most_on_benches(held.garden) <= room
    assert held.cost > free.cost  # some are begun later, or not at all


def test_no_more_lies_under_covers_than_the_shed_has_where_that_is_wished():
    beds = [bed(f"b{n}", rectangle(4.0, 1.2, center=(0.0, 2.0 * n)), name=f"Bed {n}") for n in range(3)]
    old = [
        planting(f"p{n}", f"b{n}", crop=crop, year=2026, covers=({"kind": "netting"},))
        for n, crop in enumerate(("carrot", "cabbage", "pea"))
    ]
    wishes = tuple(
        Wish(id=f"w{n}", year=2027, crop=one.crop, amount=4.0, unit="m2", like=one.id)
        for n, one in enumerate(old)
    )
    shed = (ShedItem(id="h1", kind="netting", length=5.0, width=2.0),)
    site = Site(latitude=54.0, longitude=-2.0, layout_weights=LayoutWeights(within_covers=True))
    there = garden(*beds, *old, site=site, climate=CLIMATE, wishes=wishes, shed=shed)
    assert most_netted(there) <= 10.0 + 1e-6
    free = there.with_(site=site.with_(layout_weights=LayoutWeights()))
    assert most_netted(free) > 10.0


def most_netted(garden: Garden) -> float:
    """The most ground of a proposal that lies under nets on any day. [m2]"""
    *_, last = propose(Plan(garden, 2027, CATALOGUE), rounds=1)
    plan = Plan(last.garden, 2027, CATALOGUE)
    netted = [
        (cover.on.day, cover.off.day if cover.off else plan.span_of(one).last, plan.placed(one).area)
        for one in last.garden.plantings
        if one.year == 2027
        for cover in plan.dates(one).covers
    ]
    assert netted
    return max(sum(area for a, b, area in netted if a <= day <= b) for day, _, _ in netted)
