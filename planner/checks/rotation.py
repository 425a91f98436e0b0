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

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix, Severity
from planner.checks.frame.phrases import family_words, many, share_words
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden.units import show_area
from planner.plan import Plan
from planner.words import capital, join_list

CHECK = "rotation"
#: Years between two crops of a family where nothing is known of the crop: isu_rotation, wvu_rotation.
GENERAL = (2.0, 3.0)
GENERAL_SOURCE = "isu_rotation"
#: Less of the plot than this is an edge, not a place in the rotation (practice).
LEAST_SHARE = 0.10
#: So many years are looked back. [years]
MOST_YEARS = 12


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = context.plan
    judged = [
        s
        for s in context.views
        if s.starts_here and s.crop is not None and not s.placed.plot.is_empty and s.bed.kind != "container"
    ]
    if not judged:
        return
    past = [view for view in _past(context) if not view.placed.plot.is_empty]
    if not past:
        return
    tree = plan.once("past", "", tuple(past), lambda: shapely.STRtree([view.ground for view in past]))
    mine, theirs = tree.query(np.array([view.ground for view in judged]))
    met: dict[int, list[PlantingView]] = {}
    for i, j in zip(mine.tolist(), theirs.tolist(), strict=True):
        if _family(judged[i]) == _family(past[j]) and past[j] is not judged[i]:
            met.setdefault(i, []).append(past[j])
    for i, others in sorted(met.items()):
        view = judged[i]
        before = tuple(sorted((o for o in others if _before(o, view)), key=lambda o: o.id))
        if before:
            begins = plan.garden.site.year_begins
            found = plan.once("rotation", view.id, (view, before, begins), partial(_of, view, before, begins))
            if found is not None:
                yield found


def _past(context: CheckContext) -> Iterator[PlantingView]:
    """Plantings of this growing year and the ones before."""
    plan = context.plan
    for planting in plan.garden.plantings:
        if plan.year - MOST_YEARS <= planting.year <= plan.year:
            view = context.by_id.get(planting.id) or planting_view(plan, planting)
            if view.crop is not None and not (view.stays_for_years and view.span.open):
                yield view


def _years_since(view: PlantingView, other: PlantingView, begins: int) -> int:
    """Growing years from the one in which the other was cleared to the one in which it starts."""
    cleared = other.span.last.year - (other.span.last.month < begins)
    return view.year - cleared


def _family(view: PlantingView) -> str:
    return view.crop.family if view.crop is not None else ""


def _before(other: PlantingView, view: PlantingView) -> bool:
    """Whether one ended before the other began; what stands together is no succession."""
    if other.planting.series is not None and other.planting.series == view.planting.series:
        return False
    return other.span.last < view.span.first


def interval(view: PlantingView) -> tuple[float, float, str] | None:
    """Least and wanted years from one crop of the family to the next, and the source; None: any year."""
    own = view.number("rotation_years")
    figure = view.figure("rotation_years")
    if figure is not None and figure.value is not None:
        low = figure.low if figure.low is not None else figure.value
        return min(low, figure.value), figure.value, figure.source or "practice"
    if own is not None:
        return own, own, "practice"
    entry = view.crop.rotation_years if view.crop is not None else None
    if entry is not None and not entry.applies:
        return None
    return (*GENERAL, GENERAL_SOURCE)


def _of(view: PlantingView, before: tuple[PlantingView, ...], begins: int) -> Finding | None:
    years = None if view.stays_for_years and view.dates.start == "standing" else interval(view)
    if years is None:
        return None
    least, wanted, source = years
    since = {o.id: max(0, _years_since(view, o, begins)) for o in before}
    recent = [(o, shapely.intersection(view.ground, o.ground)) for o in before if since[o.id] < wanted]
    recent = [(o, both) for o, both in recent if both.area > 1e-4]
    if not recent:
        return None
    ago = min(since[o.id] for o, _ in recent)
    nearest = [(o, both) for o, both in recent if since[o.id] == ago]
    ground = shapely.union_all([both for _, both in nearest])
    share = float(ground.area) / view.ground.area
    if share < LEAST_SHARE:
        return None
    olds = [o for o, _ in nearest]
    in_one_year = ago == 0 and all(o.planting.year == view.year for o in olds)
    if in_one_year and not _of_weight(view, olds):
        return None
    manure = view.manure or all(o.manure for o in olds)
    severity: Severity = "note" if manure or ago >= least or in_one_year else "mind"
    carried = join_list(f"{o.crop_name}{'' if o.bed is view.bed else f' in {o.bed.name}'}" for o in olds)
    when = "earlier this year" if ago == 0 else f"{many(ago, 'year')} ago"
    between = f"at least {least:g} year{'' if least == 1 else 's'}"
    better = f", better {wanted:g}" if least < wanted else ""
    text = (
        f"{view.name} stands where {family_words(_family(view))} stood {when}: {carried} on "
        f"{show_area(float(ground.area), view.units)}, {share_words(share)} of its plot; {between} are wanted between{better}"
    )
    rule = f"A plot carries the same family again after {between}{better}"
    return planting_finding(
        CHECK,
        severity,
        (view, *olds),
        capital(text),
        rule,
        source,
        [ago, round(share, 1), wanted],
        place=ground,
        candidates=lambda plan: _fixes(plan, view.id, wanted),
    )


def _of_weight(view: PlantingView, olds: list[PlantingView]) -> bool:
    """Whether two of a family in one year are a matter of rotation: short salads after each other are not."""
    return all(one.span.days > 75 for one in (view, *olds))


def _fixes(plan: Plan, key: str, wanted: float) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    gain = f"no {view.crop.family if view.crop else 'such'} there for {wanted:g} years"
    yield from fixes.elsewhere(plan, view, gain)
    yield from fixes.swapped(plan, view, gain)
    yield from fixes.beds_swapped(plan, view, gain)
    yield fixes.remove(view, "the ground rests from the family")
