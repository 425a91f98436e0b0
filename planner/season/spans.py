"""Spans of days: of a growing year, and of a planting on its plot."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.garden import Garden, Planting, Site
from planner.season.planting_dates import Dates

_DAY = dt.timedelta(days=1)
#: Last day of a planting that stays until it is taken out.
OPEN_END = dt.date(2999, 12, 31)


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
    def open(self) -> bool:
        """Whether it has no end yet: the planting stays until it is taken out."""
        return self.last >= OPEN_END

    @property
    def days(self) -> int:
        """Number of days."""
        return (self.last - self.first).days + 1


def year_span(site: Site, year: int) -> Span:
    """First and last day of a growing year.

    Parameters
    ----------
    site : Site
        Its first month begins the growing year.
    year : int
        Calendar year in which the growing year begins, after which it is named.
    """
    begins = dt.date(year, site.year_begins, 1)
    return Span(begins, begins.replace(year=year + 1) - _DAY)


def growing_year(site: Site, day: dt.date) -> int:
    """The growing year in which a day lies.

    Examples
    --------
    >>> growing_year(Site(first_month=12), dt.date(2026, 11, 30))
    2025
    """
    return day.year - (day.month < site.year_begins)


def usual_year(garden: Garden, today: dt.date) -> int:
    """The growing year to show when none is named: the latest with plantings, else the current one.

    Parameters
    ----------
    garden : Garden
    today : date
        The growing year in which it lies is the current one.
    """
    planted = garden.years()
    return planted[-1] if planted else growing_year(garden.site, today)


#: Days of a growing year that are left when a new garden is planned for the next one instead (practice). [days]
LATE_IN_YEAR = 92


def year_to_plan(site: Site, today: dt.date) -> int:
    """The growing year for which a garden without plantings is planned: the next one, late in a year.

    Parameters
    ----------
    site : Site
    today : date
    """
    year = growing_year(site, today)
    return year + (growing_year(site, today + dt.timedelta(days=LATE_IN_YEAR)) > year)


def high_summer(site: Site, year: int) -> dt.date:
    """The middle of a growing year's warmest month, when most of its plantings grow.

    Parameters
    ----------
    site : Site
        15 January where it is southern, else 15 July.
    year : int
        The growing year, named after the calendar year it begins in.
    """
    month = 1 if site.southern else 7
    return dt.date(year + (month < site.year_begins), month, 15)


def planting_span(site: Site, planting: Planting, dates: Dates | None = None) -> Span:
    """Days a planting takes its plot.

    What was really done, else what was given by hand, else what the dates say; where they say
    nothing, its growing year's first and last day.  What still stands beyond that year
    (``Dates.stands_on``) or begins after it has the last day of the growing year it is in then.  A
    planting that stays for years has an open end (:attr:`Span.open`) until it is taken out.

    Parameters
    ----------
    site : Site
    planting : Planting
    dates : Dates, optional
        Left out, only the days given by hand count.
    """
    year = year_span(site, planting.year)
    first, last = planting.first, planting.last
    on = dates.on_plot if dates is not None else None
    off = dates.off_plot if dates is not None else None
    if on is not None and (first is None or on.origin == "done"):
        first = on.day if last is None or on.origin != "worked out" else min(on.day, last)
    if off is not None and (last is None or off.origin == "done"):
        last = off.day if first is None or off.origin == "done" else max(off.day, first)
    if last is None and dates is not None and dates.stays_for_years:
        last = OPEN_END
    begin = first or min(year.first, last or year.first)
    stands = dates.stands_on if dates is not None else None
    end = last or max(year.last, _year_end(site, first or year.first), _year_end(site, stands or year.first))
    return Span(min(begin, end) if planting.first is None else begin, max(begin, end))


def _year_end(site: Site, day: dt.date) -> dt.date:
    """Last day of the growing year in which a day lies, as far as the calendar goes."""
    year = growing_year(site, day)
    return year_span(site, min(max(year, dt.MINYEAR), dt.MAXYEAR - 1)).last


def bench_span(dates: Dates) -> Span | None:
    """Days a planting's young plants are on the bench, before they are set out; None where none are raised."""
    return Span(*dates.indoors) if dates.indoors is not None else None
