"""Plants, rows, seeds and grams of each planting, and totals by variety."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import NamedTuple, TypeVar

from planner.amounts.begun import begun_in_year
from planner.amounts.lots import lot_as_tested
from planner.amounts.seeds import LEAST_GERMINATION, seeds_broadcast, seeds_per_station, seeds_to_raise
from planner.garden import Bed, Lot, Planting
from planner.garden.planting import SEEDLESS
from planner.garden.planting_figures import PlantingFigures
from planner.ground.place import Placed
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.practice import sowing_of, start_of
from planner.words import say

N = TypeVar("N", int, float)


@dataclass(frozen=True)
class Amount:
    """Plants, rows, seed and plants to get of one planting.

    Attributes
    ----------
    planting : Planting
    bed : Bed
    crop, variety : str
        Names as shown; the variety may be empty.
    plants, rows : int
        Stations, and row lines that hold at least one.
    area : float
        Area of the plot. [m2]
    start : str
        How it starts: sown, raised, bought, sets, tubers, cloves, crowns, standing.
    sowing : str
        How a planting sown in place is sown: ``drill``, ``stations`` or ``broadcast``; else empty.
    seeds_per_station : int or None
        None where seed is not sown by stations, or the number is unknown.
    thinned_from : int or None
        Seeds in a drill that is thinned to ``plants``; None without a drill.
    seeds : int or None
        Seeds to sow; None where the number cannot be worked out (``missing`` says why).
    seed_grams : float or None
        Their mass; None where it cannot be worked out. [g]
    raise_ : int
        Seeds to sow for plants that are raised, losses at germination included; 0 where none are raised.
    acquire : int
        Plants, sets, tubers, cloves or crowns to get; 0 for a planting from seed, or already in place.
    germination : float or None
        Share that comes up, as used: tested of the newest lot that may be sown, else the own or published
        figure. [0 to 1]
    tested_lot : str
        Id of that lot; empty where none was tested.
    missing : tuple of str
        What could not be worked out, a sentence each.
    problem : str
        What is wrong with the layout, as a sentence; else empty.
    """

    planting: Planting
    bed: Bed
    crop: str
    variety: str
    plants: int
    rows: int
    area: float
    start: str
    sowing: str = ""
    seeds_per_station: int | None = None
    thinned_from: int | None = None
    seeds: int | None = 0
    seed_grams: float | None = 0.0
    raise_: int = 0
    acquire: int = 0
    germination: float | None = None
    tested_lot: str = ""
    missing: tuple[str, ...] = ()
    problem: str = ""


class AmountInputs(NamedTuple):
    """What the amounts of a planting depend on.

    Attributes
    ----------
    planting : Planting
    bed : Bed
    figures : PlantingFigures
    placed : Placed
    lot : Lot or None
        Whose tested germination counts.
    """

    planting: Planting
    bed: Bed
    figures: PlantingFigures
    placed: Placed
    lot: Lot | None


def amount(plan: Plan, planting: Planting) -> Amount:
    """Work out what a planting needs.

    Parameters
    ----------
    plan : Plan
        For the planting's layout, its bed and the tested lots of seed.
    planting : Planting
    """
    figures, placed, bed = plan.figures_of(planting), plan.placed(planting), plan.bed_of(planting)
    inputs = AmountInputs(planting, bed, figures, placed, lot_as_tested(plan, planting))
    return plan.cached(amount_of_planting, planting.id, inputs)


@fact("amount")
def amount_of_planting(inputs: AmountInputs) -> Amount:
    """Plants, rows and seed of a planting."""
    planting, bed, figures, placed, lot = inputs
    start = start_of(planting, figures)
    base = Amount(
        planting=planting,
        bed=bed,
        crop=figures.crop.name if figures.crop else planting.crop,
        variety=planting.variety,
        plants=placed.plants,
        rows=placed.layout.row_count,
        area=placed.area,
        start=start,
        problem=placed.problem,
    )
    if start == "standing" or planting.came_from is not None:
        return base  # it came up by itself, or its plants were given
    if start in SEEDLESS:
        return replace(base, acquire=placed.plants)
    return _with_seed(base, figures, placed, lot)


def _with_seed(base: Amount, figures: PlantingFigures, placed: Placed, lot: Lot | None) -> Amount:
    germination = lot.germination if lot is not None else figures.number("germination")
    missing: list[str] = []
    if germination is not None and germination < LEAST_GERMINATION:
        germination = None
    changes: dict[str, object] = {"germination": germination, "tested_lot": lot.id if lot is not None else ""}
    if base.start == "raised":
        if germination is None:
            missing.append(
                say("No germination is known for {crop}: seeds to raise cannot be worked out", crop=base.crop)
            )
            changes |= {"seeds": None}
        else:
            sown = seeds_to_raise(base.plants, germination)
            changes |= {"raise_": sown, "seeds": sown}
    else:
        changes |= _sown(base, figures, placed, germination, missing)
    changes |= _grams(base.crop, figures, changes["seeds"], missing)
    return replace(base, missing=tuple(missing), **changes)  # type: ignore[arg-type]  # keys are fields


def _sown(
    base: Amount, figures: PlantingFigures, placed: Placed, germination: float | None, missing: list[str]
) -> dict[str, object]:
    sowing = sowing_of(base.planting, figures)
    if sowing == "drill" and placed.layout.table is None:  # along a support there are only stations
        sowing = "stations"
    if sowing == "drill":
        apart = figures.number("sowing_spacing") or placed.layout.in_row_spacing
        if apart is None or not base.plants:
            return {"sowing": sowing, "seeds": 0}
        seeds = math.ceil(placed.layout.row_length / apart - 1e-6)
        return {"sowing": sowing, "seeds": seeds, "thinned_from": seeds}
    if germination is None:
        missing.append(
            say("No germination is known for {crop}: seeds to broadcast cannot be worked out", crop=base.crop)
            if sowing == "broadcast"
            else say(
                "No germination is known for {crop}: seeds for each plant cannot be worked out",
                crop=base.crop,
            )
        )
        return {"sowing": sowing, "seeds": None}
    if sowing == "broadcast":
        return {"sowing": sowing, "seeds": seeds_broadcast(base.plants, germination)}
    each = seeds_per_station(germination)
    return {"sowing": sowing, "seeds_per_station": each, "seeds": each * base.plants}


def _grams(crop: str, figures: PlantingFigures, seeds: object, missing: list[str]) -> dict[str, object]:
    per_gram = figures.number("seeds_per_gram")
    if not isinstance(seeds, int):
        return {"seed_grams": None}
    if per_gram is None:
        if seeds:
            missing.append(
                say("No seeds per gram are known for {crop}: its seed cannot be weighed out", crop=crop)
            )
            return {"seed_grams": None}
        return {"seed_grams": 0.0}
    return {"seed_grams": seeds / per_gram}


def amounts(plan: Plan, plantings: Iterable[Planting] | None = None) -> tuple[Amount, ...]:
    """Work out what plantings of a plan need.

    Parameters
    ----------
    plan : Plan
    plantings : iterable of Planting, optional
        Those begun in the growing year by default, bed by bed (:mod:`planner.amounts.begun`).
    """
    if plantings is None:
        plantings = begun_in_year(plan)
    return tuple(amount(plan, planting) for planting in plantings)


@dataclass(frozen=True)
class Total:
    """Amounts of all plantings of one variety.

    ``parts`` are what is added up; ``seeds`` and ``seed_grams`` [g] are None where a part is unknown; ``area`` is in square
    metres.
    """

    crop: str
    variety: str
    parts: tuple[Amount, ...]
    plants: int
    area: float
    seeds: int | None
    seed_grams: float | None
    raise_: int
    acquire: int

    @property
    def plantings(self) -> int:
        """How many plantings are added up."""
        return len(self.parts)


def totals(parts: Iterable[Amount]) -> tuple[Total, ...]:
    """Add amounts up by crop and variety, in alphabetical order; empty without amounts."""
    found: dict[tuple[str, str], list[Amount]] = {}
    for part in parts:
        found.setdefault((part.crop, part.variety), []).append(part)
    return tuple(
        Total(
            crop=crop,
            variety=variety,
            parts=tuple(group),
            plants=sum(part.plants for part in group),
            area=math.fsum(part.area for part in group),
            seeds=_sum([part.seeds for part in group]),
            seed_grams=_sum([part.seed_grams for part in group]),
            raise_=sum(part.raise_ for part in group),
            acquire=sum(part.acquire for part in group),
        )
        for (crop, variety), group in sorted(
            found.items(), key=lambda item: tuple(word.casefold() for word in item[0])
        )
    )


def _sum(parts: list[N | None]) -> N | None:
    """The sum; None where a part is unknown.  There is at least one part."""
    given = [part for part in parts if part is not None]
    return sum(given[1:], start=given[0]) if len(given) == len(parts) else None
