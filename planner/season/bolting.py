"""When a plant runs to seed: in long days or heat, or chilled when it was grown enough to notice."""

from __future__ import annotations

import datetime as dt

import numpy as np

from planner.season.date_inputs import DateContext
from planner.season.development import Need, Stretch, heat_by, need_of
from planner.season.frosts import day_within, shift
from planner.season.growing import stretches_of
from planner.season.planting_dates import Bolting, Dated
from planner.season.temperatures import day_of_year_index, first_day
from planner.season.usual_weather import FULL_DAY, UsualWeather
from planner.season.windows import CHILL, QUICKLY_CHILLED
from planner.words import day_words, say

#: Warmth from the day that sends a plant to seed until it is of no more use (estimate). [deg C days]
TO_BOLT = 250.0
#: Share of the warmth that it needs to be ripe which sends it to seed, had in long days or heat ... (estimate)
TO_BOLT_OF_NEED = 0.62
#: ... and that of a crop that is quickly ripe (estimate: spinach sown at midsummer runs to seed in four weeks, radish of
#: summer is pulled before). [deg C days]
LEAST_TO_BOLT = 250.0
#: Plants that come up in days longer than the crop's figure by so much run to seed as they grow; those of spring make leaves
#: first (estimate: in Scotland spinach is sown until mid April, and again from August). [h]
COMES_UP_IN_LONG = 1.5
#: Days are felt as long in full where they are longer than the crop's figure by so much (estimate). [h]
FULLY_LONG = 2.0
#: The same of what winter has chilled, whose flowers are laid down already (estimate). [deg C days]
CHILLED_TO_BOLT = 150.0
#: Share of the time to its first harvest after which long days or heat send a plant to seed (estimate).
NEARLY_GROWN = 0.75
#: Days that stay long for so long send a plant to seed; the last long days of summer do not (estimate). [days]
LONG_FOR = 14
#: Share of its warmth with which a plant is grown enough for a winter to send it to seed (practice): bulbs, spring
#: cabbages and leeks that meet the winter thinner than a pencil only grow on.
GROWN = 0.75
#: Slowly chilled crops that feel the cold as young plants already (ext_general of beetroot: two to eight weeks).
CHILLED_YOUNG = ("beetroot", "chard")
#: Crops whose flowering shoots are what is picked.
SHOOTS_ARE_EATEN = (
    "broccoli",
    "cauliflower",
    "chinese_broccoli",
    "choy_sum",
    "romanesco",
    "sprouting_broccoli",
    "winter_cauliflower",
)
#: Figures of a crop that say when it runs to seed.
FIGURES = ("bolts_at_day_length", "bolts_above", "chill_to_bolt")
#: Days before the longest night, in autumn, and after it, to the long days of spring, whose cold chills a grown plant. [days]
AROUND_WINTER = (60, 90)


def runs_to_seed(
    context: DateContext, on: Dated | None, up: Dated | None, first: Dated | None
) -> Bolting | None:
    """When a planting runs to seed, whether it is picked before or not; None where it never does, or it is not known.

    Parameters
    ----------
    context : DateContext
    on, up, first : Dated, optional
        The day it takes its plot, the day it comes up, and its first harvest.
    """
    if on is None or first is None or context.stays_for_years or first.day <= on.day:
        return None
    if all(context.number(field) is None for field in FIGURES) or context.planting.crop in SHOOTS_ARE_EATEN:
        return None
    stretches, need = stretches_of(context, on.day), need_of(context)
    if not stretches:
        return None
    found = [
        _long_or_hot(context, on.day, up, first.day, need, stretches[-1].weather),
        _chilled(context, on.day, up, first.day, need, stretches),
    ]
    known = [one for one in found if one is not None]
    return min(known, key=lambda one: one.gone) if known else None


def stem_up(context: DateContext, begun: dt.date, weather: UsualWeather, heat: float) -> dt.date:
    """The day by which a plant that begins to run to seed is of no more use.

    Parameters
    ----------
    context : DateContext
    begun : date
    weather : UsualWeather
    heat : float
        Warmth that it takes. [deg C days]
    """
    summed = weather.sums(context.response, slows=False)
    at = day_of_year_index(begun)
    return shift(begun, int(np.searchsorted(summed[at:], summed[at] + heat)))


def _long_or_hot(
    context: DateContext,
    on: dt.date,
    up: Dated | None,
    first: dt.date,
    need: Need | None,
    weather: UsualWeather,
) -> Bolting | None:
    """Long days or heat, by the warmth that it has had in them since it came up or was set out."""
    hours, heat = context.number("bolts_at_day_length"), context.number("bolts_above")
    if need is None or (hours is None and heat is None):
        return None
    hot = weather.mean > heat if heat is not None else np.zeros(366, dtype=bool)
    felt = hot.astype(np.float64)
    from_day = up.day if context.start == "sown" and up is not None else on
    if hours is not None and weather.hours_on(from_day) >= hours + COMES_UP_IN_LONG:
        felt = np.maximum(felt, np.clip((weather.hours - hours) / FULLY_LONG, 0.0, 1.0))
    daily = np.diff(weather.sums(context.response, slows=False)[:367]) * felt
    summed = np.cumsum(np.roll(daily, -day_of_year_index(from_day)))
    wanted = max(LEAST_TO_BOLT, TO_BOLT_OF_NEED * need.heat)
    begins = first_day(felt > 0, from_day)
    gone = shift(from_day, int(np.searchsorted(summed, wanted)) + 1)
    if begins is None or summed[-1] < wanted or gone >= first:
        return _after_leaves(context, on, first, weather)
    by_heat = bool(hot[day_of_year_index(begins)])
    source = context.source("bolts_above" if by_heat else "bolts_at_day_length")
    return Bolting(begins, gone, "heat" if by_heat else "long days", source)


def _after_leaves(context: DateContext, on: dt.date, first: dt.date, weather: UsualWeather) -> Bolting | None:
    """Long days or heat that come when a plant has its leaves: it is picked first."""
    end = bolts_on(context, on, first, weather)
    hours, heat = context.number("bolts_at_day_length"), context.number("bolts_above")
    long = first_day(weather.hours >= hours, on) if hours is not None else None
    hot = first_day(weather.mean > heat, on) if heat is not None else None
    if end is None or (long is None and hot is None):
        return None
    if hot is None or (long is not None and long <= hot):
        return Bolting(long or end.day, end.day, "long days", context.source("bolts_at_day_length"))
    return Bolting(hot, end.day, "heat", context.source("bolts_above"))


def bolts_on(context: DateContext, on: dt.date, first: dt.date, weather: UsualWeather) -> Dated | None:
    """The day by which long days or heat have sent a plant to seed; None where they never do.

    Parameters
    ----------
    context : DateContext
    on, first : date
        The day it takes its plot, and its first harvest.
    weather : UsualWeather
    """
    hours, heat = context.number("bolts_at_day_length"), context.number("bolts_above")
    long = weather.hours >= hours if hours is not None else np.zeros(366, dtype=bool)
    hot = weather.mean > heat if heat is not None else np.zeros(366, dtype=bool)
    long &= np.roll(long, -LONG_FOR)
    day = first_day(long | hot, shift(on, NEARLY_GROWN * (first - on).days))
    if day is None:
        return None
    gone = max(stem_up(context, day, weather, TO_BOLT), first)
    return Dated(gone, say("Long days or heat send it to seed from {day} on", day=day_words(day)), "practice")


def _chilled(
    context: DateContext,
    on: dt.date,
    up: Dated | None,
    first: dt.date,
    need: Need | None,
    stretches: tuple[Stretch, ...],
) -> Bolting | None:
    """Cold, of a plant that feels it: when young where days of it do, else grown before a winter."""
    days = context.number("chill_to_bolt")
    if days is None or context.tender:
        return None
    weather, source = stretches[-1].weather, context.source("chill_to_bolt")
    cold = weather.mean < CHILL
    young = days <= QUICKLY_CHILLED or context.planting.crop in CHILLED_YOUNG
    if young and context.start in ("sown", "raised", "bought"):
        from_day = up.day if context.start == "sown" and up is not None else on
        mild = first_day(~cold, from_day)
        if mild is not None and (mild - from_day).days >= least_days_of_chill(context, days):
            begins = shift(from_day, days)
            long = first_day(weather.hours >= FULL_DAY, begins)
            if long is not None:
                return Bolting(begins, stem_up(context, long, weather, CHILLED_TO_BOLT), "cold", source)
    longest_night = day_within("06-21" if context.southern else "12-21", on)
    root = context.crop is not None and context.crop.growth_form == "root"
    if need is None or not cold.any() or (first <= longest_night and root):
        return None  # the sprouts of roots spoil them in spring before their flowers do
    if heat_by(on, max(longest_night, on), need, stretches) < GROWN * need.heat:
        return None
    if int(cold[_around(longest_night)].sum()) < days:
        return None
    long = first_day(weather.hours >= FULL_DAY, longest_night)
    if long is None:
        return None
    return Bolting(long, stem_up(context, long, weather, CHILLED_TO_BOLT), "winter", source)


def least_days_of_chill(context: DateContext, days: float) -> float:
    """Days of cold that are told: of seedlings those that the hardiest sorts bear too. [days]"""
    figure = context.crop.chill_to_bolt if context.crop is not None else None
    if context.start != "sown" or figure is None:
        return days
    return max(days, figure.high or days)


def _around(longest_night: dt.date) -> np.ndarray[tuple[int], np.dtype[np.intp]]:
    """Places in a year of the days from autumn to the long days of spring."""
    at = day_of_year_index(longest_night)
    return np.arange(at - AROUND_WINTER[0], at + AROUND_WINTER[1]) % 366
