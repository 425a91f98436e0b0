"""Receivers: ground or plants on which light falls."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.light.casters import Caster

#: Returns all casters on a day.
CastersOn = Callable[[dt.date], Sequence[Caster]]


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
        Keys of casters that do not count, as the plants on it.
    """

    key: str
    shape: shapely.Geometry
    height: float | Callable[[dt.date], float] = 0.0
    leaving_out: frozenset[str] = field(default=frozenset())

    def height_on(self, day: dt.date) -> float:
        """Height on a day. [m]"""
        return self.height(day) if callable(self.height) else self.height


def counted_pairs(casters: Sequence[Caster], receivers: Sequence[Receiver]) -> NDArray[np.bool_]:
    """Which casters count for which receivers.

    Parameters
    ----------
    casters : sequence of Caster
    receivers : sequence of Receiver

    Returns
    -------
    ndarray (receivers, casters) of bool
    """
    counts = np.ones((len(receivers), len(casters)), dtype=bool)
    for row, receiver in enumerate(receivers):
        if receiver.leaving_out:
            counts[row] = [caster.key not in receiver.leaving_out for caster in casters]
    return counts
