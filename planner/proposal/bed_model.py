"""The model of one bed for OR-Tools CP-SAT: which options lie in it together at the least cost, whatever their prices."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from planner.proposal.layout_model import Free, LayoutModel
from planner.proposal.puzzle import Choice, Option, Puzzle, cost_of, meet

#: Deterministic time of CP-SAT for a bed; nearly all take a hundredth of it.
EFFORT = 2.0


#: Options that are put into a bed first, one after the other, to see what goes beside.
FIRSTS = 12


class Pattern(NamedTuple):
    """Options that may lie in a bed together.

    Attributes
    ----------
    options : tuple of int
        Sorted; none where an empty bed is the cheapest.
    least : int
        None cost less, at the prices for which it was sought.
    spent : float
        Deterministic time.
    """

    options: tuple[int, ...]
    least: int
    spent: float


class BedModel(LayoutModel):
    """The model of a bed.

    Parameters
    ----------
    puzzle : Puzzle
    bed : int
    options : tuple of int
        Of this bed, each able to stand in it.
    scale : int
        Parts of a point in which prices are given.
    """

    def __init__(self, puzzle: Puzzle, bed: int, options: tuple[int, ...], scale: int) -> None:
        self._room: list[int] = []
        self._takes: dict[int, list[tuple[int, int]]] = defaultdict(list)
        super().__init__(puzzle, Free((), options, {bed: ()}), {})
        self._apart: dict[int, set[int]] = defaultdict(set)
        for one, others in self._pairs.items():
            for other, cost in others:
                if cost is None:
                    self._apart[one].add(other)
                    self._apart[other].add(one)
        #: Wishes and ways that may not all be here.
        self._never = [
            frozenset((wish, way) for wish, _, way in never)
            for never in puzzle.nevers
            if all(there == bed for _, there, _ in never)
        ]
        self._size = {
            number: max(1, one.length * (one.last - one.first + 1))
            for number, one in ((number, puzzle.options[number]) for number in options)
        }
        #: For each wish and way its cheapest option here.
        self.option_of: dict[tuple[int, int], int] = {}
        for number in sorted(options, key=lambda number: (puzzle.options[number].cost, number)):
            self.option_of.setdefault((puzzle.options[number].wish, puzzle.options[number].way), number)
        self.bed, self.options = bed, options
        self._beside = [(variable, scale * cost) for variable, cost in self._costs[len(options) :]]
        # The cost of a pattern is that of a puzzle in which nothing is wished beside.
        self._alone = puzzle._replace(unmet=())

    def _rooms(self, bed: int, mine: Sequence[int], fixed: Sequence[Option]) -> list[tuple[list[int], int]]:
        found = super()._rooms(bed, mine, fixed)
        for place, (numbers, room) in enumerate(found):
            self._room.append(room)
            for number in numbers:
                self._takes[number].append((place, self.puzzle.options[number].length))
        return found

    def fitting(self, numbers: Iterable[int]) -> tuple[int, ...]:
        """Those of some options that lie here together by their lengths and company, the first of them first; sorted.

        None where they may not all be chosen.

        Parameters
        ----------
        numbers : iterable of int
            Of this bed.
        """
        room, options = list(self._room), self.puzzle.options
        taken: dict[int, int] = {}
        for number in numbers:
            option = options[number]
            if option.wish in taken or any(length > room[place] for place, length in self._takes[number]):
                continue
            apart = self._apart.get(option.wish)
            if apart and any(wish in apart and meet(option, options[other]) for wish, other in taken.items()):
                continue
            for place, length in self._takes[number]:
                room[place] -= length
            taken[option.wish] = number
        if self._never:
            made = {(wish, options[number].way) for wish, number in taken.items()}
            if any(never <= made for never in self._never):
                return ()
        return tuple(sorted(taken.values()))

    def dense(self, costs: Mapping[int, int]) -> Iterable[tuple[int, ...]]:
        """Patterns put together quickly: one of the best options, and then whatever brings most for its ground and days.

        Parameters
        ----------
        costs : mapping of int to int
            Of each option, less than nothing where it is paid for.
        """
        paid = [number for number in self.options if costs[number] < 0]
        order = sorted(paid, key=lambda number: (costs[number] / self._size[number], number))
        best = sorted(paid, key=lambda number: (costs[number], number))[:FIRSTS]
        return (self.fitting((first, *order)) for first in best)

    def _ways(self) -> None:
        """At most one part of each wish."""
        wishes: dict[int, list[int]] = defaultdict(list)
        for number in self.free.options:
            wishes[self.puzzle.options[number].wish].append(number)
        for numbers in wishes.values():
            self._at_most([self.chosen[number] for number in numbers], 1)

    def cost_of(self, pattern: tuple[int, ...]) -> int:
        """What options of the bed cost together, with groups and company."""
        return cost_of(self._alone, tuple(Choice(number, 0) for number in pattern))

    def cheapest(self, costs: Mapping[int, int]) -> Pattern:
        """The options that cost least together, with their groups and company.

        Parameters
        ----------
        costs : mapping of int to int
            Of each option, less than nothing where it is paid for.
        """
        mine = [(self.chosen[number], costs[number]) for number in self.options]
        there = [*mine, *self._beside]
        self.model.minimize(
            self.module.LinearExpr.weighted_sum([one for one, _ in there], [cost for _, cost in there])
        )
        solver = self.module.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.linearization_level = 2
        # For so small a model, what makes large ones easier takes longer than the search itself.
        solver.parameters.cp_model_presolve = False
        solver.parameters.symmetry_level = 0
        solver.parameters.cut_level = 0
        solver.parameters.use_sat_inprocessing = False
        solver.parameters.add_lp_constraints_lazily = False
        solver.parameters.max_deterministic_time = EFFORT
        status = solver.solve(self.model)
        least = math.ceil(solver.best_objective_bound - 1e-3)
        spent = float(solver.response_proto.deterministic_time)
        if status not in (self.module.OPTIMAL, self.module.FEASIBLE):
            return Pattern((), least, spent)
        chosen = tuple(number for number in self.options if solver.boolean_value(self.chosen[number]))
        return Pattern(chosen, least, spent)
