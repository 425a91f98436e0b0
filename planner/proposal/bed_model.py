"""The model of one bed for OR-Tools CP-SAT: which options lie in it together at the least cost, whatever their prices."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from typing import NamedTuple

from planner.proposal.layout_model import Free, LayoutModel
from planner.proposal.puzzle import Choice, Puzzle, cost_of

#: Deterministic time of CP-SAT for a bed; nearly all take a hundredth of it.
EFFORT = 2.0


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
        super().__init__(puzzle, Free((), options, {bed: ()}), {})
        self.bed, self.options = bed, options
        self._beside = [(variable, scale * cost) for variable, cost in self._costs[len(options) :]]
        # The cost of a pattern is that of a puzzle in which nothing is wished beside.
        self._alone = puzzle._replace(unmet=())

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
        solver.parameters.cp_model_probing_level = 0
        solver.parameters.max_presolve_iterations = 1
        solver.parameters.max_deterministic_time = EFFORT
        status = solver.solve(self.model)
        least = math.ceil(solver.best_objective_bound - 1e-3)
        spent = float(solver.response_proto.deterministic_time)
        if status not in (self.module.OPTIMAL, self.module.FEASIBLE):
            return Pattern((), least, spent)
        chosen = tuple(number for number in self.options if solver.boolean_value(self.chosen[number]))
        return Pattern(chosen, least, spent)
