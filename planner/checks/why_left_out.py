"""Why a planting can only be left out: what other places and times come to, found by trying them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

import shapely
from pydantic import ValidationError

from planner.checks.frame import fixes, moves, sizes
from planner.checks.frame.begun import begun, in_the_ground
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.other_start import objection
from planner.errors import BedwrightError
from planner.garden import Garden, Planting
from planner.plan import Plan
from planner.season.frosts import shift
from planner.words import join_list, say, say_count

#: The check of whose findings it is said that other beds carried the family.
ROTATION = "rotation"

#: Most other beds that are tried.
MOST_BEDS = 24
#: The same for a check that takes seconds.
MOST_BEDS_OF_SLOW = 3
#: Other beds or days that help, after which no more are tried.
ENOUGH = 2
#: Most beds that a reason names.
MOST_NAMED = 4
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
    plan: Plan, planting: Planting, seen: Sequence[Tried], judge: Judge, slow: bool = False
) -> tuple[Tried, ...]:
    """Try a planting in all other beds and on other days, but for what was tried already.

    What stands in its bed stays there, and what is begun has its days.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    seen : sequence of Tried
        What was tried already.
    judge : callable
    slow : bool
        Whether a trial takes seconds.
    """
    if in_the_ground(plan, planting):
        return ()
    view = planting_view(plan, planting)
    edits = [fix for _, fix in moves.in_other_beds(plan, view) if fix is not None]
    beds = _tried(plan, edits, seen, judge, MOST_BEDS_OF_SLOW if slow else MOST_BEDS)
    other_days = () if begun(plan, planting) else _on_other_days(view)

    def judge_day(garden: Garden) -> Finding | None:
        return judge(garden) or objection(plan, garden, planting.id)

    days = _tried(plan, other_days, seen, judge_day, len(OTHER_DAYS))
    return (*beds, *days)


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
    if in_the_ground(plan, planting):
        return say("it is begun already")
    place = _place_words(plan, planting, [one for one in tried if _moves(plan, one, planting)], finding)
    shifted = [one for one in tried if _shifts(one, planting)]
    time = say("it is begun already") if begun(plan, planting) else _time_words(shifted, finding)
    return say("{place}; {time}", place=place, time=time) if time else place


def _place_words(plan: Plan, planting: Planting, tried: Sequence[Tried], finding: Finding) -> str:
    """What other places come to: what the nearest would bring, which are no better, and that the rest are full."""
    view = planting_view(plan, planting)
    others = list(moves.in_other_beds(plan, view))
    brought = [one for one in tried if not _is_same(one.against, finding)]
    found = []
    if brought:  # a move by itself tells more than one that changes other plantings too
        found.append(_against_words(min(brought, key=lambda one: _plantings_changed(plan, one))))
    there = [_bed_of(one, planting) for one in tried if _is_same(one.against, finding)]
    same = [name for name in dict.fromkeys(there) if name != view.bed.name]
    if same:
        found.append(_no_better(same, finding))
    elif there:
        found.append(say("elsewhere in its bed it is the same"))
    full = [bed for bed, fix in others if fix is None and sizes.support_fits(view, bed)]
    unfit = [bed for bed, fix in others if fix is None and not sizes.support_fits(view, bed)]
    if full:
        found.append(_no_room(len(full), len(full) == len(others)))
    if unfit:
        found.append(say("its support is built for the width of its bed"))
    if not found:
        found.append(_cannot_move(plan, view))
    joined = found[0]
    for more in found[1:]:
        joined = say("{place}; {more}", place=joined, more=more)
    return joined


def _no_better(beds: Sequence[str], finding: Finding) -> str:
    """That a finding stays in some beds with room for the planting."""
    if finding.check == ROTATION:
        if len(beds) > MOST_NAMED:
            return say_count(
                "{count} other bed with room carried the family too few years ago too",
                "{count} other beds with room carried the family too few years ago too",
                len(beds),
            )
        return say("{beds} carried the family too few years ago too", beds=join_list(beds))
    if len(beds) > MOST_NAMED:
        return say_count(
            "the same holds in {count} other bed with room",
            "the same holds in {count} other beds with room",
            len(beds),
        )
    return say("the same holds in {beds}", beds=join_list(beds))


def _no_room(full: int, every: bool) -> str:
    """That so many other beds, or all of them, have no room."""
    if every:
        return say("no other bed has as much ground free on its days")
    return say_count(
        "{count} other bed has not as much ground free on its days",
        "{count} other beds have not as much ground free on its days",
        full,
    )


def _cannot_move(plan: Plan, view: PlantingView) -> str:
    """Why a planting was tried nowhere else."""
    planting = view.planting
    if len(plan.beds) < 2:
        return say("there is no other bed")
    if planting.plot.kind == "region" or planting.arrangement.kind == "places":
        return say("its plot is drawn by hand and goes to no other bed")
    return say("it climbs a support that is drawn in its bed")


def _time_words(tried: Sequence[Tried], finding: Finding) -> str:
    if not tried:
        return ""
    brought = [one for one in tried if not _is_same(one.against, finding)]
    if not brought:
        return say("on other days it is the same")
    return _against_words(brought[0])


def _against_words(one: Tried) -> str:
    """What comes of an edit that was tried."""
    against = one.against.text if one.against is not None else ""
    return say("“{edit}” would bring: {finding}", edit=one.fix.text, finding=against)


def _is_same(one: Finding | None, other: Finding) -> bool:
    """Whether a finding is the same fault of the same planting, whatever else it is about."""
    if one is None or one.case == other.case or one.key == other.key:
        return True
    return (one.check, one.topic, one.plantings[:1]) == (other.check, other.topic, other.plantings[:1])


def _bed_of(one: Tried, planting: Planting) -> str:
    """Name of the bed that an edited planting lies in."""
    return one.garden.beds_by_id[one.garden.plantings_by_id[planting.id].bed].name


def _plantings_changed(plan: Plan, one: Tried) -> int:
    before = plan.garden.plantings_by_id
    return sum(before.get(after.id) is not after for after in one.garden.plantings)


def _tried(
    plan: Plan, edits: Iterable[Fix], seen: Sequence[Tried], judge: Judge, most: int
) -> Iterator[Tried]:
    known = [plan.garden, *(one.garden for one in seen)]
    count = helped = 0
    for fix in edits:
        try:
            garden = fix.apply(plan.garden)
        except (BedwrightError, ValidationError):
            continue
        if garden in known:
            continue
        count += 1
        one = Tried(fix, garden, judge(garden))
        yield one
        helped += one.against is None
        if count >= most or helped >= ENOUGH:
            return


def _on_other_days(view: PlantingView) -> Iterator[Fix]:
    for days in OTHER_DAYS:
        yield fixes.start_on(view, shift(view.span.first, days), "")


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
