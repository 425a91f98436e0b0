"""Why a planting can only be left out: what other places and times come to, found by trying them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

import shapely

from planner.checks.frame import fixes
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.errors import BedwrightError
from planner.garden import Garden, Planting
from planner.plan import Plan
from planner.season.frosts import shift
from planner.words import say, say_count

#: Most other places, and most other days, that are tried.
MOST_PLACES = 3
#: Other first days that are tried, from the present one. [days]
OTHER_DAYS = (-14, 14, -28, 28)

#: Plots that differ by less are the same. [m2]
SPECK = 1e-3

#: What speaks against an edited garden: the same finding, another one that came instead, or nothing.
Judge = Callable[[Garden], Finding | None]


@dataclass(frozen=True)
class Tried:
    """An edit that was tried, and the finding that speaks against it; None where the edit helps.

    Attributes
    ----------
    fix : Fix
    garden : Garden
        The edited one.
    against : Finding or None
    """

    fix: Fix
    garden: Garden
    against: Finding | None


def removed_planting(before: Garden, after: Garden) -> Planting | None:
    """The planting that an edit leaves out; None where it leaves out none, or several."""
    gone = [p for p in before.plantings if p.id not in after.plantings_by_id]
    return gone[0] if len(gone) == 1 else None


def other_places_and_times(
    plan: Plan, planting: Planting, seen: Sequence[Tried], judge: Judge
) -> tuple[Tried, ...]:
    """Try a planting in other places and on other days, as far as its finding's own edits did not.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    seen : sequence of Tried
        What was tried already.
    judge : callable
    """
    view = planting_view(plan, planting)
    found: list[Tried] = []
    if not any(_moves(plan, one, planting) for one in seen):
        found += _tried(plan, _elsewhere(plan, view), judge, MOST_PLACES)
    if not any(_shifts(one, planting) for one in seen) and not _begun(plan, planting):
        found += _tried(plan, _on_other_days(view), judge, len(OTHER_DAYS))
    return tuple(found)


def why_left_out(plan: Plan, planting: Planting, tried: Sequence[Tried], finding: Finding) -> str:
    """One sentence on why no other place and no other time would do.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    tried : sequence of Tried
        All that was tried; none of it helped.
    finding : Finding
        That a mend is sought for.
    """
    place = _place_words(plan, planting, [one for one in tried if _moves(plan, one, planting)], finding)
    time = _time_words(plan, planting, [one for one in tried if _shifts(one, planting)], finding)
    return say("{place}; {time}", place=place, time=time)


def _place_words(plan: Plan, planting: Planting, tried: Sequence[Tried], finding: Finding) -> str:
    if tried:
        stays = _staying(tried, finding)
        if stays == len(tried):
            return say_count(
                "the same holds in {count} other place that was tried",
                "the same holds in {count} other places that were tried",
                stays,
            )
        first = next(one for one in tried if not _is_same(one.against, finding))
        return _against_words(first)
    if planting.plot.kind == "region" or planting.arrangement.kind == "places":
        return say("its plot is drawn by hand and goes to no other bed")
    if planting.support is not None and planting.support.line:
        return say("it climbs a support that is drawn in its bed")
    return say("no bed of this sort has as much ground free on its days")


def _time_words(plan: Plan, planting: Planting, tried: Sequence[Tried], finding: Finding) -> str:
    if _begun(plan, planting):
        return say("it is begun already")
    stays = _staying(tried, finding)
    if stays == len(tried):
        return say("on other days it is the same")
    first = next(one for one in tried if not _is_same(one.against, finding))
    return _against_words(first)


def _against_words(one: Tried) -> str:
    """What comes of an edit that was tried."""
    against = one.against.text if one.against is not None else ""
    return say("“{edit}” would bring: {finding}", edit=one.fix.text, finding=against)


def _staying(tried: Sequence[Tried], finding: Finding) -> int:
    return sum(_is_same(one.against, finding) for one in tried)


def _is_same(one: Finding | None, other: Finding) -> bool:
    return one is None or one.case == other.case or one.key == other.key


def _tried(plan: Plan, edits: Iterable[Fix], judge: Judge, most: int) -> Iterator[Tried]:
    count = 0
    for fix in edits:
        try:
            garden = fix.apply(plan.garden)
        except BedwrightError:
            continue
        if garden is plan.garden:
            continue
        count += 1
        yield Tried(fix, garden, judge(garden))
        if count >= most:
            return


def _elsewhere(plan: Plan, view: PlantingView) -> Iterator[Fix]:
    for fix in fixes.elsewhere(plan, view, ""):
        after = fix.apply(plan.garden).plantings_by_id[view.id]
        if not _same_ground(plan, view.planting, after):
            yield fix


def _on_other_days(view: PlantingView) -> Iterator[Fix]:
    for days in OTHER_DAYS:
        yield fixes.start_on(view, shift(view.span.first, days), "")


def _begun(plan: Plan, planting: Planting) -> bool:
    """Whether its start was ticked off, or lies in a growing year before the one that is checked."""
    begun = plan.dates(planting).sow or plan.dates(planting).set_out
    first: dt.date = plan.span_of(planting).first
    return (begun is not None and begun.origin == "done") or first < plan.span.first


def _moves(plan: Plan, one: Tried, planting: Planting) -> bool:
    """Whether an edit puts a planting on other ground."""
    after = one.garden.plantings_by_id.get(planting.id)
    return after is not None and not _same_ground(plan, planting, after)


def _same_ground(plan: Plan, planting: Planting, after: Planting) -> bool:
    """Whether an edited planting has the very ground it had."""
    if after.bed != planting.bed:
        return False
    apart = shapely.symmetric_difference(plan.trial(after).plot, plan.placed(planting).plot)
    return bool(apart.area < SPECK)


def _shifts(one: Tried, planting: Planting) -> bool:
    """Whether an edit gives a planting other days."""
    after = one.garden.plantings_by_id.get(planting.id)
    return after is not None and (after.first, after.last, after.timing, after.pinned_dates) != (
        planting.first,
        planting.last,
        planting.timing,
        planting.pinned_dates,
    )
