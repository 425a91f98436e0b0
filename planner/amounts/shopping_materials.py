"""Covers, supports and what is spread, to buy."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal, cast, get_args

from planner.amounts.covers import Covers, covers
from planner.amounts.drip import drip_jobs, drip_plantings
from planner.amounts.materials import ANY, Cutting, Material, Sort, materials_of, may_be
from planner.amounts.packs import Bought, Pack, best_packs
from planner.amounts.sharing import Job, Pile, first_uses
from planner.amounts.shopping_items import (
    Item,
    Purchase,
    Served,
    Unit,
    in_order,
    to_buy_of,
    when_needed,
)
from planner.amounts.sold_sizes import bag_litres, bars_sold
from planner.amounts.spread import BAGGED, Spread, spreads
from planner.amounts.supports import Supports, supports
from planner.garden import ShedItem
from planner.garden.materials import MaterialKind, SpreadKind
from planner.plan import Plan
from planner.words import say

#: Lengths that differ by no more are the same. [m]
_SAME = 0.002


def material_items(plan: Plan) -> list[Item]:
    """What covers, supports and drip lines take: sheets, bars, string and what is counted."""
    laid, put_up = covers(plan), supports(plan)
    of_job = {one.key: tuple(part.planting.id for part in one.parts) for one in laid.laid}
    of_job |= {one.key: (one.planting.id,) for one in put_up.put_up}
    of_job |= drip_plantings(plan)
    found = [item for one in _together(plan, laid, put_up) for item in _items_of(plan, one, of_job)]
    return [*found, *_string(plan, put_up)]


def _together(plan: Plan, laid: Covers, put_up: Supports) -> list[Material]:
    """The materials of covers and supports; what both take is shared between them."""
    both: dict[MaterialKind, list[Job]] = {
        kind: [*laid.jobs[kind], *put_up.jobs[kind]] for kind in laid.jobs if kind in put_up.jobs
    }
    found = [one for one in (*laid.materials, *put_up.materials) if one.kind not in both]
    found += materials_of(plan, both)
    found += materials_of(plan, drip_jobs(plan))
    order = get_args(MaterialKind)
    return sorted(found, key=lambda one: order.index(one.kind))


def _items_of(plan: Plan, material: Material, of_job: Mapping[str, tuple[str, ...]]) -> Iterable[Item]:
    """A line for each sort that is wanted of a material."""
    ordered_items = {one.id for one in plan.garden.shed if one.ordered}
    found: dict[Sort, _Wanted] = {}
    for pile in material.piles:
        of_pile = _sources(pile, ordered_items)
        for job, number in first_uses(pile):
            of_sort = found.setdefault(job.sort if isinstance(job.sort, Sort) else ANY, _Wanted())
            of_sort.take(of_pile, number, job.first)
            plantings = of_job[job.key]
            of_sort.serves += [Served(key, number / len(plantings), job.first) for key in plantings]
    for sort, wanted in found.items():
        yield _reused_item(plan, material, sort, wanted)


_Source = Literal["on hand", "ordered", "new"]


def _sources(pile: Pile, ordered_items: Container[str]) -> list[tuple[_Source, int]]:
    """Where the pieces of a pile come from, and how many; what is there is used first."""
    if pile.origin != "new":
        return [("ordered" if pile.key in ordered_items else "on hand", pile.number)]
    bought = pile.number - pile.cut - pile.cut_of_order
    return [("on hand", pile.cut), ("ordered", pile.cut_of_order), ("new", bought)]


@dataclass
class _Wanted:
    """Pieces of a sort that are wanted: how many and by which day, by where they come from, and what they serve."""

    numbers: dict[_Source, int] = field(default_factory=lambda: {"on hand": 0, "ordered": 0, "new": 0})
    days: dict[_Source, dt.date] = field(default_factory=dict)
    serves: list[Served] = field(default_factory=list)

    def take(self, sources: list[tuple[_Source, int]], number: int, day: dt.date) -> None:
        """Take pieces for a day, and take them down where they come from."""
        for place, (source, there) in enumerate(sources):
            taken = min(number, there)
            if taken:
                sources[place] = source, there - taken
                number -= taken
                self.numbers[source] += taken
                self.days[source] = min(day, self.days.get(source, day))


def _reused_item(plan: Plan, material: Material, sort: Sort, wanted: _Wanted) -> Item:
    cuttings = tuple(one for one in material.cuttings if one.sort == sort)
    on_hand, ordered, new = (wanted.numbers[source] for source in ("on hand", "ordered", "new"))
    sold = [one for one in plan.garden.shed if one.sold and one.kind == material.kind and may_be(one, sort)]
    purchases = _of_cuttings(material, sort, sold) if cuttings else _counted(new, sold)
    return Item(
        group="covers and supports",
        kind=material.kind,
        unit="pieces",
        needed=on_hand + ordered + new,
        on_hand=on_hand,
        ordered=ordered,
        to_buy=new,
        by=wanted.days.get("new" if new else "ordered"),
        serves=in_order(wanted.serves),
        purchases=purchases,
        sort=sort,
        cuttings=cuttings,
        estimated=bool(purchases) and not sold,
        missing=_too_long(material, cuttings),
    )


def _too_long(material: Material, cuttings: Iterable[Cutting]) -> tuple[str, ...]:
    """That pieces are longer than any that is sold, where some are."""
    if not any(one.cuts.too_long for one in cuttings):
        return ()
    text = say(
        "Of {material}, pieces are wanted that are longer than any that is sold; order them at their length, or enter in the shed what you can buy",
        material=material.kind,
    )
    return (text,)


def _counted(number: int, sold: Sequence[ShedItem]) -> tuple[Purchase, ...]:
    packs = [Pack(one.id, max(1, one.number), one.price, one.shop) for one in sold]
    return tuple(map(Purchase.of, best_packs(number, packs)))


def _of_cuttings(material: Material, sort: Sort, sold: Sequence[ShedItem]) -> tuple[Purchase, ...]:
    """The rolls, bars and poles that the cut lists of a sort say are to be bought."""
    found = []
    for cutting in material.cuttings:
        if cutting.sort != sort:
            continue
        for bar, number in cutting.cuts.bars(on_hand=False).items():
            length = bar / 1000
            packs = [
                Pack(one.id, max(1, one.number), one.price, one.shop)
                for one in sold
                if abs((one.length or 0.0) - length) <= _SAME
                and (not cutting.width or abs((one.width or 0.0) - cutting.width) <= _SAME)
            ]
            bought = best_packs(number, packs) or (Bought(Pack("", 1), number),)
            found += [Purchase.of(one, length, cutting.width) for one in bought]
    return tuple(found)


def _string(plan: Plan, found: Supports) -> list[Item]:
    """String is used up: so many metres."""
    serves = in_order(
        Served(one.planting.id, one.string, one.first, _is_done(plan, one.planting.id, "support up"))
        for one in found.put_up
        if one.string and one.first >= plan.span.first
    )
    if not serves:
        return []
    items = [one for one in plan.garden.shed if one.kind == "string"]
    on_hand, ordered = (
        math.fsum((one.length or 0.0) * one.number for one in items if not one.sold and one.ordered is coming)
        for coming in (False, True)
    )
    needed = math.fsum(one.amount for one in serves)
    to_buy = to_buy_of(needed, on_hand + ordered, serves)
    sold = [one for one in items if one.sold]
    packs = [Pack(one.id, (one.length or 0.0) * max(1, one.number), one.price, one.shop) for one in sold]
    usual = bars_sold("string", plan.garden.shed, plan.garden.site.units)
    packs = packs or [Pack("", length) for length in usual]
    return [
        Item(
            group="covers and supports",
            kind="string",
            unit="metres",
            needed=needed,
            on_hand=on_hand,
            ordered=ordered,
            to_buy=to_buy,
            by=when_needed(serves, on_hand, ordered, to_buy),
            serves=serves,
            purchases=tuple(map(Purchase.of, best_packs(to_buy, packs))),
            estimated=bool(to_buy) and not sold,
        )
    ]


def _is_done(plan: Plan, planting: str, work: str) -> bool:
    return any(done.kind == work for done in plan.garden.done(plan.garden.plantings_by_id[planting]))


def ground_items(plan: Plan) -> list[Item]:
    """What is spread in the growing year, by volume and by mass."""
    groups: dict[tuple[SpreadKind, Unit], list[Spread]] = {}
    for one in spreads(plan):
        groups.setdefault((one.kind, "litres" if one.litres is not None else "grams"), []).append(one)
    order = get_args(SpreadKind)
    keys = sorted(groups, key=lambda key: (order.index(key[0]), key[1] != "litres"))
    return [_spread_item(plan, kind, unit, groups[kind, unit]) for kind, unit in keys]


def _spread_item(plan: Plan, kind: SpreadKind, unit: Unit, parts: Sequence[Spread]) -> Item:
    serves = in_order(
        Served(
            one.planting.id if one.planting is not None else one.bed.id,
            cast("float", one.litres if unit == "litres" else one.grams),
            one.day,
            one.planting is not None
            and one.source != "dressing"
            and _is_done(plan, one.planting.id, "mulch"),
        )
        for one in parts
    )
    items = [one for one in plan.garden.shed if one.kind == kind]
    on_hand, ordered = (
        math.fsum(_held(one, unit) for one in items if not one.sold and one.ordered is coming)
        for coming in (False, True)
    )
    needed = math.fsum(one.amount for one in serves)
    to_buy = to_buy_of(needed, on_hand + ordered, serves)
    packs = [
        Pack(one.id, size, one.price, one.shop) for one in items if one.sold and (size := _held(one, unit))
    ]
    sold = bool(packs)
    if unit == "litres" and not packs and kind in BAGGED:
        packs = [Pack("", bag_litres(kind, plan.garden.shed))]
    return Item(
        group="ground",
        kind=kind,
        unit=unit,
        needed=needed,
        on_hand=on_hand,
        ordered=ordered,
        to_buy=to_buy,
        by=when_needed(serves, on_hand, ordered, to_buy),
        serves=serves,
        purchases=tuple(map(Purchase.of, best_packs(to_buy, packs))),
        estimated=bool(to_buy) and bool(packs) and not sold,
    )


def _held(item: ShedItem, unit: Unit) -> float:
    """What an item holds in all; what has its volume and its mass is taken by volume. [l], [g]"""
    number = max(1, item.number) if item.sold else item.number
    if unit == "litres":
        return (item.litres or 0.0) * number
    return (item.grams or 0.0) * number if item.litres is None else 0.0
