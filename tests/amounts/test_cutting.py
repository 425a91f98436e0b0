"""Cut lists against brute force, a second program, and published instances."""

from __future__ import annotations

import csv
import itertools
from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.amounts.cuts import Bar, CutList
from planner.amounts.cutting import cut_list, millimetres
from planner.garden.units import FOOT, INCH

REFERENCE = Path(__file__).parents[1] / "reference"

#: Paper rolls of 5600 mm: widths and numbers.  The optimum is 73 rolls, with 0.401 % of waste (Wikipedia, Cutting stock
#: problem, section "Illustration", which credits Jongbloed's and Goulimis's computations).
PAPER = {1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12, 2100: 14,
         2140: 16, 2150: 18, 2200: 20}  # fmt: skip


def falkenauer() -> list[dict[str, str]]:
    """Bin packing instances of OR-Library (binpack1; Falkenauer 1996, J. Heuristics 2:5-30) with their fewest bins."""
    with (REFERENCE / "falkenauer_bin_packing.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def hold(found: CutList, pieces: dict[int, int], bars: list[Bar]) -> None:
    """All pieces are cut, once each, from bars that are there, and the sums are true."""
    cut: Counter[int] = Counter()
    used: Counter[tuple[int, bool]] = Counter()
    for one in found.cuts:
        assert one.rest >= 0
        assert one.pieces
        used[one.bar, one.on_hand] += one.times
        for length, number in one.pieces:
            cut[length] += number * one.times
    for length, number in found.too_long:
        cut[length] += number
    assert cut == Counter({length: number for length, number in pieces.items() if number})
    for (bar, on_hand), number in used.items():
        there = sum(one.number or 0 for one in bars if one.length == bar and one.number is not None)
        assert number <= there if on_hand else Bar(bar) in bars
    assert found.bought == sum(bar * number for (bar, on_hand), number in used.items() if not on_hand)
    assert 0 <= found.bound <= found.bought


def brute_force(pieces: dict[int, int], bars: list[Bar]) -> int:
    """The least length to buy, from all ways to share the pieces out among bars. [mm]"""
    items = [length for length, number in pieces.items() for _ in range(number)]
    sold = [bar.length for bar in bars if bar.number is None]
    there = [bar.length for bar in bars if bar.number is not None for _ in range(bar.number)]
    best = [sum(min(bar for bar in sold if bar >= item) for item in items)]

    def share(place: int, rooms: list[int], opened: list[int], cost: int) -> None:
        if cost >= best[0]:
            return
        if place == len(items):
            best[0] = cost
            return
        item = items[place]
        for at in range(len(rooms)):
            if rooms[at] >= item:
                share(place + 1, [*rooms[:at], rooms[at] - item, *rooms[at + 1 :]], opened, cost)
        for bar in set(sold):
            if bar >= item:
                share(place + 1, [*rooms, bar - item], opened, cost + bar)

    share(0, there, [], 0)
    return best[0]


def test_paper_rolls_of_the_literature():
    found = cut_list(PAPER, [Bar(5600)])
    hold(found, PAPER, [Bar(5600)])
    assert found.bought == 73 * 5600
    assert found.proven
    assert found.waste / found.bought == pytest.approx(0.00401, abs=5e-6)


@pytest.mark.parametrize("instance", falkenauer(), ids=lambda one: one["name"])
def test_bins_of_the_or_library(instance):
    capacity, fewest = int(instance["capacity"]), int(instance["fewest_bins"])
    pieces = dict(Counter(int(item) for item in instance["items"].split()))
    found = cut_list(pieces, [Bar(capacity)])
    hold(found, pieces, [Bar(capacity)])
    assert found.bound <= fewest * capacity, "the bound is one"
    assert found.bought <= (fewest + 1) * capacity
    if found.proven:
        assert found.bought == fewest * capacity


SMALL = st.dictionaries(st.integers(2, 12), st.integers(1, 3), min_size=1, max_size=4).filter(
    lambda pieces: sum(pieces.values()) <= 7
)
BARS = st.tuples(
    st.sets(st.integers(12, 25), min_size=1, max_size=2),
    st.dictionaries(st.integers(4, 20), st.integers(1, 2), max_size=2),
).map(lambda both: [*(Bar(one) for one in both[0]), *(Bar(*one) for one in both[1].items())])


@settings(max_examples=150, deadline=None)
@given(SMALL, BARS)
def test_small_lists_are_as_brute_force_finds_them(pieces, bars):
    found = cut_list(pieces, bars)
    hold(found, pieces, bars)
    assert found.proven
    assert found.bought == brute_force(pieces, bars)


@settings(max_examples=60, deadline=None)
@given(
    st.dictionaries(st.integers(150, 2400), st.integers(1, 30), min_size=1, max_size=12),
    st.sets(st.sampled_from([2400, 3000, 3600]), min_size=1),
    st.dictionaries(st.integers(300, 4000), st.integers(1, 5), max_size=3),
)
def test_any_list_is_whole_and_not_below_its_bound(pieces, sold, there):
    bars = [*map(Bar, sold), *(Bar(*one) for one in there.items())]
    found = cut_list(pieces, bars, steps=200)
    hold(found, pieces, bars)


def patterns(lengths: list[int], bar: int) -> list[tuple[int, ...]]:
    """All sets of pieces that one bar holds."""
    numbers = [range(bar // length + 1) for length in lengths]
    return [
        held
        for held in itertools.product(*numbers)
        if any(held) and sum(a * b for a, b in zip(held, lengths, strict=True)) <= bar
    ]


@settings(max_examples=25, deadline=None)
@given(
    st.dictionaries(st.integers(600, 2400), st.integers(1, 15), min_size=1, max_size=5),
    st.sets(st.sampled_from([2400, 3000, 4200]), min_size=1),
    st.dictionaries(st.sampled_from([2400, 2700]), st.integers(1, 4), max_size=2),
)
def test_an_integer_program_buys_no_less_than_the_bound_and_as_much_as_is_proven(pieces, sold, there):
    from scipy.optimize import Bounds, LinearConstraint, milp

    lengths = sorted(pieces)
    columns, costs, uses = [], [], []
    for length in sorted(sold):
        for held in patterns(lengths, length):
            columns.append(held)
            costs.append(length)
            uses.append(None)
    for length in sorted(there):
        for held in patterns(lengths, length):
            columns.append(held)
            costs.append(0)
            uses.append(length)
    rows = [LinearConstraint(np.array(columns).T, [pieces[length] for length in lengths], np.inf)]
    for length, number in there.items():
        rows.append(
            LinearConstraint(np.array([[use == length for use in uses]], dtype=float), -np.inf, number)
        )
    best = milp(np.array(costs, float), constraints=rows, integrality=np.ones(len(costs)), bounds=Bounds(0))
    assert best.success
    bars = [*map(Bar, sold), *(Bar(*one) for one in there.items())]
    found = cut_list(pieces, bars)
    hold(found, pieces, bars)
    optimum = round(best.fun)
    assert found.bound <= optimum <= found.bought
    if found.proven:
        assert found.bought == optimum


def test_what_is_on_hand_is_taken_before_anything_is_bought():
    found = cut_list({1000: 4}, [Bar(2400), Bar(2000, 1), Bar(1100, 2)])
    assert found.bought == 0
    assert found.bars(on_hand=True) == {2000: 1, 1100: 2}


def test_pieces_longer_than_is_sold_come_from_what_is_on_hand_or_are_named():
    found = cut_list({3000: 2, 500: 1}, [Bar(2400), Bar(3600, 1)])
    hold(found, {3000: 2, 500: 1}, [Bar(2400), Bar(3600, 1)])
    assert found.too_long == ((3000, 1),)
    assert found.bought == 0


def test_nothing_wanted_buys_nothing():
    assert cut_list({}, [Bar(2400)]) == CutList((), 0, 0)
    assert cut_list({100: 0}, []) == CutList((), 0, 0)
    assert cut_list({100: 2}, []).too_long == ((100, 2),)


def test_a_gap_is_shown_where_nothing_is_proven():
    pieces = dict(Counter(int(item) for item in falkenauer()[0]["items"].split()))
    hasty = cut_list(pieces, [Bar(151)], steps=1)
    assert hasty.gap == 1 - hasty.bound / hasty.bought


def test_many_lengths_go_as_deep_as_python_does():
    pieces = {2_000 + 50 * number: 3 for number in range(400)}
    found = cut_list(pieces, [Bar(50_000), Bar(100_000), Bar(30_000, 3)])
    hold(found, pieces, [Bar(50_000), Bar(100_000), Bar(30_000, 3)])
    single = cut_list({1001: 2_000, 999: 777}, [Bar(2_000)])
    hold(single, {1001: 2_000, 999: 777}, [Bar(2_000)])
    assert single.bound <= single.bought


def test_a_great_many_pieces_are_cut_at_once():
    found = cut_list({1500: 60_000_000, 700: 30_000_000}, [Bar(2400), Bar(3000)])
    assert found.bought >= found.bound > 0
    assert sum(cut.times for cut in found.cuts) > 30_000_000


def test_lengths_are_whole_millimetres_of_pieces_as_of_bars():
    assert [millimetres(length) for length in (1.2, 0.29999999999999999, 1.2345)] == [1200, 300, 1234]


@given(st.lists(st.integers(6, 120), min_size=1, max_size=12), st.integers(36, 240))
def test_pieces_in_inches_that_make_up_a_bar_are_cut_from_it(inches, bar):
    fits = sum(inches) <= bar
    pieces = Counter(millimetres(length * INCH) for length in inches)
    found = cut_list(pieces, [Bar(millimetres(bar * INCH), 1)])
    if fits:
        assert not found.too_long
        assert found.cuts[0].times == 1
    assert millimetres(6 * FOOT) <= Bar(millimetres(1.8288)).length, "6 ft come from 6 ft"
