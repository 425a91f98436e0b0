"""Wishes: what a growing year should bring."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from planner.garden.model import Id, Label, Model, Name, Notes, Year
from planner.garden.planting import Purpose

#: In what a wish is counted: plants, metres of row, square metres of bed, grams of harvest.
WishUnit = Literal["plants", "m", "m2", "g"]


class Wish(Model):
    """A crop or variety that a growing year should bring, how much of it and what for."""

    id: Id
    year: Year
    crop: Name
    variety: Label = ""
    amount: float | None = Field(
        default=None, gt=0, le=1e9, description="How much; as much as there is room for where not given."
    )
    unit: WishUnit = "plants"
    purpose: Purpose = "kitchen"
    reason: Notes = Field(default="", description="Why it is wished: what was eaten, or ran out.")
