"""What can be bought of a crop, and planting stock: sets, tubers, cloves, crowns and plants on hand or ordered."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from planner.garden.model import Id, Label, Model, Name, Notes, Year
from planner.words import say

#: Kinds of planting stock, after the ways in which plantings start without seed.
StockKind = Literal["sets", "tubers", "cloves", "crowns", "plants"]
#: In the garden's currency.
Price = Annotated[float, Field(ge=0, le=1_000_000)]


class Offer(Model):
    """A packet of seed, or a pack of planting stock, that can be bought."""

    id: Id
    crop: Name = Field(description="Key of the crop.")
    variety: Label = ""
    kind: Literal["seed", "sets", "tubers", "cloves", "crowns", "plants"] = "seed"
    seeds: int | None = Field(default=None, ge=1, le=100_000_000, description="In a packet.")
    grams: float | None = Field(default=None, gt=0, le=1_000_000, description="Of a packet or pack. [g]")
    pieces: int | None = Field(
        default=None, ge=1, le=10_000_000, description="Sets, tubers, cloves, crowns or plants in a pack."
    )
    price: Price | None = Field(default=None, description="Of one, in the garden's currency.")
    shop: Label = Field(default="", description="Where: a shop, a page of a catalogue.")
    notes: Notes = ""

    @model_validator(mode="after")
    def _has_a_size(self) -> Self:
        if self.kind == "seed":
            if self.pieces is not None:
                raise ValueError(say("a packet of seed has seeds or grams, not pieces"))
            if self.seeds is None and self.grams is None:
                raise ValueError(say("a packet of seed needs its seeds or grams"))
        elif self.pieces is None:
            raise ValueError(say("a pack of {kind} needs its pieces; about how many will do", kind=self.kind))
        elif self.seeds is not None:
            raise ValueError(say("a pack of {kind} has pieces, not seeds", kind=self.kind))
        return self


class PlantingStock(Model):
    """Sets, tubers, cloves, crowns or plants that were got for a growing year.

    Of what is planted already the number is not taken down: it is what was got for the year.
    """

    id: Id
    crop: Name = Field(description="Key of the crop.")
    variety: Label = ""
    kind: StockKind
    number: int = Field(ge=0, le=10_000_000)
    year: Year | None = Field(
        default=None, description="Growing year in which they are planted; any year where not given."
    )
    ordered: bool = Field(default=False, description="Ordered, not on hand yet.")
    notes: Notes = ""
