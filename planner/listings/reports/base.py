"""What all reports have in common, and how their numbers are rounded.

Names of fields carry their unit where it is not a count: ``seed_g``, ``area_m2``, ``mean_h``, ``threshold_c``.  One
thing has one name in all reports.
"""

from __future__ import annotations

import datetime as dt
import math
from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from planner.plan import Plan

#: Version of the reports: it is counted up when a field goes, or means something else.
VERSION: Literal[2] = 2
#: Significant digits of a mass of seed below :data:`SMALL_GRAMS`.
SMALL_DIGITS = 3
#: Masses below this have significant digits instead of decimals. [g]
SMALL_GRAMS = 0.1


def rounded_grams(mass: float) -> float:
    """A mass to a thousandth of a gram, a small one to three significant digits. [g]

    >>> rounded_grams(0.26666666666666666), rounded_grams(0.00123456), rounded_grams(12.0)
    (0.267, 0.00123, 12.0)
    """
    if 0 < mass < SMALL_GRAMS:
        return round(mass, SMALL_DIGITS - 1 - math.floor(math.log10(mass)))
    return round(mass, 3)


def _to(decimals: int) -> AfterValidator:
    return AfterValidator(lambda value: round(value, decimals) + 0.0)  # no -0.0


Grams = Annotated[float, AfterValidator(rounded_grams), Field(ge=0, description="Thousandths. [g]")]
SquareMetres = Annotated[float, _to(3), Field(ge=0, description="Thousandths. [m2]")]
Hours = Annotated[float, _to(2), Field(ge=0, le=24, description="Hundredths. [h]")]
Celsius = Annotated[float, _to(2), Field(description="Hundredths. [deg C]")]
Share = Annotated[float, _to(3), Field(ge=0, le=1, description="Thousandths. [0 to 1]")]
#: A day of any year, as MM-DD.
DayOfYear = Annotated[str, Field(pattern=r"^\d\d-\d\d$")]


class Record(BaseModel):
    """Base class of what is in a report: frozen, without unknown fields."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", allow_inf_nan=False, json_schema_serialization_defaults_required=True
    )

    def row(self) -> dict[str, Any]:
        """Its fields ready for JSON, in their order."""
        return self.model_dump(mode="json")

    def table_row(self) -> dict[str, Any]:
        """Its fields ready for a table, in their order: days stay days."""
        return self.model_dump()


class GrowingYear(Record):
    """A growing year, named after the calendar year it begins in."""

    year: int
    first: dt.date
    last: dt.date

    @classmethod
    def of(cls, plan: Plan) -> Self:
        """The growing year of a plan."""
        return cls(year=plan.year, first=plan.span.first, last=plan.span.last)


class Report(Record):
    """Base class of the reports."""

    report: str = Field(default="", description="Which report it is: the name of its schema.")
    version: Literal[2] = Field(default=VERSION, description="Of the reports.")


class GardenReport(Report):
    """Base class of the reports on a garden in a growing year."""

    garden: str = Field(description="Its name.")
    growing_year: GrowingYear


class OfCrop(Record):
    """A crop as reports name it."""

    crop: str = Field(description="Its key, as in the garden file.")
    crop_name: str = Field(description="As shown, in the garden's English.")
    variety: str = Field(description="Empty where none is named.")
