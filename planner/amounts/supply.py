"""Seed that is left of the lots: what was sown since a lot was counted is drawn from it.

A lot without a day on which it was counted holds its seeds at the beginning of whichever growing year is asked
about.  Of several lots that serve a planting the oldest is used up first.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from planner.amounts.begun import begun_on
from planner.amounts.lots import LotState, stock_states
from planner.amounts.plants import Amount, amount
from planner.garden import Planting
from planner.garden.planting import SEEDLESS
from planner.plan import Plan
from planner.season.spans import growing_year

#: A crop's key and the variety's name in lower case, empty where none is named.
VarietyKey = tuple[str, str]


@dataclass
class LotSupply:
    """A lot and what is left of it.

    Attributes
    ----------
    state : LotState
        In the growing year asked about.
    since : date
        The day on which its seeds were there.
    left : int or None
        Seeds; None where they cannot be counted.
    """

    state: LotState
    since: dt.date
    left: int | None

    def serves(self, day: dt.date, year: int) -> bool:
        """Whether seed of it could be sown on a day of a growing year."""
        last = self.state.last_good_year
        return not self.state.dead and self.since <= day and (last is None or year <= last)


class Supply:
    """What is left of a garden's lots in the course of its sowings.

    Parameters
    ----------
    plan : Plan
        Whose growing year is asked about; sowings of earlier years are drawn from the lots counted before them.
    counts : callable, optional
        Which of those sowings are drawn; all by default.
    """

    def __init__(self, plan: Plan, counts: Callable[[Planting], bool] = lambda _: True) -> None:
        self.plan, self._counts = plan, counts
        self.lots: dict[VarietyKey, list[LotSupply]] = {}
        states = stock_states(plan.garden, plan.catalogue, plan.year)
        for state in sorted(states, key=lambda state: state.lot.packed or dt.MAXYEAR):
            key = (state.lot.crop, state.lot.variety.casefold())
            since = state.lot.counted or plan.span.first
            self.lots.setdefault(key, []).append(LotSupply(state, since, state.seeds))
        self._draw_earlier_years()

    def _draw_earlier_years(self) -> None:
        plan, crops = self.plan, {crop for crop, _ in self.lots}
        counted = [lot.since for lots in self.lots.values() for lot in lots]
        if not counted or min(counted) >= plan.span.first:
            return
        sown = [
            (day, planting)
            for planting in plan.garden.plantings
            if planting.crop in crops
            and (day := begun_on(plan, planting)) is not None
            and min(counted) <= day < plan.span.first
            and plan.dates(planting).start not in SEEDLESS
            and self._counts(planting)
        ]
        for day, planting in sorted(sown, key=lambda one: (one[0], not one[1].variety, one[1].id)):
            self.draw(amount(plan, planting), day)

    def sources(self, key: VarietyKey) -> list[VarietyKey]:
        """The varieties whose lots serve a planting: its own; where it names none, then all others of its crop."""
        if key[1]:
            return [key]
        return [key, *(other for other in self.lots if other[0] == key[0] and other[1])]

    def serving(self, key: VarietyKey) -> list[LotSupply]:
        """The lots that serve a planting, in the order in which they are used up."""
        return [lot for source in self.sources(key) for lot in self.lots.get(source, ())]

    def counted_last(self, key: VarietyKey) -> dt.date:
        """The day from which sowings draw on lots as they are now: that of the latest count, whatever was sown before."""
        days = (lot.since for lot in self.serving(key) if not lot.state.lot.ordered)
        return max(days, default=self.plan.span.first)

    def draw(self, part: Amount, day: dt.date) -> None:
        """Take the seed of a planting from the lots that were there on its day."""
        key = (part.planting.crop, part.planting.variety.casefold())
        year = growing_year(self.plan.garden.site, day)
        there = (lot for lot in self.serving(key) if not lot.state.lot.ordered)
        take(part.seeds or 0, (lot for lot in there if lot.serves(day, year)))


def take(seeds: int, lots: Iterable[LotSupply]) -> int:
    """Take seeds from lots, one after another; of a lot that cannot be counted, what the others do not hold.

    Returns
    -------
    int
        Seeds that none of those that can be counted held.
    """
    for lot in lots:
        if lot.left is not None:
            taken = min(lot.left, seeds)
            lot.left, seeds = lot.left - taken, seeds - taken
    return seeds


def total(lots: Sequence[LotSupply]) -> int | None:
    """Seeds left in all of some lots; None where one cannot be counted."""
    counts = [lot.left for lot in lots]
    return None if None in counts else sum(count or 0 for count in counts)
