"""Student's t: the chance of a value as far out, and the value for a chance.

The distribution is an incomplete beta function (NIST Digital Library of Mathematical Functions, 8.17), worked out by its
continued fraction 8.17.22 with the method of Lentz as Thompson and Barnett (1986, Journal of Computational Physics 64:490) gave it.
It is a page of arithmetic, so the program needs no library of statistics; tests hold it against scipy.
"""

from __future__ import annotations

import math

_TINY = 1e-300
#: Steps after which the fraction has settled for any degrees of freedom that a garden has.
_MOST_STEPS = 10_000


def incomplete_beta(x: float, a: float, b: float) -> float:
    """Regularised incomplete beta function.

    Parameters
    ----------
    x : float
        From 0 to 1.
    a, b : float
        Above 0.
    """
    if x <= 0 or x >= 1:
        return 0.0 if x <= 0 else 1.0
    if x > (a + 1) / (a + b + 2):
        return 1.0 - incomplete_beta(1.0 - x, b, a)
    log_front = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    found, c, d = 1.0, 1.0, 0.0
    for step in range(_MOST_STEPS):
        m = step // 2
        if step == 0:
            term = 1.0
        elif step % 2 == 0:
            term = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        else:
            term = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        d = 1.0 / _away_from_zero(1.0 + term * d)
        c = _away_from_zero(1.0 + term / c)
        found *= c * d
        if step and abs(c * d - 1.0) < 1e-15:
            break
    return math.exp(log_front) * (found - 1.0) / a


def _away_from_zero(number: float) -> float:
    return number if abs(number) > _TINY else _TINY


def both_tails(t: float, freedom: float) -> float:
    """Chance of a value as far from 0 as ``t``, to either side.

    Parameters
    ----------
    t : float
    freedom : float
        Degrees of freedom, above 0.

    Examples
    --------
    >>> round(both_tails(2.262157, 9), 4)
    0.05
    """
    if not math.isfinite(t):
        return 0.0
    return incomplete_beta(freedom / (freedom + t * t), freedom / 2, 0.5)


def for_both_tails(chance: float, freedom: float) -> float:
    """The value beyond which, to either side, a chance lies.

    Parameters
    ----------
    chance : float
        Above 0, below 1.
    freedom : float
        Degrees of freedom, above 0.

    Examples
    --------
    >>> round(for_both_tails(0.05, 9), 4)
    2.2622
    """
    low, high = 0.0, 1.0
    while both_tails(high, freedom) > chance and high < 1e150:
        high *= 2.0
    for _ in range(200):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if both_tails(middle, freedom) > chance:
            low = middle
        else:
            high = middle
    return (low + high) / 2
