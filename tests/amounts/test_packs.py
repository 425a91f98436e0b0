"""Packs to buy, against trying every number of each."""

from __future__ import annotations

import itertools
import math
import random

import pytest

from planner.amounts.packs import MOST_SEARCHED, Bought, Pack, best_packs, price_of


def packs(*given: tuple[float, float | None]) -> list[Pack]:
    return [Pack(f"o{number}", size, price) for number, (size, price) in enumerate(given)]


def cost(bought: tuple[Bought, ...], need: float) -> tuple[float, float, int]:
    """Price, what is left over, and how many packs."""
    held = sum(one.number * one.pack.size for one in bought)
    assert held >= need - 1e-9
    price = sum(one.number * (one.pack.price or 0.0) for one in bought)
    return round(price, 6), round(held - need, 6), sum(one.number for one in bought)


def by_trying_all(need: float, given: list[Pack]) -> tuple[float, float, int]:
    """The least cost over every number of each pack that could be of use."""
    ranges = [range(math.ceil(need / pack.size) + 1) for pack in given]
    tried = (
        tuple(Bought(pack, number) for pack, number in zip(given, numbers, strict=True))
        for numbers in itertools.product(*ranges)
        if sum(n * pack.size for n, pack in zip(numbers, given, strict=True)) >= need - 1e-9
    )
    return min(cost(one, need) for one in tried)


@pytest.mark.parametrize("priced", [True, False])
def test_no_choice_of_packs_costs_less(priced: bool) -> None:
    rng = random.Random(41 + priced)
    for _ in range(300):
        given = packs(
            *(
                (rng.choice((3, 5, 10, 12, 25, 50, 7.5, 0.5)), rng.choice((0.0, 1.0, 2.25, 3.0, 4.0)) if priced else None)
                for _ in range(rng.randint(1, 3))
            )
        )  # fmt: skip
        need = rng.choice((1, 2.5, 9, 13, 24, 31))
        assert cost(best_packs(need, given), need) == by_trying_all(need, given)


def test_a_large_need_is_bought_as_well_as_one_by_one() -> None:
    """A plain table of the least cost for each amount, the yardstick of a need that is not searched in full."""
    rng = random.Random(7)
    for _ in range(20):
        sizes = rng.sample(range(3, 40), 3)
        prices = [rng.randint(1, 60) for _ in sizes]
        need = rng.randint(3_000, 4_000)
        table: list[tuple[int, int, int]] = [(0, 0, 0)]
        for left in range(1, need + 1):
            ways = []
            for size, price in zip(sizes, prices, strict=True):
                before = table[max(0, left - size)]
                ways.append((before[0] + price, before[1] + max(0, size - left), before[2] + 1))
            table.append(min(ways))
        found = best_packs(
            need, packs(*((size, float(price)) for size, price in zip(sizes, prices, strict=True)))
        )
        assert cost(found, need) == table[need]


def test_without_prices_the_least_is_left_over_and_then_the_packs_are_few() -> None:
    found = best_packs(120, packs((50, None), (20, None), (60, None)))
    assert [(one.pack.size, one.number) for one in found] == [(60, 2)]


def test_a_dearer_large_packet_is_left_where_small_ones_cost_less() -> None:
    found = best_packs(90, packs((100, 6.0), (30, 1.5)))
    assert [(one.pack.size, one.number) for one in found] == [(30, 3)]
    assert price_of(found) == 4.5


def test_packs_without_a_price_are_bought_only_where_none_has_one() -> None:
    assert best_packs(10, packs((10, None), (5, 2.0)))[0].pack.size == 5
    assert price_of(best_packs(10, packs((10, None)))) is None


def test_nothing_is_bought_without_packs_or_need() -> None:
    assert best_packs(10, []) == ()
    assert best_packs(0, packs((10, 1.0))) == ()
    assert price_of(()) is None


def test_a_need_beyond_what_is_searched_is_covered() -> None:
    found = best_packs(10_000_000, packs((997, 2.0), (1009, 2.1), (263, 0.6)))
    held = sum(one.number * one.pack.size for one in found)
    assert 10_000_000 <= held <= 10_000_000 + 1009
    assert MOST_SEARCHED < 10_000_000
