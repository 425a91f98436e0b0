"""Arrangements of plants in a plot: rows, staggered rows, scattered, single places.

A spacing that is left out is the variety's, else the crop's.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from planner.garden.model import Degrees, Distance, Model, Point, Spacing

#: For which way of growing a crop's published spacing is meant.
SpacingFor = Literal["field rows", "beds"]


class _Lines(Model):
    spacing_for: SpacingFor = Field(
        default="field rows",
        description="Which published spacing of the crop holds where none is given: that of rows in the open, or that of plants "
        "in a bed, which is the same in all directions unless the crop has one for the rows of a bed. Field rows where no "
        "spacing for beds is known.",
    )
    in_row_spacing: Spacing | None = Field(default=None, description="Station to station along a row. [m]")
    row_spacing: Spacing | None = Field(default=None, description="Row to row. [m]")
    rows: int | None = Field(
        default=None,
        ge=1,
        le=5_000,
        description="At most so many rows. Without row_spacing they share the plot's width evenly.",
    )
    edge: Distance | None = Field(
        default=None,
        description="Least distance of a row from the plot's outline, across the row; half the row spacing; of rows that share the "
        "width, half the in-row spacing where that is less. [m]",
    )
    end: Distance | None = Field(
        default=None,
        description="Least distance of a station from the row's end; half the in-row spacing. [m]",
    )
    turn: Degrees = Field(default=0.0, description="Of the rows, anticlockwise from the bed's long axis.")


class Rows(_Lines):
    """Parallel rows, each with its stations evenly spaced."""

    kind: Literal["rows"] = "rows"


class StaggeredRows(_Lines):
    """Parallel rows, every other one shifted by half the in-row spacing.

    Without ``row_spacing`` the row spacing is sqrt(3)/2 of the in-row spacing, so that three neighbours form an
    equilateral triangle.
    """

    kind: Literal["staggered"] = "staggered"


class Scatter(Model):
    """Plants scattered over the plot at a density, as broadcast seed is."""

    kind: Literal["scatter"] = "scatter"
    density: float = Field(gt=0, le=100_000, description="Plants per square metre.")


class Places(Model):
    """Single plants at given places, in the bed's coordinates."""

    kind: Literal["places"] = "places"
    points: tuple[Point, ...] = Field(min_length=1, max_length=100_000, description="[m]")


Arrangement = Annotated[Rows | StaggeredRows | Scatter | Places, Field(discriminator="kind")]
