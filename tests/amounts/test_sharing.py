"""Pieces shared over time: never in two places, never one too many, nothing bought that is there."""

from __future__ import annotations

import datetime as dt
import itertools

from hypothesis import given, settings
from hypothesis import strategies as st

from planner.amounts.sharing import Job, Pile, Stored, first_uses, most_at_once, most_in_use, share

START = dt.date(2026, 1, 1)
DAYS = st.integers(0, 20)
SIZES = st.sampled_from([1.0, 2.0, 3.0])


def day(number: int) -> dt.date:
    return START + dt.timedelta(days=number)


def job(key: str, first: int, last: int, *size: float, number: int = 1) -> Job:
    return Job(key, day(first), day(last), size, number)


@st.composite
def jobs(draw, sizes=SIZES, directions=1, most=3):
    found = []
    for number in range(draw(st.integers(1, 7))):
        first = draw(DAYS)
        size = tuple(draw(sizes) for _ in range(directions))
        found.append(
            Job(
                str(number),
                day(first),
                day(first + draw(st.integers(0, 8))),
                size,
                draw(st.integers(1, most)),
            )
        )
    return found


def hold(piles: tuple[Pile, ...], wanted: list[Job]) -> None:
    """Every job has all its pieces, large enough, and no piece is in two places on a day."""
    for one in wanted:
        got = [(pile, use) for pile in piles for use in pile.uses if use.job == one]
        assert sum(use.number for _, use in got) == one.number
        for pile, _ in got:
            assert all(there >= size for there, size in zip(pile.size, one.size, strict=True))
    for pile in piles:
        for at in range(40):
            busy = sum(use.number for use in pile.uses if use.job.first <= day(at) <= use.job.last)
            assert busy <= pile.number
        first = first_uses(pile)
        assert [use.job for use in first] == [use.job for use in pile.uses]
        assert sum(use.number for use in first) == most_in_use(pile)


@settings(max_examples=200)
@given(jobs(sizes=st.just(1.0)), st.integers(0, 6))
def test_of_one_size_no_more_is_wanted_than_is_in_use_at_once(wanted, there):
    piles = share(wanted, [Stored("m1", (1.0,), there)] if there else [])
    hold(piles, wanted)
    bought = sum(pile.number for pile in piles if pile.origin == "new")
    assert bought == max(0, most_at_once(wanted) - there)


def brute_force(wanted: list[Job]) -> int:
    """The least number of sheets: colours of jobs such that no two at one time share one."""
    for number in range(1, len(wanted) + 1):
        for colours in itertools.product(range(number), repeat=len(wanted)):
            clash = any(
                a.first <= b.last and b.first <= a.last and one == other
                for (a, one), (b, other) in itertools.combinations(zip(wanted, colours, strict=True), 2)
            )
            if not clash:
                return number
    return 0


@settings(max_examples=60, deadline=None)
@given(jobs(directions=2, sizes=st.sampled_from([1.0, 4.0]), most=1).map(lambda found: found[:5]))
def test_of_one_width_the_number_of_sheets_is_that_of_brute_force(wanted):
    same = [one._replace(size=(one.size[0], 2.0)) for one in wanted]
    piles = share(same, grows=True)
    hold(piles, same)
    assert sum(pile.number for pile in piles) == brute_force(same)
    assert sum(pile.size[0] for pile in piles) <= sum(one.size[0] for one in same)


@settings(max_examples=200)
@given(
    jobs(directions=2),
    st.lists(st.tuples(SIZES, SIZES, st.integers(1, 2)), max_size=3),
    st.booleans(),
)
def test_nothing_is_wanted_twice_at_once_and_nothing_on_hand_is_bought(wanted, there, grows):
    stored = [Stored(f"m{i}", (a, b), n) for i, (a, b, n) in enumerate(there)]
    piles = share(wanted, stored, grows=grows)
    hold(piles, wanted)
    used = {pile.key: pile for pile in piles if pile.origin == "shed"}
    for pile in piles:
        if pile.origin != "new":
            continue
        for use in pile.uses:
            for one in stored:
                if all(a >= b for a, b in zip(one.size, use.job.size, strict=True)):
                    assert one.key in used, "what fits and lies in the shed is used"
                    busy = most_at_once(
                        other.job._replace(number=other.number)
                        for other in used[one.key].uses
                        if other.job.first <= use.job.last and other.job.last >= use.job.first
                    )
                    assert busy == one.number, "all of them are in use somewhere in that time"


def test_a_net_free_in_july_serves_again_in_august():
    piles = share([job("a", 0, 10, 5.0, 2.0), job("b", 11, 20, 6.0, 2.0)], grows=True)
    assert [(pile.size, pile.number, len(pile.uses)) for pile in piles] == [((6.0, 2.0), 1, 2)]
    apart = share([job("a", 0, 11, 5.0, 2.0), job("b", 11, 20, 6.0, 2.0)], grows=True)
    assert len(apart) == 2, "on the day it is lifted it lies there still"


def test_what_lies_since_before_the_year_is_not_bought():
    piles = share([job("a", 0, 10, 5.0), job("b", 12, 20, 5.0)], lying_before=day(5))
    assert [(pile.origin, pile.number, len(pile.uses)) for pile in piles] == [("lying", 1, 2)]


def test_long_poles_in_the_shed_are_left_to_be_cut():
    stored = [Stored("m1", (3.0,), 5)]
    assert share([job("a", 0, 10, 1.5)], stored, whole_below=2.0)[0].origin == "new"
    assert share([job("a", 0, 10, 1.6)], stored, whole_below=2.0)[0].origin == "shed"
