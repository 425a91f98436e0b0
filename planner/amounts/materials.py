"""What is in use when, from the shed or to be bought: sheets, bars and what is counted."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, cast, get_args

from planner.amounts.cutting import Bar, CutList, CuttingInputs, cut_list_of, millimetres
from planner.amounts.sharing import Job, Pile, Stored, most_in_use, share
from planner.amounts.sold_sizes import bars_sold, rolls_sold
from planner.garden import ShedItem
from planner.garden.materials import BarKind, MaterialKind, SheetKind
from planner.ground.covers import OVERLAP, strips_of
from planner.plan import Plan

#: Poles in the shed that are so many times as long as a piece are cut instead of taken whole.
CUT_FROM = 2.0
#: A heavier or lighter fleece by no more than this is the same. [g/m2]
_SAME_WEIGHT = 2.0


class Sort(NamedTuple):
    """What a sheet is beside its size: weight of fleece [g/m2], mesh of netting [m]; None is any."""

    weight: float | None = None
    mesh: float | None = None


ANY = Sort()
_ORDER = get_args(MaterialKind)


class Cutting(NamedTuple):
    """A cut list of one material.

    Attributes
    ----------
    width : float
        Of the rolls that are cut; 0 of bars and poles. [m]
    sort : Sort
    cuts : CutList
    """

    width: float
    sort: Sort
    cuts: CutList


@dataclass(frozen=True)
class Material:
    """One kind of material: what is in use when, and what is to be bought.

    Attributes
    ----------
    kind : str
        A word of the garden file.
    piles : tuple of Pile
        Pieces of one size each, with the jobs that use them: from the shed, lying since before the year, or new.
    cuttings : tuple of Cutting
        How new pieces are cut from what is sold and what the shed still holds.
    """

    kind: MaterialKind
    piles: tuple[Pile, ...]
    cuttings: tuple[Cutting, ...] = ()

    def number(self, origin: str) -> int:
        """Pieces from the shed, lying since before, or new."""
        return sum(pile.number for pile in self.piles if pile.origin == origin)

    @property
    def used_of_shed(self) -> dict[str, int]:
        """Most pieces in use at once of each item of the shed."""
        return {pile.key: most_in_use(pile) for pile in self.piles if pile.origin == "shed"}


def materials_of(plan: Plan, jobs: dict[MaterialKind, list[Job]]) -> tuple[Material, ...]:
    """Share the materials of some jobs over time, the shed first, and cut what is new.

    Parameters
    ----------
    plan : Plan
        For what is in its garden's shed, and its growing year.
    jobs : dict of str to list of Job
        By kind; sheets have a length and a width, bars a length, what is counted no size.

    Returns
    -------
    tuple of Material
        In the order of the kinds; kinds without jobs are left out.
    """
    order = _ORDER
    found = []
    for kind in sorted(jobs, key=order.index):
        if jobs[kind]:
            make = (
                _sheets if kind in get_args(SheetKind) else _bars if kind in get_args(BarKind) else _counted
            )
            found.append(make(plan, kind, jobs[kind]))
    return tuple(found)


def in_shed(plan: Plan, kind: MaterialKind) -> list[ShedItem]:
    """What of a kind is in the shed."""
    return [one for one in plan.garden.shed if one.kind == kind and not one.sold and one.number]


def _sort_of(item: ShedItem) -> Sort:
    return Sort(item.weight, item.mesh)


def suits(there: Hashable, wanted: Hashable) -> bool:
    """Whether a sheet of one sort serves where another is wanted: fleece of its weight, a net as fine."""
    there, wanted = cast("Sort", there), cast("Sort", wanted)
    if wanted.weight is not None and (
        there.weight is None or abs(there.weight - wanted.weight) > _SAME_WEIGHT
    ):
        return False
    return wanted.mesh is None or (there.mesh is not None and there.mesh <= wanted.mesh)


def _counted(plan: Plan, kind: MaterialKind, jobs: Sequence[Job]) -> Material:
    stored = [Stored(one.id, (), one.number) for one in in_shed(plan, kind)]
    return Material(kind, share(jobs, stored, plan.span.first))


def _bars(plan: Plan, kind: MaterialKind, jobs: Sequence[Job]) -> Material:
    items = in_shed(plan, kind)
    stored = [Stored(one.id, (one.length or 0.0,), one.number) for one in items]
    piles = share(jobs, stored, plan.span.first, whole_below=CUT_FROM)
    used = Material(kind, piles).used_of_shed
    bars = [
        Bar(int((one.length or 0.0) * 1000), one.number - used.get(one.id, 0))
        for one in items
        if one.number > used.get(one.id, 0)
    ]
    bars += [Bar(millimetres(length)) for length in bars_sold(kind, plan.garden.shed, plan.garden.site.units)]
    new = _pieces((pile.size[0], pile.number) for pile in piles if pile.origin == "new")
    if not new:
        return Material(kind, piles)
    cuts = plan.cached(cut_list_of, kind, CuttingInputs(frozenset(new.items()), frozenset(bars)))
    return Material(kind, piles, (Cutting(0.0, ANY, cuts),))


def _pieces(wanted: Iterable[tuple[float, int]]) -> dict[int, int]:
    found: dict[int, int] = {}
    for length, number in wanted:
        found[millimetres(length)] = found.get(millimetres(length), 0) + number
    return found


def _sheets(plan: Plan, kind: MaterialKind, jobs: Sequence[Job]) -> Material:
    rolls = rolls_sold(kind, plan.garden.shed, plan.garden.site.units)
    widths = sorted({width for _, width in rolls})

    def roll(width: float) -> float:
        return next((one for one in widths if one >= width - 1e-6), width)

    turned = [job._replace(size=tuple(sorted(job.size, reverse=True))) for job in jobs]
    stored = [
        Stored(
            one.id,
            tuple(sorted((one.length or 0.0, one.width or 0.0), reverse=True)),
            one.number,
            _sort_of(one),
        )
        for one in in_shed(plan, kind)
    ]
    piles = share(turned, stored, plan.span.first, grows=True, suits=suits, roll=roll)
    cuttings = []
    longest = {width: max(length for length, wide in rolls if wide == width) for width in widths}
    for (sort, width), wanted in _strips(piles, widths, longest).items():
        bars = frozenset(Bar(millimetres(length)) for length, wide in rolls if wide == width)
        inputs = CuttingInputs(frozenset(_pieces(wanted).items()), bars)
        cuts = plan.cached(cut_list_of, (kind, sort, width), inputs)
        cuttings.append(Cutting(width, sort, cuts))
    return Material(kind, piles, tuple(cuttings))


def _strips(
    piles: Iterable[Pile], widths: Sequence[float], longest: Mapping[float, float]
) -> dict[tuple[Sort, float], list[tuple[float, int]]]:
    """Lengths to cut from rolls of each sort and width, and how many.

    Of narrow sheets several lie side by side; one that is longer than its roll is made of several, overlapping.
    """
    alike: dict[tuple[Sort, float, tuple[float, ...]], int] = {}
    for pile in piles:
        if pile.origin == "new" and widths:
            roll, strips = _roll_for(pile.size[1], widths)
            key = (cast("Sort", pile.sort), roll, pile.size)
            alike[key] = alike.get(key, 0) + pile.number * strips
    found: dict[tuple[Sort, float], list[tuple[float, int]]] = {}
    for (sort, roll, size), number in alike.items():
        beside = max(1, int(roll / size[1] + 1e-6))
        parts = max(1, strips_of(size[0], longest[roll]))
        length = (size[0] + OVERLAP * (parts - 1)) / parts
        found.setdefault((sort, roll), []).append((length, parts * -(-number // beside)))
    return dict(sorted(found.items(), key=lambda one: (one[0][1], str(one[0][0]))))


def _roll_for(width: float, widths: Sequence[float]) -> tuple[float, int]:
    """The narrowest roll as wide as a sheet; of a wider sheet the roll with the fewest strips, overlapping."""
    for roll in widths:
        if roll >= width - 1e-6:
            return roll, 1
    wide = [(strips_of(width, roll), roll) for roll in widths if roll > OVERLAP]
    if not wide:
        return widths[-1], math.ceil(width / widths[-1])
    number, roll = min(wide)
    return roll, number
