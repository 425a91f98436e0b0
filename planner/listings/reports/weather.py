"""The report of frost dates, zone and monthly means found in daily weather."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from planner.listings.reports.base import Celsius, DayOfYear, Record, Report
from planner.listings.weather import TableColumns
from planner.season.climate_from_weather import WeatherStatistics
from planner.season.daily_weather import Weather
from planner.season.frost_seasons import FrostSeason


class ColumnsRecord(Record):
    """How a table was read: its headings, and the unit of its temperatures."""

    date: str
    minimum: str
    maximum: str | None
    unit: Literal["C", "F", "tenths C"]


class FrostYearRecord(Record):
    """The frost of one year."""

    year: int
    day: dt.date | None = Field(description="Null in a year without such a frost.")


class FrostRecord(Record):
    """The frosts of one season at one threshold; null where so few years have one that the day is none."""

    threshold_c: Celsius
    risk_10: DayOfYear | None
    risk_50: DayOfYear | None
    risk_90: DayOfYear | None
    years: tuple[FrostYearRecord, ...]
    years_left_out: tuple[int, ...] = Field(description="For their gaps.")


class WeatherReport(Report):
    """What is found in a table of daily weather; null is what is not known."""

    report: Literal["weather"] = "weather"
    table: str = Field(description="Name of its file.")
    first: dt.date
    last: dt.date
    southern: bool
    columns: ColumnsRecord | None = Field(description="Null for a table by station, without headings.")
    last_frost: tuple[FrostRecord, ...]
    first_frost: tuple[FrostRecord, ...]
    yearly_minimum_c: Celsius | None
    zone: str | None
    monthly_minimum_c: tuple[Celsius, ...] | None = Field(description="January first.")
    monthly_maximum_c: tuple[Celsius, ...] | None = Field(description="January first.")
    notes: tuple[str, ...]


def weather_report(
    table: str, weather: Weather, found: WeatherStatistics, columns: TableColumns | None, southern: bool
) -> WeatherReport:
    """Report what is found in daily weather.

    Parameters
    ----------
    table : str
        Name of the table's file.
    weather : Weather
    found : WeatherStatistics
    columns : TableColumns or None
    southern : bool
    """
    low, high = found.monthly if found.monthly is not None else (None, None)
    return WeatherReport(
        table=table,
        first=weather.first,
        last=weather.last,
        southern=southern,
        columns=None
        if columns is None
        else ColumnsRecord(
            date=columns.date,
            minimum=columns.minimum,
            maximum=columns.maximum,
            unit=columns.unit,
        ),
        last_frost=tuple(map(_frost_record, found.springs)),
        first_frost=tuple(map(_frost_record, found.autumns)),
        yearly_minimum_c=found.yearly_minimum,
        zone=found.zone or None,
        monthly_minimum_c=None if low is None else tuple(low),
        monthly_maximum_c=None if high is None else tuple(high),
        notes=tuple(found.notes),
    )


def _frost_record(season: FrostSeason) -> FrostRecord:
    return FrostRecord(
        threshold_c=season.threshold,
        risk_10=season.at_risk(10),
        risk_50=season.at_risk(50),
        risk_90=season.at_risk(90),
        years=tuple(FrostYearRecord(year=year, day=at) for year, at in season.days),
        years_left_out=season.left_out,
    )
