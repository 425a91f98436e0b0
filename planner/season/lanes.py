"""Spans of days beside each other: which may share a line."""

from __future__ import annotations

import datetime as dt


def lanes_of(spans: list[tuple[dt.date, dt.date]]) -> list[int]:
    """A lane for each span, so that spans of one lane share no day; the fewest lanes.

    Parameters
    ----------
    spans : list of (date, date)
        First and last day of each.

    Returns
    -------
    list of int
        Lanes from 0, in the order of the spans.
    """
    ends: list[dt.date] = []
    found = [0] * len(spans)
    for i in sorted(range(len(spans)), key=lambda i: spans[i]):
        first, last = spans[i]
        free = next((lane for lane, end in enumerate(ends) if end < first), None)
        if free is None:
            ends.append(last)
            free = len(ends) - 1
        else:
            ends[free] = last
        found[i] = free
    return found
