"""Who eats from the garden, how much of it, and where what is harvested is kept."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from planner.garden.model import Id, Model, Name, Notes
from planner.words import say

#: Kinds of places in which a harvest is kept.
StoreKind = Literal["cellar", "fridge", "clamp", "dry room", "shed"]


class Eaten(Model):
    """How much of a crop one person eats, where it is not what is published."""

    crop: Name = Field(description="Key of the crop.")
    kilograms: float = Field(ge=0, le=2_000, description="For one person. [kg]")
    per: Literal["week", "year"] = "year"


class Household(Model):
    """Who eats from the garden."""

    persons: float = Field(
        default=0, ge=0, le=100_000, description="A child may count half; 0 where it is not given."
    )
    eats: tuple[Eaten, ...] = Field(default=(), max_length=2_000, description="Own amounts, one a crop.")

    @model_validator(mode="after")
    def _each_once(self) -> Self:
        crops = [one.crop for one in self.eats]
        for crop in crops:
            if crops.count(crop) > 1:
                raise ValueError(say("gives what is eaten of '{crop}' twice", crop=crop))
        return self


class StorePlace(Model):
    """A place in which what is harvested is kept."""

    id: Id
    name: Name
    kind: StoreKind = "cellar"
    temperature: float | None = Field(
        default=None,
        ge=-10,
        le=40,
        description="Its mean in winter; that of its kind where not given. [deg C]",
    )
    humidity: float | None = Field(
        default=None, ge=0, le=1, description="Of its air; that of its kind where not given. [0 to 1]"
    )
    crops: tuple[Name, ...] = Field(
        default=(), max_length=2_000, description="Keys of crops that are kept here and nowhere else."
    )
    notes: Notes = ""
