"""The plantings of a plan lived through the recorded years of the garden, and their odds."""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import replace
from typing import Any, NamedTuple, Protocol, TypeVar

from planner.garden import Garden, Planting, Site, WeatherYears
from planner.plan.cache import Fact, Subject, fact
from planner.season.lived.assumed import Assumed
from planner.season.lived.lived_plantings import live
from planner.season.lived.lived_years import Lived
from planner.season.lived.odds import Odds, odds_of
from planner.season.lived.recorded_weather import RecordedWeather, recorded_weather
from planner.season.lived.recorded_years import recorded_years
from planner.season.planting_dates import Dates
from planner.season.temperatures import USUAL_LATITUDE
from planner.season.weather_years import weather_of_garden
from planner.season.work_out_dates import DateInputs

I = TypeVar("I", bound=tuple[Any, ...])  # noqa: E741  # inputs
T = TypeVar("T")


class PlanForOdds(Protocol):
    """What the odds of a plan depend on; :class:`planner.plan.plan.Plan` has all of it."""

    garden: Garden
    assumed: Assumed

    @property
    def plantings(self) -> tuple[Planting, ...]: ...
    @property
    def recorded(self) -> RecordedWeather | None: ...
    def cached(self, kind: Fact[I, T], subject: Subject, inputs: I) -> T: ...
    def date_inputs(self, planting: Planting) -> DateInputs: ...
    def dates(self, planting: Planting) -> Dates: ...
    def odds(self, planting: Planting) -> Odds | None: ...


class RecordInputs(NamedTuple):
    """What the recorded weather of a garden depends on.

    Attributes
    ----------
    kept : WeatherYears
    elevation, latitude : float, optional
        Of the garden. [m], [degrees north]
    first_month : int
        Of the growing year.
    warmer : float
        What the view assumes all days to be warmer than they were. [deg C]
    """

    kept: WeatherYears
    elevation: float | None
    latitude: float | None
    first_month: int
    warmer: float = 0.0


@fact("recorded weather")
def weather_of_record(inputs: RecordInputs) -> RecordedWeather | None:
    """The recorded weather of a garden in the open; None where no day has both a minimum and a maximum."""
    weather = weather_of_garden(inputs.kept, Site(elevation=inputs.elevation))
    if weather is not None and inputs.warmer:
        weather = replace(weather, low=weather.low + inputs.warmer, high=weather.high + inputs.warmer)
    years = recorded_years(weather, inputs.first_month) if weather is not None else None
    if years is None:
        return None
    at = inputs.latitude if inputs.latitude is not None else USUAL_LATITUDE
    return recorded_weather(years, at, at < 0)


class LivedInputs(NamedTuple):
    """What becomes of a planting in the recorded years depends on these.

    Attributes
    ----------
    inputs : DateInputs
    dates : Dates
        Those of the plan.
    weather : RecordedWeather
    """

    inputs: DateInputs
    dates: Dates
    weather: RecordedWeather


@fact("lived planting")
def lived_planting(inputs: LivedInputs) -> Lived | None:
    """A planting lived through the recorded years."""
    return live(*inputs)


class OddsInputs(NamedTuple):
    """Of a planting that was lived through the recorded years."""

    lived: Lived


@fact("odds")
def odds_of_planting(inputs: OddsInputs) -> Odds:
    """The odds of a planting."""
    return odds_of(inputs.lived)


def kept_years(plan: PlanForOdds) -> WeatherYears:
    """The years that a plan's odds rest on: those of its garden, or those that the view assumes."""
    return plan.assumed.station if plan.assumed.station is not None else plan.garden.weather


def weather_in(plan: PlanForOdds) -> RecordedWeather | None:
    """The recorded weather of a plan's garden; None where it keeps none with minimum and maximum.

    Parameters
    ----------
    plan : PlanForOdds
    """
    kept, site = kept_years(plan), plan.garden.site
    if not kept.years:
        return None
    inputs = RecordInputs(kept, site.elevation, site.latitude, site.year_begins, plan.assumed.warmer)
    return plan.cached(weather_of_record, "", inputs)


def lived_in(plan: PlanForOdds, planting: Planting) -> Lived | None:
    """A planting lived through the recorded years; None where the garden keeps none, or nothing of the planting is known.

    Parameters
    ----------
    plan : PlanForOdds
    planting : Planting
    """
    weather = plan.recorded
    if weather is None:
        return None
    inputs = LivedInputs(plan.date_inputs(planting), plan.dates(planting), weather)
    return plan.cached(lived_planting, planting.id, inputs)


def odds_in(plan: PlanForOdds, planting: Planting, lived: Lived | None) -> Odds | None:
    """The odds of a planting; None as for :func:`lived_in`.

    Parameters
    ----------
    plan : PlanForOdds
    planting : Planting
    lived : Lived, optional
        What :func:`lived_in` gives of it.
    """
    return plan.cached(odds_of_planting, planting.id, OddsInputs(lived)) if lived is not None else None


def weakest_first(plan: PlanForOdds, beds: Collection[str] | None = None) -> list[tuple[Planting, Odds]]:
    """The odds of this year's plantings, those first that fail in most years, then those picked for the fewest days.

    Those of which nothing is known are left out.

    Parameters
    ----------
    plan : PlanForOdds
    beds : collection of str, optional
        Ids of beds; all by default.
    """
    found = []
    for planting in plan.plantings:
        odds = plan.odds(planting) if beds is None or planting.bed in beds else None
        if odds is not None:
            found.append((planting, odds))
    return sorted(found, key=lambda pair: _strength(pair[1]))


def _strength(odds: Odds) -> tuple[float, float]:
    """What odds are ordered by: the share of years without a loss, then the least that is picked in nine of ten years."""
    days = odds.harvest_days
    return 1.0 - odds.share_lost, days.tenth if days is not None else math.inf
