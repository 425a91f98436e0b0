"""Spans of days: of a growing year, and of a planting on its plot."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.garden import Planting, Site

_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class Span:
    """Days from the first to the last, both included."""

    first: dt.date
    last: dt.date

    def meets(self, other: Span) -> bool:
        """Whether the two share a day."""
        return self.first <= other.last and other.first <= self.last

    def holds(self, day: dt.date) -> bool:
        """Whether a day lies in the span."""
        return self.first <= day <= self.last

    @property
    def days(self) -> int:
        """Number of days."""
        return (self.last - self.first).days + 1


def year_span(site: Site, year: int) -> Span:
    """First and last day of a growing year, which is named after the year it begins in."""
    begins = dt.date(year, site.year_begins, 1)
    return Span(begins, begins.replace(year=year + 1) - _DAY)


def planting_span(site: Site, planting: Planting) -> Span:
    """Days a planting takes its plot: those given by hand, else its growing year's ends."""
    year = year_span(site, planting.year)
    first = planting.first or min(year.first, planting.last or year.first)
    last = planting.last or max(year.last, planting.first or year.last)
    return Span(first, last)
