"""What could still go into free ground from a day on: crops that come to a harvest there before the ground is wanted again."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from planner.amounts.enough_for import EnoughError
from planner.checks.depth import LEAST as LEAST_DEPTH
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.rotation import Interval, interval
from planner.crops import Crop
from planner.garden import Bed, Planting
from planner.garden.planting import Purpose
from planner.garden.wishes import Wish
from planner.ground.bed_spacing import usual_arrangement
from planner.plan import Plan
from planner.plan.yields import YieldInputs, yield_of_planting
from planner.proposal import refusals
from planner.proposal.bed_light import BedLight
from planner.proposal.manure_days import covers_ground
from planner.proposal.old_ground import comes_too_soon, may_follow_in_a_year
from planner.proposal.refusals import Refusal
from planner.proposal.strips import Carried, Strip, Taken, carried_by, strips_of, taken_in
from planner.proposal.ways import base_draft, shortest, wanted_of
from planner.season.frosts import shift
from planner.season.planting_dates import Dates
from planner.season.practice import stays_for_years
from planner.season.spans import Span

#: Shortest stretch that is filled. [m]
SHORTEST = 0.3
#: Days that a planting may wait for its ground, as plants in their pots or seed in its packet. [days]
WAITS = 10
#: Days for which ground is free at the least, from when a planting may wait no longer (practice). [days]
SOON = 25
#: Days to maturity up to which crops that the garden never had are offered too (practice). [days]
QUICK = 75
#: Days by which a season begins sooner and ends later under a roof, and days from the usual day on which what has no season but
#: that day is still begun (practice). [days]
UNDER_A_ROOF, NEAR_USUAL = 28, 21
#: Days after which a family that follows is no matter, and up to which two are of one year. [days]
A_YEAR_OR_TWO, A_YEAR = 730, 240
#: How much wishes matter, the most first.
_IMPORTANCE = ("must", "should", "could")


@dataclass(frozen=True, eq=False)
class Filling:
    """A crop that could go into free ground.

    Attributes
    ----------
    planting : Planting
        Not in the garden.
    crop : Crop
    wish : Wish or None
        An unmet wish that it would meet, or help to.
    plants : int
    grams : int or None
        Its harvest; None where no yield is known. [g]
    dates : Dates
    span : Span
        In which it takes the ground.
    length : float
        Of the stretch. [m]
    grown_before : bool
        Whether the garden had it in any year.
    """

    planting: Planting
    crop: Crop
    wish: Wish | None
    plants: int
    grams: int | None
    dates: Dates
    span: Span
    length: float
    grown_before: bool


class Candidate(NamedTuple):
    """A crop that is tried in free ground, with the wish that it would meet."""

    crop: Crop
    variety: str
    purpose: Purpose
    wish: Wish | None
    grown_before: bool


def fillings(
    plan: Plan,
    bed: Bed,
    day: dt.date,
    last: dt.date | None = None,
    crops: Iterable[str] | None = None,
    wished: Mapping[str, Wish] | None = None,
) -> tuple[Filling, ...]:
    """Crops for the longest free stretch of a bed from a day on, the best first.

    What is wished and unmet comes first, then what is eaten and was grown before, by its harvest for each day it takes the ground;
    then green manure.  A crop comes only where its start is a good one on the day, its ground is free until it is cleared, its
    rotation allows it, and it has sun and depth enough.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    day : date
        From which the ground is to be used.
    last : date, optional
        By which it is to be cleared.
    crops : iterable of str, optional
        Keys of the crops that are tried; by default those that the garden knows, quick ones, and green manure.
    wished : mapping of str to Wish, optional
        What is still wished of crops, by their keys; by default the wishes of which nothing is planted.
    """
    strip = strips_of(plan, [bed])[0]
    carried = carried_by(plan, [strip])[0]
    light = BedLight(plan, [bed])
    there = taken_in(plan, strip)
    soon = Span(shift(day, WAITS), shift(day, SOON))
    _, free = longest_free(
        strip.length, [(one.start, one.end) for one in there if Span(one.first, one.last).meets(soon)]
    )
    if free * strip.step < SHORTEST:
        return ()  # nothing is ripe so soon
    tried = (
        judge_candidate(plan, strip, one, day, last, there, carried, light)
        for one in _candidates(plan, crops, wished)
    )
    return tuple(sorted((one for one in tried if isinstance(one, Filling)), key=_rank))


def most_wished(wishes: Iterable[Wish]) -> dict[str, Wish]:
    """Of the wishes for each crop the one that matters most, the first of those that matter alike.

    Parameters
    ----------
    wishes : iterable of Wish

    Returns
    -------
    dict of str to Wish
        By the crops' keys.
    """
    found: dict[str, Wish] = {}
    for one in sorted(wishes, key=lambda one: _IMPORTANCE.index(one.importance)):
        found.setdefault(one.crop, one)
    return found


def _candidates(
    plan: Plan, crops: Iterable[str] | None, wished: Mapping[str, Wish] | None
) -> Iterator[Candidate]:
    garden, catalogue = plan.garden, plan.catalogue
    if wished is None:
        met = {one.wish for one in garden.plantings}
        wished = most_wished(one for one in garden.wishes if one.year == plan.year and one.id not in met)
    grown = {one.crop: one for one in garden.plantings if one.year <= plan.year}
    eaten = {one.crop for one in garden.household.eats}
    for crop in catalogue.crops.values():
        before = crop.key in grown or crop.key in eaten
        wish = wished.get(crop.key)
        manure = crop.product is not None and crop.product.value == "green manure"
        if stays_for_years(crop):
            continue
        if crops is not None:
            if crop.key not in crops:
                continue
        elif wish is None and not before and not manure and (crop.number("days_to_maturity") or 999) > QUICK:
            continue
        purpose: Purpose = "green manure" if manure else "kitchen"
        if wish is not None:
            yield Candidate(crop, wish.variety, wish.purpose, wish, before)
        else:
            old = grown.get(crop.key)
            yield Candidate(
                crop,
                old.variety if old is not None else "",
                old.purpose if old is not None else purpose,
                None,
                before,
            )


def judge_candidate(
    plan: Plan,
    strip: Strip,
    candidate: Candidate,
    day: dt.date,
    last: dt.date | None,
    there: Iterable[Taken],
    carried: Iterable[Carried],
    light: BedLight,
) -> Filling | Refusal:
    """What a crop would make of a bed from a day on, or why it does not fit there.

    Parameters
    ----------
    plan : Plan
    strip : Strip
    candidate : Candidate
        What stays for years fits where the ground is free for good.
    day : date
        From which the ground is to be used.
    last : date or None
        By which it is to be cleared.
    there : iterable of Taken
        What takes the bed.
    carried : iterable of Carried
        What its ground carried before.
    light : BedLight
        Of the bed.
    """
    crop, bed = candidate.crop, strip.bed
    draft = Planting(
        id="filling",
        bed=bed.id,
        crop=crop.key,
        variety=candidate.variety,
        year=plan.year,
        purpose=candidate.purpose,
        first=day,
        wish=candidate.wish.id if candidate.wish is not None else None,
    )
    if not _in_season(plan, candidate, bed, day):
        return refusals.out_of_season(plan.outer_window(crop, ""))
    view = planting_view(plan, draft)
    dates, span = view.dates, view.span
    for_years = stays_for_years(crop)
    if not for_years:
        if not _starts_well(plan, candidate, view, day):
            return refusals.not_harvested(plan.outer_window(crop, dates.start), day)
        if span.open or (last is not None and span.last > last):
            return refusals.too_long(span)
    there, years = tuple(there), interval(view)
    taken = [(one.start, one.end) for one in there if Span(one.first, one.last).meets(span)]
    if longest_free(strip.length, taken)[1] * strip.step < SHORTEST:
        return refusals.no_ground(span)
    shut = shut_by_rotation(plan, crop, span, years, carried, there)
    start, length = longest_free(strip.length, [*shut, *taken])
    if length * strip.step < SHORTEST:
        before = [old.ago for old in carried if old.family == crop.family and old.view.span.last < span.first]
        return refusals.family_too_soon(crop, min(before, default=None), years)
    least, depth = LEAST_DEPTH.get(crop.key), plan.garden.soil_of(bed).depth
    if least is not None and depth is not None and depth < least:
        return refusals.too_shallow(least, depth, plan.garden.site.units)
    if lacking := light.lacking(view):
        return refusals.too_dark(view.number("sun_hours"), next(iter(lacking.values())))
    if candidate.wish is not None:  # spaced as it is where a layout is proposed
        base = base_draft(plan, candidate.wish, bed)
        arranged = draft.with_(arrangement=base.arrangement, support=base.support)
    else:
        arranged = draft.with_(arrangement=usual_arrangement(bed, view.figures))
    length = _as_wished(plan, arranged, strip, candidate.wish, start, length)
    planting = arranged.with_(plot=strip.plot(start, length))
    placed = plan.trial(planting)
    if not placed.plants:
        return refusals.no_room()
    grams = yield_of_planting(YieldInputs(planting, view.figures, placed)).grams
    return Filling(
        planting,
        crop,
        candidate.wish,
        placed.plants,
        grams,
        dates,
        span,
        length * strip.step,
        candidate.grown_before,
    )


def shut_by_rotation(
    plan: Plan,
    crop: Crop,
    span: Span,
    years: Interval | None,
    carried: Iterable[Carried],
    there: Iterable[Taken],
) -> list[tuple[int, int]]:
    """Steps of a bed on which a crop's family stood too few years before, or is to stand too soon after.

    Parameters
    ----------
    plan : Plan
    crop : Crop
    span : Span
        In which it takes its ground.
    years : Interval or None
        That its family is wanted to rest; None where it may follow itself in any year.
    carried, there : iterable
        What the bed carried, and what stands in it in any year.
    """
    if years is None:
        return []
    before = [
        (old.start, old.end) for old in carried if comes_too_soon(old, crop.family, span, years, plan.year)
    ]
    return before + [
        (one.start, one.end) for one in there if _is_followed_too_soon(plan, one, crop, span, years)
    ]


def _as_wished(plan: Plan, draft: Planting, strip: Strip, wish: Wish | None, start: int, free: int) -> int:
    """Steps of a free stretch that a wish takes: those for its amount, or all where it has none, or there is no more room."""
    if wish is None or wish.amount is None:
        return free
    try:
        wanted = wanted_of(plan, wish)
    except EnoughError:
        return free
    if wanted is None:
        return free
    length = shortest(plan, draft, strip, wanted, start)
    return free if length is None else min(free, max(length, math.ceil(SHORTEST / strip.step - 1e-9)))


def _is_followed_too_soon(plan: Plan, one: Taken, crop: Crop, span: Span, years: Interval) -> bool:
    """Whether what is planned to follow in a year or two is of the same family, and too soon for it."""
    after = plan.figures_of(one.planting).crop
    if after is None or after.family != crop.family or one.first <= span.last:
        return False
    between, days = (one.first - span.last).days, (one.last - one.first).days + 1
    return between < A_YEAR_OR_TWO and not (between < A_YEAR and may_follow_in_a_year(years, span.days, days))


def _in_season(plan: Plan, candidate: Candidate, bed: Bed, day: dt.date) -> bool:
    """Whether a day may be in a crop's season at all, before its dates are worked out."""
    if candidate.purpose == "green manure":
        return True
    window = plan.outer_window(candidate.crop, "")
    if window is None:  # begun in autumn, or nothing is known of it
        return True
    wider = UNDER_A_ROOF if plan.shelter_of(bed) else 0
    return shift(window.first, -wider - WAITS) <= day <= shift(window.last, wider)


def _starts_well(plan: Plan, candidate: Candidate, view: PlantingView, day: dt.date) -> bool:
    """Whether a crop that takes its ground on a day, or some days later at the most, comes to its harvest."""
    first = view.span.first
    if first > shift(day, WAITS) or not view.dates.ripens:
        return False
    if candidate.purpose == "green manure":
        return view.dates.clear is not None and covers_ground(plan, view)
    if view.dates.first_harvest is None:
        return False
    crop, start = candidate.crop, view.dates.start
    window = plan.outer_window(crop, start)
    if window is not None:
        wider = UNDER_A_ROOF if view.shelter else 0
        within = shift(window.first, -wider) <= first <= shift(window.last, wider)
        return within and (bool(view.shelter) or plan.dates_begun_on(crop, start, first)[1])
    usual = plan.usual_dates(crop, start).on_plot  # of what is begun in autumn
    return usual is not None and abs((first - usual.day).days) <= NEAR_USUAL


def longest_free(length: int, taken: Iterable[tuple[int, int]]) -> tuple[int, int]:
    """The first of the longest stretches that nothing takes: its start, and its length; (0, 0) where there is none."""
    best, at = (0, 0), 0
    for start, end in [*sorted(taken), (length, length)]:
        if start - at > best[1]:
            best = at, start - at
        at = max(at, end)
    return best


def _rank(one: Filling) -> tuple[object, ...]:
    """Unmet wishes, then what is eaten and was grown, then other crops, then green manure; the most for each day first."""
    manure = one.planting.purpose == "green manure"
    kind = 0 if one.wish is not None else 3 if manure else 1 if one.grown_before else 2
    importance = _IMPORTANCE.index(one.wish.importance) if one.wish is not None else 0
    return kind, importance, -(one.grams or 0) / max(one.span.days, 1), one.crop.key
