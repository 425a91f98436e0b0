"""Readings of weather tables as they come, and those of several files joined."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal, get_args

import numpy as np

from planner.importing.weather_cells import Ordinals
from planner.importing.weather_columns import Columns
from planner.season.daily_weather import Numbers, WeatherError
from planner.words import say

#: What is read of a day.
Element = Literal["low", "high", "rain", "evapotranspiration"]
ELEMENTS: tuple[Element, ...] = get_args(Element)
#: How a file is laid out.
Layout = Literal["headings", "by station", "fixed width", "model"]


class SeveralStationsError(WeatherError):
    """Tables of more than one station, of which none was chosen.

    Attributes
    ----------
    stations : tuple of str
        Their ids.
    """

    def __init__(self, stations: Sequence[str], where: str) -> None:
        self.stations = tuple(stations)
        named = ", ".join(self.stations[:8]) + (" ..." if len(self.stations) > 8 else "")
        what = say("holds more than one station ({found})", found=named)
        super().__init__(what, where, say("Choose one"))


@dataclass(frozen=True)
class Station:
    """A weather station as its table tells of it; what it does not tell is empty or None."""

    id: str = ""
    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    elevation: float | None = None


@dataclass(frozen=True)
class FileRead:
    """How a file was read.

    Attributes
    ----------
    name : str
    layout : str
    columns : Columns or None
        None for a layout without headings.
    elements : tuple of str
        What it holds.
    """

    name: str
    layout: Layout
    columns: Columns | None
    elements: tuple[Element, ...]


@dataclass
class Readings:
    """Values by day as they are read, and how many lines and values were not usable.

    Attributes
    ----------
    days, values : dict of str to list of numpy.ndarray
        By element, in the order read; day 0 and NaN are left out where they are added.  [ordinals; deg C or mm]
    lines, bad : int
        Lines read, and lines or values that could not be understood.
    flagged : int
        Values left out for a quality flag.
    station : Station
    headings : tuple of str
        Of a table that has them.
    notes : list of str
        What is to be known of how the file was read, a sentence each.
    """

    days: dict[Element, list[Ordinals]] = field(default_factory=dict)
    values: dict[Element, list[Numbers]] = field(default_factory=dict)
    lines: int = 0
    bad: int = 0
    flagged: int = 0
    station: Station = Station()
    headings: tuple[str, ...] = ()
    notes: list[str] = field(default_factory=list)

    def add(self, element: Element, days: Ordinals, values: Numbers) -> None:
        """Add values of an element by day; days 0 and values NaN are left out.

        Parameters
        ----------
        element : str
        days : numpy.ndarray
            Ordinals.
        values : numpy.ndarray
            [deg C or mm]
        """
        known = (days > 0) & ~np.isnan(values)
        if known.any():
            self.days.setdefault(element, []).append(days[known])
            self.values.setdefault(element, []).append(values[known])

    @property
    def elements(self) -> tuple[Element, ...]:
        """What was read."""
        return tuple(one for one in ELEMENTS if one in self.days)


def joined(parts: Sequence[Readings]) -> Readings:
    """The readings of several files of one station, those of the first file first.

    Parameters
    ----------
    parts : sequence of Readings
    """
    if len(parts) == 1:
        return parts[0]
    whole = Readings()
    for part in parts:
        for element in part.elements:
            whole.days.setdefault(element, []).extend(part.days[element])
            whole.values.setdefault(element, []).extend(part.values[element])
        whole.lines += part.lines
        whole.bad += part.bad
        whole.flagged += part.flagged
        whole.notes += [note for note in part.notes if note not in whole.notes]
        one, more = whole.station, part.station
        whole.station = Station(
            one.id or more.id,
            one.name or more.name,
            more.latitude if one.latitude is None else one.latitude,
            more.longitude if one.longitude is None else one.longitude,
            more.elevation if one.elevation is None else one.elevation,
        )
    return whole
