"""What a planting yields, in words."""

from __future__ import annotations

from planner.amounts.yields import planting_yield
from planner.garden import Planting
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.plan.yields import NOT_EATEN
from planner.words import say, say_count


def yield_words(plan: Plan, planting: Planting) -> str:
    """What a planting is expected to yield, with its range; empty where nothing of it is eaten or no yield is known.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    found = planting_yield(plan, planting)
    if planting.purpose in NOT_EATEN or not found.grams:
        return ""
    units = plan.garden.site.units
    weight = weight_words(found.grams, units)
    if found.pieces:
        weight = say_count("{count} piece, {weight}", "{count} pieces, {weight}", found.pieces, weight=weight)
    if found.low is not None and found.high is not None:
        low, high = weight_words(found.low, units), weight_words(found.high, units)
        if low != high:
            return say("Yields about {weight} ({low} to {high})", weight=weight, low=low, high=high)
    return say("Yields about {weight}", weight=weight)
