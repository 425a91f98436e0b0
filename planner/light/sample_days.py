"""Days that represent a span, each with its share of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from itertools import pairwise

from planner.season.spans import Span

#: Days that represent a span, each with its share; the shares add up to 1.
Days = Sequence[tuple[dt.date, float]]


def on_day(day: dt.date) -> Days:
    """A single day that represents itself."""
    return ((day, 1.0),)


def sample_days(span: Span, most: int = 12) -> tuple[tuple[dt.date, float], ...]:
    """Represent a span by the middle days of near-equal parts.

    Parameters
    ----------
    span : Span
    most : int
        Greatest number of parts.

    Returns
    -------
    tuple of (date, float)
        Each day with the share of its part in the span; the shares add up to 1.
    """
    count = min(most, span.days)
    cuts = [round(i * span.days / count) for i in range(count + 1)]
    return tuple(
        (span.first + dt.timedelta(days=(low + high - 1) // 2), (high - low) / span.days)
        for low, high in pairwise(cuts)
    )


def common_days(span: Span, every: int) -> tuple[tuple[dt.date, float], ...]:
    """Represent a span by days that overlapping spans share, so that they share their computations.

    Parameters
    ----------
    span : Span
    every : int
        From one day to the next. [days]

    Returns
    -------
    tuple of (date, float)
        Each day with the share of the span's days that are nearest to it; the shares add up to 1.  Only the middle
        day if the span contains none of the common days.
    """
    first, last = span.first.toordinal(), span.last.toordinal()
    chosen = list(range(first + -first % every, last + 1, every))
    if not chosen:
        return sample_days(span, 1)
    cuts = [first - 0.5, *((a + b) / 2 for a, b in pairwise(chosen)), last + 0.5]
    return tuple(
        (dt.date.fromordinal(day), (high - low) / span.days)
        for day, (low, high) in zip(chosen, pairwise(cuts), strict=True)
    )
