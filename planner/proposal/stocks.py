"""What there is only so much of while plants are raised and covered: ground on benches, and covers in the shed.

Both are counted by their area.  Whole trays and the pieces of a sheet take more now and then: the checks of benches and the list
of materials say so.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from planner.amounts.bench import capacity, on_bench_in_year
from planner.amounts.raising import Standing, raised
from planner.crops.containers import tray_area
from planner.garden import Planting
from planner.garden.edits.common import fresh_id, put
from planner.plan import Plan
from planner.proposal.puzzle import Use

#: Units in a square metre: areas are whole numbers of square decimetres.
UNITS = 100
#: Kinds of covers that are cut from sheets.
SHEETS = ("fleece", "netting", "film")


@dataclass
class Stocks:
    """What of a garden limits a layout.

    Attributes
    ----------
    plan : Plan
        Of the garden with all that stays where it is.
    limits : list of int
        Of each resource, what is left of it at the busiest time of what stays. [dm2]
    """

    plan: Plan
    limits: list[int] = field(default_factory=list)
    _resources: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        weights, garden = self.plan.garden.site.layout_weights, self.plan.garden
        if weights.within_benches:
            ground = sum(capacity(bench) for bench in garden.benches) * tray_area()
            there = [part for one in on_bench_in_year(self.plan) for part in one.standings]
            self._add("bench", math.floor(ground * UNITS) - _most(_bench_uses(0, there)))
        if weights.within_covers:
            for kind in SHEETS:
                area = sum(
                    one.number * (one.length or 0.0) * (one.width or 0.0)
                    for one in garden.shed
                    if one.kind == kind and not one.sold
                )
                lying = [use for one in self.plan.plantings for use in self._cover_uses(one, kind, 0)]
                self._add(kind, math.floor(area * UNITS + 1e-6) - _most(lying))

    def _add(self, name: str, limit: int) -> None:
        self._resources[name] = len(self.limits)
        self.limits.append(max(0, limit))

    def uses(self, planting: Planting) -> tuple[Use, ...]:
        """What a planting takes of it.

        Parameters
        ----------
        planting : Planting
            Not in the garden; on its plot.
        """
        found: list[Use] = []
        if "bench" in self._resources:
            garden = self.plan.garden
            tried = planting.with_(id=fresh_id(garden, "p"))
            one = raised(self.plan.what_if(put(garden, plantings=(*garden.plantings, tried))), tried)
            found += _bench_uses(self._resources["bench"], one.standings if one is not None else ())
        for kind in SHEETS:
            if kind in self._resources:
                found += self._cover_uses(planting, kind, self._resources[kind])
        return tuple(found)

    def _cover_uses(self, planting: Planting, kind: str, resource: int) -> Iterator[Use]:
        """Its covers of a kind, as large as its plot."""
        span = self.plan.span_of(planting)
        for cover in self.plan.dates(planting).covers:
            if cover.kind == kind:
                last = cover.off.day if cover.off is not None else span.last
                area = math.ceil(self.plan.trial(planting).area * UNITS)
                yield Use(resource, cover.on.day.toordinal(), last.toordinal(), area)


def _bench_uses(resource: int, standings: Iterable[Standing]) -> list[Use]:
    return [
        Use(resource, one.first.toordinal(), one.last.toordinal(), math.ceil(one.share * UNITS))
        for one in standings
    ]


def _most(uses: Iterable[Use]) -> int:
    """The most that is in use on any day."""
    there = list(uses)
    days: Mapping[int, None] = dict.fromkeys(one.first for one in there)
    return max((sum(one.amount for one in there if one.first <= day <= one.last) for day in days), default=0)
