"""Crowding: stations nearer than what stands there needs, across plantings and within one.

A plant needs the ground its spacing gives it, but no more than its spread on that day.  Two plants of
different plantings stand well where each has half of its own need between them.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.checks import crowding_within_planting
from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, Pair, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import many
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.checks.overlap import ground_taken_twice
from planner.garden import edits as e
from planner.garden.units import show_spacing
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital

CHECK = "crowding"
#: Across plantings so much less than needed is not said: plants lean to where there is room (practice).
LEAN = 0.25
#: Of plants of which an upright one stands so many times as high as the other, of another family, ...
STOREYS = 1.5
#: ... so much of the need is enough: one uses the light above, the other the ground below (practice).
UNDER = 0.6
#: ... where the lower one spreads no wider than this, or runs along the ground (practice). [m]
SLIGHT = 0.6
#: A drill that marks another's row is out after so many days (practice). [days]
MARKING = 60
#: Days from look to look.
STEP = 7

_RULE_BETWEEN = (
    "Between two plants lies half of what each needs: its spacing, but no more than its spread on that day; "
    f"of plants in two storeys {UNDER:.0%} of that"
)


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = context.plan
    for view in context.views:
        if view.starts_here or view.stays_for_years:
            found = plan.once(
                "crowded within", view.id, (view,), partial(crowding_within_planting.too_near, view)
            )
            if found is not None:
                yield found
    for pair in context.pairs:
        if pair.apart >= (pair.one.most_need + pair.other.most_need) / 2 * (1 - LEAN):
            continue
        found = plan.once(
            f"crowded by {pair.other.id}",
            pair.one.id,
            (pair.one, pair.other, plan.year),
            partial(_judged, plan, pair),
        )
        if found is not None:
            yield found


def _judged(plan: Plan, pair: Pair) -> Finding | None:
    return _between(plan, pair) if _meant_together(pair) else None


def _meant_together(pair: Pair) -> bool:
    """Whether the two are judged plant to plant; ground taken twice unmeant is said by ``overlap``."""
    if "scatter" in (pair.one.planting.arrangement.kind, pair.other.planting.arrangement.kind):
        return False  # broadcast seed falls where it falls, up to the edge
    if pair.one.planting.shares_ground or pair.other.planting.shares_ground:
        return not _marks_the_row(pair)
    if "places" in (pair.one.planting.arrangement.kind, pair.other.planting.arrangement.kind):
        return ground_taken_twice(pair) is None
    return pair.apart > 0 or not pair.one.plot.intersection(pair.other.plot).area > 1e-4


def _marks_the_row(pair: Pair) -> bool:
    """A quick drill sown with a slow one, to mark its row, and out before that needs the room (practice)."""
    quick, slow = sorted((pair.one, pair.other), key=lambda view: view.span.days)
    return (
        quick.dates.start == slow.dates.start == "sown"
        and quick.span.days <= MARKING
        and slow.span.days >= 2 * quick.span.days
        and abs((quick.span.first - slow.span.first).days) <= 14
    )


# -- across plantings ---------------------------------------------------------------------------


def _need(view: PlantingView, day: dt.date, mixed: bool) -> float:
    """Width of ground one plant needs on a day: beside another planting, or mixed with it by wish. [m]"""
    spread, own = view.size(day).spread, view.own_spacing
    if not mixed:
        return min(spread, view.most_need)
    return spread if own is None else min(own, spread)


def _family(view: PlantingView) -> str:
    return view.crop.family if view.crop is not None else view.id


def _in_storeys(pair: Pair, day: dt.date) -> bool:
    """Whether one stands upright over the other, which is slight or runs along the ground."""
    sizes = [(view.size(day), view) for view in (pair.one, pair.other)]
    (low, beneath), (high, _) = sorted(sizes, key=lambda one: one[0].height)
    runs = beneath.crop is not None and beneath.crop.growth_form == "sprawler"
    upright = high.spread <= high.height
    return high.height >= STOREYS * low.height and upright and (runs or low.spread <= SLIGHT)


@dataclass(frozen=True)
class _Look:
    day: dt.date
    needed: float


def _looks(plan: Plan, pair: Pair) -> Any:
    """What the two need on days from first to last; the same wherever they stand."""

    def of(view: PlantingView) -> tuple[object, ...]:
        facts = view.figures
        return view.planting, view.placed, view.dates, view.span, facts.crop, facts.variety

    days = pair.days.first.toordinal(), pair.days.last.toordinal()
    inputs = (of(pair.one), of(pair.other), days)
    return plan.once(f"looks at {pair.other.id}", pair.one.id, inputs, partial(_looked, pair))


def _looked(pair: Pair) -> list[_Look]:
    days = [pair.days.first + dt.timedelta(days=n) for n in range(0, pair.days.days, STEP)]
    if days[-1] != pair.days.last:
        days.append(pair.days.last)
    found = []
    kin = _family(pair.one) == _family(pair.other)
    mixed = pair.one.planting.shares_ground or pair.other.planting.shares_ground
    for day in days:
        needed = (_need(pair.one, day, mixed) + _need(pair.other, day, mixed)) / 2
        if not kin and _in_storeys(pair, day):
            needed *= UNDER
        found.append(_Look(day, needed * (1 - LEAN)))
    return found


def _between(plan: Plan, pair: Pair) -> Finding | None:
    looks = _looks(plan, pair)
    most = max(looks, key=lambda look: look.needed)
    mine, yours = pair.one.points, pair.other.points
    if not len(mine) or not len(yours) or most.needed <= 0:
        return None
    near = _near(mine, yours, most.needed)
    if near is None:
        return None
    ours, theirs, nearest = near
    first = next(look.day for look in looks if look.needed > nearest)
    last = next(look.day for look in reversed(looks) if look.needed > nearest)
    few, other = (pair.one, pair.other) if len(ours) <= len(theirs) else (pair.other, pair.one)
    spots = ours if few is pair.one else theirs
    wanted = most.needed / (1 - LEAN)
    units = few.units
    total = few.placed.plants
    if len(spots) < total:
        who = f"{len(spots)} of {many(total, 'station')} of {few.name} {'stands' if len(spots) == 1 else 'stand'}"
    else:
        who = f"{few.name} stands"
    when = "" if few.stays_for_years and other.stays_for_years else f" by {few.day(most.day)}"
    where = "" if other.bed is few.bed else f" in {other.bed.name}"
    name = other.crop_name if other.crop_name != few.crop_name or where else f"the other {other.crop_name}"
    text = (
        f"{who} as near as {show_spacing(nearest, units)} to {name}{where}; "
        f"the two need {show_spacing(wanted, units)}{when}"
    )
    points = few.points[spots]
    return planting_finding(
        CHECK,
        "mind",
        (few, other),
        capital(text),
        _RULE_BETWEEN,
        "practice",
        [len(spots), few.placed.plants, round(nearest, 2), round(wanted, 2), f"{first:%m-%d}"],
        Span(first, last),
        shapely.multipoints(points).buffer(max(nearest / 2, 0.05), quad_segs=4),
        "between",
        lambda plan: _apart(plan, few.id, other.id, first),
    )


def _near(
    mine: NDArray[np.float64], yours: NDArray[np.float64], reach: float
) -> tuple[NDArray[np.intp], NDArray[np.intp], float] | None:
    """Indices of points of either set that have one of the other nearer than a reach; the least distance."""
    low, high = yours.min(axis=0) - reach, yours.max(axis=0) + reach
    kept = np.nonzero(((mine >= low) & (mine <= high)).all(axis=1))[0]
    if not len(kept):
        return None
    low, high = mine[kept].min(axis=0) - reach, mine[kept].max(axis=0) + reach
    other = np.nonzero(((yours >= low) & (yours <= high)).all(axis=1))[0]
    if not len(other):
        return None
    tree = shapely.STRtree(shapely.points(yours[other]))
    left, right = tree.query(shapely.points(mine[kept]), predicate="dwithin", distance=reach - 1e-6)
    if not len(left):
        return None
    gaps = mine[kept[left]] - yours[other[right]]
    return np.unique(kept[left]), np.unique(other[right]), float(np.hypot(*gaps.T).min())


def _apart(plan: Plan, key: str, other_key: str, first: dt.date) -> Iterator[Fix]:
    few = planting_view(plan, plan.garden.plantings_by_id[key])
    other = planting_view(plan, plan.garden.plantings_by_id[other_key])
    for one in (few, other):
        if one.planting.arrangement.kind == "places":
            yield from _fewer(plan, one, other if one is few else few)
    for one in (few, other):
        day = shift(first, -1)
        if one.span.first < first and not one.stays_for_years:
            picked = one.dates.first_harvest
            if picked is not None and picked.day <= day:
                yield fixes.clear_on(one, day, "gone before the two meet")
    for one in (few, other):
        yield from fixes.elsewhere(plan, one, "ground of its own")
    for one in (few, other):
        if not one.stays_for_years:
            yield fixes.remove(one, f"room for {(other if one is few else few).crop_name}")


def _fewer(plan: Plan, one: PlantingView, other: PlantingView) -> Iterator[Fix]:
    days = shared(one.span, other.span)
    days = shared(days, plan.span) if days is not None else None
    if days is None:
        return
    pair = Pair(one, other, days, 0.0)
    reach = max(look.needed for look in _looks(plan, pair))
    near = _near(one.points, other.points, reach)
    if near is None or len(near[0]) >= one.placed.plants:
        return
    layout = one.placed.layout
    if one.planting.arrangement.kind != "places" or layout.count != len(one.planting.arrangement.points):
        return
    gone = set(near[0].tolist())
    yield Fix(
        f"Leave out {many(len(gone), 'station')} of {one.crop_name}",
        f"{layout.count - len(gone)} are left, each with its room",
        lambda garden: e.remove_places(garden, one.id, gone),
    )
