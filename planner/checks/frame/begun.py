"""Whether a planting is begun already, and so cannot be another one, elsewhere or at another time."""

from __future__ import annotations

import datetime as dt

from planner.garden import Planting
from planner.plan import Plan


def begun(plan: Plan, planting: Planting) -> bool:
    """Whether its start was ticked off, or lies in a growing year before the one that is checked."""
    dates = plan.dates(planting)
    done = any(day is not None and day.origin == "done" for day in (dates.sow, dates.set_out))
    return done or in_the_ground(plan, planting)


def in_the_ground(plan: Plan, planting: Planting) -> bool:
    """Whether it stands in its bed already: what is sown indoors does not."""
    dates = plan.dates(planting)
    taken = dates.set_out if dates.start == "raised" else dates.set_out or dates.sow
    first: dt.date = plan.span_of(planting).first
    return (taken is not None and taken.origin == "done") or first < plan.span.first
