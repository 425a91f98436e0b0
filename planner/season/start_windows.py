"""Days on which a crop may be begun so that it is harvested well: one window, or one of spring and one of autumn.

A day is good if frost and soil let the crop start on it, it ripens before frost, cold or darkness end its year, it does not
run to seed first, and it is picked for at least a week, or half of its usual days.
"""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.season.date_inputs import DateContext, DateInputs, context_of
from planner.season.frosts import shift
from planner.season.start_day import last_start
from planner.season.windows import opening_of_window, starts_in_autumn
from planner.season.work_out_dates import Outlook, outlook

#: Days from one day that is tried to the next. [days]
STEP = 3
#: Picking that is asked for: half of the usual days, and at most a week (practice). [days]
PICKED = 7


class StartWindow(NamedTuple):
    """First and last day of a window."""

    first: dt.date
    last: dt.date


def start_windows(inputs: DateInputs) -> tuple[StartWindow, ...]:
    """Windows in which a planting may be begun, in order; empty where its dates cannot be worked out.

    Parameters
    ----------
    inputs : DateInputs
        Of a planting without days of its own.
    """
    outer = outer_window(inputs)
    if outer is None:
        return ()
    context, (opens, latest) = context_of(inputs), outer
    if latest <= opens:
        return (StartWindow(opens, opens),) if _is_good(inputs, context, opens) else ()
    days = [shift(opens, ahead) for ahead in range(0, (latest - opens).days, STEP)] + [latest]
    found: list[StartWindow] = []
    begun: dt.date | None = None
    before = opens
    for day in days:
        good = _is_good(inputs, context, day)
        if good and begun is None:
            begun = day
        if not good and begun is not None:
            found.append(StartWindow(begun, before))
            begun = None
        before = day
    if begun is not None:
        found.append(StartWindow(begun, before))
    return tuple(found)


def outer_window(inputs: DateInputs) -> StartWindow | None:
    """The first and last day between which all windows lie; None where no dates can be worked out.

    Parameters
    ----------
    inputs : DateInputs
        Of a planting without days of its own.
    """
    context = context_of(inputs)
    opens, _ = opening_of_window(context)
    latest, _ = last_start(context)
    if (
        opens is None
        or latest is None
        or context.weather is None
        or context.stays_for_years
        or starts_in_autumn(context)
    ):
        return None
    return StartWindow(opens.day, max(opens.day, latest.day))


def is_good_start(inputs: DateInputs, day: dt.date) -> bool:
    """Whether a planting begun on a day is harvested well.

    Parameters
    ----------
    inputs : DateInputs
        Of a planting without days of its own.
    day : date
    """
    return _is_good(inputs, context_of(inputs), day)


def _is_good(inputs: DateInputs, context: DateContext, day: dt.date) -> bool:
    planting = inputs.planting.with_(first=day, timing=None)
    dates = outlook(inputs._replace(planting=planting))
    first, last = dates.first_harvest, dates.last_harvest
    if not dates.ripens or first is None or last is None:
        return False
    if dates.bolts is not None and dates.bolts.gone < shift(first.day, _least_picking(context)):
        return False
    return (last.day - first.day).days + 1 >= _least_picking(context) and not _germinates_badly(
        context, dates, day
    )


def _least_picking(context: DateContext) -> float:
    return min(PICKED, (context.number("harvest_days") or 0) / 2)


def _germinates_badly(context: DateContext, dates: Outlook, day: dt.date) -> bool:
    """Whether seed is sown into soil too hot for it."""
    most = context.number("soil_most")
    if dates.start != "sown" or most is None or context.weather is None:
        return False
    return context.weather.soil_on(day) > most
