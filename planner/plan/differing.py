"""Things of two gardens that differ, and the beds at some structures."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Protocol, TypeVar

import numpy as np
import shapely

from planner.garden import Bed, Structure
from planner.ground.arches import AT_THE_ARCH
from planner.ground.shapes import outline_radius, plan_polygon


class _Thing(Protocol):
    @property
    def id(self) -> str: ...


T = TypeVar("T", bound=_Thing)


def differing(before: Collection[T], after: Collection[T]) -> dict[str, tuple[T | None, T | None]]:
    """Things that are new, gone or others than before, by id: before and after.

    Parameters
    ----------
    before, after : collection
        Beds, structures or plantings of a garden.
    """
    if len(before) == len(after):
        pairs = [(a, b) for a, b in zip(before, after, strict=True) if a is not b]
        if all(a.id == b.id for a, b in pairs):
            return {a.id: (a, b) for a, b in pairs}
    old, new = {one.id: one for one in before}, {one.id: one for one in after}
    return {key: (old.get(key), new.get(key)) for key in {**old, **new} if old.get(key) is not new.get(key)}


def beds_at(beds: Sequence[Bed], structures: Sequence[Structure]) -> set[str]:
    """Ids of the beds of which structures may take ground, or whose plants may climb them; some more may be among them."""
    if not beds or not structures:
        return set()
    middles = np.array([bed.outline.center for bed in beds], dtype=np.float64)
    radii = np.array([outline_radius(bed.outline) for bed in beds])
    found: set[str] = set()
    for one in structures:
        reach, ground = max(one.clearance, AT_THE_ARCH) + 0.01, plan_polygon(one.outline)
        left, low, right, high = shapely.bounds(ground)
        beyond = np.maximum(np.maximum((left, low) - middles, middles - (right, high)), 0.0)
        near = np.flatnonzero(np.hypot(*beyond.T) <= radii + reach)
        apart = shapely.distance(shapely.points(middles[near]), ground)
        found |= {beds[number].id for number in near[apart <= radii[near] + reach].tolist()}
    return found
