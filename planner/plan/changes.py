"""Where two plans of one garden differ: what follows an edit brings in step only the beds that it concerns."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Protocol, TypeVar

import numpy as np
import shapely

from planner.garden import Bed, Done, Structure
from planner.ground.arches import AT_THE_ARCH
from planner.ground.shapes import outline_radius, plan_polygon
from planner.plan.cache import unchanged
from planner.plan.plan import Plan


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


def same_world(before: Plan, after: Plan) -> bool:
    """Whether growing year, crops, site, climate and own varieties are the same: all plantings depend on them."""
    old, new = before.garden, after.garden
    return (
        before.year == after.year
        and before.catalogue is after.catalogue
        and old.site is new.site
        and old.climate is new.climate
        and unchanged(old.varieties, new.varieties)
    )


def recorded_anew(before: Collection[Done], after: Collection[Done]) -> set[str]:
    """Ids of the plantings of which the records differ."""
    old, new = {id(one): one for one in before}, {id(one): one for one in after}
    return {old[key].planting for key in old.keys() - new} | {new[key].planting for key in new.keys() - old}


def changed_beds(before: Plan, after: Plan) -> set[str] | None:
    """Ids of the beds that differ, in which a planting does, or at which a structure does; None where any of them may.

    Parameters
    ----------
    before, after : Plan
    """
    old, new = before.garden, after.garden
    if not same_world(before, after):
        return None
    pairs = differing(old.plantings, new.plantings)
    beds = {one.bed for pair in pairs.values() for one in pair if one is not None}
    recorded = recorded_anew(old.records, new.records)
    beds |= {one.bed for key in recorded if (one := new.plantings_by_id.get(key)) is not None}
    beds |= differing(old.beds, new.beds).keys()
    if not unchanged(old.structures, new.structures):
        moved = differing(old.structures, new.structures).values()
        beds |= _beds_at(new.beds, [one for pair in moved for one in pair if one is not None])
    return beds


def _beds_at(beds: Sequence[Bed], structures: Sequence[Structure]) -> set[str]:
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
