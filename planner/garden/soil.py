"""Soil of a garden or a bed, as it is known or was tested."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from pydantic import Field

from planner.garden.model import Distance, Label, Model

#: Texture classes of the USDA soil triangle, and peat.
Texture = Literal[
    "sand", "loamy sand", "sandy loam", "loam", "silt loam", "silt", "sandy clay loam", "clay loam",
    "silty clay loam", "sandy clay", "silty clay", "clay", "peat",
]  # fmt: skip
#: Of a nutrient in the soil, as a laboratory reports it. [mg/kg]
Content = Annotated[float, Field(ge=0, le=100_000)]

#: Fields that a soil test tells, and that say which test it was.
TESTED = ("ph", "organic", "phosphorus", "potassium", "magnesium", "tested", "laboratory")


class Soil(Model):
    """What is known of some soil; what is not given is not known, of a bed that of its garden."""

    texture: Texture | None = None
    ph: float | None = Field(default=None, ge=2.5, le=11, description="pH in water.")
    depth: Distance | None = Field(default=None, description="Depth to which roots can go. [m]")
    organic: float | None = Field(
        default=None, ge=0, le=1, description="Share of organic matter by mass, 0 to 1."
    )
    phosphorus: Content | None = Field(default=None, description="Available, as tested. [mg/kg]")
    potassium: Content | None = Field(default=None, description="Available, as tested. [mg/kg]")
    magnesium: Content | None = Field(default=None, description="Available, as tested. [mg/kg]")
    tested: dt.date | None = Field(default=None, description="Day of the soil test.")
    laboratory: Label = Field(default="", description="Who tested it, or with what.")

    def over(self, wider: Soil) -> Soil:
        """This soil, with what is not known of it as in the soil around it.

        A test counts as a whole: where any number of it is given, none of another test is mixed into it.
        """
        if not self.is_known:
            return wider
        changes = {name: getattr(wider, name) for name in ("texture", "depth") if getattr(self, name) is None}
        if all(getattr(self, name) in (None, "") for name in TESTED):
            changes |= {name: getattr(wider, name) for name in TESTED}
        return self.model_copy(update=changes) if changes else self

    @property
    def is_known(self) -> bool:
        """Whether anything is known of it."""
        return self != _UNKNOWN


_UNKNOWN = Soil()
