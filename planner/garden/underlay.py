"""A picture under the plan, by reference: a scanned plan or an aerial picture to draw over."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from planner.garden.model import Degrees, Model, Point, Side
from planner.garden.records import relative_path
from planner.words import say

#: Pages of a document that can be chosen.
MOST_PAGES = 10_000
#: Share of its full colour that a picture has at first, and at least.
USUAL_STRENGTH, LEAST_STRENGTH = 0.5, 0.05


class Underlay(Model):
    """A picture kept beside the garden file, and where it lies; the file is never copied or changed.

    ``sha256`` is of the whole file, so that another picture in its place is noticed.  Without a path there is none.
    """

    path: str = Field(
        default="",
        max_length=1_000,
        description="From the garden file's folder, with / between folders; empty for none.",
    )
    sha256: Annotated[str, Field(pattern=r"^([0-9a-f]{64})?$")] = ""
    page: int = Field(default=1, ge=1, le=MOST_PAGES, description="Of a PDF.")
    center: Point = Field(default=(0.0, 0.0), description="Middle of the picture on the plan. [m]")
    width: Side = Field(default=10.0, description="Of the picture on the plan, before it is turned. [m]")
    turn: Degrees = Field(default=0.0, description="Anticlockwise. [degrees]")
    strength: float = Field(
        default=USUAL_STRENGTH,
        ge=LEAST_STRENGTH,
        le=1,
        description="Share of its full colour: 1 is not faded.",
    )
    locked: bool = Field(default=False, description="Whether it stays as and where it is on the sheet.")
    hidden: bool = False

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if bool(self.path) != bool(self.sha256):
            raise ValueError(say("an underlay needs a path and the hash of its file"))
        if self.path:
            relative_path(self.path)
        return self

    @property
    def is_there(self) -> bool:
        """Whether there is one."""
        return bool(self.path)
