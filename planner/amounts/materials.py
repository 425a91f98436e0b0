"""What is in use when, from the shed or to be bought: sheets, bars and what is counted."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, cast, get_args

from planner.amounts.cuts import Bar, CutList
from planner.amounts.cutting import millimetres
from planner.amounts.from_shed import Left, OfSize, cut_first, note_got, pieces_of, take_down
from planner.amounts.joining import JoiningInputs, joined_list_of
from planner.amounts.long_pieces import bar_list
from planner.amounts.sharing import Job, Pile, Stored, most_in_use, share
from planner.amounts.sold_sizes import bars_sold, cut_length, rolls_sold
from planner.garden import ShedItem
from planner.garden.materials import BarKind, MaterialKind, SheetKind
from planner.ground.covers import OVERLAP, strips_of
from planner.plan import Plan
from planner.plan.cache import fact

#: Poles in the shed that are so many times as long as a piece are cut instead of taken whole.
CUT_FROM = 2.0
#: Overlap of what is joined where it is longer than any that is sold: rails and ridge poles lashed or bolted, wire twisted
#: (practice).  Posts, stakes, sticks, hoops and string are not joined. [m]
BAR_OVERLAP: dict[MaterialKind, float] = {"rail": 0.30, "pole": 0.30, "wire": 0.10, "water pipe": 0.05}
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
    strip : float
        Width of the strips that are cut from wider pieces in the shed. [m]
    """

    width: float
    sort: Sort
    cuts: CutList
    strip: float = 0.0


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


def _the_cheapest(*ways: Callable[[], Material]) -> Material:
    """The first of some ways to take from the shed with which least must be bought; the rest are not tried once nothing must."""
    best: Material | None = None
    for way in ways:
        found = way()
        if best is None or _to_buy(found) < _to_buy(best):
            best = found
        if not any(_to_buy(best)):
            break
    assert best is not None
    return best


def _to_buy(material: Material) -> tuple[int, float]:
    """Pieces that are too long for all that there is, and the length or area to be bought."""
    cuttings = material.cuttings
    too_long = sum(number for one in cuttings for _, number in one.cuts.too_long)
    return too_long, math.fsum(one.cuts.bought * (one.width or 1.0) for one in cuttings)


def _left(plan: Plan, kind: MaterialKind, piles: tuple[Pile, ...]) -> list[Left]:
    """What the shed still has of a kind beside what is used as it is; what is uncut is not used so."""
    used = Material(kind, piles).used_of_shed
    return [Left(one, one.number - used.get(one.id, 0)) for one in in_shed(plan, kind)]


def _overlap(plan: Plan, overlap: float) -> int:
    """An overlap in whole steps of the garden's units. [m -> mm]"""
    return millimetres(cut_length(overlap, plan.garden.site.units))


# -- bars, poles and wire -----------------------------------------------------------------------------------


def _bars(plan: Plan, kind: MaterialKind, jobs: Sequence[Job]) -> Material:
    items = in_shed(plan, kind)
    stored = [_stored(plan, one, (one.length or 0.0,)) for one in items if not one.uncut]

    def cut(cut_all: bool) -> Material:
        piles = share(jobs, stored, plan.span.first, whole_below=CUT_FROM, cut_all=cut_all)
        return _cut_bars(plan, kind, piles, cut_all=cut_all)

    return _the_cheapest(lambda: cut(False), lambda: cut(True))


def _cut_bars(plan: Plan, kind: MaterialKind, piles: tuple[Pile, ...], *, cut_all: bool) -> Material:
    """Cut what is new of bars, poles and rolls from what the shed still has and from what is sold."""
    by_size: dict[tuple[float, ...], list[Pile]] = {}
    for pile in piles:
        if pile.origin == "new":
            by_size.setdefault(pile.size, []).append(pile)
    if not by_size:
        return Material(kind, piles)
    sizes = [OfSize(tuple(of_size)) for of_size in by_size.values()]
    wanted = frozenset(pieces_of(sizes).items())
    sold = [Bar(millimetres(length)) for length in bars_sold(kind, plan.garden.shed, plan.garden.site.units)]
    overlap = _overlap(plan, BAR_OVERLAP.get(kind, 0.0))

    def cut(there: tuple[Bar, ...], left_out: str) -> CutList:
        inputs = BarsInputs(wanted, frozenset((*sold, *there)), overlap)
        return plan.cached(bar_list_of, (kind, cut_all, left_out), inputs)

    left = _left(plan, kind, piles)
    cuts = cut_first(left, 0.0, cut)
    note_got(sizes, take_down(left, cuts, 0.0))
    return Material(kind, piles, (Cutting(0.0, ANY, cuts),))


class BarsInputs(NamedTuple):
    """What the cut list of bars depends on: pieces and bars [mm], and the overlap where pieces are joined; 0 where not."""

    pieces: frozenset[tuple[int, int]]
    bars: frozenset[Bar]
    overlap: int


@fact("cut list of bars")
def bar_list_of(inputs: BarsInputs) -> CutList:
    """The cut list of bars, poles or wires; what is longer than any is joined where its kind may be."""
    return bar_list(dict(inputs.pieces), inputs.bars, inputs.overlap)


# -- sheets --------------------------------------------------------------------------------------------------


def _sheets(plan: Plan, kind: MaterialKind, jobs: Sequence[Job]) -> Material:
    widths = sorted({width for _, width in _rolls(plan, kind, ANY)})

    def roll(width: float) -> float:
        return next((one for one in widths if one >= width - 1e-6), width)

    items = in_shed(plan, kind)
    turned = [job._replace(size=tuple(sorted(job.size, reverse=True))) for job in jobs]
    stored = [
        _stored(plan, one, tuple(sorted((one.length or 0.0, one.width or 0.0), reverse=True)), _sort_of(one))
        for one in items
        if not one.uncut
    ]

    def cut(cut_all: bool, beside: bool = True) -> Material:
        piles = share(turned, stored, plan.span.first, grows=True, cut_all=cut_all, suits=suits, roll=roll)
        return _cut_sheets(plan, kind, piles, (cut_all, beside))

    ways = [lambda: cut(False), lambda: cut(True), lambda: cut(True, False)]
    return _the_cheapest(*(ways if items else ways[:1]))


def _rolls(plan: Plan, kind: MaterialKind, sort: Sort) -> tuple[tuple[float, float], ...]:
    """Length and width of the rolls of a sort that can be bought; one whose sort is not known may be any. [m]"""
    shed = tuple(one for one in plan.garden.shed if may_be(one, sort))
    return rolls_sold(kind, shed, plan.garden.site.units)


def may_be(item: ShedItem, sort: Sort) -> bool:
    """Whether a sheet may be of a sort: it is, or nothing is said of it."""
    weight = item.weight if item.weight is not None else sort.weight
    mesh = item.mesh if item.mesh is not None else sort.mesh
    return suits(Sort(weight, mesh), sort)


def _cut_sheets(plan: Plan, kind: MaterialKind, piles: tuple[Pile, ...], way: tuple[bool, bool]) -> Material:
    """Cut what is new of sheets from what the shed still has and from the rolls that are sold.

    Parameters
    ----------
    plan : Plan
    kind : str
    piles : tuple of Pile
    way : tuple of (bool, bool)
        All in the shed is cut; narrow sheets are cut side by side.
    """
    new: dict[Sort, list[Pile]] = {}
    for pile in piles:
        if pile.origin == "new":
            new.setdefault(cast("Sort", pile.sort), []).append(pile)
    left = _left(plan, kind, piles)
    cuttings: list[Cutting] = []
    # What must be of one sort takes from the shed before what may be of any, finer nets before coarser ones.
    for sort in sorted(new, key=lambda one: (one == ANY, one.weight or 0.0, one.mesh or 0.0)):
        there = [one for one in left if suits(_sort_of(one.item), sort)]
        wanted = _on_rolls(new[sort], _rolls(plan, kind, sort), beside=way[1])
        cuttings += [_from_rolls(plan, (kind, *way), sort, one, there) for one in wanted]
    return Material(kind, piles, tuple(sorted(cuttings, key=lambda one: (one.width, str(one.sort)))))


class _OnRolls(NamedTuple):
    """New sheets that are cut from rolls of one width [m], which are sold in some lengths [mm]."""

    width: float
    lengths: tuple[int, ...]
    sizes: tuple[OfSize, ...]


def _from_rolls(
    plan: Plan, key: tuple[object, ...], sort: Sort, wanted: _OnRolls, there: Sequence[Left]
) -> Cutting:
    """Cut new sheets of a sort from rolls of a width, and take down what is left in the shed; the key names the list."""
    strip = max(one.width for one in wanted.sizes)
    pieces, overlap = frozenset(pieces_of(wanted.sizes).items()), _overlap(plan, OVERLAP)

    def cut(bars: tuple[Bar, ...], left_out: str) -> CutList:
        inputs = JoiningInputs(pieces, frozenset((*map(Bar, wanted.lengths), *bars)), overlap)
        return plan.cached(joined_list_of, (*key, sort, wanted.width, left_out), inputs)

    cuts = cut_first(there, strip, cut)
    note_got(wanted.sizes, take_down(there, cuts, strip))
    return Cutting(wanted.width, sort, cuts, strip)


def _on_rolls(piles: Iterable[Pile], rolls: Sequence[tuple[float, float]], *, beside: bool) -> list[_OnRolls]:
    """From which rolls new sheets are cut, the widest first.

    Of narrow sheets several lie side by side where they may; one that is wider than its roll is made of several strips, overlapping.
    """
    widths = sorted({width for _, width in rolls})
    by_size: dict[tuple[float, ...], list[Pile]] = {}
    for pile in piles if widths else ():
        by_size.setdefault(pile.size, []).append(pile)
    found: dict[float, list[OfSize]] = {}
    for size, of_size in by_size.items():
        roll, strips = _roll_for(size[1], widths)
        number = sum(pile.number for pile in of_size)
        together = max(1, min(number, int(roll / size[1] + 1e-6))) if beside else 1
        width = roll if strips > 1 else together * size[1]
        found.setdefault(roll, []).append(OfSize(tuple(of_size), width, together, strips))
    return [
        _OnRolls(
            roll,
            tuple(millimetres(length) for length, width in rolls if width == roll),
            tuple(found[roll]),
        )
        for roll in sorted(found, reverse=True)
    ]


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
