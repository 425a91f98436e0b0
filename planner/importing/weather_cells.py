"""A weather table taken apart: its file, its rows, and the dates and numbers in its cells."""

from __future__ import annotations

import csv
import datetime as dt
import gzip
import io
import re
import zlib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Literal, get_args

import numpy as np
from numpy.typing import NDArray

from planner.plain_file import open_plain
from planner.season.daily_weather import Numbers

#: Unit of a table's temperatures.
Unit = Literal["C", "F", "tenths C"]
UNITS: tuple[Unit, ...] = get_args(Unit)
#: Unit of a table's precipitation or evapotranspiration.
DepthUnit = Literal["mm", "inch", "tenths mm"]
DEPTH_UNITS: tuple[DepthUnit, ...] = get_args(DepthUnit)
#: Days by their number: 1 is 1 January of the year 1, as :meth:`datetime.date.toordinal` counts them; 0 is no day.
Ordinals = NDArray[np.int64]
#: Order of day, month and year in a table's dates.
Order = Literal["year first", "day first", "month first"]

#: What reading a file may raise that is missing, no file, or packed and damaged.
UNREADABLE = (OSError, EOFError, zlib.error)
#: Years outside these are taken for misread dates.
FIRST_YEAR, LAST_YEAR = 1700, 2400
#: Cells, in lower case, that stand for a missing value.
BLANK = ("", "na", "n/a", "nan", "null", "none", "-", "--", "---", "m", "x")
#: Cells, in lower case, that stand for a trace: rain that was seen and was too little to measure.
TRACE = ("t", "tr", "trace")
#: Numbers as large or larger stand for a missing temperature.
MARK = 990.0
#: Numbers as low or lower stand for missing rain; so does any of these.
RAIN_MARK, RAIN_MARKS = -9.0, (9999.0, 99999.0, 999.9)
#: Ordinal of 1 January 1970, from which numpy counts days.
_EPOCH = dt.date(1970, 1, 1).toordinal()
_YEAR_FIRST = re.compile(r"\s*(\d{4})[-/.]?(\d{1,2})[-/.]?(\d{1,2})(?!\d)")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH_NAMED = re.compile(rf"\s*(\d{{1,2}})[-/. ]({'|'.join(_MONTHS)})[a-z]*[-/. ](\d{{4}})(?!\d)", re.I)


def open_table(path: Path) -> io.BufferedIOBase:
    """Open a table's file, plain or packed with gzip; reading it may raise one of ``UNREADABLE``."""
    with open_plain(path) as stream:
        packed = stream.read(2) == b"\x1f\x8b"
    return gzip.open(path, "rb") if packed else path.open("rb")


def separator_of(text: str) -> str:
    """The sign that parts the cells, a blank where runs of blanks do.

    Of comma, semicolon and tab the one most frequent in every line; without one, blanks where every line has three cells.
    """
    head = [line for line in text[:4000].splitlines()[:20] if line.strip()]
    if len(text) > 4000 and len(head) > 1:
        head = head[:-1]  # cut in two
    counts = {sign: min((line.count(sign) for line in head), default=0) for sign in ",;\t"}
    best = max(counts, key=lambda sign: counts[sign])
    if counts[best]:
        return best
    return " " if min((len(line.split()) for line in head), default=0) >= 3 else ","


def rows_of(text: str) -> Iterator[list[str]]:
    """Rows of cells, empty ones left out."""
    separator = separator_of(text)
    if separator == " ":
        return (cells for line in io.StringIO(text) if (cells := line.split()))
    reader = csv.reader(io.StringIO(text), delimiter=separator)
    return (row for row in reader if row and (row[0].strip() or any(cell.strip() for cell in row)))


def quality_flag(attributes: str) -> bool:
    """Whether the attributes of a GHCN-Daily value hold a quality flag: their second part is not empty."""
    parts = attributes.split(",")
    return len(parts) > 1 and bool(parts[1].strip())


def celsius(values: Numbers, unit: Unit) -> Numbers:
    """Temperatures of a table in degrees Celsius. [deg C]"""
    return values / 10 if unit == "tenths C" else (values - 32) / 1.8 if unit == "F" else values


def millimetres(values: Numbers, unit: DepthUnit) -> Numbers:
    """Depths of water of a table in millimetres. [mm]"""
    return values / 10 if unit == "tenths mm" else values * 25.4 if unit == "inch" else values


def number(text: str) -> float | None:
    """A number with a point or a comma for its fraction; None where the cell holds none."""
    try:
        value = float(text.strip().replace(",", "."))
    except ValueError:
        return None
    return value if np.isfinite(value) else None


def day_of(text: str, order: Order) -> dt.date | None:
    """The day at the beginning of a cell; None where there is none.

    Parameters
    ----------
    text : str
    order : str
        Whether the day or the month comes first where the year comes last.
    """
    match = _YEAR_FIRST.match(text)
    if match:
        year, month, day = int(match[1]), int(match[2]), int(match[3])
    elif named := _MONTH_NAMED.match(text):
        year, month, day = int(named[3]), _MONTHS.index(named[2].lower()) + 1, int(named[1])
    else:
        match = re.match(r"\s*(\d{1,2})[./-](\d{1,2})[./-](\d{4})(?!\d)", text)
        if not match:
            return None
        one, two, year = int(match[1]), int(match[2]), int(match[3])
        month, day = (one, two) if order == "month first" else (two, one)
    try:
        return dt.date(year, month, day) if FIRST_YEAR <= year <= LAST_YEAR else None
    except ValueError:
        return None


def numbers_of(cells: Sequence[str], trace: float | None = None) -> tuple[Numbers, NDArray[np.bool_]]:
    """Numbers in cells, NaN where a cell is blank or none can be read, and which could not be read.

    Parameters
    ----------
    cells : sequence of str
    trace : float, optional
        What a trace counts as; it is missing where left out.
    """
    try:
        found = np.array([float(cell) if cell else np.nan for cell in cells])
        if not np.isinf(found).any():
            return found, np.zeros(len(cells), bool)  # a cell 'nan' is a blank one
    except ValueError:
        pass
    values, unreadable = np.full(len(cells), np.nan), np.zeros(len(cells), bool)
    for at, cell in enumerate(cells):
        text = cell.strip().lower()
        if text in BLANK:
            continue
        if text in TRACE:
            values[at] = np.nan if trace is None else trace
            continue
        value = number(text)
        if value is None:
            unreadable[at] = True
        else:
            values[at] = value
    return values, unreadable


def ordinals(years: Numbers, months: Numbers, days: Numbers) -> Ordinals:
    """Days of years, months and days of the month; 0 where there is no such day.

    Parameters
    ----------
    years, months, days : numpy.ndarray
        Whole numbers; NaN where one is missing.
    """
    with np.errstate(invalid="ignore"):
        known = (
            (years >= FIRST_YEAR)
            & (years <= LAST_YEAR)
            & (months >= 1)
            & (months <= 12)
            & (days >= 1)
            & (days <= 31)
        )
    count = np.where(known, (years - 1970) * 12 + months - 1, 0).astype(np.int64)
    begins = count.astype("datetime64[M]").astype("datetime64[D]")
    found = begins + (np.where(known, days, 1).astype(np.int64) - 1)
    known &= found.astype("datetime64[M]") == count.astype("datetime64[M]")
    return np.where(known, found.astype(np.int64) + _EPOCH, 0)


def ordinals_in_years(years: Numbers, days: Numbers) -> Ordinals:
    """Days of years and days of the year, 1 to 366; 0 where there is no such day.

    Parameters
    ----------
    years, days : numpy.ndarray
        Whole numbers; NaN where one is missing.
    """
    first = ordinals(years, np.ones_like(years), np.ones_like(years))
    with np.errstate(invalid="ignore"):
        leap = (years % 4 == 0) & ((years % 100 != 0) | (years % 400 == 0))
        known = (first > 0) & (days >= 1) & (days <= np.where(leap, 366, 365))
    return np.where(known, first + np.where(known, days, 1).astype(np.int64) - 1, 0)


def days_of(cells: Sequence[str], order: Order) -> Ordinals:
    """Days at the beginning of cells; 0 where there is none.

    Parameters
    ----------
    cells : sequence of str
    order : str
        Whether the day or the month comes first where the year comes last.
    """
    if all(len(cell) == 10 and cell[4] == "-" == cell[7] for cell in cells):
        try:
            found = np.array(cells, dtype="datetime64[D]").astype(np.int64) + _EPOCH
        except ValueError:
            pass
        else:
            first, last = dt.date(FIRST_YEAR, 1, 1).toordinal(), dt.date(LAST_YEAR, 12, 31).toordinal()
            return np.where((found >= first) & (found <= last), found, 0)
    if all(len(cell) == 8 and cell.isdecimal() and cell.isascii() for cell in cells):
        whole = np.array(cells, dtype=np.int64).astype(np.float64)
        return ordinals(whole // 10_000, whole // 100 % 100, whole % 100)
    seen: dict[str, int] = {}
    for cell in cells:
        if cell not in seen:
            day = day_of(cell, order)
            seen[cell] = day.toordinal() if day is not None else 0
    return np.array([seen[cell] for cell in cells], dtype=np.int64)


def cut(text: str) -> str:
    """A text at most 40 characters long, for messages."""
    return text if len(text) <= 40 else f"{text[:37]}..."
