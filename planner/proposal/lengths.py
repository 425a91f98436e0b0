"""How much of a bed a planting takes, and where along it that may lie."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from planner.garden import Planting
from planner.plan import Plan
from planner.proposal.at_arches import extent_of, stretches_at_arches
from planner.proposal.strips import Strip
from planner.proposal.ways import STANDING_SUPPORTS, Wanted, shortest

#: Shortest stretch of a bed that is planted (practice). [m]
SHORTEST = 0.3
#: Places along an uneven bed from which a planting is tried.
PLACES = 6


class Lengths:
    """Lengths of plantings in the beds of a garden, each worked out once.

    Parameters
    ----------
    plan : Plan
    strips : sequence of Strip
        All beds that are planned.
    """

    def __init__(self, plan: Plan, strips: Sequence[Strip]) -> None:
        self.plan = plan
        self._lengths: dict[object, int | None] = {}
        self._held: dict[object, float] = {}
        self._counts: dict[object, dict[int, float]] = {}
        self.longest: dict[object, Strip] = {}
        for strip in sorted(strips, key=lambda one: one.length):
            if strip.even:
                self.longest[strip.sort] = strip

    def stretches(
        self, draft: Planting, strip: Strip, wanted: Wanted, like: Planting | None
    ) -> Iterator[tuple[int | None, int]]:
        """Where a planting may lie: its length wherever it is even, else each start and length that is tried.

        In an uneven bed the length is that of as much ground as it takes in the whole bed; how many stand there is counted when
        it is placed (:func:`planner.proposal.judging.with_real_lengths`).
        """
        if draft.support is not None and draft.support.kind in STANDING_SUPPORTS:
            for start, steps in self.at_arches(strip, like):
                planting = draft.with_(plot=strip.plot(start, steps))
                if wanted.measure(self.plan, planting, self.plan.trial(planting)) >= wanted.amount * (
                    1 - 1e-6
                ):
                    yield start, steps
            return
        if strip.even:
            length = self._length(draft, strip, wanted)
            if length is not None:
                yield None, length
            return
        whole = self._whole(draft, strip, wanted)
        if whole <= 0 or whole < wanted.amount * (1 - 1e-6):
            return
        area = strip.ground(0, strip.length) * wanted.amount / whole
        seen: set[tuple[int, int]] = set()
        for number in range(PLACES):
            start = round(strip.length * number / PLACES)
            length = strip.length_of(area, start)
            if length is not None and (start, length) not in seen:
                seen.add((start, length))
                yield start, length

    def at_arches(self, strip: Strip, like: Planting | None) -> Iterator[tuple[int, int]]:
        """Start and length of places at arches: that of the planting it is like, and such a place at each foot of an arch."""
        plot = self.plan.placed(like).plot if like is not None else None
        if like is None or plot is None or plot.is_empty:
            return
        if like.bed == strip.bed.id:
            start, end = strip.steps(plot)
            yield start, end - start
            return
        low, high = extent_of(self.plan.bed_of(like), plot)
        for first, last in stretches_at_arches(self.plan, strip.bed, high - low):
            start = round(first / strip.step)
            yield start, min(strip.length - start, max(1, round((last - first) / strip.step)))

    def _whole(self, draft: Planting, strip: Strip, wanted: Wanted) -> float:
        """How much of what is wished a whole bed holds."""
        key = (draft.wish, strip.bed.id, draft.arrangement)
        if key not in self._held:
            self._held[key] = wanted.measure(self.plan, draft, self.plan.trial(draft))
        return self._held[key]

    def _length(self, draft: Planting, strip: Strip, wanted: Wanted) -> int | None:
        """Steps of an even bed; worked out once for all beds of the same width, in the longest of them."""
        key = (draft.wish, strip.sort, draft.arrangement, wanted.amount)
        if key not in self._lengths:
            known = self._counts.setdefault(key[:3], {})
            self._lengths[key] = shortest(self.plan, draft, self.longest[strip.sort], wanted, known=known)
        length = self._lengths[key]
        if length is None or length > strip.length:
            return None
        return min(strip.length, max(length, math.ceil(SHORTEST / strip.step - 1e-9)))
