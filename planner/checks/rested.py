"""How many years ago the ground of each planting carried its family, whether that is a finding or not."""

from __future__ import annotations

from typing import NamedTuple

from planner.checks import rotation
from planner.checks.frame.context import CheckContext
from planner.plan import Plan


class Rested(NamedTuple):
    """The rest of a planting's ground from its family.

    Attributes
    ----------
    ago : int or None
        Growing years since its family was there; None where that is not known for any of the years looked back. [years]
    least, wanted : float
        Years wanted between. [years]
    """

    ago: int | None
    least: float
    wanted: float


def rested_years(plan: Plan) -> dict[str, Rested]:
    """The rest of the ground of all plantings of a growing year that its rotation asks for, by their ids.

    Parameters
    ----------
    plan : Plan
    """
    found = {}
    for view, inputs in rotation.asked_of(CheckContext(plan)):
        years = rotation.interval(view)
        if years is None or (view.stays_for_years and view.dates.start == "standing"):
            continue
        old = rotation.old_ground(inputs, rotation.MOST_YEARS + 1.0) if inputs is not None else None
        ago = old.ago if old is not None and old.share >= rotation.LEAST_SHARE else None
        found[view.id] = Rested(ago, years.least, years.wanted)
    return found
