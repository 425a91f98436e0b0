"""Columns of a weather table: those a person names, the others guessed from headings and values."""

from __future__ import annotations

import csv
import dataclasses
import itertools
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from planner.importing.weather_cells import (
    DepthUnit,
    Order,
    Unit,
    cut,
    day_of,
    number,
    numbers_of,
    rows_of,
    separator_of,
)
from planner.season.daily_weather import WeatherError
from planner.words import say

#: Rows from which the order of dates is guessed; twenty times as many for the unit.
SAMPLE_ROWS = 400
#: Lines before the headings that are looked through for them.
_MOST_PREAMBLE = 80

_DATE = re.compile(r"^(date|day|time|datum|fecha|data|timestamp|yyyymmdd|mess_?datum)\b", re.I)
_MONTH = re.compile(r"^(month|mon|mm|monat|mes|mois)$", re.I)
_YEAR = re.compile(r"^(year|yr|yyyy|jahr|ano|año|annee|année)$", re.I)
_DAY_OF_YEAR = re.compile(r"^(doy|jday|julian|day.?of.?year|yday)$", re.I)
_LOW = re.compile(r"(^|[^a-z])(t?_?min|tmn|tnk?|low|minimum|lowest)([^a-z]|$)|min.*temp|temp.*min|tmin", re.I)
_HIGH = re.compile(
    r"(^|[^a-z])(t?_?max|tmx|txk?|high|maximum|highest)([^a-z]|$)|max.*temp|temp.*max|tmax", re.I
)
_RAIN = re.compile(
    r"(^|[^a-z])(prcp|pcp|ppt|rrk?|rsk|regen)([^a-z]|$)|precip|rain|niederschlag|neerslag", re.I
)
_EVAPOTRANSPIRATION = re.compile(
    r"(^|[^a-z])(eto|etr|et_?0|ref_?et)([^a-z]|$)|reference.?(et|evapo)|evapotransp", re.I
)
_STATION = re.compile(r"^(station|staid|stations_id|station.?(id|nr|no|number|code)|insi|stn)$", re.I)
NAME = re.compile(r"^(name|station.?name|staname)$", re.I)
LATITUDE = re.compile(r"^(lat|latitude)$", re.I)
LONGITUDE = re.compile(r"^(lon|long|longitude)$", re.I)
ELEVATION = re.compile(r"^(elev|elevation|altitude|alt|height|hght)\b", re.I)
#: Headings of columns that are no daily value of their kind.
_NOT = re.compile(
    r"attribut|flag|qc|quality|^q_|^qn_|humid|wind|soil|grass|press|prob|hours|type|intens|snow", re.I
)
_INCH = re.compile(r"(\(|\[|_|,|\s)\s*(in|inch|inches)\b|\"|″", re.I)
_MILLIMETRES = re.compile(r"(\(|\[|_|,|\s)\s*mm\b", re.I)
_TENTHS = re.compile(r"0[.,]1|tenth", re.I)


@dataclass(frozen=True)
class Columns:
    """Headings of a table's columns, and the units of its values.

    Attributes
    ----------
    date : str
        Heading of the date; of the day of the month where ``month`` is given, of the day of the year where only
        ``year`` is.
    minimum, maximum : str or None
        None where the table has none; so for the others.
    unit : str
        Of the temperatures: ``C``, ``F`` or ``tenths C``.
    rain : str or None
    rain_unit : str
        ``mm``, ``inch`` or ``tenths mm``.
    evapotranspiration : str or None
        Of the reference grass.
    evapotranspiration_unit : str
    month, year : str or None
        Where the date is parted.
    station : str or None
        Heading of the station's id.
    """

    date: str
    minimum: str | None
    maximum: str | None = None
    unit: Unit = "C"
    rain: str | None = None
    rain_unit: DepthUnit = "mm"
    evapotranspiration: str | None = None
    evapotranspiration_unit: DepthUnit = "mm"
    month: str | None = None
    year: str | None = None
    station: str | None = None

    @property
    def wanted(self) -> tuple[str, ...]:
        """Headings that a table must have to be read so."""
        names = (
            self.date,
            self.month,
            self.year,
            self.minimum,
            self.maximum,
            self.rain,
            self.evapotranspiration,
        )
        return tuple(name for name in names if name is not None)


@dataclass(frozen=True)
class Choice:
    """What a person says of a table's columns and units; None is guessed.

    Attributes
    ----------
    date, minimum, maximum, rain, evapotranspiration : str or None
        Headings.
    unit : str or None
        Of the temperatures.
    rain_unit : str or None
        Of rain and evapotranspiration.
    station : str or None
        Id of the station whose days are read.
    """

    date: str | None = None
    minimum: str | None = None
    maximum: str | None = None
    rain: str | None = None
    evapotranspiration: str | None = None
    unit: Unit | None = None
    rain_unit: DepthUnit | None = None
    station: str | None = None

    @property
    def headings(self) -> dict[str, str]:
        """The headings that are named, by field of :class:`Columns`."""
        fields = ("date", "minimum", "maximum", "rain", "evapotranspiration")
        return {name: heading for name in fields if (heading := getattr(self, name)) is not None}


def guess_columns(text: str, where: str = "weather table", choice: Choice | None = None) -> Columns:
    """Headings that look like those of daily weather, with the units their values look like.

    Parameters
    ----------
    text : str
        The table from its headings on; see :func:`headings_at`.
    where : str
        Name of the table for the message of an error.
    choice : Choice, optional
        What is named.

    Raises
    ------
    WeatherError
        Where date or values cannot be guessed; it names the headings to choose from.
    """
    choice = choice or Choice()
    text = text[headings_at(text, choice) :]
    rows = rows_of(text)
    head = [cell.strip() for cell in next(rows, [])]
    found = _by_heading(head, choice)
    if "date" not in found or not any(name in found for name in ("minimum", "maximum", "rain")):
        raise no_such_heading(say("date") if "date" not in found else say("minimum temperature"), head, where)
    sample = list(itertools.islice(rows, 20 * SAMPLE_ROWS))
    columns = Columns(**{"minimum": None, **found})
    unit = choice.unit or _guess_unit(head, sample, columns)
    rain = choice.rain_unit or _guess_depth(head, sample, columns.rain, unit)
    water = choice.rain_unit or _guess_depth(head, sample, columns.evapotranspiration, unit)
    return dataclasses.replace(columns, unit=unit, rain_unit=rain, evapotranspiration_unit=water)


def no_such_heading(what: str, head: Sequence[str], where: str) -> WeatherError:
    """The error of a table that has no heading for something; it names the headings to choose from.

    Parameters
    ----------
    what : str
        What the heading would be of.
    head : sequence of str
        The headings.
    where : str
        Name of the table.
    """
    shown = ", ".join(cut(name) for name in head[:12])
    return WeatherError(
        say("has no heading that looks like the {what}; its headings are {shown}", what=what, shown=shown),
        where,
        say("Choose the columns"),
    )


def headings_at(text: str, choice: Choice) -> int:
    """Where the line of the headings begins; lines before it tell of the table.

    It is the first line that has the headings named, or that has a date and a value of daily weather with a date under it;
    the first of all where there is none.

    Parameters
    ----------
    text : str
    choice : Choice

    Returns
    -------
    int
        [characters]
    """
    begin = 0
    for _ in range(_MOST_PREAMBLE):
        end = text.find("\n", begin)
        if end < 0:
            return 0
        line = text[begin:end]
        if line.strip():
            under = text[end + 1 : end + 4000]
            separator = separator_of(line + "\n" + next(iter(under.splitlines()), ""))
            head = _cells(line, separator)
            below = next(
                (cells for one in under.splitlines() if one.strip() and (cells := _cells(one, separator))), []
            )
            found = _by_heading(head, choice)
            if set(choice.headings.values()) <= set(head) and _heads(found, head, below):
                return begin
        begin = end + 1
    return 0


def _cells(line: str, separator: str) -> list[str]:
    if separator == " ":
        return line.split()
    return [cell.strip() for cell in next(csv.reader([line], delimiter=separator), [])]


def _heads(found: Mapping[str, Any], head: Sequence[str], below: Sequence[str]) -> bool:
    """Whether headings stand over a day and a value."""
    if "date" not in found or not any(
        name in found for name in ("minimum", "maximum", "rain", "evapotranspiration")
    ):
        return False
    cells = dict(zip(head, below, strict=False))
    parts = [cells.get(found[name], "") for name in ("date", "month", "year") if name in found]
    if len(parts) > 1:
        return all(number(part) is not None for part in parts)
    return day_of(parts[0], "day first") is not None or day_of(parts[0], "month first") is not None


def _by_heading(head: Sequence[str], choice: Choice) -> dict[str, Any]:
    """Headings by field of :class:`Columns`: what is named, and what looks like it."""
    found: dict[str, Any] = dict(choice.headings)
    names = [name for name in head if name and name not in found.values()]

    def guess(field: str, pattern: re.Pattern[str], among: Sequence[str]) -> None:
        if field not in found:
            name = next((one for one in among if pattern.search(one) and one not in found.values()), None)
            if name is not None:
                found[field] = name

    guess("station", _STATION, names)
    year = next((one for one in names if _YEAR.search(one)), None)
    month = next((one for one in names if _MONTH.search(one)), None)
    of_year = next((one for one in names if _DAY_OF_YEAR.search(one)), None)
    day = next((one for one in names if re.fullmatch(r"day|dd|tag|dia|día|jour|dom", one, re.I)), None)
    if "date" not in found and year is not None and month is not None and day is not None:
        found |= {"date": day, "month": month, "year": year}
    elif "date" not in found and year is not None and of_year is not None:
        found |= {"date": of_year, "year": year}
    values = [name for name in names if not _NOT.search(name)]
    guess("date", _DATE, values)
    guess("minimum", _LOW, values)
    guess("maximum", _HIGH, values)
    guess("evapotranspiration", _EVAPOTRANSPIRATION, values)
    guess("rain", _RAIN, values)
    return found


def _guess_unit(head: Sequence[str], sample: Sequence[Sequence[str]], columns: Columns) -> Unit:
    """The unit that a heading names, else the one in which the values are those of a place on earth."""
    if ("STATION" in head and columns.minimum == "TMIN") or "SOUID" in head:
        return "tenths C"  # the access tables of GHCN-Daily; the European station texts
    names = [name for name in (columns.minimum, columns.maximum) if name is not None]
    if not names:
        return "C"
    for words, unit in ((r"(°|deg|_|\(|\[)\s*f\b|fahrenheit", "F"), (r"(°|deg|_|\(|\[)\s*c\b|celsius", "C")):
        if re.search(words, names[0], re.I):
            if unit == "C" and _TENTHS.search(names[0]):
                return "tenths C"
            return "F" if unit == "F" else "C"
    values = [value for name in names for value in _values(head, sample, name) if abs(value) < 900]
    if not values:
        return "C"
    top = float(np.quantile(values, 0.99))
    if top > 140 and all(value == int(value) for value in values):
        return "tenths C"
    return "F" if top > 55 else "C"


def _guess_depth(
    head: Sequence[str], sample: Sequence[Sequence[str]], heading: str | None, unit: Unit
) -> DepthUnit:
    """Unit of rain or evapotranspiration: as a heading names it, else that which goes with the values.

    Whole numbers beside temperatures in tenths are tenths; less than 250 a year beside degrees Fahrenheit are inches,
    of which the wettest place has 470.
    """
    if heading is None:
        return "mm"
    if ("STATION" in head and heading == "PRCP") or "SOUID" in head:
        return "tenths mm"
    if _TENTHS.search(heading):
        return "tenths mm"
    if _INCH.search(heading):
        return "inch"
    if _MILLIMETRES.search(heading):
        return "mm"
    values = [value for value in _values(head, sample, heading) if 0 <= value < 9_000]
    if not values:
        return "mm"
    whole = all(value == int(value) for value in values)
    year = float(np.mean(values)) * 365.25
    if whole and (unit == "tenths C" or year > 6_000):
        return "tenths mm"
    return "inch" if unit == "F" and year < 250 else "mm"


def _values(head: Sequence[str], sample: Sequence[Sequence[str]], heading: str) -> list[float]:
    """Numbers of a column."""
    if heading not in head:
        return []
    at = list(head).index(heading)
    values, _ = numbers_of([row[at] for row in sample if at < len(row)])
    known: list[float] = values[~np.isnan(values)].tolist()
    return known


def order_of(dates: Sequence[str]) -> Order:
    """Whether dates with the year last begin with the day or the month.

    Parameters
    ----------
    dates : sequence of str
    """
    first = second = 0
    for date in dates:
        match = re.match(r"\s*(\d{1,2})[./-](\d{1,2})[./-]\d{4}", date)
        if match:
            first, second = max(first, int(match[1])), max(second, int(match[2]))
    if not first:
        return "year first"
    return "month first" if second > 12 else "day first"
