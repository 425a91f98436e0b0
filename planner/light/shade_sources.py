"""Sources of the shade on a piece of ground: hours of direct sun that each caster costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.light.beams import STEP, Beams, beams
from planner.light.casters import Caster
from planner.light.place import Place
from planner.light.raster import CELL, Raster, rasterize
from planner.light.receiver import CastersOn, Receiver
from planner.light.sample_days import Days
from planner.light.shading import Shading, clear
from planner.light.shading_arrays import Pairs


@dataclass(frozen=True)
class Shade:
    """Loss of direct sun by one caster.

    Attributes
    ----------
    key, name : str
        Of the caster.
    hours : float
        Hours a day that the ground would gain without it. [h]
    alone : float
        Hours a day that it would cost as the only caster: more than ``hours`` where shadows overlap. [h]
    """

    key: str
    name: str
    hours: float
    alone: float


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
    """Find the casters that shade a piece of ground, the largest loss first.

    The loss by a caster is the gain if it is left out.  If two casters shade the same ground at the same time,
    leaving out one of them gains nothing; ``alone`` still shows both.

    Parameters
    ----------
    receiver : Receiver
    place, days, casters_on, step
        As for :func:`planner.light.hours.hours_over`.
    cell : float
        Greatest side of the cells by which it is measured. [m]
    least : float
        Least loss alone, on the mean of the days, that is reported; no caster left out by this would gain more. [h]
    weighed : bool
        Whether hours are weighted by the height of the sun.

    Returns
    -------
    tuple of Shade
    """
    if receiver.shape.is_empty:
        return ()
    raster, inside = rasterize(receiver.shape, cell)
    names: dict[str, str] = {}
    alone: dict[str, float] = {}
    gained: dict[str, float] = {}
    for day, share in days:
        level = raster.at_height(receiver.height_on(day))
        casters = [caster for caster in casters_on(day) if caster.key not in receiver.leaving_out]
        light = beams(place, day, step)
        light = light.weighed if weighed else light
        casters = [casters[number] for number in Shading(casters, [level]).meeting(light)]
        names |= {caster.key: caster.name for caster in casters}
        ground = _GroundOnDay(casters, level, inside, light)
        for key, hours in ground.losses().items():
            alone[key] = alone.get(key, 0.0) + share * hours.alone
            gained[key] = gained.get(key, 0.0) + share * hours.gained
    reported = [key for key, hours in alone.items() if hours >= least]
    shades = (Shade(key, names[key], gained[key], alone[key]) for key in reported)
    return tuple(sorted(shades, key=lambda shade: (-shade.hours, -shade.alone, shade.key)))


class _Loss(NamedTuple):
    """Hours lost to a key if it were the only caster, and hours gained without it. [h]"""

    alone: float
    gained: float


@dataclass(frozen=True, eq=False)
class _GroundOnDay:
    """A piece of ground on a day with all casters that can shade it."""

    casters: Sequence[Caster]
    level: Raster
    inside: NDArray[np.bool_]
    light: Beams

    def losses(self) -> dict[str, _Loss]:
        """Mean hours that each key costs.

        Depths of shadows add up: that of all without one is the sum less that one, so each caster is filled once.
        """
        numbers: dict[str, int] = {}
        for caster in self.casters:
            numbers.setdefault(caster.key, len(numbers))
        if not numbers:
            return {}
        row = np.array([numbers[caster.key] for caster in self.casters])
        order = np.argsort(row, kind="stable")
        shading = Shading(self.casters, [self.level] * len(numbers), Pairs(row[order], order))
        alone, gained = np.zeros(len(numbers)), np.zeros(len(numbers))
        for part, depths in shading.depths(self.light):
            deep, hours = depths[:, :, self.inside], self.light.hours[part]
            every = deep.sum(axis=1, keepdims=True, dtype=np.int32)
            alone += hours @ (1 - clear(deep)).mean(axis=2, dtype=np.float64)
            gained += hours @ (clear(every - deep) - clear(every)).mean(axis=2, dtype=np.float64)
        pairs = zip(numbers, alone.tolist(), gained.tolist(), strict=True)
        # Two that let nothing through let two in a thousand million through: that is no loss of either.
        return {key: _Loss(max(0.0, round(loss, 6)), max(0.0, round(gain, 6))) for key, loss, gain in pairs}
