"""Outlines of beds and structures.

Every outline has a place on the plan (``center``, ``turn``) and a shape in its own coordinates,
whose origin is the centre; turning is anticlockwise, from plan-right.  Own coordinates are what
plots are given in, so a bed that is moved or turned carries its plantings along.
"""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from planner.garden.model import Degrees, Model, Point, Side

#: Least area of a polygon. [m2]
LEAST_AREA = 1e-3


class _Placed(Model):
    center: Point = Field(default=(0.0, 0.0), description="Origin of the outline on the plan. [m]")
    turn: Degrees = Field(default=0.0, description="Anticlockwise, from plan-right. [degrees]")


class Rectangle(_Placed):
    """A rectangle about its centre: length along its own x, width along its own y."""

    shape: Literal["rectangle"] = "rectangle"
    length: Side = Field(description="Along the outline's own x. [m]")
    width: Side = Field(description="Along the outline's own y. [m]")


class Circle(_Placed):
    """A circle about its centre."""

    shape: Literal["circle"] = "circle"
    radius: Side = Field(description="[m]")


class Polygon(_Placed):
    """A polygon; its points are given from ``center`` and turned with ``turn``."""

    shape: Literal["polygon"] = "polygon"
    points: tuple[Point, ...] = Field(
        min_length=3, max_length=2_000, description="Corners in order, own coordinates. [m]"
    )

    @model_validator(mode="after")
    def _simple(self) -> Self:
        check_ring(self.points)
        return self


def check_ring(points: tuple[Point, ...]) -> None:
    """Refuse a ring that has no area or crosses itself.

    Raises
    ------
    ValueError
        Names the place of the crossing where there is one.
    """
    import shapely

    ring = shapely.Polygon(points)
    if not ring.is_valid:
        reason = shapely.is_valid_reason(ring)
        place = reason[reason.find("[") :].strip("[]").split() if "[" in reason else []
        at = f" near ({float(place[0]):.2f}, {float(place[1]):.2f})" if len(place) == 2 else ""
        raise ValueError(f"the outline crosses or touches itself{at}; move a corner so that it does not")
    if ring.area < LEAST_AREA:
        raise ValueError(f"the outline encloses {ring.area:.4f} m2; a bed needs at least {LEAST_AREA:g} m2")


Outline = Annotated[Rectangle | Circle | Polygon, Field(discriminator="shape")]
