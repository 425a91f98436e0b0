"""How much was picked of each crop, by some records."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from planner.garden.records import PickedRecord, RecordBase
from planner.garden.weight_words import weight_words
from planner.plan import Plan
from planner.words import join_list, say, say_count

#: So many crops are named, the heaviest first.
MOST_NAMED = 6


def picked_by_crop(plan: Plan, records: Iterable[RecordBase]) -> dict[str, float]:
    """What was picked and weighed, by the keys of crops, the heaviest first.  [g]

    Parameters
    ----------
    plan : Plan
    records : iterable of RecordBase
        Those that are no picking, or give no weight, are left out.
    """
    found: dict[str, float] = defaultdict(float)
    plantings = plan.garden.plantings_by_id
    for one in records:
        if isinstance(one, PickedRecord) and one.amount.unit == "g" and one.planting in plantings:
            found[plantings[one.planting].crop] += one.amount.value
    return dict(sorted(found.items(), key=lambda pair: (-pair[1], pair[0])))


def picked_words(plan: Plan, records: Iterable[RecordBase]) -> str:
    """What was picked in words: ``Picked: 12.4 kg; tomato 8.1 kg and carrot 4.3 kg``; empty where nothing was weighed.

    Parameters
    ----------
    plan : Plan
    records : iterable of RecordBase
    """
    sums, units = picked_by_crop(plan, records), plan.garden.site.units
    if not sums:
        return ""
    named = [
        say("{crop} {weight}", crop=plan.catalogue.name_of(crop), weight=weight_words(round(grams), units))
        for crop, grams in list(sums.items())[:MOST_NAMED]
    ]
    if len(sums) == 1:
        return say("Picked: {crops}", crops=named[0])
    more = len(sums) - MOST_NAMED
    if more > 0:
        named.append(say_count("{count} crop more", "{count} crops more", more))
    total = weight_words(round(sum(sums.values())), units)
    return say("Picked: {total}; {crops}", total=total, crops=join_list(named))
