"""Ground that a layout leaves bare in summer, warm ground under a roof first, and what could go in."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from planner.checks.frame.planting_view import planting_view
from planner.garden import Bed
from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.costs import summer_and_winter
from planner.proposal.filling import Filling, fillings
from planner.proposal.strips import Strip, Taken, strips_of, taken_in
from planner.season.frosts import shift
from planner.season.spans import Span

#: Ground that is free for so many days of summer, and so long, is told (practice). [days, m]
LEAST_DAYS, LEAST_LENGTH = 60, 0.5
#: What could go in is looked for so many days after the first, for what is tender waits until it is warm; where nothing could, at once.
LATER = 20
#: Crops that are told for each stretch, and stretches for which any are: roofed ones first, then the largest.
MOST_OFFERS, MOST_STRETCHES = 3, 8


class BareInSummer(NamedTuple):
    """A stretch of a bed that lies bare in summer.

    Attributes
    ----------
    bed : Bed
    start, end : float
        Along the bed. [m]
    free : Span
        Days of summer on which nothing stands there.
    roofed : bool
        Whether the bed lies under a roof or by a warm wall.
    offers : tuple of Filling
        What could go in, the best first; of the largest alone it is looked for.
    """

    bed: Bed
    start: float
    end: float
    free: Span
    roofed: bool
    offers: tuple[Filling, ...]


def bare_in_summer(
    plan: Plan, beds: Iterable[Bed] | None = None, wished: Mapping[str, Wish] | None = None
) -> tuple[BareInSummer, ...]:
    """The stretch of each bed that lies bare for most of summer, where there is one; those under a roof first, then the largest.

    Parameters
    ----------
    plan : Plan
        With what is planted.
    beds : iterable of Bed, optional
        All in use by default.
    wished : mapping of str to Wish, optional
        What is still wished of crops, by their keys; by default the wishes of which nothing is planted.
    """
    summer, _ = summer_and_winter(plan)
    found: list[tuple[BareInSummer, dt.date | None]] = []
    for strip in strips_of(plan, plan.beds if beds is None else beds):
        taken = taken_in(plan, strip)
        largest = largest_free(strip, taken, summer)
        if largest is not None:
            start, end, free = largest
            roofed = bool(plan.shelter_of(strip.bed))
            metres = start * strip.step, min(end * strip.step, strip.metres)
            after = [
                one.first for one in taken if one.first > free.last and one.start < end and start < one.end
            ]
            found.append((BareInSummer(strip.bed, *metres, free, roofed, ()), min(after, default=None)))
    found.sort(key=lambda one: (not one[0].roofed, -(one[0].end - one[0].start) * one[0].free.days))
    return tuple(
        one._replace(offers=_offers(plan, one, before, wished) if number < MOST_STRETCHES else ())
        for number, (one, before) in enumerate(found)
    )


def largest_free(strip: Strip, taken: Sequence[Taken], season: Span) -> tuple[int, int, Span] | None:
    """The free stretch of a bed with the most steps times days of a season; None where none is large enough.

    Parameters
    ----------
    strip : Strip
    taken : sequence of Taken
    season : Span

    Returns
    -------
    tuple of (int, int, Span)
        First step, the first after it, and the days.
    """
    there = [one for one in taken if Span(one.first, one.last).meets(season) and one.start < one.end]
    firsts = sorted({season.first, *(shift(one.last, 1) for one in there if one.last < season.last)})
    lasts = sorted({season.last, *(shift(one.first, -1) for one in there if one.first > season.first)})
    least = LEAST_LENGTH / strip.step if strip.metres >= LEAST_LENGTH else strip.length
    best, most = None, 0
    for first in firsts:
        for last in lasts:
            days = (last - first).days + 1
            if days < LEAST_DAYS or first < season.first:
                continue
            span, at = Span(first, last), 0
            lying = sorted((one.start, one.end) for one in there if Span(one.first, one.last).meets(span))
            for start, end in [*lying, (strip.length, strip.length)]:
                if start - at >= least - 1e-9 and (start - at) * days > most:
                    best, most = (at, start, span), (start - at) * days
                at = max(at, end)
    return best


def _offers(
    plan: Plan, bare: BareInSummer, before: dt.date | None, wished: Mapping[str, Wish] | None
) -> tuple[Filling, ...]:
    """What could go in, to be cleared before a day: what is wished, under a roof what needs the warmth, what was grown before, by its harvest."""
    last = shift(before, -1) if before is not None else None
    found = fillings(plan, bare.bed, shift(bare.free.first, LATER), last, wished=wished)
    found = found or fillings(plan, bare.bed, bare.free.first, last, wished=wished)

    def key(one: Filling) -> tuple[object, ...]:
        cool = bare.roofed and not planting_view(plan, one.planting).tender
        manure, new = one.planting.purpose == "green manure", not one.grown_before
        return one.wish is None, manure, cool, new, -(one.grams or 0), one.crop.key

    return tuple(sorted(found, key=key)[:MOST_OFFERS])
