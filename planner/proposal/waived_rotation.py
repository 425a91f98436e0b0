"""Ground on which the gardener waived the rotation of a crop: beans that climb the same arch every year.

A waiver holds for one planting.  A wish for the same crop on the same ground inherits it, and so does what is planted for it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

import shapely

from planner.checks import rotation
from planner.checks.frame.context import CheckContext
from planner.garden import Garden, Planting, edits
from planner.ground.shapes import bed_polygon, shape_to_own, shape_to_plan
from planner.plan import Plan
from planner.proposal.strips import Strip


class WaivedGround(NamedTuple):
    """Ground on which a crop may come back sooner, since the gardener said so of what stood there.

    Attributes
    ----------
    crop : str
        Key of the crop.
    ground : shapely.Geometry
        On the plan. [m]
    reason : str
        That the gardener gave.
    """

    crop: str
    ground: shapely.Geometry
    reason: str


def waived_grounds(plan: Plan) -> tuple[WaivedGround, ...]:
    """Ground on which a finding of rotation is waived that is still found as it was, in any growing year up to this one.

    Parameters
    ----------
    plan : Plan
    """
    by_id, years = plan.garden.plantings_by_id, set()
    waived = {
        one.finding: one.reason for one in plan.garden.waived if one.finding.startswith(f"{rotation.CHECK}/")
    }
    for key in waived:
        planting = by_id.get(key.split("/")[1])
        if planting is not None and planting.year <= plan.year:
            years.add(planting.year)
    found = []
    for year in sorted(years):
        then = plan if year == plan.year else Plan(plan.garden, year, plan.catalogue)
        for finding in rotation.check(CheckContext(then)):
            if finding.key in waived:
                planting = by_id[finding.plantings[0]]
                found.append(WaivedGround(planting.crop, then.plot_on_plan(planting), waived[finding.key]))
    return tuple(found)


def waived_for(plan: Plan, planting: Planting, grounds: Iterable[WaivedGround]) -> WaivedGround | None:
    """The ground on which a planting may come back sooner, where all of it stands there; None where it may not.

    Parameters
    ----------
    plan : Plan
        Its garden has the bed of the planting.
    planting : Planting
        In the garden or not.
    grounds : iterable of WaivedGround
    """
    mine = [one for one in grounds if one.crop == planting.crop]
    if not mine:
        return None
    plot = shape_to_plan(plan.bed_of(planting).outline, plan.trial(planting).plot)
    least = (1 - rotation.LEAST_SHARE) * float(plot.area)
    return next((one for one in mine if shapely.intersection(plot, one.ground).area >= least > 0), None)


def waived_steps(strip: Strip, crop: str, grounds: Iterable[WaivedGround]) -> list[tuple[int, int]]:
    """Stretches of a bed, first step and the first after it, on which a crop may come back sooner.

    Parameters
    ----------
    strip : Strip
    crop : str
    grounds : iterable of WaivedGround
    """
    found = []
    for one in grounds:
        if one.crop == crop:
            own = shapely.intersection(shape_to_own(strip.bed.outline, one.ground), bed_polygon(strip.bed))
            if own.area > rotation.LEAST_GROUND:
                found.append(strip.steps(own))
    return found


def with_waivers(plan: Plan, new: Collection[str], grounds: Collection[WaivedGround]) -> Garden:
    """The garden in which rotation is waived of what was planted on ground where it was before, for the same reason.

    Parameters
    ----------
    plan : Plan
        Of the garden and year in which it is planted.
    new : collection of str
        Ids of what was planted.
    grounds : collection of WaivedGround
    """
    garden = plan.garden
    crops = {one.crop for one in grounds}
    if not any(garden.plantings_by_id[key].crop in crops for key in new):
        return garden
    for finding in rotation.check(CheckContext(plan)):
        planting = garden.plantings_by_id[finding.plantings[0]]
        one = waived_for(plan, planting, grounds) if planting.id in new else None
        if one is not None:
            garden = edits.waive(garden, finding.key, one.reason)
    return garden
