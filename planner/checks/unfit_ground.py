"""Why free ground is not for a crop: what rotation, light and the other checks would say of a planting there.

What proposes a planting (closing a gap, planting enough of a crop) asks this of each stretch before it takes it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection

import shapely

from planner.amounts.enough import Spot, planting_edit
from planner.checks import depth, overlap, perennial_ground, purity, rotation
from planner.checks.frame.bed_index import BedIndex
from planner.checks.frame.context import CheckContext
from planner.checks.frame.phrases import significant
from planner.checks.frame.planting_view import planting_view
from planner.checks.light_lack import judged_of, look_at
from planner.checks.light_measure import coarse_days
from planner.checks.reached import reached_by_edit
from planner.checks.run import Check, run_checks
from planner.garden import Garden, Planting
from planner.light import PlaceError
from planner.plan import Plan
from planner.words import number_words, percent, say

#: Checks that may speak against ground; light is asked by itself, of the one planting.
_CHECKS: dict[str, Check] = {
    rotation.CHECK: rotation.check,
    overlap.CHECK: overlap.check,
    perennial_ground.CHECK: perennial_ground.check,
    depth.CHECK: depth.check,
}
#: What is only a note forbids nothing.
_FORBIDS = ("stop", "mind")
#: What is put there by the program itself brings none of these, about whatever planting they are: rules of a proposal.
_STRICT: dict[str, Check] = {**_CHECKS, purity.CHECK: purity.check}


def unfit_ground(plan: Plan) -> Callable[[Spot], str]:
    """What says of free ground why a crop should not grow there.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    callable
        From a stretch with what would be planted there to a sentence without a full stop, empty where nothing is against it.
    """
    against = unfit_planting(plan)

    def why(spot: Spot) -> str:
        garden = planting_edit((spot,))(plan.garden)
        (new,) = garden.plantings[len(plan.garden.plantings) :]
        return against(garden, new.id)

    return why


def accepted_checks(plan: Plan, planting: Planting) -> frozenset[str]:
    """The checks of ground whose findings about a planting were all accepted, where there are some.

    Parameters
    ----------
    plan : Plan
        Of a growing year in which it stands.
    planting : Planting
    """
    reasons = {one.finding for one in plan.garden.waived}
    if not any(planting.id in key.split("/") for key in reasons):
        return frozenset()
    found = [
        one
        for one in run_checks(CheckContext(plan), _CHECKS)
        if one.severity in _FORBIDS and one.plantings and one.plantings[0] == planting.id
    ]
    checks = {one.check for one in found}
    return frozenset(checks - {one.check for one in found if one.key not in reasons})


def unfit_planting(
    plan: Plan, leaving_out: Collection[str] = (), *, strict: bool = False
) -> Callable[[Garden, str], str]:
    """What says of a planting in a garden that is only tried why it should not grow where it is.

    Parameters
    ----------
    plan : Plan
        Of the garden without that planting, or with it elsewhere.
    leaving_out : collection of str
        Checks that are not asked.
    strict : bool
        Whether it is judged as a proposal is: no word about the rotation, though it be a note, and none about other
        plantings for its sake.

    Returns
    -------
    callable
        From the garden and the planting's id to a sentence without a full stop, empty where nothing is against it.
    """
    for planting in plan.garden.plantings:  # once, in the plan's own cache: what is only tried keeps nothing
        plan.placed(planting)
    asked = _STRICT if strict else _CHECKS
    checks = {name: check for name, check in asked.items() if name not in leaving_out}
    index = BedIndex.of(plan)
    wide: dict[str, shapely.Geometry] = {}

    def why(garden: Garden, key: str) -> str:
        new = garden.plantings_by_id[key]
        tried = plan.what_if(garden)
        reached = reached_by_edit(plan, tried, index, wide)
        context = CheckContext(tried, part=reached.part if reached is not None else None)
        found = [
            one
            for one in run_checks(context, checks)
            if (
                new.id in one.plantings and (one.severity in _FORBIDS or one.check == rotation.CHECK)
                if strict
                else one.severity in _FORBIDS and one.plantings and one.plantings[0] == new.id
            )
        ]
        return found[0].text if found else _too_dark(plan, tried, new)

    return why


def _too_dark(plan: Plan, tried: Plan, planting: Planting) -> str:
    """How little sun a planting that is tried would have; empty where it is enough, or the garden's place is not known."""
    try:
        place = plan.place
    except PlaceError:
        return ""
    judged = judged_of(tried, (planting_view(tried, planting),))
    for day, _ in coarse_days(judged[0].days) if judged else ():
        plan.casters_by_thing(day)
    tried.take_casters(plan, (planting.id,))
    lacks = look_at(tried, place, judged).lacks
    if not lacks or lacks[0].severity not in _FORBIDS:
        return ""
    lack = lacks[0]
    if lack.share is None:
        return say(
            "it would have {hours} h of direct sun a day and needs {need} h",
            hours=number_words(lack.hours, 1),
            need=significant(lack.need),
        )
    return say("it would have {share} of the sun of an open place", share=percent(lack.share))
