"""Trays, pots and potting mix to buy: as many trays and pots as are on the benches at once at most."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planner.amounts.bench import OnBench
from planner.amounts.materials import came_in_year
from planner.amounts.packs import Pack, best_packs
from planner.amounts.raising import mix_to_have, raisings
from planner.amounts.shopping_items import Item, Purchase, Served, in_order, to_buy_of, when_needed
from planner.amounts.trays_in_use import benches_of, counts_in_use, in_use_on
from planner.crops.containers import Container
from planner.garden import ShedItem
from planner.garden.materials import RaisingKind
from planner.plan import Plan
from planner.season.raising import Fill

#: Pots that differ by no more in their width are the same. [m]
SAME_POT = 0.005


class _Vessel(NamedTuple):
    """What is bought for a container: a tray of cells, a pot of a width [m], or a tray for seedlings or blocks."""

    kind: RaisingKind
    cells: int = 0
    width: float = 0.0

    @classmethod
    def of(cls, container: Container) -> _Vessel:
        """What a container is bought as; blocks stand in trays."""
        if container.kind == "cells":
            return cls("cell tray", cells=container.per_tray)
        if container.kind == "pots":
            return cls("pot", width=round(container.width, 3))
        return cls("seed tray")

    def places(self, container: Container) -> int:
        """Plants to one of them."""
        return 1 if self.kind == "pot" else container.per_tray

    def is_one(self, item: ShedItem) -> bool:
        """Whether an item of the shed is of this kind and size."""
        return (
            item.kind == self.kind
            and (not self.cells or item.cells == self.cells)
            and (not self.width or abs((item.width or 0.0) - self.width) <= SAME_POT)
        )


def raising_items(plan: Plan) -> list[Item]:
    """What is bought to raise plants in a growing year."""
    return [*_mix(plan), *_vessels(plan)]


def _mix(plan: Plan) -> list[Item]:
    serves = in_order(
        Served(part.planting.id, _loose(fill), fill.day, _begun(plan, part.planting.id))
        for part in raisings(plan)
        for fill in part.fills
    )
    if not serves:
        return []
    needed = sum(one.amount for one in serves)
    items = [one for one in plan.garden.shed if one.kind == "potting mix"]
    on_hand, ordered = (
        sum((one.litres or 0.0) * one.number for one in items if not one.sold and one.ordered is coming)
        for coming in (False, True)
    )
    to_buy = to_buy_of(needed, on_hand + ordered, serves)
    packs = [
        Pack(one.id, (one.litres or 0.0) * max(1, one.number), one.price, one.shop)
        for one in items
        if one.sold
    ]
    return [
        Item(
            group="raising",
            kind="potting mix",
            unit="litres",
            needed=needed,
            on_hand=on_hand,
            ordered=ordered,
            to_buy=to_buy,
            by=when_needed(serves, on_hand, ordered, to_buy),
            serves=serves,
            purchases=tuple(map(Purchase.of, best_packs(to_buy, packs))),
        )
    ]


def _loose(fill: Fill) -> float:
    """Loose mix for what is filled. [l]"""
    return mix_to_have(fill.litres, fill.litres if fill.container.kind == "blocks" else 0.0)


def _begun(plan: Plan, planting: str) -> bool:
    """Whether what is raised is recorded as set out: all its containers were filled."""
    return any(done.kind == "set out" for done in plan.garden.done(plan.garden.plantings_by_id[planting]))


def _vessels(plan: Plan) -> list[Item]:
    groups: dict[_Vessel, list[OnBench]] = {}
    for one in benches_of(plan).placed:
        groups.setdefault(_Vessel.of(one.standing.container), []).append(one)
    return [_vessel_item(plan, vessel, groups[vessel]) for vessel in sorted(groups)]


def _vessel_item(plan: Plan, vessel: _Vessel, placed: Sequence[OnBench]) -> Item:
    first = plan.span.first
    counts = counts_in_use(placed, first, vessel.places)
    fullest = max(counts, key=lambda one: one.number)
    needed = fullest.number
    # What is on the benches since before the year is there, whatever the shed says.
    since = in_use_on([one for one in placed if one.standing.first < first], first, vessel.places)
    items = [one for one in plan.garden.shed if vessel.is_one(one)]
    ordered = sum(one.number for one in items if one.ordered)
    there = [one for one in items if not one.sold and not one.ordered]
    came = sum(one.number for one in there if came_in_year(plan, one))
    on_hand = max(sum(one.number for one in there) - came, since) + came
    to_buy = max(0, needed - on_hand - ordered)
    covered = on_hand + ordered if to_buy else on_hand
    by = next((one.day for one in counts if one.number > covered), None) if to_buy or ordered else None
    packs = [Pack(one.id, max(1, one.number), one.price, one.shop) for one in items if one.sold]
    return Item(
        group="raising",
        kind=vessel.kind,
        unit="pieces",
        needed=needed,
        on_hand=on_hand,
        ordered=ordered,
        to_buy=to_buy,
        by=by,
        serves=_serves(vessel, placed, fullest.day),
        purchases=tuple(map(Purchase.of, best_packs(to_buy, packs))),
        cells=vessel.cells,
        width=vessel.width,
    )


def _serves(vessel: _Vessel, placed: Iterable[OnBench], fullest: dt.date) -> tuple[Served, ...]:
    """What each planting takes on the fullest day, a share of a tray; the others take what is free then."""
    found: dict[str, Served] = {}
    for one in placed:
        standing = one.standing
        share = (
            standing.number / vessel.places(standing.container)
            if standing.first <= fullest <= standing.last
            else 0.0
        )
        before = found.get(standing.planting)
        day = min(standing.first, before.day) if before is not None and before.day else standing.first
        found[standing.planting] = Served(
            standing.planting, share + (before.amount if before is not None else 0.0), day
        )
    return in_order(found.values())
