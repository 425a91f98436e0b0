"""Reading daily weather from files of a weather service, or of the gardener's own making."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.garden import WeatherYears
from planner.garden.model import LONGEST_NAME
from planner.importing.weather_by_heading import read_by_heading
from planner.importing.weather_cells import UNREADABLE, open_table, rows_of
from planner.importing.weather_checked import checked, refuse_two_stations, refuse_unreadable
from planner.importing.weather_columns import Choice, Columns, guess_columns, headings_at, no_such_heading
from planner.importing.weather_dssat import is_dssat, read_dssat
from planner.importing.weather_ghcn import is_by_station, is_fixed_width, read_by_station, read_fixed_width
from planner.importing.weather_readings import (
    FileRead,
    Layout,
    Readings,
    SeveralStationsError,
    Station,
    joined,
)
from planner.season.daily_weather import Weather, WeatherError
from planner.season.weather_years import years_of
from planner.words import say

#: Largest table that is read, unpacked. [bytes]
MOST_BYTES = 128 * 2**20
#: Most files that are read together.
MOST_FILES = 200


@dataclass(frozen=True)
class WeatherTable:
    """Daily weather of one station, and how it was read.

    Attributes
    ----------
    weather : Weather
    station : Station
    files : tuple of FileRead
    """

    weather: Weather
    station: Station
    files: tuple[FileRead, ...]

    @property
    def name(self) -> str:
        """Names of its files."""
        return _names(self.files)

    def kept(self) -> WeatherYears:
        """Its years as a garden keeps them: the latest ones where there are too many."""
        station = self.station
        return WeatherYears(
            station=(station.name or station.id)[:LONGEST_NAME],
            origin=self.name[:LONGEST_NAME],
            latitude=station.latitude,
            longitude=station.longitude,
            elevation=station.elevation,
            years=years_of(self.weather),
        )


def read_weather(path: Path, choice: Choice | None = None) -> Weather:
    """Read a table from a file, plain or packed with gzip.

    Parameters
    ----------
    path : Path
    choice : Choice, optional
        Columns, units and station that are named; the others are guessed.

    Raises
    ------
    WeatherError
    """
    return read_tables([path], choice).weather


def read_tables(paths: Sequence[Path], choice: Choice | None = None) -> WeatherTable:
    """Read the files of one station, which may hold other days or other values each, plain or packed with gzip.

    Where two hold the same value of a day, that of the first file counts.

    Parameters
    ----------
    paths : sequence of Path
    choice : Choice, optional
        Columns, units and station that are named; the others are guessed.

    Raises
    ------
    SeveralStationsError
        Where the files are of more than one station and none is chosen.
    WeatherError
    """
    if len(paths) > MOST_FILES:
        raise WeatherError(
            say("more than {number} files", number=MOST_FILES), "", say("Choose the files of one station")
        )
    choice = choice or Choice()
    parts, files = [], []
    for path in paths:
        found, file = _read_text(_text_of(path), choice, path.name)
        parts.append(found)
        files.append(file)
    return _table(parts, files, choice)


def parse_weather(text: str, choice: Choice | None = None, where: str = "weather table") -> Weather:
    """Read a table's text, as :func:`read_weather` does a file.

    Parameters
    ----------
    text : str
    choice : Choice, optional
        Columns, units and station that are named; the others are guessed.
    where : str
        Name of the table for the message of an error.

    Raises
    ------
    WeatherError
    """
    choice = choice or Choice()
    found, file = _read_text(text, choice, where)
    return _table([found], [file], choice).weather


def headings_of(path: Path) -> tuple[str, ...]:
    """Headings of a table; empty for a layout without headings, and where the file cannot be read.

    Parameters
    ----------
    path : Path
    """
    try:
        text = _text_of(path)
    except WeatherError:
        return ()
    if not text.strip() or is_dssat(text) or is_fixed_width(text.lstrip("\r\n")[:40]):
        return ()
    first = next(rows_of(text[headings_at(text, Choice()) :]), [])
    return () if is_by_station(first) else tuple(cell.strip() for cell in first if cell.strip())


def _text_of(path: Path) -> str:
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
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("latin-1")


def _read_text(text: str, choice: Choice, where: str) -> tuple[Readings, FileRead]:
    """Read one file."""
    if not text.strip():
        raise WeatherError(say("is empty"), where, say("Choose another file"))
    if "\0" in text[:4096]:
        raise WeatherError(say("is no table of text"), where, say("Choose a CSV file"))
    columns: Columns | None = None
    layout: Layout
    try:
        if is_dssat(text):
            layout, found = "model", read_dssat(text, choice, where)
        elif is_fixed_width(text.lstrip("\r\n")[:40]):
            layout, found = "fixed width", read_fixed_width(text, choice, where)
        else:
            if is_by_station(next(rows_of(text), [])) and not choice.headings:
                layout, found = "by station", read_by_station(text, choice, where)
            else:
                columns = guess_columns(text, where, choice)
                layout, found = "headings", read_by_heading(text, columns, choice, where)
    except csv.Error as error:
        raise WeatherError(
            say("is no table: {error}", error=error), where, say("Choose a CSV file")
        ) from None
    refuse_unreadable(found, where)
    return found, FileRead(where, layout, columns, found.elements)


def _table(parts: Sequence[Readings], files: Sequence[FileRead], choice: Choice) -> WeatherTable:
    """The readings of one or several files as weather, once they are known to be of one station."""
    if choice.station:
        chosen = [
            (part, file)
            for part, file in zip(parts, files, strict=True)
            if part.station.id in ("", choice.station) and part.elements
        ]
        if not chosen:
            raise WeatherError(
                say("no days of station {station}", station=choice.station),
                files[0].name,
                say("Choose another station"),
            )
        parts, files = [part for part, _ in chosen], [file for _, file in chosen]
    stations = list(dict.fromkeys(part.station.id for part in parts if part.station.id))
    if len(stations) > 1:
        raise SeveralStationsError(stations, _names(files))
    for number, file in enumerate(files[1:], 1):
        refuse_two_stations(parts[number - 1], parts[number], file.name)
    if not any("low" in part.days for part in parts):
        for part, file in zip(parts, files, strict=True):
            if file.columns is not None and file.columns.minimum is None:
                raise no_such_heading(say("minimum temperature"), part.headings, file.name)
    whole = joined(parts)
    return WeatherTable(checked(whole, _names(files)), whole.station, tuple(files))


def _names(files: Sequence[FileRead]) -> str:
    names = [one.name for one in files]
    return ", ".join(names[:3]) + (f" … {names[-1]}" if len(names) > 3 else "")
