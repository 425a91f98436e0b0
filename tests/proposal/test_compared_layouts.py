"""Two layouts beside one another: which is better, by what, and in which words."""

from __future__ import annotations

import pickle
from dataclasses import replace
from typing import Any

import pytest
from making import bed, garden, planting, rectangle

from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Site, Wish
from planner.listings.compared_layouts import comparison_words, difference_words
from planner.listings.found_layout import found_layout
from planner.plan import Plan
from planner.proposal.compared_layouts import Merits, merits_of, worse_or_better
from planner.proposal.propose import Proposal, propose
from planner.proposal.puzzle import Layout, cost_of, faults_of

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
)
SMALL = garden(
    *(bed(f"b{n}", rectangle(4.0, 1.2, center=(0.0, 3.0 * n)), name=f"Bed {n}") for n in (1, 2)),
    planting("p1", "b1", crop="beetroot", year=2026),
    site=Site(latitude=54.0, longitude=-2.0),
    climate=CLIMATE,
    wishes=(
        Wish(id="w1", year=2027, crop="carrot", amount=40, importance="must"),
        Wish(id="w2", year=2027, crop="beetroot", amount=20, like="p1"),
        Wish(id="w3", year=2027, crop="leek", amount=30),
    ),
)


def laid_out(there: Garden = SMALL) -> Proposal:
    *_, last = propose(Plan(there, 2027, CATALOGUE), rounds=2)
    assert not last.unmet
    return last


def with_layout(proposal: Proposal, layout: Layout) -> Proposal:
    assert not faults_of(proposal.of.puzzle, layout)
    return replace(proposal, layout=layout, cost=cost_of(proposal.of.puzzle, layout))


def without(proposal: Proposal, key: str) -> Proposal:
    offers = proposal.of.offers
    return with_layout(proposal, tuple(one for one in proposal.layout if offers[one.option].wish.id != key))


def merits(cost: int = 0, **fields: Any) -> Merits:
    return Merits(**{"cost": cost, "shares": {}, "grades": {}, "places": frozenset({cost}), **fields})


def test_the_same_layout_is_said_to_be_the_same() -> None:
    one, again = merits_of(laid_out()), merits_of(laid_out())
    assert one == again
    found = worse_or_better(again, one)
    assert found is not None
    assert found.verdict == "same"
    assert "the layout that is shown, and no better one" in comparison_words(again, one)


def test_a_wish_that_is_lost_makes_it_worse_and_is_counted() -> None:
    whole = laid_out()
    less = without(whole, "w3")
    found = worse_or_better(merits_of(less), merits_of(whole))
    assert found is not None
    assert (found.verdict, found.whole, found.musts) == ("worse", -1, 0)
    assert found.points == less.cost - whole.cost > 0
    assert "1 wish less met whole" in comparison_words(merits_of(less), merits_of(whole))
    back = worse_or_better(merits_of(whole), merits_of(less))
    assert back is not None
    assert (back.verdict, back.whole, back.points) == ("better", 1, -found.points)


def test_a_must_is_said_first() -> None:
    whole = laid_out()
    found = worse_or_better(merits_of(without(whole, "w1")), merits_of(whole))
    assert found is not None
    assert found.musts == 1
    assert next(iter(difference_words(found))) == "1 wish that must be met is not any more"


def test_another_bed_than_this_year_is_counted_from_the_plantings() -> None:
    proposal = laid_out()
    there = {proposal.of.offers[one.option].wish.id: one for one in proposal.layout}
    options, offers = proposal.of.puzzle.options, proposal.of.offers
    moved = merits_of(proposal).moved
    planted = next(one for one in proposal.garden.plantings if one.wish == "w2" and one.year == 2027)
    assert moved == (frozenset() if planted.bed == "b1" else frozenset({"w2"}))
    # The same beetroot, alone in each of the beds in turn.
    for number, one in enumerate(options):
        if offers[number].wish.id == "w2" and one.parts == 1 and offers[number].share == 1 and not one.shut:
            alone = with_layout(proposal, (there["w2"]._replace(option=number, start=0),))
            assert merits_of(alone).moved == (frozenset() if offers[number].strip.bed.id == "b1" else {"w2"})


def test_layouts_for_other_wishes_are_not_compared() -> None:
    one = merits_of(laid_out())
    fewer = SMALL.model_copy(update={"wishes": SMALL.wishes[:2]})
    other = merits_of(laid_out(fewer))
    assert worse_or_better(one, other) is None
    assert comparison_words(one, other) == ""


def test_another_importance_is_another_wish() -> None:
    one = merits(grades={"w1": "could"}, shares={"w1": 1.0})
    assert worse_or_better(one, replace(one, grades={"w1": "must"})) is None


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"moved": frozenset({"w1", "w2"})}, "2 more in other beds than this year"),
        ({"shifted": frozenset({"w1"})}, "1 more begun on another day"),
        ({"divided": frozenset({"w1"})}, "1 more divided"),
        ({"families": 3}, "families scattered over 3 beds more"),
        ({"cost": 70}, "70 points more"),
    ],
)
def test_each_difference_has_its_words_either_way(fields: dict[str, Any], words: str) -> None:
    plain, other = merits(places=frozenset({"one"})), merits(**fields, places=frozenset({"other"}))
    more, less = worse_or_better(other, plain), worse_or_better(plain, other)
    assert more is not None
    assert less is not None
    assert words in list(difference_words(more))
    assert words.replace("more", "less") in list(difference_words(less))


def test_as_good_and_elsewhere_is_no_better() -> None:
    found = worse_or_better(merits(places=frozenset({"a"})), merits(places=frozenset({"b"})))
    assert found is not None
    assert found.verdict == "as good"
    assert list(difference_words(found)) == ["plantings in other places"]


def test_the_page_gets_them_as_plain_values() -> None:
    proposal = laid_out()
    found = pickle.loads(pickle.dumps(found_layout(proposal)))
    assert found.merits == merits_of(proposal)
