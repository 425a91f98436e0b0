"""How far a wish's planting begins from the day on which that of this year did."""

from __future__ import annotations

import datetime as dt

from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.ways import like_of
from planner.proposal.year_later import day_years_later

#: Days from this year's day from which on it is said (practice): less is the weather's, or a working week. [days]
TOLD = 14


def usual_day(plan: Plan, wish: Wish) -> dt.date | None:
    """The first day in the ground of the planting that a wish is like, in the year of the plan; None where it is like none.

    Parameters
    ----------
    plan : Plan
    wish : Wish
    """
    like = like_of(plan, wish)
    if like is None:
        return None
    return day_years_later(plan.span_of(like).first, plan.year - like.year)


def days_moved(plan: Plan, wish: Wish, first: dt.date) -> int:
    """Days by which a first day is later than the usual one, less than nothing where sooner; 0 where no day is usual.

    Parameters
    ----------
    plan : Plan
    wish : Wish
    first : date
    """
    usual = usual_day(plan, wish)
    return (first - usual).days if usual is not None else 0
