"""How much warmth a planting needs until its first harvest, and when it has had it.

A published sum of degree-days counts where there is one; else the sum is derived from the days to maturity and the
climate in which they were counted (:mod:`planner.crops.growing_places`).
"""

from __future__ import annotations

import datetime as dt
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from planner.crops import Crop
from planner.crops.growing_places import GrowingPlace, shipped_places
from planner.garden import Climate
from planner.garden.planting_figures import PlantingFigures
from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import day_in, shift
from planner.season.temperatures import day_of_year_index
from planner.season.thermal_time import Response
from planner.season.usual_weather import UsualWeather, weather_of

#: Mean temperature of a bench on which plants are raised (practice). [deg C]
BENCH = 18.0
#: Share of the bench's days by which raised plants are ahead of sown ones: cells are narrow, and transplanting checks
#: growth.  Broccoli, cabbage, cauliflower and sprouts, raised for 5 to 7 weeks, are ripe 15 to 30 days sooner (uf_sp103,
#: planting table, days in brackets).
AHEAD_OF_SOWN = 0.5
#: Least share of its need that a raised plant still has before it (practice).
LEFT_AT_LEAST = 1 / 2
#: Days to maturity hold for plantings made this long after the window opens (practice). [days]
INTO_WINDOW = 21
#: Longest time over which warmth is summed. [days]
LONGEST = 700


class Need(NamedTuple):
    """Warmth from the day it takes its plot to the first harvest.

    Attributes
    ----------
    heat : float
        [deg C days]
    response : Response
    slows : bool
        Short days slow it.
    source : str
        Key of the source of the sum, or of the days that it is derived from.
    derived : bool
        Reckoned from days to maturity.
    sort : str
        ``early`` or ``late`` where it is that of such a sort; empty for the usual one.
    days : float
        The days it is derived from; 0 where it is not. [days]
    days_on_plot : float
        The same from the day it takes its plot, where it was counted. [days]
    """

    heat: float
    response: Response
    slows: bool
    source: str
    derived: bool
    sort: str
    days: float
    days_on_plot: float = 0.0

    def times(self, factor: float, source: str) -> Need:
        """A need so many times as large, from another source."""
        return self._replace(
            heat=self.heat * factor,
            source=source,
            days=self.days * factor,
            days_on_plot=self.days_on_plot * factor,
        )


#: Needs that were worked out, by what they depend on, with the figures that they are of; plantings of a crop share them.
_NEEDS: dict[tuple[object, ...], tuple[PlantingFigures, Need | None]] = {}
#: Most needs that are remembered.
_MOST_NEEDS = 4096


def need_of(context: DateContext, sort: str = "") -> Need | None:
    """Need of a planting, for the usual sort of its crop or another one; None where it is not known.

    Parameters
    ----------
    context : DateContext
    sort : str
        Empty, ``early`` or ``late``.
    """
    learned = context.figures.learned_figure("first picking")
    if learned is not None:
        published = need_of(context._replace(figures=context.figures.published), sort)
        return published.times(learned.factor, learned.source) if published is not None else None
    crop, variety, _ = context.figures
    key = (id(crop), id(variety), context.start, context.planting.state, context.tender, sort)
    known = _NEEDS.get(key)
    if known is not None and known[0].crop is crop and known[0].variety is variety:
        return known[1]
    need = _need(context, sort)
    if len(_NEEDS) >= _MOST_NEEDS:
        _NEEDS.clear()
    _NEEDS[key] = context.figures, need
    return need


def _need(context: DateContext, sort: str) -> Need | None:
    response, slows = context.response, context.slows
    days, source = _days_of_sort(context, sort)
    published = context.number("heat_to_harvest")
    if days is None and published is None:
        return None
    usual = context.crop.number("days_to_maturity") if context.crop is not None else None
    own = context.figures.variety
    if own is not None and own.number("heat_to_harvest") is not None:
        heat, derived, source = published or 0.0, False, "own variety"
    elif published is not None:
        heat = published * (days / usual if days and usual else 1.0)
        derived, source = bool(days and usual and days != usual), context.source("heat_to_harvest")
    else:
        if practice.from_seed(context.crop, context.start):
            days = (context.number("days_from_seed") or 0.0) * (days or 0.0) / (usual or 1.0)
            source = context.source("days_from_seed")
        heat, derived = derived_heat(context, days or 0.0, source, response, slows), True
    on_plot = _from_plot(context, heat, response)
    days = days or 0.0
    return Need(
        on_plot, response, slows, source, derived, sort, days, days * on_plot / heat if heat else days
    )


def _days_of_sort(context: DateContext, sort: str) -> tuple[float | None, str]:
    """Days to maturity of a sort, and their source; a variety's own days are those of every sort."""
    own = context.figures.variety
    if not sort or (own is not None and own.number("days_to_maturity") is not None):
        return context.number("days_to_maturity"), context.source("days_to_maturity")
    return context.number(f"days_{sort}"), context.source(f"days_{sort}")


def _from_plot(context: DateContext, heat: float, response: Response) -> float:
    """The part of a need that is met on the plot, where the crop's is counted from elsewhere. [deg C days]"""
    start, state = context.start, context.planting.state
    if practice.is_unsprouted(start, state):
        return heat + (context.number("heat_to_sprout") or 0.0)
    counted = context.crop.maturity_from.value if context.crop and context.crop.maturity_from else None
    if practice.from_seed(context.crop, start):
        counted = "sowing"
    weeks = context.number("weeks_to_raise") or 0.0
    weekly = AHEAD_OF_SOWN * 7 * max(min(BENCH, response.best) - response.base, 0.0)
    grown = weekly * practice.weeks_grown(start, state, weeks)
    least = heat * LEFT_AT_LEAST
    if counted == "setting out" and start in ("sown", "bought"):
        return max(heat + weekly * weeks - grown, least)
    if counted == "sowing" and start in ("raised", "bought"):
        return max(heat - grown, least)
    return heat


def derived_heat(context: DateContext, days: float, source: str, response: Response, slows: bool) -> float:
    """Degree-days of the days to maturity, in the climate and season in which they were counted. [deg C days]

    Parameters
    ----------
    context : DateContext
    days : float
    source : str
        Key of the source of the days; those of a garden's own variety count as its crop's.
    response : Response
    slows : bool
    """
    place = _place_of_days(context, source)
    summed = _weather_of_key(place.key).sums(response, slows)
    begin = _usual_start(context.crop, context.tender, place)
    return max(float(summed[begin + min(round(days), LONGEST)] - summed[begin]), 1.0)


def heat_after_swelling(context: DateContext, need: Need, hours: float) -> float | None:
    """Heat that bulbs have from swelling until they are ripe, where their days were counted. [deg C days]

    None where the days are never long enough there, or the bulbs were ripe before.

    Parameters
    ----------
    context : DateContext
    need : Need
    hours : float
        Length of day from which they swell. [h]
    """
    days = need.days or context.number("days_to_maturity")
    if days is None:
        return None
    place = _place_of_days(context, context.source("days_to_maturity"))
    weather = _weather_of_key(place.key)
    begin = _usual_start(context.crop, context.tender, place)
    long = np.tile(weather.hours >= hours, 2)[begin:]
    if not long.any():
        return None
    swells, ripe = begin + int(long.argmax()), begin + min(round(days), LONGEST)
    summed = weather.sums(need.response, need.slows)
    return float(summed[ripe] - summed[swells]) if ripe > swells else None


def _place_of_days(context: DateContext, source: str) -> GrowingPlace:
    """Where the days to maturity of a source were counted; of a garden's own variety where its crop's were."""
    figure = context.crop.days_to_maturity if context.crop is not None else None
    if source == "own variety" and figure is not None:
        source = figure.source or ""
    return shipped_places().measured_at(source)


@lru_cache(maxsize=128)
def _weather_of_key(key: str) -> UsualWeather:
    return _weather_at(shipped_places().places[key])


def _weather_at(place: GrowingPlace) -> UsualWeather:
    climate = Climate(monthly_minimum=place.monthly_minimum, monthly_maximum=place.monthly_maximum)
    weather = weather_of(climate, place.latitude, place.latitude < 0)
    assert weather is not None
    return weather


def _usual_start(crop: Crop | None, tender: bool, place: GrowingPlace) -> int:
    """Day of the year on which the crop is usually started at a place."""
    hint = place.warm_start if tender else place.cool_start
    if hint or place.last_frost is None:
        return day_of_year_index(day_in(hint or "04-01", 2000))
    weeks: float | None = None
    if crop is not None and place.first_frost is not None and _of_autumn(crop):
        autumn = day_in(place.first_frost, 2000)
        return day_of_year_index(shift(autumn, 7 * (crop.number("autumn_from") or 0.0)))
    if crop is not None:
        fields = ("sow_from", "set_out_from") if crop.usual_start == "sown" else ("set_out_from", "sow_from")
        weeks = next((crop.number(field) for field in fields if crop.number(field) is not None), None)
    frost = day_in(place.last_frost, 2000)
    return day_of_year_index(shift(frost, 7 * (weeks or 0.0) + INTO_WINDOW))


def _of_autumn(crop: Crop) -> bool:
    """Whether it is usually planted in autumn, as cloves are, and what has no window in spring."""
    if crop.number("autumn_from") is None:
        return False
    return crop.usual_start == "cloves" or all(
        crop.number(field) is None for field in ("sow_from", "set_out_from")
    )


class Stretch(NamedTuple):
    """UsualWeather in which a planting grows from a number of days after it took its plot on."""

    begins: int
    weather: UsualWeather


def day_reached(
    on: dt.date, need: Need, stretches: tuple[Stretch, ...], heat: float | None = None
) -> dt.date | None:
    """The day on which a planting has had the heat it needs; None where that takes over two years.

    Parameters
    ----------
    on : date
        The day it takes its plot.
    need : Need
    stretches : tuple of Stretch
        In order; the first begins on that day.
    heat : float, optional
        Another heat than the need's. [deg C days]
    """
    at, left = day_of_year_index(on), need.heat if heat is None else heat
    for i, (begins, weather) in enumerate(stretches):
        summed = weather.sums(need.response, need.slows)
        first = at + begins
        if first >= len(summed):
            break
        last = at + stretches[i + 1].begins if i + 1 < len(stretches) else len(summed) - 1
        found = float(summed[min(last, len(summed) - 1)] - summed[first])
        if found >= left - 1e-9:
            days = int(np.searchsorted(summed[first:], summed[first] + left - 1e-9))
            return shift(on, begins + days)
        left -= found
    return None


def heat_by(on: dt.date, day: dt.date, need: Need, stretches: tuple[Stretch, ...]) -> float:
    """Heat that a planting has had from one day to another. [deg C days]"""
    at, until, found = day_of_year_index(on), (day - on).days, 0.0
    for i, (begins, weather) in enumerate(stretches):
        ends = stretches[i + 1].begins if i + 1 < len(stretches) else until
        if begins >= until:
            break
        summed = weather.sums(need.response, need.slows)
        last = min(at + min(ends, until), len(summed) - 1)
        found += float(summed[last] - summed[min(at + begins, last)])
    return found


def latest_start(until: dt.date, need: Need, weather: UsualWeather) -> dt.date | None:
    """The last day from which a need is met by another day; None where two years are too short.

    Parameters
    ----------
    until : date
    need : Need
    weather : UsualWeather
    """
    summed = weather.sums(need.response, need.slows)
    at = 2 * 366 + day_of_year_index(until)
    found = int(np.searchsorted(summed[: at + 1], summed[at] - need.heat + 1e-9, side="right")) - 1
    return shift(until, found - at) if found >= 0 else None
