"""What a view of a plan assumes of its recorded years: that they were warmer, or those of another station."""

from __future__ import annotations

from typing import NamedTuple

from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.garden.weather_years import WeatherYears
from planner.words import say

#: Greatest shift of all temperatures that may be assumed, either way. [deg C]
MOST_WARMER = 10.0


class Assumed(NamedTuple):
    """An assumption about the weather; it is part of a view, and never of a garden.

    Attributes
    ----------
    warmer : float
        All temperatures of all recorded days are so much higher; colder where negative. [deg C]
    station : WeatherYears or None
        Years that stand in for those of the garden.
    """

    warmer: float = 0.0
    station: WeatherYears | None = None

    def __bool__(self) -> bool:
        return bool(self.warmer) or self.station is not None


#: The years as they were recorded.
AS_RECORDED = Assumed()


def checked_warmer(warmer: float) -> float:
    """A shift of temperature that was typed. [deg C]

    Raises
    ------
    BedwrightError
        If it is beyond :data:`MOST_WARMER`.
    """
    if not abs(warmer) <= MOST_WARMER:
        raise BedwrightError(
            say("{degrees} °C warmer", degrees=_number(warmer)),
            say("an assumption"),
            say("give a number from {least} to {most}", least=f"{-MOST_WARMER:g}", most=f"{MOST_WARMER:g}"),
        )
    return warmer


def assumed_words(assumed: Assumed, units: UnitSystem) -> str:
    """An assumption as it is marked wherever it shows: ``as if 2 °C warmer``; empty without one.

    Parameters
    ----------
    assumed : Assumed
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> assumed_words(Assumed(2.0), "metric"), assumed_words(Assumed(-0.5), "feet_inches")
    ('as if 2 °C warmer', 'as if 0.9 °F colder')
    """
    degrees = _degrees(abs(assumed.warmer), units)
    station = assumed.station.station if assumed.station is not None else ""
    if assumed.station is not None:
        if assumed.warmer > 0:
            return say(
                "as if with the years of {station}, {degrees} warmer", station=station, degrees=degrees
            )
        if assumed.warmer < 0:
            return say(
                "as if with the years of {station}, {degrees} colder", station=station, degrees=degrees
            )
        return say("as if with the years of {station}", station=station)
    if assumed.warmer > 0:
        return say("as if {degrees} warmer", degrees=degrees)
    return say("as if {degrees} colder", degrees=degrees) if assumed.warmer < 0 else ""


def _degrees(difference: float, units: UnitSystem) -> str:
    return f"{_number(difference)} °C" if units == "metric" else f"{_number(difference * 1.8)} °F"


def _number(value: float) -> str:
    return f"{round(value, 1):g}"
