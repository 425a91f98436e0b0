"""The walking order of a plan's beds, and how far they are from gate and tap."""

from __future__ import annotations

from typing import Literal

from planner.garden import Bed
from planner.ground.walk import WalkInputs, gates_of, middles, walking_order
from planner.ground.walking_distance import WayInputs, walking_distances
from planner.plan.cache import fact
from planner.plan.plan import Plan


@fact("walking order")
def walk_of(inputs: WalkInputs) -> tuple[Bed, ...]:
    """The beds in the order in which one walks to them."""
    return walking_order(inputs)


def beds_in_walking_order(plan: Plan) -> tuple[Bed, ...]:
    """The beds in use in the growing year, in the order in which one walks to them.

    Parameters
    ----------
    plan : Plan
        Its site says what order was given by hand.
    """
    gates = gates_of(plan.garden.structures, plan.year)
    return plan.cached(walk_of, "garden", WalkInputs(plan.beds, gates, plan.garden.site.walk))


def way_of_walk(plan: Plan) -> tuple[tuple[float, float], ...]:
    """The round: from the gate, where there is one, along the middles of the beds, and back to where it begins.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    tuple of tuple of float
        Places on the plan; none without beds. [m]
    """
    beds = beds_in_walking_order(plan)
    if not beds:
        return ()
    gates = gates_of(plan.garden.structures, plan.year)
    places = middles([*gates[:1], *(bed.outline for bed in beds)])
    return tuple((float(x), float(y)) for x, y in (*places, places[0]))


@fact("walking distances")
def distances_of(inputs: WayInputs) -> tuple[float, ...]:
    """How far one walks from a place to each bed. [m]"""
    return walking_distances(inputs)


def walk_from(plan: Plan, kind: Literal["gate", "tap"]) -> dict[str, float]:
    """How far one walks from the nearest gate or tap to each bed, by the bed's id.

    Parameters
    ----------
    plan : Plan
    kind : {"gate", "tap"}

    Returns
    -------
    dict of str to float
        Without the beds to which no way leads; empty where none of that kind is drawn. [m]
    """
    there = tuple(one for one in plan.garden.structures if one.in_use(plan.year))
    beds = plan.beds
    found: dict[str, float] = {}
    for one in there:
        if one.kind == kind:
            inputs = WayInputs(one.outline.center, beds, there, plan.garden.site.outline)
            far = plan.cached(distances_of, one.id, inputs)
            for bed, distance in zip(beds, far, strict=True):
                if distance < found.get(bed.id, float("inf")):
                    found[bed.id] = distance
    return found
