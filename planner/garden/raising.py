"""How plants are raised before they are set out, and the benches on which they stand until then."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from planner.garden.model import Id, Model, Name, Notes, Side, Spacing
from planner.words import say

#: Way of raising plants: sown one by one into cells, pots or blocks; sown thickly and pricked out; sown into a nursery bed.
RaisingWay = Literal["cells", "pots", "pricked out", "blocks", "nursery bed"]
#: Cells of a tray, of the sizes that there are.
TrayCells = Literal[36, 48, 50, 72, 98, 128, 200, 288, 392, 512]
#: What a bench is: warmed for seed to come up; frost-free; unheated, for hardening off.
BenchKind = Literal["heated", "cool", "cold frame"]


class Raising(Model):
    """How the plants of a planting are raised.

    Attributes
    ----------
    way : str
    cells : int or None
        Of the tray, or of that into which seedlings are pricked out; the crop's usual where not given.
    width : float or None
        Of a pot or block, or of the pots into which seedlings are pricked out; the usual where not given. [m]
    """

    way: RaisingWay
    cells: TrayCells | None = Field(
        default=None, description="Cells of a tray; the crop's usual if not given."
    )
    width: Spacing | None = Field(default=None, description="Of a pot or block; the usual if not given. [m]")

    @model_validator(mode="after")
    def _fit_together(self) -> Self:
        if self.cells is not None and self.way not in ("cells", "pricked out"):
            raise ValueError(
                say("plants raised in {way} are in no tray of {cells} cells", way=self.way, cells=self.cells)
            )
        if self.width is not None and self.way in ("cells", "nursery bed"):
            raise ValueError(say("plants raised in {way} have no pots or blocks of a width", way=self.way))
        if self.cells is not None and self.width is not None:
            raise ValueError(say("plants are pricked out into cells or into pots, not both"))
        return self


class Bench(Model):
    """A bench on which young plants stand: a shelf, a table in the glasshouse, a windowsill, a cold frame."""

    id: Id
    name: Name
    kind: BenchKind
    length: Side = Field(description="[m]")
    width: Side = Field(description="[m]")
    notes: Notes = ""

    @property
    def area(self) -> float:
        """[m2]"""
        return self.length * self.width
