"""Crowding: plants nearer to each other than they need, across plantings and within one.

A plant needs the ground its spacing gives it, but no more than its spread on that day.  Two plants of
different plantings are well apart if each has half of its own need between them.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.checks import crowding_within_planting
from planner.checks.crowding_lone_rows import LoneRowsInputs, judge_lone_rows
from planner.checks.crowding_needs import LEAN, UNDER, Need, needs_of_plantings
from planner.checks.crowding_vines import VinesInputs, judge_vines
from planner.checks.crowding_within_planting import SpacingInputs
from planner.checks.frame import fixes, moves
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.checks.overlap import overlapping_ground
from planner.garden import edits as e
from planner.garden.units import show_spacing
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital, later, number_words, say, say_count

CHECK = "crowding"
#: Days after which a drill that marks another's row is out (practice). [days]
MARKING = 60
#: Days between the sowing of a drill and of the one that marks its row. [days]
SOWN_TOGETHER = 14
#: Overlap of two plots that is not judged plant to plant. [m2]
PLOT_OVERLAP = 1e-4

_RULE_BETWEEN = later(
    "Between two plants lies half of what each needs: its spacing, but no more than its spread on that day; "
    "of plants in two storeys {share}% of that"
)


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plants nearer to each other than they need, within a planting and between two plantings."""
    return (found for found in check_in_steps(context) if found is not None)


def check_in_steps(context: CheckContext) -> Iterator[Finding | None]:
    """The same, with None after each step that found nothing: one planting, or two near each other."""
    plan = context.plan
    for view in context.views:
        if view.starts_here or view.stays_for_years:
            yield plan.cached(crowding_within_planting.judge_spacing, view.id, SpacingInputs(view))
    for pair in context.pairs:
        found = None
        reaches = pair.apart < (pair.one.most_need + pair.other.most_need) / 2 * (1 - LEAN)
        both = (pair.one.id, pair.other.id)
        if reaches and plan.cached(judged_by_plant, both, PairInputs(pair.one, pair.other)):
            needs = needs_of_plantings(plan, pair.one, pair.other, pair.days)
            inputs = CrowdingInputs(pair.one, pair.other, needs)
            found = plan.cached(judge_crowding, both, inputs)
        if found is None and pair.one.bed is not pair.other.bed:
            rows = LoneRowsInputs(pair.one, pair.other, pair.days.first, pair.days.last)
            found = plan.cached(judge_lone_rows, both, rows)
        if found is None:
            vines = VinesInputs(pair.one, pair.other, pair.days.first, pair.days.last)
            found = plan.cached(judge_vines, both, vines)
        yield found


# -- across plantings -----------------------------------------------------------------------------


class CrowdingInputs(NamedTuple):
    """Two plantings near each other, and the distance they need on their shared days."""

    one: PlantingView
    other: PlantingView
    needs: tuple[Need, ...]


@fact("crowding between plantings")
def judge_crowding(inputs: CrowdingInputs) -> Finding | None:
    """The finding about plants of two plantings that are too near; None if all have room."""
    one, other, needs = inputs
    most = max(needs, key=lambda need: need.distance)
    if not len(one.points) or not len(other.points) or most.distance <= 0:
        return None
    near = _near_points(one.points, other.points, most.distance)
    if near is None:
        return None
    ours, theirs, nearest = near
    few, rest, spots = (one, other, ours) if len(ours) <= len(theirs) else (other, one, theirs)
    first = next(need.day for need in needs if need.distance > nearest)
    last = next(need.day for need in reversed(needs) if need.distance > nearest)
    wanted = most.distance / (1 - LEAN)
    text = say(
        "{nearest}; {needed}",
        nearest=_nearest_words(few, rest, len(spots), nearest),
        needed=_needed_words(few, rest, wanted, most.day),
    )
    return planting_finding(
        CHECK,
        "mind",
        (few, rest),
        capital(text),
        say(_RULE_BETWEEN, share=number_words(100 * UNDER, 0)),
        "practice",
        [len(spots), few.placed.plants, round(nearest, 2), round(wanted, 2), first.strftime("%m-%d")],
        Span(first, last),
        shapely.multipoints(few.points[spots]).buffer(max(nearest / 2, 0.05), quad_segs=4),
        "between",
        lambda plan: _separate(plan, few.id, rest.id, first),
    )


class PairInputs(NamedTuple):
    """Two plantings near each other."""

    one: PlantingView
    other: PlantingView


@fact("judged plant to plant")
def judged_by_plant(inputs: PairInputs) -> bool:
    """Whether two plantings are judged plant to plant; ground taken twice is reported by ``overlap``."""
    one, other = inputs
    arrangements = (one.planting.arrangement.kind, other.planting.arrangement.kind)
    if "scatter" in arrangements:
        return False  # broadcast seed falls up to the edge
    if one.planting.shares_ground or other.planting.shares_ground:
        return not _marks_row(one, other)
    if "places" in arrangements:
        return overlapping_ground(one, other) is None
    return not one.plot.intersection(other.plot).area > PLOT_OVERLAP


def _marks_row(one: PlantingView, other: PlantingView) -> bool:
    """Whether a quick drill is sown with a slow one to mark its row, and out before that needs the room (practice)."""
    quick, slow = sorted((one, other), key=lambda view: view.span.days)
    return (
        quick.dates.start == slow.dates.start == "sown"
        and quick.span.days <= MARKING
        and slow.span.days >= 2 * quick.span.days
        and abs((quick.span.first - slow.span.first).days) <= SOWN_TOGETHER
    )


def _nearest_words(few: PlantingView, rest: PlantingView, crowded: int, nearest: float) -> str:
    """The clause that says how near plants of two plantings are.

    Parameters
    ----------
    few : PlantingView
        The planting with fewer crowded plants.
    rest : PlantingView
    crowded : int
        Plants of ``few`` that are too near.
    nearest : float
        Least distance. [m]
    """
    distance, total = show_spacing(nearest, few.units), few.placed.plants
    elsewhere = rest.bed is not few.bed
    name = rest.name if elsewhere else rest.crop_name
    same_crop = not elsewhere and rest.crop_name == few.crop_name
    if crowded < total and same_crop:
        return say_count(
            "{count} of {total} plants of {planting} stands as near as {distance} to the other {crop}",
            "{count} of {total} plants of {planting} stand as near as {distance} to the other {crop}",
            crowded,
            total=total,
            planting=few.name,
            distance=distance,
            crop=name,
        )
    if crowded < total:
        return say_count(
            "{count} of {total} plants of {planting} stands as near as {distance} to {other}",
            "{count} of {total} plants of {planting} stand as near as {distance} to {other}",
            crowded,
            total=total,
            planting=few.name,
            distance=distance,
            other=name,
        )
    if same_crop:
        return say(
            "{planting} stands as near as {distance} to the other {crop}",
            planting=few.name,
            distance=distance,
            crop=name,
        )
    return say(
        "{planting} stands as near as {distance} to {other}",
        planting=few.name,
        distance=distance,
        other=name,
    )


def _needed_words(few: PlantingView, rest: PlantingView, wanted: float, day: dt.date) -> str:
    """The clause that says which distance [m] two plantings need, and on which day if one of them is annual."""
    distance = show_spacing(wanted, few.units)
    if few.stays_for_years and rest.stays_for_years:
        return say("the two need {distance}", distance=distance)
    return say("the two need {distance} by {day}", distance=distance, day=few.day(day))


def _near_points(
    mine: NDArray[np.float64], theirs: NDArray[np.float64], reach: float
) -> tuple[NDArray[np.intp], NDArray[np.intp], float] | None:
    """Find points of two sets that are nearer to the other set than a reach.

    Parameters
    ----------
    mine, theirs : ndarray
        Shape (n, 2). [m]
    reach : float
        [m]

    Returns
    -------
    tuple of (ndarray, ndarray, float) or None
        Indices into either set, and the least distance [m]; None if there are none.
    """
    low, high = theirs.min(axis=0) - reach, theirs.max(axis=0) + reach
    inside = np.nonzero(((mine >= low) & (mine <= high)).all(axis=1))[0]
    if not len(inside):
        return None
    low, high = mine[inside].min(axis=0) - reach, mine[inside].max(axis=0) + reach
    other = np.nonzero(((theirs >= low) & (theirs <= high)).all(axis=1))[0]
    if not len(other):
        return None
    tree = shapely.STRtree(shapely.points(theirs[other]))
    left, right = tree.query(shapely.points(mine[inside]), predicate="dwithin", distance=reach - 1e-6)
    if not len(left):
        return None
    gaps = mine[inside[left]] - theirs[other[right]]
    return np.unique(inside[left]), np.unique(other[right]), float(np.hypot(*gaps.T).min())


# -- fixes ----------------------------------------------------------------------------------------


def _separate(plan: Plan, key: str, other_key: str, first: dt.date) -> Iterator[Fix]:
    """Fixes for two plantings that crowd each other from a day on.

    Parameters
    ----------
    plan : Plan
    key, other_key : str
        Ids of the plantings.
    first : date
    """
    few, rest = (planting_view(plan, plan.garden.plantings_by_id[each]) for each in (key, other_key))
    both = ((few, rest), (rest, few))
    for one, other in both:
        yield from _fewer_places(plan, one, other)
    day = shift(first, -1)
    for one, _ in both:
        picked = one.dates.first_harvest
        grows = one.span.first < first and not one.stays_for_years
        if grows and picked is not None and picked.day <= day:
            yield fixes.clear_on(one, day, say("gone before the two meet"))
    for one, _ in both:
        yield from moves.elsewhere(plan, one, say("ground of its own"))
    for one, other in both:
        if not one.stays_for_years:
            yield fixes.remove(one, say("room for {crop}", crop=other.crop_name))


def _fewer_places(plan: Plan, one: PlantingView, other: PlantingView) -> Iterator[Fix]:
    """Leave out the given places of one planting that are too near to another."""
    arrangement, layout = one.planting.arrangement, one.placed.layout
    if arrangement.kind != "places" or layout.count != len(arrangement.points):
        return
    days = shared(one.span, other.span)
    days = shared(days, plan.span) if days is not None else None
    if days is None:
        return
    reach = max(need.distance for need in needs_of_plantings(plan, one, other, days))
    near = _near_points(one.points, other.points, reach)
    if near is None or len(near[0]) >= layout.count:
        return
    gone, left = set(near[0].tolist()), layout.count - len(near[0])
    yield Fix(
        say_count(
            "Leave out {count} plant of {crop}",
            "Leave out {count} plants of {crop}",
            len(gone),
            crop=one.crop_name,
        ),
        say_count("{count} are left, each with its room", "{count} are left, each with its room", left),
        lambda garden: e.remove_places(garden, one.id, gone),
    )
