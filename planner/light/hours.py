"""Hours of direct sun of pieces of ground and of points, over a day or a span.

Hours are the sum, over the time steps of a day with the sun at least 3 degrees up, of the step's length times the
product of what each shadow lets through.  Over a span they are hours a day: the mean of its days.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from planner.light.beams import STEP, beams
from planner.light.place import Place
from planner.light.raster import point_raster, rasterize
from planner.light.receiver import CastersOn, Receiver, pairs_apart
from planner.light.sample_days import Days
from planner.light.shading import Shading
from planner.sun import Floats


@dataclass(frozen=True)
class AreaSunHours:
    """Hours of direct sun a day of a piece of ground.

    Attributes
    ----------
    least, mean, best : float
        At its darkest spot, over all of it, and at its brightest spot. [h]
    unshaded : float
        Without any shade. [h]
    """

    least: float
    mean: float
    best: float
    unshaded: float


def hours_over(
    receivers: Iterable[Receiver],
    place: Place,
    days: Days,
    casters_on: CastersOn,
    step: float = STEP,
    cancelled: Callable[[], bool] | None = None,
) -> dict[str, AreaSunHours]:
    """Hours of direct sun a day of several pieces of ground.

    Parameters
    ----------
    receivers : iterable of Receiver
        Those with an empty shape are left out of the result.
    place : Place
    days : sequence of (date, float)
        See :func:`planner.light.sample_days.sample_days` and :func:`planner.light.sample_days.on_day`.
    casters_on : callable
        Returns all casters on a day.
    step : float
        Time step. [min]
    cancelled : callable, optional
        Called between batches of beams; once it returns true, the result is empty.

    Returns
    -------
    dict of str to AreaSunHours
        By the receivers' keys.
    """
    lit = [receiver for receiver in receivers if not receiver.shape.is_empty]
    if not lit or not days:
        return {}
    measured = [rasterize(receiver.shape) for receiver in lit]
    sums: list[Floats] = [np.zeros(int(inside.sum())) for _, inside in measured]
    unshaded = 0.0
    for day, share in days:
        light, casters = beams(place, day, step), casters_on(day)
        rasters = [m[0].at_height(r.height_on(day)) for m, r in zip(measured, lit, strict=True)]
        hours = Shading(casters, rasters, apart=pairs_apart(casters, lit)).hours(light, cancelled)
        if hours is None:
            return {}
        for total, cells, (_, inside) in zip(sums, hours, measured, strict=True):
            total += share * cells[inside]
        unshaded += share * light.total
    return {
        receiver.key: AreaSunHours(float(total.min()), float(total.mean()), float(total.max()), unshaded)
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

    Returns
    -------
    ndarray (n,)
        [h]
    """
    places = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    rasters = [point_raster(x, y, height) for x, y in places.tolist()]
    total = np.zeros(len(places))
    for day, share in days if rasters else ():
        cells = Shading(casters_on(day), rasters).hours(beams(place, day, step)) or []
        total += share * np.array([cell[0, 0] for cell in cells])
    return total
