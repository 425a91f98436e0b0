"""Where the garden lies, and its climate."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from planner.garden.model import Degrees, Distance, Label, Model, Name
from planner.garden.outlines import Outline

UnitSystem = Literal["metric", "feet_inches"]

_MONTH_LENGTHS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def _day_of_year(text: str) -> str:
    match = re.fullmatch(r"(\d\d)-(\d\d)", text)
    month, day = (int(match[1]), int(match[2])) if match else (0, 0)
    if not 1 <= month <= 12 or not 1 <= day <= _MONTH_LENGTHS[month - 1]:
        raise ValueError(f"'{text}' is no day of the year; write month and day as MM-DD, as 05-09")
    return text


#: A day of any year, written MM-DD.
DayOfYear = Annotated[str, AfterValidator(_day_of_year), Field(json_schema_extra={"pattern": r"^\d\d-\d\d$"})]


class FrostDates(Model):
    """Days at three risks of frost.

    In spring the risk is that a frost still comes after the day (``risk_10`` is the latest of the
    three), in autumn that one has come before it (``risk_10`` is the earliest).
    """

    risk_10: DayOfYear
    risk_50: DayOfYear
    risk_90: DayOfYear


class Climate(Model):
    """What is known of the weather.

    ``last_frost`` is the last of spring, ``first_frost`` the first of autumn.
    """

    last_frost: FrostDates | None = None
    first_frost: FrostDates | None = None
    zone: Label = Field(default="", description="USDA hardiness zone, as 7b.")
    monthly_minimum: tuple[float, ...] | None = Field(
        default=None, min_length=12, max_length=12, description="Mean daily minimum by month. [deg C]"
    )
    monthly_maximum: tuple[float, ...] | None = Field(
        default=None, min_length=12, max_length=12, description="Mean daily maximum by month. [deg C]"
    )


class Site(Model):
    """The place of the garden, and how its numbers are shown."""

    name: Name = "Garden"
    latitude: float | None = Field(default=None, ge=-90, le=90, description="[degrees north]")
    longitude: float | None = Field(default=None, ge=-180, le=180, description="[degrees east]")
    elevation: float | None = Field(default=None, ge=-500, le=9_000, description="[m]")
    time_zone: Label = Field(default="", description="IANA name, as Europe/London.")
    bearing_up: Degrees = Field(
        default=0.0, description="Bearing of plan-up, clockwise from true north. [degrees]"
    )
    outline: Outline | None = None
    units: UnitSystem = "metric"
    first_month: int | None = Field(
        default=None,
        ge=1,
        le=12,
        description="First month of the growing year; January in the north, July in the south.",
    )
    reach: Distance = Field(default=0.60, description="How far a hand reaches into a bed. [m]")
    path_width: Distance = Field(default=0.45, description="Least width of a path. [m]")

    @property
    def year_begins(self) -> int:
        """First month of the growing year."""
        if self.first_month is not None:
            return self.first_month
        return 7 if self.latitude is not None and self.latitude < 0 else 1
