"""Own years drawn towards a published figure.

Yardsticks: the posterior by numerical integration over a grid, which knows nothing of the closed form; the baseball example of
Efron and Morris (1975), whose shrinkage of 0.212 towards 0.265 is quoted by SAS Planet, "Sports statistics" (the hits are those of
the paper, 45 times at bat each, recalled: that they give the printed mean and factor is asserted); and scipy's scaled inverse chi-square (an inverse gamma) for the variance.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from planner.plan.shrinkage import alone, shrink, variance_between, variance_within

HITS = (18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7)
POSITIVE = st.floats(0.01, 4.0)


@given(
    own=st.lists(st.floats(0.3, 3.0), min_size=1, max_size=8),
    published=st.floats(0.5, 2.0),
    within=POSITIVE,
    between=POSITIVE,
)
def test_the_estimate_is_the_mean_of_the_posterior(
    own: list[float], published: float, within: float, between: float
) -> None:
    found = shrink(own, published, within, between)
    reach = 12 * math.sqrt(min(between, within / len(own))) + 1e-3
    grid = np.linspace(found.value - reach, found.value + reach, 20_001)
    log = stats.norm.logpdf(grid, published, math.sqrt(between))
    for one in own:
        log = log + stats.norm.logpdf(one, grid, math.sqrt(within))
    mass = np.exp(log - log.max())
    mass /= mass.sum()
    mean = float((grid * mass).sum())
    assert found.value == pytest.approx(mean, abs=1e-4 * reach)
    assert found.deviation == pytest.approx(math.sqrt(float(((grid - mean) ** 2 * mass).sum())), rel=1e-3)
    mine = sum(own) / len(own)
    assert min(mine, published) - 1e-9 <= found.value <= max(mine, published) + 1e-9
    assert found.value == pytest.approx(found.weight * mine + (1 - found.weight) * published)


def test_the_baseball_example_of_efron_and_morris() -> None:
    averages = [hits / 45 for hits in HITS]
    mean = sum(averages) / len(averages)
    sampling = mean * (1 - mean) / 45
    about = sum((one - mean) ** 2 for one in averages)
    printed = 1 - (len(averages) - 3) * sampling / about  # their shrinkage factor
    assert (round(mean, 3), round(printed, 3)) == (0.265, 0.212)
    between = sampling * printed / (1 - printed)
    for average in averages:
        found = shrink([average], mean, sampling, between)
        assert found.weight == pytest.approx(0.212, abs=5e-4)
        assert found.value == pytest.approx(0.212 * average + 0.788 * 0.265, abs=5e-4)


def test_more_years_weigh_more_and_a_scattered_garden_less() -> None:
    weights = [shrink([1.2] * years, 1.0, 0.04, 0.04).weight for years in (1, 2, 3, 8)]
    assert weights == pytest.approx([1 / 2, 2 / 3, 3 / 4, 8 / 9])
    assert shrink([1.2] * 3, 1.0, 0.16, 0.04).weight < weights[2]


@given(
    groups=st.lists(st.lists(st.floats(0.5, 1.5), min_size=1, max_size=6), max_size=6),
    usual=st.floats(0.1, 0.5),
)
def test_the_variance_within_is_that_of_the_book(groups: list[list[float]], usual: float) -> None:
    """The scale of the scaled inverse chi-square posterior of a variance; its mean is that of scipy's inverse gamma."""
    freedom = sum(len(group) - 1 for group in groups)
    squares = sum(len(group) * float(np.var(group)) for group in groups)
    scale = variance_within(groups, usual, worth=4.0)
    degrees = 4.0 + freedom
    posterior = stats.invgamma(degrees / 2, scale=(4.0 * usual**2 + squares) / 2)
    assert posterior.mean() * (degrees - 2) / degrees == pytest.approx(scale)


def test_one_year_of_each_tells_nothing_of_the_scatter() -> None:
    assert variance_within([[1.3], [0.6], [2.0]], 0.2) == pytest.approx(0.04)
    assert variance_within([[1.0, 1.0, 1.0]] * 200, 0.1) == pytest.approx(
        0.03**2
    )  # nothing is known more exactly


def test_a_printed_range_is_two_deviations_to_either_side() -> None:
    assert variance_between(50, 40, 60, 0.5) == pytest.approx(0.1**2)
    assert variance_between(50, None, None, 0.5) == pytest.approx(0.25)
    assert variance_between(50, 50, 50, 0.5) == pytest.approx(0.25)
    assert variance_between(50, 49.9, 50.1, 0.5) == pytest.approx(0.03**2)


def test_without_a_published_figure_the_years_stand_alone() -> None:
    found = alone([2.0, 4.0], 0.5)
    assert (found.value, found.weight, found.deviation) == (3.0, 1.0, 0.5)
