"""Beds and structures."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from planner.garden.model import Distance, Height, Id, Label, Model, Name, Notes, Year
from planner.garden.outlines import Outline
from planner.garden.soil import Soil
from planner.words import say

BedKind = Literal["open", "raised", "container", "under glass"]
#: Sides of a bed, looking along its long axis from its beginning.
BedSide = Literal["start", "end", "left", "right"]
StructureKind = Literal[
    "wall",
    "fence",
    "hedge",
    "tree",
    "shed",
    "glasshouse",
    "tunnel",
    "arch",
    "board",
    "path",
    "gate",
    "tap",
    "compost",
    "lawn",
    "other",
]
#: Structures that one may stand on: a board laid on the soil, a path through a bed, the ground of a gate.
STOOD_ON: tuple[StructureKind, ...] = ("board", "path", "gate")

#: Height of a new structure (``practice``). [m]
USUAL_HEIGHTS: dict[StructureKind, float] = {
    "wall": 1.8,
    "fence": 1.8,
    "hedge": 1.6,
    "tree": 5.0,
    "shed": 2.4,
    "glasshouse": 2.3,
    "tunnel": 2.2,
    "arch": 2.3,
    "board": 0.04,
    "path": 0.0,
    "gate": 1.2,
    "tap": 0.8,
    "compost": 1.0,
    "lawn": 0.0,
    "other": 1.0,
}

Opacity = Annotated[float, Field(ge=0, le=1)]


class _InUse(Model):
    first_year: Year | None = None
    last_year: Year | None = None
    locked: bool = Field(default=False, description="Whether it stays as and where it is on the sheet.")

    @model_validator(mode="after")
    def _years_in_order(self) -> Self:
        if self.first_year and self.last_year and self.last_year < self.first_year:
            raise ValueError(say("last_year is before first_year"))
        return self

    def in_use(self, year: int) -> bool:
        """Whether it exists in a growing year."""
        return (self.first_year or year) <= year <= (self.last_year or year)


class Bed(_InUse):
    """A bed: an outline in which plants grow."""

    id: Id
    name: Name
    outline: Outline
    kind: BedKind = "open"
    height: Height = Field(default=0.0, description="Of a raised bed or container above the ground. [m]")
    depth: Distance | None = Field(default=None, description="Of soil in a container. [m]")
    kept_above: float | None = Field(
        default=None, ge=0, le=30, description="Least temperature that heated glass is kept at. [deg C]"
    )
    access: tuple[BedSide, ...] = Field(
        default=("start", "end", "left", "right"), description="Sides from which it can be reached."
    )
    soil: Soil = Field(default=Soil(), description="What is not given is as in the garden.")
    drip_lines: bool = Field(default=False, description="Drip lines along its rows water it.")
    notes: Notes = ""


class Structure(_InUse):
    """A fixed thing that shades, shelters or blocks the ground, or that one may stand on.

    An arch has a rectangular outline: its span along the outline's length, a foot at either end.
    """

    id: Id
    kind: StructureKind
    name: Label = ""
    outline: Outline
    height: Height = Field(description="[m]")
    material: Label = Field(
        default="",
        description="What it is made of, which sets its opacity: a key of the catalogue's materials of its kind; "
        "empty for the usual one.",
    )
    opacity: tuple[Opacity, ...] = Field(
        default=(),
        description="Share of the direct sun that it blocks: one number, or twelve from January on; "
        "empty for that of its material.",
    )
    stem: Height = Field(
        default=0.0,
        description="Of a tree: clear stem below the crown; things grow and are walked under it. [m]",
    )
    clearance: Distance = Field(default=0.0, description="Width of ground around it without plants. [m]")
    foot: Distance = Field(default=0.10, description="Length of an arch's foot along its span. [m]")
    clear_height: Height = Field(default=2.1, description="Of an arch over the path. [m]")
    notes: Notes = ""

    @model_validator(mode="after")
    def _fits_together(self) -> Self:
        if len(self.opacity) not in (0, 1, 12):
            raise ValueError(say("opacity needs one number, or twelve from January on"))
        if self.stem and self.stem >= self.height:
            raise ValueError(say("the clear stem reaches the top; the crown needs a height of its own"))
        if self.kind == "arch":
            if self.outline.shape != "rectangle":
                raise ValueError(say("an arch needs a rectangular outline, its span along the length"))
            if 2 * self.foot >= self.outline.length:
                raise ValueError(say("the two feet of the arch leave no span between them"))
        return self

    @property
    def stood_on(self) -> bool:
        """Whether one may stand on it: it keeps plants off, blocks no way and casts no shadow."""
        return self.kind in STOOD_ON

    @property
    def fills_outline(self) -> bool:
        """Whether it fills its outline; False for a tunnel, glasshouse or arch, which people can enter."""
        return self.kind not in ("arch", "tunnel", "glasshouse")
