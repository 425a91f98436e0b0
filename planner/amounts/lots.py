"""Lots of seed on hand: their age, seeds and germination, and the lot a planting is sown from.

Figures of a lot are those of the garden's own variety of its name before the catalogue's.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from planner.amounts.seeds import LEAST_GERMINATION
from planner.crops import Catalogue
from planner.garden import Garden, Lot, Planting
from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import say


@dataclass(frozen=True)
class LotState:
    """Age, seeds and germination of a lot in one growing year.

    Attributes
    ----------
    lot : Lot
    age : int or None
        Years since it was packed; None where the year packed is unknown. [years]
    last_good_year : int or None
        Year packed plus the crop's storage life; None where either is unknown.
    too_old_since : int or None
        The year after ``last_good_year``, once it has come; else None.
    seeds : int or None
        Seeds on hand; None where they cannot be counted.
    germination : float or None
        Share that comes up: the lot's own test, else the published figure. [0 to 1]
    tested : bool
        Whether ``germination`` is the lot's own test.
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
        """Whether it counts as seed on hand: neither too old nor dead."""
        return self.too_old_since is None and not self.dead

    @property
    def age_words(self) -> str:
        """The age in words: ``last good year 2027``, ``too old since 2025``, ``year packed not known``."""
        if self.too_old_since is not None:
            return say("too old since {too_old_since}", too_old_since=self.too_old_since)
        if self.last_good_year is not None:
            return say("last good year {last_good_year}", last_good_year=self.last_good_year)
        return say("storage life not known") if self.age is not None else say("year packed not known")


def _figures_of(garden: Garden, catalogue: Catalogue, lot: Lot) -> PlantingFigures:
    """Figures of a lot's variety: the garden's own before the catalogue's."""
    name = lot.variety.casefold()
    own = next((v for v in garden.varieties if v.crop == lot.crop and v.name.casefold() == name), None)
    return PlantingFigures(catalogue.get(lot.crop), own)


def lot_state(garden: Garden, catalogue: Catalogue, lot: Lot, year: int) -> LotState:
    """Work out age, seeds and germination of a lot in a year.

    Parameters
    ----------
    garden : Garden
        For its own varieties.
    catalogue : Catalogue
    lot : Lot
    year : int
        Growing year.

    Returns
    -------
    LotState
        Seeds weighed in grams are rounded down to whole seeds.
    """
    figures = _figures_of(garden, catalogue, lot)
    life = figures.number("seed_life_years")
    name = figures.crop.name if figures.crop else lot.crop
    missing = []
    last = None
    if lot.packed is None:
        missing.append(say("The year it was packed is not known"))
    elif life is None:
        missing.append(say("No storage life is known for seed of {name}", name=name))
    else:
        last = lot.packed + math.floor(life)
    seeds, per_gram = lot.seeds, figures.number("seeds_per_gram")
    if seeds is None and lot.grams is not None:
        if per_gram is not None:
            seeds = math.floor(lot.grams * per_gram + 1e-6)
        elif lot.grams == 0:
            seeds = 0
        else:
            missing.append(
                say("No seeds per gram are known for {name}: the lot's seeds cannot be counted", name=name)
            )
    elif seeds is None:
        missing.append(say("Neither seeds nor grams are given"))
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
    """Work out the states of all lots of a garden, in the document's order; empty without stock.

    Parameters
    ----------
    garden : Garden
    catalogue : Catalogue
    year : int
        Growing year.
    """
    return tuple(lot_state(garden, catalogue, lot, year) for lot in garden.stock)


# -- germination as tested ---------------------------------------------------------------------


class StockInputs(NamedTuple):
    """All lots of a garden."""

    stock: tuple[Lot, ...]


@fact("tested lots")
def tested_lots(inputs: StockInputs) -> Mapping[str, tuple[Lot, ...]]:
    """Lots whose test found seed that comes up, by the key of their crop."""
    found: dict[str, tuple[Lot, ...]] = {}
    for lot in inputs.stock:
        if lot.germination is not None and lot.germination >= LEAST_GERMINATION:
            found[lot.crop] = (*found.get(lot.crop, ()), lot)
    return MappingProxyType(found)


def lot_as_tested(plan: Plan, planting: Planting) -> Lot | None:
    """Return the newest lot with a germination test that a planting may be sown from.

    Of lots packed in one year, or in no known year, the one entered last.  A lot of which nothing came
    up is not sown.

    Parameters
    ----------
    plan : Plan
        For the garden's stock.
    planting : Planting
        One that names no variety is sown from lots without one, else from any lot of its crop.

    Returns
    -------
    Lot or None
        None where no fitting lot was tested.
    """
    if not plan.garden.stock:
        return None
    lots = plan.cached(tested_lots, "garden", StockInputs(plan.garden.stock)).get(planting.crop, ())
    variety = planting.variety.casefold()
    fitting = tuple(lot for lot in lots if lot.variety.casefold() == variety)
    if not fitting and not variety:
        fitting = lots
    newest: Lot | None = None
    for lot in fitting:
        if newest is None or (lot.packed or 0) >= (newest.packed or 0):
            newest = lot
    return newest
