"""The relaxation of a puzzle by its beds: a bound that no layout costs less than, and the options that good layouts are made of.

Dantzig-Wolfe decomposition, solved by column generation.  A pattern is a set of options that may lie in one bed together.
A linear program shares the beds among patterns, each wish being met once; what its rows cost (their dual values) are the
prices that wishes pay for each part.  At any prices the cheapest pattern of each bed, and the cheapest way of each wish,
cost together no more than any layout (the Lagrangian bound): all that is rounded is rounded before that sum is made in
whole numbers, so it holds whatever the linear program did.  Prices are taken between the best ones so far and those of the
program, which keeps them from swinging (Wentges 1997).  What is a good pattern of one bed is tried in all others, which is quick and
saves most of the steps.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from concurrent.futures import Executor
from typing import Any, NamedTuple

from planner.proposal.bed_model import BedModel
from planner.proposal.layout_model import linear_solver
from planner.proposal.puzzle import Layout, Puzzle
from planner.proposal.puzzle_index import PuzzleIndex

#: Prices are whole hundredths.
SCALE = 100
#: Share of the best prices so far in those that are tried next.
KEPT = 0.6
#: Deterministic time that one solution of the linear program counts as.
LINEAR = 0.05
#: Most new patterns that a bed takes from others at one time, of the cheapest so many that are looked at.
TAKEN, LOOKED_AT = 4, 12
#: So often patterns are handed on, as long as so many new ones come of it each time: at first, and in each step.
AT_FIRST, IN_STEP, WORTH_IT = 8, 2, 10
#: The bound and the value of the linear program are as good as one when they are this near. [share]
NEAR = 0.0005


class Stint(NamedTuple):
    """What there is of a resource from a day on, and how much each option uses of it then."""

    limit: int
    amounts: Mapping[int, int]


class Prices(NamedTuple):
    """What is paid, in hundredths of a point.

    Attributes
    ----------
    parts : dict
        For each wish and way by what is paid for each part.
    beds : dict
        For each wish, way and bed what a part there costs beside, none of them less than nothing.
    stints : tuple of int
        For each stint what a unit of it costs, none of them less than nothing.
    """

    parts: dict[tuple[int, int], int]
    beds: dict[tuple[int, int, int], int]
    stints: tuple[int, ...]

    def towards(self, other: Prices, share: float) -> Prices:
        """Prices between these and others: so much of these."""

        def between(one: int, two: int) -> int:
            return round(share * one + (1 - share) * two)

        return Prices(
            {key: between(self.parts[key], price) for key, price in other.parts.items()},
            {key: between(self.beds[key], price) for key, price in other.beds.items()},
            tuple(between(one, two) for one, two in zip(self.stints, other.stints, strict=True)),
        )


class Decomposition:
    """The relaxation of a puzzle, bettered step by step.

    Parameters
    ----------
    index : PuzzleIndex
    layout : tuple of Choice
        Without faults: its patterns are the first.

    Attributes
    ----------
    bound : int or None
        No layout costs less; None before the first step.
    done : bool
        Whether no further step would better it.
    spent : float
        Deterministic time so far.
    rounds : int
        Rounds of a search that it had a part in; for the search to count.
    """

    def __init__(self, index: PuzzleIndex, layout: Layout = ()) -> None:
        self.index, self.puzzle = index, index.puzzle
        options = self.puzzle.options
        self.bound: int | None = None
        self.done, self.spent, self.rounds = False, 0.0, 0
        self._ways: dict[tuple[int, int], tuple[int, tuple[int, ...]]] = {}
        by_bed: dict[int, list[int]] = defaultdict(list)
        for wish, ways in enumerate(index.ways):
            for way in ways:
                self._ways[wish, options[way.options[0]].way] = way.parts, way.options
                for number in way.options:
                    by_bed[options[number].bed].append(number)
        self._beds = [BedModel(self.puzzle, bed, tuple(sorted(by_bed[bed])), SCALE) for bed in sorted(by_bed)]
        self._stints = tuple(_stints(self))
        self._used: dict[int, list[tuple[int, int]]] = defaultdict(list)
        for place, stint in enumerate(self._stints):
            for number, amount in stint.amounts.items():
                self._used[number].append((place, amount))
        self._program = _Program(self)
        for model in self._beds:
            for number in model.options:
                self._program.add(model, (number,))
        self._wanted: dict[tuple[tuple[int, int], ...], None] = {}  # wish and way of each option of a pattern
        self._fresh = False  # whether there are patterns of layouts that are not handed on yet
        self.learn(layout)
        self._best: Prices | None = None
        self._lowest: int | None = None  # the bound in hundredths

    def learn(self, layout: Layout) -> None:
        """Take the patterns of a layout.

        Parameters
        ----------
        layout : tuple of Choice
            Without faults.
        """
        chosen: dict[int, list[int]] = defaultdict(list)
        for choice in layout:
            chosen[self.puzzle.options[choice.option].bed].append(choice.option)
        for model in self._beds:
            if pattern := tuple(sorted(chosen.get(model.bed, ()))):
                self._program.add(model, pattern)
                self._fresh |= self._note(pattern) is not None

    def bounds(self, puzzle: Puzzle) -> bool:
        """Whether what it proves holds for a puzzle: it is this one, or has more choices that may not all be made."""
        return self.puzzle._replace(nevers=()) == puzzle._replace(nevers=()) and set(
            self.puzzle.nevers
        ) <= set(puzzle.nevers)

    @property
    def prices(self) -> Prices:
        """Those of the linear program as it is now."""
        return self._program.solve()[1]

    def at(self, prices: Prices, pool: Executor) -> bool:
        """Work out the bound at some prices, and take the patterns that are cheapest at these; whether any of them is new.

        Parameters
        ----------
        prices : Prices
        pool : Executor
        """
        costs = self._costs(prices)
        found = list(pool.map(lambda model: model.cheapest(costs), self._beds))
        self.spent += sum(pattern.spent for pattern in found)
        total = self._of_wishes(prices) - sum(
            price * stint.limit for price, stint in zip(prices.stints, self._stints, strict=True)
        )
        total += sum(pattern.least for pattern in found)
        if self._lowest is None or total > self._lowest:
            self._lowest, self._best = total, prices
            self.bound = -(-total // SCALE)  # costs are whole numbers
        new = [
            pattern.options
            for model, pattern in zip(self._beds, found, strict=True)
            if self._program.add(model, pattern.options)
        ]
        self._hand_on(IN_STEP, [noted for pattern in new if (noted := self._note(pattern))])
        return bool(new)

    def go_on(self, pool: Executor, effort: float, ended: Callable[[], bool] = lambda: False) -> None:
        """Take steps until some deterministic time is spent, or none betters the bound any more.

        Parameters
        ----------
        pool : Executor
        effort : float
        ended : callable
            Whether to take no more.
        """
        most = self.spent + effort
        while not self.done and self.spent < most and not ended():
            self.step(pool)

    def step(self, pool: Executor) -> None:
        """Solve the linear program, and find the cheapest pattern of each bed at new prices.

        Parameters
        ----------
        pool : Executor
            In which beds are worked on side by side; what comes out does not depend on it.
        """
        if self._fresh:
            self._fresh = False
            self._hand_on(AT_FIRST, self._wanted)
        value, prices = self._program.solve()
        self.spent += LINEAR
        if self._lowest is not None and value * SCALE - self._lowest <= max(
            SCALE / 2, NEAR * abs(value) * SCALE
        ):
            self.done = True
            return
        tried = prices if self._best is None else self._best.towards(prices, KEPT)
        if not self.at(tried, pool) and not (tried != prices and self.at(prices, pool)):
            self.done = True

    def promising(self, most: float) -> tuple[int, ...]:
        """Options of patterns that would add no more than so much to the value of the linear program.

        Parameters
        ----------
        most : float
        """
        self._program.solve()
        return self._program.promising(most)

    def _note(self, pattern: tuple[int, ...]) -> tuple[tuple[int, int], ...] | None:
        """What a pattern is made of, whatever its bed; None where that is known."""
        options = self.puzzle.options
        wanted = tuple(sorted((options[number].wish, options[number].way) for number in pattern))
        if wanted in self._wanted:
            return None
        self._wanted[wanted] = None
        return wanted

    def _hand_on(self, times: int, patterns: Iterable[tuple[tuple[int, int], ...]]) -> None:
        """Try patterns in all beds, and then all patterns at the prices that follow, so many times at the most."""
        some = tuple(patterns)
        for _ in range(times):
            costs = self._costs(self._program.solve()[1])
            self.spent += LINEAR
            if sum(self._take_over(model, some, costs, times == AT_FIRST) for model in self._beds) < WORTH_IT:
                return
            some = tuple(self._wanted)

    def _take_over(
        self,
        model: BedModel,
        patterns: Iterable[tuple[tuple[int, int], ...]],
        costs: Mapping[int, int],
        dense: bool,
    ) -> int:
        """Add what is cheapest of patterns in a bed, and would better the linear program; how many these are."""
        rent, tried = self._program.rents[model.bed], {}
        for pattern in patterns:
            here = [number for one in pattern if (number := model.option_of.get(one)) is not None]
            worth = sorted((costs[number], number) for number in here if costs[number] < 0)
            if sum(cost for cost, _ in worth) >= rent:
                continue  # it would not be worth its bed even if all of it had room
            fitting = model.fitting(number for _, number in worth)
            tried[fitting] = sum(costs[number] for number in fitting)
        for fitting in model.dense(costs) if dense else ():
            tried[fitting] = sum(costs[number] for number in fitting)
        added = 0
        for fitting, cost in sorted(tried.items(), key=lambda one: (one[1], one[0]))[:LOOKED_AT]:
            options = self.puzzle.options
            beside = model.cost_of(fitting) - sum(options[number].cost for number in fitting)
            if added < TAKEN and cost + SCALE * beside < rent - 1:
                added += self._program.add(model, fitting)
        return added

    def _of_wishes(self, prices: Prices) -> int:
        """What the wishes pay at the least, or cost unmet."""
        beside: dict[tuple[int, int], int] = defaultdict(int)
        for (wish, way, _), price in prices.beds.items():
            beside[wish, way] += price
        least = [SCALE * cost for cost in self.puzzle.unmet]
        for (wish, way), (parts, _) in self._ways.items():
            least[wish] = min(least[wish], prices.parts[wish, way] * parts - beside[wish, way])
        return sum(least)

    def _costs(self, prices: Prices) -> dict[int, int]:
        """What each option costs beyond what its wish pays."""
        options, found = self.puzzle.options, {}
        for (wish, way), (_, numbers) in self._ways.items():
            paid = prices.parts[wish, way]
            for number in numbers:
                option = options[number]
                cost = SCALE * option.cost - paid + prices.beds.get((wish, way, option.bed), 0)
                for place, amount in self._used.get(number, ()):
                    cost += prices.stints[place] * amount
                found[number] = cost
        return found


def _stints(of: Decomposition) -> Iterable[Stint]:
    """The days on which there may be too little of a resource, each for all days with the same users."""
    options = of.puzzle.options
    numbers = [number for _, some in of._ways.values() for number in some]
    for resource, limit in enumerate(of.puzzle.limits):
        uses = [
            (number, use) for number in numbers for use in options[number].uses if use.resource == resource
        ]
        seen: set[frozenset[int]] = set()
        for day in sorted({use.first for _, use in uses}):
            amounts: dict[int, int] = defaultdict(int)
            for number, use in uses:
                if use.first <= day <= use.last:
                    amounts[number] += use.amount
            if frozenset(amounts) not in seen and sum(amounts.values()) > limit:
                seen.add(frozenset(amounts))
                yield Stint(limit, dict(amounts))


class _Program:
    """The linear program over the patterns that are known so far.

    Attributes
    ----------
    rents : dict of int to float
        What each bed costs at the prices of the last solution, in hundredths: less than nothing, or nothing.
    """

    def __init__(self, of: Decomposition) -> None:
        self.of = of
        self._solver: Any = linear_solver()
        self._objective = self._solver.Objective()
        self._objective.SetMinimization()
        self._known: dict[tuple[int, Sequence[int]], Any] = {}
        self.rents: dict[int, float] = {}
        no_end = self._solver.infinity()
        options = of.puzzle.options
        wishes = []
        for cost in of.puzzle.unmet:
            row, unmet = self._solver.Constraint(1, 1), self._solver.NumVar(0, no_end, "")
            row.SetCoefficient(unmet, 1)
            self._objective.SetCoefficient(unmet, cost)
            wishes.append(row)
        self._parts, self._in_bed = {}, {}
        for (wish, way), (parts, numbers) in of._ways.items():
            taken = self._solver.NumVar(0, no_end, "")
            wishes[wish].SetCoefficient(taken, 1)
            row = self._parts[wish, way] = self._solver.Constraint(0, 0)
            row.SetCoefficient(taken, -parts)
            for bed in sorted({options[number].bed for number in numbers}) if parts > 1 else ():
                row = self._in_bed[wish, way, bed] = self._solver.Constraint(-no_end, 0)
                row.SetCoefficient(taken, -1)
        self._of_bed = {model.bed: self._solver.Constraint(-no_end, 1) for model in of._beds}
        self._of_stint = [self._solver.Constraint(-no_end, stint.limit) for stint in of._stints]

    def add(self, model: BedModel, pattern: tuple[int, ...]) -> bool:
        """Add a pattern of a bed; whether it is new."""
        if not pattern or (model.bed, pattern) in self._known:
            return False
        share = self._solver.NumVar(0, self._solver.infinity(), "")
        self._known[model.bed, pattern] = share
        self._objective.SetCoefficient(share, model.cost_of(pattern))
        self._of_bed[model.bed].SetCoefficient(share, 1)
        stints: dict[int, int] = defaultdict(int)
        for number in pattern:
            option = self.of.puzzle.options[number]
            self._parts[option.wish, option.way].SetCoefficient(share, 1)
            row = self._in_bed.get((option.wish, option.way, option.bed))
            if row is not None:
                row.SetCoefficient(share, 1)
            for place, amount in self.of._used.get(number, ()):
                stints[place] += amount
        for place, amount in stints.items():
            self._of_stint[place].SetCoefficient(share, amount)
        return True

    def solve(self) -> tuple[float, Prices]:
        """Its value, and the prices that follow from it."""
        self._solver.Solve()
        self.rents = {bed: SCALE * float(row.dual_value()) for bed, row in self._of_bed.items()}

        def dear(row: Any) -> int:
            return max(0, round(-SCALE * float(row.dual_value())))

        return float(self._objective.Value()), Prices(
            {key: round(SCALE * row.dual_value()) for key, row in self._parts.items()},
            {key: dear(row) for key, row in self._in_bed.items()},
            tuple(dear(row) for row in self._of_stint),
        )

    def promising(self, most: float) -> tuple[int, ...]:
        found: set[int] = set()
        for (_, pattern), share in self._known.items():
            if share.reduced_cost() <= most:
                found.update(pattern)
        return tuple(sorted(found))
