"""Reading a weather table with headings: tables of weather services, and of the gardener's own making."""

from __future__ import annotations

import itertools
import operator
import re
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from planner.importing.weather_cells import (
    BLANK,
    MARK,
    RAIN_MARK,
    RAIN_MARKS,
    DepthUnit,
    Ordinals,
    celsius,
    cut,
    days_of,
    millimetres,
    number,
    numbers_of,
    ordinals,
    ordinals_in_years,
    quality_flag,
    rows_of,
)
from planner.importing.weather_columns import (
    ELEVATION,
    LATITUDE,
    LONGITUDE,
    NAME,
    SAMPLE_ROWS,
    Choice,
    Columns,
    headings_at,
    order_of,
)
from planner.importing.weather_readings import Element, Readings, SeveralStationsError, Station
from planner.season.daily_weather import Numbers, WeatherError
from planner.words import say

#: The station in the lines before the headings of a European station text.
_IN_PREAMBLE = re.compile(r"(?:station|\) of)\s+(?P<name>[^()\n]+?)\s*\(STAID:\s*(?P<id>\d+)\)")


def read_by_heading(text: str, columns: Columns, choice: Choice, where: str) -> Readings:
    """Read a table with headings; lines before them are left out.

    Parameters
    ----------
    text : str
    columns : Columns
    choice : Choice
        Its station is the only one read.
    where : str
        Name of the table for the message of an error.

    Raises
    ------
    WeatherError
        Where a column is not there, or the table has several stations and none was chosen.
    """
    begins = headings_at(text, choice)
    rows = rows_of(text[begins:])
    head = [cell.strip() for cell in next(rows, [])]
    for name in columns.wanted:
        if name not in head:
            shown = ", ".join(cut(one) for one in head[:12])
            raise WeatherError(
                say("has no column '{found}'; it has {shown}", found=cut(name), shown=shown),
                where,
                say("Choose the columns"),
            )
    found = Readings(station=_station_before(text[:begins]), headings=tuple(head))
    wanted = _wanted(head, columns)
    one_row, cells, found.lines = _cells_of(
        rows, [head.index(name) for name in wanted], head, columns, choice, where
    )
    if one_row is not None:
        found.station = _station_in(head, one_row, columns, found.station)
    by_name = dict(zip(wanted, cells, strict=True))
    days = _days(by_name, columns)
    found.bad += int(np.count_nonzero(days == 0))
    temperatures: tuple[tuple[Element, str | None], ...] = (
        ("low", columns.minimum),
        ("high", columns.maximum),
    )
    for element, heading in temperatures:
        if heading is not None:
            values = _values(found, by_name, heading, days, rain=False)
            found.add(element, days, celsius(values, columns.unit))
    depths: tuple[tuple[Element, str | None, DepthUnit], ...] = (
        ("rain", columns.rain, columns.rain_unit),
        ("evapotranspiration", columns.evapotranspiration, columns.evapotranspiration_unit),
    )
    for element, heading, unit in depths:
        if heading is not None:
            found.add(element, days, millimetres(_values(found, by_name, heading, days, rain=True), unit))
    return found


def _wanted(head: Sequence[str], columns: Columns) -> list[str]:
    """Headings to read: those of the columns and of their quality."""
    wanted = list(dict.fromkeys(columns.wanted))
    for name in (columns.minimum, columns.maximum, columns.rain):
        wanted += [flag for flag in (f"{name}_ATTRIBUTES", f"Q_{name}") if name is not None and flag in head]
    return wanted


def _cells_of(
    rows: Iterable[Sequence[str]],
    at: Sequence[int],
    head: Sequence[str],
    columns: Columns,
    choice: Choice,
    where: str,
) -> tuple[Sequence[str] | None, list[tuple[str, ...]], int]:
    """The first row read, the cells of some columns, and how many rows were read."""
    spot = head.index(columns.station) if columns.station in head and columns.station is not None else None
    least, pick = max(at), operator.itemgetter(*at)
    first: Sequence[str] | None = None
    stations: dict[str, None] = {}
    picked: list[Any] = []
    width = len(head)
    for row in rows:
        if len(row) <= least:
            row = [*row, *[""] * (width - len(row))]
        if spot is not None:
            station = row[spot].strip()
            if station not in stations:
                stations[station] = None
            if choice.station is not None and station != choice.station:
                continue
        if first is None:
            first = row
        picked.append(pick(row))
    if len(stations) > 1 and choice.station is None:
        raise SeveralStationsError([cut(one) for one in stations], where)
    if len(at) == 1:
        return first, [tuple(picked)], len(picked)
    return first, list(zip(*picked, strict=True)) or [()] * len(at), len(picked)


def _days(by_name: dict[str, tuple[str, ...]], columns: Columns) -> Ordinals:
    dates = by_name[columns.date]
    if columns.year is None:
        return days_of(dates, order_of(list(itertools.islice(dates, SAMPLE_ROWS))))
    numbers = [
        numbers_of(by_name[name])[0]
        for name in (columns.year, columns.month, columns.date)
        if name is not None
    ]
    return ordinals(*numbers) if len(numbers) == 3 else ordinals_in_years(*numbers)


def _values(
    found: Readings, by_name: dict[str, tuple[str, ...]], name: str, days: Ordinals, *, rain: bool
) -> Numbers:
    """Values of a column, NaN where they are missing, unreadable or doubted by the table itself.  [unit of the table]"""
    values, unreadable = numbers_of(by_name[name], trace=0.0 if rain else None)
    found.bad += int(np.count_nonzero(unreadable & (days > 0)))
    with np.errstate(invalid="ignore"):
        missing = ((values <= RAIN_MARK) | np.isin(values, RAIN_MARKS)) if rain else np.abs(values) >= MARK
    values = np.where(missing, np.nan, values)
    flagged = _flagged(by_name, name) & ~np.isnan(values) & (days > 0)
    found.flagged += int(np.count_nonzero(flagged))
    return np.where(flagged, np.nan, values)


def _flagged(by_name: dict[str, tuple[str, ...]], name: str) -> NDArray[np.bool_]:
    """Where a value fails a quality check of the table: a flag in its attributes, or a quality code that is not 0."""
    count = len(by_name[name])
    if attributes := by_name.get(f"{name}_ATTRIBUTES"):
        return np.fromiter(map(quality_flag, attributes), bool, count)
    if codes := by_name.get(f"Q_{name}"):
        return np.fromiter((code.strip() not in ("0", "") for code in codes), bool, count)
    return np.zeros(count, bool)


def _station_before(preamble: str) -> Station:
    match = _IN_PREAMBLE.search(preamble)
    return Station(match["id"], match["name"].title()) if match else Station()


def _station_in(head: Sequence[str], row: Sequence[str], columns: Columns, known: Station) -> Station:
    """The station that the first row of a table tells of."""

    def cell(pattern: re.Pattern[str]) -> str:
        at = next((at for at, name in enumerate(head) if pattern.search(name)), None)
        text = row[at].strip() if at is not None and at < len(row) else ""
        return "" if text.lower() in BLANK else text

    def within(pattern: re.Pattern[str], least: float, most: float) -> float | None:
        value = number(cell(pattern))
        return value if value is not None and least <= value <= most else None

    id_ = row[head.index(columns.station)].strip() if columns.station in head else ""
    return Station(
        id_ or known.id,
        cell(NAME)[:100] or known.name,
        within(LATITUDE, -90, 90),
        within(LONGITUDE, -180, 180),
        within(ELEVATION, -500, 9_000),
    )
