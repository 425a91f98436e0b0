"""What is in use when, from the shed or to be bought: sheets, bars and what is counted."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, cast, get_args

from planner.amounts.cutting import Bar, CutList, millimetres
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
BAR_OVERLAP: dict[MaterialKind, float] = {"rail": 0.30, "pole": 0.30, "wire": 0.10}
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

    def cut(cut_all: bool) -> Material:
        piles = share(jobs, stored, plan.span.first, whole_below=CUT_FROM, cut_all=cut_all)
        return _cut_bars(plan, kind, piles, cut_all=cut_all)

    return _the_cheapest(lambda: cut(False), lambda: cut(True))


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


def _cut_bars(plan: Plan, kind: MaterialKind, piles: tuple[Pile, ...], *, cut_all: bool) -> Material:
    """Cut what is new of bars, poles and rolls from what the shed still has and from what is sold."""
    new = _pieces((pile.size[0], pile.number) for pile in piles if pile.origin == "new")
    if not new:
        return Material(kind, piles)
    used = Material(kind, piles).used_of_shed
    there: Counter[int] = Counter()
    for one in in_shed(plan, kind):
        there[millimetres(one.length or 0.0)] += one.number - used.get(one.id, 0)
    bars = [Bar(length, number) for length, number in there.items() if number > 0]
    bars += [Bar(millimetres(length)) for length in bars_sold(kind, plan.garden.shed, plan.garden.site.units)]
    inputs = BarsInputs(
        frozenset(new.items()), frozenset(bars), millimetres(_overlap(plan, BAR_OVERLAP.get(kind, 0.0)))
    )
    cuts = plan.cached(bar_list_of, (kind, cut_all), inputs)
    _count_cut(piles, cuts)
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


def _count_cut(piles: Iterable[Pile], cuts: CutList, beside: Mapping[float, int] | None = None) -> None:
    """Note for each pile how many of its new pieces are cut from what is in the shed."""
    there: Counter[int] = Counter()
    for cut in cuts.cuts:
        if cut.on_hand:
            for length, number in cut.pieces:
                there[length] += number * cut.times
            for length, _, number in cut.of:
                there[length] -= number * cut.times
    for one in cuts.joined:
        if one.on_hand:
            there[one.length] += one.times
    for pile in piles:
        if pile.origin == "new":
            length, together = millimetres(pile.size[0]), (beside or {}).get(pile.size[-1], 1)
            taken = min(-(-(pile.number - pile.cut) // together), there[length])
            there[length] -= taken
            pile.cut = min(pile.number, pile.cut + taken * together)


def _overlap(plan: Plan, overlap: float) -> float:
    """An overlap in whole steps of the garden's units. [m]"""
    return cut_length(overlap, plan.garden.site.units)


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

    def cut(cut_all: bool, beside: bool = True) -> Material:
        piles = share(turned, stored, plan.span.first, grows=True, cut_all=cut_all, suits=suits, roll=roll)
        return _cut_sheets(plan, kind, piles, rolls, (cut_all, beside))

    ways = [lambda: cut(False), lambda: cut(True), lambda: cut(True, False)]
    return _the_cheapest(*(ways if stored else ways[:1]))


def _cut_sheets(
    plan: Plan,
    kind: MaterialKind,
    piles: tuple[Pile, ...],
    rolls: Sequence[tuple[float, float]],
    way: tuple[bool, bool],
) -> Material:
    """Cut what is new of sheets from what the shed still has and from the rolls that are sold.

    Parameters
    ----------
    plan : Plan
    kind : str
    piles : tuple of Pile
    rolls : sequence of (float, float)
        Length and width of those that are sold. [m]
    way : tuple of (bool, bool)
        All in the shed is cut; narrow sheets are cut side by side.
    """
    widths = sorted({width for _, width in rolls})
    used = Material(kind, piles).used_of_shed
    there = [_Left(one, one.number - used.get(one.id, 0)) for one in in_shed(plan, kind)]
    cuttings = []
    groups = _strips(piles, widths, beside=way[1])
    # What must be of one sort takes from the shed before what may be of any, wide sheets before narrow ones.
    for sort, width in sorted(groups, key=lambda one: (one[0] == ANY, -one[1], str(one[0]))):
        strips = groups[sort, width]
        wide = max(one.width for one in strips)
        bars: Counter[tuple[int, int]] = Counter()
        for left in there:
            if left.number > 0 and suits(_sort_of(left.item), sort):
                bars[left.length, left.width] += left.number * left.lanes(wide)
        sold = [Bar(millimetres(length)) for length, of_width in rolls if of_width == width]
        inputs = JoiningInputs(
            frozenset(_pieces((one.length, one.number) for one in strips).items()),
            frozenset((*sold, *(Bar(at[0], number, at[1]) for at, number in bars.items() if number))),
            millimetres(_overlap(plan, OVERLAP)),
        )
        cuts = plan.cached(joined_list_of, (kind, sort, width, *way), inputs)
        _take_down(there, cuts, wide, sort)
        of_group = [
            pile for pile in piles if pile.sort == sort and _roll_for(pile.size[1], widths) == (width, 1)
        ]
        _count_cut(
            of_group, cuts, {pile.size[1]: _beside(width, pile) for pile in of_group} if way[1] else None
        )
        cuttings.append(Cutting(width, sort, cuts, wide))
    return Material(kind, piles, tuple(sorted(cuttings, key=lambda one: (one.width, str(one.sort)))))


@dataclass
class _Left:
    """What is left to be cut of an item of the shed."""

    item: ShedItem
    number: int

    @property
    def length(self) -> int:
        """Its longer side. [mm]"""
        return millimetres(max(self.item.length or 0.0, self.item.width or 0.0))

    @property
    def width(self) -> int:
        """Its shorter side. [mm]"""
        return millimetres(min(self.item.length or 0.0, self.item.width or 0.0))

    def lanes(self, width: float) -> int:
        """Strips of a width that lie side by side on one."""
        return self.width // max(1, millimetres(width))


def _take_down(there: Iterable[_Left], cuts: CutList, wide: float, sort: Sort) -> None:
    """Take what is cut off what is left in the shed; a sheet that is cut is not whole again."""
    strips: Counter[tuple[int, int]] = Counter()
    for cut in cuts.cuts:
        if cut.on_hand:
            strips[cut.bar, cut.width] += cut.times
    for left in there:
        wanted, lanes = strips[left.length, left.width], left.lanes(wide)
        if wanted and lanes and suits(_sort_of(left.item), sort):
            taken = min(left.number, -(-wanted // lanes))
            left.number -= taken
            strips[left.length, left.width] -= min(wanted, taken * lanes)


class _Strip(NamedTuple):
    """Sheets, or strips of a wide one, of one size: length, width [m] and number."""

    length: float
    width: float
    number: int


def _beside(roll: float, pile: Pile) -> int:
    """How many narrow sheets of a pile lie side by side on a roll."""
    return max(1, min(pile.number, int(roll / pile.size[1] + 1e-6)))


def _strips(
    piles: Iterable[Pile], widths: Sequence[float], *, beside: bool
) -> dict[tuple[Sort, float], list[_Strip]]:
    """What is cut from rolls of each sort and width.

    Of narrow sheets several lie side by side where they may; one that is wider than its roll is made of several strips, overlapping.
    """
    alike: dict[tuple[Sort, float, tuple[float, ...]], list[Pile]] = {}
    for pile in piles:
        if pile.origin == "new" and widths:
            roll, _ = _roll_for(pile.size[1], widths)
            alike.setdefault((cast("Sort", pile.sort), roll, pile.size), []).append(pile)
    found: dict[tuple[Sort, float], list[_Strip]] = {}
    for (sort, roll, size), of_size in alike.items():
        number, strips = sum(pile.number for pile in of_size), _roll_for(size[1], widths)[1]
        together = max(1, min(number, int(roll / size[1] + 1e-6))) if beside else 1
        width = roll if strips > 1 else together * size[1]
        strip = _Strip(size[0], width, -(-number // together) * strips)
        found.setdefault((sort, roll), []).append(strip)
    return found


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
