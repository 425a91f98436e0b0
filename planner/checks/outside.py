"""Outside: plots and stations that do not fit into their bed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial

import shapely

from planner.checks import moves
from planner.checks.asked import Asked, of_beds, of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.stands import Stand, in_units, stand_of
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


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan."""
    for stand in asked.stands:
        if stand.placed.problem:
            yield asked.plan.once("outside", stand.id, (stand,), partial(_of, stand))
    yield from _beyond_the_site(asked)


def _beyond_the_site(asked: Asked) -> Iterator[Finding]:
    """Beds that lie, in part, beyond the edge of the garden."""
    outline = asked.plan.garden.site.outline
    if outline is None:
        return
    site = asked.plan.once("site", "", (outline,), lambda: plan_polygon(outline).buffer(EDGE))
    for bed in asked.beds:
        ground = asked.outline(bed)
        beyond = asked.plan.once("beyond", bed.id, (ground, site), partial(shapely.difference, ground, site))
        if beyond.area < LEAST_BEYOND:
            continue
        yield of_beds(
            CHECK,
            "mind",
            (bed.id,),
            f"{bed.name}: {show_area(beyond.area, asked.units)} lie beyond the edge of the garden",
            _RULE_SITE,
            "geometry",
            [round(beyond.area, 2)],
            asked.plan.span,
            beyond,
            "site",
            candidates=partial(_into_the_site, key=bed.id),
        )


def _into_the_site(plan: Plan, key: str) -> Iterator[Mend]:
    """Move a bed by the least way that lies along the plan's axes."""
    bed, outline = plan.garden.beds_by_id[key], plan.garden.site.outline
    if outline is None:
        return
    shape, site = plan_polygon(bed.outline), plan_polygon(outline)
    left, low, right, high = shapely.bounds(shape)
    site_left, site_low, site_right, site_high = shapely.bounds(site)
    x = max(site_left - left, 0.0) + min(site_right - right, 0.0)
    y = max(site_low - low, 0.0) + min(site_high - high, 0.0)
    yield Mend(
        f"Move it {show_length(math.hypot(x, y), plan.garden.site.units)} into the garden",
        "all of it lies within the edge",
        lambda garden: e.move_things(garden, [key], x, y),
    )


def _of(stand: Stand) -> Finding:
    text = in_units(stand.placed.problem, stand.units)
    if stand.bed.name not in text:
        text = f"{stand.bed.name}: {text}"
    return of_stands(
        CHECK,
        "mind" if stand.placed.plants else "stop",
        (stand,),
        text,
        _RULE,
        "geometry",
        [stand.placed.plants, round(stand.placed.area, 2)],
        candidates=lambda plan: _mends(plan, stand.id),
    )


def _mends(plan: Plan, key: str) -> Iterator[Mend]:
    planting = plan.garden.plantings_by_id[key]
    stand, arrangement = stand_of(plan, planting), planting.arrangement
    plot = stand.placed.plot
    if arrangement.kind == "places":
        layout = {(round(x, 6), round(y, 6)) for x, y in stand.placed.layout.points.tolist()}
        inside = tuple(p for p in arrangement.points if (round(p[0], 6), round(p[1], 6)) in layout)
        if inside and len(inside) < len(arrangement.points):
            yield Mend(
                f"Keep the {len(inside)} places inside",
                "no place lies outside",
                moves.changed(planting, arrangement=arrangement.with_(points=inside)),
            )
        yield Mend(
            "Let its plot be the whole bed", "its places lie in it", moves.changed(planting, plot=Whole())
        )
    if not plot.is_empty:
        part = max(pieces(plot), key=lambda piece: piece.area)
        yield Mend(
            "Cut its plot at the bed's edge",
            "the plot is what is planted",
            moves.changed(planting, plot=plot_of(stand.bed, part)),
        )
    if arrangement.kind in ("rows", "staggered"):
        yield Mend(
            "Plant a single row",
            "it fits",
            moves.changed(planting, arrangement=arrangement.with_(rows=1, row_spacing=None)),
        )
        yield Mend("Let it have all of the bed's free ground", "it fits", _largest_free(plan, stand))
    yield from moves.elsewhere(plan, stand, "it fits there")
    yield moves.remove(stand, "nothing is planned that does not fit")


def _largest_free(plan: Plan, stand: Stand) -> Callable[[Garden], Garden]:
    free = pieces(plan.free_in(stand.bed, stand.span, (stand.id,)))
    if not free:
        return lambda garden: garden
    part = max(free, key=lambda piece: shapely.area(piece))
    return moves.changed(stand.planting, plot=plot_of(stand.bed, part))
