"""Outside: plots and plants beyond their bed, and beds beyond the edge of the garden."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial
from typing import NamedTuple

import shapely

from planner.checks.frame import fixes, moves
from planner.checks.frame.context import CheckContext, bed_finding, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import in_units
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Garden, Outline, Places, Whole
from planner.garden import edits as e
from planner.garden.units import show_area, show_length
from planner.ground.free import pieces, plot_of
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import later, say, say_count

CHECK = "outside"
#: Tolerance by which a bed may pass the edge of the garden. [m]
EDGE = 0.01
#: Least area beyond the edge that is reported; less is the breadth of a pen. [m2]
LEAST_BEYOND = 0.01

_RULE_SITE = later("Beds lie within the edge of the garden")
_RULE = later("Everything that grows stands within the outline of its bed")


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings that do not fit into their bed, and beds that lie beyond the edge of the garden."""
    for view in context.views:
        if view.placed.problem:
            yield context.plan.cached(judge_placement, view.id, PlacementInputs(view))
    yield from _beds_beyond_site(context)


# -- beds -----------------------------------------------------------------------------------------


class SiteInputs(NamedTuple):
    """The outline of a garden."""

    outline: Outline


@fact("site with tolerance")
def site_with_tolerance(inputs: SiteInputs) -> shapely.Geometry:
    """The site on the plan, widened by :data:`EDGE`."""
    return plan_polygon(inputs.outline).buffer(EDGE)


class BeyondSiteInputs(NamedTuple):
    """Ground of a bed and of the site, both on the plan. [m]"""

    ground: shapely.Geometry
    site: shapely.Geometry


@fact("bed beyond site")
def ground_beyond_site(inputs: BeyondSiteInputs) -> shapely.Geometry:
    """The part of a bed that lies beyond the site."""
    return shapely.difference(inputs.ground, inputs.site)


def _beds_beyond_site(context: CheckContext) -> Iterator[Finding]:
    plan = context.plan
    outline = plan.garden.site.outline
    if outline is None:
        return
    site = plan.cached(site_with_tolerance, "", SiteInputs(outline))
    for bed in context.beds:
        inputs = BeyondSiteInputs(context.outline(bed), site)
        beyond = plan.cached(ground_beyond_site, bed.id, inputs)
        if beyond.area < LEAST_BEYOND:
            continue
        yield bed_finding(
            CHECK,
            "mind",
            (bed.id,),
            say(
                "{bed}: {area} lie beyond the edge of the garden",
                bed=bed.name,
                area=show_area(beyond.area, context.units),
            ),
            say(_RULE_SITE),
            "geometry",
            [round(beyond.area, 2)],
            plan.span,
            beyond,
            "site",
            candidates=partial(_move_into_site, key=bed.id),
        )


def _move_into_site(plan: Plan, key: str) -> Iterator[Fix]:
    """Move a bed by the shortest way along the plan's axes."""
    bed, outline = plan.garden.beds_by_id[key], plan.garden.site.outline
    if outline is None:
        return
    shape, site = plan_polygon(bed.outline), plan_polygon(outline)
    left, low, right, high = shapely.bounds(shape)
    site_left, site_low, site_right, site_high = shapely.bounds(site)
    x = max(site_left - left, 0.0) + min(site_right - right, 0.0)
    y = max(site_low - low, 0.0) + min(site_high - high, 0.0)
    distance = show_length(math.hypot(x, y), plan.garden.site.units)
    yield Fix(
        say("Move it {distance} into the garden", distance=distance),
        say("all of it lies within the edge"),
        lambda garden: e.move_things(garden, [key], x, y),
    )


# -- plantings ------------------------------------------------------------------------------------


class PlacementInputs(NamedTuple):
    """A planting that could not be laid out, or not wholly."""

    view: PlantingView


@fact("placement problem")
def judge_placement(inputs: PlacementInputs) -> Finding:
    """The finding about a planting that does not fit into its bed."""
    view = inputs.view
    text = in_units(view.placed.problem, view.units)
    if view.bed.name not in text:
        text = say("{bed}: {problem}", bed=view.bed.name, problem=text)
    return planting_finding(
        CHECK,
        "mind" if view.placed.plants else "stop",
        (view,),
        text,
        say(_RULE),
        "geometry",
        [view.placed.plants, round(view.placed.area, 2)],
        candidates=lambda plan: _fit_planting(plan, view.id),
    )


def _fit_planting(plan: Plan, key: str) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield from _fit_places(view)
    plot = view.placed.plot
    if not plot.is_empty:
        part = max(pieces(plot), key=lambda piece: piece.area)
        yield Fix(
            say("Cut its plot at the bed's edge"),
            say("the plot is what is planted"),
            fixes.changed(view.planting, plot=plot_of(view.bed, part)),
        )
    yield from _fit_rows(plan, view)
    yield from moves.elsewhere(plan, view, say("it fits there"))
    yield fixes.remove(view, say("nothing is planned that does not fit"))


def _fit_places(view: PlantingView) -> Iterator[Fix]:
    """Leave out the places outside the plot, or widen the plot to the whole bed."""
    arrangement = view.planting.arrangement
    if arrangement.kind != "places":
        return
    layout = {(round(x, 6), round(y, 6)) for x, y in view.placed.layout.points.tolist()}
    inside = tuple(p for p in arrangement.points if (round(p[0], 6), round(p[1], 6)) in layout)
    if inside and len(inside) < len(arrangement.points):
        yield Fix(
            say_count("Keep the {count} places inside", "Keep the {count} places inside", len(inside)),
            say("no place lies outside"),
            fixes.changed(view.planting, arrangement=arrangement.with_(points=inside)),
        )
    yield Fix(
        say("Let its plot be the whole bed"),
        say("its places lie in it"),
        fixes.changed(view.planting, plot=Whole()),
    )


def _fit_rows(plan: Plan, view: PlantingView) -> Iterator[Fix]:
    """Drop the distances from the outline, take the largest free ground of the bed, or plant a single one."""
    arrangement = view.planting.arrangement
    if arrangement.kind not in ("rows", "staggered"):
        return
    if arrangement.edge is not None or arrangement.end is not None:
        yield Fix(
            say("Let its rows come as near to the edge as they do of themselves"),
            say("it fits"),
            fixes.changed(view.planting, arrangement=arrangement.with_(edge=None, end=None)),
        )
    yield Fix(say("Let it have all of the bed's free ground"), say("it fits"), _take_largest_free(plan, view))
    if not view.placed.plants and not view.placed.plot.is_empty:
        middle = max(pieces(view.placed.plot), key=lambda piece: piece.area).representative_point()
        point = (round(float(middle.x), 4), round(float(middle.y), 4))
        yield Fix(
            say("Plant a single one in its middle"),
            say("it fits"),
            fixes.changed(view.planting, arrangement=Places(points=(point,))),
        )


def _take_largest_free(plan: Plan, view: PlantingView) -> Callable[[Garden], Garden]:
    free = pieces(plan.free_in(view.bed, view.span, (view.id,)))
    if not free:
        return lambda garden: garden
    part = max(free, key=lambda piece: shapely.area(piece))
    return fixes.changed(view.planting, plot=plot_of(view.bed, part))
