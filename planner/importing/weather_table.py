"""Reading a table of daily weather, from a weather service or of the gardener's own making."""

from __future__ import annotations

import csv
import itertools
import re
from collections.abc import Iterable, Sequence
from pathlib import Path

from planner.importing.weather_cells import (
    BLANK,
    UNREADABLE,
    Order,
    celsius,
    cut,
    day_of,
    number,
    open_table,
    quality_flag,
    rows_of,
)
from planner.importing.weather_columns import Columns, guess_columns, order_of
from planner.importing.weather_readings import Readings, checked
from planner.season.daily_weather import Weather, WeatherError
from planner.words import say

#: Largest table that is read, unpacked. [bytes]
MOST_BYTES = 128 * 2**20


def read_weather(path: Path, columns: Columns | None = None) -> Weather:
    """Read a table from a file, plain or packed with gzip.

    Parameters
    ----------
    path : Path
    columns : Columns, optional
        Guessed where left out; a table by station needs none.

    Raises
    ------
    WeatherError
    """
    try:
        with open_table(path) as stream:
            data = stream.read(MOST_BYTES + 1)
    except UNREADABLE as error:
        words = getattr(error, "strerror", None) or "is damaged"
        raise WeatherError(
            say("cannot be read: {words}", words=words), path.name, say("Choose another file")
        ) from None
    if len(data) > MOST_BYTES:
        raise WeatherError(
            say("is larger than {number} MiB", number=MOST_BYTES // 2**20),
            path.name,
            say("Choose the table of one station"),
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("latin-1")
    return parse_weather(text, columns, path.name)


def parse_weather(text: str, columns: Columns | None = None, where: str = "weather table") -> Weather:
    """Read a table's text, as :func:`read_weather` does a file.

    Parameters
    ----------
    text : str
    columns : Columns, optional
        Guessed where left out.
    where : str
        Name of the table for the message of an error.

    Raises
    ------
    WeatherError
    """
    if not text.strip():
        raise WeatherError(say("is empty"), where, say("Choose another file"))
    if "\0" in text[:4096]:
        raise WeatherError(say("is no table of text"), where, say("Choose a CSV file"))
    try:
        rows = rows_of(text)
        first = next(rows, [])
        if columns is None and _is_by_station(first):
            found = _read_by_station(itertools.chain([first], rows), where)
        else:
            chosen = columns or guess_columns(text, where)
            found = _read_columns(first, rows, chosen, order_of(text, chosen), where)
    except csv.Error as error:
        raise WeatherError(
            say("is no table: {error}", error=error), where, say("Choose a CSV file")
        ) from None
    return checked(found, where)


# -- GHCN-Daily by station ------------------------------------------------------------------------


def _is_by_station(row: Sequence[str]) -> bool:
    """Whether a row is that of a table by station: ID, YYYYMMDD, ELEMENT, VALUE, flags, without headings."""
    return (
        len(row) >= 4
        and re.fullmatch(r"\d{8}", row[1].strip()) is not None
        and re.fullmatch(r"[A-Z0-9]{4}", row[2].strip()) is not None
    )


def _read_by_station(rows: Iterable[Sequence[str]], where: str) -> Readings:
    """Read elements TMIN and TMAX, in tenths of a degree; values with a quality flag are left out.

    Parameters
    ----------
    rows : iterable of sequence of str
    where : str
        Name of the table for the message of an error.
    """
    found, station = Readings(), ""
    for row in rows:
        found.lines += 1
        if len(row) < 4:
            found.bad += 1
            continue
        if not station:
            station = row[0]
        elif row[0] != station:
            raise WeatherError(
                say(
                    "holds more than one station ({found} and {found_2})",
                    found=cut(station),
                    found_2=cut(row[0]),
                ),
                where,
                say("Choose one"),
            )
        if row[2] not in ("TMIN", "TMAX"):
            continue
        if len(row) > 5 and row[5].strip():
            found.flagged += 1
            continue
        day, value = day_of(row[1], "year first"), number(row[3])
        if day is None or value is None:
            found.bad += 1
        elif value != -9999:
            found.put(found.low if row[2] == "TMIN" else found.high, day, value / 10)
    return found


# -- tables with headings -------------------------------------------------------------------------


def _read_columns(
    first: list[str], rows: Iterable[Sequence[str]], columns: Columns, order: Order, where: str
) -> Readings:
    """Read a table with headings.

    Parameters
    ----------
    first : list of str
        The headings.
    rows : iterable of sequence of str
        All rows after them.
    columns : Columns
    order : str
        Of day, month and year in its dates.
    where : str
        Name of the table for the message of an error.
    """
    head = [cell.strip() for cell in first]
    for name in (columns.date, columns.minimum, columns.maximum):
        if name is not None and name not in head:
            shown = ", ".join(cut(one) for one in head[:12])
            raise WeatherError(
                say("has no column '{found}'; it has {shown}", found=cut(name), shown=shown),
                where,
                say("Choose the columns"),
            )
    at, low = head.index(columns.date), head.index(columns.minimum)
    high = head.index(columns.maximum) if columns.maximum is not None else None
    flags = [
        head.index(f"{name}_ATTRIBUTES") if f"{name}_ATTRIBUTES" in head else None
        for name in (columns.minimum, columns.maximum)
    ]
    found = Readings()
    for row in rows:
        found.lines += 1
        day = day_of(row[at], order) if at < len(row) else None
        if day is None:
            found.bad += 1
            continue
        for spot, flag, which in ((low, flags[0], found.low), (high, flags[1], found.high)):
            if spot is None or spot >= len(row) or row[spot].strip().lower() in BLANK:
                continue
            value = number(row[spot])
            if value is None:
                found.bad += 1
            elif abs(value) >= 9990:  # the usual marks of a missing value
                continue
            elif flag is not None and flag < len(row) and quality_flag(row[flag]):
                found.flagged += 1
            else:
                found.put(which, day, celsius(value, columns.unit))
    return found
