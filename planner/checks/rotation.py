"""Rotation: what family this very ground carried before, whatever bed it was called then.

The ground is compared on the plan, so a bed that was redrawn, split, renamed or moved keeps its
history.  A planting is judged in the growing year it belongs to.  Containers are filled anew and have
none (practice).
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np
import shapely

from planner.checks import moves
from planner.checks.asked import Asked, of_stands
from planner.checks.finding import Finding, Mend, Severity
from planner.checks.stands import Stand, capital, family_words, listed, many, share_words, stand_of
from planner.garden.units import show_area
from planner.plan import Plan

CHECK = "rotation"
#: Years between two crops of a family where nothing is known of the crop: isu_rotation, wvu_rotation.
GENERAL = (2.0, 3.0)
GENERAL_SOURCE = "isu_rotation"
#: Less of the plot than this is an edge, not a place in the rotation (practice).
LEAST_SHARE = 0.10
#: So many years are looked back. [years]
MOST_YEARS = 12


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = asked.plan
    judged = [
        s
        for s in asked.stands
        if s.starts_here and s.crop is not None and not s.placed.plot.is_empty and s.bed.kind != "container"
    ]
    if not judged:
        return
    past = [stand for stand in _past(asked) if not stand.placed.plot.is_empty]
    if not past:
        return
    tree = plan.once("past", "", tuple(past), lambda: shapely.STRtree([stand.ground for stand in past]))
    mine, theirs = tree.query(np.array([stand.ground for stand in judged]))
    met: dict[int, list[Stand]] = {}
    for i, j in zip(mine.tolist(), theirs.tolist(), strict=True):
        if _family(judged[i]) == _family(past[j]) and past[j] is not judged[i]:
            met.setdefault(i, []).append(past[j])
    for i, others in sorted(met.items()):
        stand = judged[i]
        before = tuple(sorted((o for o in others if _before(o, stand)), key=lambda o: o.id))
        if before:
            begins = plan.garden.site.year_begins
            found = plan.once(
                "rotation", stand.id, (stand, before, begins), partial(_of, stand, before, begins)
            )
            if found is not None:
                yield found


def _past(asked: Asked) -> Iterator[Stand]:
    """Plantings of this growing year and the ones before."""
    plan = asked.plan
    for planting in plan.garden.plantings:
        if plan.year - MOST_YEARS <= planting.year <= plan.year:
            stand = asked.by_id.get(planting.id) or stand_of(plan, planting)
            if stand.crop is not None and not (stand.stands and stand.span.open):
                yield stand


def _years_since(stand: Stand, other: Stand, begins: int) -> int:
    """Growing years from the one in which the other was cleared to the one in which it starts."""
    cleared = other.span.last.year - (other.span.last.month < begins)
    return stand.year - cleared


def _family(stand: Stand) -> str:
    return stand.crop.family if stand.crop is not None else ""


def _before(other: Stand, stand: Stand) -> bool:
    """Whether one ended before the other began; what stands together is no succession."""
    if other.planting.series is not None and other.planting.series == stand.planting.series:
        return False
    return other.span.last < stand.span.first


def interval(stand: Stand) -> tuple[float, float, str] | None:
    """Least and wanted years from one crop of the family to the next, and the source; None: any year."""
    own = stand.number("rotation_years")
    figure = stand.figure("rotation_years")
    if figure is not None and figure.value is not None:
        low = figure.low if figure.low is not None else figure.value
        return min(low, figure.value), figure.value, figure.source or "practice"
    if own is not None:
        return own, own, "practice"
    entry = stand.crop.rotation_years if stand.crop is not None else None
    if entry is not None and not entry.applies:
        return None
    return (*GENERAL, GENERAL_SOURCE)


def _of(stand: Stand, before: tuple[Stand, ...], begins: int) -> Finding | None:
    years = None if stand.stands and stand.dates.start == "standing" else interval(stand)
    if years is None:
        return None
    least, wanted, source = years
    since = {o.id: max(0, _years_since(stand, o, begins)) for o in before}
    recent = [(o, shapely.intersection(stand.ground, o.ground)) for o in before if since[o.id] < wanted]
    recent = [(o, both) for o, both in recent if both.area > 1e-4]
    if not recent:
        return None
    ago = min(since[o.id] for o, _ in recent)
    nearest = [(o, both) for o, both in recent if since[o.id] == ago]
    ground = shapely.union_all([both for _, both in nearest])
    share = float(ground.area) / stand.ground.area
    if share < LEAST_SHARE:
        return None
    olds = [o for o, _ in nearest]
    in_one_year = ago == 0 and all(o.planting.year == stand.year for o in olds)
    if in_one_year and not _of_weight(stand, olds):
        return None
    manure = stand.manure or all(o.manure for o in olds)
    severity: Severity = "note" if manure or ago >= least or in_one_year else "mind"
    carried = listed(f"{o.crop_name}{'' if o.bed is stand.bed else f' in {o.bed.name}'}" for o in olds)
    when = "earlier this year" if ago == 0 else f"{many(ago, 'year')} ago"
    between = f"at least {least:g} year{'' if least == 1 else 's'}"
    better = f", better {wanted:g}" if least < wanted else ""
    text = (
        f"{stand.name} stands where {family_words(_family(stand))} stood {when}: {carried} on "
        f"{show_area(float(ground.area), stand.units)}, {share_words(share)} of its plot; {between} are wanted between{better}"
    )
    rule = f"A plot carries the same family again after {between}{better}"
    return of_stands(
        CHECK,
        severity,
        (stand, *olds),
        capital(text),
        rule,
        source,
        [ago, round(share, 1), wanted],
        place=ground,
        candidates=lambda plan: _mends(plan, stand.id, wanted),
    )


def _of_weight(stand: Stand, olds: list[Stand]) -> bool:
    """Whether two of a family in one year are a matter of rotation: short salads after each other are not."""
    return all(one.span.days > 75 for one in (stand, *olds))


def _mends(plan: Plan, key: str, wanted: float) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    gain = f"no {stand.crop.family if stand.crop else 'such'} there for {wanted:g} years"
    yield from moves.elsewhere(plan, stand, gain)
    yield from moves.swapped(plan, stand, gain)
    yield from moves.beds_swapped(plan, stand, gain)
    yield moves.remove(stand, "the ground rests from the family")
