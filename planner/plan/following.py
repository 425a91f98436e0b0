"""What can follow a crop on its ground: the same year after it is cleared, and the year after."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.crops import Crop
from planner.plan.crop_year import crop_year, frost_pair
from planner.plan.plan import Plan

#: What does well after a crop that asks for much, some or little food, best first (``practice``: legumes and what asks for
#: little after what asks for much, what asks for much after legumes).
_AFTER: dict[str, tuple[str, ...]] = {
    "heavy": ("light", "moderate"),
    "moderate": ("light", "moderate"),
    "light": ("heavy", "moderate", "light"),
}
#: Days between clearing the one and starting the other. [days]
_TURN = 3
#: Ways to start a crop on ground that has just been cleared.
_GAP_STARTS = ("sown", "raised")


class Follower(NamedTuple):
    """A crop that can follow.

    Attributes
    ----------
    crop : Crop
    latest : date
        Last day on which it can still be begun in this garden.
    raised : bool
        Whether that is by setting out young plants.
    suits : bool
        Whether what it asks of the soil goes well after the crop before.
    """

    crop: Crop
    latest: dt.date
    raised: bool
    suits: bool


def cleared_about(plan: Plan, crop: Crop) -> dt.date | None:
    """The day on which a crop is over that is begun as early as it can be; None where it stays or is not known."""
    if crop.life_cycle == "perennial":
        return None
    harvests = [stage for stage in crop_year(plan, crop) if stage.kind in ("harvest", "harvest raised")]
    return harvests[-1].last if harvests else None


def followers(plan: Plan, crop: Crop) -> tuple[Follower, ...]:
    """Crops of other families that can still be begun in the same year after a crop is cleared.

    Parameters
    ----------
    plan : Plan
        Its frosts and climate set the last days; without frost dates nothing is told.
    crop : Crop

    Returns
    -------
    tuple of Follower
        Those that suit the soil after it first, then in the order of their last days.
    """
    cleared = cleared_about(plan, crop)
    if cleared is None or not frost_pair(plan).known:
        return ()
    ready = cleared + dt.timedelta(days=_TURN)
    found = []
    for other in plan.catalogue.crops.values():
        if other.family == crop.family or other.life_cycle == "perennial" or other.growth_form == "flower":
            continue
        latest, raised = _latest(plan, other)
        if latest is not None and latest >= ready:
            found.append(Follower(other, latest, raised, suits_after(crop, other)))
    return tuple(sorted(found, key=lambda one: (not one.suits, one.latest, one.crop.name)))


def suits_after(crop: Crop, other: Crop) -> bool:
    """Whether what a crop asks of the soil goes well after another; False where that is not known.

    Parameters
    ----------
    crop, other : Crop
        The one before, and the one that follows.
    """
    if crop.nutrient_demand is None or crop.nutrient_demand.value is None:
        return False
    if crop.family == "Fabaceae":
        wanted: tuple[str, ...] = ("heavy",)
    elif other.family == "Fabaceae":
        return crop.nutrient_demand.value == "heavy"
    else:
        wanted = _AFTER[crop.nutrient_demand.value][:1]
    return other.nutrient_demand is not None and other.nutrient_demand.value in wanted


def _latest(plan: Plan, crop: Crop) -> tuple[dt.date | None, bool]:
    """The last day to begin it, and whether that is by setting out; sowing where it is as late."""
    starts = crop.starts.value if crop.starts else ()
    days = {
        start: windows[-1].last
        for start in _GAP_STARTS
        if start in starts and (windows := plan.start_windows(crop, start))
    }
    if not days:
        return None, False
    latest = max(days.values())
    return latest, days.get("sown") != latest
