"""Daily weather tables: reading them, from a weather service or of the gardener's own making."""

from __future__ import annotations

import csv
import datetime as dt
import gzip
import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.season.tables import (
    BLANK,
    Columns,
    Order,
    WeatherError,
    celsius,
    cut,
    day_of,
    guess_columns,
    number,
    order_of,
    quality_flag,
    rows_of,
)

__all__ = ["Columns", "Weather", "WeatherError", "guess_columns", "parse_weather", "read_weather"]

#: Largest table that is read, unpacked. [bytes]
MOST_BYTES = 128 * 2**20
#: Most days of a table: 400 years.
MOST_DAYS = 146_100
#: Colder and warmer than any place on earth has been. [deg C]
COLDEST, WARMEST = -90.0, 60.0
#: Share of lines that may be unreadable or impossible before the whole table is refused.
MOST_BAD = 0.05

Numbers = NDArray[np.float64]


@dataclass(frozen=True)
class Weather:
    """Minimum and maximum temperature by day, without gaps in the days.

    Attributes
    ----------
    first : date
        Day of the first entry.
    low, high : numpy.ndarray
        NaN where it is missing. [deg C]
    notes : tuple of str
        What was left out or looks odd, a sentence each.
    """

    first: dt.date
    low: Numbers
    high: Numbers
    notes: tuple[str, ...] = ()

    @property
    def last(self) -> dt.date:
        """Day of the last entry."""
        return self.first + dt.timedelta(days=len(self.low) - 1)

    def part(self, first: dt.date, last: dt.date) -> tuple[Numbers, Numbers]:
        """Minimum and maximum from a first to a last day; NaN beyond the table."""
        days = (last - first).days + 1
        low, high = np.full(days, np.nan), np.full(days, np.nan)
        shift = (first - self.first).days
        begin, end = max(0, shift), min(len(self.low), shift + days)
        if begin < end:
            low[begin - shift : end - shift] = self.low[begin:end]
            high[begin - shift : end - shift] = self.high[begin:end]
        return low, high


@dataclass
class _Readings:
    """Values by day as they are read."""

    low: dict[dt.date, float] = field(default_factory=dict)
    high: dict[dt.date, float] = field(default_factory=dict)
    lines: int = 0
    bad: int = 0
    twice: int = 0
    flagged: int = 0

    def put(self, which: dict[dt.date, float], day: dt.date, value: float) -> None:
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
        Of a table of the gardener's own; guessed where left out.

    Raises
    ------
    WeatherError
    """
    try:
        opened = gzip.open(path, "rb") if _packed(path) else path.open("rb")  # noqa: SIM115  # closed below
        with opened as stream:
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


def _packed(path: Path) -> bool:
    with path.open("rb") as stream:
        return stream.read(2) == b"\x1f\x8b"


def parse_weather(text: str, columns: Columns | None = None, where: str = "weather table") -> Weather:
    """A table's days; see :func:`read_weather`."""
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
    return _finished(found, where)


# -- GHCN-Daily by station ------------------------------------------------------------------------


def _is_by_station(row: Sequence[str]) -> bool:
    """Whether a line is ID, YYYYMMDD, ELEMENT, VALUE, flags: the table has no headings."""
    return (
        len(row) >= 4
        and re.fullmatch(r"\d{8}", row[1].strip()) is not None
        and re.fullmatch(r"[A-Z0-9]{4}", row[2].strip()) is not None
    )


def _read_by_station(rows: Iterable[Sequence[str]], where: str) -> _Readings:
    """Elements TMIN and TMAX in tenths of a degree; values with a quality flag are left out."""
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


# -- what was read, looked over -------------------------------------------------------------------


def _finished(found: _Readings, where: str) -> Weather:
    notes = []
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
    notes += _oddities(low, high, where)
    if found.bad:
        notes.append(f"{found.bad:,} lines could not be read and were left out")
    if found.flagged:
        notes.append(f"{found.flagged:,} values with a quality flag were left out")
    if found.twice:
        notes.append(f"{found.twice:,} days are given twice with different values; the first counts")
    return Weather(days[0], low, high, tuple(notes))


def _oddities(low: Numbers, high: Numbers, where: str) -> list[str]:
    """Leave impossible values out; refuse tables that are in another unit than said."""
    notes = []
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
    low[out_low | wrong], high[out_high | wrong] = np.nan, np.nan
    left = out + int(np.count_nonzero(wrong & ~out_low & ~out_high))
    if left:
        notes.append(f"{left:,} impossible values were left out")
    years = len(low) / 365
    spread = float(np.nanquantile(low, 0.98) - np.nanquantile(low, 0.02))
    if years >= 1 and spread < 4 and known > 300:
        notes.append("The temperatures hardly change over the year: look whether the unit is right")
    top = float(np.nanquantile(high if both > 300 else low, 0.98))
    if years >= 1 and known > 300 and (top < 4 if both > 300 else top < -5):
        notes.append(f"Its warmest days reach only {top:.0f} °C: look whether the unit is right")
    return notes
