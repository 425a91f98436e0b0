"""Receivers: ground or plants on which light falls."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely

from planner.light.casters import Caster
from planner.light.shading_arrays import Pairs

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


def pairs_apart(casters: Sequence[Caster], receivers: Sequence[Receiver]) -> Pairs:
    """Which casters do not count for which receivers.

    Parameters
    ----------
    casters : sequence of Caster
    receivers : sequence of Receiver
    """
    of_key: dict[str, list[int]] = {}
    for number, caster in enumerate(casters):
        of_key.setdefault(caster.key, []).append(number)
    found = [
        (row, number)
        for row, receiver in enumerate(receivers)
        for key in receiver.leaving_out
        for number in of_key.get(key, ())
    ]
    table = np.array(found, dtype=np.int64).reshape(-1, 2)
    return Pairs(table[:, 0], table[:, 1])
