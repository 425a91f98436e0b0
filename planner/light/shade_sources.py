"""Sources of the shade on a piece of ground: hours of direct sun that each caster costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.light.beams import STEP, Beams, beams
from planner.light.casters import Caster
from planner.light.place import Place
from planner.light.raster import CELL, Raster, rasterize
from planner.light.receiver import CastersOn, Receiver
from planner.light.sample_days import Days
from planner.light.shading import Shading
from planner.light.shading_arrays import pairs_of


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
    on_days: list[tuple[float, _GroundOnDay]] = []
    for day, share in days:
        level = raster.at_height(receiver.height_on(day))
        casters = [caster for caster in casters_on(day) if caster.key not in receiver.leaving_out]
        light = beams(place, day, step)
        light = light.weighed if weighed else light
        casters = [casters[number] for number in Shading(casters, [level]).meeting(light)]
        names |= {caster.key: caster.name for caster in casters}
        ground = _GroundOnDay(casters, level, inside, light)
        on_days.append((share, ground))
        for key, hours in ground.loss_alone().items():
            alone[key] = alone.get(key, 0.0) + share * hours
    reported = [key for key, hours in alone.items() if hours >= least]
    gained = dict.fromkeys(reported, 0.0)
    for share, ground in on_days:
        for key, hours in ground.gain_without(reported).items():
            gained[key] += share * hours
    shades = (Shade(key, names[key], gained[key], alone[key]) for key in reported)
    return tuple(sorted(shades, key=lambda shade: (-shade.hours, -shade.alone, shade.key)))


@dataclass(frozen=True, eq=False)
class _GroundOnDay:
    """A piece of ground on a day with all casters that can shade it."""

    casters: Sequence[Caster]
    level: Raster
    inside: NDArray[np.bool_]
    light: Beams

    def _means(self, choices: NDArray[np.bool_]) -> list[float]:
        """Mean hours under each choice of the casters, (choices, casters). [h]"""
        hours = Shading(self.casters, [self.level] * len(choices), pairs_of(choices)).hours(self.light) or []
        return [float(cells[self.inside].mean()) for cells in hours]

    def _casters_of(self, keys: Sequence[str]) -> NDArray[np.bool_]:
        """Which casters belong to each key, (keys, casters)."""
        return np.array([[caster.key == key for caster in self.casters] for key in keys], dtype=bool)

    def loss_alone(self) -> dict[str, float]:
        """Mean hours lost to each key if it were the only caster. [h]"""
        keys = list(dict.fromkeys(caster.key for caster in self.casters))
        if not keys:
            return {}
        means = self._means(self._casters_of(keys))
        return {key: max(0.0, self.light.total - mean) for key, mean in zip(keys, means, strict=True)}

    def gain_without(self, keys: Sequence[str]) -> dict[str, float]:
        """Mean hours gained without each of the keys that have a caster on this day. [h]"""
        present = {caster.key for caster in self.casters}
        keys = [key for key in keys if key in present]
        if not keys:
            return {}
        every = np.ones((1, len(self.casters)), dtype=bool)
        with_all, *means = self._means(np.concatenate([every, ~self._casters_of(keys)]))
        return {key: max(0.0, mean - with_all) for key, mean in zip(keys, means, strict=True)}
