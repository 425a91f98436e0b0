"""Branch and bound for a small cut list: the longest piece left goes onto some bar with pieces to which no other can be added."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.amounts.bar_filling import Filled, Problem
from planner.amounts.cuts import Bar

#: Most sets of pieces that are tried for one bar.
MOST_FILLS = 400


class CutSearch:
    """Branch and bound over what is left of pieces and bars on hand."""

    def __init__(self, problem: Problem, best: Filled, bound: int, steps: int) -> None:
        self._problem, self.best, self._bound, self._left_steps = problem, best, bound, steps
        self._seen: dict[tuple[tuple[int, ...], tuple[int, ...]], int] = {}
        self._laid: list[tuple[int, bool, tuple[int, ...], int]] = []
        self.complete = True

    def run(self, start: tuple[int, ...]) -> CutSearch:
        """Search from all pieces and bars."""
        self._step(start, tuple(bar.number or 0 for bar in self._problem.there), 0)
        return self

    def _step(self, left: tuple[int, ...], there: tuple[int, ...], cost: int) -> None:
        if not any(left):
            if cost < self.best.cost:
                self.best = Filled(cost, tuple(self._laid), self._problem.lengths)
            return
        if cost + self._problem.quick_bound(left, there) >= self.best.cost:
            return
        if self._seen.get((left, there), cost + 1) <= cost:
            return
        self._seen[left, there] = cost
        for bar, place, held in self._choices(left, there):
            rest = tuple(number - taken for number, taken in zip(left, held, strict=True))
            after = there if place < 0 else (*there[:place], there[place] - 1, *there[place + 1 :])
            self._laid.append((bar.length, place >= 0, held, 1))
            self._step(rest, after, cost + (bar.length if place < 0 else 0))
            self._laid.pop()
            if self.best.cost <= self._bound or self._left_steps < 0:
                self.complete = self.complete and self.best.cost <= self._bound
                return

    def _choices(
        self, left: tuple[int, ...], there: tuple[int, ...]
    ) -> Iterator[tuple[Bar, int, tuple[int, ...]]]:
        """Bars for the longest piece left with the pieces to cut from them, the least rest first."""
        first = next(i for i, number in enumerate(left) if number)
        lengths = self._problem.lengths
        kinds = [(bar, place) for place, bar in enumerate(self._problem.there) if there[place]]
        kinds += [(bar, -1) for bar in self._problem.sold]
        found = []
        for bar, place in kinds:
            if bar.length < lengths[first]:
                continue
            fills = list(_full(lengths, left, bar.length, first))
            if len(fills) > MOST_FILLS:
                self.complete = False
            self._left_steps -= len(fills)
            found += [(rest, place < 0, bar, place, held) for rest, held in fills[:MOST_FILLS]]
        found.sort(key=lambda one: (one[1], one[0] / one[2].length))
        for _, _, bar, place, held in found:
            yield bar, place, held


def _full(
    lengths: Sequence[int], left: Sequence[int], room: int, first: int
) -> Iterator[tuple[int, tuple[int, ...]]]:
    """All sets of pieces with one of a length to which no piece can be added, and the rest of the bar."""
    held = [0] * len(left)
    made = 0

    def lay(place: int, rest: int, shortest_out: int) -> Iterator[tuple[int, tuple[int, ...]]]:
        nonlocal made
        if made > MOST_FILLS:
            return
        if place == len(lengths):
            if rest < shortest_out:
                made += 1
                yield rest, tuple(held)
            return
        most = min(left[place], rest // lengths[place])
        least = 1 if place == first else 0
        for number in range(most, least - 1, -1):
            held[place] = number
            out = lengths[place] if number < left[place] else shortest_out
            yield from lay(place + 1, rest - number * lengths[place], min(out, shortest_out))
        held[place] = 0

    yield from lay(first, room, room + 1)
