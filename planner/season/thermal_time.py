"""Development by temperature: degree-days over the hours of a day.

The hours of a day follow a sine between its minimum and its maximum (Baskerville and Emin 1969, there integrated,
here summed over the hours).  An hour counts by how far it is over the crop's base; above the best temperature it counts
as that one (horizontal cut-off), above the ceiling not at all (vertical cut-off).

All functions take arrays of any shape whose last axis are days, so that many years are worked out at once.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Numbers = NDArray[np.float64]

#: Share of the day's range above the minimum at the middle of each hour; the second half of the day mirrors the first.
_OF_RANGE = (1 - np.cos(np.pi * (np.arange(12) + 0.5) / 12)) / 2


class Response(NamedTuple):
    """How fast a crop develops at a temperature.

    Attributes
    ----------
    base : float
        At and below it nothing develops. [deg C]
    best : float
        From here on nothing develops faster. [deg C]
    ceiling : float
        Above it development stands still. [deg C]
    """

    base: float
    best: float = np.inf
    ceiling: float = np.inf

    def rate(self, temperature: ArrayLike) -> Numbers:
        """Degree-days of a day at one temperature. [deg C days]

        Examples
        --------
        >>> Response(5.0, 20.0, 30.0).rate([4.0, 12.0, 25.0, 31.0]).tolist()
        [0.0, 7.0, 15.0, 0.0]
        """
        at = np.asarray(temperature, dtype=np.float64)
        rate: Numbers = np.clip(at, self.base, self.best) - self.base
        return np.where(at > self.ceiling, 0.0, rate) if np.isfinite(self.ceiling) else rate


def hourly(low: ArrayLike, high: ArrayLike) -> Numbers:
    """Temperatures of half a day, from its minimum to its maximum; the other half mirrors it.

    Parameters
    ----------
    low, high : array_like, shape (..., days)
        Minimum and maximum of each day. [deg C]

    Returns
    -------
    ndarray, shape (..., days, 12)
        [deg C]
    """
    least, most = np.asarray(low, dtype=np.float64), np.asarray(high, dtype=np.float64)
    return least[..., None] + (most - least)[..., None] * _OF_RANGE


def degree_days(low: ArrayLike, high: ArrayLike, response: Response) -> Numbers:
    """Degree-days of each day.

    Parameters
    ----------
    low, high : array_like, shape (..., days)
        [deg C]
    response : Response

    Returns
    -------
    ndarray, shape (..., days)
        [deg C days]

    Examples
    --------
    >>> round(float(degree_days(10.0, 20.0, Response(5.0))), 6)
    10.0
    """
    found: Numbers = response.rate(hourly(low, high)).mean(axis=-1)
    return found


def sums(daily: ArrayLike) -> Numbers:
    """Sum before each day, and after the last: one entry more than days.

    Parameters
    ----------
    daily : array_like, shape (..., days)
    """
    days = np.asarray(daily, dtype=np.float64)
    found = np.zeros((*days.shape[:-1], days.shape[-1] + 1))
    np.cumsum(days, axis=-1, out=found[..., 1:])
    return found
