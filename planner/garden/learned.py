"""What a garden learns from its own records: the gardener's choice of it, and the figures that follow."""

from __future__ import annotations

from typing import Literal, NamedTuple, Self, get_args

from pydantic import Field, model_validator

from planner.crops.figures import THIS_GARDEN
from planner.garden.model import Label, Model, Name
from planner.words import say

#: What is learned of a crop in this garden.
LearnedKind = Literal["coming up", "first picking", "length of picking", "emergence", "yield"]
#: What is told besides, of which no figure is published.
SeenKind = Literal["coming up", "flowering", "first picking", "length of picking", "emergence", "yield"]
LEARNED_KINDS: tuple[LearnedKind, ...] = get_args(LearnedKind)
#: When the garden's own figures are used.
LearnedUse = Literal["after three years", "never"]


class LearnedChoice(Model):
    """A figure of which the gardener says whether the garden's own is used."""

    crop: Name
    variety: Label = ""
    figure: LearnedKind
    used: bool


class Learning(Model):
    """Whether plans use what the garden's own years tell.

    ``never`` leaves all of it out, whatever is chosen of single figures.
    """

    use: LearnedUse = "after three years"
    choices: tuple[LearnedChoice, ...] = Field(
        default=(), max_length=10_000, description="Figures that are used sooner than that, or not at all."
    )

    @model_validator(mode="after")
    def _each_once(self) -> Self:
        keys = [(one.crop, one.variety.casefold(), one.figure) for one in self.choices]
        if len(set(keys)) < len(keys):
            crop, variety, figure = next(key for key in keys if keys.count(key) > 1)
            raise ValueError(
                say(
                    "'{figure}' of {crop} is chosen twice; give it once",
                    figure=figure,
                    crop=f"{crop} {variety}".rstrip(),
                )
            )
        return self

    def chosen(self, crop: str, variety: str, figure: LearnedKind) -> bool | None:
        """Whether the gardener wants a figure used; None where nothing is said of it."""
        wanted = (crop, variety.casefold(), figure)
        return next(
            (one.used for one in self.choices if (one.crop, one.variety.casefold(), one.figure) == wanted),
            None,
        )


class LearnedFigure(NamedTuple):
    """A figure that plantings use in place of the published one.

    Attributes
    ----------
    kind : str
    field : str
        The field of the crop that it stands for.
    factor : float
        Times the published figure; 1 where none is published.
    value : float or None
        In the field's unit; None of a table.
    low, high : float or None
        Within which it lies with 95 %; None of a table.
    first_year, last_year : int
        Growing years from which it was learned.
    """

    kind: LearnedKind
    field: str
    factor: float
    value: float | None
    low: float | None
    high: float | None
    first_year: int
    last_year: int

    @property
    def source(self) -> str:
        """Where it comes from: ``this garden, 2023-2026``."""
        if self.first_year == self.last_year:
            return f"{THIS_GARDEN}, {self.first_year}"
        return f"{THIS_GARDEN}, {self.first_year}-{self.last_year}"


class LearnedFigures(NamedTuple):
    """What the plantings of one crop, variety and way to start use of this garden's own years."""

    figures: tuple[LearnedFigure, ...] = ()

    def of(self, kind: LearnedKind) -> LearnedFigure | None:
        """The learned figure of a kind, or None."""
        return next((one for one in self.figures if one.kind == kind), None)

    def field(self, field: str) -> LearnedFigure | None:
        """The learned figure in place of a field of the crop, or None."""
        return next((one for one in self.figures if one.field == field), None)
