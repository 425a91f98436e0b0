"""The garden's own varieties, crops and sources, and its stock of seed."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Self

from pydantic import Field, model_validator

from planner.crops.crop import FIGURE_FIELDS, WORD_FIELDS, Crop
from planner.crops.figures import PRACTICE, Figure, Flag, Words
from planner.crops.vocabulary import GrowthForm, LifeCycle
from planner.garden.model import Id, Label, Model, Name, Notes, Year
from planner.words import say

#: Key of an own crop or source; those of the catalogue never begin so.
CropKey = Annotated[str, Field(pattern=r"^own_[a-z0-9_]{1,60}$")]
#: Figures of a crop that a variety can replace: the single numbers.
OWN_FIELDS = FIGURE_FIELDS


#: Words of a crop that a variety can replace: hardiness, support, how it starts ...
OWN_WORDS = WORD_FIELDS


class _Own(Model):
    """Base of what a variety says of itself: its field, where it comes from, and a note."""

    field: Name
    source: Label = Field(
        default="",
        description="Key of one of the garden's own sources, or of the catalogue's; empty for the gardener's own experience.",
    )
    note: Label = Field(default="", description="Further words: a packet, this garden.")


class OwnFigure(_Own):
    """A figure of a variety that replaces the crop's, in SI units."""

    field: Name = Field(description="Name of a number of the crop, as in_row_spacing.")
    value: float
    low: float | None = Field(default=None, description="Of a range.")
    high: float | None = Field(default=None, description="Of a range.")

    @model_validator(mode="after")
    def _is_possible_figure(self) -> Self:
        if self.field not in OWN_FIELDS:
            raise ValueError(
                say(
                    "'{field}' is no figure of a crop; known are {names}",
                    field=self.field,
                    names=", ".join(OWN_FIELDS),
                )
            )
        Crop.model_validate({**BLANK, self.field: self.as_figure()})  # its bounds are the catalogue's
        return self

    def as_figure(self) -> Figure:
        """The figure as the catalogue has such."""
        is_range = self.low is not None and self.high is not None and self.low < self.high
        return Figure(
            value=self.value,
            low=self.low,
            high=self.high,
            source=self.source or PRACTICE,
            basis=("chosen" if is_range else "printed") if self.source else "practice",
            note=self.note or None,
        )


class OwnWord(_Own):
    """A word, several, or a yes or no of a variety that replaces the crop's."""

    field: Name = Field(description="Name of a field of the crop that holds words, as hardiness.")
    words: tuple[Label, ...] = Field(min_length=1, max_length=40)

    @model_validator(mode="after")
    def _is_possible_word(self) -> Self:
        if self.field not in OWN_WORDS:
            raise ValueError(
                say(
                    "'{field}' is no word of a crop; known are {names}",
                    field=self.field,
                    names=", ".join(OWN_WORDS),
                )
            )
        Crop.model_validate({**BLANK, self.field: self.as_entry()})
        return self

    def as_entry(self) -> dict[str, object]:
        """The entry as the catalogue's files have such."""
        kind = OWN_WORDS[self.field]
        value: object = self.words
        if kind is not Words:
            if len(self.words) != 1:
                raise ValueError(say("{field} is one word", field=self.field))
            value = self.words[0]
        if kind is Flag:
            if value not in ("yes", "no"):
                raise ValueError(say("{field} is yes or no", field=self.field))
            value = value == "yes"
        basis = "printed" if self.source else "practice"
        return {"value": value, "source": self.source or PRACTICE, "basis": basis, "note": self.note or None}


#: A crop of which nothing is known, to hold single figures against the bounds of their fields.
BLANK: dict[str, object] = {
    "key": "blank",
    "name": "blank",
    "latin": "",
    "family": "",
    "life_cycle": "annual",
    "growth_form": "bush",
}


class _WithFigures(Model):
    """Base of a variety and of an own crop: what they say of themselves, each field once."""

    figures: tuple[OwnFigure, ...] = Field(default=(), max_length=200)
    words: tuple[OwnWord, ...] = Field(default=(), max_length=200)
    notes: Notes = ""

    @model_validator(mode="after")
    def _each_once(self) -> Self:
        fields = [one.field for one in (*self.figures, *self.words)]
        for field in fields:
            if fields.count(field) > 1:
                raise ValueError(say("gives {field} twice", field=field))
        return self

    def number(self, field: str) -> float | None:
        """Its own value of a figure, or None if it has none."""
        return next((own.value for own in self.figures if own.field == field), None)

    @property
    def entries(self) -> dict[str, object]:
        """Its figures and words by field, as the catalogue's files have such."""
        figures: dict[str, object] = {own.field: own.as_figure() for own in self.figures}
        return figures | {own.field: own.as_entry() for own in self.words}


class Variety(_WithFigures):
    """A named variety of a crop, with the figures and words in which it differs."""

    id: Id
    crop: Name
    name: Name


class OwnSource(Model):
    """A publication, packet or person that own figures come from."""

    key: CropKey
    title: Name
    author: Label = ""
    agency: Label = Field(default="", description="Who publishes it.")
    year: Year | None = None


class OwnCrop(_WithFigures):
    """A crop that the catalogue does not have.

    What it does not say is as with the crop that it is like.
    """

    key: CropKey
    name: Name
    like: Label = Field(
        default="", description="Key of the crop of the catalogue that it is like; empty for none."
    )
    latin: Label = ""
    family: Label = ""
    life_cycle: LifeCycle = "annual"
    growth_form: GrowthForm = "bush"


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
    saved_from: Id | None = Field(default=None, description="The planting whose own seed it is.")
    notes: Notes = ""
