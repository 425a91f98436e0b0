"""The search for a good layout: rounds in which a few beds are laid anew, never for the worse.

In a round CP-SAT lays some beds of the garden anew, all at once; meanwhile wishes are squeezed in or moved one by one in
all others.  The beds are others in each round.  Between the rounds the puzzle is solved as a whole where it is small, and
relaxed by its beds where it is of middle size: that proves how good a layout can be, and shows of what options good ones are made.
The same seed and number of rounds give the same layout; a time limit or the wish to stop ends it between two
rounds, or two steps of the relaxation.
"""

from __future__ import annotations

import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from random import Random
from typing import NamedTuple

from planner.proposal.board import Board
from planner.proposal.bound import (
    MOST_OPTIONS,
    SMALL,
    Bound,
    best_of_promising,
    bound_of_whole,
    least_possible,
)
from planner.proposal.decomposition import Decomposition
from planner.proposal.layout_model import Cut, cp_model
from planner.proposal.neighbourhood import FEW_BEDS, Task, coupled_wishes, solve_task, task_among
from planner.proposal.puzzle import Choice, Layout, Puzzle, cost_of, faults_of
from planner.proposal.puzzle_index import PuzzleIndex, by_wish
from planner.proposal.recreate import Recreator

#: Wishes and beds that are free in a task: at first, least and most.
SIZE, SMALLEST, LARGEST = 12, 6, 26
#: Deterministic time of CP-SAT for a task.
EFFORT = 0.2
#: So often something is moved in the other beds in the meantime: in large gardens, and in those that are modelled as a whole.
TURNS, FEW_TURNS = 800, 400
#: In so many first rounds nothing else is done: much is found then, and quickly.  In puzzles with a decomposition fewer: more is found by it.
ALONE, FEW_ALONE = 8, 4
#: Rounds before which a small puzzle is solved as a whole, and the deterministic time of each trial: a search that is stopped waits for its end.
WHOLE = {1: 1.0, 4: 2.0, 10: 4.0, 30: 4.0, 90: 4.0}
#: Rounds after those alone in which what the decomposition finds promising is modelled, and every how many later; the deterministic time
#: for that.
PROMISED, PROMISED_EVERY, PROMISED_EFFORT = (2, 6), 25, 1.5
#: Layouts on the way are taken note of for the decomposition after so many turns.
NOTED_EVERY = 100
#: Until the last of these it gets on in all other rounds, by so much deterministic time; later every so many.
SLICE, RELAXED_EVERY = 1.2, 5
#: Deterministic time after which the decomposition rests.
MOST_RELAXED = 40.0


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
    relaxed : Decomposition or None
        How far that has come, for a search that goes on.
    """

    layout: Layout
    cost: int
    round: int
    bound: int | None
    proven: bool
    relaxed: Decomposition | None = None


def search(
    puzzle: Puzzle,
    start: Layout,
    *,
    rounds: int | None = None,
    seconds: float | None = None,
    seed: int = 0,
    stop: Callable[[], bool] | None = None,
    index: PuzzleIndex | None = None,
    relaxed: Decomposition | None = None,
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
        Whether to end; looked at between the rounds, and between the steps of the decomposition.
    index : PuzzleIndex
        Of the puzzle, where there is one already.
    relaxed : Decomposition
        Of a search that this one goes on with, where it still holds; it is changed.

    Raises
    ------
    SolverError
        Where OR-Tools is not installed.
    ValueError
        Where the start has faults.
    """
    begun = time.monotonic()

    def ended() -> bool:
        late = seconds is not None and time.monotonic() - begun >= seconds
        return late or (stop is not None and stop())

    faults = faults_of(puzzle, start)
    if faults:
        raise ValueError(f"the start of the search has faults: {faults[0]}")
    cp_model()
    run = _Run(puzzle, start, index or PuzzleIndex(puzzle), seed, relaxed)
    yield run.step()
    with ThreadPoolExecutor(2) as pool:
        while not run.proven and (rounds is None or run.round < rounds) and not ended():
            run.go(pool, ended)
            yield run.step()


class _Run:
    def __init__(
        self,
        puzzle: Puzzle,
        start: Layout,
        index: PuzzleIndex,
        seed: int,
        relaxed: Decomposition | None = None,
    ) -> None:
        self.puzzle, self.index = puzzle, index
        self.board = Board(index, start)
        self.layout, self.cost = tuple(sorted(start)), cost_of(puzzle, start)
        self.chance = Random(seed)
        self.seed, self.round, self.size = seed, 0, SIZE
        self.bound: int | None = None
        self.relaxed: Decomposition | None = None
        self.alone = FEW_ALONE if SMALL < len(puzzle.options) <= MOST_OPTIONS else ALONE
        if relaxed is not None and relaxed.bounds(puzzle):
            self.relaxed, self.bound, self.alone = relaxed, relaxed.bound, 0
        self.floor = least_possible(index)
        self.cuts: dict[int, list[Cut]] = defaultdict(list)
        self.placed: set[int] = set()
        self.coupled = coupled_wishes(index)
        self.noted: list[Layout] = []
        self.recreator = Recreator(self.board, self.chance)

    @property
    def proven(self) -> bool:
        return self.cost <= self.floor or (self.bound is not None and self.bound >= self.cost)

    def step(self) -> Step:
        bound = self.cost if self.proven else self.bound
        return Step(self.layout, self.cost, self.round, bound, self.proven, self.relaxed)

    def go(self, pool: ThreadPoolExecutor, ended: Callable[[], bool]) -> None:
        """One round: a task for CP-SAT in some beds, meanwhile the others are laid anew bit by bit."""
        self.round += 1
        if self.round in WHOLE and len(self.puzzle.options) <= SMALL:
            self._take_bound(bound_of_whole(self.index, self.layout, WHOLE[self.round], self.seed))
            if self.proven:
                return
        wishes = [wish for wish, ways in enumerate(self.index.ways) if ways]
        beds = list(range(len(self.puzzle.beds)))
        if self.round <= self.alone and len(self.puzzle.options) > SMALL:
            for _ in range(TURNS // NOTED_EVERY):
                self._recreate(wishes, beds, NOTED_EVERY)
                self.noted.append(self.layout)
            return
        if self._relax(pool, ended):
            return
        if len(beds) < FEW_BEDS:
            self._recreate(wishes, beds, FEW_TURNS)
        self.chance.shuffle(beds)
        # What depends on others all over the garden is changed by one of the two alone.
        coupled = self.coupled if len(beds) >= FEW_BEDS else frozenset()
        held, left_to_it = (coupled, frozenset()) if self.chance.random() < 0.5 else (frozenset(), coupled)
        task = task_among(
            self.board, beds, [wish for wish in wishes if wish not in held], self.size, self.chance
        )
        if task is None:
            self._recreate(wishes, sorted(beds), FEW_TURNS)
            return
        job = pool.submit(solve_task, self.board, task, self.cuts, frozenset(self.placed), EFFORT)
        if len(beds) >= FEW_BEDS:
            taken, free = set(task.free.fixed), set(task.free.wishes)
            places = self.board.places
            others = [
                wish
                for wish in wishes
                if wish not in free and wish not in left_to_it and taken.isdisjoint(places.get(wish, ()))
            ]
            turns = FEW_TURNS if len(self.puzzle.options) <= MOST_OPTIONS else TURNS
            self._recreate(others, [bed for bed in range(len(beds)) if bed not in taken], turns)
        outcome = job.result()
        for bed, cut in outcome.cuts:
            self.cuts[bed].append(cut)
            self.placed.add(bed)
        if outcome.choices is not None:
            self._take(task, outcome.choices)
        self.size = min(LARGEST, self.size + 1) if outcome.optimal else max(SMALLEST, self.size - 1)

    def _recreate(self, wishes: list[int], beds: list[int], turns: int) -> None:
        self.recreator.run(turns, wishes, beds)
        layout = self.board.layout()
        cost = cost_of(self.puzzle, layout)
        assert cost <= self.cost
        self.layout, self.cost = layout, cost

    def _take(self, task: Task, choices: tuple[Choice, ...]) -> None:
        """Take what a task found: the places of all that lies in its beds."""
        beds, options = set(task.free.fixed), self.puzzle.options
        kept = [choice for choice in self.layout if options[choice.option].bed not in beds]
        self._accept(tuple(sorted([*kept, *choices])))

    def _accept(self, layout: Layout) -> None:
        """Take a layout, if it is no worse and holds every rule."""
        cost = cost_of(self.puzzle, layout)
        if cost > self.cost or layout == self.layout or faults_of(self.puzzle, layout):
            return
        before, after = by_wish(self.puzzle, self.layout), by_wish(self.puzzle, layout)
        changed = sorted(wish for wish in {*before, *after} if before.get(wish) != after.get(wish))
        for wish in changed:
            self.board.take(wish)
        for wish in changed:
            for choice in after.get(wish, ()):
                self.board.put(choice)
        self.layout, self.cost = layout, cost

    def _take_bound(self, found: Bound) -> None:
        self.bound = found.cost if self.bound is None else max(self.bound, found.cost)
        if found.layout is not None:
            self._accept(found.layout)

    def _relax(self, pool: ThreadPoolExecutor, ended: Callable[[], bool]) -> bool:
        """Get on with the decomposition, or model what it finds promising, where it is time for it; whether that was the round."""
        if self.round <= self.alone or len(self.puzzle.options) > MOST_OPTIONS:
            return False
        if self.relaxed is None:
            self.relaxed = Decomposition(self.index, self.layout)
        relaxed = self.relaxed
        for layout in (*self.noted, self.layout):
            relaxed.learn(layout)
        self.noted.clear()
        since, relaxed.rounds = relaxed.rounds, relaxed.rounds + 1
        later = since - PROMISED[-1]
        if since in PROMISED or (later > 0 and later % PROMISED_EVERY == 0):
            better = best_of_promising(
                self.index, relaxed, self.layout, pool, PROMISED_EFFORT, self.seed + relaxed.rounds
            )
            if better is not None:
                self._accept(better)
            return True
        if relaxed.done or relaxed.spent > MOST_RELAXED or (later > 0 and later % RELAXED_EVERY):
            return False
        relaxed.go_on(pool, SLICE, ended)
        if relaxed.bound is not None:
            self._take_bound(Bound(relaxed.bound, None, False))
        return True
