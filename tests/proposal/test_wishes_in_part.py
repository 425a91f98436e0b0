"""Wishes that are met in part, against all amounts tried one by one, and in gardens whose answer is plain."""

from __future__ import annotations

from itertools import product
from random import Random
from typing import Any

import pytest
from making import bed, garden, planting, rectangle

from planner.checks import check_all
from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Site, Wish
from planner.garden.wishes import Importance, LayoutWeights
from planner.listings.proposal import proposal_lines
from planner.plan import Plan
from planner.proposal.costs import UNMET, cost_of_lack
from planner.proposal.garden_puzzle import garden_puzzle
from planner.proposal.in_part import parts_met
from planner.proposal.propose import Proposal, propose
from planner.proposal.puzzle import faults_of, meet
from planner.proposal.reasons import Reasons
from planner.proposal.ways import base_draft

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
#: Nothing counts but what is met.
NOTHING = LayoutWeights(
    shade="off",
    neighbours="off",
    splitting="off",
    scattering="off",
    covers="off",
    walking="off",
    change="off",
    bare_summer="off",
)
#: Each is in the ground on some day of all others.
ALL_SUMMER = ("parsnip", "leek", "celeriac", "salsify")


def made(*things: Any, wishes: tuple[Wish, ...], weights: LayoutWeights = NOTHING, **fields: Any) -> Garden:
    site = Site(latitude=54.0, longitude=-2.0, layout_weights=weights, **fields)
    return garden(*things, site=site, climate=CLIMATE, wishes=wishes)


def row(number: int, length: float) -> Any:
    return bed(f"b{number}", rectangle(length, 1.2, center=(0.0, 3.0 * number)), name=f"Bed {number}")


def wish(key: str, crop: str, amount: float, **fields: Any) -> Wish:
    return Wish(id=key, year=2027, crop=crop, amount=amount, **fields)


def laid_out(there: Garden, rounds: int = 3) -> Proposal:
    *_, last = propose(Plan(there, 2027, CATALOGUE), rounds=rounds)
    assert not faults_of(last.of.puzzle, last.layout)
    assert last.judged
    return last


def planted(proposal: Proposal, key: str, unit: str = "plants") -> float:
    """How much of a wish is planted, by the plan."""
    plan = Plan(proposal.garden, 2027, CATALOGUE)
    placed = [plan.placed(one) for one in proposal.garden.plantings if one.wish == key]
    return sum({"plants": one.plants, "m": one.layout.row_length, "m2": one.area}[unit] for one in placed)


# -- against all amounts -----------------------------------------------------------------------------


def counts(there: Garden, key: str) -> list[int]:
    """Plants of a wish in the first so many steps of the longest bed, laid out by the plan."""
    plan = Plan(there, 2027, CATALOGUE)
    longest = max(there.beds, key=lambda one: one.outline.length)
    draft = base_draft(plan, next(one for one in there.wishes if one.id == key), longest)
    steps = range(1, round(longest.outline.length / 0.1) + 1)
    drafts = (draft.with_(plot={"kind": "stretch", "start": 0.0, "end": n / 10}) for n in steps)
    return [0, *(plan.trial(one).plants for one in drafts)]


def least_cost(there: Garden) -> int:
    """The least that unmet wishes cost, over all lengths of all of them in all beds that do not overflow."""
    lengths = [round(one.outline.length / 0.1) for one in there.beds]
    choices = []
    for one in there.wishes:
        held = counts(there, one.id)
        mine = [(UNMET[one.importance], -1, 0)]
        for bed_number, longest in enumerate(lengths):
            seen = set()
            for steps in range(3, longest + 1):
                share = min(1.0, held[steps] / (one.amount or 1))
                enough = share >= 0.25 if one.in_part else share == 1
                if enough and share not in seen:
                    seen.add(share)
                    mine.append((round_up(cost_of_lack(one.importance, share)), bed_number, steps))
        choices.append(mine)
    return min(
        sum(cost for cost, _, _ in some)
        for some in product(*choices)
        if all(
            sum(steps for _, at, steps in some if at == number) <= longest
            for number, longest in enumerate(lengths)
        )
    )


def round_up(cost: float) -> int:
    return int(cost) + (cost > int(cost))


@pytest.mark.parametrize("seed", range(16))
def test_a_small_garden_is_laid_out_as_well_as_by_all_amounts(seed: int) -> None:
    chance = Random(seed)
    beds = [row(n, chance.randint(13, 18) / 10) for n in range(chance.randint(1, 2))]
    crops = chance.sample(ALL_SUMMER, 3 if len(beds) == 1 else 2)
    weights: tuple[Importance, ...] = ("must", "should", "should", "could")
    wishes = tuple(
        wish(
            f"w{n}",
            crop,
            chance.randint(4, 40),
            importance=chance.choice(weights),
            in_part=chance.random() < 0.8,
            back_after=0,
        )
        for n, crop in enumerate(crops)
    )
    there = made(*beds, wishes=wishes)
    of = garden_puzzle(Plan(there, 2027, CATALOGUE))
    assert all(meet(one, other) for one in of.puzzle.options for other in of.puzzle.options)
    found = laid_out(there, rounds=6)
    starts = sum(
        found.of.offers[one.option].way.number * 15 for one in found.layout
    )  # another start than the usual one
    assert found.cost - starts == least_cost(there)


# -- gardens whose answer is plain -------------------------------------------------------------------


def test_a_wish_longer_than_its_bed_has_what_the_bed_holds() -> None:
    there = made(row(0, 3.0), wishes=(wish("w1", "carrot", 200.0, unit="m"),))
    found = laid_out(there)
    assert [one.id for one in found.in_part] == ["w1"]
    assert not found.unmet
    (met,) = parts_met(found.of, found.layout).values()
    assert met.wanted == 200.0
    assert met.there == pytest.approx(planted(found, "w1", "m"))
    assert 50.0 < met.there < 200.0
    words = "\n".join(proposal_lines(found, Reasons(found.of, found.layout)))
    assert "1 more is met in part: carrot" in words
    assert f"{met.there:.2f} m of 200.00 m of row" in words
    assert "None of these beds has room for all of it" in words


def test_two_wishes_that_do_not_both_fit_share_the_bed_by_what_they_matter() -> None:
    """The one that must be is whole, the other has the rest, and it is said what would make room for all of it."""
    wishes = (wish("w1", "parsnip", 2.4, unit="m2", importance="must"), wish("w2", "leek", 2.4, unit="m2"))
    found = laid_out(made(row(0, 3.0), wishes=wishes))
    assert [one.id for one in found.in_part] == ["w2"]
    assert planted(found, "w1", "m2") == pytest.approx(2.4, abs=0.13)
    assert planted(found, "w2", "m2") == pytest.approx(3.6 - planted(found, "w1", "m2"))
    words = "\n".join(proposal_lines(found, Reasons(found.of, found.layout)))
    assert "All of it would fit in Bed 0 from 0.00 m on, if parsnip gave up its place" in words


def test_a_wish_that_stays_whole_or_is_for_seed_is_not_met_in_part() -> None:
    for fields in ({"in_part": False}, {"purpose": "seed"}):
        found = laid_out(made(row(0, 3.0), wishes=(wish("w1", "carrot", 200.0, unit="m", **fields),)))
        assert [one.id for one in found.unmet] == ["w1"]
        assert not found.in_part


def test_less_than_a_quarter_is_not_worth_a_bed() -> None:
    found = laid_out(made(row(0, 3.0), wishes=(wish("w1", "carrot", 3.7 * 4, unit="m2"),)))
    assert [one.id for one in found.unmet] == ["w1"]
    found = laid_out(made(row(0, 3.0), wishes=(wish("w1", "carrot", 3.5 * 4, unit="m2"),)))
    assert [one.id for one in found.in_part] == ["w1"]


def test_one_plant_is_not_cut() -> None:
    beds, there = row(0, 0.5), wish("w1", "pumpkin", 1)
    assert not laid_out(made(beds, wishes=(there,))).in_part


def test_a_divided_wish_is_met_in_part_in_as_many_beds_as_it_may_be() -> None:
    there = made(row(0, 1.5), row(1, 1.5), wishes=(wish("w1", "leek", 4.8, unit="m2", parts=2),))
    found = laid_out(there)
    assert [one.id for one in found.in_part] == ["w1"]
    assert len(found.layout) == 2
    assert planted(found, "w1", "m2") == pytest.approx(3.6)


def test_what_stands_leaves_a_part_of_a_wish() -> None:
    """Half of the bed is taken all year: what is left of it is planted, and the checks have nothing against it."""
    old = planting(
        "p1", "b0", crop="leek", year=2027, pinned=True, plot={"kind": "stretch", "start": 0.0, "end": 1.5}
    )
    there = made(row(0, 3.0), old, wishes=(wish("w1", "parsnip", 3.0, unit="m2"),))
    found = laid_out(there)
    assert planted(found, "w1", "m2") == pytest.approx(1.8)
    grave = [one.text for one in check_all(Plan(found.garden, 2027, CATALOGUE)) if one.severity == "stop"]
    assert not grave


def test_in_an_uneven_bed_as_much_is_planted_as_is_said() -> None:
    from planner.garden import Polygon

    shape = bed("bl", Polygon(points=((0, 0), (4, 0), (4, 1), (1, 1), (1, 3), (0, 3)), center=(12.0, 0.0)))
    found = laid_out(made(shape, wishes=(wish("w1", "parsnip", 2000),)))
    (met,) = parts_met(found.of, found.layout).values()
    assert met.there == planted(found, "w1")
    assert 500 <= met.there < 2000


def test_where_all_is_met_nothing_is_cut_and_nothing_is_added() -> None:
    there = made(row(0, 3.0), row(1, 3.0), wishes=(wish("w1", "parsnip", 30), wish("w2", "leek", 30)))
    of = garden_puzzle(Plan(there, 2027, CATALOGUE))
    found = laid_out(there)
    assert not found.in_part
    assert not found.unmet
    assert len(found.of.puzzle.options) == len(of.puzzle.options)


def test_the_same_rounds_give_the_same_parts() -> None:
    wishes = tuple(wish(f"w{n}", crop, 60) for n, crop in enumerate(ALL_SUMMER))
    there = made(row(0, 3.0), row(1, 2.0), wishes=wishes)
    assert laid_out(there).garden == laid_out(there).garden
