"""Reading daily weather of GHCN-Daily: tables by station, and files of fixed width (``.dly``).

Values are tenths of a degree or of a millimetre, -9999 where missing; one with a quality flag is left out (readme of
GHCN-Daily, section III; readme of its tables by station).
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence

import numpy as np

from planner.importing.weather_cells import cut, days_of, numbers_of, ordinals, separator_of
from planner.importing.weather_columns import Choice
from planner.importing.weather_readings import Element, Readings, SeveralStationsError, Station

#: What is read of a day, by the name of its element.
_ELEMENTS: dict[str, Element] = {"TMIN": "low", "TMAX": "high", "PRCP": "rain"}
_MISSING = -9999
#: Where the first value of a line of fixed width begins, and the length of a value with its three flags. [characters]
_FIRST, _STEP, _DAYS = 21, 8, 31


def is_by_station(row: Sequence[str]) -> bool:
    """Whether a row is that of a table by station: ID, YYYYMMDD, ELEMENT, VALUE, flags, without headings."""
    return (
        len(row) >= 4
        and re.fullmatch(r"\d{8}", row[1].strip()) is not None
        and re.fullmatch(r"[A-Z0-9]{4}", row[2].strip()) is not None
    )


def read_by_station(text: str, choice: Choice, where: str) -> Readings:
    """Read minimum, maximum and precipitation of a table by station.

    Parameters
    ----------
    text : str
    choice : Choice
        Its station is the only one read.
    where : str
        Name of the table for the message of an error.

    Raises
    ------
    SeveralStationsError
        Where the table has several stations and none was chosen.
    """
    found = Readings()
    picked: dict[str, tuple[list[str], list[str]]] = {name: ([], []) for name in _ELEMENTS}
    stations: dict[str, None] = {}
    station = ""
    for row in csv.reader(io.StringIO(text), delimiter=separator_of(text)):
        if len(row) < 4:
            blank = not any(cell.strip() for cell in row)
            found.lines += not blank
            found.bad += not blank
            continue
        found.lines += 1
        if row[0] != station:
            station = row[0]
            stations[station] = None
        lists = picked.get(row[2])
        if lists is None or (choice.station is not None and station != choice.station):
            continue
        if len(row) > 5 and row[5].strip():
            found.flagged += 1
            continue
        lists[0].append(row[1])
        lists[1].append(row[3])
    if len(stations) > 1 and choice.station is None:
        raise SeveralStationsError([cut(one) for one in stations], where)
    for name, (dates, cells) in picked.items():
        days = days_of(dates, "year first")
        values, _ = numbers_of(cells)
        found.bad += int(np.count_nonzero((days == 0) | np.isnan(values)))
        found.add(_ELEMENTS[name], days, np.where(values == _MISSING, np.nan, values) / 10)
    found.station = Station(id=choice.station or station)
    return found


def is_fixed_width(line: str) -> bool:
    """Whether a line is one month of an element in fixed width: ID, YEAR, MONTH, ELEMENT, 31 values with flags."""
    return re.match(r"[A-Z0-9_-]{11}\d{4}(0[1-9]|1[0-2])[A-Z0-9]{4}[ \d-]{4}\d...", line) is not None


def read_fixed_width(text: str, choice: Choice, where: str) -> Readings:
    """Read minimum, maximum and precipitation of a file of fixed width.

    Parameters
    ----------
    text : str
    choice : Choice
        Its station is the only one read.
    where : str
        Name of the table for the message of an error.

    Raises
    ------
    SeveralStationsError
        Where the file has several stations and none was chosen.
    """
    found = Readings()
    picked: dict[str, list[str]] = {name: [] for name in _ELEMENTS}
    stations: dict[str, None] = {}
    for line in text.splitlines():
        if not line.strip():
            continue
        found.lines += 1
        if not is_fixed_width(line):
            found.bad += 1
            continue
        stations[line[:11]] = None
        if line[17:21] in picked and choice.station in (None, line[:11]):
            picked[line[17:21]].append(line)
    if len(stations) > 1 and choice.station is None:
        raise SeveralStationsError(list(stations), where)
    for name, lines in picked.items():
        if lines:
            _read_months(found, _ELEMENTS[name], lines)
    found.station = Station(id=choice.station or next(iter(stations), ""))
    return found


def _read_months(found: Readings, element: Element, lines: Sequence[str]) -> None:
    width = _FIRST + _STEP * _DAYS
    text = "".join(line[:width].ljust(width) for line in lines).encode("ascii", "replace")
    letters = np.frombuffer(text, dtype="S1").reshape(len(lines), width)
    days = np.tile(np.arange(1.0, _DAYS + 1), (len(lines), 1))
    years = np.array([float(line[11:15]) for line in lines])[:, None]
    months = np.array([float(line[15:17]) for line in lines])[:, None]
    at = ordinals(*np.broadcast_arrays(years, months, days))
    cells = letters[:, _FIRST:].reshape(len(lines), _DAYS, _STEP)
    numbers = np.ascontiguousarray(cells[:, :, :5]).view("S5")[:, :, 0]
    values, unreadable = numbers_of([cell.decode() for cell in numbers.ravel().tolist()])
    found.bad += int(np.count_nonzero(unreadable))
    known = (at > 0).ravel() & (values != _MISSING) & ~np.isnan(values)
    flagged = known & ((cells[:, :, 6] != b" ") & (cells[:, :, 6] != b"")).ravel()
    found.flagged += int(np.count_nonzero(flagged))
    found.add(element, np.where(known & ~flagged, at.ravel(), 0), values / 10)
