"""Beds as lengths: steps that a gardener can measure, what stands in them, and what their ground carried before."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.rotation import LEAST_GROUND, MOST_YEARS, years_since
from planner.garden import Bed, Planting, Plot, Rectangle, Stretch, Whole
from planner.ground.shapes import (
    bed_axis,
    bed_polygon,
    extent_along_axis,
    outline_area,
    plan_polygon,
    shape_to_own,
    turned,
)
from planner.plan import Plan

#: Steps along a bed, in gardens in metres and in feet (3 inches). [m]
STEPS = {"metric": 0.10, "feet_inches": 0.0762}
#: Ground this near to a step counts as that step. [m]
NEAR = 0.011


@dataclass(frozen=True, eq=False)
class Strip:
    """A bed as a length.

    Attributes
    ----------
    bed : Bed
    step : float
        [m]
    even : bool
        Whether a stretch of it holds as much wherever it lies: a rectangle on which nothing is built.
    obstacles : shapely.Geometry
        Ground of it on which nothing grows, in its own coordinates. [m]
    """

    bed: Bed
    step: float
    even: bool
    obstacles: shapely.Geometry

    @cached_property
    def metres(self) -> float:
        """Its length. [m]"""
        low, high = extent_along_axis(self.bed.outline)
        return high - low

    @cached_property
    def length(self) -> int:
        """Whole steps of its length; one of less than a step is one."""
        return max(1, math.floor((self.metres + NEAR) / self.step))

    @cached_property
    def sort(self) -> tuple[object, ...]:
        """The same for beds in which a stretch holds as much: even ones as wide, each other one by itself."""
        if not self.even:
            return (self.bed.id,)
        return round(self.width, 3), self.bed.kind

    @cached_property
    def area(self) -> float:
        """[m2]"""
        return outline_area(self.bed.outline)

    @cached_property
    def _ground_up_to(self) -> NDArray[np.float64]:
        """Ground from its beginning up to each step on which something can grow. [m2]"""
        ground = shapely.difference(bed_polygon(self.bed), self.obstacles)
        level = turned(ground, -bed_axis(self.bed.outline))
        low = extent_along_axis(self.bed.outline)[0]
        left, down, right, up = shapely.bounds(level)
        ends = low + self.step * np.arange(1, self.length + 1)
        ends[-1] = max(float(ends[-1]), float(right))
        areas = shapely.area(shapely.intersection(level, shapely.box(left - 1, down - 1, ends, up + 1)))
        return np.concatenate(([0.0], areas))

    def ground(self, start: int, length: int) -> float:
        """Ground in a stretch on which something can grow. [m2]"""
        known = self._ground_up_to
        return float(known[min(start + length, self.length)] - known[start])

    def length_of(self, area: float, start: int) -> int | None:
        """Fewest steps from one on with so much ground; None where there is less. [m2]"""
        known = self._ground_up_to
        end = int(np.searchsorted(known, known[start] + area - 1e-9))
        return None if end > self.length else max(1, end - start)

    @cached_property
    def width(self) -> float:
        """Its area over its length. [m]"""
        return self.area / self.metres

    def plot(self, start: int, length: int) -> Plot:
        """The plot of a planting over so many steps from a step on; the last step takes what is left of the bed."""
        end = start + length
        if start <= 0 and end >= self.length:
            return Whole()
        last = self.metres if end >= self.length else end * self.step
        return Stretch(start=round(start * self.step, 4), end=round(last, 4))

    def steps(self, ground: shapely.Geometry) -> tuple[int, int]:
        """First step of some ground, in the bed's coordinates, and the first after it."""
        low = extent_along_axis(self.bed.outline)[0]
        left, _, right, _ = shapely.bounds(turned(ground, -bed_axis(self.bed.outline)))
        first = math.floor((float(left) - low + NEAR) / self.step)
        end = math.ceil((float(right) - low - NEAR) / self.step)
        if float(right) - low > self.metres - self.step:
            end = max(end, self.length)
        return max(0, first), min(self.length, end)


def strips_of(plan: Plan, beds: Iterable[Bed]) -> tuple[Strip, ...]:
    """Beds as lengths.

    Parameters
    ----------
    plan : Plan
    beds : iterable of Bed
    """
    step = STEPS[plan.garden.site.units]
    found = []
    for bed in beds:
        obstacles = plan.obstacles(bed)
        even = isinstance(bed.outline, Rectangle) and bool(shapely.is_empty(obstacles))
        found.append(Strip(bed, step, even, obstacles))
    return tuple(found)


class Taken(NamedTuple):
    """Steps of a bed that a planting takes, from its first day to its last."""

    planting: Planting
    start: int
    end: int
    first: dt.date
    last: dt.date


def taken_in(plan: Plan, strip: Strip) -> tuple[Taken, ...]:
    """What stands in a bed, of any growing year.

    Parameters
    ----------
    plan : Plan
    strip : Strip
    """
    found = []
    for planting in plan.garden_in_bed(strip.bed.id):
        plot = plan.placed(planting).plot
        if planting.shares_ground or plot.is_empty:
            continue
        span = plan.span_of(planting)
        found.append(Taken(planting, *strip.steps(plot), span.first, span.last))
    return tuple(found)


class Carried(NamedTuple):
    """Steps of a bed that carried a family before.

    Attributes
    ----------
    view : PlantingView
        What grew there.
    ago : int
        Growing years since. [years]
    start, end : int
    """

    view: PlantingView
    ago: int
    start: int
    end: int

    @property
    def family(self) -> str:
        """Its botanical family."""
        return self.view.crop.family if self.view.crop is not None else ""


def carried_by(
    plan: Plan, strips: Iterable[Strip], plantings: Iterable[Planting] | None = None
) -> tuple[tuple[Carried, ...], ...]:
    """What the very ground of each bed carried in this growing year and in those before, whatever bed it was then.

    As the rotation is judged: perennials that still stand, and containers, are left out.

    Parameters
    ----------
    plan : Plan
    strips : iterable of Strip
    plantings : iterable of Planting, optional
        Only what these leave; all of the garden by default.
    """
    past = []
    for planting in plan.garden.plantings if plantings is None else plantings:
        if plan.year - MOST_YEARS <= planting.year <= plan.year:
            view = planting_view(plan, planting)
            if (
                view.crop is not None
                and not (view.stays_for_years and view.span.open)
                and not view.ground.is_empty
            ):
                past.append(view)
    tree = shapely.STRtree([view.ground for view in past])
    begins = plan.garden.site.year_begins
    found = []
    for strip in strips:
        there: list[Carried] = []
        if strip.bed.kind != "container":
            ground = plan_polygon(strip.bed.outline)
            for index in sorted(tree.query(ground, "intersects").tolist()):
                both = shapely.intersection(past[index].ground, ground)
                if both.area > LEAST_GROUND:
                    steps = strip.steps(shape_to_own(strip.bed.outline, both))
                    if steps[0] < steps[1]:
                        ago = years_since(plan.year, past[index], begins)
                        there.append(Carried(past[index], ago, *steps))
        found.append(tuple(there))
    return tuple(found)
