"""Site and climate of the garden."""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, ConfigDict, Field, model_validator

from planner.crops.crop import English
from planner.garden.learned import Learning
from planner.garden.model import Degrees, Distance, Id, Label, Model, Name
from planner.garden.outlines import Outline
from planner.garden.soil import Soil
from planner.garden.wishes import LayoutWeights
from planner.words import say, short_number

UnitSystem = Literal["metric", "feet_inches"]
#: Chance of frost that a gardener can plan with. [%]
Risk = Literal[10, 50, 90]
RISKS: tuple[Risk, ...] = (10, 50, 90)

_MONTH_LENGTHS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def _day_of_year(text: str) -> str:
    match = re.fullmatch(r"(\d\d)-(\d\d)", text)
    month, day = (int(match[1]), int(match[2])) if match else (0, 0)
    if not 1 <= month <= 12 or not 1 <= day <= _MONTH_LENGTHS[month - 1]:
        raise ValueError(
            say("'{text}' is no day of the year; write month and day as MM-DD, as 05-09", text=text)
        )
    return text


#: A day of any year, written MM-DD.
DayOfYear = Annotated[str, AfterValidator(_day_of_year), Field(json_schema_extra={"pattern": r"^\d\d-\d\d$"})]


class FrostDates(Model):
    """Days at one, two or three risks of frost.

    In spring the risk is that of a frost after the day (``risk_10`` is the latest of the three), in autumn that of
    one before it (``risk_10`` is the earliest).
    """

    model_config = ConfigDict(
        json_schema_extra={
            "anyOf": [
                {"required": [f"risk_{risk}"], "properties": {f"risk_{risk}": {"type": "string"}}}
                for risk in RISKS
            ]
        }
    )

    risk_10: DayOfYear | None = None
    risk_50: DayOfYear | None = None
    risk_90: DayOfYear | None = None

    @model_validator(mode="after")
    def _has_a_day(self) -> Self:
        if not self.given:
            raise ValueError(
                say("a frost needs a day at one risk at least; give risk_10, risk_50 or risk_90")
            )
        return self

    @property
    def given(self) -> dict[Risk, str]:
        """The days that are known, MM-DD by risk, from the least risk to the greatest."""
        days = {risk: getattr(self, f"risk_{risk}") for risk in RISKS}
        return {risk: day for risk, day in days.items() if day is not None}

    def at(self, risk: Risk) -> str:
        """The day MM-DD at a risk; where it is not given, that of the nearest one, the lesser of two as near."""
        given = self.given
        return given[min(given, key=lambda one: (abs(one - risk), one))]


_DAYS_BEFORE_MONTH = tuple(sum(_MONTH_LENGTHS[:month]) for month in range(12))


def later_in_year(first: str, second: str) -> bool:
    """Whether a day MM-DD is the same as another or later, the shorter way round the year.

    Parameters
    ----------
    first, second : str
        True where ``second`` is the later one.
    """
    one, other = (_DAYS_BEFORE_MONTH[int(text[:2]) - 1] + int(text[3:]) for text in (first, second))
    return (other - one) % 366 < 183


def misordered(days: Mapping[Risk, str], *, spring: bool) -> tuple[Risk, Risk] | None:
    """Two risks whose days are in the wrong order, the one that should come first first; None where none are.

    Parameters
    ----------
    days : mapping of int to str
        Days MM-DD by risk. [%]
    spring : bool
        Of last frosts: the greatest risk comes first.
    """
    for one, other in itertools.pairwise(sorted(days, reverse=spring)):
        if not later_in_year(days[one], days[other]):
            return one, other
    return None


def _require_order(dates: FrostDates, *, spring: bool) -> None:
    """Raise ValueError if the days do not follow one another in the order of the risks."""
    if (wrong := misordered(dates.given, spring=spring)) is not None:
        first, second = (dates.given[risk] for risk in wrong)
        if spring:
            raise ValueError(
                say(
                    "the last frost dates are in the wrong order: {first} at {risk} % risk must not come after {second} at {other_risk} %",
                    first=first,
                    risk=wrong[0],
                    second=second,
                    other_risk=wrong[1],
                )
            )
        raise ValueError(
            say(
                "the first frost dates are in the wrong order: {first} at {risk} % risk must not come after {second} at {other_risk} %",
                first=first,
                risk=wrong[0],
                second=second,
                other_risk=wrong[1],
            )
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
            _require_order(self.last_frost, spring=True)
        if self.first_frost is not None:
            _require_order(self.first_frost, spring=False)
        if self.frost_free and (self.last_frost or self.first_frost):
            raise ValueError(
                say("is said to have no frost, yet frost dates are given; leave out one of the two")
            )
        low, high = self.monthly_minimum, self.monthly_maximum
        for month in range(12):
            if low is not None and high is not None and low[month] > high[month]:
                raise ValueError(
                    say(
                        "the mean minimum {low} of month {number} is above its mean maximum {high}",
                        low=short_number(low[month]),
                        number=month + 1,
                        high=short_number(high[month]),
                    )
                )
        return self


#: Name of a garden that nobody has named.
NEW_NAME = "Garden"


class Site(Model):
    """Place of the garden, its units, and the beginning of its growing year."""

    name: Name = NEW_NAME
    known_as: Label = Field(
        default="",
        description="Name by which calendars know the garden: that before it was renamed; its name where empty.",
    )
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
    soil: Soil = Field(default=Soil(), description="Of beds of which nothing else is known.")
    walk: tuple[Id, ...] = Field(
        default=(),
        max_length=20_000,
        description="Beds in the order in which one walks to them, by hand; the others follow by a short round from the gate.",
    )
    layout_weights: LayoutWeights = Field(
        default=LayoutWeights(), description="What counts where the layout of a year is proposed."
    )
    learned: Learning = Field(
        default=Learning(), description="Whether the figures of this garden's own years are used."
    )
    currency: Label = Field(
        default="", description="Of prices, as written before them; plain numbers if empty."
    )

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
