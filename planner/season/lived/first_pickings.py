"""When a planting comes up and is ripe in each recorded year, by the rules of :mod:`planner.season.harvest` and :mod:`planner.season.bulbs`."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.season import practice
from planner.season.bulbs import LEAST_SWELLING, SWELLING, swells_in_long_days
from planner.season.date_inputs import DateContext
from planner.season.development import heat_after_swelling
from planner.season.emergence import INDOORS, emergence
from planner.season.harvest import SMALL, shoots_after_winter
from planner.season.harvest_end import AT_REST, mode_of
from planner.season.lived.growth_places import (
    LONGEST,
    Growth,
    first_from,
    grown_by,
    heat_until,
    reached,
)
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.lived.recorded_years import NEVER, Positions
from planner.season.start_day import Start
from planner.season.windows import starts_in_autumn
from planner.sun import next_longest_day


def comes_up(growth: Growth, start: Start) -> Positions | None:
    """Where the planting comes up; None of plants that are set out or found grown, and of what comes up indoors.

    Parameters
    ----------
    growth : Growth
    start : Start
        Of the plan.
    """
    context = growth.context
    if context.start in ("standing", "bought", "raised") or start.on_plot is None:
        return None
    learned = context.figures.learned_figure("coming up")
    if learned is not None:
        context = context._replace(figures=context.figures.published)
    found = _comes_up(context, growth.place, growth.on)
    if learned is not None:
        days = np.maximum(np.rint((found - growth.on) * learned.factor).astype(np.int64), 1)
        found = np.where(found < NEVER, growth.on + days, NEVER)
    return found


def _comes_up(context: DateContext, weather: RecordedWeather, sown: Positions) -> Positions:
    tubers = context.start == "tubers"
    unsprouted = practice.is_unsprouted(context.start, context.planting.state)
    series = context.crop.emergence_days if context.crop is not None else None
    if series is None or not series.at or context.start not in ("sown", "tubers"):
        usual = practice.TUBERS_EMERGE if tubers else practice.EMERGENCE
        return sown + usual + (practice.SPROUTED_SOONER if unsprouted else 0)
    found = reached(weather.coming_up(series), sown, 1.0)
    heat = context.number("heat_to_sprout")
    if unsprouted and heat is not None:
        later = reached(weather.soil_over(context.response.base), found, heat)
        found = np.where(later < NEVER, later, NEVER)
    return found


def raised_indoors(context: DateContext) -> int | None:
    """Days from sowing indoors until it comes up; None where it is not raised, or they are not known. [days]"""
    if context.start != "raised" or context.crop is None:
        return None
    days = emergence(context.crop.emergence_days, INDOORS)
    return round(days) if days is not None else practice.EMERGENCE


class Ripe(NamedTuple):
    """Where a planting is first picked, and whether it is small then.

    Attributes
    ----------
    day : ndarray of int, shape (years,)
        :data:`NEVER` where it takes over two years.
    small : ndarray of bool, shape (years,)
        It has had less of its warmth than what is nearly grown.
    """

    day: Positions
    small: NDArray[np.bool_]


def ripe_places(growth: Growth, planned: dt.date | None = None) -> Ripe:
    """Where the planting is ripe by warmth, of bulbs by the length of the day.

    What stands into the winter is picked as soon as it is nearly grown once the cold and dark have slowed it, if that is before
    the longest night; and with half of its warmth, small, where the plan picks it before its winter.  What makes its shoots after a
    winter is not cut before the spring.

    Parameters
    ----------
    growth : Growth
    planned : date, optional
        First picking of the plan.
    """
    assert growth.need is not None
    context, need, on = growth.context, growth.need, growth.on
    small = np.zeros(len(on), dtype=bool)
    if swells_in_long_days(context):
        return Ripe(_within(on, _bulbs_are_ripe(growth)), small)
    ripe = grown_by(growth, need, need.heat)
    frost = context.frosts.first_after(growth.on_day)
    if frost is not None and not context.tender and mode_of(context) in ("stands", "with bolting"):
        stops = stops_growing(growth, growth.places(frost))
        nearly = grown_by(growth, need, practice.GROWN_AT_REST * need.heat)
        night = first_from(shortest_day(growth.place), stops)
        waits = (ripe > stops) & (nearly <= night)
        late = (ripe > stops) & ~waits
        ripe = np.where(waits, np.maximum(np.maximum(nearly, stops), on), ripe)
        if late.any() and _before_winter(context, growth.on_day, planned):
            half = grown_by(growth, need, SMALL * need.heat)
            small = late & (half <= night)
            ripe = np.where(small, np.maximum(np.maximum(half, stops), on), ripe)
    if shoots_after_winter(context):
        spring = first_from(
            growth.last.grows_again(context.response, AT_REST), first_from(shortest_day(growth.place), on)
        )
        ripe = np.where(spring < NEVER, np.maximum(ripe, spring), ripe)
    return Ripe(_within(on, ripe), small)


def _before_winter(context: DateContext, on: dt.date, planned: dt.date | None) -> bool:
    """Whether the plan picks it before the longest night after its start."""
    if planned is None or starts_in_autumn(context):
        return False
    return planned <= next_longest_day(on, not context.southern)


def _within(on: Positions, found: Positions) -> Positions:
    return np.where(found - on > LONGEST, NEVER, found)


def stops_growing(growth: Growth, frost: Positions) -> Positions:
    """Where it is too cool and dark to grow on, after the first autumn frost of the plan; four weeks after it where it never is."""
    slow = first_from(growth.place.slower_than(growth.context.response, AT_REST), frost)
    return np.where(slow < NEVER, slow, frost + practice.LIGHT_FROST)


def shortest_day(weather: RecordedWeather) -> Positions:
    """The next shortest day from each day on."""
    return weather.day_in_year(6 if weather.southern else 12, 21)


def longest_day(weather: RecordedWeather) -> Positions:
    """The next longest day from each day on."""
    return weather.day_in_year(12 if weather.southern else 6, 21)


def _bulbs_are_ripe(growth: Growth) -> Positions:
    """Where bulbs that swell in long days are ripe."""
    assert growth.need is not None
    context, need, weather = growth.context, growth.need, growth.last
    by_heat = grown_by(growth, need, need.heat)
    hours = context.number("day_length_to_bulb")
    assert hours is not None
    if not (weather.hours >= hours).any():
        return by_heat
    after = heat_after_swelling(context, need, hours)
    if after is None:
        after = SWELLING * need.heat
    summed, swells = (
        weather.sums(need.response, need.slows),
        first_from(weather.longer_than(hours), growth.on),
    )
    slowest, soonest = reached(summed, swells, after), reached(summed, swells, LEAST_SWELLING * after)
    return np.minimum(slowest, np.maximum(by_heat, soonest))


def lifted_when_killed(growth: Growth, killed: Positions) -> Positions:
    """Where tubers are lifted because frost has killed their leaves, with most of their warmth; :data:`NEVER` where they are not."""
    assert growth.need is not None
    context = growth.context
    if not (
        practice.lifted_after_frost(context.crop) or practice.frost_cuts_shoots(context.crop, context.start)
    ):
        return np.full(len(killed), NEVER, dtype=np.int64)
    enough = heat_until(growth, growth.need, killed) >= practice.GROWN_AT_REST * growth.need.heat
    return np.where((killed < NEVER) & enough, killed, NEVER)
