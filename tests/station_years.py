"""Open daily weather of three stations, carried by aquacrop: Brussels 1976-2005, Champion 1982-2018, Cordoba (Argentina) 1991-2021."""

from __future__ import annotations

import datetime as dt
import functools
import gzip
from pathlib import Path
from typing import NamedTuple

import numpy as np

from planner.garden import WeatherYears
from planner.season.daily_weather import Weather
from planner.season.weather_years import years_of

FOLDER = Path(__file__).parent / "reference" / "weather"


class Station(NamedTuple):
    """Where it lies. [degrees north]"""

    name: str
    latitude: float


BRUSSELS, CHAMPION, CORDOBA = (
    Station("brussels", 50.8),
    Station("champion", 41.4),
    Station("cordoba", -31.4),
)
STATIONS = (BRUSSELS, CHAMPION, CORDOBA)


@functools.cache
def station_weather(name: str) -> Weather:
    """All days of a station, minimum, maximum, rain and reference evapotranspiration."""
    path = FOLDER / f"{name}_climate.txt.gz"
    with gzip.open(path, "rt", encoding="utf-8") as file:
        rows = [line.split() for line in file.readlines()[1:] if line.strip()]
    day, month, year = (int(cell) for cell in rows[0][:3])
    values = np.array([[float(cell) for cell in row[3:7]] for row in rows])
    first = dt.date(year, month, day)
    last = dt.date(int(rows[-1][2]), int(rows[-1][1]), int(rows[-1][0]))
    assert (last - first).days + 1 == len(rows)  # no day is missing
    low, high, rain, evapotranspiration = values.T
    return Weather(first, low, high, rain=rain, evapotranspiration=evapotranspiration)


@functools.cache
def station_years(name: str, most: int = 30) -> WeatherYears:
    """The latest years of a station, as a garden keeps them."""
    return WeatherYears(station=name, years=years_of(station_weather(name), most))
