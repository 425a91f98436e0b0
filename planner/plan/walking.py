"""The walking order of a plan's beds."""

from __future__ import annotations

from planner.garden import Bed
from planner.ground.walk import WalkInputs, gates_of, middles, walking_order
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
