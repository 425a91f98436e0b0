"""Depth: roots and tubers in containers, or over rock or hard ground, with too little soil for them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame import moves
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding
from planner.checks.frame.planting_view import PlantingView
from planner.garden.units import show_spacing
from planner.plan.cache import fact
from planner.words import capital, later, say

CHECK = "depth"
#: Least depth of soil for what is lifted, and for deep roots of others (practice; of carrots and beets for short sorts). [m]
LEAST: dict[str, float] = {
    "asparagus": 0.45,
    "beetroot": 0.18,
    "carrot": 0.20,
    "celeriac": 0.25,
    "chinese_artichoke": 0.20,
    "early_potato": 0.25,
    "horseradish": 0.45,
    "jerusalem_artichoke": 0.30,
    "leek": 0.20,
    "oca": 0.25,
    "parsnip": 0.40,
    "potato": 0.25,
    "rhubarb": 0.40,
    "root_parsley": 0.30,
    "salsify": 0.40,
    "scorzonera": 0.40,
    "swede": 0.25,
    "sweet_potato": 0.25,
    "tomato": 0.20,
    "winter_radish": 0.30,
    "witloof": 0.30,
    "yacon": 0.40,
}
#: Share of that depth below which it will suffer.
FAR_TOO_LITTLE = 0.5

_RULE = later("Soil is as deep as the roots that grow in it are long")


class DepthInputs(NamedTuple):
    """A planting, and how deep the soil is in which it grows. [m]"""

    view: PlantingView
    depth: float


def check(context: CheckContext) -> Iterator[Finding]:
    """Report roots in soil that is not as deep as they are long; none where its depth is not given."""
    for view in context.views:
        depth = context.plan.garden.soil_of(view.bed).depth
        if depth is not None:
            found = context.plan.cached(depth_finding, view.id, DepthInputs(view, depth))
            if found is not None:
                yield found


@fact("depth finding")
def depth_finding(inputs: DepthInputs) -> Finding | None:
    """Judge the soil under one planting."""
    view, depth = inputs
    least = LEAST.get(view.planting.crop)
    if least is None or depth >= least - 1e-6 or view.manure or not view.placed.plants:
        return None
    text = say(
        "{planting} grows in {depth} of soil; it wants {least} at the least",
        planting=view.name,
        depth=show_spacing(depth, view.units),
        least=show_spacing(least, view.units),
    )
    return planting_finding(
        CHECK,
        "mind" if depth < FAR_TOO_LITTLE * least else "note",
        (view,),
        capital(text),
        say(_RULE),
        "practice",
        [round(depth, 3), least],
        candidates=lambda plan: moves.elsewhere_or_left_out(
            plan, view.id, say("no ground is lost to stunted roots")
        ),
    )
