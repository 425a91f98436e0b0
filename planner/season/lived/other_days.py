"""A planting begun on other days, each lived through the recorded years: the curve of losses, first picking and days of picking.

What was recorded of the planting itself is left aside: the curve is of the plan, not of the season under way.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from planner.garden.edits.shifts import started_on
from planner.season.date_inputs import DateInputs
from planner.season.frosts import shift
from planner.season.lived.lived_plantings import live
from planner.season.lived.lived_years import Lived
from planner.season.lived.odds import Odds, odds_of
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.start_windows import StartWindow, outer_window
from planner.season.thermal_time import Numbers
from planner.season.work_out_dates import work_out

#: Days from one day that is tried to the next. [days]
STEP = 3
#: So long before the first possible day and after the last one the curve goes on, so that its edges are seen. [days]
MARGIN = 24
#: To either side of the planned day, where no window is known or it lies far away. [days]
AROUND = 42
#: Picking beyond which more is not better, where the crop has no figure of its own (practice). [days]
ENOUGH = 60.0
#: No day is tried that is farther from the planned one. [days]
FARTHEST = 150


class TriedDay(NamedTuple):
    """A day on which a planting may take its plot, and what would become of it in the recorded years.

    Attributes
    ----------
    day : date
    lived : Lived
    odds : Odds
    """

    day: dt.date
    lived: Lived
    odds: Odds


def days_to_try(inputs: DateInputs, planned: dt.date) -> tuple[dt.date, ...]:
    """The planned day and every third day around it: over the crop's possible days and somewhat beyond them, to the end of the planting.

    Parameters
    ----------
    inputs : DateInputs
    planned : date
        On which the planting takes its plot.
    """
    outer = possible_days(inputs)
    before = after = AROUND
    if outer is not None:
        before = max(before, (planned - outer.first).days + MARGIN)
        after = max(after, (outer.last - planned).days + MARGIN)
        if (planned - outer.last).days > AROUND or (outer.first - planned).days > AROUND:
            before, after = max(before, AROUND), max(after, AROUND)
    before, after = (min(one, FARTHEST) // STEP * STEP for one in (before, after))
    days = (shift(planned, by) for by in range(-before, after + 1, STEP))
    end = inputs.planting.last
    return tuple(day for day in days if end is None or day <= end)


def possible_days(inputs: DateInputs) -> StartWindow | None:
    """First and last day on which the crop of a planting may be begun where it grows; None where they are not known.

    Parameters
    ----------
    inputs : DateInputs
    """
    without = inputs.planting.with_(first=None, timing=None, pinned_dates={})
    return outer_window(inputs._replace(planting=without, done=(), observed=(), outcome=None))


def begun_on(inputs: DateInputs, planned: dt.date, day: dt.date) -> DateInputs:
    """The inputs of a planting that is begun on another day, without what was recorded of it.

    Parameters
    ----------
    inputs : DateInputs
    planned, day : date
        On which it takes its plot by the plan, and instead.
    """
    fields = started_on(inputs.planting, day, (day - planned).days)
    return inputs._replace(
        planting=inputs.planting.with_(**fields, timing=None), done=(), observed=(), outcome=None
    )


def try_day(inputs: DateInputs, planned: dt.date, day: dt.date, weather: RecordedWeather) -> TriedDay | None:
    """A planting begun on one other day; None where nothing is known of it then.

    Parameters
    ----------
    inputs : DateInputs
        Of a sort that is held (:func:`planner.season.lived.planned_sort.held_sort`), so that all days are of one.
    planned, day : date
    weather : RecordedWeather
        In the open.
    """
    moved = begun_on(inputs, planned, day)
    lived = live(moved, work_out(moved), weather)
    return TriedDay(day, lived, odds_of(lived)) if lived is not None else None


def best_day(
    tried: Sequence[TriedDay], planned: dt.date, window: StartWindow | None = None, enough: float = ENOUGH
) -> TriedDay | None:
    """The day on which a planting is best begun; None where it never is picked.

    Of the days on which its crop may be begun at all, and the planned one: least is lost; of those on which it is lost in at most
    one year more, it is picked longest, as far as that is wanted; of those that are within a day of it, the one nearest to the
    planned day (practice).

    Parameters
    ----------
    tried : sequence of TriedDay
    planned : date
    window : StartWindow, optional
        In which the crop may be begun; all days where it is not known.
    enough : float
        Picking beyond which more is not better. [days]
    """
    counted = [
        one
        for one in tried
        if one.odds.years
        and one.odds.picked
        and (window is None or window.first <= one.day <= window.last or one.day == planned)
    ]
    if not counted:
        return None
    spare = 1 / max(one.odds.years for one in counted) + 1e-9
    least = min(one.odds.share_lost for one in counted)
    safe = [one for one in counted if one.odds.share_lost <= least + spare]
    longest = max(_picking(one.lived, enough) for one in safe)
    good = [one for one in safe if _picking(one.lived, enough) >= longest - 1]
    return min(good, key=lambda one: (abs((one.day - planned).days), one.day))


def _picking(lived: Lived, enough: float) -> float:
    """Mean days of picking over the years, as far as they are wanted; none where it is not picked. [days]"""
    days = lived.harvest_days
    known: Numbers = days[~np.isnan(days)]
    return float(np.minimum(known, enough).mean()) if len(known) else 0.0
