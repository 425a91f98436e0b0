"""Daily weather tables: reading them, from a weather service or of the gardener's own making."""

from __future__ import annotations

import csv
import datetime as dt
import gzip
import io
import itertools
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from planner.errors import BedwrightError

Unit = Literal["C", "F", "tenths C"]
Order = Literal["year first", "day first", "month first"]

#: Largest table that is read, unpacked. [bytes]
MOST_BYTES = 128 * 2**20
#: Most days of a table: 400 years.
MOST_DAYS = 146_100
FIRST_YEAR, LAST_YEAR = 1700, 2400
#: Colder and warmer than any place on earth has been. [deg C]
COLDEST, WARMEST = -90.0, 60.0
#: Share of lines that may be unreadable or impossible before the whole table is refused.
MOST_BAD = 0.05
#: Lines looked at to guess columns and the order of dates.
LOOKED_AT = 400

Numbers = NDArray[np.float64]


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
        rows = _rows(text)
        first = next(rows, [])
        if columns is None and _is_by_station(first):
            found = _read_by_station(itertools.chain([first], rows), where)
        else:
            chosen = columns or guess_columns(text, where)
            found = _read_columns(first, rows, chosen, _order_of(text, chosen), where)
    except csv.Error as error:
        raise WeatherError(f"is no table: {error}", where, "Choose a CSV file") from None
    return _finished(found, where)


def _separator(text: str) -> str:
    head = text[:4000].splitlines()[:20]
    counts = {sign: min((line.count(sign) for line in head if line.strip()), default=0) for sign in ",;\t"}
    best = max(counts, key=lambda sign: counts[sign])
    return best if counts[best] else ","


def _rows(text: str) -> Iterator[list[str]]:
    reader = csv.reader(io.StringIO(text), delimiter=_separator(text))
    return (row for row in reader if any(cell.strip() for cell in row))


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
                f"holds more than one station ({_cut(station)} and {_cut(row[0])})", where, "Choose one"
            )
        if row[2] not in ("TMIN", "TMAX"):
            continue
        if len(row) > 5 and row[5].strip():
            found.flagged += 1
            continue
        day, value = _day(row[1], "year first"), _number(row[3])
        if day is None or value is None:
            found.bad += 1
        elif value != -9999:
            found.put(found.low if row[2] == "TMIN" else found.high, day, value / 10)
    return found


# -- tables with headings -------------------------------------------------------------------------

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
    rows = _rows(text)
    head = [cell.strip() for cell in next(rows, [])]
    names = [name for name in head if name and not _NOT.search(name)]
    date = next((name for name in names if _DATE.search(name)), None)
    low = next((name for name in names if _LOW.search(name) and name != date), None)
    high = next((name for name in names if _HIGH.search(name) and name not in (date, low)), None)
    if date is None or low is None:
        what = "date" if date is None else "minimum temperature"
        shown = ", ".join(_cut(name) for name in head[:12])
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
    values = [v for row in sample for i in spots if i < len(row) and (v := _number(row[i])) is not None]
    values = [value for value in values if abs(value) < 900]
    if not values:
        return "C"
    top = float(np.quantile(values, 0.99))
    if top > 140 and all(value == int(value) for value in values):
        return "tenths C"
    return "F" if top > 55 else "C"


def _order_of(text: str, columns: Columns) -> Order:
    """Whether dates with the year last begin with the day or the month."""
    rows = _rows(text)
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


def _read_columns(
    first: list[str], rows: Iterable[Sequence[str]], columns: Columns, order: Order, where: str
) -> _Readings:
    head = [cell.strip() for cell in first]
    for name in (columns.date, columns.minimum, columns.maximum):
        if name is not None and name not in head:
            shown = ", ".join(_cut(one) for one in head[:12])
            raise WeatherError(f"has no column '{_cut(name)}'; it has {shown}", where, "Choose the columns")
    at, low = head.index(columns.date), head.index(columns.minimum)
    high = head.index(columns.maximum) if columns.maximum is not None else None
    flags = [
        head.index(f"{name}_ATTRIBUTES") if f"{name}_ATTRIBUTES" in head else None
        for name in (columns.minimum, columns.maximum)
    ]
    found = _Readings()
    for row in rows:
        found.lines += 1
        day = _day(row[at], order) if at < len(row) else None
        if day is None:
            found.bad += 1
            continue
        for spot, flag, which in ((low, flags[0], found.low), (high, flags[1], found.high)):
            if spot is None or spot >= len(row) or row[spot].strip().lower() in _BLANK:
                continue
            value = _number(row[spot])
            if value is None:
                found.bad += 1
            elif abs(value) >= 9990:  # the usual marks of a missing value
                continue
            elif flag is not None and flag < len(row) and _quality(row[flag]):
                found.flagged += 1
            else:
                found.put(which, day, _celsius(value, columns.unit))
    return found


_BLANK = ("", "na", "nan", "null", "none", "-", "m", "t")


def _quality(attributes: str) -> bool:
    parts = attributes.split(",")
    return len(parts) > 1 and bool(parts[1].strip())


def _celsius(value: float, unit: Unit) -> float:
    return value / 10 if unit == "tenths C" else (value - 32) / 1.8 if unit == "F" else value


def _number(text: str) -> float | None:
    try:
        value = float(text.strip().replace(",", "."))
    except ValueError:
        return None
    return value if np.isfinite(value) else None


def _day(text: str, order: Order) -> dt.date | None:
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


def _cut(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:37]}..."


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
