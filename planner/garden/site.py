"""Site and climate of the garden."""

from __future__ import annotations

import itertools
import re
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from planner.crops.crop import English
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

    In spring the risk is that of a frost after the day (``risk_10`` is the latest of the three), in autumn that of
    one before it (``risk_10`` is the earliest).
    """

    risk_10: DayOfYear
    risk_50: DayOfYear
    risk_90: DayOfYear


#: Chance of frost that a gardener can plan with. [%]
Risk = Literal[10, 50, 90]
_DAYS_BEFORE_MONTH = tuple(sum(_MONTH_LENGTHS[:month]) for month in range(12))


def _later(first: str, second: str) -> bool:
    """Whether the second day is later than the first, the shorter way round the year."""
    one, other = (_DAYS_BEFORE_MONTH[int(text[:2]) - 1] + int(text[3:]) for text in (first, second))
    return (other - one) % 366 < 183


def _require_order(dates: FrostDates, risks: tuple[Risk, ...], which: str) -> None:
    """Raise ValueError if the days do not follow one another in the order of the risks."""
    for one, other in itertools.pairwise(risks):
        first, second = getattr(dates, f"risk_{one}"), getattr(dates, f"risk_{other}")
        if not _later(first, second):
            raise ValueError(
                f"the {which} dates are in the wrong order: "
                f"{first} at {one} % risk must not come after {second} at {other} %"
            )


class Climate(Model):
    """Frost dates, hardiness zone and monthly temperatures.

    ``last_frost`` is the last frost of spring, ``first_frost`` the first of autumn; ``risk`` is the chance of frost
    that the gardener plans with.  ``frost_free`` marks a place that never has frost.
    """

    last_frost: FrostDates | None = None
    first_frost: FrostDates | None = None
    risk: Risk = Field(default=50, description="Risk of frost planned with. [%]")
    frost_free: bool = Field(default=False, description="No frost comes in any year.")
    years: int | None = Field(default=None, ge=1, le=1_000, description="Years the frost dates rest on.")
    origin: Label = Field(default="", description="Where the frost dates come from.")
    by_heat: bool = Field(
        default=False, description="Run days to maturity on degree-days, from the monthly means."
    )
    zone: Label = Field(default="", description="USDA hardiness zone, as 7b.")
    monthly_minimum: tuple[float, ...] | None = Field(
        default=None, min_length=12, max_length=12, description="Mean daily minimum by month. [deg C]"
    )
    monthly_maximum: tuple[float, ...] | None = Field(
        default=None, min_length=12, max_length=12, description="Mean daily maximum by month. [deg C]"
    )

    @model_validator(mode="after")
    def _fits_together(self) -> Self:
        if self.last_frost is not None:
            _require_order(self.last_frost, (90, 50, 10), "last frost")
        if self.first_frost is not None:
            _require_order(self.first_frost, (10, 50, 90), "first frost")
        if self.frost_free and (self.last_frost or self.first_frost):
            raise ValueError("is said to have no frost, yet frost dates are given; leave out one of the two")
        low, high = self.monthly_minimum, self.monthly_maximum
        for month in range(12):
            if low is not None and high is not None and low[month] > high[month]:
                raise ValueError(
                    f"the mean minimum {low[month]:g} of month {month + 1} is above its mean maximum {high[month]:g}"
                )
        return self


class Site(Model):
    """Place of the garden, its units, and the beginning of its growing year."""

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
    crop_names: English | None = Field(
        default=None,
        description="English of the names of crops; American in feet and inches, else British, where not given.",
    )
    first_month: int | None = Field(
        default=None,
        ge=1,
        le=12,
        description="First month of the growing year; January in the north, July in the south.",
    )
    reach: Distance = Field(default=0.60, description="How far a hand reaches into a bed. [m]")
    path_width: Distance = Field(default=0.45, description="Least width of a path. [m]")

    @property
    def english(self) -> English:
        """English of the names of crops."""
        if self.crop_names is not None:
            return self.crop_names
        return "american" if self.units == "feet_inches" else "british"

    @property
    def year_begins(self) -> int:
        """First month of the growing year."""
        if self.first_month is not None:
            return self.first_month
        return 7 if self.southern else 1

    @property
    def southern(self) -> bool:
        """Whether spring comes in September; False without a latitude."""
        return self.latitude is not None and self.latitude < 0
