"""Wishes: what a growing year should bring, and what counts where its layout is proposed."""

from __future__ import annotations

import datetime as dt
from typing import Literal, Self

from pydantic import Field, model_validator

from planner.garden.model import Id, Label, Model, Name, Notes, Year
from planner.garden.planting import Purpose, Start
from planner.words import say

#: In what a wish is counted: plants, metres of row, square metres of bed, grams of harvest, people who eat of it.
WishUnit = Literal["plants", "m", "m2", "g", "people"]
#: How much a wish matters.
Importance = Literal["must", "should", "could"]
#: Kinds of ground: beds in the open, beds under a roof or by a warm wall, containers.
WishedGround = Literal["open", "under glass", "container"]
#: How much a cost counts where a layout is proposed.
Weight = Literal["off", "some", "much"]


class Wish(Model):
    """A crop or variety that a growing year should bring, how much of it and what for."""

    id: Id
    year: Year
    crop: Name
    variety: Label = ""
    amount: float | None = Field(
        default=None,
        gt=0,
        le=1e9,
        description="How much; as much as there was of the planting it is like where not given.",
    )
    unit: WishUnit = "plants"
    until: dt.date | None = Field(
        default=None,
        description="Of people: the last day on which they eat of it; a year's need where not given.",
    )
    purpose: Purpose = "kitchen"
    importance: Importance = "should"
    start: Start | None = Field(
        default=None, description="How it starts; the crop's usual way where not given."
    )
    earliest: dt.date | None = Field(default=None, description="Its first harvest is not wanted before.")
    latest: dt.date | None = Field(default=None, description="Its first harvest is wanted by then.")
    parts: int = Field(
        default=1, ge=1, le=3, description="Over so many beds at most it may be divided, evenly."
    )
    in_part: bool = Field(
        default=True, description="Where there is no room for all of it, less of it may be planted."
    )
    beds: tuple[Id, ...] = Field(
        default=(), max_length=200, description="Only in these beds; in any where none is given."
    )
    ground: WishedGround | None = Field(
        default=None, description="Only in beds of this kind; in those that suit it where not given."
    )
    beside: tuple[Name, ...] = Field(
        default=(), max_length=20, description="Crops with which it shares a bed rather than not."
    )
    apart: tuple[Name, ...] = Field(
        default=(), max_length=20, description="Crops with which it never shares a bed."
    )
    back_after: float | None = Field(
        default=None,
        ge=0,
        le=20,
        description="Years after which its family may come back on the same ground; those of the crop where not given.",
    )
    like: Id | None = Field(
        default=None,
        description="Planting whose spacing, covers, support and raising it takes over; one that is gone counts as none.",
    )
    reason: Notes = Field(default="", description="Why it is wished: what was eaten, or ran out.")

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.earliest and self.latest and self.latest < self.earliest:
            raise ValueError(
                say(
                    "its first harvest is wanted by {latest}, which is before {earliest}, the earliest day",
                    latest=self.latest,
                    earliest=self.earliest,
                )
            )
        return self


class LayoutWeights(Model):
    """How much each cost counts where the layout of a year is proposed, and whether what the garden has is all there is."""

    shade: Weight = Field(default="some", description="Tall crops that take the sun of what needs it.")
    neighbours: Weight = Field(
        default="some", description="Bad neighbours in one bed, and good ones that are not."
    )
    splitting: Weight = Field(default="some", description="Wishes divided over several beds.")
    scattering: Weight = Field(default="some", description="Families scattered over many beds.")
    covers: Weight = Field(default="some", description="Beds that need a cover of their own.")
    walking: Weight = Field(default="some", description="Crops that are picked often, far from the gate.")
    change: Weight = Field(default="some", description="Plantings that stand elsewhere than before.")
    bare_summer: Weight = Field(default="some", description="Ground that lies bare in summer.")
    bare_winter: Weight = Field(default="off", description="Ground that lies bare in winter.")
    watering: Weight = Field(default="off", description="Crops in one bed that want water unlike often.")
    within_benches: bool = Field(
        default=False, description="No more is raised at one time than the garden's benches hold."
    )
    within_covers: bool = Field(
        default=False, description="No more lies under covers at one time than the shed has of them."
    )
