"""A plan for work in a thread: what the window works out meanwhile is not touched there."""

from __future__ import annotations

from planner.plan import Plan


def own_plan(plan: Plan, year: int | None = None) -> Plan:
    """A plan worked out anew, for one thread.

    Parameters
    ----------
    plan : Plan
        Of the window; only its garden, year, catalogue and what it assumes of recorded years are read.
    year : int, optional
        Its growing year by default.
    """
    year = plan.year if year is None else year
    return Plan(plan.garden, year, plan.catalogue, assumed=plan.assumed)


class OwnPlan:
    """The garden and growing year of a plan of the window, worked out anew for the jobs of one queue.

    Facts of a plan hold shapes that two threads must not change at once (shapely prepares them on first use).  After an edit this
    one works out what the edit touches.  Only jobs call it, one at a time.
    """

    def __init__(self) -> None:
        self._plan: Plan | None = None

    def of(self, plan: Plan, year: int | None = None) -> Plan:
        """A plan of the same garden that no other thread has.

        Parameters
        ----------
        plan : Plan
            Of the window; see :func:`own_plan`.
        year : int, optional
            Its growing year by default.
        """
        year = plan.year if year is None else year
        mine = self._plan
        if mine is None or mine.assumed != plan.assumed:
            mine = own_plan(plan, year)
        elif mine.garden is not plan.garden or mine.year != year:
            mine = mine.after(plan.garden, year)
        self._plan = mine
        return mine
