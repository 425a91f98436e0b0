"""What stays in its ground for years, in each recorded year: the harvest of one growing year, and frost in its blossom.

What is cut as it sprouts goes by the warmth of the spring; all else has the day of the plan in every year, and says so.
"""

from __future__ import annotations

import numpy as np

from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.harvest_end import AT_REST
from planner.season.lived.first_pickings import shortest_day
from planner.season.lived.growth_places import Growth, coldest_night_from, first_from, parts_of, reached
from planner.season.lived.last_pickings import last_places
from planner.season.lived.lived_years import FROST, PICKED, UNRIPE, Lived, Places, RestsOn, counted
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.lived.recorded_years import NEVER
from planner.season.planting_dates import Dates
from planner.season.yearly_harvest import BEFORE_FROST, REGROWN, sprouts_again

#: Days for which its blossom is open, from the day it flowers on (estimate). [days]
BLOSSOM = 14


def live_perennial(context: DateContext, dates: Dates, weather: RecordedWeather) -> Lived | None:
    """The harvest of one growing year in all recorded years; None in a year without one.

    Parameters
    ----------
    context : DateContext
    dates : Dates
        Those of the plan.
    weather : RecordedWeather
        In the open.
    """
    harvest, year = dates.first_harvest, context.year
    if harvest is None or year is None:
        return None
    wanted, years = year[0].year, weather.years
    planned = years.places(harvest.day, wanted)
    never = np.full(len(planned), NEVER, dtype=np.int64)
    parts = parts_of(context._replace(planting=context.planting.with_(covers=())), harvest.day, weather)
    place = parts[-1].weather
    growth = Growth(context, None, None, harvest.day, planned, planned, parts, place)
    rests_on: RestsOn = "calendar"
    first, frost = planned, context.harvest_frosts.last
    sprouts = sprouts_again(context, dates.on_plot)
    if sprouts is not None and sprouts == harvest.day and frost is not None:
        rests_on = "heat"
        night = first_from(shortest_day(place), years.places(shift(frost, -BEFORE_FROST), wanted))
        grows = first_from(place.grows_again(context.response, AT_REST), night)
        first = reached(place.sums(context.response, slows=False), grows, REGROWN)
    killed, flower = never, never
    bears = context.number("kills_flower")
    if dates.flower is not None:
        flower = first + (dates.flower.day - harvest.day).days
    if bears is not None and dates.flower is not None:
        killed = coldest_night_from(growth, min(bears, 0.0), flower, flower + BLOSSOM)
    grown = context.number("least_night_temperature")
    cold = coldest_night_from(growth, min(grown, 0.0), first) if grown is not None else never
    last = last_places(growth, first, np.maximum(cold, np.where(first < NEVER, first, 0)))
    given = dates.last_harvest
    if given is not None and given.origin != "worked out":
        last = np.maximum(years.places(given.day, wanted), first)
    fate = np.where(first == NEVER, UNRIPE, np.where(killed < NEVER, FROST, PICKED)).astype(np.int8)
    first = np.where(fate == PICKED, first, NEVER)
    last = np.where(fate == PICKED, last, NEVER)
    start = years.places(year[0], wanted)
    found = Places(
        rests_on,
        fate,
        start,
        never,
        flower,
        killed,
        never,
        first,
        last,
        never,
        np.zeros(len(first), dtype=bool),
    )
    return counted(found, planned, harvest.day, weather)
