"""Acidity: crops in soil that is more acid, or less, than suits them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame import moves
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding
from planner.checks.frame.planting_view import PlantingView
from planner.crops import Figure
from planner.crops.figures import Reading
from planner.garden import Soil
from planner.plan.cache import fact
from planner.words import capital, full_day_words, later, number_words, say

CHECK = "acidity"
#: By how much the soil may be outside of the printed range: that is of the best growth, and kits read to half a unit
#: (practice). [pH]
SLACK = 0.5
#: Soil is limed so far for the cabbage family, against clubroot, whatever suits its growth best (practice). [pH]
LIMED_FOR_CABBAGES = 7.5
#: By how much it may be outside of the range before the crop will suffer: ten times as sour or as limy (practice). [pH]
FAR = 1.0

_RULE = later("A crop grows in soil of the acidity that suits it")


class AcidityInputs(NamedTuple):
    """A planting, and the soil in which it grows."""

    view: PlantingView
    soil: Soil


def check(context: CheckContext) -> Iterator[Finding]:
    """Report crops in soil whose pH is outside of the range printed for them; none where it is not known."""
    for view in context.views:
        soil = context.plan.garden.soil_of(view.bed)
        if soil.ph is not None:
            found = context.plan.cached(acidity_finding, view.id, AcidityInputs(view, soil))
            if found is not None:
                yield found


@fact("acidity finding")
def acidity_finding(inputs: AcidityInputs) -> Finding | None:
    """Judge the soil of one planting."""
    view, soil = inputs
    wanted = suits(view.crop.soil_ph) if view.crop is not None else None
    if wanted is None or soil.ph is None or view.manure or not view.placed.plants:
        return None
    low, high = wanted
    if view.crop is not None and view.crop.family == "Brassicaceae":
        high = max(high, LIMED_FOR_CABBAGES)
    if low - SLACK <= soil.ph <= high + SLACK:
        return None
    text = say(
        "{planting} wants soil of pH {low} to {high}; that of {bed} has {ph}",
        planting=view.name,
        low=number_words(low, 1),
        high=number_words(high, 1),
        bed=view.bed.name,
        ph=number_words(soil.ph, 1),
    )
    if soil.tested is not None:
        text = say("{sentence}, tested on {day}", sentence=text, day=full_day_words(soil.tested))
    return planting_finding(
        CHECK,
        "mind" if soil.ph < low - FAR or soil.ph > high + FAR else "note",
        (view,),
        capital(text),
        say(_RULE),
        view.source("soil_ph"),
        [soil.ph, low, high],
        topic="acid" if soil.ph < low else "lime",
        candidates=lambda plan: moves.elsewhere_or_left_out(
            plan, view.id, say("no ground is lost to what does badly in its soil")
        ),
    )


def suits(wanted: Figure | None) -> tuple[float, float] | None:
    """The widest range of pH that any of a crop's sources prints; None where none prints one.

    Examples
    --------
    >>> suits(Figure(value=6.5, low=6, high=7, source="a", other=(Reading(low=6.2, high=7.5, source="b"),)))
    (6.0, 7.5)
    """
    if wanted is None:
        return None
    readings: tuple[Figure | Reading, ...] = (wanted, *wanted.other)
    ranges = [(one.low, one.high) for one in readings if one.low is not None and one.high is not None]
    return (min(low for low, _ in ranges), max(high for _, high in ranges)) if ranges else None
