"""Next year's layout in gardens of numbers: time to the first one, cost after a while beside the best known and a bound.

The best known is that of the longest run here, ``LONG`` seconds: give another number to be surer (``PROPOSAL_LONG=600``).
"""

from __future__ import annotations

import os
import resource
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from bench.figures import Measured, best, ms, percentile
from layout_puzzles import garden_puzzle

from planner.proposal.bound import lower_bound
from planner.proposal.elsewhere import next_best
from planner.proposal.greedy import greedy
from planner.proposal.layout_model import cp_model
from planner.proposal.puzzle import Layout, Puzzle, cost_of, faults_of
from planner.proposal.puzzle_index import PuzzleIndex
from planner.proposal.release import cheapest_release
from planner.proposal.search import search

#: Beds and wishes, and what is wanted: the first layout within [s], and after ten seconds no dearer than the best by.
SIZES = ((40, 60, 0.5, 0.03), (200, 300, 1.0, 0.10))
#: How long the best known layout is searched. [s]
LONG = float(os.environ.get("PROPOSAL_LONG", "90"))
#: When the cost is read. [s]
READ_AT = (2.0, 10.0, 30.0)
#: Proven bounds are wanted this near to the layout after ten seconds; memory below. [MiB]
GAP, MEMORY = 0.05, 1024


def measure() -> list[Measured]:
    """All sizes, and the memory of the whole run."""
    cp_model()
    found = [line for size in SIZES for line in _garden(*size)]
    used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return [
        *found,
        Measured("memory of all of it", f"{used:.0f} MiB", "", "", f"{MEMORY} MiB", used < MEMORY),
    ]


def _garden(beds: int, wishes: int, first: float, near: float) -> list[Measured]:
    puzzle = garden_puzzle(beds, wishes)
    work = f"{beds} beds, {wishes} wishes, {len(puzzle.options):,} options"
    to_first = best(lambda: greedy(puzzle), 3)
    start = greedy(puzzle)
    costs, layout = _costs_over_time(puzzle, start)
    known = costs[-1]
    lines = [
        Measured(f"{work}: first layout", ms(to_first), "", "", ms(first), to_first <= first),
        Measured("its cost", f"{cost_of(puzzle, start)}", f"{known} in {LONG:.0f} s", "", "", True),
    ]
    for seconds, cost in zip(READ_AT, costs, strict=False):
        away = (cost - known) / abs(known)
        wanted = f"{near:.0%} away" if seconds == 10.0 else ""
        lines.append(
            Measured(
                f"cost after {seconds:g} s",
                f"{cost}",
                f"{known}",
                f"{away:.1%}",
                wanted,
                not wanted or away <= near,
            )
        )
    bound = lower_bound(puzzle, layout)
    if bound is None:
        lines.append(Measured("proven bound", "not proven", "", "", "", True))
    else:
        away = (costs[1] - bound.cost) / abs(costs[1])
        lines.append(
            Measured(
                "proven bound",
                f"{bound.cost}",
                f"{costs[1]} after 10 s",
                f"{away:.1%}",
                f"{GAP:.0%} away",
                away <= GAP,
            )
        )
    assert not faults_of(puzzle, layout)
    return [*lines, *_reasons(puzzle, layout)]


def _costs_over_time(puzzle: Puzzle, start: Layout) -> tuple[list[int], Layout]:
    """The cost at each of the times and at the end, and the layout then."""
    begun, waiting, costs = time.perf_counter(), list(READ_AT), []
    last = None
    for step in search(puzzle, start, seconds=LONG):
        while waiting and time.perf_counter() - begun > waiting[0]:
            waiting.pop(0)
            costs.append((last or step).cost)
        last = step
    assert last is not None
    return [*costs, last.cost], last.layout


def _reasons(puzzle: Puzzle, layout: Layout) -> list[Measured]:
    index = PuzzleIndex(puzzle)
    met = {puzzle.options[choice.option].wish for choice in layout}
    releases, others = [], []
    for wish in range(len(puzzle.unmet)):
        begun = time.perf_counter()
        if wish in met:
            next_best(puzzle, layout, wish, index)
        else:
            cheapest_release(puzzle, layout, wish)
        (others if wish in met else releases).append(time.perf_counter() - begun)
    return [
        Measured(f"{name}, 95 %", ms(ours := percentile(times, 0.95)), "", "", "50 ms", ours <= 0.05)
        for name, times in (("cheapest release of a wish", releases), ("next best place of a wish", others))
        if times
    ]


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
