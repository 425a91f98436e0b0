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
    from_shed, from_order : int
        Pieces cut from bars, poles and rolls that are in the shed, and from those that are ordered.
    """

    width: float
    sort: Sort
    cuts: CutList
    from_shed: int = 0
    from_order: int = 0

    @property
    def pieces_bought(self) -> int:
        """Pieces that are cut from what is bought, and those longer than any that is sold."""
        cut = sum(one.times * number for one in self.cuts.cuts if not one.on_hand for _, number in one.pieces)
        return cut + sum(number for _, number in self.cuts.too_long)


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


def materials_of(plan: Plan, jobs: Mapping[MaterialKind, Sequence[Job]]) -> tuple[Material, ...]:
    """Share the materials of some jobs over time, the shed first, and cut what is new.

    Parameters
    ----------
    plan : Plan
        For what is in its garden's shed, and its growing year.
    jobs : mapping of str to sequence of Job
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
    """What of a kind is in the shed, or ordered for it."""
    return [one for one in plan.garden.shed if one.kind == kind and not one.sold and one.number]


def came_in_year(plan: Plan, item: ShedItem) -> bool:
    """Whether an item of the shed came in the growing year, or is still to come."""
    return item.ordered or (item.since is not None and item.since >= plan.span.first)


def _stored(plan: Plan, item: ShedItem, size: tuple[float, ...], sort: Sort | None = None) -> Stored:
    return Stored(item.id, size, item.number, sort, came_in_year(plan, item))


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
    stored = [_stored(plan, one, ()) for one in in_shed(plan, kind)]
    return Material(kind, share(jobs, stored, plan.span.first))


def _bars(plan: Plan, kind: MaterialKind, jobs: Sequence[Job]) -> Material:
    items = in_shed(plan, kind)
    stored = [_stored(plan, one, (one.length or 0.0,)) for one in items if not one.uncut]
    piles = share(jobs, stored, plan.span.first, whole_below=CUT_FROM)
    new = _pieces((pile.size[0], pile.number) for pile in piles if pile.origin == "new")
    if not new:
        return Material(kind, piles)
    used = Material(kind, piles).used_of_shed
    there = [_Left(one, one.number - used.get(one.id, 0)) for one in items]
    sold = [Bar(millimetres(length)) for length in bars_sold(kind, plan.garden.shed, plan.garden.site.units)]
    cutting = _cutting(plan, kind, (0.0, ANY), new, sold, there)
    return Material(kind, piles, (cutting,))


@dataclass
class _Left:
    """What is left of an item of the shed to be cut."""

    item: ShedItem
    number: int

    @property
    def length(self) -> int:
        """[mm]"""
        return int((self.item.length or 0.0) * 1000 + 1e-6)


def _cutting(
    plan: Plan,
    kind: MaterialKind,
    of: tuple[float, Sort],
    wanted: Mapping[int, int],
    sold: Sequence[Bar],
    there: Sequence[_Left],
) -> Cutting:
    """Cut pieces from what is sold and what is there, and take down what is left of that."""
    numbers: dict[int, int] = {}
    for one in there:
        if one.number > 0:
            numbers[one.length] = numbers.get(one.length, 0) + one.number
    bars = frozenset((*sold, *(Bar(length, number) for length, number in numbers.items())))
    inputs = CuttingInputs(frozenset(wanted.items()), bars)
    cuts = plan.cached(cut_list_of, (kind, *of), inputs)
    pieces = {False: 0, True: 0}
    for cut in cuts.cuts:
        bars_wanted = cut.times if cut.on_hand else 0
        for one in sorted(there, key=lambda left: left.item.ordered):  # what is there before what is ordered
            taken = min(bars_wanted, one.number) if one.length == cut.bar else 0
            one.number -= taken
            bars_wanted -= taken
            pieces[one.item.ordered] += taken * sum(number for _, number in cut.pieces)
    return Cutting(of[0], of[1], cuts, pieces[False], pieces[True])


def _pieces(wanted: Iterable[tuple[float, int]]) -> dict[int, int]:
    found: dict[int, int] = {}
    for length, number in wanted:
        found[millimetres(length)] = found.get(millimetres(length), 0) + number
    return found


def _sheets(plan: Plan, kind: MaterialKind, jobs: Sequence[Job]) -> Material:
    widths = sorted({width for _, width in _rolls(plan, kind, ANY)})

    def roll(width: float) -> float:
        return next((one for one in widths if one >= width - 1e-6), width)

    turned = [job._replace(size=tuple(sorted(job.size, reverse=True))) for job in jobs]
    stored = [
        _stored(plan, one, tuple(sorted((one.length or 0.0, one.width or 0.0), reverse=True)), _sort_of(one))
        for one in in_shed(plan, kind)
        if not one.uncut
    ]
    piles = share(turned, stored, plan.span.first, grows=True, suits=suits, roll=roll)
    new: dict[Sort, list[Pile]] = {}
    for pile in piles:
        if pile.origin == "new":
            new.setdefault(cast("Sort", pile.sort), []).append(pile)
    uncut = [_Left(one, one.number) for one in in_shed(plan, kind) if one.uncut]
    cuttings: list[Cutting] = []
    # What must be of one sort takes from the shed before what may be of any.
    for sort in sorted(new, key=lambda one: (one == ANY, str(one))):
        cuttings += _from_rolls(plan, kind, sort, new[sort], uncut)
    return Material(kind, piles, tuple(sorted(cuttings, key=lambda one: (one.width, str(one.sort)))))


def _rolls(plan: Plan, kind: MaterialKind, sort: Sort) -> tuple[tuple[float, float], ...]:
    """Length and width of the rolls of a sort that can be bought; one whose sort is not known may be any. [m]"""
    shed = tuple(one for one in plan.garden.shed if may_be(one, sort))
    return rolls_sold(kind, shed, plan.garden.site.units)


def may_be(item: ShedItem, sort: Sort) -> bool:
    """Whether a sheet may be of a sort: it is, or nothing is said of it."""
    weight = item.weight if item.weight is not None else sort.weight
    mesh = item.mesh if item.mesh is not None else sort.mesh
    return suits(Sort(weight, mesh), sort)


def _from_rolls(
    plan: Plan, kind: MaterialKind, sort: Sort, piles: Sequence[Pile], uncut: Sequence[_Left]
) -> list[Cutting]:
    """Cut the new sheets of a sort from rolls, those of the shed first."""
    rolls = _rolls(plan, kind, sort)
    widths = sorted({width for _, width in rolls})
    longest = {width: max(length for length, wide in rolls if wide == width) for width in widths}
    found = []
    for width, wanted in _strips(piles, widths, longest).items():
        sold = [Bar(millimetres(length)) for length, wide in rolls if wide == width]
        there = [
            one
            for one in uncut
            if suits(_sort_of(one.item), sort) and _widest(one.item.width or 0.0, widths) == width
        ]
        found.append(_cutting(plan, kind, (width, sort), _pieces(wanted), sold, there))
    return found


def _widest(width: float, widths: Sequence[float]) -> float:
    """The widest of some rolls that one of a width can stand for; 0 where it is narrower than all of them. [m]"""
    return max((one for one in widths if one <= width + 1e-6), default=0.0)


def _strips(
    piles: Iterable[Pile], widths: Sequence[float], longest: Mapping[float, float]
) -> dict[float, list[tuple[float, int]]]:
    """Lengths to cut from rolls of each width, and how many.

    Of narrow sheets several lie side by side; one that is longer than its roll is made of several, overlapping.
    """
    alike: dict[tuple[float, tuple[float, ...]], int] = {}
    for pile in piles:
        if widths:
            roll, strips = _roll_for(pile.size[1], widths)
            alike[roll, pile.size] = alike.get((roll, pile.size), 0) + pile.number * strips
    found: dict[float, list[tuple[float, int]]] = {}
    for (roll, size), number in alike.items():
        beside = max(1, int(roll / size[1] + 1e-6))
        parts = max(1, strips_of(size[0], longest[roll]))
        length = (size[0] + OVERLAP * (parts - 1)) / parts
        found.setdefault(roll, []).append((length, parts * -(-number // beside)))
    return dict(sorted(found.items()))


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
