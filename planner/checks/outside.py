"""Outside: plots and stations that do not fit into their bed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial

import shapely

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, bed_finding, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import in_units
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Garden, Whole
from planner.garden import edits as e
from planner.garden.units import show_area, show_length
from planner.ground.free import pieces, plot_of
from planner.ground.shapes import plan_polygon
from planner.plan import Plan

CHECK = "outside"
#: A bed may touch the edge of the garden, to this. [m]
EDGE = 0.01
#: Less than this is the pen's breadth. [m2]
LEAST_BEYOND = 0.01

_RULE_SITE = "Beds lie within the edge of the garden"
_RULE = "Everything that grows stands within the outline of its bed"


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    for view in context.views:
        if view.placed.problem:
            yield context.plan.once("outside", view.id, (view,), partial(_of, view))
    yield from _beyond_the_site(context)


def _beyond_the_site(context: CheckContext) -> Iterator[Finding]:
    """Beds that lie, in part, beyond the edge of the garden."""
    outline = context.plan.garden.site.outline
    if outline is None:
        return
    site = context.plan.once("site", "", (outline,), lambda: plan_polygon(outline).buffer(EDGE))
    for bed in context.beds:
        ground = context.outline(bed)
        beyond = context.plan.once(
            "beyond", bed.id, (ground, site), partial(shapely.difference, ground, site)
        )
        if beyond.area < LEAST_BEYOND:
            continue
        yield bed_finding(
            CHECK,
            "mind",
            (bed.id,),
            f"{bed.name}: {show_area(beyond.area, context.units)} lie beyond the edge of the garden",
            _RULE_SITE,
            "geometry",
            [round(beyond.area, 2)],
            context.plan.span,
            beyond,
            "site",
            candidates=partial(_into_the_site, key=bed.id),
        )


def _into_the_site(plan: Plan, key: str) -> Iterator[Fix]:
    """Move a bed by the least way that lies along the plan's axes."""
    bed, outline = plan.garden.beds_by_id[key], plan.garden.site.outline
    if outline is None:
        return
    shape, site = plan_polygon(bed.outline), plan_polygon(outline)
    left, low, right, high = shapely.bounds(shape)
    site_left, site_low, site_right, site_high = shapely.bounds(site)
    x = max(site_left - left, 0.0) + min(site_right - right, 0.0)
    y = max(site_low - low, 0.0) + min(site_high - high, 0.0)
    yield Fix(
        f"Move it {show_length(math.hypot(x, y), plan.garden.site.units)} into the garden",
        "all of it lies within the edge",
        lambda garden: e.move_things(garden, [key], x, y),
    )


def _of(view: PlantingView) -> Finding:
    text = in_units(view.placed.problem, view.units)
    if view.bed.name not in text:
        text = f"{view.bed.name}: {text}"
    return planting_finding(
        CHECK,
        "mind" if view.placed.plants else "stop",
        (view,),
        text,
        _RULE,
        "geometry",
        [view.placed.plants, round(view.placed.area, 2)],
        candidates=lambda plan: _fixes(plan, view.id),
    )


def _fixes(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    view, arrangement = planting_view(plan, planting), planting.arrangement
    plot = view.placed.plot
    if arrangement.kind == "places":
        layout = {(round(x, 6), round(y, 6)) for x, y in view.placed.layout.points.tolist()}
        inside = tuple(p for p in arrangement.points if (round(p[0], 6), round(p[1], 6)) in layout)
        if inside and len(inside) < len(arrangement.points):
            yield Fix(
                f"Keep the {len(inside)} places inside",
                "no place lies outside",
                fixes.changed(planting, arrangement=arrangement.with_(points=inside)),
            )
        yield Fix(
            "Let its plot be the whole bed", "its places lie in it", fixes.changed(planting, plot=Whole())
        )
    if not plot.is_empty:
        part = max(pieces(plot), key=lambda piece: piece.area)
        yield Fix(
            "Cut its plot at the bed's edge",
            "the plot is what is planted",
            fixes.changed(planting, plot=plot_of(view.bed, part)),
        )
    if arrangement.kind in ("rows", "staggered"):
        yield Fix(
            "Plant a single row",
            "it fits",
            fixes.changed(planting, arrangement=arrangement.with_(rows=1, row_spacing=None)),
        )
        yield Fix("Let it have all of the bed's free ground", "it fits", _largest_free(plan, view))
    yield from fixes.elsewhere(plan, view, "it fits there")
    yield fixes.remove(view, "nothing is planned that does not fit")


def _largest_free(plan: Plan, view: PlantingView) -> Callable[[Garden], Garden]:
    free = pieces(plan.free_in(view.bed, view.span, (view.id,)))
    if not free:
        return lambda garden: garden
    part = max(free, key=lambda piece: shapely.area(piece))
    return fixes.changed(view.planting, plot=plot_of(view.bed, part))
