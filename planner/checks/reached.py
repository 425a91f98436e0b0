"""What an edit reaches: the plantings, beds and arches whose findings may be others after it.

What a finding depends on lies within a few steps of its ground, so an edit of one bed leaves those of most
others as they were.  Findings that look over the whole garden (stock, seed purity) are not of this kind.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely

from planner.checks.access import BESIDE
from planner.checks.frame.bed_index import BedIndex, bed_on_plan
from planner.checks.frame.context import NEAR, Part
from planner.checks.frame.planting_view import planting_view
from planner.checks.neighbours_lone_rows import OF_A_BLOCK
from planner.checks.neighbours_trees import harms_crops
from planner.checks.rotation import MOST_YEARS
from planner.checks.support_place import AROUND, BeyondBedInputs, support_beyond_bed
from planner.garden import Bed, Planting, Structure
from planner.ground.obstacles import footprint
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.plan.changes import recorded_anew, same_world
from planner.plan.differing import differing

#: Greatest distance over which plantings have to do with each other. [m]
REACH = max(NEAR, OF_A_BLOCK) + 0.01
#: Distance at which a structure touches a bed. [m]
TOUCHING = 0.01
#: Plantings that may be changed at once; after an edit of more the whole garden is checked.
MOST_CHANGED = 80


class Changed(NamedTuple):
    """What differs between two gardens.

    Attributes
    ----------
    plantings : dict of str to tuple
        Before and after, by id; those in a bed that differs, or at a structure that does, are among them.
    beds : frozenset of str
    grounds : list of shapely.Geometry
        Of beds and structures that differ, before and after, on the plan. [m]
    structures : frozenset of str
    """

    plantings: dict[str, tuple[Planting | None, Planting | None]]
    beds: frozenset[str]
    structures: frozenset[str]
    grounds: list[shapely.Geometry]


@dataclass(frozen=True, eq=False)
class Reached:
    """What an edit reaches.

    Attributes
    ----------
    changed : Changed
    plantings, beds, arches : frozenset of str
        Ids of those whose findings may be others.
    part : Part
        What is to be looked at to judge them.
    index : BedIndex
        Of the edited garden.
    """

    changed: Changed
    plantings: frozenset[str]
    beds: frozenset[str]
    arches: frozenset[str]
    part: Part
    index: BedIndex


def reached_by_edit(
    before: Plan, after: Plan, index: BedIndex, wide: Mapping[str, shapely.Geometry]
) -> Reached | None:
    """What an edit reaches; None where that is most of the garden.

    Parameters
    ----------
    before, after : Plan
    index : BedIndex
        Of the garden before.
    wide : mapping of str to shapely.Geometry
        Ground that supports take beyond their beds, on the plan, by the ids of plantings. [m]
    """
    if not same_world(before, after):
        return None
    changed = _changed(before, after, index)
    if changed is None:
        return None
    later = index.after(after, changed.beds)
    aisle = max(after.garden.site.path_width, BESIDE) + 0.01
    mine = {key for key, over in wide.items() if _any_within(over, changed.grounds, AROUND)}
    mine |= changed.plantings.keys()
    mine |= _plantings_near(after, later, _plots(before, after, changed), mine)
    views = [_plot(after, planting) for planting in _there(after, mine)]
    around = mine | _plantings_near(after, later, views, mine)
    beds = changed.beds | later.near(changed.grounds, aisle)
    arches = _arches(after, changed)
    looked_at = beds | later.near([bed_on_plan(after, bed) for bed in _beds(after, beds)], aisle)
    looked_at |= later.near([*_beyond_beds(after, mine), *arches.values()], AROUND + 0.01)
    part = Part(
        tuple(_there(after, around)),
        tuple(_beds(after, looked_at)),
        frozenset(arches),
    )
    gone = changed.structures - after.garden.structures_by_id.keys()
    return Reached(changed, frozenset(mine), frozenset(beds), frozenset(arches) | gone, part, later)


# -- what differs ---------------------------------------------------------------------------------


def _changed(before: Plan, after: Plan, index: BedIndex) -> Changed | None:
    old, new = before.garden, after.garden
    plantings = differing(old.plantings, new.plantings)
    beds, structures = differing(old.beds, new.beds), differing(old.structures, new.structures)
    every = [one for pair in structures.values() for one in pair if one is not None]
    if any(harms_crops(one) for one in every):
        return None  # roots of trees reach far
    if beds and _first_bed(before) != _first_bed(after):
        return None
    touched = set(beds)
    for one in every:  # its ground is kept free of plants, and an arch is climbed from beside it
        touched |= index.near(_grounds(one), REACH if one.kind == "arch" else TOUCHING)
    there = {key for bed in touched for plan in (before, after) for key in _ids_in_bed(plan, bed)}
    there |= recorded_anew(old.telling_records, new.telling_records)
    for key in there - plantings.keys():
        plantings[key] = old.plantings_by_id.get(key), new.plantings_by_id.get(key)
    if len(plantings) > MOST_CHANGED or len(touched) > MOST_CHANGED:
        return None
    grounds = [ground for one in every for ground in _grounds(one)]
    for key in beds:
        grounds += [bed_on_plan(plan, bed) for plan in (before, after) for bed in _beds(plan, (key,))]
    return Changed(plantings, frozenset(beds), frozenset(structures), grounds)


def _first_bed(plan: Plan) -> str:
    return min((bed.id for bed in plan.beds), default="")


def _grounds(structure: Structure) -> tuple[shapely.Geometry, shapely.Geometry]:
    """What a structure covers, and the ground that it keeps free of plants."""
    return plan_polygon(structure.outline), footprint(structure).buffer(structure.clearance)


def _ids_in_bed(plan: Plan, bed: str) -> Iterator[str]:
    return (planting.id for planting in plan.garden_in_bed(bed))


# -- what is near ---------------------------------------------------------------------------------


def _beds(plan: Plan, keys: Iterable[str]) -> list[Bed]:
    beds = plan.garden.beds_by_id
    return [beds[key] for key in keys if key in beds]


def _there(plan: Plan, keys: Iterable[str]) -> list[Planting]:
    """The plantings of some ids that are in a garden and have to do with the growing year."""
    plantings = plan.garden.plantings_by_id
    return [plantings[key] for key in keys if key in plantings and _counts(plan, plantings[key])]


def _counts(plan: Plan, planting: Planting) -> bool:
    """Whether a planting is in the ground in the growing year, or was begun in those that are looked back on."""
    return plan.year - MOST_YEARS <= planting.year <= plan.year or plan.span_of(planting).meets(plan.span)


def _plot(plan: Plan, planting: Planting) -> shapely.Geometry:
    return plan.plot_on_plan(planting)


def _plots(before: Plan, after: Plan, changed: Changed) -> list[shapely.Geometry]:
    """Plots of the plantings that differ, before and after."""
    pairs = changed.plantings.values()
    return [
        _plot(plan, one)
        for pair in pairs
        for plan, one in zip((before, after), pair, strict=True)
        if one is not None and _counts(plan, one)
    ]


def _plantings_near(
    plan: Plan, index: BedIndex, plots: list[shapely.Geometry], leaving_out: Collection[str]
) -> set[str]:
    """Ids of the plantings whose plots lie within :data:`REACH` of some plots."""
    plots = [plot for plot in plots if not plot.is_empty]
    near = index.near(plots, REACH)
    there = [
        planting
        for bed in near
        for planting in plan.garden_in_bed(bed)
        if planting.id not in leaving_out and _counts(plan, planting)
    ]
    if not there:
        return set()
    theirs = shapely.STRtree([_plot(plan, planting) for planting in there])
    _, found = theirs.query(np.array(plots), predicate="dwithin", distance=REACH)
    return {there[i].id for i in found.tolist()}


def _any_within(ground: shapely.Geometry, others: list[shapely.Geometry], reach: float) -> bool:
    return any(shapely.dwithin(ground, other, reach) for other in others)


def _beyond_beds(plan: Plan, keys: Iterable[str]) -> list[shapely.Geometry]:
    return list(supports_beyond_beds(plan, _there(plan, keys)).values())


def supports_beyond_beds(plan: Plan, plantings: Iterable[Planting]) -> dict[str, shapely.Geometry]:
    """Ground that supports take beyond their beds, on the plan, by the ids of their plantings. [m]

    Parameters
    ----------
    plan : Plan
    plantings : iterable of Planting
    """
    found = {}
    for planting in plantings:
        if planting.support is None:
            continue
        view = planting_view(plan, planting)
        built = (
            plan.cached(support_beyond_bed, view.id, BeyondBedInputs(view)) if view.placed.plants else None
        )
        if built is not None:
            found[planting.id] = built.over
    return found


def _arches(plan: Plan, changed: Changed) -> dict[str, shapely.Geometry]:
    """Arches that differ or stand at what does, with their outlines on the plan."""
    if not changed.grounds:
        return {}
    arches = {one.id: plan_polygon(one.outline) for one in plan.garden.structures if one.kind == "arch"}
    return {
        key: outline
        for key, outline in arches.items()
        if key in changed.structures or _any_within(outline, changed.grounds, AROUND + 0.01)
    }
