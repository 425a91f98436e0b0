"""What would become of a planting of a plan on other days, as another sort or under other shelter, over the recorded years."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from planner.garden import Planting
from planner.plan.lived import weather_in
from planner.season.date_inputs import DateInputs
from planner.season.lived.compared import Compared, compare_shelters, compare_sorts
from planner.season.lived.even_series import Series, even_series
from planner.season.lived.other_days import (
    ENOUGH,
    TriedDay,
    best_day,
    days_to_try,
    possible_days,
    try_day,
)
from planner.season.lived.planned_sort import held_sort
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.start_windows import StartWindow

if TYPE_CHECKING:
    from planner.plan.plan import Plan


class DayCurve(NamedTuple):
    """Days on which a planting may take its plot, in order, with the planned one and the best among them.

    Attributes
    ----------
    tried : tuple of TriedDay
    planned : TriedDay or None
        None where nothing is known of the planned day.
    best : TriedDay or None
        None where it is picked on no day.
    window : StartWindow or None
        In which the crop may be begun; None where that is not known.
    """

    tried: tuple[TriedDay, ...]
    planned: TriedDay | None
    best: TriedDay | None
    window: StartWindow | None


class CurveBegun(NamedTuple):
    """The days to be tried of a planting, so that they can be worked out one by one.

    Attributes
    ----------
    inputs : DateInputs
        Of the sort of the plan.
    planned : date
    days : tuple of date
    weather : RecordedWeather
    window : StartWindow or None
    enough : float
        Picking beyond which more is not better. [days]
    """

    inputs: DateInputs
    planned: dt.date
    days: tuple[dt.date, ...]
    weather: RecordedWeather
    window: StartWindow | None
    enough: float

    def try_day(self, day: dt.date) -> TriedDay | None:
        """What becomes of the planting on one of the days; None where nothing is known of it then."""
        return try_day(self.inputs, self.planned, day, self.weather)

    def curve(self, tried: Iterable[TriedDay]) -> DayCurve:
        """The curve of the days that were tried."""
        known = tuple(tried)
        on_plan = next((one for one in known if one.day == self.planned), None)
        best = best_day(known, self.planned, self.window, self.enough)
        return DayCurve(known, on_plan, best, self.window)

    def even_series(self, tried: Iterable[TriedDay], number: int) -> Series | None:
        """The days of a number of sowings with which something is picked on most days (:func:`even_series`).

        Of the days on which the crop may be begun at all, and the planned one; None where these are fewer than the sowings, or
        no year counts for all of them.
        """
        window = self.window
        return even_series(
            [
                one
                for one in tried
                if window is None or window.first <= one.day <= window.last or one.day == self.planned
            ],
            number,
        )


def begin_curve(plan: Plan, planting: Planting) -> CurveBegun | None:
    """The days to be tried of a planting; None where the garden keeps no years, or it stays for years.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    weather, dates = weather_in(plan), plan.dates(planting)
    if weather is None or dates.stays_for_years or dates.on_plot is None:
        return None
    inputs, planned = plan.date_inputs(planting), dates.on_plot.day
    return CurveBegun(
        held_sort(inputs),
        planned,
        days_to_try(inputs, planned),
        weather,
        possible_days(inputs),
        inputs.figures.number("harvest_days") or ENOUGH,
    )


def day_curve(plan: Plan, planting: Planting) -> DayCurve | None:
    """The curve over possible days of a planting; None as for :func:`begin_curve`."""
    begun = begin_curve(plan, planting)
    if begun is None:
        return None
    tried = (begun.try_day(day) for day in begun.days)
    return begun.curve(one for one in tried if one is not None)


def compared_sorts(plan: Plan, planting: Planting) -> tuple[Compared, ...]:
    """The sorts that a planting could be, with their odds; empty where the garden keeps no years, or it stays for years.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    weather = weather_in(plan)
    if weather is None or plan.dates(planting).stays_for_years:
        return ()
    own = [one for one in plan.garden.varieties if one.crop == planting.crop]
    return compare_sorts(plan.date_inputs(planting), own, weather)


def compared_shelters(plan: Plan, planting: Planting) -> tuple[Compared, ...]:
    """The shelters that a planting could grow under, with their odds; empty as for :func:`compared_sorts`."""
    weather = weather_in(plan)
    if weather is None or plan.dates(planting).stays_for_years:
        return ()
    return compare_shelters(plan.date_inputs(planting), weather)
