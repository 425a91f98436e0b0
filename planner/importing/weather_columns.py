"""Columns of a weather table: those a person names, the others guessed from headings and values."""

from __future__ import annotations

import csv
import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from planner.importing.weather_cells import UNREADABLE, Order, Unit, cut, number, open_table, rows_of
from planner.season.daily_weather import WeatherError
from planner.words import say

#: Rows from which the order of dates is guessed; twenty times as many for the unit.
SAMPLE_ROWS = 400
#: Length of the beginning of a table from which its columns are guessed. [bytes]
_BEGINNING = 2**20

_DATE = re.compile(r"^(date|day|time|datum|fecha|data|timestamp|yyyymmdd)\b", re.I)
_LOW = re.compile(r"(^|[^a-z])(t?_?min|tmn|tn|low|minimum|lowest)([^a-z]|$)|min.*temp|temp.*min|tmin", re.I)
_HIGH = re.compile(
    r"(^|[^a-z])(t?_?max|tmx|tx|high|maximum|highest)([^a-z]|$)|max.*temp|temp.*max|tmax", re.I
)
#: Headings of columns that are no air temperatures.
_NOT = re.compile(r"attribut|flag|qc|quality|humid|wind|soil|grass|press", re.I)


@dataclass(frozen=True)
class Columns:
    """Headings of a table's columns, and the unit of its temperatures.

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


def columns_of(
    path: Path, date: str | None, minimum: str | None, maximum: str | None, unit: Unit | None
) -> tuple[Columns | None, bool]:
    """Find the columns of a weather table; what is named comes before what is guessed.

    Parameters
    ----------
    path : Path
        The table, plain or packed with gzip.
    date, minimum, maximum : str or None
        Headings that are named; None for those to be guessed.
    unit : str or None
        Unit of the temperatures that is named.

    Returns
    -------
    columns : Columns or None
        None for a table by station, which has no headings, and where the file cannot be read.
    named : bool
        Whether any column or the unit was named.

    Raises
    ------
    WeatherError
        Where something is named, and date or minimum can neither be taken from that nor guessed.
    """
    named = any(one is not None for one in (date, minimum, maximum, unit))
    try:
        guess = guess_columns(_beginning(path), path.name)
    except WeatherError:
        if not named:
            return None, False
        if date is None or minimum is None:
            raise
        return Columns(date, minimum, maximum, unit or "C"), True
    except (*UNREADABLE, csv.Error):
        return None, False  # reading the whole table reports it
    columns = Columns(
        date or guess.date, minimum or guess.minimum, maximum or guess.maximum, unit or guess.unit
    )
    return columns, named


def _beginning(path: Path) -> str:
    """The first whole lines of a table, plain or packed with gzip."""
    with open_table(path) as stream:
        data = stream.read(_BEGINNING)
    if len(data) == _BEGINNING:
        data = data[: data.rfind(b"\n") + 1]
    return data.decode("utf-8-sig", "replace")


def guess_columns(text: str, where: str = "weather table") -> Columns:
    """Headings that look like date, minimum and maximum, with the unit their values look like.

    Parameters
    ----------
    text : str
    where : str
        Name of the table for the message of an error.

    Raises
    ------
    WeatherError
        Where date or minimum cannot be guessed; it names the headings to choose from.
    """
    rows = rows_of(text)
    head = [cell.strip() for cell in next(rows, [])]
    names = [name for name in head if name and not _NOT.search(name)]
    date = next((name for name in names if _DATE.search(name)), None)
    low = next((name for name in names if _LOW.search(name) and name != date), None)
    high = next((name for name in names if _HIGH.search(name) and name not in (date, low)), None)
    if date is None or low is None:
        what = say("date") if date is None else say("minimum temperature")
        shown = ", ".join(cut(name) for name in head[:12])
        raise WeatherError(
            say(
                "has no heading that looks like the {what}; its headings are {shown}", what=what, shown=shown
            ),
            where,
            say("Choose the columns"),
        )
    return Columns(date, low, high, _guess_unit(head, rows, low, high))


def _guess_unit(head: list[str], rows: Iterator[list[str]], low: str, high: str | None) -> Unit:
    """The unit that a heading names, else the one in which the values are those of a place on earth."""
    if "STATION" in head and low == "TMIN":
        return "tenths C"  # the access tables of GHCN-Daily
    for words, unit in ((r"(°|deg|_|\()\s*f\b|fahrenheit", "F"), (r"(°|deg|_|\()\s*c\b|celsius", "C")):
        if re.search(words, low, re.I):
            return "F" if unit == "F" else "C"
    spots = [head.index(name) for name in (low, high) if name is not None]
    sample = itertools.islice(rows, 20 * SAMPLE_ROWS)
    values = [v for row in sample for i in spots if i < len(row) and (v := number(row[i])) is not None]
    values = [value for value in values if abs(value) < 900]
    if not values:
        return "C"
    top = float(np.quantile(values, 0.99))
    if top > 140 and all(value == int(value) for value in values):
        return "tenths C"
    return "F" if top > 55 else "C"


def order_of(text: str, columns: Columns) -> Order:
    """Whether dates with the year last begin with the day or the month.

    Parameters
    ----------
    text : str
        The whole table.
    columns : Columns
    """
    rows = rows_of(text)
    head = [cell.strip() for cell in next(rows, [])]
    if columns.date not in head:
        return "year first"
    at = head.index(columns.date)
    first = second = 0
    for row in itertools.islice(rows, SAMPLE_ROWS):
        match = re.match(r"\s*(\d{1,2})[./-](\d{1,2})[./-]\d{4}", row[at]) if at < len(row) else None
        if match:
            first, second = max(first, int(match[1])), max(second, int(match[2]))
    if not first:
        return "year first"
    return "month first" if second > 12 else "day first"
