"""How many seeds to sow for a number of plants.

Germination is the probability that a seed comes up, independent of the others.
"""

from __future__ import annotations

import math

import numpy as np

from planner.season.practice import STATION_SURE

#: Probability that enough raised plants come up.
RAISED_SURE = 0.90
#: Seed with a lower germination counts as dead.
LEAST_GERMINATION = 1e-3


def _check(germination: float) -> None:
    if not LEAST_GERMINATION <= germination <= 1:
        raise ValueError(f"germination {germination:g} must be from {LEAST_GERMINATION:g} to 1")


def seeds_per_station(germination: float, sure: float = STATION_SURE) -> int:
    """Least seeds to a station so that at least one comes up with probability ``sure``.

    ``n = ceil(ln(1 - sure) / ln(1 - germination))``

    Parameters
    ----------
    germination : float
        Share of seeds that comes up. [0.001 to 1]
    sure : float
        Probability wanted. [0 to 1]

    Raises
    ------
    ValueError
        When less than one seed in a thousand comes up.
    """
    _check(germination)
    if germination >= sure:
        return 1
    return max(1, math.ceil(math.log1p(-sure) / math.log1p(-germination) - 1e-12))


def seeds_broadcast(plants: int, germination: float) -> int:
    """Seeds of which ``plants`` come up on average: ``ceil(plants / germination)``.

    Parameters
    ----------
    plants : int
        0 for none, or fewer.
    germination : float
        Share of seeds that comes up. [0.001 to 1]

    Raises
    ------
    ValueError
        When less than one seed in a thousand comes up.
    """
    _check(germination)
    return math.ceil(max(0, plants) / germination - 1e-9)


def seeds_to_raise(plants: int, germination: float, sure: float = RAISED_SURE) -> int:
    """Least seeds sown so that at least ``plants`` come up with probability ``sure``.

    The smallest n with P(X >= plants) >= sure for X binomial(n, germination); found as a quantile of
    the number of trials to the plants-th success (negative binomial).

    Parameters
    ----------
    plants : int
        0 for none, or fewer.
    germination : float
        Share of seeds that comes up. [0.001 to 1]
    sure : float
        Probability wanted. [0 to 1]

    Raises
    ------
    ValueError
        When less than one seed in a thousand comes up.
    """
    _check(germination)
    if plants <= 0:
        return 0
    if germination == 1:
        return plants
    k, g = plants, germination
    mean = k / g
    deviation = math.sqrt(k * (1 - g)) / g
    # The range of trials summed: below it lies less than 1e-20 of the distribution, and it ends far above
    # the quantile, since the tail falls at least exponentially with rate g.
    least = max(k, math.floor(mean - 10 * deviation))
    most = math.ceil(mean + 8 * deviation + 20 / g)
    trials = np.arange(least, most, dtype=np.float64)
    log_ratio = np.log(trials) - np.log(trials - k + 1) + math.log1p(-g)
    log_first = k * math.log(g) + (least - k) * math.log1p(-g)
    log_first += math.lgamma(least) - math.lgamma(k) - math.lgamma(least - k + 1)
    log_mass = log_first + np.concatenate([[0.0], np.cumsum(log_ratio)])
    reached = np.cumsum(np.exp(log_mass))
    return least + int(np.searchsorted(reached, sure - 1e-12))
