"""Crowding: stations nearer than what stands there needs, across plantings and within one.

A plant needs the ground its spacing gives it, but no more than its spread on that day.  Two plants of
different plantings stand well where each has half of its own need between them.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.checks import moves
from planner.checks.asked import Asked, Pair, of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.stands import Stand, capital, many, shared, stand_of
from planner.garden import edits as e
from planner.garden.units import show_spacing, show_spacings
from planner.plan import Plan
from planner.season.climate import shift
from planner.season.spans import Span

CHECK = "crowding"
#: Across plantings so much less than needed is not said: plants lean to where there is room (practice).
LEAN = 0.25
#: Within a planting: so much below the range that is published, or below a single figure without one.
BELOW_RANGE, BELOW_FIGURE = 0.10, 0.40
#: What is drilled close grows small rather than ill: so much below it is told, and minded from half on (practice).
BELOW_DRILLED, HALF = 0.25, 0.5
#: Plants that spread at least so wide [m] need this share of the ground that their published spacings
#: give them at the closest: beds are planted closer than fields, but not more than twice as close (practice).
LARGE, LEAST_GROUND = 0.4, 0.45
#: Of plants of which an upright one stands so many times as high as the other, of another family, ...
STOREYS = 1.5
#: ... so much of the need is enough: one uses the light above, the other the ground below (practice).
UNDER = 0.6
#: ... where the lower one spreads no wider than this, or runs along the ground (practice). [m]
SLIGHT = 0.6
#: A drill that marks another's row is out after so many days (practice). [days]
MARKING = 60
#: Forms that are sown close and thinned, to as near as any publication has them.
_DRILLED = ("root", "rosette", "fern")
#: Days from look to look.
STEP = 7

_RULE_BETWEEN = (
    "Between two plants lies half of what each needs: its spacing, but no more than its spread on that day; "
    f"of plants in two storeys {UNDER:.0%} of that"
)
_RULE_WITHIN = "Plants stand no nearer than the published spacings of their crop begin"


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = asked.plan
    for stand in asked.stands:
        if stand.starts_here or stand.stands:
            found = plan.once("crowded within", stand.id, (stand,), partial(_within, stand))
            if found is not None:
                yield found
    for pair in asked.pairs:
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
    return pair.apart > 0 or not pair.one.plot.intersection(pair.other.plot).area > 1e-4


def _marks_the_row(pair: Pair) -> bool:
    """A quick drill sown with a slow one, to mark its row, and out before that needs the room (practice)."""
    quick, slow = sorted((pair.one, pair.other), key=lambda stand: stand.span.days)
    return (
        quick.dates.start == slow.dates.start == "sown"
        and quick.span.days <= MARKING
        and slow.span.days >= 2 * quick.span.days
        and abs((quick.span.first - slow.span.first).days) <= 14
    )


# -- across plantings ---------------------------------------------------------------------------


def _need(stand: Stand, day: dt.date, mixed: bool) -> float:
    """Width of ground one plant needs on a day: beside another planting, or mixed with it by wish. [m]"""
    spread, own = stand.size(day).spread, stand.own_spacing
    if not mixed:
        return min(spread, stand.most_need)
    return spread if own is None else min(own, spread)


def _family(stand: Stand) -> str:
    return stand.crop.family if stand.crop is not None else stand.id


def _in_storeys(pair: Pair, day: dt.date) -> bool:
    """Whether one stands upright over the other, which is slight or runs along the ground."""
    sizes = [(stand.size(day), stand) for stand in (pair.one, pair.other)]
    (low, beneath), (high, _) = sorted(sizes, key=lambda one: one[0].height)
    runs = beneath.crop is not None and beneath.crop.growth_form == "sprawler"
    upright = high.spread <= high.height
    return high.height >= STOREYS * low.height and upright and (runs or low.spread <= SLIGHT)


@dataclass(frozen=True)
class _Look:
    day: dt.date
    needed: float


def _looks(plan: Plan, pair: Pair) -> list[_Look]:
    """What the two need on days from first to last; the same wherever they stand."""

    def of(stand: Stand) -> tuple[object, ...]:
        facts = stand.facts
        return stand.planting, stand.placed, stand.dates, stand.span, facts.crop, facts.variety

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
    when = "" if few.stands and other.stands else f" by {few.day(most.day)}"
    where = "" if other.bed is few.bed else f" in {other.bed.name}"
    name = other.crop_name if other.crop_name != few.crop_name or where else f"the other {other.crop_name}"
    text = (
        f"{who} as near as {show_spacing(nearest, units)} to {name}{where}; "
        f"the two need {show_spacing(wanted, units)}{when}"
    )
    points = few.points[spots]
    return of_stands(
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


def _apart(plan: Plan, key: str, other_key: str, first: dt.date) -> Iterator[Mend]:
    few = stand_of(plan, plan.garden.plantings_by_id[key])
    other = stand_of(plan, plan.garden.plantings_by_id[other_key])
    for one in (few, other):
        if one.planting.arrangement.kind == "places":
            yield from _fewer(plan, one, other if one is few else few)
    for one in (few, other):
        day = shift(first, -1)
        if one.span.first < first and not one.stands:
            picked = one.dates.first_harvest
            if picked is not None and picked.day <= day:
                yield moves.clear_on(one, day, "gone before the two meet")
    for one in (few, other):
        yield from moves.elsewhere(plan, one, "ground of its own")
    for one in (few, other):
        if not one.stands:
            yield moves.remove(one, f"room for {(other if one is few else few).crop_name}")


def _fewer(plan: Plan, one: Stand, other: Stand) -> Iterator[Mend]:
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
    yield Mend(
        f"Leave out {many(len(gone), 'station')} of {one.crop_name}",
        f"{layout.count - len(gone)} are left, each with its room",
        lambda garden: e.remove_places(garden, one.id, gone),
    )


# -- within a planting --------------------------------------------------------------------------


def _drilled(stand: Stand) -> bool:
    """Whether it is sown close in a drill and thinned."""
    return stand.dates.start == "sown" and stand.crop is not None and stand.crop.growth_form in _DRILLED


def _closest(stand: Stand) -> tuple[float, str, float] | None:
    """The spacing at which published ones begin, its source, and how far below it is too close.

    Sources differ by what they grow (leaf lettuce, flowers for cutting): one in three of them may be
    closer than what counts, which is never above the catalogue's own range.  What is drilled and
    thinned may stand as close as any of them has it.  A variety's own spacing, or a single figure, is
    no range.
    """
    figure = stand.figure("in_row_spacing")
    if figure is None:
        own = stand.number("in_row_spacing")
        return (own, "", BELOW_FIGURE) if own is not None else None
    found = [(figure.low if figure.low is not None else figure.value, figure.source or "practice")]
    found += [(one.low if one.low is not None else one.value, one.source) for one in figure.other]
    known = sorted((value, source) for value, source in found if value is not None)
    if not known:
        return None
    ranged = figure.low is not None or any(one.low is not None for one in figure.other)
    drilled = _drilled(stand)
    least = (
        known[0] if drilled else min(known[(len(known) - 1) // 3], next(one for one in found if one in known))
    )
    below = BELOW_FIGURE if not ranged else BELOW_DRILLED if drilled else BELOW_RANGE
    return (*least, below)


def _within(stand: Stand) -> Finding | None:
    layout, arrangement = stand.placed.layout, stand.planting.arrangement
    closest = _closest(stand)
    if closest is None or layout.count < 2 or arrangement.kind == "scatter" or stand.manure:
        return None
    least, source, below = closest
    if arrangement.kind == "places":
        tree = shapely.STRtree(shapely.points(layout.points))
        pairs = tree.query_nearest(shapely.points(layout.points), exclusive=True, return_distance=True)
        apart = float(pairs[1].min())
    else:
        in_row, between = layout.in_row_spacing, layout.row_spacing
        if in_row is None:
            return None
        apart = in_row
        if arrangement.kind == "staggered" and between is not None and layout.row_count > 1:
            apart = min(in_row, math.hypot(in_row / 2, between))
        elif layout.row_count > 1 and between is not None and between < in_row:
            apart = math.sqrt(in_row * between)  # as far apart as on a square lattice of its density
    if apart >= least * (1 - below) - 1e-9:
        return _rows_too_near(stand, least)
    units = stand.units
    said = "its published spacing begins at" if source else "its own variety's spacing is"
    text = f"{stand.name} stands {show_spacing(apart, units)} apart; {said} {show_spacing(least, units)}"
    return of_stands(
        CHECK,
        "note" if _drilled(stand) and apart >= least * HALF else "mind",
        (stand,),
        capital(text),
        _RULE_WITHIN,
        source or "practice",
        [stand.placed.plants, round(apart, 3), round(least, 3)],
        topic="within",
        candidates=lambda plan: _wider(plan, stand.id, least),
    )


def _rows_too_near(stand: Stand, least: float) -> Finding | None:
    """Large plants whose rows are so near that each has a small part of the ground published for it."""
    layout = stand.placed.layout
    mine, rows, between = layout.in_row_spacing, layout.row_spacing, _least_rows(stand)
    if not _large(stand):
        return None
    if mine is None or rows is None or between is None or layout.row_count < 2:
        return None
    share = mine * rows / (least * between)
    if share >= LEAST_GROUND:
        return None
    units = stand.units
    text = (
        f"{stand.name} stands {show_spacings(mine, rows, units)} apart, which gives each plant {100 * share:.0f} % of "
        f"the ground of its closest published spacings ({show_spacings(least, between, units)})"
    )
    return of_stands(
        CHECK,
        "mind",
        (stand,),
        capital(text),
        _RULE_WITHIN,
        stand.source("row_spacing"),
        [round(mine, 3), round(rows, 3), round(share, 2)],
        topic="rows",
        candidates=lambda plan: _wider_rows(plan, stand.id, _rows_for(stand, least, mine)),
    )


def _large(stand: Stand) -> bool:
    """Whether the ground of one plant counts, not its distance in the row alone."""
    return (stand.number("spread") or 0.0) >= LARGE and not _drilled(stand)


def _least_rows(stand: Stand) -> float | None:
    """The least distance of its rows that a source gives. [m]"""
    figure = stand.figure("row_spacing")
    return figure.least if figure is not None else stand.number("row_spacing")


def _rows_for(stand: Stand, least: float, mine: float) -> float:
    """Distance of rows at which a plant every so often in the row has its least ground. [m]"""
    return math.ceil(100 * LEAST_GROUND * least * (_least_rows(stand) or 0.0) / mine - 1e-6) / 100


def _wider_rows(plan: Plan, key: str, wide: float) -> Iterator[Mend]:
    planting = plan.garden.plantings_by_id[key]
    stand, arrangement = stand_of(plan, planting), planting.arrangement
    if arrangement.kind not in ("rows", "staggered"):
        return
    new = arrangement.with_(row_spacing=wide, rows=None)
    count = plan.trial(planting.with_(arrangement=new)).plants
    if count:
        yield Mend(
            f"Set its rows {show_spacing(wide, stand.units)} apart",
            f"{count} plants instead of {stand.placed.plants}, each with its room",
            moves.changed(planting, arrangement=new),
        )


def _wider(plan: Plan, key: str, least: float) -> Iterator[Mend]:
    planting = plan.garden.plantings_by_id[key]
    stand = stand_of(plan, planting)
    arrangement = planting.arrangement
    if arrangement.kind in ("rows", "staggered"):
        row = arrangement.row_spacing
        wide: dict[str, object] = {"in_row_spacing": round(least, 4)}
        wide_enough = max(least, _rows_for(stand, least, least)) if _large(stand) else least
        if row is not None and row < wide_enough:
            wide["row_spacing"] = round(wide_enough, 4)
        new = arrangement.with_(**wide)
        count = plan.trial(planting.with_(arrangement=new)).plants
        if count:
            yield Mend(
                f"Set it {show_spacing(least, stand.units)} apart",
                f"{count} plants instead of {stand.placed.plants}, each with its room",
                moves.changed(planting, arrangement=new),
            )
    elif arrangement.kind == "places":
        kept: list[int] = []
        points = np.asarray(arrangement.points)
        for i, point in enumerate(points):
            if all(np.hypot(*(point - points[j])) >= least * (1 - BELOW_RANGE) for j in kept):
                kept.append(i)
        gone = set(range(len(points))) - set(kept)
        if gone:
            yield Mend(
                f"Leave out {many(len(gone), 'station')}",
                f"{len(kept)} are left, each with its room",
                lambda garden: e.remove_places(garden, key, gone),
            )
