"""Reading a table of daily weather, from a weather service or of the gardener's own making."""

from __future__ import annotations

import csv
import datetime as dt
import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from planner.importing.weather_cells import (
    BLANK,
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
from planner.season.daily_weather import Numbers, Weather, WeatherError

#: Largest table that is read, unpacked. [bytes]
MOST_BYTES = 128 * 2**20
#: Most days of a table: 400 years.
MOST_DAYS = 146_100
#: Colder than any place on earth has been. [deg C]
COLDEST = -90.0
#: Warmer than any place on earth has been. [deg C]
WARMEST = 60.0
#: Share of lines that may be unreadable or impossible before the whole table is refused.
MOST_BAD = 0.05


@dataclass
class _Readings:
    """Values by day as they are read, and how many lines and values were not usable.

    Attributes
    ----------
    low, high : dict of date to float
        [deg C]
    lines, bad : int
        Lines read, and lines or values that could not be understood.
    twice : int
        Days given again with another value.
    flagged : int
        Values left out for a quality flag.
    """

    low: dict[dt.date, float] = field(default_factory=dict)
    high: dict[dt.date, float] = field(default_factory=dict)
    lines: int = 0
    bad: int = 0
    twice: int = 0
    flagged: int = 0

    def put(self, which: dict[dt.date, float], day: dt.date, value: float) -> None:
        """Enter a value of a day, the first one where a table gives several that differ.

        Parameters
        ----------
        which : dict of date to float
            ``low`` or ``high``.
        day : date
        value : float
            [deg C]
        """
        if day in which and which[day] != value:
            self.twice += 1
            return
        which[day] = value


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
    except (OSError, EOFError) as error:
        words = getattr(error, "strerror", None) or "is damaged"
        raise WeatherError(f"cannot be read: {words}", path.name, "Choose another file") from None
    if len(data) > MOST_BYTES:
        raise WeatherError(
            f"is larger than {MOST_BYTES // 2**20} MiB", path.name, "Choose the table of one station"
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
        raise WeatherError("is empty", where, "Choose another file")
    if "\0" in text[:4096]:
        raise WeatherError("is no table of text", where, "Choose a CSV file")
    try:
        rows = rows_of(text)
        first = next(rows, [])
        if columns is None and _is_by_station(first):
            found = _read_by_station(itertools.chain([first], rows), where)
        else:
            chosen = columns or guess_columns(text, where)
            found = _read_columns(first, rows, chosen, order_of(text, chosen), where)
    except csv.Error as error:
        raise WeatherError(f"is no table: {error}", where, "Choose a CSV file") from None
    return _checked(found, where)


# -- GHCN-Daily by station ------------------------------------------------------------------------


def _is_by_station(row: Sequence[str]) -> bool:
    """Whether a row is that of a table by station: ID, YYYYMMDD, ELEMENT, VALUE, flags, without headings."""
    return (
        len(row) >= 4
        and re.fullmatch(r"\d{8}", row[1].strip()) is not None
        and re.fullmatch(r"[A-Z0-9]{4}", row[2].strip()) is not None
    )


def _read_by_station(rows: Iterable[Sequence[str]], where: str) -> _Readings:
    """Read elements TMIN and TMAX, in tenths of a degree; values with a quality flag are left out.

    Parameters
    ----------
    rows : iterable of sequence of str
    where : str
        Name of the table for the message of an error.
    """
    found, station = _Readings(), ""
    for row in rows:
        found.lines += 1
        if len(row) < 4:
            found.bad += 1
            continue
        if not station:
            station = row[0]
        elif row[0] != station:
            raise WeatherError(
                f"holds more than one station ({cut(station)} and {cut(row[0])})", where, "Choose one"
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
) -> _Readings:
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
            raise WeatherError(f"has no column '{cut(name)}'; it has {shown}", where, "Choose the columns")
    at, low = head.index(columns.date), head.index(columns.minimum)
    high = head.index(columns.maximum) if columns.maximum is not None else None
    flags = [
        head.index(f"{name}_ATTRIBUTES") if f"{name}_ATTRIBUTES" in head else None
        for name in (columns.minimum, columns.maximum)
    ]
    found = _Readings()
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


# -- what was read, checked -----------------------------------------------------------------------


def _checked(found: _Readings, where: str) -> Weather:
    """The weather of readings, without impossible values, with notes; refuse what cannot be used.

    Parameters
    ----------
    found : _Readings
    where : str
        Name of the table for the message of an error.
    """
    if found.lines and found.bad > MOST_BAD * found.lines:
        raise WeatherError(
            f"{found.bad:,} of {found.lines:,} lines cannot be read as a day and its temperatures",
            where,
            "Choose other columns, or another file",
        )
    if not found.low:
        raise WeatherError("holds no daily minimum", where, "Choose a table with minimum temperatures")
    days = sorted(found.low.keys() | found.high.keys())
    span = (days[-1] - days[0]).days + 1
    if span > MOST_DAYS:
        raise WeatherError(f"runs over {span // 365} years", where, "Choose a table of at most 400 years")
    low, high = np.full(span, np.nan), np.full(span, np.nan)
    for readings, values in ((found.low, low), (found.high, high)):
        for day, value in readings.items():
            values[(day - days[0]).days] = value
    possible_low, possible_high, left_out = _without_impossible(low, high, where)
    notes = [f"{left_out:,} impossible values were left out"] if left_out else []
    notes += _doubts_about_unit(
        possible_low,
        possible_high,
        int(np.count_nonzero(~np.isnan(low))),
        int(np.count_nonzero(~np.isnan(low) & ~np.isnan(high))),
    )
    if found.bad:
        notes.append(f"{found.bad:,} lines could not be read and were left out")
    if found.flagged:
        notes.append(f"{found.flagged:,} values with a quality flag were left out")
    if found.twice:
        notes.append(f"{found.twice:,} days are given twice with different values; the first counts")
    return Weather(days[0], possible_low, possible_high, tuple(notes))


def _without_impossible(low: Numbers, high: Numbers, where: str) -> tuple[Numbers, Numbers, int]:
    """Minimum and maximum with NaN for impossible values, and how many there were.

    A table with many of them is refused: it is in another unit, or its columns are swapped.

    Parameters
    ----------
    low, high : numpy.ndarray
        [deg C]
    where : str
        Name of the table for the message of an error.
    """
    with np.errstate(invalid="ignore"):
        out_low, out_high = (low < COLDEST) | (low > WARMEST), (high < COLDEST) | (high > WARMEST)
        wrong = low > high + 0.05
    known = np.count_nonzero(~np.isnan(low))
    out = int(np.count_nonzero(out_low) + np.count_nonzero(out_high))
    if out > 0.01 * known or float(np.nanmedian(low)) > 35 or float(np.nanmin(low)) > 30:
        warmest = float(np.nanmax(np.concatenate([low, high])))
        raise WeatherError(
            f"cannot be in the unit chosen: {warmest:.0f} °C would be its warmest reading",
            where,
            "Choose degrees F, C or tenths of C",
        )
    both = int(np.count_nonzero(~np.isnan(low) & ~np.isnan(high)))
    if both and np.count_nonzero(wrong) > 0.02 * both:
        raise WeatherError(
            f"its minimum is above its maximum on {np.count_nonzero(wrong):,} days", where, "Swap the columns"
        )
    left_out = out + int(np.count_nonzero(wrong & ~out_low & ~out_high))
    return np.where(out_low | wrong, np.nan, low), np.where(out_high | wrong, np.nan, high), left_out


def _doubts_about_unit(low: Numbers, high: Numbers, known: int, both: int) -> list[str]:
    """Sentences where a year or more hardly changes, or is too cold for any place where things grow.

    Parameters
    ----------
    low, high : numpy.ndarray
        [deg C]
    known, both : int
        Days with a minimum, and with minimum and maximum, impossible ones too.
    """
    if len(low) < 365 or known <= 300:
        return []
    notes = []
    spread = float(np.nanquantile(low, 0.98) - np.nanquantile(low, 0.02))
    if spread < 4:
        notes.append("The temperatures hardly change over the year: look whether the unit is right")
    top = float(np.nanquantile(high if both > 300 else low, 0.98))
    if top < 4 if both > 300 else top < -5:
        notes.append(f"Its warmest days reach only {top:.0f} °C: look whether the unit is right")
    return notes
