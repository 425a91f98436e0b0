"""The casters of a day, by the structure, bed or planting that they belong to, as they follow edits."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

import numpy as np

from planner.lazy import lazy_property
from planner.light import Caster
from planner.light.beams import Beams
from planner.sun import Floats

#: Rectangles are so much larger: rounding must not lose a shadow that touches. [m]
_TOUCHING = 1e-6
#: Things whose casters may differ from those of the table before it is made anew.
MOST_BESIDE = 60


class CasterTable:
    """Casters with the rectangles of their footprints.

    Parameters
    ----------
    by_thing : mapping of str to tuple of Caster
        By the ids of what they belong to; what casts nothing may be left out.
    """

    def __init__(self, by_thing: Mapping[str, tuple[Caster, ...]]) -> None:
        self.by_thing = by_thing

    @lazy_property
    def _rows(self) -> tuple[list[str], list[Caster], Floats, Floats]:
        """Thing, caster, bounds and top of each of them. [m]"""
        pairs = [(key, caster) for key, there in self.by_thing.items() for caster in there]
        bounds = np.array([caster.bounds for _, caster in pairs], dtype=np.float64).reshape(-1, 4)
        tops = np.array([caster.top for _, caster in pairs], dtype=np.float64)
        return [key for key, _ in pairs], [caster for _, caster in pairs], bounds, tops

    def near(self, area: Sequence[float], lowest: float, beams: Beams) -> list[tuple[str, Caster]]:
        """Those whose shadow can fall on a rectangle, with their things; see :meth:`DayCasters.near`."""
        keys, casters, bounds, tops = self._rows
        high = np.maximum(tops - lowest, 0.0)
        near = high > 0
        for axis in (0, 1):
            away = -beams.toward[:, axis]
            least, most = min(0.0, float(away.min())), max(0.0, float(away.max()))
            near &= bounds[:, axis] + high * least <= area[axis + 2] + _TOUCHING
            near &= bounds[:, axis + 2] + high * most >= area[axis] - _TOUCHING
        return [(keys[number], casters[number]) for number in np.flatnonzero(near).tolist()]


class DayCasters:
    """All casters of a day.

    Parameters
    ----------
    order : callable
        Ids of all structures, beds and plantings that are there, in the order of the garden.
    table : CasterTable
    beside : mapping of str to tuple of Caster
        Of the things whose casters are not those in the table.
    """

    def __init__(
        self,
        order: Callable[[], Iterable[str]],
        table: CasterTable,
        beside: Mapping[str, tuple[Caster, ...]],
    ) -> None:
        self._order, self._table, self._beside = order, table, beside

    @lazy_property
    def all(self) -> tuple[Caster, ...]:
        """All of them, in the order of the garden."""
        return tuple(caster for key in self._order() for caster in self.of(key))

    def of(self, thing: str) -> tuple[Caster, ...]:
        """Those of a structure, bed or planting."""
        found = self._beside.get(thing)
        return found if found is not None else self._table.by_thing.get(thing, ())

    def after(self, order: Callable[[], Iterable[str]], new: Mapping[str, tuple[Caster, ...]]) -> DayCasters:
        """The casters after an edit.

        Parameters
        ----------
        order : callable
            As of these, of the edited garden.
        new : mapping
            Casters of the things that may have others than before.
        """
        others = {key: there for key, there in new.items() if self.of(key) != there}
        beside = {**self._beside, **others}
        if len(beside) <= MOST_BESIDE:
            return DayCasters(order, self._table, beside)
        there = {**self._table.by_thing, **beside}
        return DayCasters(order, CasterTable({key: there[key] for key in order() if there.get(key)}), {})

    def near(self, area: Sequence[float], lowest: float, beams: Beams) -> tuple[Caster, ...]:
        """Those whose shadow can fall on a rectangle; others may be among them.

        Parameters
        ----------
        area : sequence of float
            Left, low, right, high. [m]
        lowest : float
            Least height above the ground at which light is asked for. [m]
        beams : Beams
            Of the day.
        """
        if not len(beams.hours):
            return ()
        beside = self._beside
        near = [one for key, one in self._table.near(area, lowest, beams) if key not in beside]
        return (*near, *(one for there in beside.values() for one in there))
