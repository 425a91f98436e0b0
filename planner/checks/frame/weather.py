"""The usual weather over a planting, with what glass and covers make of it."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.checks.frame.odds import LivedYears, lived_years
from planner.checks.frame.planting_view import PlantingView
from planner.crops.cover_effects import sheltered_by
from planner.plan import Plan
from planner.season.frosts import Frosts, shift
from planner.season.lived.lived_years import Lived
from planner.season.lived.odds import Odds
from planner.season.practice import WARMING
from planner.season.temperatures import day_of_year_index
from planner.season.usual_weather import UsualWeather, weather_of

#: What frost is to glass that is heated: none comes in. [deg C]
_HEATED = 60.0


class WeatherInputs(NamedTuple):
    """What the judgement of one planting by frost and season depends on.

    Attributes
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    outside : UsualWeather or None
        The usual weather of the garden.
    zone : str
        USDA hardiness zone of the garden; may be empty.
    southern : bool
        Whether the garden lies in the south.
    lived : Lived or None
        The planting lived through the recorded years; None where none are kept.
    odds : Odds or None
        The same as odds.
    assumed : str
        What the view assumes of those years, in words.
    """

    view: PlantingView
    frosts: Frosts
    outside: UsualWeather | None
    zone: str
    southern: bool
    lived: Lived | None = None
    odds: Odds | None = None
    assumed: str = ""

    @property
    def years(self) -> LivedYears:
        """The planting lived through the recorded years."""
        return LivedYears(self.lived, self.odds, self.assumed)


def outside_weather(plan: Plan) -> UsualWeather | None:
    """The usual weather of a garden; None where neither monthly means nor both frosts are known.

    Parameters
    ----------
    plan : Plan
    """
    site = plan.garden.site
    return weather_of(plan.garden.climate, site.latitude, site.southern)


def weather_inputs(plan: Plan, view: PlantingView, outside: UsualWeather | None) -> WeatherInputs:
    """What the judgement of a planting by frost and season depends on.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    outside : UsualWeather, optional
        Of the garden.
    """
    garden = plan.garden
    frosts = plan.frosts(view.planting.year)
    years = lived_years(plan, view)
    return WeatherInputs(view, frosts, outside, garden.climate.zone, garden.site.southern, *years)


def covers_on(view: PlantingView, day: dt.date) -> tuple[str, ...]:
    """Kinds of what warms a planting on a day: its roof or wall, and the covers that lie over it, film among them.

    A cover laid with sowing or setting out lies on that day.

    Parameters
    ----------
    view : PlantingView
    day : date
    """
    lying = (
        cover.kind
        for cover in view.dates.covers
        if (cover.kind in WARMING or cover.kind == "film")
        and cover.on.day <= shift(day, 1)
        and (cover.off is None or cover.off.day >= day)
    )
    return (*view.shelter, *lying)


def weather_over(view: PlantingView, outside: UsualWeather, day: dt.date) -> UsualWeather:
    """The weather over a planting as it is covered on a day.

    Parameters
    ----------
    view : PlantingView
    outside : UsualWeather
        Of the garden.
    day : date
    """
    kinds = covers_on(view, day)
    under = outside.under(sheltered_by(kinds)) if kinds else outside
    return under.kept_above(view.bed.kept_above if view.sheltered else None)


def frost_gain(view: PlantingView, day: dt.date) -> float:
    """By how much colder the open may be in a frosty night, for glass and covers of a planting. [deg C]

    Parameters
    ----------
    view : PlantingView
    day : date
    """
    if view.sheltered and (view.bed.kept_above or 0.0) > 0.0:
        return _HEATED
    kinds = covers_on(view, day)
    return sheltered_by(kinds).frost_gain if kinds else 0.0


def frosty_until(
    view: PlantingView, outside: UsualWeather, bears: float, out: dt.date, last: dt.date
) -> dt.date | None:
    """The last day, from the one it is out, to the last spring frost, with nights colder than it bears; None where none is.

    That frost comes where the mean minimum has risen to that of its day; a night colder by so much comes at the same odds
    where the mean minimum is lower by so much.

    Parameters
    ----------
    view : PlantingView
    outside : UsualWeather
    bears : float
        Cold that it bears, 0 or less. [deg C]
    out, last : date
        The day it is out, and the last spring frost at the risk that is planned with.
    """
    at_frost = float(outside.low[day_of_year_index(last)])
    day = last
    while day >= out:
        if float(outside.low[day_of_year_index(day)]) < at_frost + bears - frost_gain(view, day):
            return day
        day = shift(day, -1)
    return None


def cold_from(view: PlantingView, outside: UsualWeather, bears: float, frost: dt.date) -> dt.date | None:
    """The first day, from the first autumn frost on, with nights colder than a planting bears; None where none comes.

    Parameters
    ----------
    view : PlantingView
    outside : UsualWeather
    bears : float
        Cold that it bears, 0 or less. [deg C]
    frost : date
        First autumn frost at the risk that is planned with.
    """
    at_frost = float(outside.low[day_of_year_index(frost)])
    for days in range(183):
        day = shift(frost, days)
        if float(outside.low[day_of_year_index(day)]) <= at_frost + bears - frost_gain(view, day) + 1e-9:
            return day
    return None
