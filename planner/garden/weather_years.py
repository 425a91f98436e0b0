"""Daily weather of recorded years, as the garden file keeps it."""

from __future__ import annotations

import base64
import calendar
import itertools
import struct
import zlib
from collections.abc import Sequence
from typing import Annotated, Self

from pydantic import AfterValidator, Field, model_validator

from planner.garden.model import Label, Model
from planner.lazy import lazy_property
from planner.words import say

#: Most years that a garden keeps.
MOST_YEARS = 60
#: Stands for a missing value among the tenths.
MISSING = -32_768
#: Longest packed series that is read. [characters]
_LONGEST = 4_000

#: Tenths of a degree or of a millimetre, a value a day of the calendar year; see :func:`packed`.
Packed = Annotated[str, Field(max_length=_LONGEST)]


def packed(tenths: Sequence[int]) -> str:
    """Values of a year as text: the first and then each difference to the day before, two bytes each, zlib, base64.

    Parameters
    ----------
    tenths : sequence of int
        A value a day, :data:`MISSING` where there is none.

    Examples
    --------
    >>> unpacked(packed([-31, -12, MISSING, 4]))
    (-31, -12, -32768, 4)
    """
    steps = [(here - before) & 0xFFFF for before, here in itertools.pairwise((0, *tenths))]
    return base64.b64encode(zlib.compress(struct.pack(f"<{len(steps)}H", *steps), 9)).decode("ascii")


def unpacked(text: str) -> tuple[int, ...]:
    """The values of a packed year.

    Parameters
    ----------
    text : str
        As :func:`packed` gives it.

    Raises
    ------
    ValueError
        Where it is not that.
    """
    steps = _steps(text)
    values = itertools.accumulate(steps, lambda total, step: (total + step) & 0xFFFF)
    return tuple(value - 0x10000 if value >= 0x8000 else value for value in values)


def _steps(text: str) -> tuple[int, ...]:
    """Differences from day to day of a packed year, modulo 65,536."""
    try:
        reader = zlib.decompressobj()
        data = reader.decompress(base64.b64decode(text, validate=True), 2 * 367)
        if not reader.eof or len(data) % 2:
            raise ValueError
        return struct.unpack(f"<{len(data) // 2}H", data)
    except (ValueError, zlib.error):
        raise ValueError(say("is no packed year of daily weather: read the weather table again")) from None


class WeatherYear(Model):
    """Daily weather of one calendar year, packed as text; an empty text where nothing was measured."""

    year: int = Field(ge=1, le=9998)
    low: Packed = Field(description="Minimum. [tenths of deg C]")
    high: Packed = Field(default="", description="Maximum. [tenths of deg C]")
    rain: Packed = Field(default="", description="Precipitation. [tenths of mm]")
    evapotranspiration: Packed = Field(
        default="",
        description="Of the reference grass, where the table had wind, sunshine and humidity. [tenths of mm]",
    )

    @model_validator(mode="after")
    def _whole_year(self) -> Self:
        days = 366 if calendar.isleap(self.year) else 365
        for text in (self.low, self.high, self.rain, self.evapotranspiration):
            if text and len(_steps(text)) != days:
                raise ValueError(
                    say(
                        "the weather of {year} does not have {days} days: read the weather table again",
                        year=self.year,
                        days=days,
                    )
                )
        return self


def _in_order(years: tuple[WeatherYear, ...]) -> tuple[WeatherYear, ...]:
    for before, after in itertools.pairwise(years):
        if after.year <= before.year:
            raise ValueError(say("the years of weather must be in order, each once"))
    return years


class WeatherYears(Model):
    """Recorded years of the weather station that stands for the garden; none where ``years`` is empty.

    The values are the station's; what its height differs from the garden's is taken into account where they are used
    (:func:`planner.season.weather_years.weather_of_garden`).
    """

    station: Label = Field(default="", description="Its name.")
    origin: Label = Field(default="", description="Whose table it is, and its terms.")
    latitude: float | None = Field(default=None, ge=-90, le=90, description="[degrees north]")
    longitude: float | None = Field(default=None, ge=-180, le=180, description="[degrees east]")
    elevation: float | None = Field(default=None, ge=-500, le=9_000, description="[m]")
    years: Annotated[tuple[WeatherYear, ...], AfterValidator(_in_order)] = Field(
        default=(), max_length=MOST_YEARS
    )

    @lazy_property
    def span(self) -> tuple[int, int] | None:
        """First and last year; None where there is none."""
        return (self.years[0].year, self.years[-1].year) if self.years else None
