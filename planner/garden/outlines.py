"""Outlines of beds and structures.

Every outline has a place on the plan (``center``, ``turn``) and a shape in its own coordinates, whose origin is the
centre; ``turn`` is anticlockwise, from plan-right.  Plots are in own coordinates, so that a bed that is moved or
turned carries its plantings along.
"""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import pairwise
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from planner.garden.model import Degrees, Model, Point, Side
from planner.words import number_words, say, short_number

#: Least area of a polygon. [m2]
LEAST_AREA = 1e-3
#: Most corners of a polygon or drawn region.
MOST_CORNERS = 2_000


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
    """A polygon; its points are relative to ``center`` and turned with ``turn``."""

    shape: Literal["polygon"] = "polygon"
    points: tuple[Point, ...] = Field(
        min_length=3, max_length=MOST_CORNERS, description="Corners in order, own coordinates. [m]"
    )

    @model_validator(mode="after")
    def _simple(self) -> Self:
        check_ring(self.points)
        return self


def check_ring(points: tuple[Point, ...]) -> None:
    """Check that a ring has an area and does not cross itself.

    Parameters
    ----------
    points : tuple of (float, float)
        Corners in order. [m]

    Raises
    ------
    ValueError
        Names the place of the crossing, if there is one.
    """
    import shapely

    ring = shapely.Polygon(points)
    if not ring.is_valid:
        reason = shapely.is_valid_reason(ring)
        place = reason[reason.find("[") :].strip("[]").split() if "[" in reason else []
        if len(place) != 2:
            raise ValueError(say("the outline crosses or touches itself; move a corner so that it does not"))
        raise ValueError(
            say(
                "the outline crosses or touches itself near ({x}, {y}); move a corner so that it does not",
                x=f"{float(place[0]):.2f}",
                y=f"{float(place[1]):.2f}",
            )
        )
    if ring.area < LEAST_AREA:
        raise ValueError(
            say(
                "the outline encloses {area} m2; a bed needs at least {least_area} m2",
                area=number_words(ring.area, 4),
                least_area=short_number(LEAST_AREA),
            )
        )


class Band(_Placed):
    """A band of one width along a line, as a path has it."""

    shape: Literal["band"] = "band"
    line: tuple[Point, ...] = Field(
        min_length=2,
        max_length=MOST_CORNERS,
        description="Corners of its middle line in order, own coordinates. [m]",
    )
    width: Side = Field(description="Across the line. [m]")

    @model_validator(mode="after")
    def _simple(self) -> Self:
        check_ring(self.points)
        return self

    @property
    def points(self) -> tuple[Point, ...]:
        """Corners of its rim in order, own coordinates. [m]"""
        return _rim(self.line, self.width)


@lru_cache(maxsize=1_000)
def _rim(line: tuple[Point, ...], width: float) -> tuple[Point, ...]:
    """The rim of a band; ValueError where it would cross or touch itself."""
    import shapely

    band = shapely.LineString(line).buffer(width / 2, cap_style="flat", join_style="mitre", mitre_limit=3.0)
    if (
        band.geom_type != "Polygon"
        or band.is_empty
        or band.interiors
        or not shapely.is_simple(shapely.LineString(line))
    ):
        raise ValueError(say("the path crosses or touches itself; draw it in two parts"))
    return tuple((round(x, 6), round(y, 6)) for x, y in band.exterior.coords[:-1])


Outline = Annotated[Rectangle | Circle | Polygon | Band, Field(discriminator="shape")]


def long_axis(outline: Rectangle | Circle | Polygon | Band) -> float:
    """Direction of an outline's long axis in own coordinates. [degrees anticlockwise from own x]

    The longer side of a rectangle (own x of a square), 0 for a circle, the longer side of a polygon's minimum
    rotated rectangle.
    """
    if outline.shape == "circle":
        return 0.0
    if outline.shape == "rectangle":
        return 0.0 if outline.length >= outline.width else 90.0
    import shapely

    corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(shapely.Polygon(outline.points)))
    sides = [(end[0] - start[0], end[1] - start[1]) for start, end in pairwise(corners[:3].tolist())]
    one, other = (math.hypot(*side) for side in sides)
    if abs(one - other) <= 1e-9 * max(one, other):
        along = max(sides, key=lambda side: abs(side[0]))
    else:
        along = sides[0] if one > other else sides[1]
    degrees = round(math.degrees(math.atan2(along[1], along[0])) % 180.0, 9) % 180.0
    return degrees - 180.0 if degrees > 90.0 else degrees


def extents_along(outline: Rectangle | Circle | Polygon | Band) -> tuple[float, float, float, float]:
    """Extents along and across the long axis, from the centre: least along, across; greatest. [m]"""
    if outline.shape == "circle":
        return -outline.radius, -outline.radius, outline.radius, outline.radius
    if outline.shape == "rectangle":
        length, width = sorted((outline.length, outline.width), reverse=True)
        return -length / 2, -width / 2, length / 2, width / 2
    axis = math.radians(long_axis(outline))
    cos, sin = math.cos(axis), math.sin(axis)
    along = [x * cos + y * sin for x, y in outline.points]
    across = [y * cos - x * sin for x, y in outline.points]
    return min(along), min(across), max(along), max(across)
