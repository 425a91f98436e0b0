"""Seed at the turn of the year: what was sown is taken off its lots, and own seed becomes a lot.

Only what is known to have been sown is taken off.  What was planned, and of which nothing says that it was begun, is asked
about and changes no lot.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any

from planner.amounts.begun import begun_in_year, begun_on
from planner.amounts.plants import Amount, amount
from planner.amounts.supply import LotSupply, Supply, take
from planner.garden import Garden, Lot, Planting
from planner.garden import edits as e
from planner.garden.edits.common import put
from planner.garden.planting import SEEDLESS, Work
from planner.garden.records import STAGES, PickedRecord, WorkRecord
from planner.plan import Plan
from planner.season.spans import growing_year
from planner.words import say

#: Work that may be done before anything is sown or planted.
_BEFORE: tuple[Work, ...] = ("chit", "spread", "film down", "support up", "cover on")
#: Kinds of records that only what was begun can have.
_OF_BEGUN = ("came up", "picked", "seen", "ended", *STAGES)


@dataclass(frozen=True)
class LotUsed:
    """A lot of seed of which something was sown in the year.

    Attributes
    ----------
    before, after : Lot
        As it was and as it is.
    over : int
        Seeds that were sown beyond what was in it and in others of its sort.
    """

    before: Lot
    after: Lot
    over: int = 0

    @property
    def used_up(self) -> bool:
        """Whether nothing is left of it."""
        return not (self.after.seeds if self.after.seeds is not None else self.after.grams)


@dataclass(frozen=True)
class NotConfirmed:
    """A sowing of the year for which there is seed, and of which nothing is taken off: that is asked about.

    Attributes
    ----------
    planting : Planting
    seeds : int
        That it would have taken, or took.
    no_packet : bool
        It was sown, but it names no variety, and all packets of its crop are those of plantings that do; else nothing says that
        it was begun.
    """

    planting: Planting
    seeds: int
    no_packet: bool = False


def known_begun(garden: Garden, planting: Planting) -> bool:
    """Whether a record says that a planting was sown or planted: that work, or anything that comes after it."""
    done = {one.kind for one in garden.done(planting)}
    if done.difference(_BEFORE):
        return True
    return any(one.kind in _OF_BEGUN for one in garden.records_of(planting.id))


def seed_used(plan: Plan, before: Garden) -> tuple[Garden, tuple[LotUsed, ...], tuple[NotConfirmed, ...]]:
    """Take what was sown in the year off its lots, and write down the day on which the rest was there.

    A sowing that names no variety takes seed only of packets without one, or of varieties that no planting names.

    What was sown is drawn from lots that are good first, then from old ones.  What was already drawn at an earlier turn of
    the year is not drawn again; what is answered only now is.

    Parameters
    ----------
    plan : Plan
        With all that the gardener answered.
    before : Garden
        Without it.
    """
    supply = Supply(plan, lambda planting: known_begun(plan.garden, planting))
    next_day = plan.span.last + dt.timedelta(days=1)
    sown = [
        (day, planting)
        for planting in begun_in_year(plan)
        if plan.dates(planting).start not in SEEDLESS and (day := begun_on(plan, planting)) is not None
    ]
    over: dict[str, int] = {}
    open_ones = []
    named = {(one.crop, one.variety.casefold()) for one in plan.garden.plantings if one.variety}
    for day, planting in sorted(sown, key=lambda one: (one[0], not one[1].variety, one[1].id)):
        part = _as_recorded(plan, amount(plan, planting))
        if not known_begun(plan.garden, planting):
            if part.seeds and _serving(supply, planting, day, next_day):
                open_ones.append(NotConfirmed(planting, part.seeds))
            continue
        old = planting.id in before.plantings_by_id and known_begun(before, planting)
        there = _serving(supply, planting, day, None if old else next_day)
        lots = [one for one in there if planting.variety or not _is_named(one, named)]
        if there and not lots and part.seeds:
            open_ones.append(NotConfirmed(planting, part.seeds, no_packet=True))
            continue
        rest = take(part.seeds or 0, lots)
        if rest and lots and all(one.left is not None for one in lots):
            last = lots[-1].state.lot.id
            over[last] = over.get(last, 0) + rest
    used = []
    for one in (one for lots in supply.lots.values() for one in lots):
        lot, at_first, left = one.state.lot, one.state.seeds, one.left
        if lot.ordered or left is None or at_first is None:
            continue
        if left == at_first and lot.id not in over:
            continue
        changes: dict[str, object] = {"counted": next_day}
        if lot.seeds is not None:
            changes["seeds"] = left
        if lot.grams is not None and at_first:
            changes["grams"] = round(lot.grams * left / at_first, 3)
        used.append(LotUsed(lot, lot.with_(**changes), over.get(lot.id, 0)))
    after = {one.before.id: one.after for one in used}
    garden = plan.garden
    if after:
        garden = put(garden, stock=tuple(after.get(lot.id, lot) for lot in garden.stock))
    return garden, tuple(used), tuple(open_ones)


def _is_named(lot: LotSupply, named: Collection[tuple[str, str]]) -> bool:
    """Whether a lot is of a variety that some planting names, so that it was bought or saved for that."""
    return (lot.state.lot.crop, lot.state.lot.variety.casefold()) in named


def _serving(supply: Supply, planting: Planting, day: dt.date, counted: dt.date | None) -> list[LotSupply]:
    """The lots that were there on the day of a sowing, those that are good before old ones.

    Parameters
    ----------
    supply : Supply
    planting : Planting
    day : date
    counted : date or None
        A lot that was counted on this day counts as there, too.
    """
    year = growing_year(supply.plan.garden.site, day)
    lots = [
        one
        for one in supply.serving((planting.crop, planting.variety.casefold()))
        if not one.state.lot.ordered
        and (one.since <= day or (one.since == counted and not _saved_in_year(supply.plan, one.state.lot)))
    ]
    return sorted(lots, key=lambda one: not one.serves(max(day, one.since), year))


def _saved_in_year(plan: Plan, lot: Lot) -> bool:
    """Whether it is own seed of the growing year, of which nothing was sown in it."""
    planting = plan.garden.plantings_by_id.get(lot.saved_from or "")
    return planting is not None and plan.span.holds(plan.span_of(planting).last)


def _as_recorded(plan: Plan, part: Amount) -> Amount:
    """What a planting needed, with the seed that its record says was sown."""
    per_gram = plan.figures_of(part.planting).number("seeds_per_gram")
    for record in plan.garden.records_of(part.planting.id):
        if isinstance(record, WorkRecord) and record.task == "sow":
            sown = record.amount
            if sown is not None and sown.unit == "seeds":
                return replace(part, seeds=round(sown.value))
            if sown is not None and sown.unit == "g" and per_gram:
                return replace(part, seeds=round(sown.value * per_gram))
    return part


def seed_saved(plan: Plan, garden: Garden, typed: Mapping[str, float]) -> tuple[Garden, tuple[Lot, ...]]:
    """Packets of own seed: of each planting for seed that ended its year and was not lost.

    Grams are those that the gardener says, else those that were recorded as picked; where none were, the packet says nothing
    of its amount.
    """
    for key in typed:
        if key not in garden.plantings_by_id:
            raise e.EditError(say("there is no planting '{key}' of which seed was saved", key=key))
    known = {lot.saved_from for lot in garden.stock}
    saved = []
    for planting in plan.plantings:
        outcome = garden.outcome(planting)
        last = plan.span_of(planting).last
        if planting.purpose != "seed" or planting.id in known or (outcome is not None and outcome.lost):
            continue
        if not plan.span.holds(last) or plan.span_of(planting).open:
            continue
        grams = [
            record.amount.value
            for record in garden.records_of(planting.id)
            if isinstance(record, PickedRecord) and record.amount.unit == "g"
        ]
        fields: dict[str, Any] = {"crop": planting.crop, "variety": planting.variety, "packed": last.year}
        fields |= {"saved_from": planting.id, "counted": plan.span.last + dt.timedelta(days=1)}
        if planting.id in typed:
            fields["grams"] = typed[planting.id]
        elif grams:
            fields["grams"] = sum(grams)
        garden, key = e.put_lot(garden, **fields)
        saved.append(next(lot for lot in garden.stock if lot.id == key))
    return garden, tuple(saved)
