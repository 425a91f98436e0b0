"""Sheets laid of parts, against brute force over all ways to divide them."""

from __future__ import annotations

import math
import time
from collections import Counter
from random import Random

from divided_sheets import brute_force
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.amounts.cuts import Bar, CutList
from planner.amounts.joining import MOST_TRIED, joined_list
from planner.amounts.long_pieces import join_long


def hold(found: CutList, pieces: dict[int, int], bars: list[Bar], overlap: int) -> None:
    """Every sheet is cut, whole or of parts that overlap, from rolls that are there, and the sums are true."""
    cut: Counter[int] = Counter()
    used: Counter[tuple[int, bool]] = Counter()
    parts_of: Counter[tuple[int, int]] = Counter()
    for one in found.cuts:
        assert one.rest >= 0
        used[one.bar, one.on_hand] += one.times
        for length, number in one.pieces:
            cut[length] += number * one.times
        for length, whole, number in one.of:
            parts_of[length, whole] += number * one.times
    for one in found.joined:
        assert sum(one.parts) == one.length + overlap * (len(one.parts) - 1)
        assert all(part > overlap for part in one.parts)
        cut[one.length] += one.times
        for part in one.parts:
            cut[part] -= one.times
            parts_of[part, one.length] -= one.times
    assert not any(parts_of.values())
    for length, number in found.too_long:
        cut[length] += number
    assert +cut == Counter({length: number for length, number in pieces.items() if number})
    assert not -cut
    for (bar, on_hand), number in used.items():
        there = sum(one.number or 0 for one in bars if one.length == bar and one.number is not None)
        assert number <= there if on_hand else Bar(bar) in bars
    assert found.bought == sum(bar * number for (bar, on_hand), number in used.items() if not on_hand)
    assert 0 <= found.bound <= found.bought


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.integers(2, 14), min_size=1, max_size=3).filter(lambda sheets: sum(sheets) <= 26),
    st.sets(st.sampled_from([5, 6, 8, 10]), min_size=1, max_size=2),
    st.lists(st.integers(3, 9), max_size=2),
    st.sampled_from([1, 2]),
)
def test_small_lists_with_joins_buy_what_brute_force_buys(sheets, sold, there, overlap):
    pieces, bars = dict(Counter(sheets)), [*map(Bar, sold), *(Bar(*one) for one in Counter(there).items())]
    found = joined_list(pieces, bars, overlap)
    hold(found, pieces, bars, overlap)
    least = brute_force(sheets, sorted(sold), there, overlap)
    assert found.bound <= least, "the bound is one"
    assert least <= found.bought
    if len(sheets) + len(there) + found.bought // min(sold) <= MOST_TRIED:
        assert found.proven, "small lists are searched"
    if found.proven:
        assert found.bought == least


@settings(max_examples=80, deadline=None)
@given(
    st.dictionaries(st.integers(500, 60_000), st.integers(1, 12), min_size=1, max_size=8),
    st.sets(st.sampled_from([5000, 10_000, 25_000]), min_size=1),
    st.dictionaries(st.integers(1000, 20_000), st.integers(1, 4), max_size=3),
)
def test_any_list_is_whole_not_below_its_bound_and_no_more_than_one_tape_of_all(pieces, sold, there):
    bars = [*map(Bar, sold), *(Bar(*one) for one in there.items())]
    found = joined_list(pieces, bars, 400)
    hold(found, pieces, bars, 400)
    total, longest = sum(length * number for length, number in pieces.items()), max(sold)
    assert found.bought <= longest * math.ceil(max(1, total - 400) / (longest - 400))


def test_two_rolls_for_a_sheet_longer_than_one_and_a_shorter():
    found = joined_list({11_200: 1, 5_900: 1}, [Bar(5_000), Bar(10_000)], 400)
    hold(found, {11_200: 1, 5_900: 1}, [Bar(5_000), Bar(10_000)], 400)
    assert (found.bought, found.proven) == (20_000, True)
    assert [one.parts for one in found.joined] == [(10_000, 1_600)]


def test_pieces_in_the_shed_are_joined_before_a_roll_is_bought():
    found = joined_list({11_200: 1}, [Bar(10_000), Bar(6_000, 2)], 400)
    assert (found.bought, found.bars(on_hand=True)) == (0, {6_000: 2})
    assert [(one.parts, one.on_hand) for one in found.joined] == [((6_000, 5_600), True)]


def test_a_large_piece_in_the_shed_is_left_where_a_smaller_one_serves():
    found = joined_list({1_900: 1}, [Bar(10_000), Bar(20_000, 1), Bar(2_400, 1), Bar(8_000, 1)], 400)
    assert found.bars(on_hand=True) == {2_400: 1}


def test_sheets_are_whole_where_that_buys_no_more():
    found = joined_list({6_000: 1, 3_900: 2, 2_000: 1}, [Bar(10_000)], 400)
    assert (found.bought, found.joined) == (20_000, ())


def test_nothing_sold_leaves_what_the_shed_does_not_hold():
    found = joined_list({9_000: 1, 4_000: 1}, [Bar(5_000, 1)], 400)
    assert (found.too_long, found.bought) == (((9_000, 1),), 0)
    assert joined_list({9_000: 1}, [], 400).too_long == ((9_000, 1),)


def test_a_great_many_sheets_are_cut_at_once():
    bars = [Bar(10_000), Bar(25_000)]
    found = joined_list({9_999_000: 6_000, 3_000: 5}, bars, 400)
    hold(found, {9_999_000: 6_000, 3_000: 5}, bars, 400)


def test_only_what_is_too_long_is_joined_where_the_rest_stays_whole():
    parts, joined = join_long({4_800: 1, 2_350: 3}, 3_000, 300)
    assert parts == {3_000: 1, 2_100: 1, 2_350: 3}
    assert [(one.length, one.parts) for one in joined] == [(4_800, (3_000, 2_100))]


def test_many_sheets_and_a_full_shed_are_cut_in_seconds():
    random = Random(1)
    pieces = Counter(random.randrange(2_000, 13_000, 10) for _ in range(600))
    bars = [Bar(10_000), Bar(5_000), *(Bar(random.randrange(2_000, 15_000), 1, 2_000) for _ in range(30))]
    begun = time.perf_counter()
    found = joined_list(pieces, bars, 400)
    assert time.perf_counter() - begun < 20, "some seconds on any machine"
    hold(found, pieces, bars, 400)
    assert found.bought <= 1.06 * found.bound
