"""Frost dates, zone and monthly means found in daily weather, as lines."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from typing import Protocol

from planner.listings.phrases import day
from planner.listings.tables import aligned
from planner.season.climate_from_weather import WeatherStatistics
from planner.season.daily_weather import Weather
from planner.season.frost_seasons import RISKS, FrostSeason
from planner.words import SHORT_MONTHS

#: Units of a table as printed.
_UNITS = {"C": "°C", "F": "°F", "tenths C": "tenths of °C"}


class TableColumns(Protocol):
    """How a table was read: its headings and the unit of its temperatures."""

    @property
    def date(self) -> str:
        """Heading of the days."""

    @property
    def minimum(self) -> str:
        """Heading of the minimum."""

    @property
    def maximum(self) -> str | None:
        """Heading of the maximum; None where the table has none."""

    @property
    def unit(self) -> str:
        """``C``, ``F`` or ``tenths C``."""


def weather_lines(
    name: str,
    weather: Weather,
    found: WeatherStatistics,
    columns: TableColumns | None,
    southern: bool,
    room: int | None = None,
) -> list[str]:
    """Print as lines what was read and how, frost dates by risk, zone, monthly means, and notes on them.

    Parameters
    ----------
    name : str
        Name of the table's file.
    weather : Weather
        What was read.
    found : WeatherStatistics
        What was found in it.
    columns : TableColumns or None
        None for a table by station, which has no headings.
    southern : bool
        Whether the place was taken to lie south of the equator.
    room : int, optional
        Width of tables; any by default. [columns]
    """
    days = (weather.last - weather.first).days + 1
    lines = [f"{name}: {day(weather.first)} to {day(weather.last)}, {days:,} days"]
    if columns is not None:
        highest = f", maximum '{columns.maximum}'" if columns.maximum else ""
        lines.append(
            f"  read as: date '{columns.date}', minimum '{columns.minimum}'{highest}, in {_UNITS[columns.unit]}"
        )
    lines.append(f"  taken as lying in the {'southern' if southern else 'northern'} half of the world")
    lines += _frost_table("Last spring frost", found.springs, room)
    lines += _frost_table("First autumn frost", found.autumns, room)
    lines.append("")
    if found.yearly_minimum is None:
        lines.append("Hardiness zone: not known, no year is complete enough")
    else:
        lines.append(f"Hardiness zone {found.zone}: mean yearly minimum {_number(found.yearly_minimum)} °C")
    if found.monthly is None:
        lines.append("Monthly means: not known, some month of the year has no minimum and maximum")
    else:
        rows = [
            (month, _number(low), _number(high))
            for month, low, high in zip(SHORT_MONTHS, *found.monthly, strict=True)
        ]
        heads = ("month", "minimum °C", "maximum °C")
        lines += [
            "",
            "Monthly means of the daily temperatures",
            *aligned(heads, rows, right=(1, 2), room=room),
        ]
    if found.notes:
        lines += ["", *(f"{note}." for note in found.notes)]
    return lines


def _frost_table(title: str, seasons: Sequence[FrostSeason], room: int | None) -> list[str]:
    """Days of frost by threshold and risk, with the years they are found from."""
    heads = ("threshold", *(f"{risk} % risk" for risk in RISKS), "years")
    rows = [(_threshold(one), *(_day(one, risk) for risk in RISKS), str(one.years)) for one in seasons]
    lines = ["", title, *aligned(heads, rows, right=range(4, 5), room=room)]
    lines.append(f"  years used: {year_ranges(year for year, _ in seasons[0].days) or 'none'}")
    if seasons[0].left_out:
        lines.append(f"  left out for gaps: {year_ranges(seasons[0].left_out)}")
    return lines


def year_ranges(years: Iterable[int]) -> str:
    """Years in runs.

    >>> year_ranges([1990, 1991, 1992, 1995])
    '1990 to 1992, 1995'
    """
    runs = []
    for _, group in itertools.groupby(enumerate(sorted(years)), lambda pair: pair[1] - pair[0]):
        run = [year for _, year in group]
        runs.append(f"{run[0]} to {run[-1]}" if len(run) > 1 else f"{run[0]}")
    return ", ".join(runs)


def _threshold(season: FrostSeason) -> str:
    celsius = f"{season.threshold:g}".replace("-", "−")
    return f"{celsius} °C ({season.threshold * 1.8 + 32:.0f} °F)"


def _number(value: float) -> str:
    return f"{value:.1f}".replace("-", "−")


def _day(season: FrostSeason, risk: int) -> str:
    """The day at a risk; ``none`` where so few years have a frost, ``?`` where no year counts."""
    text = season.at_risk(risk)
    if text is None:
        return "none" if season.days else "?"
    return f"{int(text[3:])} {SHORT_MONTHS[int(text[:2]) - 1]}"
