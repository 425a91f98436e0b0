"""Frost dates, zone and monthly means found in daily weather, as lines."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence

from planner.listings.phrases import day
from planner.listings.tables import aligned
from planner.listings.weather_read import ReadTable, file_lines, gap_lines
from planner.season.climate_from_weather import WeatherStatistics
from planner.season.daily_weather import Weather
from planner.season.frost_seasons import RISKS, FrostSeason
from planner.words import number_words, say, short_number, whole_words
from planner.words.dates import day_of_year_words, month_words


def weather_lines(
    table: ReadTable,
    weather: Weather,
    found: WeatherStatistics,
    southern: bool,
    room: int | None = None,
) -> list[str]:
    """Print as lines what was read and how, gaps, frost dates by risk, zone, monthly means, and notes on them.

    Parameters
    ----------
    table : ReadTable
        How it was read.
    weather : Weather
        What was read, at the height of the garden where that is known.
    found : WeatherStatistics
        What was found in it.
    southern : bool
        Whether the place was taken to lie south of the equator.
    room : int, optional
        Width of tables; any by default. [columns]
    """
    days = (weather.last - weather.first).days + 1
    lines = [
        say(
            "{table}: {first} to {last}, {days} days",
            table=table.name,
            first=day(weather.first),
            last=day(weather.last),
            days=whole_words(days),
        )
    ]
    lines += [f"  {line}" for line in (*file_lines(table.files), *gap_lines(weather))]
    half = (
        say("taken as lying in the southern half of the world")
        if southern
        else say("taken as lying in the northern half of the world")
    )
    lines.append(f"  {half}")
    lines += _frost_table(say("Last spring frost"), found.springs, room)
    lines += _frost_table(say("First autumn frost"), found.autumns, room)
    lines.append("")
    if found.yearly_minimum is None:
        lines.append(say("Hardiness zone: not known, no year is complete enough"))
    else:
        lines.append(
            say(
                "Hardiness zone {zone}: mean yearly minimum {minimum} °C",
                zone=found.zone,
                minimum=_number(found.yearly_minimum),
            )
        )
    if found.monthly is None:
        lines.append(say("Monthly means: not known, some month of the year has no minimum and maximum"))
    else:
        rows = [
            (month_words(month, short=True), _number(low), _number(high))
            for month, low, high in zip(range(1, 13), *found.monthly, strict=True)
        ]
        heads = (say("month"), say("minimum °C"), say("maximum °C"))
        lines += [
            "",
            say("Monthly means of the daily temperatures"),
            *aligned(heads, rows, right=(1, 2), room=room),
        ]
    if found.notes:
        lines += ["", *(f"{note}." for note in found.notes)]
    return lines


def _frost_table(title: str, seasons: Sequence[FrostSeason], room: int | None) -> list[str]:
    """Days of frost by threshold and risk, with the years they are found from."""
    heads = (say("threshold"), *(say("{risk} % risk", risk=risk) for risk in RISKS), say("years"))
    rows = [(_threshold(one), *(_day(one, risk) for risk in RISKS), str(one.years)) for one in seasons]
    lines = ["", title, *aligned(heads, rows, right=range(4, 5), room=room)]
    lines.append(
        "  "
        + say("years used: {years}", years=year_ranges(year for year, _ in seasons[0].days) or say("none"))
    )
    if seasons[0].left_out:
        lines.append("  " + say("left out for gaps: {years}", years=year_ranges(seasons[0].left_out)))
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
    celsius = short_number(season.threshold).replace("-", "−")
    return f"{celsius} °C ({season.threshold * 1.8 + 32:.0f} °F)"


def _number(value: float) -> str:
    return number_words(value, 1).replace("-", "−")


def _day(season: FrostSeason, risk: int) -> str:
    """The day at a risk; ``none`` where so few years have a frost, ``?`` where no year counts."""
    text = season.at_risk(risk)
    if text is None:
        return say("none") if season.days else "?"
    return day_of_year_words(text)
