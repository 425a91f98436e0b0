"""Cells of a weather table: its separator, headings, dates and numbers."""

from __future__ import annotations

import csv
import datetime as dt
import io
import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from planner.errors import BedwrightError

Unit = Literal["C", "F", "tenths C"]
Order = Literal["year first", "day first", "month first"]

FIRST_YEAR, LAST_YEAR = 1700, 2400
#: Lines looked at to guess columns and the order of dates.
LOOKED_AT = 400


class WeatherError(BedwrightError):
    """A weather table that cannot be used."""


@dataclass(frozen=True)
class Columns:
    """Where a table has what, and in which unit.

    Attributes
    ----------
    date, minimum : str
        Headings.
    maximum : str or None
        None where the table has none.
    unit : str
        ``C``, ``F`` or ``tenths C``.
    """

    date: str
    minimum: str
    maximum: str | None = None
    unit: Unit = "C"


def separator_of(text: str) -> str:
    head = text[:4000].splitlines()[:20]
    counts = {sign: min((line.count(sign) for line in head if line.strip()), default=0) for sign in ",;\t"}
    best = max(counts, key=lambda sign: counts[sign])
    return best if counts[best] else ","


def rows_of(text: str) -> Iterator[list[str]]:
    reader = csv.reader(io.StringIO(text), delimiter=separator_of(text))
    return (row for row in reader if any(cell.strip() for cell in row))


_DATE = re.compile(r"^(date|day|time|datum|fecha|data|timestamp|yyyymmdd)\b", re.I)
_LOW = re.compile(r"(^|[^a-z])(t?_?min|tmn|tn|low|minimum|lowest)([^a-z]|$)|min.*temp|temp.*min|tmin", re.I)
_HIGH = re.compile(
    r"(^|[^a-z])(t?_?max|tmx|tx|high|maximum|highest)([^a-z]|$)|max.*temp|temp.*max|tmax", re.I
)
_NOT = re.compile(r"attribut|flag|qc|quality|humid|wind|soil|grass|press", re.I)


def guess_columns(text: str, where: str = "weather table") -> Columns:
    """Headings that look like date, minimum and maximum, with the unit their values look like.

    Raises
    ------
    WeatherError
        Where date or minimum cannot be told; it names the headings to choose from.
    """
    rows = rows_of(text)
    head = [cell.strip() for cell in next(rows, [])]
    names = [name for name in head if name and not _NOT.search(name)]
    date = next((name for name in names if _DATE.search(name)), None)
    low = next((name for name in names if _LOW.search(name) and name != date), None)
    high = next((name for name in names if _HIGH.search(name) and name not in (date, low)), None)
    if date is None or low is None:
        what = "date" if date is None else "minimum temperature"
        shown = ", ".join(cut(name) for name in head[:12])
        raise WeatherError(
            f"has no heading that looks like the {what}; its headings are {shown}",
            where,
            "Choose the columns",
        )
    return Columns(date, low, high, _guess_unit(head, rows, low, high))


def _guess_unit(head: list[str], rows: Iterator[list[str]], low: str, high: str | None) -> Unit:
    if "STATION" in head and low == "TMIN":
        return "tenths C"  # the access tables of GHCN-Daily
    for words, unit in ((r"(°|deg|_|\()\s*f\b|fahrenheit", "F"), (r"(°|deg|_|\()\s*c\b|celsius", "C")):
        if re.search(words, low, re.I):
            return "F" if unit == "F" else "C"
    spots = [head.index(name) for name in (low, high) if name is not None]
    sample = itertools.islice(rows, 20 * LOOKED_AT)
    values = [v for row in sample for i in spots if i < len(row) and (v := number(row[i])) is not None]
    values = [value for value in values if abs(value) < 900]
    if not values:
        return "C"
    top = float(np.quantile(values, 0.99))
    if top > 140 and all(value == int(value) for value in values):
        return "tenths C"
    return "F" if top > 55 else "C"


def order_of(text: str, columns: Columns) -> Order:
    """Whether dates with the year last begin with the day or the month."""
    rows = rows_of(text)
    head = [cell.strip() for cell in next(rows, [])]
    if columns.date not in head:
        return "year first"
    at = head.index(columns.date)
    first = second = 0
    for row in itertools.islice(rows, LOOKED_AT):
        match = re.match(r"\s*(\d{1,2})[./-](\d{1,2})[./-]\d{4}", row[at]) if at < len(row) else None
        if match:
            first, second = max(first, int(match[1])), max(second, int(match[2]))
    if not first:
        return "year first"
    return "month first" if second > 12 else "day first"


BLANK = ("", "na", "nan", "null", "none", "-", "m", "t")


def quality_flag(attributes: str) -> bool:
    parts = attributes.split(",")
    return len(parts) > 1 and bool(parts[1].strip())


def celsius(value: float, unit: Unit) -> float:
    return value / 10 if unit == "tenths C" else (value - 32) / 1.8 if unit == "F" else value


def number(text: str) -> float | None:
    try:
        value = float(text.strip().replace(",", "."))
    except ValueError:
        return None
    return value if np.isfinite(value) else None


def day_of(text: str, order: Order) -> dt.date | None:
    match = re.match(r"\s*(\d{4})[-/.]?(\d{1,2})[-/.]?(\d{1,2})(?!\d)", text)
    if match:
        year, month, day = int(match[1]), int(match[2]), int(match[3])
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


def cut(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:37]}..."
