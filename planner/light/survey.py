"""Mean hours of direct sun of many pieces of ground over days of their own.

First it is found which casters can shade which ground on a day.  The light of that ground on that day
depends on those casters alone (:class:`GroundOnDay`), so it can be cached under them: an edit costs what
the shadows of the edited thing reach.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.light.beams import STEP, beams
from planner.light.casters import Caster
from planner.light.place import Place
from planner.light.raster import Raster, rasterize
from planner.light.receiver import Receiver, pairs_apart
from planner.light.sample_days import Days
from planner.light.shading import Shading
from planner.light.shading_arrays import Pairs


class Cells(NamedTuple):
    """The cells by which a piece of ground is measured.

    Attributes
    ----------
    raster : Raster
    inside : ndarray of bool
        Which of them lie in it.  Not writeable.
    """

    raster: Raster
    inside: NDArray[np.bool_]


class GroundOnDay(NamedTuple):
    """Everything the light of a piece of ground on one day depends on.

    Attributes
    ----------
    cells : Cells
    height : float
        Above the level ground. [m]
    place : Place
    day : date
    step : float
        [min]
    casters : tuple of Caster
        Those that can shade it on that day.
    """

    cells: Cells
    height: float
    place: Place
    day: dt.date
    step: float
    casters: tuple[Caster, ...]


class DayLight(NamedTuple):
    """Mean hours of direct sun of a piece of ground on a day.

    Attributes
    ----------
    hours : float
        [h]
    weighed : float
        The same, weighed by the height of the sun (:attr:`planner.light.beams.Beams.weighed`). [h]
    """

    hours: float
    weighed: float


#: Returns all casters that can shade some rasters on a day; others may be among them.
CastersNear = Callable[[dt.date, Sequence[Raster]], Sequence[Caster]]
#: Gives the light of several pieces of ground, each with its key.
LightOf = Callable[[Sequence[tuple[str, GroundOnDay]]], Sequence[DayLight]]


class GroundOverDays(NamedTuple):
    """A piece of ground, and the days over which its light is wanted.

    Attributes
    ----------
    receiver : Receiver
    cells : Cells
        Of the receiver's shape, see :func:`cells_of`.
    days : Days
    """

    receiver: Receiver
    cells: Cells
    days: Days


@dataclass(frozen=True)
class SunHours:
    """Mean hours of direct sun a day of a piece of ground.

    Attributes
    ----------
    hours : float
        [h]
    weighed : float
        The same, weighed by the height of the sun (:attr:`planner.light.beams.Beams.weighed`). [h]
    unshaded : float
        Where nothing shades, weighed or not. [h]
    shading : tuple of tuple of Caster
        For each of its days, what can shade it.
    days : tuple of (float, float)
        For each of its days, the share of the span that it represents, and the share of its sun, weighed by its height,
        that is left.
    """

    hours: float
    weighed: float
    unshaded: float
    shading: tuple[tuple[Caster, ...], ...]
    days: tuple[tuple[float, float], ...] = ()

    def darkest(self, part: float) -> float:
        """Share of the sun, weighed by its height, that is left in the darkest part of the days."""
        rest, total = part, 0.0
        for span, share in sorted(self.days, key=lambda day: day[1]):
            used = min(span, rest)
            total, rest = total + used * share, rest - used
        return total / max(part - rest, 1e-9) if self.days else 1.0


def cells_of(shape: shapely.Geometry, cell: float) -> Cells:
    """The cells by which a shape is measured.

    Parameters
    ----------
    shape : shapely.Geometry
        On the plan, not empty. [m]
    cell : float
        Side of a cell, at most. [m]
    """
    raster, inside = rasterize(shape, cell)
    inside.flags.writeable = False
    return Cells(raster, inside)


def light_on_days(grounds: Sequence[GroundOnDay]) -> list[DayLight]:
    """The light of several pieces of ground, each on its day; those of one day in one go.

    Parameters
    ----------
    grounds : sequence of GroundOnDay

    Returns
    -------
    list of DayLight
        In the same order.
    """
    found: dict[int, DayLight] = {}
    groups: dict[tuple[Place, dt.date, float], list[int]] = {}
    for number, ground in enumerate(grounds):
        groups.setdefault((ground.place, ground.day, ground.step), []).append(number)
    for (place, day, step), numbers in groups.items():
        light = beams(place, day, step)
        shaded = [number for number in numbers if grounds[number].casters]
        found |= dict.fromkeys(numbers, DayLight(light.total, light.total))
        if not shaded:
            continue
        # In the order of the plan: opacities are multiplied in it.
        casters = list({id(one): one for number in shaded for one in grounds[number].casters}.values())
        place_of = {id(caster): column for column, caster in enumerate(casters)}
        pairs = Pairs(
            np.repeat(np.arange(len(shaded)), [len(grounds[number].casters) for number in shaded]),
            np.array([place_of[id(one)] for number in shaded for one in grounds[number].casters]),
        )
        rasters = [grounds[number].cells.raster.at_height(grounds[number].height) for number in shaded]
        weights = np.stack([light.hours, light.weighed.hours])
        sums = Shading(casters, rasters, pairs).sums(light, weights) or []
        for number, parts in zip(shaded, sums, strict=True):
            plain, weighed = (float(part[grounds[number].cells.inside].mean()) for part in parts)
            found[number] = DayLight(plain, weighed)
    return [found[number] for number in range(len(grounds))]


def _each(items: Sequence[tuple[str, GroundOnDay]]) -> Sequence[DayLight]:
    return light_on_days([ground for _, ground in items])


def survey(
    grounds: Iterable[GroundOverDays],
    place: Place,
    casters_near: CastersNear,
    step: float = STEP,
    light_of: LightOf = _each,
) -> dict[str, SunHours]:
    """Mean hours of direct sun a day of each piece of ground over days of its own.

    Parameters
    ----------
    grounds : iterable of GroundOverDays
        Those without days are left out of the result.
    place : Place
    casters_near : callable
        All that can shade some rasters on a day; the identical objects as long as they are unchanged.
    step : float
        [min]
    light_of : callable, optional
        Gives the light of pieces of ground on a day: a cache, or by default :func:`light_on_days`.

    Returns
    -------
    dict of str to SunHours
        By the receivers' keys.
    """
    lit = [ground for ground in grounds if ground.days]
    by_day: dict[dt.date, list[GroundOverDays]] = {}
    for ground in lit:
        for day, _ in ground.days:
            by_day.setdefault(day, []).append(ground)
    on_days: dict[tuple[str, dt.date], tuple[tuple[Caster, ...], DayLight]] = {}
    for day, there in by_day.items():
        items = _shaded_on(there, place, day, casters_near, step)
        for (key, on_day), light in zip(items, light_of(items), strict=True):
            on_days[key, day] = on_day.casters, light
    return {ground.receiver.key: _mean(ground, place, step, on_days) for ground in lit}


def _shaded_on(
    there: Sequence[GroundOverDays], place: Place, day: dt.date, casters_near: CastersNear, step: float
) -> list[tuple[str, GroundOnDay]]:
    """Each piece of ground with the casters that can shade it on a day."""
    heights = [ground.receiver.height_on(day) for ground in there]
    rasters = [ground.cells.raster.at_height(high) for ground, high in zip(there, heights, strict=True)]
    casters = casters_near(day, rasters)
    apart = pairs_apart(casters, [ground.receiver for ground in there])
    meeting = Shading(casters, rasters, apart=apart).meeting_each(beams(place, day, step))
    return [
        (
            ground.receiver.key,
            GroundOnDay(ground.cells, high, place, day, step, tuple(casters[i] for i in met)),
        )
        for ground, high, met in zip(there, heights, meeting, strict=True)
    ]


def _mean(
    ground: GroundOverDays,
    place: Place,
    step: float,
    on_days: dict[tuple[str, dt.date], tuple[tuple[Caster, ...], DayLight]],
) -> SunHours:
    key = ground.receiver.key
    days = [(share, beams(place, day, step).total, *on_days[key, day]) for day, share in ground.days]
    return SunHours(
        hours=sum(share * light.hours for share, _, _, light in days),
        weighed=sum(share * light.weighed for share, _, _, light in days),
        unshaded=sum(share * total for share, total, _, _ in days),
        shading=tuple(casters for _, _, casters, _ in days),
        days=tuple((share, light.weighed / max(total, 1e-9)) for share, total, _, light in days),
    )
