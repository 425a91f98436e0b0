"""The recorded years of another garden file."""

from __future__ import annotations

from pathlib import Path

from planner.errors import BedwrightError
from planner.garden import WeatherYears
from planner.storage.files import load
from planner.words import say


def station_of(path: Path) -> WeatherYears:
    """The recorded years that another garden keeps, under the name of its station, else of its garden.

    Parameters
    ----------
    path : Path
        Of a garden file.

    Raises
    ------
    BedwrightError
        Where it cannot be read, or keeps no recorded years.
    """
    garden = load(path)
    kept = garden.weather
    if not kept.years:
        raise BedwrightError(
            say("the garden keeps no recorded years of weather"), path.name, say("Name one that does")
        )
    return kept if kept.station else kept.with_(station=garden.site.name)
