"""Ground that would lie bare in winter, and the green manure that could cover it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import NamedTuple

from planner.garden import Bed
from planner.ground.shelter import ROOFS
from planner.plan import Plan
from planner.proposal.costs import summer_and_winter
from planner.proposal.filling import Filling, fillings, longest_free
from planner.proposal.strips import strips_of, taken_in
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.sun import next_longest_day

#: Days before the shortest day on which ground is covered or bare for the winter. [days]
BEFORE = 30
#: Stretches shorter than this are not told: nobody sows green manure on them (practice). [m]
LEAST_LENGTH = 1.0
#: Days for which ground is free in summer if it lies bare then, too (practice). [days]
IN_SUMMER = 60
#: Days from the harvest of what stood there to a sowing. [days]
TO_SOW = 3


class Bare(NamedTuple):
    """A stretch of a bed that would lie bare in winter.

    Attributes
    ----------
    bed : Bed
    start, end : float
        Along the bed. [m]
    since : date
        First day on which it is free.
    manure : Filling or None
        The green manure that comes up best there; None where it is too late for any.
    in_summer : bool
        Whether it lies bare in summer, too.
    """

    bed: Bed
    start: float
    end: float
    since: dt.date
    manure: Filling | None
    in_summer: bool = False


def bare_in_winter(plan: Plan, beds: Iterable[Bed] | None = None) -> tuple[Bare, ...]:
    """The longest stretch of each bed that nothing stands on in winter, where there is one of a metre or more.

    Containers and beds under a roof are left out: no rain washes them out, and no green manure is sown there for winter.

    Parameters
    ----------
    plan : Plan
        Of the year before the winter.
    beds : iterable of Bed, optional
        All in use by default.
    """
    southern = plan.garden.site.southern
    shortest = next_longest_day(plan.span.first, not southern)
    day = shift(shortest, -BEFORE)
    manures = [
        crop.key
        for crop in plan.catalogue.crops.values()
        if crop.product is not None and crop.product.value == "green manure"
    ]
    asked = [
        bed
        for bed in (beds if beds is not None else plan.beds)
        if bed.kind != "container" and not any(kind in ROOFS for kind in plan.shelter_of(bed))
    ]
    winter, summer = Span(day, shift(shortest, BEFORE)), summer_and_winter(plan)[0]
    found = []
    for strip in strips_of(plan, asked):
        taken = taken_in(plan, strip)
        start, length = longest_free(
            strip.length, [(one.start, one.end) for one in taken if Span(one.first, one.last).meets(winter)]
        )
        if length * strip.step < LEAST_LENGTH - 1e-9:
            continue
        before = [
            one.last for one in taken if one.last < day and one.start < start + length and start < one.end
        ]
        since = max((shift(one, 1) for one in before), default=plan.span.first)
        found_there = fillings(plan, strip.bed, shift(max(since, shift(day, -100)), TO_SOW), crops=manures)
        offers = sorted(
            found_there, key=lambda one: not one.span.holds(shortest)
        )  # first what stands in winter
        end = min((start + length) * strip.step, strip.metres)
        manure = offers[0] if offers else None
        in_summer = since <= shift(summer.last, 1 - IN_SUMMER)
        found.append(Bare(strip.bed, start * strip.step, end, since, manure, in_summer))
    return tuple(found)
