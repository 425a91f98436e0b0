"""Layouts taken over, whole or in part: nothing else of the garden changes."""

from __future__ import annotations

import pytest
from making import bed, garden, planting, rectangle

from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Site, Stretch, Wish
from planner.garden.edits.common import EditError
from planner.plan import Plan
from planner.proposal.garden_puzzle import garden_puzzle
from planner.proposal.greedy import greedy
from planner.proposal.layouts import accepted, garden_with
from planner.proposal.puzzle import Choice

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
BEDS = [bed(f"b{n}", rectangle(4.0, 1.2, center=(0.0, 3.0 * n)), name=f"Bed {n}") for n in (1, 2)]
WISHES = (
    Wish(id="w1", year=2027, crop="carrot", amount=40),
    Wish(id="w2", year=2027, crop="beetroot", amount=20),
    Wish(id="w3", year=2027, crop="leek", amount=30),
)


def made(*plantings):
    return garden(*BEDS, *plantings, wishes=WISHES, site=Site(latitude=54.0, longitude=-2.0), climate=CLIMATE)


def proposed(one):
    of = garden_puzzle(Plan(one, 2027, CATALOGUE))
    return of, greedy(of.puzzle)


def take(one, of, layout, wishes=None, **fields):
    """A layout taken over as the window does: from what is proposed, and what was free to move."""
    new = garden_with(of, layout).plantings[len(of.plan.garden.plantings) :]
    return accepted(Plan(one, 2027, CATALOGUE), new, [each.id for each in of.freed], wishes, **fields)


def by_wish(one):
    return {each.wish: each for each in one.plantings}


def test_all_of_a_layout_or_some_of_it():
    one = made(planting("p9", "b1", crop="garlic", year=2026, plot=Stretch(start=0.0, end=0.5)))
    of, layout = proposed(one)
    whole = take(one, of, layout)
    assert whole == garden_with(of, layout)
    assert set(by_wish(whole)) == {None, "w1", "w2", "w3"}
    some = take(one, of, layout, {"w2"}, pinned=True)
    assert set(by_wish(some)) == {None, "w2"}
    assert by_wish(some)["w2"] == by_wish(whole)["w2"].with_(pinned=True)
    assert some.plantings[0] is one.plantings[0]
    assert not by_wish(whole)["w2"].pinned


def test_new_plantings_never_take_the_id_of_one_that_may_move():
    one = made(planting("p1", "b1", crop="leek", year=2027, wish="w3"))
    of, layout = proposed(one)
    ids = [each.id for each in garden_with(of, layout).plantings]
    assert len(set(ids)) == len(ids) == 3
    assert by_wish(garden_with(of, layout))["w3"].id == "p1"


def test_what_is_not_taken_over_stays_as_it_was_unless_it_is_in_the_way():
    old = planting("p1", "b2", crop="leek", year=2027, wish="w3", plot=Stretch(start=1.0, end=3.9))
    one = made(old)
    of, _ = proposed(one)
    options = of.puzzle.options
    carrot = next(n for n, each in enumerate(options) if each.wish == 0 and each.bed == 0)
    beside = take(one, of, (Choice(carrot, 0),), {"w1"})
    assert by_wish(beside)["w3"] == old
    over = next(n for n, each in enumerate(options) if each.wish == 0 and each.bed == 1)
    with pytest.raises(EditError, match=r"Carrot would stand in Bed 2 on the ground of leek, which stays"):
        take(one, of, (Choice(over, 12),), {"w1"})
    # where the leek goes away as well, the ground is free
    both = take(one, of, (Choice(over, 12),))
    assert set(by_wish(both)) == {"w1"}


def test_a_pinned_planting_stays_and_the_others_follow():
    one = made()
    of, layout = proposed(one)
    pinned = take(one, of, layout, {"w1"}, pinned=True)
    again, anew = proposed(pinned)
    assert again.met == ("w1",)
    there = take(pinned, again, anew)
    assert by_wish(there)["w1"] is by_wish(pinned)["w1"]
    assert set(by_wish(there)) == {"w1", "w2", "w3"}


def test_what_has_an_id_that_is_taken_meanwhile_gets_another():
    """Plantings of unlike layouts are numbered alike: one of another layout was planted first."""
    one = made()
    of, layout = proposed(one)
    new = garden_with(of, layout).plantings
    first = accepted(Plan(one, 2027, CATALOGUE), [new[0].with_(wish=new[1].wish, crop=new[1].crop)], ())
    rest = [each for each in new if each.wish != new[1].wish]
    after = accepted(Plan(first, 2027, CATALOGUE), rest, ())
    ids = [each.id for each in after.plantings]
    assert len(ids) == len(set(ids)) == 3
    assert {each.wish for each in after.plantings} == {"w1", "w2", "w3"}
