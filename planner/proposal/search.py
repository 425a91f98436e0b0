"""The search for a good layout: rounds in which a few beds are laid anew by CP-SAT, never for the worse.

A round takes two tasks of different beds and wishes, solves both side by side and takes what is cheaper and packs.
The same seed and number of rounds give the same layout; a time limit or the wish to stop ends it between two rounds.
"""

from __future__ import annotations

import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from random import Random
from typing import NamedTuple

from planner.proposal.board import Board
from planner.proposal.bound import lower_bound
from planner.proposal.layout_model import Cut, cp_model
from planner.proposal.neighbourhood import Outcome, Task, halves, share_out, solve_task, task_among
from planner.proposal.puzzle import Choice, Layout, Puzzle, cost_of, faults_of
from planner.proposal.puzzle_index import PuzzleIndex

#: Wishes and beds that are free in a task: at first, least and most.
SIZE, SMALLEST, LARGEST = 12, 6, 26
#: Deterministic time of CP-SAT for a task.
EFFORT = 0.2
#: Puzzles of no more options are solved as a whole between the rounds.
SMALL = 1_500
#: Rounds before which that is tried, and the deterministic time of the first trial; each further one has twice as much.
WHOLE_AT, WHOLE_EFFORT = (1, 4, 10, 20, 40, 80, 160), 1.0


class Step(NamedTuple):
    """How far the search has come.

    Attributes
    ----------
    layout : tuple of Choice
        Without faults, and never worse than the one before.
    cost : int
    round : int
        Rounds done.
    bound : int or None
        No layout costs less; None where nothing is proven.
    proven : bool
        Whether there is no cheaper layout.
    """

    layout: Layout
    cost: int
    round: int
    bound: int | None
    proven: bool


def search(
    puzzle: Puzzle,
    start: Layout,
    *,
    rounds: int | None = None,
    seconds: float | None = None,
    seed: int = 0,
    stop: Callable[[], bool] | None = None,
    index: PuzzleIndex | None = None,
) -> Iterator[Step]:
    """Better and better layouts, one step after each round, the first of them the start itself.

    Parameters
    ----------
    puzzle : Puzzle
    start : tuple of Choice
        Without faults, as :func:`planner.proposal.greedy.greedy` makes one.
    rounds : int
        Most rounds; None for no limit.
    seconds : float
        Time after which no further round begins; None for no limit.
    seed : int
        Another one takes other ways.
    stop : callable
        Whether to end; looked at between the rounds.
    index : PuzzleIndex
        Of the puzzle, where there is one already.

    Raises
    ------
    SolverMissing
        Where OR-Tools is not installed.
    ValueError
        Where the start has faults.
    """
    begun = time.monotonic()
    faults = faults_of(puzzle, start)
    if faults:
        raise ValueError(f"the start of the search has faults: {faults[0]}")
    cp_model()
    run = _Run(puzzle, start, index or PuzzleIndex(puzzle), seed)
    yield run.step()
    with ThreadPoolExecutor(2) as pool:
        while (
            not run.proven
            and (rounds is None or run.round < rounds)
            and (seconds is None or time.monotonic() - begun < seconds)
            and (stop is None or not stop())
        ):
            run.go(pool)
            yield run.step()


class _Run:
    def __init__(self, puzzle: Puzzle, start: Layout, index: PuzzleIndex, seed: int) -> None:
        self.puzzle, self.index = puzzle, index
        self.board = Board(index, start)
        self.layout, self.cost = tuple(sorted(start)), cost_of(puzzle, start)
        self.chance = Random(seed)
        self.seed, self.round, self.size = seed, 0, SIZE
        self.bound: int | None = None
        self.cuts: dict[int, list[Cut]] = defaultdict(list)
        self.placed: set[int] = set()

    @property
    def proven(self) -> bool:
        return self.bound is not None and self.bound >= self.cost

    def step(self) -> Step:
        return Step(self.layout, self.cost, self.round, self.bound, self.proven)

    def go(self, pool: ThreadPoolExecutor) -> None:
        """One round."""
        self.round += 1
        if self.round in WHOLE_AT and len(self.puzzle.options) <= SMALL:
            self._whole(WHOLE_EFFORT * 2 ** WHOLE_AT.index(self.round))
            if self.proven:
                return
        tasks = self._tasks()
        jobs = [
            pool.submit(solve_task, self.board, task, self.cuts, frozenset(self.placed), EFFORT) for task in tasks
        ]
        outcomes = [job.result() for job in jobs]
        for task, outcome in zip(tasks, outcomes, strict=True):
            for bed, cut in outcome.cuts:
                self.cuts[bed].append(cut)
                self.placed.add(bed)
            if outcome.choices is not None:
                self._take(task, outcome)
        if outcomes and all(outcome.optimal for outcome in outcomes):
            self.size = min(LARGEST, self.size + 1)
        elif not any(outcome.optimal for outcome in outcomes):
            self.size = max(SMALLEST, self.size - 1)

    def _tasks(self) -> list[Task]:
        parts = halves(len(self.puzzle.beds), self.chance)
        unmet = [wish for wish, ways in enumerate(self.index.ways) if ways and wish not in self.board.places]
        self.chance.shuffle(unmet)
        tasks = [
            task_among(self.board, beds, unmet[place :: len(parts)], self.size, self.chance)
            for place, beds in enumerate(parts)
        ]
        return share_out(self.board, [task for task in tasks if task is not None], self.chance)

    def _take(self, task: Task, outcome: Outcome) -> None:
        """Take what a task found, if it is no worse and holds every rule."""
        assert outcome.choices is not None
        beds = set(task.free.fixed)
        options, free = self.puzzle.options, set(task.free.wishes)
        kept = [choice for choice in self.layout if options[choice.option].bed not in beds]
        # A free wish lies within these beds alone, before and after.
        assert not any(options[choice.option].wish in free for choice in kept)
        self._accept(tuple(sorted([*kept, *outcome.choices])))

    def _accept(self, layout: Layout) -> None:
        cost = cost_of(self.puzzle, layout)
        if cost > self.cost or layout == self.layout or faults_of(self.puzzle, layout):
            return
        self._lay(layout)
        self.layout, self.cost = layout, cost

    def _lay(self, layout: Layout) -> None:
        """Change the board where it differs."""
        options = self.puzzle.options
        old: dict[int, list[Choice]] = defaultdict(list)
        new: dict[int, list[Choice]] = defaultdict(list)
        for there, choices in ((old, self.layout), (new, layout)):
            for choice in choices:
                there[options[choice.option].wish].append(choice)
        changed = sorted(wish for wish in {*old, *new} if old[wish] != new[wish])
        for wish in changed:
            self.board.take(wish)
        for wish in changed:
            for choice in new[wish]:
                self.board.put(choice)

    def _whole(self, effort: float) -> None:
        found = lower_bound(self.puzzle, self.layout, effort=effort, seed=self.seed, index=self.index)
        if found is None:
            return
        self.bound = found.cost if self.bound is None else max(self.bound, found.cost)
        if found.layout is not None:
            self._accept(found.layout)
