"""How far a garden's own years count beside a published figure.

Both are taken as normal: what gardens like this one really have lies about the published figure with a variance between
gardens; the years of one garden lie about its own mean with a variance within it.  Then the best estimate of the own mean
is between the two (Gelman and others 2013, Bayesian Data Analysis, 3rd edition, section 2.5, equations 2.11 and 2.12; the
variances are estimated from the data and from print, hence empirical Bayes: Efron and Morris 1975, Data analysis using Stein's
estimator and its generalizations, Journal of the American Statistical Association 70:311-319)::

    weight = n / (n + within / between)
    estimate = weight * own mean + (1 - weight) * published

The variance within is that of all crops of the garden together about their own means, with a prior that is worth some
years (the scaled inverse chi-square prior of the same book, section 2.6): a garden of few years has the usual one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

#: Years that the usual variance within a garden is worth beside its own (estimate). [years]
PRIOR_WORTH = 4.0
#: A printed range is taken as the mean and so many standard deviations to either side.
RANGE_DEVIATIONS = 2.0
#: Least standard deviation between and within gardens, as a share of the figure: nothing is known more exactly (estimate).
LEAST_DEVIATION = 0.03


class Shrunk(NamedTuple):
    """An own mean drawn towards a published figure.

    Attributes
    ----------
    value : float
    weight : float
        Of the own mean; the published figure has the rest. [0 to 1]
    deviation : float
        Standard deviation of what is not known of the value.
    """

    value: float
    weight: float
    deviation: float

    @property
    def low(self) -> float:
        """Lower end of the interval that holds it with 95 %."""
        return self.value - 1.96 * self.deviation

    @property
    def high(self) -> float:
        """Upper end of the interval that holds it with 95 %."""
        return self.value + 1.96 * self.deviation


def shrink(own: Sequence[float], published: float, within: float, between: float) -> Shrunk:
    """Draw the mean of own years towards a published figure.

    Parameters
    ----------
    own : sequence of float
        One number a year; at least one.
    published : float
    within : float
        Variance of the years of one garden about its mean.
    between : float
        Variance of the means of gardens about the published figure.

    Examples
    --------
    >>> found = shrink([70, 74, 72], 60, within=16, between=36)
    >>> round(found.value, 2), round(found.weight, 3), round(found.deviation, 2)
    (70.45, 0.871, 2.16)
    """
    count = len(own)
    mean = math.fsum(own) / count
    weight = count / (count + within / between)
    deviation = math.sqrt(1.0 / (count / within + 1.0 / between))
    return Shrunk(weight * mean + (1.0 - weight) * published, weight, deviation)


def alone(own: Sequence[float], within: float) -> Shrunk:
    """The mean of own years where nothing is published to draw it to."""
    return Shrunk(math.fsum(own) / len(own), 1.0, math.sqrt(within / len(own)))


def variance_within(groups: Iterable[Sequence[float]], usual: float, worth: float = PRIOR_WORTH) -> float:
    """Variance of the years of a garden about the means of their groups.

    Parameters
    ----------
    groups : iterable of sequence of float
        The years of each crop; of one year nothing is learned.
    usual : float
        Standard deviation of gardens of which nothing is known.
    worth : float
        Years that the usual one is worth. [years]
    """
    squares, freedom = 0.0, 0
    for years in groups:
        mean = math.fsum(years) / len(years)
        squares += math.fsum((one - mean) ** 2 for one in years)
        freedom += len(years) - 1
    return max((worth * usual**2 + squares) / (worth + freedom), LEAST_DEVIATION**2)


def variance_between(value: float, low: float | None, high: float | None, usual: float) -> float:
    """Variance of gardens about a published figure, as a share of it squared.

    Parameters
    ----------
    value : float
        The published figure, above 0.
    low, high : float or None
        Its printed range.
    usual : float
        Standard deviation as a share of the figure where no range is printed.
    """
    if low is None or high is None or high <= low or value <= 0:
        return usual**2
    return max((high - low) / (2 * RANGE_DEVIATIONS) / value, LEAST_DEVIATION) ** 2
