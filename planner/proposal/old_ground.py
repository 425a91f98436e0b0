"""Whether ground has rested long enough from a family, as the check of the rotation judges it."""

from __future__ import annotations

from planner.checks.rotation import SHORT_CROP, Interval
from planner.proposal.strips import Carried
from planner.season.spans import Span

#: Years of rest from which on no two of a family follow one another in a year, however short (practice). [years]
LONG_REST = 3.0


def may_follow_in_a_year(years: Interval, days: int, other_days: int) -> bool:
    """Whether two plantings of a family may follow one another in one year: one of them is short, and the family needs no long rest.

    Parameters
    ----------
    years : Interval
        That the family is wanted to rest.
    days, other_days : int
        For which each takes the ground. [days]
    """
    return years.wanted < LONG_REST and min(days, other_days) <= SHORT_CROP


def comes_too_soon(
    old: Carried, family: str, span: Span, years: Interval, year: int, wanted: float | None = None
) -> bool:
    """Whether a planting of a family would follow what the ground carried before its rest is over.

    Parameters
    ----------
    old : Carried
        What the ground carried.
    family : str
        Botanical family of the planting.
    span : Span
        In which it takes its ground.
    years : Interval
        That the family is wanted to rest.
    year : int
        Growing year of the planting.  What belongs to another year is never one of two short crops of a year, even where it
        was cleared in this one.
    wanted : float, optional
        Years of rest that are wished instead. [years]
    """
    rest = years.wanted if wanted is None else wanted
    if old.family != family or old.ago >= rest or old.view.span.last >= span.first:
        return False
    in_one_year = old.ago == 0 and old.view.planting.year == year
    return not (in_one_year and may_follow_in_a_year(years, span.days, old.view.span.days))
