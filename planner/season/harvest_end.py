"""What ends a harvest: it is over, frost kills it, it runs to seed, or spring comes."""

from __future__ import annotations

import datetime as dt

import numpy as np

from planner.season import practice
from planner.season.bolting import CHILLED_TO_BOLT, bolts_on, stem_up
from planner.season.date_inputs import DateContext
from planner.season.development import Need, Stretch, day_reached
from planner.season.frosts import day_within, shift
from planner.season.planting_dates import Dated
from planner.season.temperatures import day_of_year_index, first_day
from planner.season.thermal_time import Numbers
from planner.season.usual_weather import FULL_DAY, UsualWeather
from planner.season.winter import bears_winter
from planner.sun import next_longest_day
from planner.words import say, short_number

#: Picking takes longer in the cool, but not longer than this many times its usual weeks (practice).
LONGER_IN_THE_COOL = 2.0
#: Share of its best pace below which a crop is at rest: it sets and ripens no more, and grows on above it (practice).
AT_REST = 0.2
#: The same of leaves, which are picked as long as any grow (practice).
NO_MORE_LEAVES = 0.02
#: What stays for years and is picked for so long each year is cut as long as it grows: leaves (practice). [days]
LEAVES_ARE_CUT = 100.0
#: What is cut for so long keeps its leaves in winter, and they are picked then too: rosemary, bay (practice). [days]
EVERGREEN = 200.0
#: Words for the reason, by mode.
_WEEKS = ("after weeks", "at once", "dies back")


def last_day_of_harvest(
    context: DateContext,
    on: dt.date,
    first: dt.date,
    need: Need | None,
    stretches: tuple[Stretch, ...],
) -> tuple[Dated | None, tuple[str, ...]]:
    """The last harvest, and what is missing for it.

    Parameters
    ----------
    context : DateContext
    on, first : date
        The day it takes its plot, and its first harvest.
    need : Need, optional
    stretches : tuple of Stretch
        The weather it grows in; empty where none is known.
    """
    days, mode = context.number("harvest_days"), mode_of(context)
    weeks = _end_of_weeks(context, first, days, need, stretches, on)
    if cut_as_it_grows(context) and stretches:
        if weeks is not None and (days or 0.0) >= EVERGREEN:
            return _or_killed(context, weeks, first), ()
        return _rests(context, first, stretches[-1].weather) or weeks, ()
    if not stretches or context.stays_for_years or mode in (*_WEEKS, "yearly", ""):
        if weeks is None:
            words = say(
                "No length of harvest is known for {crop}: when it is over is not known", crop=context.name
            )
            return None, context.note_unknown("harvest_days", words)
        if context.stays_for_years and context.planting.crop in practice.CUT_AS_THEY_SPROUT:
            return _rests_after_midsummer(context, weeks, first), ()
        return _or_killed(context, weeks, first) if mode == "after weeks" and stretches else weeks, ()
    weather = stretches[-1].weather
    ends: list[Dated | None] = [weeks] if weeks is not None and mode != "with frost" else []
    ends.append(killed_on(context, first))
    if mode == "with frost":
        ends.append(_stops_growing(context, first, weather))
    if mode == "with bolting":
        ends.append(bolts_on(context, on, first, weather))
    if mode in ("stands", "with bolting", "with frost") and not context.tender:
        ends.append(_spring(context, first, weather))
    known = [end for end in ends if end is not None]
    if not known:
        return None, context.note_unknown(
            "harvest_days",
            say("No length of harvest is known for {crop}: when it is over is not known", crop=context.name),
        )
    return min(known, key=lambda end: end.day), ()


def _or_killed(context: DateContext, weeks: Dated, first: dt.date) -> Dated:
    """The end of its weeks, or the cold that kills it where that comes before."""
    killed = killed_on(context, first)
    return killed if killed is not None and first <= killed.day < weeks.day else weeks


def _rests_after_midsummer(context: DateContext, weeks: Dated, first: dt.date) -> Dated:
    """The end of the weeks in which shoots are cut; from the longest day on they grow for the year after.

    Purdue Extension has cutting stop in the middle of June, British practice at the longest day.
    """
    longest = next_longest_day(first, context.southern)
    if longest >= weeks.day:
        return weeks
    return Dated(longest, say("Left to grow from the longest day on, for the year after"), "practice")


def cut_as_it_grows(context: DateContext) -> bool:
    """Whether it stays for years and its leaves are cut all through the season, as those of chives and sage.

    Fruit is not, however long it is picked: that of alpine strawberries ripens from June to the frost.
    """
    product = context.crop.product if context.crop is not None else None
    if product is not None and product.value == "fruit":
        return False
    return context.stays_for_years and (context.number("harvest_days") or 0.0) >= LEAVES_ARE_CUT


def _rests(context: DateContext, first: dt.date, weather: UsualWeather) -> Dated | None:
    """The day in autumn from which what stays for years hardly grows."""
    day = first_day(weather.slower_than(context.response, AT_REST), first)
    return Dated(shift(day, -1), say("Too cool and dark to grow on"), "practice") if day is not None else None


def mode_of(context: DateContext) -> str:
    """What ends the crop's harvest, one of the words of the catalogue; empty where it does not say."""
    ends = context.crop.harvest_ends if context.crop is not None else None
    return ends.value or "" if ends is not None else ""


def _end_of_weeks(
    context: DateContext,
    first: dt.date,
    days: float | None,
    need: Need | None,
    stretches: tuple[Stretch, ...],
    on: dt.date,
) -> Dated | None:
    """The end of its usual days of harvest, which last longer in the cool."""
    if days is None:
        return None
    source = context.source("harvest_days")
    plain = shift(first, max(days - 1, 0))
    mode = mode_of(context)
    if (
        need is None
        or not need.days
        or not stretches
        or mode not in ("after weeks", "stands", "with bolting")
    ):
        return Dated(plain, say("{days} days of harvest", days=short_number(days)), source)
    daily = need.heat / need.days
    weather = (Stretch(0, stretches[-1].weather),)
    cool = day_reached(first, need, weather, heat=max(days - 1, 0) * daily)
    if cool is None or cool <= plain:
        return Dated(plain, say("{days} days of harvest", days=short_number(days)), source)
    if mode == "after weeks":
        cool = min(cool, shift(first, LONGER_IN_THE_COOL * days))
    return Dated(cool, say("{days} days of harvest, longer in the cool", days=short_number(days)), source)


def killed_on(context: DateContext, after: dt.date, blossom: bool = True) -> Dated | None:
    """The day from which its cold kills it in half of the years; None where that never comes or is not known.

    The first frost comes in half of the years when the mean minimum has fallen to that of its day; a colder night
    comes when the mean minimum has fallen by so much more.
    """
    bears, flower = context.number("least_night_temperature"), context.number("kills_flower")
    if blossom and bears is not None and flower is not None and _fruits(context):
        bears = max(bears, flower)
    if bears is None or context.tender or context.outside is None or not context.frosts.first_of_any_year:
        return None
    if bears == context.number("least_night_temperature") and bears_winter(context):
        return None  # the coldest night of the zone is no colder
    weather = context.weather if context.sheltered and context.weather is not None else context.outside
    frost = context.frosts.first_after(after)
    if frost is None:
        return None
    at_frost = float(context.outside.low[day_of_year_index(frost)])
    day = first_day(weather.low <= at_frost + bears, after)
    if day is None:
        return None
    return Dated(
        shift(day, -1),
        say("Colder than {bears} °C is usual from then on", bears=short_number(bears)),
        context.source("least_night_temperature"),
    )


def _fruits(context: DateContext) -> bool:
    """Whether what is picked over comes of its flowers, so that blossom killed by frost ends it."""
    return mode_of(context) in ("after weeks", "with frost")


def _stops_growing(context: DateContext, first: dt.date, weather: UsualWeather) -> Dated | None:
    """The day on which it is too cool or too dark to grow on."""
    least = AT_REST if context.tender else NO_MORE_LEAVES
    day = first_day(weather.slower_than(context.response, least), first)
    return Dated(shift(day, -1), say("Too cool and dark to grow on"), "practice") if day is not None else None


def pace(context: DateContext, weather: UsualWeather) -> Numbers:
    """Share of its best pace at which it grows on each day of the year.

    Short days do not slow the growth of fruiting crops, yet their fruit ripens no more in them: they count for all.
    """
    return weather.pace(context.response)


def _spring(context: DateContext, first: dt.date, weather: UsualWeather) -> Dated | None:
    """The day in spring on which what stood through the winter runs to seed or grows again."""
    south = context.southern
    shortest = day_within("06-21" if south else "12-21", first)
    root = (
        context.crop is not None and context.crop.growth_form == "root"
    )  # its sprouts spoil it before its flowers
    if context.number("chill_to_bolt") is not None and not root:
        long = first_day(weather.hours >= FULL_DAY, shortest)
        if long is None:
            return None
        return Dated(
            stem_up(context, long, weather, CHILLED_TO_BOLT),
            say("Chilled in winter, it runs to seed in spring"),
            "estimate",
        )
    grows = grows_again(context, weather, shortest)
    return Dated(shift(grows, -1), say("It grows again in spring"), "practice") if grows is not None else None


def grows_again(context: DateContext, weather: UsualWeather, shortest: dt.date) -> dt.date | None:
    """The day from which it grows again after a winter; None where it never does.

    Parameters
    ----------
    context : DateContext
    weather : UsualWeather
    shortest : date
        The shortest day of that winter.
    """
    return first_day((pace(context, weather) >= AT_REST) & (np.gradient(weather.hours) > 0), shortest)
