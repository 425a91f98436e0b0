"""The harvest of one growing year, of a crop that stays in its ground for years."""

from __future__ import annotations

import datetime as dt

import numpy as np

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.development import Stretch, day_reached, need_of
from planner.season.frosts import day_within, shift
from planner.season.harvest_end import cut_as_it_grows, grows_again
from planner.season.planting_dates import Dated
from planner.season.start_day import growing_days
from planner.season.temperatures import day_of_year_index
from planner.season.windows import window_edge
from planner.sun import next_longest_day
from planner.words import say

#: Warmth from the day it grows again until shoots and leaves are long enough to cut (estimate). [deg C days]
REGROWN = 50.0
#: The winter before a harvest is looked for from so long before the last spring frost on. [days]
BEFORE_FROST = 200
#: Its days are no more exact than this. [days]
_DAYS_MAY_VARY = 30
#: Days of a year.
_YEAR = 365


def first_harvest_of_year(context: DateContext, on: Dated | None) -> tuple[Dated | None, tuple[str, ...]]:
    """First harvest of the growing year wanted, and what is missing for it.

    What is cut as it grows is cut again soon after it sprouts.  Of all else it is the day on which a planting of that
    spring would be ripe.  None while the planting is too young.

    Parameters
    ----------
    context : DateContext
    on : Dated, optional
        The day it takes its plot.
    """
    days, window = growing_days(context), window_edge(context, autumn=False)
    frost = context.harvest_frosts.last
    if days is None:
        return None, context.note_unknown(
            "days_to_maturity",
            say("No days to maturity are known for {crop}: its harvest is not known", crop=context.name),
        )
    sprouts = sprouts_again(context, on)
    if sprouts is not None and (on is None or sprouts >= shift(on.day, days - _DAYS_MAY_VARY)):
        at, words = sprouts, say("Each year, when it has sprouted")
    elif window is not None and frost is not None:
        usual = shift(frost, 7 * window.weeks + days)
        at = day_within(f"{usual:%m-%d}", shift(frost, -BEFORE_FROST))
        words = say("Each year, the season that follows from its usual planting")
    elif (warm := _warm_enough_after_winter(context, days)) is not None:
        at, words = warm, say("Each year, when the warmth since autumn suffices")
    elif on is not None:
        at = shift(on.day, days)
        words = say("Each year, the same days as in its first year")
        while frost is not None and at < shift(frost, -BEFORE_FROST):
            at = shift(at, 365)
    else:
        return None, ()
    if on is not None and at < shift(on.day, _least_age(context, on, days)):
        return None, ()  # too young yet
    return Dated(at, words, context.source("days_to_maturity")), ()


def _warm_enough_after_winter(context: DateContext, days: float) -> dt.date | None:
    """The day on which what is planted in autumn has had its warmth, as if it were planted in the autumn before.

    None where it takes longer than to the next summer, and where the temperatures or the frost are not known.
    """
    frost, weather, window = context.harvest_frosts.last, context.weather, window_edge(context, autumn=True)
    if frost is None or weather is None or window is None or days >= practice.BEARS_NEXT_YEAR:
        return None
    autumn, need = context.harvest_frosts.first_after(shift(frost, -_YEAR)), need_of(context)
    if autumn is None or need is None or autumn > frost:
        return None
    return day_reached(shift(autumn, 7 * window.weeks), need, (Stretch(0, weather),))


def sprouts_again(context: DateContext, on: Dated | None) -> dt.date | None:
    """The day on which it can be cut again after its rest in winter; None where it is not cut as it grows.

    None too in the year in which it is planted, before a winter has passed, and where the temperatures or the frost are not known.
    """
    frost, weather = context.harvest_frosts.last, context.weather
    cut = cut_as_it_grows(context) or context.planting.crop in practice.CUT_AS_THEY_SPROUT
    if not cut or frost is None or weather is None:
        return None
    shortest = next_longest_day(shift(frost, -BEFORE_FROST), not context.southern)
    grows = grows_again(context, weather, shortest)
    if grows is None or on is None or on.day > (grows if context.start == "standing" else shortest):
        return None  # it has not rested yet
    summed, at = weather.sums(context.response, slows=False), day_of_year_index(grows)
    return shift(grows, int(np.searchsorted(summed[at:], summed[at] + REGROWN)))


def _least_age(context: DateContext, on: Dated, days: float) -> float:
    """Least time from planting to a first harvest. [days]

    Fruit is picked from the year in which there is some; what is cut for its leaves or shoots over years is left alone
    until its first full harvest, as cutting weakens it.  What was found grown bears at once; what is set in late summer
    may bear the year after.
    """
    if context.start == "standing":
        return 0.0
    least = days - _DAYS_MAY_VARY
    set_late = next_longest_day(shift(on.day, -120), context.southern) <= on.day
    if set_late and context.planting.crop in practice.SUMMER_SET:
        least = min(least, practice.BEAR_AFTER_WINTER - _DAYS_MAY_VARY)
    years = context.number("years_from_seed") if context.start in ("sown", "raised") else None
    years = context.number("years_to_crop") if years is None else years
    if years is not None and days >= practice.LONG_CROP and not _bears_fruit(context):
        least = max(least, _YEAR * years - practice.SPRING_COUNTS)
    sooner = (
        practice.YEARS_BOUGHT.get(context.planting.state or "", 0)
        if context.start in ("bought", "crowns")
        else 0
    )
    if sooner and days >= practice.LONG_CROP:
        least = max(least + _YEAR * sooner, practice.LARGE_BEAR_AFTER)
    return least


def _bears_fruit(context: DateContext) -> bool:
    needs = context.crop.needs_pollination if context.crop is not None else None
    return needs is not None and bool(needs.value)
