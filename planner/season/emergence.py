"""How long seed takes to come up, by the temperature of the soil."""

from __future__ import annotations

import datetime as dt

import numpy as np

from planner.crops import Series
from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.observed import day_seen
from planner.season.planting_dates import Dated
from planner.season.temperatures import day_of_year_index
from planner.season.usual_weather import UsualWeather
from planner.words import number_words, say

#: Temperature at which seed comes up indoors. [deg C]
INDOORS = 20.0


def emergence(series: Series | None, temperature: float | None) -> float | None:
    """Days to emergence at a constant soil temperature; None where it is not known.

    Parameters
    ----------
    series : Series, optional
        The crop's table; linear between its temperatures, level beyond them.
    temperature : float, optional
        [deg C]
    """
    if series is None or not series.at or temperature is None:
        return None
    at = [pair[0] for pair in series.at]
    return float(np.interp(temperature, at, [pair[1] for pair in series.at]))


def emergence_outdoors(series: Series | None, weather: UsualWeather | None, sown: dt.date) -> int | None:
    """Days to emergence outdoors: each day adds its share at the mean temperature of that day's soil.

    None where the temperatures or the table are not known.

    Parameters
    ----------
    series : Series, optional
        The crop's table of days by temperature.
    weather : UsualWeather, optional
    sown : date
    """
    if series is None or not series.at or weather is None:
        return None
    ahead = np.roll(weather.soil, -day_of_year_index(sown))
    at = [pair[0] for pair in series.at]
    shares = np.cumsum(1 / np.maximum(np.interp(ahead, at, [pair[1] for pair in series.at]), 0.5))
    return int(np.searchsorted(shares, 1 - 1e-9)) + 1


def emergence_day(context: DateContext, sow: Dated | None, on: Dated | None) -> Dated | None:
    """The day it comes up: seen, else as it is worked out.

    Parameters
    ----------
    context : DateContext
    sow, on : Dated, optional
        As in :func:`expected_emergence`.
    """
    return day_seen(context, "came up") or expected_emergence(context, sow, on)


def expected_emergence(context: DateContext, sow: Dated | None, on: Dated | None) -> Dated | None:
    """The day it comes up by the crop's table and the temperature, else after the usual days.

    None of plants that are set out or found grown, and where its start is not known.

    Parameters
    ----------
    context : DateContext
    sow : Dated, optional
        The sowing, indoors or in place.
    on : Dated, optional
        The day it takes its plot, for what is not sown.
    """
    if context.start in ("standing", "bought"):
        return None
    begun = sow or on
    if begun is None:
        return None
    learned = context.figures.learned_figure("coming up")
    if learned is not None:
        published = expected_emergence(context._replace(figures=context.figures.published), sow, on)
        if published is None:
            return None
        after = max(round((published.day - begun.day).days * learned.factor), 1)
        return Dated(
            shift(begun.day, after),
            say("{days} days, by this garden's own years", days=after),
            learned.source,
        )
    tubers = context.start == "tubers"
    series = context.crop.emergence_days if context.crop and (sow is not None or tubers) else None
    if context.start == "raised":
        days = emergence(series, INDOORS)
        if days is not None:
            why = say(
                "{days} days at {indoors} °C", days=number_words(days, 0), indoors=number_words(INDOORS, 0)
            )
            return Dated(shift(begun.day, days), why, context.source("emergence_days"))
    else:
        outdoors = emergence_outdoors(series, context.weather, begun.day)
        if outdoors is not None:
            outdoors += _later_unsprouted(context, shift(begun.day, outdoors))
            why = say("{days} days, judged by the temperature of the soil", days=outdoors)
            return Dated(shift(begun.day, outdoors), why, context.source("emergence_days"))
    usual = practice.TUBERS_EMERGE if tubers else practice.EMERGENCE
    if practice.is_unsprouted(context.start, context.planting.state):
        usual += practice.SPROUTED_SOONER
    return Dated(shift(begun.day, usual), say("About {usual} days", usual=usual), "estimate")


def _later_unsprouted(context: DateContext, up: dt.date) -> int:
    """Days by which tubers that were not sprouted come up later than those that were.

    Parameters
    ----------
    context : DateContext
    up : date
        The day on which sprouted tubers come up.
    """
    heat = context.number("heat_to_sprout")
    if (
        not practice.is_unsprouted(context.start, context.planting.state)
        or heat is None
        or context.weather is None
    ):
        return 0
    soil = np.roll(context.weather.soil, -day_of_year_index(up))
    return int(np.searchsorted(np.cumsum(np.maximum(soil - context.response.base, 0.0)), heat)) + 1
