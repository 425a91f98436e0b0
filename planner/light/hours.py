"""Hours of direct sun: of points, plots and beds, over a day or a span; and what takes them.

Hours are the sum, over the steps of a day in which the sun is at least 3 degrees up, of the step's
length times what each shadow lets through.  Over a span they are hours a day, the mean of its days.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray

from planner.light.casters import Caster
from planner.light.days import STEP, Beams, Place, beams
from planner.light.shading import Raster, Shading, raster_over
from planner.sun import Floats

#: All that casts on a day.
CastersOn = Callable[[dt.date], Sequence[Caster]]
#: Days that stand for a span, each with its share of it.
Days = Sequence[tuple[dt.date, float]]

#: Side of the cells by which a plot is measured. [m]
CELL = 0.10
#: Most cells of one plot.
MOST_CELLS = 20_000


@dataclass(frozen=True, eq=False)
class Receiver:
    """Ground or plants on which light falls.

    Attributes
    ----------
    key : str
    shape : shapely.Geometry
        On the plan. [m]
    height : float, or callable of a date
        Of the soil, or of the plants' tops, above the ground. [m]
    leaving_out : frozenset of str
        Keys of casters that do not count (the plants on it).
    """

    key: str
    shape: shapely.Geometry
    height: float | Callable[[dt.date], float] = 0.0
    leaving_out: frozenset[str] = field(default=frozenset())

    def height_on(self, day: dt.date) -> float:
        """Height on a day. [m]"""
        return self.height(day) if callable(self.height) else self.height


@dataclass(frozen=True)
class Light:
    """Hours of direct sun a day.

    Attributes
    ----------
    least, mean, best : float
        At its darkest spot, over all of it, and at its brightest spot. [h]
    unshaded : float
        Where nothing shades. [h]
    """

    least: float
    mean: float
    best: float
    unshaded: float


@dataclass(frozen=True)
class Shade:
    """What one caster takes from a piece of ground.

    Attributes
    ----------
    key, name : str
    hours : float
        Hours a day that the ground would gain, were it gone. [h]
    alone : float
        Hours a day it would take, were it the only one. [h]  More than ``hours`` where shadows overlap.
    """

    key: str
    name: str
    hours: float
    alone: float


def on_day(day: dt.date) -> Days:
    """A single day as days that stand for a span."""
    return ((day, 1.0),)


def measured_over(shape: shapely.Geometry, cell: float = CELL) -> tuple[Raster, NDArray[np.bool_]]:
    """The cells by which a shape is measured, and which of them lie in it.

    Cells have the given side, smaller in narrow shapes and larger in very large ones; the middle of a
    cell counts. A shape too small for any is measured at one point in it.
    """
    wide = 2 * shape.area / max(shape.length, 1e-9)
    cell = min(cell, max(wide / 4, 0.01))
    left, low, right, high = shapely.bounds(shape)
    cell = max(cell, math.sqrt(max((right - left) * (high - low), 0.0) / MOST_CELLS))
    raster = raster_over((left, low, right, high), cell)
    columns, rows = raster.middles
    x, y = np.meshgrid(columns, rows)
    shapely.prepare(shape)
    inside: NDArray[np.bool_] = shapely.contains_xy(shape, x, y)
    if inside.any():
        return raster, inside
    point = shapely.point_on_surface(shape)
    return _point_raster(point.x, point.y), np.ones((1, 1), dtype=bool)


def _point_raster(x: float, y: float, height: float = 0.0) -> Raster:
    return Raster(x - 0.005, y - 0.005, 0.01, 1, 1, height)


def counted(casters: Sequence[Caster], receivers: Sequence[Receiver]) -> NDArray[np.bool_]:
    """Which casters count over which receivers, (receivers, casters)."""
    counts = np.ones((len(receivers), len(casters)), dtype=bool)
    for row, receiver in enumerate(receivers):
        if receiver.leaving_out:
            counts[row] = [caster.key not in receiver.leaving_out for caster in casters]
    return counts


def hours_over(
    receivers: Iterable[Receiver],
    place: Place,
    days: Days,
    casters_on: CastersOn,
    step: float = STEP,
    cancelled: Callable[[], bool] | None = None,
) -> dict[str, Light]:
    """Hours of direct sun a day, least, mean and best, of several pieces of ground at once.

    Parameters
    ----------
    receivers : iterable of Receiver
        Those with an empty shape are left out of the result.
    place : Place
    days : sequence of (date, float)
        See :func:`planner.light.days.sample_days` and :func:`on_day`.
    casters_on : callable
        All that casts on a day.
    step : float
        [min]
    cancelled : callable, optional
        Asked now and then; once true, the result is empty.

    Returns
    -------
    dict of str to Light
        By the receivers' keys.
    """
    lit = [receiver for receiver in receivers if not receiver.shape.is_empty]
    if not lit or not days:
        return {}
    measured = [measured_over(receiver.shape) for receiver in lit]
    sums: list[Floats] = [np.zeros(int(inside.sum())) for _, inside in measured]
    unshaded = 0.0
    for day, share in days:
        light, casters = beams(place, day, step), casters_on(day)
        rasters = [m[0].at_height(r.height_on(day)) for m, r in zip(measured, lit, strict=True)]
        hours = Shading(casters, rasters, counted(casters, lit)).hours(light, cancelled)
        if hours is None:
            return {}
        for total, cells, (_, inside) in zip(sums, hours, measured, strict=True):
            total += share * cells[inside]
        unshaded += share * light.total
    return {
        receiver.key: Light(float(total.min()), float(total.mean()), float(total.max()), unshaded)
        for receiver, total in zip(lit, sums, strict=True)
    }


def hours_at(
    points: ArrayLike,
    place: Place,
    days: Days,
    casters_on: CastersOn,
    height: float = 0.0,
    step: float = STEP,
) -> Floats:
    """Hours of direct sun a day at points of the plan.

    Parameters
    ----------
    points : array (n, 2)
        [m]
    place, days, casters_on, step
        As for :func:`hours_over`.
    height : float
        Of the points above the ground. [m]
    """
    places = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    rasters = [_point_raster(x, y, height) for x, y in places.tolist()]
    total = np.zeros(len(places))
    for day, share in days if rasters else ():
        cells = Shading(casters_on(day), rasters).hours(beams(place, day, step)) or []
        total += share * np.array([cell[0, 0] for cell in cells])
    return total


def shade_sources(
    receiver: Receiver,
    place: Place,
    days: Days,
    casters_on: CastersOn,
    step: float = STEP,
    cell: float = CELL,
    least: float = 1e-4,
    weighed: bool = False,
) -> tuple[Shade, ...]:
    """What takes the sun from a piece of ground, the most first.

    Each is measured by leaving it out: the hours are those the ground would gain without it. Where
    two shade the same ground at the same time neither may gain anything alone; ``alone`` tells them.

    Parameters
    ----------
    receiver, place, days, casters_on, step
        As for :func:`hours_over`.
    cell : float
        Side of the cells by which it is measured, at most. [m]
    least : float
        What takes less than this alone, on the mean of the days, is left out. [h]  Nothing gains more
        by being left out than it takes alone, so nothing greater is lost by it.
    weighed : bool
        Whether hours are weighed by the height of the sun.

    Returns
    -------
    tuple of Taken
    """
    if receiver.shape.is_empty:
        return ()
    raster, inside = measured_over(receiver.shape, cell)
    names: dict[str, str] = {}
    alone: dict[str, float] = {}
    on_days: list[tuple[float, _Day]] = []
    for day, share in days:
        level = raster.at_height(receiver.height_on(day))
        casters = [caster for caster in casters_on(day) if caster.key not in receiver.leaving_out]
        light = beams(place, day, step)
        light = light.weighed if weighed else light
        casters = [casters[number] for number in Shading(casters, [level]).meeting(light)]
        names |= {caster.key: caster.name for caster in casters}
        on_day = _Day(casters, level, inside, light)
        on_days.append((share, on_day))
        for key, hours in on_day.alone().items():
            alone[key] = alone.get(key, 0.0) + share * hours
    told = [key for key, hours in alone.items() if hours >= least]
    gained = dict.fromkeys(told, 0.0)
    for share, on_day in on_days:
        for key, hours in on_day.left_out(told).items():
            gained[key] += share * hours
    takes = (Shade(key, names[key], gained[key], alone[key]) for key in told)
    return tuple(sorted(takes, key=lambda t: (-t.hours, -t.alone, t.key)))


@dataclass(frozen=True, eq=False)
class _Day:
    """A piece of ground on a day, and all that may shade it."""

    casters: Sequence[Caster]
    level: Raster
    inside: NDArray[np.bool_]
    light: Beams

    def _means(self, pairs: NDArray[np.bool_]) -> list[float]:
        """Mean hours under each choice of the casters. (choices, casters)"""
        hours = Shading(self.casters, [self.level] * len(pairs), pairs).hours(self.light) or []
        return [float(cells[self.inside].mean()) for cells in hours]

    def _of(self, keys: Sequence[str]) -> NDArray[np.bool_]:
        return np.array([[caster.key == key for caster in self.casters] for key in keys], dtype=bool)

    def alone(self) -> dict[str, float]:
        """By key: mean hours lost, were it the only one."""
        keys = list(dict.fromkeys(caster.key for caster in self.casters))
        if not keys:
            return {}
        means = self._means(self._of(keys))
        return {key: max(0.0, self.light.total - mean) for key, mean in zip(keys, means, strict=True)}

    def left_out(self, keys: Sequence[str]) -> dict[str, float]:
        """By key, as far as they are there: mean hours gained without it."""
        there = {caster.key for caster in self.casters}
        keys = [key for key in keys if key in there]
        if not keys:
            return {}
        every = np.ones((1, len(self.casters)), dtype=bool)
        all_of_them, *means = self._means(np.concatenate([every, ~self._of(keys)]))
        return {key: max(0.0, mean - all_of_them) for key, mean in zip(keys, means, strict=True)}
