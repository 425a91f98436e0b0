"""Where two plans of one garden differ: what follows an edit brings in step only the beds that it concerns."""

from __future__ import annotations

from collections.abc import Collection

from planner.garden import RecordBase
from planner.plan.cache import unchanged
from planner.plan.differing import beds_at, differing
from planner.plan.plan import Plan


def same_world(before: Plan, after: Plan) -> bool:
    """Whether growing year, crops, site, climate, recorded years and own varieties are the same: all plantings depend on them."""
    old, new = before.garden, after.garden
    return (
        before.year == after.year
        and before.catalogue is after.catalogue
        and old.site is new.site
        and old.climate is new.climate
        and old.weather is new.weather
        and before.assumed == after.assumed
        and unchanged(old.varieties, new.varieties)
    )


def recorded_anew(before: Collection[RecordBase], after: Collection[RecordBase]) -> set[str]:
    """Ids of the plantings of which the records differ that tell of dates."""
    old, new = {id(one): one for one in before}, {id(one): one for one in after}
    differ = [old[key].planting for key in old.keys() - new] + [new[key].planting for key in new.keys() - old]
    return {planting for planting in differ if planting is not None}


def learned_anew(before: Plan, after: Plan) -> set[str]:
    """Ids of the plantings that use other figures of this garden's own years than before."""
    if unchanged(before.learned.used, after.learned.used):
        return set()
    known = before.garden.plantings_by_id
    return {
        one.id
        for one in after.garden.plantings
        if one.id in known and before.learned_by(known[one.id]) != after.learned_by(one)
    }


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
    recorded = recorded_anew(old.telling_records, new.telling_records) | learned_anew(before, after)
    beds |= {one.bed for key in recorded if (one := new.plantings_by_id.get(key)) is not None}
    beds |= differing(old.beds, new.beds).keys()
    if not unchanged(old.structures, new.structures):
        moved = differing(old.structures, new.structures).values()
        beds |= beds_at(new.beds, [one for pair in moved for one in pair if one is not None])
    return beds
