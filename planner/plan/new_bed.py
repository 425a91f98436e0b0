"""A bed of a crop's size on bare ground: as wide as the garden's beds are, as long as a row of some plants."""

from __future__ import annotations

from collections import Counter

import numpy as np
import shapely

from planner.crops import Crop
from planner.garden import Bed, Garden, Outline, Planting, Rectangle, Rows, Whole, edits
from planner.garden.model import Point
from planner.ground import shapes
from planner.ground.dropping import Drop, Landing
from planner.ground.extents import corner_below
from planner.plan.dropping import draft_planting
from planner.plan.plan import Plan
from planner.words import say

#: Width of a bed that is reached from both sides, in gardens in metres and in feet (practice). [m]
USUAL_WIDTH = {"metric": 1.2, "feet_inches": 1.2192}
#: Steps of its length. [m]
LENGTH_STEP = {"metric": 0.1, "feet_inches": 0.1524}
#: Step of the places that are tried for a bed within the plot. [m]
SEARCH_STEP = 0.5
#: Plants in a row of it, and its greatest and least length (practice).
PLANTS, LONGEST, SHORTEST = 10, 4.0, 1.0


def bed_for(plan: Plan, crop: Crop, at: Point, grid: float) -> Rectangle:
    """The outline of a bed of a crop's size about a place of the plan.

    Parameters
    ----------
    plan : Plan
    crop : Crop
    at : tuple of float
        [m]
    grid : float
        Step to which its left and lower sides are rounded; 0 for none. [m]
    """
    units = plan.garden.site.units
    figures = plan.own_figures(crop)
    widths = Counter(
        round(min(bed.outline.length, bed.outline.width), 3)
        for bed in plan.beds
        if bed.outline.shape == "rectangle" and bed.kind != "container"
    )
    width = widths.most_common(1)[0][0] if widths else USUAL_WIDTH[units]
    in_row, between = figures.number("in_row_spacing"), figures.number("row_spacing")
    width = max(width, between or 0.0, in_row or 0.0)
    step = LENGTH_STEP[units]
    wanted = min(max(PLANTS * (in_row or 0.3), SHORTEST), LONGEST)
    length = max(round(wanted / step) * step, in_row or 0.0)
    left, low = at[0] - length / 2, at[1] - width / 2
    if grid > 0:
        left, low = round(left / grid) * grid, round(low / grid) * grid
    return Rectangle(
        center=(round(left + length / 2, 6), round(low + width / 2, 6)),
        length=round(length, 6),
        width=round(width, 6),
    )


def in_the_way(plan: Plan, outline: Rectangle) -> str:
    """What a bed would lie on; empty where the ground is bare."""
    ground, garden = shapes.plan_polygon(outline), plan.garden
    if garden.site.outline is not None and not shapes.plan_polygon(garden.site.outline).covers(ground):
        return say("a new bed would reach beyond the edge of the plot")
    for bed in plan.beds:
        if shapely.intersects(ground, shapes.plan_polygon(bed.outline)):
            return say("a new bed would lie on {thing}", thing=bed.name)
    for structure in garden.structures:
        built = structure.in_use(plan.year) and shapes.plan_polygon(structure.outline)
        if built and shapely.intersects(ground, built):
            return say("a new bed would lie on {thing}", thing=structure.name or structure.kind)
    return ""


def free_place(plan: Plan, outline: Rectangle, path: float) -> Point:
    """Middle of a bed of this size where nothing is in its way: within the plot, where its edge is drawn and there is room, else
    below all that is there. [m]

    Parameters
    ----------
    plan : Plan
    outline : Rectangle
    path : float
        Width that is left to other beds and structures. [m]
    """
    garden = plan.garden
    edge = garden.site.outline
    if edge is not None:
        outlines = [bed.outline for bed in plan.beds]
        outlines += [one.outline for one in garden.structures if one.in_use(plan.year)]
        taken = shapely.union_all([shapes.plan_polygon(one).buffer(path) for one in outlines])
        room = shapely.difference(shapes.plan_polygon(edge), taken)
        left, low, right, high = (float(bound) for bound in shapely.bounds(shapes.plan_polygon(edge)))
        across = np.arange(left + outline.length / 2, right - outline.length / 2 + 1e-9, SEARCH_STEP)
        up = np.arange(high - outline.width / 2, low + outline.width / 2 - 1e-9, -SEARCH_STEP)
        x, y = (part.ravel() for part in np.meshgrid(across, up))
        half, rise = outline.length / 2, outline.width / 2
        shapely.prepare(room)
        fits = shapely.covers(room, shapely.box(x - half, y - rise, x + half, y + rise))
        if fits.any():
            at = int(np.argmax(fits))
            return round(float(x[at]), 6), round(float(y[at]), 6)
    left, top = corner_below(garden, plan.year, path)
    return left + outline.length / 2, top - outline.width / 2


def planted_bed(plan: Plan, crop: Crop, variety: str, outline: Rectangle) -> tuple[Plan, Bed, Planting]:
    """The plan with a new bed, the bed, and the crop over all of it; neither is in the garden yet."""
    garden, key = edits.add_bed(plan.garden, outline, first_year=None)
    tried = plan.what_if(garden)
    bed = garden.beds_by_id[key]
    return tried, bed, draft_planting(tried, bed, crop, variety, Drop(Landing(Whole(), Rows())))


def make_planted_bed(garden: Garden, outline: Outline, planting: Planting) -> tuple[Garden, str, str]:
    """Add a bed with a planting over all of it.

    Parameters
    ----------
    garden : Garden
    outline : Outline
    planting : Planting
        Its crop, variety, year and arrangement are taken.

    Returns
    -------
    garden, bed, planting
        With the ids of what is new.
    """
    garden, bed = edits.add_bed(garden, outline, first_year=None)
    garden, new = edits.add_planting(
        garden,
        bed,
        planting.crop,
        planting.year,
        variety=planting.variety,
        plot=planting.plot,
        arrangement=planting.arrangement,
    )
    return garden, bed, new
