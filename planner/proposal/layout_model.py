"""The model of a layout for OR-Tools CP-SAT: some options free, the rest chosen or not as it is.

One boolean for each option; the plantings of a bed must not be longer than its ground on any day.  That is not all there
is to where they lie, so what comes out is packed afterwards (:mod:`planner.proposal.packing`), and what cannot be
packed is cut off.  Beds in which something lies in the middle have the places in their model as well.

OR-Tools is installed by choice (``pip install bedwright[layouts]``) and imported when the first model is made.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from planner.errors import BedwrightError
from planner.proposal.packing import allowed_starts
from planner.proposal.puzzle import Block, Choice, Option, Puzzle, meet
from planner.words import say

#: Options of a bed that cannot be packed together; others of the same shape can neither.
Cut = frozenset[int]


class SolverError(BedwrightError):
    """OR-Tools is not installed."""


def cp_model() -> Any:
    """The module of OR-Tools that solves; it takes more than half a second to load.

    Raises
    ------
    SolverError
        Where it is not installed.
    """
    try:
        from ortools.sat.python import cp_model as module
    except ImportError:
        raise SolverError(
            say("Layouts are improved by OR-Tools, which is not installed"),
            fix=say("Install it with pip install ortools"),
        ) from None
    return module


def linear_solver() -> Any:
    """A solver of linear programs of OR-Tools (GLOP), without a program yet.

    Raises
    ------
    SolverError
        Where it is not installed.
    """
    cp_model()  # the one message for both
    from ortools.linear_solver import pywraplp

    return pywraplp.Solver.CreateSolver("GLOP")


class Free(NamedTuple):
    """What of a layout may change.

    Attributes
    ----------
    wishes : tuple of int
    options : tuple of int
        Of these wishes, each able to stand in its bed; all others of them are not chosen.
    fixed : dict of int to list of Choice
        For each bed with such options, what stays in it.
    made : frozenset of (int, int, int)
        Choices of the wishes that stay.
    limits : list of dict of int to int, or None
        For each resource what there is of it from a day on; None where nothing but the free wishes uses it.
    nevers : frozenset of int
        Nevers that are seen to elsewhere.
    """

    wishes: tuple[int, ...]
    options: tuple[int, ...]
    fixed: Mapping[int, Sequence[Choice]]
    made: frozenset[tuple[int, int, int]] = frozenset()
    limits: Sequence[Mapping[int, int]] | None = None
    nevers: frozenset[int] = frozenset()


class Solved(NamedTuple):
    """What came out: the chosen options, and whether none are cheaper; None where it found nothing in time."""

    options: tuple[int, ...] | None
    optimal: bool
    bound: int
    spent: float


class LayoutModel:
    """The model of what is free.

    Parameters
    ----------
    puzzle : Puzzle
    free : Free
    cuts : mapping of int to iterable of frozenset of int
        For each bed, options that do not pack together.
    placed : callable
        Whether the places along a bed are part of the model.
    """

    def __init__(
        self,
        puzzle: Puzzle,
        free: Free,
        cuts: Mapping[int, Iterable[Cut]],
        placed: Callable[[int], bool] = lambda bed: False,
    ) -> None:
        self.module = cp_model()
        self.puzzle, self.free, self.cuts = puzzle, free, cuts
        self.model = self.module.CpModel()
        self._costs: list[tuple[Any, int]] = []
        self._constant = 0
        beds: dict[int, list[int]] = defaultdict(list)
        for number in free.options:
            beds[puzzle.options[number].bed].append(number)
        pairs: dict[int, list[tuple[int, int | None]]] = defaultdict(list)
        for pair in puzzle.pairs:
            if pair.one != pair.other:
                pairs[pair.one].append((pair.other, pair.cost))
        self._pairs = pairs
        self.chosen: dict[int, Any] = {number: self.model.new_bool_var("") for number in free.options}
        for number, variable in self.chosen.items():
            self._costs.append((variable, puzzle.options[number].cost))
        self._ways()
        for bed, mine in beds.items():
            fixed = [puzzle.options[choice.option] for choice in free.fixed.get(bed, ())]
            self._lengths(bed, mine, fixed)
            self._groups(bed, mine, fixed)
            self._company(bed, mine, fixed)
            self._cut(bed, mine)
            if placed(bed):
                self._places(bed, mine, fixed)
        self._nevers()
        self._limits()
        linear = self.module.LinearExpr
        variables, costs = [one for one, _ in self._costs], [cost for _, cost in self._costs]
        self.model.minimize(linear.weighted_sum(variables, costs) + self._constant)

    def solve(
        self,
        hint: Iterable[int],
        effort: float,
        seed: int,
    ) -> Solved:
        """The cheapest choice found, within an effort that is counted and not timed.

        Parameters
        ----------
        hint : iterable of int
            Options that are chosen as it is.
        effort : float
            Deterministic time of CP-SAT.
        seed : int
        """
        there = set(hint)
        self.model.clear_hints()
        for number, variable in self.chosen.items():
            self.model.add_hint(variable, number in there)
        solver = self.module.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.linearization_level = 2
        solver.parameters.max_deterministic_time = effort
        solver.parameters.random_seed = seed
        status = solver.solve(self.model)
        # Costs are whole, and so is what none is less than.
        bound = math.ceil(solver.best_objective_bound - 1e-3)
        spent = float(solver.response_proto.deterministic_time)
        if status not in (self.module.OPTIMAL, self.module.FEASIBLE):
            return Solved(None, status == self.module.INFEASIBLE, bound, spent)
        found = tuple(number for number, variable in self.chosen.items() if solver.boolean_value(variable))
        return Solved(found, status == self.module.OPTIMAL, bound, spent)

    def forbid(self, cut: Cut) -> None:
        """Cut off a set of options that does not pack, those included that stay.

        Parameters
        ----------
        cut : frozenset of int
        """
        variables = [self.chosen[number] for number in sorted(cut) if number in self.chosen]
        self._at_most(variables, len(variables) - 1)

    def _at_most(self, variables: Sequence[Any], most: int) -> None:
        if most == 1:
            self.model.add_at_most_one(variables)
        elif len(variables) > most:
            self.model.add(self.module.LinearExpr.sum(variables) <= most)

    def _ways(self) -> None:
        """Each wish in one way with all its parts, each in another bed, or unmet."""
        ways: dict[int, dict[int, list[int]]] = {wish: {} for wish in self.free.wishes}
        for number in self.free.options:
            option = self.puzzle.options[number]
            ways[option.wish].setdefault(option.way, []).append(number)
        total = self.module.LinearExpr.sum
        for wish, there in ways.items():
            unmet = self.model.new_bool_var("")
            self._costs.append((unmet, self.puzzle.unmet[wish]))
            one_of = [unmet]
            beds: dict[int, list[int]] = defaultdict(list)
            for numbers in there.values():
                parts = self.puzzle.options[numbers[0]].parts
                variables = [self.chosen[number] for number in numbers]
                if parts == 1:
                    one_of += variables
                    continue
                for number in numbers:
                    beds[self.puzzle.options[number].bed].append(number)
                way = self.model.new_bool_var("")
                one_of.append(way)
                self.model.add(total(variables) == parts * way)
                for variable in variables:
                    self.model.add_implication(variable, way)
            self.model.add_exactly_one(one_of)
            for numbers in beds.values():
                if len(numbers) > 1:
                    self.model.add_at_most_one([self.chosen[number] for number in numbers])

    def _lengths(self, bed: int, mine: Sequence[int], fixed: Sequence[Option]) -> None:
        """On no day more than the bed is long; of one family not more on all days together."""
        weighted = self.module.LinearExpr.weighted_sum
        for numbers, room in self._rooms(bed, mine, fixed):
            lengths = [self.puzzle.options[number].length for number in numbers]
            if sum(lengths) > room:
                self.model.add(weighted([self.chosen[number] for number in numbers], lengths) <= max(room, 0))

    def _rooms(self, bed: int, mine: Sequence[int], fixed: Sequence[Option]) -> list[tuple[list[int], int]]:
        """Options that share ground, and how long they may be together."""
        options, ground = self.puzzle.options, self.puzzle.beds[bed]
        free = [options[number] for number in mine]
        there: list[Option | Block] = [*free, *fixed, *ground.blocks]
        spans = sorted({one.first for one in there})
        ends = sorted({one.last for one in there})
        rows: list[tuple[list[int], int]] = []
        for place, day in enumerate(spans):
            following = spans[place + 1] if place + 1 < len(spans) else None
            if following is not None and not any(day <= end < following for end in ends):
                continue  # all of this day are there when the next one comes
            alive = [number for number in mine if options[number].first <= day <= options[number].last]
            room = ground.length - sum(one.length for one in fixed if one.first <= day <= one.last)
            taken = [(b.start, min(b.end, ground.length)) for b in ground.blocks if b.first <= day <= b.last]
            rows.append((alive, room - _covered(taken)))
        families: dict[int, list[int]] = defaultdict(list)
        for number in mine:
            if options[number].family >= 0:
                families[options[number].family].append(number)
        for family, numbers in families.items():
            rows.append((numbers, ground.length - sum(one.length for one in fixed if one.family == family)))
        return rows

    def _groups(self, bed: int, mine: Sequence[int], fixed: Sequence[Option]) -> None:
        there = set(self.puzzle.beds[bed].groups).union(*(one.groups for one in fixed))
        groups: dict[int, list[Any]] = defaultdict(list)
        for number in mine:
            for group in self.puzzle.options[number].groups:
                if group not in there and self.puzzle.group_costs[group]:
                    groups[group].append(self.chosen[number])
        for group, variables in groups.items():
            used = self.model.new_bool_var("")
            self._costs.append((used, self.puzzle.group_costs[group]))
            for variable in variables:
                self.model.add_implication(variable, used)
            if self.puzzle.group_costs[group] < 0:
                self.model.add(used <= self.module.LinearExpr.sum(variables))

    def _company(self, bed: int, mine: Sequence[int], fixed: Sequence[Option]) -> None:
        """What it costs that two wishes share the bed on common days."""
        options = self.puzzle.options
        of_wish: dict[int, list[int]] = defaultdict(list)
        for number in mine:
            of_wish[options[number].wish].append(number)
        kept = {one.wish: one for one in fixed}
        total = self.module.LinearExpr.sum
        for one in (*of_wish, *kept):
            for other, cost in self._pairs.get(one, ()):
                if one in kept or other in kept:
                    stays, moves = (kept[one], other) if one in kept else (kept[other], one)
                    for number in of_wish.get(moves, ()):
                        if meet(options[number], stays):
                            if cost is None:
                                self.model.add(self.chosen[number] == 0)
                            else:
                                self._costs.append((self.chosen[number], cost))
                    continue
                alike: dict[tuple[int, ...], list[Any]] = defaultdict(list)
                for number in of_wish[one]:
                    met = tuple(
                        second for second in of_wish.get(other, ()) if meet(options[number], options[second])
                    )
                    if met:
                        alike[met].append(self.chosen[number])
                for met, variables in alike.items():
                    others = [self.chosen[second] for second in met]
                    if cost is None:
                        self.model.add_at_most_one([*variables, *others])
                        continue
                    both = self.model.new_bool_var("")
                    self._costs.append((both, cost))
                    if cost > 0:
                        self.model.add(total([*variables, *others]) <= 1 + both)
                    else:
                        self.model.add(both <= total(variables))
                        self.model.add(both <= total(others))

    def _cut(self, bed: int, mine: Sequence[int]) -> None:
        there = {choice.option for choice in self.free.fixed.get(bed, ())}
        here = there.union(mine)
        for cut in self.cuts.get(bed, ()):
            if cut <= here:
                self.forbid(cut)

    def _places(self, bed: int, mine: Sequence[int], fixed: Sequence[Option]) -> None:
        """Where along the bed its plantings begin."""
        model, ground = self.model, self.puzzle.beds[bed]
        boxes: list[tuple[Option, Any, Any]] = []
        for option, chosen in (
            *((self.puzzle.options[number], self.chosen[number]) for number in mine),
            *((option, None) for option in fixed),
        ):
            starts = self.module.Domain.from_intervals([list(one) for one in allowed_starts(ground, option)])
            start = model.new_int_var_from_domain(starts, "")
            days = option.last - option.first + 1
            if chosen is None:
                along = model.new_fixed_size_interval_var(start, option.length, "")
                year = model.new_fixed_size_interval_var(option.first, days, "")
            else:
                along = model.new_optional_fixed_size_interval_var(start, option.length, chosen, "")
                year = model.new_optional_fixed_size_interval_var(option.first, days, chosen, "")
            boxes.append((option, along, year))
        model.add_no_overlap_2d([along for _, along, _ in boxes], [year for _, _, year in boxes])
        families: dict[int, list[Any]] = defaultdict(list)
        for option, along, _ in boxes:
            if option.family >= 0:
                families[option.family].append(along)
        for alongs in families.values():
            if len(alongs) > 1:
                model.add_no_overlap(alongs)

    def _nevers(self) -> None:
        members: dict[tuple[int, int, int], list[Any]] = defaultdict(list)
        for number, variable in self.chosen.items():
            option = self.puzzle.options[number]
            members[option.wish, option.bed, option.way].append(variable)
        for number, never in enumerate(self.puzzle.nevers):
            if number in self.free.nevers:
                continue
            rest = sorted(never - self.free.made)
            if rest and all(choice in members for choice in rest):
                variables = [variable for choice in rest for variable in members[choice]]
                self.model.add(self.module.LinearExpr.sum(variables) <= len(rest) - 1)

    def _limits(self) -> None:
        """On no day more of anything than there is."""
        users: dict[int, list[tuple[Any, int, int, int]]] = defaultdict(list)
        for number, variable in self.chosen.items():
            for use in self.puzzle.options[number].uses:
                users[use.resource].append((variable, use.first, use.last, use.amount))
        weighted = self.module.LinearExpr.weighted_sum
        for resource, limit in enumerate(self.puzzle.limits):
            mine = users.get(resource, [])
            steps = self.free.limits[resource] if self.free.limits is not None else {}
            done: set[tuple[tuple[int, ...], int]] = set()
            for day in sorted({first for _, first, _, _ in mine} | set(steps)):
                alive = [place for place, (_, first, last, _) in enumerate(mine) if first <= day <= last]
                begun = [begins for begins in steps if begins <= day]
                most = steps[max(begun)] if begun else limit
                amounts = [mine[place][3] for place in alive]
                key = (tuple(alive), most)
                if key not in done and sum(amounts) > most:
                    done.add(key)
                    self.model.add(weighted([mine[place][0] for place in alive], amounts) <= most)


def _covered(taken: list[tuple[int, int]]) -> int:
    total, reached = 0, 0
    for start, end in sorted(taken):
        total += max(0, end - max(start, reached))
        reached = max(reached, end)
    return total
