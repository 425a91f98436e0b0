"""Whether a family may follow itself on the same ground within a year."""

from __future__ import annotations

from planner.checks.rotation import SHORT_CROP, Interval

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
