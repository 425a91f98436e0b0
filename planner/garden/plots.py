"""Plots: the part of a bed that a planting occupies, in the bed's own coordinates."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from planner.garden.model import Along, Model, Point
from planner.garden.outlines import MOST_CORNERS, check_ring
from planner.words import say, short_number


class Whole(Model):
    """The whole bed."""

    kind: Literal["whole"] = "whole"


class Stretch(Model):
    """A stretch of the bed's length, over its full width.

    ``start`` and ``end`` are metres along the bed's long axis from its beginning (the end with the
    smallest own coordinate on that axis).
    """

    kind: Literal["stretch"] = "stretch"
    start: Along = Field(description="Metres from the beginning of the bed.")
    end: Along = Field(description="Metres from the beginning of the bed; above start.")

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.end - self.start < 0.01:
            raise ValueError(
                say(
                    "a stretch from {start} m to {end} m has no length; its end must lie at least 0.01 m beyond its start",
                    start=short_number(self.start),
                    end=short_number(self.end),
                )
            )
        return self


class Region(Model):
    """A drawn region of the bed."""

    kind: Literal["region"] = "region"
    points: tuple[Point, ...] = Field(
        min_length=3, max_length=MOST_CORNERS, description="Corners in order, in the bed's coordinates. [m]"
    )

    @model_validator(mode="after")
    def _simple(self) -> Self:
        check_ring(self.points)
        return self


Plot = Annotated[Whole | Stretch | Region, Field(discriminator="kind")]
