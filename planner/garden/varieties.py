"""The garden's own varieties, and its stock of seed."""

from __future__ import annotations

import datetime as dt
from typing import Self

from pydantic import Field, model_validator

from planner.crops.crop import FIGURE_FIELDS, Crop
from planner.garden.model import Id, Label, Model, Name, Notes, Year

#: Figures of a crop that a variety can replace: the single numbers.
OWN_FIELDS = FIGURE_FIELDS


class OwnFigure(Model):
    """A figure of a variety that replaces the crop's, in SI units."""

    field: Name = Field(description="Name of a number of the crop, as in_row_spacing.")
    value: float
    note: Label = Field(default="", description="Where it comes from: a packet, this garden.")

    @model_validator(mode="after")
    def _is_possible_figure(self) -> Self:
        if self.field not in OWN_FIELDS:
            raise ValueError(f"'{self.field}' is no figure of a crop; known are {', '.join(OWN_FIELDS)}")
        figure = {"value": self.value, "source": "estimate"}
        Crop.model_validate({**_BLANK, self.field: figure})  # its bounds are the catalogue's
        return self


_BLANK = {
    "key": "blank",
    "name": "blank",
    "latin": "",
    "family": "",
    "life_cycle": "annual",
    "growth_form": "bush",
}


class Variety(Model):
    """A named variety of a crop, with the figures in which it differs."""

    id: Id
    crop: Name
    name: Name
    figures: tuple[OwnFigure, ...] = ()
    notes: Notes = ""

    @model_validator(mode="after")
    def _each_once(self) -> Self:
        fields = [figure.field for figure in self.figures]
        for field in fields:
            if fields.count(field) > 1:
                raise ValueError(f"gives {field} twice")
        return self

    def number(self, field: str) -> float | None:
        """The variety's value of a figure, or None if it has none."""
        return next((own.value for own in self.figures if own.field == field), None)


class Lot(Model):
    """A lot of seed in stock."""

    id: Id
    crop: Name
    variety: Label = ""
    seeds: int | None = Field(default=None, ge=0, le=100_000_000)
    grams: float | None = Field(default=None, ge=0, le=1_000_000)
    packed: Year | None = Field(default=None, description="Year packed.")
    germination: float | None = Field(default=None, ge=0, le=1, description="As tested, 0 to 1.")
    counted: dt.date | None = Field(
        default=None,
        description="Day on which its seeds or grams were there; what is sown from then on is taken from it. "
        "Not given: they are there at the beginning of any growing year.",
    )
    ordered: bool = Field(default=False, description="Ordered, not on hand yet.")
    notes: Notes = ""
