"""Reading daily weather in the layout of DSSAT's weather files (``.WTH``).

A line ``*WEATHER`` or ``$WEATHER``; ``@ INSI LAT LONG ELEV`` over the station; ``@DATE SRAD TMAX TMIN RAIN`` over the days, whose
dates are year and day of the year with two or four digits for the year.  Of two digits 00 to 35 are taken as 2000 to 2035, as the
model does since 2022 (its subroutine Y2K_DOY).  -99 is missing.  Values stand under their headings, right-aligned.  Where a day has
radiation (SRAD, MJ m-2), wind (WIND, km a day, at the height WNDHT) and dew point (DEWP) or relative humidity (RHUM), its reference
evapotranspiration is worked out after FAO-56.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence

import numpy as np

from planner.garden.coordinates import show_latitude, show_longitude
from planner.importing.weather_cells import Ordinals, numbers_of, ordinals_in_years
from planner.importing.weather_columns import Choice
from planner.importing.weather_readings import Element, Readings, SeveralStationsError, Station
from planner.season.daily_weather import Numbers
from planner.words import say

_ELEMENTS: dict[str, Element] = {"TMIN": "low", "TMAX": "high", "RAIN": "rain"}
#: What reference evapotranspiration is worked out from.
_MORE = ("SRAD", "WIND", "DEWP", "RHUM")
#: Height of the wind gauge where the file does not give it: the standard one. [m]
_USUAL_GAUGE = 10.0
#: Numbers as low or lower are missing: no temperature and no rain is.
_MISSING = -98.0
#: Last year of two digits that is of this century.
_LAST_OF_CENTURY = 35
#: Lines that are looked through for the headings.
_HEAD = 60


def is_dssat(text: str) -> bool:
    """Whether a text is laid out so: a line ``@`` with a date and a temperature, or with INSI, among its first ones."""
    return any(
        line.startswith("@") and {"TMAX", "TMIN", "INSI"} & set(line[1:].split())
        for line in text[:8_000].splitlines()[:_HEAD]
    )


def read_dssat(text: str, choice: Choice, where: str) -> Readings:
    """Read minimum, maximum and rain, and the place of the station.

    Parameters
    ----------
    text : str
    choice : Choice
    where : str
        Name of the file for the message of an error.

    Raises
    ------
    SeveralStationsError
        Where the file has several stations and none was chosen.
    """
    found, name = Readings(), ""
    stations: dict[str, Station] = {}
    head: list[tuple[str, int]] = []
    rows: dict[str, list[str]] = {one: [] for one in ("DATE", *_ELEMENTS, *_MORE)}
    station, gauges = "", dict[str, float]()
    for line in text.splitlines():
        if line[:1] in ("*", "$"):
            name = line.partition(":")[2].strip()[:100]
        elif line[:1] == "@":
            head = _headings(line)
        elif not line.strip() or line.lstrip()[:1] == "!" or not head:
            continue
        elif "INSI" in dict(head):
            cells = _cells(line, head)
            one = _station(cells, name)
            gauges[one.id] = float(_known(numbers_of([cells.get("WNDHT", "")])[0])[0])
            station = one.id
            stations.setdefault(station, one)
        elif choice.station in (None, "", station):
            found.lines += 1
            cells = _cells(line, head)
            for heading, into in rows.items():
                into.append(cells.get(heading, ""))
    if len(stations) > 1 and not choice.station:
        raise SeveralStationsError(list(stations), where)
    found.station = stations.get(choice.station or station, Station(name=name))
    dates, _ = numbers_of(rows["DATE"])
    two_digits = bool((dates < 100_000).any())
    years = np.floor(dates / 1000)
    years += np.where(dates >= 100_000, 0, np.where(years <= _LAST_OF_CENTURY, 2000, 1900))
    days = ordinals_in_years(years, dates % 1000)
    found.bad += int(np.count_nonzero(days == 0))
    for heading, element in _ELEMENTS.items():
        values, unreadable = numbers_of(rows[heading], trace=0.0 if element == "rain" else None)
        found.bad += int(np.count_nonzero(unreadable & (days > 0)))
        found.add(element, days, _known(values))
    water = _evapotranspiration(found.station, gauges.get(found.station.id, np.nan), days, rows)
    if water is not None:
        found.add("evapotranspiration", days, water)
        found.notes.append(
            say("Its evapotranspiration was worked out from radiation, wind and humidity after FAO-56")
        )
    found.notes += _notes(found.station, two_digits=two_digits)
    return found


def _evapotranspiration(
    station: Station, gauge: float, days: Ordinals, rows: Mapping[str, Sequence[str]]
) -> Numbers | None:
    """Of the reference grass on the days that have all it wants, NaN on others; None where there is no such day. [mm]

    Parameters
    ----------
    station : Station
    gauge : float
        Height of the wind gauge; NaN where it is not known. [m]
    days : numpy.ndarray
        Ordinals; 0 is no day.
    rows : mapping of str to sequence of str
        Cells by heading.
    """
    if station.latitude is None:
        return None
    values = {name: _known(numbers_of(cells)[0]) for name, cells in rows.items() if name != "DATE"}
    humid = np.where(np.isnan(values["DEWP"]), values["RHUM"], values["DEWP"])
    whole = (days > 0) & ~np.isnan(humid)
    for name in ("SRAD", "WIND", "TMIN", "TMAX"):
        whole &= ~np.isnan(values[name])
    if not whole.any():
        return None
    from planner.season.water.radiation import (
        vapour_from_dew_point,
        vapour_from_humidity,
        wind_at_two_metres,
    )
    from planner.season.water.reference_evapotranspiration import reference_evapotranspiration

    low, high, dew = (values[name][whole] for name in ("TMIN", "TMAX", "DEWP"))
    by_humidity = vapour_from_humidity(low, high, mean=values["RHUM"][whole])
    vapour = np.where(np.isnan(dew), by_humidity, vapour_from_dew_point(dew))
    speed = values["WIND"][whole] * 1000 / 86_400
    dates = [dt.date.fromordinal(int(day)) for day in days[whole]]
    found = np.full(len(days), np.nan)
    found[whole] = reference_evapotranspiration(
        low,
        high,
        np.array([date.timetuple().tm_yday for date in dates]),
        station.latitude,
        elevation=station.elevation or 0.0,
        vapour=vapour,
        radiation=values["SRAD"][whole],
        wind=wind_at_two_metres(speed, gauge if gauge > 0 else _USUAL_GAUGE),
    )
    return found


def _known(values: Numbers) -> Numbers:
    with np.errstate(invalid="ignore"):
        return np.where(values <= _MISSING, np.nan, values)


def _headings(line: str) -> list[tuple[str, int]]:
    """Headings of a line and where each ends."""
    return [(match[0], match.end()) for match in re.finditer(r"[^\s@]+", line)]


def _cells(line: str, head: Sequence[tuple[str, int]]) -> dict[str, str]:
    """Cells by heading: one after another where there are as many, else by where they stand."""
    parts = line.split()
    if len(parts) == len(head):
        return {name: part for (name, _), part in zip(head, parts, strict=True)}
    found, begin = {}, 0
    for at, (name, end) in enumerate(head):
        if at == 0:
            match = re.match(r"\s*\S+", line)  # a date may be longer than its heading
            end = max(end, match.end() if match else 0)
        found[name] = line[begin:end].strip()
        begin = end
    return found


def _station(cells: dict[str, str], name: str) -> Station:
    def within(heading: str, least: float, most: float) -> float | None:
        values, _ = numbers_of([cells.get(heading, "")])
        value = float(values[0])
        return value if least <= value <= most and value not in (-99.0, -99.9) else None

    return Station(
        cells.get("INSI", ""),
        name,
        within("LAT", -90, 90),
        within("LONG", -180, 180),
        within("ELEV", -98, 9_000),
    )


def _notes(station: Station, *, two_digits: bool) -> list[str]:
    notes = []
    if two_digits:
        notes.append(
            say("Its years have two digits: 00 to 35 were taken as 2000 to 2035, 36 to 99 as 1936 to 1999")
        )
    if station.latitude is not None and station.longitude is not None and station.longitude > 0:
        notes.append(
            say(
                "It puts the station at {latitude}, {longitude}: files of this kind often leave out the minus of the west; look whether that is right",
                latitude=show_latitude(station.latitude),
                longitude=show_longitude(station.longitude),
            )
        )
    return notes
