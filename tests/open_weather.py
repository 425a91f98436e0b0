"""Open daily weather of a station: Seattle, 2012 to 2015, carried by vega_datasets, of data of NOAA in the public domain."""

from __future__ import annotations

import csv
import datetime as dt
import importlib.util
from pathlib import Path

from planner.garden import Garden


def seattle_file() -> Path:
    """The table as it is shipped."""
    spec = importlib.util.find_spec("vega_datasets")
    assert spec is not None
    assert spec.origin is not None
    return Path(spec.origin).parent / "_data" / "seattle-weather.csv"


def seattle_rows() -> list[tuple[dt.date, float, float]]:
    """Day, minimum and maximum of each of its rows. [deg C]"""
    with seattle_file().open(encoding="utf-8") as stream:
        return [
            (dt.date(*map(int, row["date"].split("/"))), float(row["temp_min"]), float(row["temp_max"]))
            for row in csv.DictReader(stream)
        ]


def with_weather(garden: Garden) -> Garden:
    """A garden that keeps those four years."""
    from planner.importing.weather_table import read_tables

    return garden.with_(weather=read_tables([seattle_file()]).kept())
