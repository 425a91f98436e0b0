"""How many seeds it takes.

Germination is taken as the chance of each seed to come up, independent of the others.
"""

from __future__ import annotations

import math

import numpy as np

#: A station shall hold at least one seedling with this probability.
STATION_SURE = 0.95
#: Enough raised plants shall stand with this probability.
RAISED_SURE = 0.90


def seeds_per_station(germination: float, sure: float = STATION_SURE) -> int:
    """Least seeds to a station so that at least one comes up with probability ``sure``.

    ``n = ceil(ln(1 - sure) / ln(1 - germination))``

    Parameters
    ----------
    germination : float
        Above 0, at most 1.

    Raises
    ------
    ValueError
        When no seed comes up at all.
    """
    if not 0 < germination <= 1:
        raise ValueError(f"germination {germination:g} must be above 0 and at most 1")
    if germination >= sure:
        return 1
    return max(1, math.ceil(math.log1p(-sure) / math.log1p(-germination) - 1e-12))


def seeds_to_raise(plants: int, germination: float, sure: float = RAISED_SURE) -> int:
    """Least seeds sown so that at least ``plants`` come up with probability ``sure``.

    The smallest n with P(X >= plants) >= sure for X binomial(n, germination); found as a quantile of
    the number of trials to the plants-th success (negative binomial).

    Raises
    ------
    ValueError
        When no seed comes up at all.
    """
    if not 0 < germination <= 1:
        raise ValueError(f"germination {germination:g} must be above 0 and at most 1")
    if plants <= 0:
        return 0
    if germination == 1:
        return plants
    k, g = plants, germination
    mean = k / g
    deviation = math.sqrt(k * (1 - g)) / g
    # Far above the 0.9 quantile for every k: the tail is at most exponential with rate g.
    most = math.ceil(mean + 8 * deviation + 20 / g)
    trials = np.arange(k, most, dtype=np.float64)
    log_ratio = np.log(trials) - np.log(trials - k + 1) + math.log1p(-g)
    log_mass = k * math.log(g) + np.concatenate([[0.0], np.cumsum(log_ratio)])
    reached = np.cumsum(np.exp(log_mass))
    return k + int(np.searchsorted(reached, sure - 1e-12))
