"""The walking order of a plan's beds."""

from __future__ import annotations

from planner.garden import Bed
from planner.ground.walk import WalkInputs, gates_of, walking_order
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
