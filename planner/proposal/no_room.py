"""Why no bed has room for all of a wish, and whether dividing it over more beds would help."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.filling import longest_free
from planner.proposal.strips import Strip, taken_in
from planner.proposal.ways import LEAST_PART, Wanted, base_draft
from planner.words import percent, say

#: Most beds over which a wish may be divided.
MOST_PARTS = 3


def no_room_words(plan: Plan, wish: Wish, wanted: Wanted, strips: Iterable[Strip]) -> str:
    """That no bed has room for a wish, the most that one has beside what stays there, and what would help.

    Parameters
    ----------
    plan : Plan
        With all that stays.
    wish : Wish
    wanted : Wanted
        How much of it.
    strips : iterable of Strip
        In which it may stand.

    Returns
    -------
    str
        A sentence without a full stop, its first letter small.
    """
    held = sorted(
        ((_held(plan, wish, wanted, strip), strip.bed.name) for strip in strips), key=lambda one: -one[0]
    )
    if not held or not held[0][0]:
        return say("none of these beds has room for it")
    most, bed = held[0]
    words = say(
        "none of these beds has room for all of it: the largest, {bed}, holds {share} of it",
        bed=bed,
        share=percent(most / wanted.amount),
    )
    amounts = [amount for amount, _ in held]
    now = _most_divided(amounts, 1, wish.parts) / wanted.amount
    if wish.in_part and now < LEAST_PART:
        words = say("{reason}; less than a quarter of a wish is never planted", reason=words)
    if wish.parts >= MOST_PARTS:
        return words
    parts, divided = max(
        ((n, _most_divided(amounts, n, n) / wanted.amount) for n in range(wish.parts + 1, MOST_PARTS + 1)),
        key=lambda one: (min(one[1], 1.0), -one[0]),
    )
    if divided <= now or divided < (LEAST_PART if wish.in_part else 1.0):
        return words
    return say(
        "{reason}; divided over {count} beds there could be {share} of it",
        reason=words,
        count=parts,
        share=percent(min(divided, 1.0)),
    )


def _held(plan: Plan, wish: Wish, wanted: Wanted, strip: Strip) -> float:
    """How much of a wish the longest stretch of a bed holds that stays free on its usual days."""
    draft = base_draft(plan, wish, strip.bed)
    span = plan.span_of(draft)
    there = [
        (one.start, one.end)
        for one in taken_in(plan, strip)
        if one.first <= span.last and span.first <= one.last
    ]
    start, length = longest_free(strip.length, there)
    if not length:
        return 0.0
    if length < strip.length:
        draft = draft.with_(plot=strip.plot(start, length))
    return wanted.measure(plan, draft, plan.trial(draft))


def _most_divided(amounts: Sequence[float], least: int, most: int) -> float:
    """The most that so many beds hold, as much in each of them."""
    counts = [n for n in range(least, most + 1) if n <= len(amounts)]
    return max((n * amounts[n - 1] for n in counts), default=0.0)
