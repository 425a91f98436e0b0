"""Which crops fit into the free ground of beds from a day on, and of the others why not."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from planner.crops import Crop
from planner.garden import Bed
from planner.garden.planting import Purpose
from planner.plan import Plan
from planner.proposal.bed_light import BedLight
from planner.proposal.filling import Candidate, Filling, judge_candidate
from planner.proposal.refusals import Refusal
from planner.proposal.strips import carried_by, strips_of, taken_in


@dataclass(frozen=True, eq=False)
class Fit:
    """Whether a crop fits.

    Attributes
    ----------
    filling : Filling or None
        What it would become, in the first bed into which it fits; None where it fits into none.
    why : str
        Of the bed that nearly fits, why it does not; empty where it fits.
    """

    filling: Filling | None
    why: str = ""


def fits(
    plan: Plan,
    beds: Iterable[Bed],
    day: dt.date,
    crops: Iterable[Crop],
    cancelled: Callable[[], bool] = lambda: False,
) -> dict[str, Fit]:
    """Whether each crop fits into one of some beds from a day on.

    It is judged as what could still go in (:func:`planner.proposal.filling.fillings`): by its season, the days for which ground is
    free, the rotation of its family, depth and sun.

    Parameters
    ----------
    plan : Plan
    beds : iterable of Bed
    day : date
    crops : iterable of Crop
    cancelled : callable
        Asked now and then; the answer is incomplete after it said so.

    Returns
    -------
    dict of str to Fit
        By the crops' keys; empty without beds.
    """
    open_crops = {crop.key: crop for crop in crops}
    found: dict[str, Fit] = {}
    nearest: dict[str, Refusal] = {}
    strips = strips_of(plan, tuple(beds))
    for strip, carried in zip(strips, carried_by(plan, strips), strict=True):
        there, light = taken_in(plan, strip), BedLight(plan, [strip.bed])
        for key, crop in tuple(open_crops.items()):
            if cancelled():
                return found
            judged = judge_candidate(plan, strip, _candidate(crop), day, None, there, carried, light)
            if isinstance(judged, Filling):
                found[key] = Fit(judged)
                del open_crops[key]
            elif key not in nearest or judged.step > nearest[key].step:
                nearest[key] = judged
    return found | {key: Fit(None, nearest[key].why) for key in open_crops if key in nearest}


def _candidate(crop: Crop) -> Candidate:
    manure = crop.product is not None and crop.product.value == "green manure"
    purpose: Purpose = "green manure" if manure else "kitchen"
    return Candidate(crop, "", purpose, None, grown_before=False)
