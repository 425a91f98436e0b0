"""What is doubtful of a start: outside the crop's window, or in soil that is too cold."""

from __future__ import annotations

import datetime as dt

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.planting_dates import Dated
from planner.season.start_day import last_start
from planner.season.windows import window_edge
from planner.season.winter import bears_winter
from planner.words import day_words, number_words, say, short_number

#: Seed comes up well in soil that is by so much warmer than its least (practice). [deg C]
WARMER = 2.5
#: By how much colder than its seed's least the mean soil may be, since by day it is warmer; or by a share of the least, where
#: that is more (practice). [deg C]
COLDER = 2.5
COLDER_BY = 0.28
#: Most days from a start to the last spring frost that its window is counted from: one before belongs to the autumn.
SPRING = 110


def start_doubts(context: DateContext, on: Dated | None, first: Dated | None) -> tuple[str, ...]:
    """Sentences about a start outside the crop's window, or in soil that is too cold.

    Parameters
    ----------
    context : DateContext
    on, first : Dated, optional
        The day it takes its plot, and its first harvest where it ripens.
    """
    if on is None:
        return ()
    return (*_outside_window(context, on, first), *_cold_soil(context, on))


def colder(least: float) -> float:
    """By how much colder than the least of its seed the mean soil may be. [deg C]

    Parameters
    ----------
    least : float
        [deg C]

    Examples
    --------
    >>> colder(4.0), round(colder(18.0), 2)
    (2.5, 5.04)
    """
    return max(COLDER, COLDER_BY * least)


def ground_is_warm(context: DateContext, day: dt.date) -> bool:
    """Whether the soil of a day is as warm as the crop is started in: by handbooks, else a little over its seed's least.

    Parameters
    ----------
    context : DateContext
    day : date
    """
    if context.weather is None:
        return False
    wanted, least = context.number("start_temperature"), context.number("soil_least")
    if wanted is None and least is not None:
        wanted = least + WARMER
    return wanted is not None and context.weather.soil_on(day) >= wanted


def _outside_window(context: DateContext, on: Dated, first: Dated | None) -> tuple[str, ...]:
    """A sentence where a day that was given or done lies outside the crop's window by more than a week.

    Nothing is said of a crop that stays for years, under glass, of a day that fits the autumn window, and of what is
    picked before the cold all the same.
    """
    frost = context.frosts.last
    if on.origin == "worked out" or context.stays_for_years or context.sheltered or frost is None:
        return ()
    opens = window_edge(context, autumn=False)
    if opens is not None and (frost - on.day).days <= SPRING:
        day = shift(frost, 7 * opens.weeks)
        too_soon = on.day < shift(day, -practice.OUTSIDE)
        if too_soon and (context.tender or not ground_is_warm(context, on.day)):
            return (
                say(
                    "{crop} starts on {day}, before its window opens on {day_2}",
                    crop=context.name,
                    day=day_words(on.day),
                    day_2=day_words(day),
                ),
            )
    cold = context.frosts.first_after(on.day)
    if first is not None and cold is not None and first.day <= shift(cold, practice.LIGHT_FROST):
        return ()
    closes = _last_day(context, frost)
    if closes is None or on.day <= shift(closes, practice.OUTSIDE) or _stands_the_winter(context, on):
        return ()
    return (
        say(
            "{crop} starts on {day}, after its window closed on {day_2}",
            crop=context.name,
            day=day_words(on.day),
            day_2=day_words(closes),
        ),
    )


def _last_day(context: DateContext, frost: dt.date) -> dt.date | None:
    """The last day from which it is still picked before the cold; the printed one where that is not known.

    A printed end counts from the spring frost of another place: where the summer is longer, it may be started later.
    """
    if context.weather is not None:
        last, _ = last_start(context)
        if last is not None:
            return last.day
    closes = window_edge(context, autumn=False, edge="until")
    return shift(frost, 7 * closes.weeks) if closes is not None else None


def _stands_the_winter(context: DateContext, on: Dated) -> bool:
    """Whether it may be started in autumn for the year after."""
    return practice.very_hardy(context.crop) or bears_winter(context) or _fits_autumn_window(context, on)


def _fits_autumn_window(context: DateContext, on: Dated) -> bool:
    """Whether a day lies in the autumn window, or within two weeks of it.

    The window is that of any year: what is planned for a year may be planted in the autumn before it.
    """
    opens, closes = window_edge(context, autumn=True), window_edge(context, autumn=True, edge="until")
    frost = context.frosts.autumn
    if opens is None or closes is None or frost is None:
        return False
    early, late = 7 * opens.weeks - 2 * practice.OUTSIDE, 7 * closes.weeks + 2 * practice.OUTSIDE
    frosts = (_years_on(frost, years) for years in (-1, 0, 1))
    return any(shift(each, early) <= on.day <= shift(each, late) for each in frosts)


def _years_on(day: dt.date, years: int) -> dt.date:
    """The same day of another year; the 28th for the 29th of February."""
    leap_day = (day.month, day.day) == (2, 29)
    return day.replace(year=day.year + years, day=28 if leap_day else day.day)


def _cold_soil(context: DateContext, on: Dated) -> tuple[str, ...]:
    least = context.number("soil_least")
    if context.start != "sown" or least is None or context.sheltered:
        return ()
    if context.weather is None:
        return ()
    soil = context.weather.soil_on(on.day)
    if soil >= least - colder(least):
        return ()
    return (
        say(
            "The soil is about {soil} °C on {day}, judged by the mean air temperature; {crop} needs {least} °C to come up",
            soil=number_words(soil, 0),
            day=day_words(on.day),
            crop=context.name,
            least=short_number(least),
        ),
    )
