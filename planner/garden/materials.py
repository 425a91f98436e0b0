"""What is brought onto beds, and what of fleece, poles, compost and trays is in the shed."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal, Self, get_args

from pydantic import Field, model_validator

from planner.garden.model import Id, Label, Model, Notes
from planner.garden.offers import Price
from planner.garden.raising import TrayCells
from planner.words import say

#: What is spread on a bed: by depth, or by mass.
SpreadKind = Literal[
    "compost", "manure", "leaf mould", "straw", "bark", "wood chip", "grass clippings", "lime", "feed"
]
#: Sheets that are cut from rolls of a width.
SheetKind = Literal["fleece", "netting", "mulch film", "tunnel film", "climbing net"]
#: What is cut from bars, poles and rolls that have a length only.
BarKind = Literal[
    "hoop", "post", "stick", "stake", "pole", "rail", "wire", "string", "drip line", "water pipe"
]
#: What is counted; brushwood in bundles.
CountedKind = Literal[
    "cloche",
    "peg",
    "cage",
    "panel",
    "tie",
    "brushwood",
    "collar",
    "slug ring",
    "vole basket",
    "drip branch",
    "drip stop",
    "pressure reducer",
]
#: What plants are raised in.
RaisingKind = Literal["potting mix", "cell tray", "seed tray", "pot"]
#: All that can be in the shed.
MaterialKind = Literal[SheetKind, BarKind, CountedKind, SpreadKind, RaisingKind]

#: What is spread by mass only.
BY_MASS: tuple[SpreadKind, ...] = ("lime", "feed")

Size = Annotated[float, Field(gt=0, le=10_000)]
#: Mass of fleece. [g/m2]
SheetMass = Annotated[float, Field(ge=5, le=200)]
#: Of a net. [m]
Mesh = Annotated[float, Field(ge=0.0001, le=0.2)]


class Dressing(Model):
    """Compost, mulch, manure, feed or lime that is spread on a bed on a day, by depth or by mass.

    It lies on the ground of the bed, or of one planting's plot, less what structures take of it.
    """

    id: Id
    bed: Id
    planting: Id | None = Field(
        default=None, description="It is spread on this one's plot only; on the whole bed if not given."
    )
    kind: SpreadKind
    day: dt.date
    depth: float | None = Field(default=None, gt=0, le=1, description="[m]")
    rate: float | None = Field(default=None, gt=0, le=100_000, description="[g/m2]")
    done: dt.date | None = Field(default=None, description="The day on which it was really spread.")
    notes: Notes = ""

    @model_validator(mode="after")
    def _one_measure(self) -> Self:
        if (self.depth is None) == (self.rate is None):
            raise ValueError(say("is spread by depth or by mass: give one of depth and rate"))
        if self.depth is not None and self.kind in BY_MASS:
            raise ValueError(
                say("{kind} is spread by mass: give its rate in grams a square metre", kind=self.kind)
            )
        return self


class ShedItem(Model):
    """Material in the shed, on order, or a size in which it is sold.

    Sheets have a length and a width, bars, poles and rolls of string a length; what is spread has litres or grams, of
    one bag or heap; potting mix has litres, a tray of cells its cells, a pot its width.
    """

    id: Id
    kind: MaterialKind
    number: int = Field(default=1, ge=0, le=1_000_000, description="Of what is sold: in one pack.")
    length: Size | None = Field(default=None, description="Of one. [m]")
    width: Size | None = Field(default=None, description="Of a sheet, or of a pot at its rim. [m]")
    weight: SheetMass | None = Field(default=None, description="Of fleece. [g/m2]")
    mesh: Mesh | None = Field(default=None, description="Of a net. [m]")
    cells: TrayCells | None = Field(default=None, description="Of a tray of cells.")
    litres: Size | None = Field(default=None, description="Of what is spread, or of potting mix. [l]")
    grams: float | None = Field(default=None, gt=0, le=100_000_000, description="Of what is spread. [g]")
    sold: bool = Field(default=False, description="A size in which it can be bought, and not in the shed.")
    ordered: bool = Field(default=False, description="Ordered, not in the shed yet.")
    since: dt.date | None = Field(
        default=None, description="Day on which it came into the shed: before, it was in no use."
    )
    uncut: bool = Field(
        default=False, description="A roll, bar or pole as it was bought, to be cut by the cut list."
    )
    price: Price | None = Field(
        default=None, description="Of what is sold: of one pack, in the garden's currency."
    )
    shop: Label = Field(default="", description="Where it is sold: a shop, a page of a catalogue.")
    name: Label = ""
    notes: Notes = ""

    @model_validator(mode="after")
    def _has_its_size(self) -> Self:
        if self.kind in get_args(SheetKind) and (self.length is None or self.width is None):
            raise ValueError(say("{kind} needs its length and width", kind=self.kind))
        if self.kind in get_args(BarKind) and self.length is None:
            raise ValueError(say("a {kind} needs its length", kind=self.kind))
        if self.kind in get_args(SpreadKind) and self.litres is None and self.grams is None:
            raise ValueError(say("{kind} needs its litres or grams", kind=self.kind))
        if self.kind == "potting mix" and self.litres is None:
            raise ValueError(say("potting mix needs its litres"))
        if self.kind == "cell tray" and self.cells is None:
            raise ValueError(say("a tray of cells needs the number of its cells"))
        if self.kind == "pot" and self.width is None:
            raise ValueError(say("a pot needs its width"))
        if self.sold and self.ordered:
            raise ValueError(say("is a size in which it is sold, or is ordered: choose one"))
        return self
