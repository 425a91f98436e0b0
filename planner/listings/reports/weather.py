"""The report of frost dates, zone and monthly means found in daily weather."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from planner.garden import Site, WeatherYears
from planner.listings.reports.base import Celsius, DayOfYear, Record, Report
from planner.listings.weather_read import ReadFile, ReadTable
from planner.season.climate_from_weather import WeatherStatistics
from planner.season.daily_weather import Weather
from planner.season.frost_seasons import FrostSeason
from planner.season.weather_gaps import gaps_of
from planner.season.weather_years import height_correction, station_distance


class ColumnsRecord(Record):
    """How a table was read: its headings, and the units of its values; null is what it does not have."""

    date: str = Field(description="Of the day of the month or of the year, where the date is parted.")
    minimum: str | None
    maximum: str | None
    unit: Literal["C", "F", "tenths C"]
    month_column: str | None = Field(description="Where the date is parted; so of the year.")
    year_column: str | None
    rain: str | None
    rain_unit: Literal["mm", "inch", "tenths mm"]
    evapotranspiration: str | None
    evapotranspiration_unit: Literal["mm", "inch", "tenths mm"]


class FileRecord(Record):
    """How a file of weather was read."""

    file: str
    layout: Literal["headings", "by station", "fixed width", "model"]
    columns: ColumnsRecord | None = Field(description="Null for a layout without headings.")
    holds: tuple[Literal["low", "high", "rain", "evapotranspiration"], ...]


class PlaceRecord(Record):
    """The weather station; null is what is not known."""

    name: str
    latitude: float | None
    longitude: float | None
    elevation_m: float | None = Field(description="Above the sea. [m]")
    distance_m: int | None = Field(description="From the garden. [m]")
    taken_warmer_c: Celsius = Field(description="For the height of the garden; negative where colder.")


class GapsRecord(Record):
    """Days that a kind of value lacks."""

    element: Literal["low", "high", "rain", "evapotranspiration"]
    days_known: int
    days_missing: int
    longest_gap_days: int
    longest_gap_from: dt.date | None


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
    table: str = Field(description="Names of its files.")
    first: dt.date
    last: dt.date
    southern: bool
    columns: ColumnsRecord | None = Field(
        description="Of the first file; null for a layout without headings."
    )
    files: tuple[FileRecord, ...]
    measured_at: PlaceRecord
    gaps: tuple[GapsRecord, ...]
    last_frost: tuple[FrostRecord, ...]
    first_frost: tuple[FrostRecord, ...]
    yearly_minimum_c: Celsius | None
    zone: str | None
    monthly_minimum_c: tuple[Celsius, ...] | None = Field(description="January first.")
    monthly_maximum_c: tuple[Celsius, ...] | None = Field(description="January first.")
    notes: tuple[str, ...]


def weather_report(
    table: ReadTable,
    weather: Weather,
    found: WeatherStatistics,
    kept: WeatherYears,
    site: Site,
    southern: bool,
) -> WeatherReport:
    """Report what is found in daily weather.

    Parameters
    ----------
    table : ReadTable
        How it was read.
    weather : Weather
    found : WeatherStatistics
    kept : WeatherYears
        Its station.
    site : Site
        Of the garden.
    southern : bool
    """
    low, high = found.monthly if found.monthly is not None else (None, None)
    distance = station_distance(kept, site)
    files = tuple(map(_file_record, table.files))
    return WeatherReport(
        table=table.name,
        first=weather.first,
        last=weather.last,
        southern=southern,
        columns=files[0].columns,
        files=files,
        measured_at=PlaceRecord(
            name=kept.station,
            latitude=kept.latitude,
            longitude=kept.longitude,
            elevation_m=kept.elevation,
            distance_m=None if distance is None else round(distance),
            taken_warmer_c=height_correction(kept, site),
        ),
        gaps=tuple(
            GapsRecord(
                element=gaps.element,
                days_known=gaps.known,
                days_missing=gaps.missing,
                longest_gap_days=gaps.longest,
                longest_gap_from=gaps.longest_first,
            )
            for gaps in gaps_of(weather)
        ),
        last_frost=tuple(map(_frost_record, found.springs)),
        first_frost=tuple(map(_frost_record, found.autumns)),
        yearly_minimum_c=found.yearly_minimum,
        zone=found.zone or None,
        monthly_minimum_c=None if low is None else tuple(low),
        monthly_maximum_c=None if high is None else tuple(high),
        notes=tuple(found.notes),
    )


def _file_record(file: ReadFile) -> FileRecord:
    columns = file.columns
    parted = {"month_column": "month", "year_column": "year"}
    record = None
    if columns is not None:
        names = ColumnsRecord.model_fields
        record = {name: getattr(columns, parted.get(name, name)) for name in names}
    return FileRecord.model_validate(
        {"file": file.name, "layout": file.layout, "holds": tuple(file.elements), "columns": record}
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
