"""Acidity: crops in soil that is more acid, or less, than suits them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Candidate, Finding
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Soil
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import capital, full_day_words, later, number_words, say

CHECK = "acidity"
#: By how much the soil may be outside of the printed range; tests are no finer (practice). [pH]
SLACK = 0.2

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
    wanted = view.crop.soil_ph if view.crop is not None else None
    if wanted is None or wanted.low is None or wanted.high is None or soil.ph is None:
        return None
    if wanted.low - SLACK <= soil.ph <= wanted.high + SLACK or view.manure or not view.placed.plants:
        return None
    text = say(
        "{planting} wants soil of pH {low} to {high}; that of {bed} has {ph}",
        planting=view.name,
        low=number_words(wanted.low, 1),
        high=number_words(wanted.high, 1),
        bed=view.bed.name,
        ph=number_words(soil.ph, 1),
    )
    if soil.tested is not None:
        text = say("{sentence}, tested on {day}", sentence=text, day=full_day_words(soil.tested))
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE),
        view.source("soil_ph"),
        [soil.ph, wanted.low, wanted.high],
        topic="acid" if soil.ph < wanted.low else "lime",
        candidates=lambda plan: _in_other_soil(plan, view.id),
    )


def _in_other_soil(plan: Plan, key: str) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for _, fix in fixes.in_other_beds(plan, view):
        if fix is not None:
            yield fix
    yield fixes.remove(view, say("no ground is lost to what does badly in its soil"))
