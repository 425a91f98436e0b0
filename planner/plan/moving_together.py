"""Several plantings moved at once: within their beds, or to other beds."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from planner.garden import Bed, Garden, Places, Planting, edits
from planner.garden.model import Point
from planner.ground.dropping import Landing, plot_box
from planner.ground.free import ground_without
from planner.ground.moving import landing_in_other_bed, move_on_plan
from planner.ground.shapes import (
    bed_axis,
    extent_along_axis,
    plan_polygon,
    plot_polygon,
    to_own,
    to_plan,
    turned,
)
from planner.plan.plan import Plan
from planner.words import say


@dataclass(frozen=True)
class MovedTogether:
    """Plantings that were moved, or the reasons for which none was.

    Attributes
    ----------
    garden : Garden
        As it was where one of them may not land.
    refused : tuple of str
        Why, for each that may not.
    """

    garden: Garden
    refused: tuple[str, ...] = ()


def move_together(
    plan: Plan,
    garden: Garden,
    ids: Sequence[str],
    offset: Point,
    target: str | None,
    step: float = 0.0,
) -> MovedTogether:
    """Move several plantings by an offset on the plan.

    Those of the bed of the first go to the target together; those of other beds go to the bed that lies as far from
    theirs. In another bed each takes a stretch of free ground as long as its plot, in their order.

    Parameters
    ----------
    plan : Plan
        Gives free ground and days; the plantings may lie elsewhere in it.
    garden : Garden
        The garden before the move.
    ids : sequence of str
        The planting that was taken hold of first.
    offset : tuple of float
        [m]
    target : str or None
        Bed for those of the first one's bed; None for the same bed.
    step : float
        Within a bed the offset is rounded to whole steps; 0 for none. [m]
    """
    home = garden.plantings_by_id[ids[0]].bed
    if target in (None, home):
        return MovedTogether(move_on_plan(garden, ids, *offset, step))
    by_bed: dict[str, list[Planting]] = {}
    for key in ids:
        by_bed.setdefault(garden.plantings_by_id[key].bed, []).append(garden.plantings_by_id[key])
    made, refused = garden, list[str]()
    landed: list[tuple[Planting, str, Landing]] = []
    for bed_id, plantings in by_bed.items():
        bed = garden.beds_by_id[bed_id]
        goal = (
            garden.beds_by_id.get(target)
            if bed_id == home and target
            else _bed_beyond(plan, bed, plantings, offset)
        )
        if goal is None:
            refused += [
                say("{crop}: no bed lies there", crop=_name(plan, planting)) for planting in plantings
            ]
            continue
        for planting, at in _places(bed, goal, plantings, offset):
            land = _land(plan, planting, (bed, goal), at, ids, landed)
            if land.plot is None:
                refused.append(say("{crop}: {why}", crop=_name(plan, planting), why=land.why))
                continue
            landed.append((planting, goal.id, land))
            made = edits.change_planting(
                made, planting.id, bed=goal.id, plot=land.plot, arrangement=land.arrangement
            )
    return MovedTogether(garden, tuple(refused)) if refused else MovedTogether(made)


def _name(plan: Plan, planting: Planting) -> str:
    return plan.catalogue.name_of(planting.crop)


def _bed_beyond(plan: Plan, bed: Bed, plantings: Sequence[Planting], offset: Point) -> Bed | None:
    """The bed that lies at an offset from the middle of some plantings of a bed."""
    middle = shapely.union_all([plot_polygon(bed, planting.plot) for planting in plantings]).centroid
    ((x, y),) = to_plan(bed.outline, [(middle.x, middle.y)])
    there = shapely.Point(float(x) + offset[0], float(y) + offset[1])
    return next((other for other in plan.beds if plan_polygon(other.outline).covers(there)), None)


def _places(
    bed: Bed, goal: Bed, plantings: Sequence[Planting], offset: Point
) -> list[tuple[Planting, Point]]:
    """Where in another bed each planting is to lie, in its coordinates [m], in their order along it.

    They keep their distances along the bed, however it is turned, and are shifted along it together as far as it
    needs for all of them to lie in it.
    """
    axis, home_axis = bed_axis(goal.outline), bed_axis(bed.outline)
    found = []
    levels: list[tuple[float, float, Planting]] = []
    for planting in plantings:
        if isinstance(planting.arrangement, Places):
            found.append((planting, _carried_to(bed, goal, planting.arrangement.points[0], offset)))
        else:
            left, _, right, _ = plot_box(bed, planting.plot)
            levels.append(((left + right) / 2, right - left, planting))
    if not levels:
        return found
    middle = (min(at - long / 2 for at, long, _ in levels) + max(at + long / 2 for at, long, _ in levels)) / 2
    ((x, y),) = shapely.get_coordinates(turned(shapely.Point(middle, 0.0), home_axis))
    goal_x, goal_y = _carried_to(bed, goal, (float(x), float(y)), offset)
    ((along, across),) = shapely.get_coordinates(turned(shapely.Point(goal_x, goal_y), -axis))
    difference = math.radians(goal.outline.turn + axis - bed.outline.turn - home_axis)
    forth = -1.0 if math.cos(difference) < -1e-9 else 1.0
    half = max(abs(at - middle) + long / 2 for at, long, _ in levels)
    begin, end = extent_along_axis(goal.outline)
    along = max(min(float(along), end - half), begin + half)
    for at, _, planting in sorted(levels, key=lambda level: forth * level[0]):
        place = shapely.Point(along + forth * (at - middle), float(across))
        ((x, y),) = shapely.get_coordinates(turned(place, axis))
        found.append((planting, (float(x), float(y))))
    return found


def _carried_to(bed: Bed, goal: Bed, point: Point, offset: Point) -> Point:
    """A point of a bed, moved by an offset on the plan, in the coordinates of another bed. [m]"""
    ((x, y),) = to_plan(bed.outline, [point])
    ((x, y),) = to_own(goal.outline, [(float(x) + offset[0], float(y) + offset[1])])
    return float(x), float(y)


def _land(
    plan: Plan,
    planting: Planting,
    beds: tuple[Bed, Bed],
    at: Point,
    ids: Sequence[str],
    landed: Sequence[tuple[Planting, str, Landing]],
) -> Landing:
    """Plot of a planting in another bed, beside those that have landed there already."""
    home, goal = beds
    span = plan.span_of(planting)

    def free() -> shapely.Geometry:
        taken = [
            plot_polygon(goal, there.plot)
            for other, bed, there in landed
            if bed == goal.id
            and there.plot is not None
            and there.arrangement.kind != "places"  # single plants take no plot of their own
            and plan.span_of(other).meets(span)
        ]
        return ground_without(
            plan.free(goal, span.first, span.last, leaving_out=ids, climbing=plan.may_climb_arch(planting)),
            taken,
        )

    return landing_in_other_bed(planting, home, goal, at, free)
