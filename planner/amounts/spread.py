"""What is spread on beds in a growing year: compost, mulch, manure, feed and lime, over their true ground."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple, get_args

import shapely

from planner.amounts.sold_sizes import BARROW_LITRES, bag_litres
from planner.crops.aftercare import TASKS
from planner.garden import Bed, Dressing, Planting
from planner.garden.materials import SpreadKind
from planner.ground.shapes import bed_polygon
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.planting_dates import CareDays

#: What a crop's mulch is, and how deep it lies, where no dressing says so: straw under fruit and over cloves in winter,
#: else compost.  Straw 3 to 6 in, compost 2 to 3 in (practice, as recalled). [m]
USUAL_MULCH: dict[str, tuple[SpreadKind, float]] = {"straw": ("straw", 0.08), "mulch": ("compost", 0.05)}
CLOVES_MULCH: tuple[SpreadKind, float] = ("straw", 0.08)
#: What mulches.
MULCHES: tuple[SpreadKind, ...] = (
    "compost",
    "manure",
    "leaf mould",
    "straw",
    "bark",
    "wood chip",
    "grass clippings",
)
#: Depth of a dressing where none is said: compost 0.5 to 1 in a year, leaf mould 2 to 3 in, straw 3 to 6 in, wood chip
#: 3 to 4 in, grass clippings 1 to 2 in (practice, as recalled). [m]
USUAL_DEPTH: dict[SpreadKind, float] = {
    "compost": 0.025,
    "manure": 0.05,
    "leaf mould": 0.05,
    "straw": 0.10,
    "bark": 0.05,
    "wood chip": 0.08,
    "grass clippings": 0.03,
}
#: What is sold in bags; straw comes in bales, grass clippings and leaf mould are the garden's own.
BAGGED: tuple[SpreadKind, ...] = ("compost", "manure", "straw", "bark", "wood chip", "lime", "feed")
#: Of rotted manure as it is wheeled (``estimate``). [kg/l]
MANURE_DENSITY = 0.7
#: A dressing of a bed so long before or after a crop's mulch is that mulch (practice). [days]
SAME_MULCH = 30


@dataclass(frozen=True)
class Spread:
    """Something that is spread on a piece of ground.

    Attributes
    ----------
    kind : str
    bed : Bed
    planting : Planting or None
        On whose plot it is spread; None of a dressing of the bed.
    day, until : date
        First and last day for it.
    area : float
        Ground without obstacles. [m2]
    depth : float or None
        [m]
    rate : float or None
        [g/m2]
    source : str
        ``dressing``, else where the crop's mulch comes from: a key of a source, or ``practice``.
    done : bool
        It is spread already.
    """

    kind: SpreadKind
    bed: Bed
    planting: Planting | None
    day: dt.date
    until: dt.date
    area: float
    depth: float | None
    rate: float | None
    source: str
    done: bool = False

    @property
    def litres(self) -> float | None:
        """[l]"""
        return self.area * self.depth * 1000 if self.depth is not None else None

    @property
    def grams(self) -> float | None:
        """[g]"""
        return self.area * self.rate if self.rate is not None else None


@dataclass(frozen=True)
class SpreadTotal:
    """All that is spread of one kind in a growing year, by volume and by mass.

    Attributes
    ----------
    kind : str
    litres, grams : float
        [l], [g]
    litres_in_shed, grams_in_shed : float
        Taken from what is in the shed. [l], [g]
    bag : float
        Size of the bags counted, of straw of the bales as they lie loose. [l]
    bag_named : bool
        The garden says in which bags it is sold; else their size is an estimate.
    """

    kind: SpreadKind
    litres: float
    grams: float
    litres_in_shed: float
    grams_in_shed: float
    bag: float
    bag_named: bool = False

    @property
    def litres_to_buy(self) -> float:
        """[l]"""
        return self.litres - self.litres_in_shed

    @property
    def grams_to_buy(self) -> float:
        """[g]"""
        return self.grams - self.grams_in_shed

    @property
    def barrows(self) -> int:
        """Barrows of it to wheel; manure by mass is reckoned by its density."""
        return math.ceil((self.litres + self._by_mass(self.grams)) / BARROW_LITRES - 1e-6)

    def _by_mass(self, grams: float) -> float:
        """The volume of what is spread by mass, of manure; 0 of what is not wheeled. [g -> l]"""
        return grams / 1000 / MANURE_DENSITY if self.kind == "manure" else 0.0

    @property
    def bags(self) -> int:
        """Bags or bales to buy; of manure by mass by its density."""
        return math.ceil((self.litres_to_buy + self._by_mass(self.grams_to_buy)) / self.bag - 1e-6)


class TrueAreaInputs(NamedTuple):
    """What the ground of a bed or plot depends on: its shape and the obstacles, in the bed's coordinates."""

    bed: Bed
    plot: shapely.Geometry | None
    obstacles: shapely.Geometry


@fact("true area")
def true_area_of(inputs: TrueAreaInputs) -> float:
    """Area of a bed, or of a plot in it, less what structures take. [m2]"""
    shape = inputs.plot if inputs.plot is not None else bed_polygon(inputs.bed)
    return float(shapely.difference(shape, inputs.obstacles).area)


def true_area(plan: Plan, bed: Bed, planting: Planting | None = None) -> float:
    """Area of a bed, or of a planting's plot, less what structures take of it. [m2]"""
    plot = plan.placed(planting).plot if planting is not None else None
    inputs = TrueAreaInputs(bed, plot, plan.obstacles(bed))
    return plan.cached(true_area_of, planting.id if planting is not None else bed.id, inputs)


def spreads(plan: Plan) -> tuple[Spread, ...]:
    """What is spread in a plan's growing year: the beds' dressings, and mulch that crops want besides, day by day.

    Parameters
    ----------
    plan : Plan
    """
    dressed = [spread_of(plan, one) for one in dressings_of_year(plan)]
    found = [*dressed, *_mulches(plan, dressed)]
    order = {bed.id: place for place, bed in enumerate(plan.garden.beds)}
    return tuple(sorted(found, key=lambda one: (one.day, order[one.bed.id], one.kind)))


def dressings_of_year(plan: Plan) -> list[Dressing]:
    """Dressings that were spread, or are to be, in a plan's growing year."""
    return [one for one in plan.garden.dressings if plan.span.holds(one.done or one.day)]


def spread_of(plan: Plan, one: Dressing) -> Spread:
    """A dressing with the ground it is spread on."""
    planting = plan.garden.plantings_by_id[one.planting] if one.planting is not None else None
    bed = plan.bed_of(planting) if planting is not None else plan.garden.beds_by_id[one.bed]
    area = true_area(plan, bed, planting)
    day = one.done or one.day
    done = one.done is not None
    return Spread(one.kind, bed, planting, day, day, area, one.depth, one.rate, "dressing", done)


def _mulches(plan: Plan, dressed: Iterable[Spread]) -> Iterator[Spread]:
    """Mulch that crops want, where no dressing of theirs or of their bed is just that."""
    given_to: dict[tuple[str, str], list[dt.date]] = {}
    for one in dressed:
        if one.kind in MULCHES:
            of = one.planting.id if one.planting is not None else ""
            given_to.setdefault((one.bed.id, of), []).append(one.day)
    for planting in plan.plantings:
        for care in plan.dates(planting).aftercare:
            if care.kind != "mulch" or not plan.span.holds(care.on.day):
                continue
            given = [day for of in ("", planting.id) for day in given_to.get((planting.bed, of), ())]
            if any(abs((day - care.on.day).days) <= SAME_MULCH for day in given):
                continue
            yield _mulch(plan, planting, care)


def _mulch(plan: Plan, planting: Planting, care: CareDays) -> Spread:
    cloves = plan.dates(planting).start == "cloves"
    kind, depth = CLOVES_MULCH if cloves else USUAL_MULCH[care.task]
    bed = plan.bed_of(planting)
    area = true_area(plan, bed, planting)
    return Spread(kind, bed, planting, care.on.day, care.until, area, depth, None, care.on.source)


def spread_totals(plan: Plan, parts: Iterable[Spread]) -> tuple[SpreadTotal, ...]:
    """Add up what is spread, by kind, and take first what is in the shed.

    Parameters
    ----------
    plan : Plan
    parts : iterable of Spread
    """
    by_kind: dict[SpreadKind, list[Spread]] = {}
    for one in parts:
        by_kind.setdefault(one.kind, []).append(one)
    found = []
    for kind in (one for one in get_args(SpreadKind) if one in by_kind):
        litres = math.fsum(one.litres or 0.0 for one in by_kind[kind])
        grams = math.fsum(one.grams or 0.0 for one in by_kind[kind])
        there = [one for one in plan.garden.shed if one.kind == kind and not one.sold]
        litres_there = math.fsum((one.litres or 0.0) * one.number for one in there)
        # What has its volume and its mass is taken by volume.
        grams_there = math.fsum((one.grams or 0.0) * one.number for one in there if one.litres is None)
        found.append(
            SpreadTotal(
                kind,
                litres,
                grams,
                min(litres, litres_there),
                min(grams, grams_there),
                bag_litres(kind, plan.garden.shed),
                any(one.sold and one.litres and one.kind == kind for one in plan.garden.shed),
            )
        )
    return tuple(found)


#: Tasks of aftercare that spread something: each has its usual mulch.
assert {task for task, one in TASKS.items() if one.kind == "mulch"} == USUAL_MULCH.keys()
