"""The day on which the soil is warm enough for a planting, by the gardener's rule and the usual weather of the place."""

from __future__ import annotations

import numpy as np

from planner.garden import SoilRule
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.planting_dates import Dated
from planner.season.temperatures import first_day
from planner.season.thermal_time import Numbers
from planner.words import full_day_words, say, say_count, short_number

#: Days over which the mean of the air makes that of the soil, the day itself and those before it (Zheng, Hunt and Running 1993,
#: Climate Research 2, 183-191: 10 cm deep; nearer to the surface a soil follows the air sooner). [days]
SOIL_FOLLOWS = 11


def day_by_soil(context: DateContext, rule: SoilRule) -> tuple[Dated | None, tuple[str, ...]]:
    """The day on which a planting is begun by the warmth of its soil, and what is missing for it.

    Parameters
    ----------
    context : DateContext
    rule : SoilRule
    """
    words = say_count(
        "The soil has {warmth} °C for {count} day, not before {day}",
        "The soil has {warmth} °C for {count} days, not before {day}",
        rule.days,
        warmth=short_number(rule.warmth),
        day=full_day_words(rule.after),
    )
    if context.weather is None:
        missing = say(
            "No temperatures of the place are known: whether the soil is warm enough for {crop} is not known",
            crop=context.name,
        )
        return Dated(shift(rule.after, rule.days - 1), words), (missing,)
    warm = followed(context.weather.soil) >= rule.warmth
    for back in range(1, rule.days):
        warm &= np.roll(followed(context.weather.soil) >= rule.warmth, back)
    day = first_day(warm, shift(rule.after, rule.days - 1))
    if day is None:
        missing = say(
            "The soil of {crop} never has {warmth} °C in usual years: give its first day by hand",
            crop=context.name,
            warmth=short_number(rule.warmth),
        )
        return None, (missing,)
    return Dated(day, words), ()


def followed(soil: Numbers) -> Numbers:
    """The usual soil as it follows the air: the mean over the day and those before it.

    Parameters
    ----------
    soil : ndarray, shape (366,)
        [deg C]
    """
    found: Numbers = np.mean([np.roll(soil, back) for back in range(SOIL_FOLLOWS)], axis=0)
    return found
