"""Numbers of seeds, against brute force and against scipy."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from scipy import stats

from planner.amounts.seeds import RAISED_SURE, seeds_per_station, seeds_to_raise
from planner.season.practice import STATION_SURE


def brute_seeds_per_station(per_cent: int) -> int:
    """Seeds added one by one, in exact fractions, until a failure is as rare as it must be."""
    fails, chance, seeds = Fraction(100 - per_cent, 100), Fraction(1), 0
    while chance > Fraction(5, 100):
        chance *= fails
        seeds += 1
    return seeds


@pytest.mark.parametrize("per_cent", range(1, 101))
def test_seeds_per_station_by_brute_force(per_cent):
    assert seeds_per_station(per_cent / 100) == brute_seeds_per_station(per_cent)


@pytest.mark.parametrize("germination", [0.3, 0.55, 0.6, 0.75, 0.8, 0.85, 0.9, 0.99])
def test_one_seed_fewer_would_not_do(germination):
    seeds = seeds_per_station(germination)
    assert 1 - (1 - germination) ** seeds >= STATION_SURE - 1e-12
    assert seeds == 1 or 1 - (1 - germination) ** (seeds - 1) < STATION_SURE


@pytest.mark.parametrize("plants", [1, 2, 3, 4, 6, 10, 24, 40, 72, 100, 333, 1_000, 5_000, 100_000])
@pytest.mark.parametrize("germination", [0.001, 0.05, 0.3, 0.5, 0.55, 0.7, 0.75, 0.8, 0.9, 0.95, 0.99, 0.999])
def test_seeds_to_raise_are_scipys_binomial_quantile(plants, germination):
    seeds = seeds_to_raise(plants, germination)
    assert stats.binom.sf(plants - 1, seeds, germination) >= RAISED_SURE - 1e-9
    assert seeds == plants or stats.binom.sf(plants - 1, seeds - 1, germination) < RAISED_SURE + 1e-9
    if germination >= 0.05 and plants <= 1_000:
        assert seeds == plants + stats.nbinom.ppf(RAISED_SURE, plants, germination)


@pytest.mark.parametrize("plants", range(1, 13))
def test_seeds_to_raise_by_brute_force_in_fractions(plants):
    g = Fraction(3, 4)
    seeds = plants
    while sum(
        math.comb(seeds, k) * g**k * (1 - g) ** (seeds - k) for k in range(plants, seeds + 1)
    ) < Fraction(9, 10):
        seeds += 1
    assert seeds_to_raise(plants, 0.75) == seeds


def test_cornell_suffolk_four_seeds_for_three_plants_are_not_enough_to_be_sure():
    """Cornell Cooperative Extension Suffolk: 3 plants at 75 % take ceil(3 / 0.75) = 4 seeds on average;
    to have them in nine cases of ten takes more."""
    assert math.ceil(3 / 0.75) == 4
    assert stats.binom.sf(2, 4, 0.75) < 0.9
    assert seeds_to_raise(3, 0.75) > 4


def test_nebraska_extension_half_the_seed_comes_up_so_at_least_twice_is_sown():
    """Nebraska Extension, testing garden seed viability: 5 of 10 sprout, plant twice as much."""
    for plants in (10, 100, 1_000):
        assert 2 * plants <= seeds_to_raise(plants, 0.5) < 3 * plants
    assert seeds_to_raise(100_000, 0.5) == pytest.approx(200_000, rel=0.01)


def test_better_seed_and_fewer_plants_never_need_more():
    rates = [g / 100 for g in range(5, 101, 5)]
    for plants in (1, 10, 100):
        counts = [seeds_to_raise(plants, g) for g in rates]
        assert counts == sorted(counts, reverse=True)
    assert [seeds_per_station(g) for g in rates] == sorted(
        (seeds_per_station(g) for g in rates), reverse=True
    )
    assert [seeds_to_raise(n, 0.8) for n in range(60)] == sorted(seeds_to_raise(n, 0.8) for n in range(60))


def test_certain_seed_and_no_plants():
    assert seeds_per_station(1.0) == 1
    assert seeds_to_raise(40, 1.0) == 40
    assert seeds_to_raise(0, 0.5) == 0
    assert seeds_to_raise(-1, 0.5) == 0


@pytest.mark.parametrize("germination", [0.0, -0.1, 1.1, math.nan, math.inf, 1e-9])
def test_chances_that_are_none_are_refused(germination):
    for work in (lambda: seeds_per_station(germination), lambda: seeds_to_raise(5, germination)):
        with pytest.raises(ValueError, match=r"must be from 0\.001 to 1"):
            work()
