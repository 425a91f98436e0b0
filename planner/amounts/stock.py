"""Seed on hand: how old is too old, how much there is, and what is short.

A lot serves plantings of its crop and variety; a planting that names no variety takes any of its
crop, unnamed lots first.  Figures of a lot are those of the garden's own variety of its name before
the catalogue's.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from planner.amounts.seeds import LEAST_GERMINATION
from planner.crops import Catalogue
from planner.garden import Garden, Lot, Planting
from planner.garden.planting_figures import PlantingFigures

if TYPE_CHECKING:
    from planner.amounts.plants import Amount
    from planner.plan import Plan


@dataclass(frozen=True)
class LotState:
    """What is to be said of a lot in a year.

    Attributes
    ----------
    lot : Lot
    age : int or None
        Years since it was packed; None where that is not known.
    last_good_year : int or None
        Year packed and the crop's storage life; None where either is unknown.
    too_old_since : int or None
        The year after that, once it has come; else None.
    seeds : int or None
        On hand; None where it is not known.
    germination : float or None
        As tested, else the standard.
    tested : bool
        Whether it is the lot's own test.
    dead : bool
        Tested, and nothing came up.
    missing : tuple of str
        What could not be worked out, a sentence each; last why the seeds cannot be counted.
    """

    lot: Lot
    age: int | None
    last_good_year: int | None
    too_old_since: int | None
    seeds: int | None
    germination: float | None
    tested: bool
    dead: bool
    missing: tuple[str, ...] = ()

    @property
    def usable(self) -> bool:
        """Whether it is reckoned with: not too old, not dead."""
        return self.too_old_since is None and not self.dead

    @property
    def age_words(self) -> str:
        """``last good year 2027``, ``too old since 2025``, ``year packed not known``."""
        if self.too_old_since is not None:
            return f"too old since {self.too_old_since}"
        if self.last_good_year is not None:
            return f"last good year {self.last_good_year}"
        return "storage life not known" if self.age is not None else "year packed not known"


def known_of(garden: Garden, catalogue: Catalogue, crop: str, variety: str) -> PlantingFigures:
    """Figures of a crop's variety: the garden's own before the catalogue's."""
    name = variety.casefold()
    own = next((v for v in garden.varieties if v.crop == crop and v.name.casefold() == name), None)
    return PlantingFigures(catalogue.get(crop), own)


def lot_state(garden: Garden, catalogue: Catalogue, lot: Lot, year: int) -> LotState:
    """Age, seeds and germination of a lot in a year."""
    figures = known_of(garden, catalogue, lot.crop, lot.variety)
    life = figures.number("seed_life_years")
    name = figures.crop.name if figures.crop else lot.crop
    missing = []
    last = None
    if lot.packed is None:
        missing.append("The year it was packed is not known")
    elif life is None:
        missing.append(f"No storage life is known for seed of {name}")
    else:
        last = lot.packed + math.floor(life)
    seeds, per_gram = lot.seeds, figures.number("seeds_per_gram")
    if seeds is None and lot.grams is not None:
        if per_gram is not None:
            seeds = math.floor(lot.grams * per_gram + 1e-6)
        elif lot.grams == 0:
            seeds = 0
        else:
            missing.append(f"No seeds per gram are known for {name}: the lot's seeds cannot be counted")
    elif seeds is None:
        missing.append("Neither seeds nor grams are given")
    tested = lot.germination is not None
    return LotState(
        lot=lot,
        age=year - lot.packed if lot.packed is not None else None,
        last_good_year=last,
        too_old_since=last + 1 if last is not None and year > last else None,
        seeds=seeds,
        germination=lot.germination if tested else figures.number("germination"),
        tested=tested,
        dead=lot.germination is not None and lot.germination < LEAST_GERMINATION,
        missing=tuple(missing),
    )


def stock_states(garden: Garden, catalogue: Catalogue, year: int) -> tuple[LotState, ...]:
    """States of all lots, in the document's order."""
    return tuple(lot_state(garden, catalogue, lot, year) for lot in garden.stock)


# -- germination as tested ---------------------------------------------------------------------


class _ByCrop:
    """Tested lots by crop; kept for the stock they were made of."""

    kept: tuple[tuple[Lot, ...], dict[str, list[Lot]]] = ((), {})

    @classmethod
    def of(cls, stock: tuple[Lot, ...]) -> dict[str, list[Lot]]:
        lots, found = cls.kept
        if lots is not stock:
            found = {}
            for lot in stock:
                if lot.germination is not None and lot.germination >= LEAST_GERMINATION:
                    found.setdefault(lot.crop, []).append(lot)
            cls.kept = (stock, found)
        return found


def lot_as_tested(garden: Garden, planting: Planting) -> Lot | None:
    """The newest lot with a germination test that a planting may be sown from.

    Of lots packed in one year, or in none that is known, the one entered last.  A lot of which
    nothing came up is not sown.
    """
    if not garden.stock:
        return None
    lots = _ByCrop.of(garden.stock).get(planting.crop, [])
    wish = planting.variety.casefold()
    fitting = [lot for lot in lots if lot.variety.casefold() == wish]
    if not fitting and not wish:
        fitting = lots
    best: Lot | None = None
    for lot in fitting:
        if best is None or (lot.packed or 0) >= (best.packed or 0):
            best = lot
    return best


# -- what is short -----------------------------------------------------------------------------


@dataclass(frozen=True)
class Need:
    """Seed of one variety: wanted, on hand, short.

    Attributes
    ----------
    crop : str
        Key.
    name, variety : str
        As shown; the variety may be empty.
    seeds : int or None
        Wanted by all plantings of the year; None where a part is unknown.
    on_hand : int or None
        In usable lots; None where it cannot be counted.
    unusable : int
        Lots that are too old or dead.
    short : int or None
        Seeds to get.
    short_grams : float or None
        The same by weight. [g]
    missing : tuple of str
        What could not be worked out, a sentence each.
    """

    crop: str
    name: str
    variety: str
    seeds: int | None
    on_hand: int | None
    unusable: int
    short: int | None
    short_grams: float | None
    missing: tuple[str, ...] = ()


def needs(plan: Plan, parts: Iterable[Amount]) -> tuple[Need, ...]:
    """Seed wanted against seed on hand, by crop and variety, in alphabetical order.

    Plantings that name no variety draw on what the named ones of their crop leave over, after the
    lots that name none either.
    """
    wanted: dict[tuple[str, str], list[Amount]] = {}
    for part in parts:
        if part.seeds is None or part.seeds:
            key = (part.planting.crop, part.planting.variety.casefold())
            wanted.setdefault(key, []).append(part)
    states = stock_states(plan.garden, plan.catalogue, plan.year)
    stores: dict[tuple[str, str], list[LotState]] = {}
    for state in states:
        stores.setdefault((state.lot.crop, state.lot.variety.casefold()), []).append(state)
    left = {key: _on_hand(lots) for key, lots in stores.items()}
    found = []
    # Named varieties first, so that what they leave is known when the unnamed draw on it.
    for key in sorted(wanted, key=lambda key: not key[1]):
        group, keys = wanted[key], [key]
        if not key[1]:
            keys += [other for other in stores if other[0] == key[0] and other[1]]
        found.append(_need(plan, group, keys, stores, left))
    return tuple(sorted(found, key=lambda need: (need.name.casefold(), need.variety.casefold())))


def _on_hand(states: Iterable[LotState]) -> int | None:
    counts = [state.seeds for state in states if state.usable]
    return None if None in counts else sum(count or 0 for count in counts)


def _need(
    plan: Plan,
    group: Sequence[Amount],
    keys: list[tuple[str, str]],
    stores: dict[tuple[str, str], list[LotState]],
    left: dict[tuple[str, str], int | None],
) -> Need:
    first = group[0]
    lots = [state for key in keys for state in stores.get(key, ())]
    counts = [left.get(key, 0) for key in keys]
    on_hand = None if None in counts else sum(count or 0 for count in counts)
    known = [part.seeds for part in group if part.seeds is not None]
    seeds = sum(known) if len(known) == len(group) else None
    missing = [line for part in group if part.seeds is None for line in part.missing]
    missing += [line for state in lots if state.usable and state.seeds is None for line in state.missing[-1:]]
    short = max(0, seeds - on_hand) if seeds is not None and on_hand is not None else None
    draw = seeds or 0
    for key in keys:
        there = left.get(key)
        if there is not None:
            left[key] = there - min(there, draw)
            draw -= min(there, draw)
    figures = plan.figures_of(first.planting)
    per_gram = figures.number("seeds_per_gram")
    grams = None
    if short is not None and (per_gram is not None or not short):
        grams = short / per_gram if per_gram else 0.0
    return Need(
        crop=first.planting.crop,
        name=first.crop,
        variety=first.variety,
        seeds=seeds,
        on_hand=on_hand,
        unusable=sum(not state.usable for state in lots),
        short=short,
        short_grams=grams,
        missing=tuple(dict.fromkeys(missing)),
    )


def shortages(plan: Plan, parts: Iterable[Amount]) -> tuple[Need, ...]:
    """Needs of which seed is short, or of which that cannot be told."""
    return tuple(need for need in needs(plan, parts) if need.short is None or need.short)
