"""Free ground at the arches that stand, for what climbs one."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from planner.garden import Bed, Planting, Stretch
from planner.ground.arches import AT_THE_ARCH, AT_THE_BED
from planner.ground.free import pieces, plot_of
from planner.ground.shapes import bed_axis, extent_along_axis, plan_polygon, shape_to_own, turned
from planner.plan import Plan

#: Ground with less than this share of a planting's length is not tried (practice).
LEAST_LENGTH = 0.5


def at_arches(plan: Plan, planting: Planting) -> Iterator[tuple[Bed, Stretch]]:
    """Free stretches of beds beside each arch, as long as a planting's plot and as near the arch as may be; those at its feet first, then the nearest.

    Parameters
    ----------
    plan : Plan
        Of the growing year in which it is to stand, with the planting anywhere.
    planting : Planting
    """
    span, here = plan.span_of(planting), plan.plot_on_plan(planting)
    left, _, right, _ = shapely.bounds(
        turned(plan.placed(planting).plot, -bed_axis(plan.bed_of(planting).outline))
    )
    wanted = float(right - left)
    found: list[tuple[float, float, str, Bed, Stretch]] = []
    for arch in plan.garden.structures:
        if arch.kind != "arch" or not arch.in_use(plan.year):
            continue
        ground = plan_polygon(arch.outline)
        for bed in plan.beds:
            outline = plan_polygon(bed.outline)
            if not shapely.dwithin(outline, ground, AT_THE_ARCH):
                continue
            axis = bed_axis(bed.outline)
            begin = extent_along_axis(bed.outline)[0]
            near, _, far, _ = shapely.bounds(turned(shape_to_own(bed.outline, ground), -axis))
            for piece in pieces(plan.free_in(bed, span, (planting.id,), climbing=True)):
                if plot_of(bed, piece).kind == "region":
                    continue
                first, _, last, _ = shapely.bounds(turned(piece, -axis))
                length = min(wanted, float(last - first))
                if length < LEAST_LENGTH * wanted:
                    continue
                start = min(max(float(near + far - length) / 2, float(first)), float(last) - length)
                aside = max(0.0, float(near) - start - length / 2, start + length / 2 - float(far))
                plot = Stretch(start=max(round(start - begin, 6), 0.0), end=round(start - begin + length, 6))
                found.append((round(aside, 1), float(here.distance(outline)), bed.id, bed, plot))
    for *_, bed, plot in sorted(found, key=lambda one: one[:3]):
        yield bed, plot


def extent_of(bed: Bed, ground: shapely.Geometry) -> tuple[float, float]:
    """From where to where some ground of a bed lies along it, both in its own coordinates. [m]

    Parameters
    ----------
    bed : Bed
    ground : shapely.Geometry
        In the coordinates of the bed.
    """
    axis, begin = bed_axis(bed.outline), extent_along_axis(bed.outline)[0]
    low, _, high, _ = shapely.bounds(turned(ground, -axis))
    return float(low) - begin, float(high) - begin


def stretches_at_arches(plan: Plan, bed: Bed, length: float) -> Iterator[tuple[float, float]]:
    """For each arch in use that has a foot at a bed the stretch of a length that lies best at it, from the beginning of the bed. [m]

    Parameters
    ----------
    plan : Plan
    bed : Bed
    length : float
        [m]
    """
    begin, end = extent_along_axis(bed.outline)
    outline = plan_polygon(bed.outline)
    for arch in plan.garden.structures:
        ground = plan_polygon(arch.outline)
        if arch.kind == "arch" and arch.in_use(plan.year) and shapely.dwithin(outline, ground, AT_THE_BED):
            near, far = extent_of(bed, shape_to_own(bed.outline, ground))
            first = min(max((near + far - length) / 2, 0.0), max(end - begin - length, 0.0))
            yield first, min(first + length, end - begin)
