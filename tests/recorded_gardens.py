"""Sample gardens that keep thirty invented years of weather."""

from __future__ import annotations

from functools import cache

from planner.garden import Garden
from planner.garden.edits import change_weather
from planner.resources import sample_folder
from planner.season.weather_years import years_of
from planner.storage import load
from tests.invented_weather import invented


@cache
def recorded(name: str) -> Garden:
    """A sample garden with its invented years.

    Parameters
    ----------
    name : str
        One of :data:`tests.invented_weather.SPREADS`.
    """
    garden = load(sample_folder() / f"{name}.bedwright")
    return change_weather(garden, station="Invented", years=years_of(invented(name)))
