"""A gardener's rule for the day on which a planting is begun: when the soil is warm enough."""

from __future__ import annotations

import datetime as dt

from pydantic import Field

from planner.garden.model import Model


class SoilRule(Model):
    """It is sown, or set out, when the soil has been so warm for some days, and not before a day.

    Attributes
    ----------
    warmth : float
        Mean temperature of the soil at sowing depth. [deg C]
    days : int
        Days in a row, the last of which is the day itself.
    after : date
        The first of them.
    """

    warmth: float = Field(ge=0, le=35, description="Mean of the soil at sowing depth. [deg C]")
    days: int = Field(default=3, ge=1, le=30, description="Days in a row on which it is so warm.")
    after: dt.date = Field(description="The first day that counts.")
