"""Plantings: what grows where, from when to when."""

from __future__ import annotations

import datetime as dt
from typing import Literal, Self

from pydantic import Field, model_validator

from planner.garden.arrangements import Arrangement, Rows
from planner.garden.model import Distance, Height, Id, Label, Model, Name, Notes, Year
from planner.garden.plots import Plot, Whole

Start = Literal["sown", "raised", "bought", "sets", "tubers", "cloves", "crowns", "standing"]
Sowing = Literal["drill", "stations"]
Purpose = Literal["kitchen", "store", "seed", "cutting", "green manure", "trial"]
CoverKind = Literal["fleece", "netting", "film", "cloche", "low tunnel"]
SupportKind = Literal["sticks", "stake", "cage", "net", "frame", "arch", "tower", "wire"]

#: Kinds of start that need no seed.
SEEDLESS = ("bought", "sets", "tubers", "cloves", "crowns", "standing")


class Cover(Model):
    """What lies over a planting, from a first to a last day (all its days where not given)."""

    kind: CoverKind
    first: dt.date | None = None
    last: dt.date | None = None

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.first and self.last and self.last < self.first:
            raise ValueError(f"the cover's last day {self.last} is before its first {self.first}")
        return self


class Support(Model):
    """What a planting climbs or leans on."""

    kind: SupportKind
    height: Height = Field(default=1.8, description="[m]")
    spacing: Distance | None = Field(default=None, description="Post to post. [m]")


class Planting(Model):
    """A variety in a plot of one bed for a span of days.

    ``crop`` is a key of the catalogue; ``variety`` the name of a sort, which may be one of the
    garden's own varieties of that crop.  ``year`` is the growing year it belongs to; ``first`` and
    ``last`` are the days it takes its plot, where they are given by hand.
    """

    id: Id
    bed: Id
    crop: Name
    variety: Label = ""
    plot: Plot = Whole()
    arrangement: Arrangement = Rows()
    year: Year
    first: dt.date | None = Field(default=None, description="First day on its plot, given by hand.")
    last: dt.date | None = Field(default=None, description="Last day on its plot, given by hand.")
    start: Start | None = Field(default=None, description="The crop's usual way where not given.")
    sowing: Sowing | None = Field(
        default=None,
        description="Of a sown planting: a drill, thinned, or seeds to each station. The crop's way.",
    )
    covers: tuple[Cover, ...] = ()
    support: Support | None = None
    purpose: Purpose = "kitchen"
    tended_by: Label = ""
    shares_ground: bool = Field(
        default=False, description="Meant to stand between other plantings at the same time."
    )
    notes: Notes = ""
    pinned: bool = Field(default=False, description="A proposed layout leaves it where it is.")

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.first and self.last and self.last < self.first:
            raise ValueError(f"the last day {self.last} is before the first {self.first}")
        return self
