"""The cautions that belong on a bed's sheet."""

from __future__ import annotations

import shapely

from planner.crops import Crop
from planner.crops.cautions import Caution, cautions
from planner.garden import Bed
from planner.ground.shapes import plan_polygon
from planner.plan import Plan

#: An arch stands at a bed when it comes so near. [m]
AT_THE_BED = 0.05
#: The work at which a support's cautions are said.
_SUPPORT_TASK = "support up"


def bed_cautions(plan: Plan, bed: Bed) -> tuple[Caution, ...]:
    """Cautions for a bed: of the crops in it, of their supports, of an arch that stands at it."""
    plantings = plan.in_bed(bed)
    supports = {p.support.kind for p in plantings if p.support is not None}
    built = frozenset[str]({*supports, *(["arch"] if _arch_at(plan, bed) else [])})
    things = built.union(cover.kind for p in plantings for cover in p.covers)
    crops = [crop for p in plantings if (crop := plan.known(p).crop) is not None]
    return tuple(
        caution
        for caution in cautions(plan.catalogue).values()
        if _of_support(caution, built) or _of_crops(caution, crops, things)
    )


def _of_support(caution: Caution, built: frozenset[str]) -> bool:
    return _SUPPORT_TASK in caution.tasks and caution.holds((), built)


def _of_crops(caution: Caution, crops: list[Crop], things: frozenset[str]) -> bool:
    return any(map(caution.is_about, crops)) and caution.holds(crops, things)


def _arch_at(plan: Plan, bed: Bed) -> bool:
    arches = [s for s in plan.garden.structures if s.kind == "arch" and s.in_use(plan.year)]
    if not arches:
        return False
    ground = plan_polygon(bed.outline)
    return any(shapely.dwithin(plan_polygon(arch.outline), ground, AT_THE_BED) for arch in arches)
