"""Days from the start to the harvest, and the latest start before the first autumn frost."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from planner.crops import Crop
from planner.season import practice
from planner.season.frosts import shift

#: Key of the source of the rule by which the latest start is counted back.
FALL_SOURCE = "vce426334"


def count_back(first_frost: dt.date, days: float, indoors: float, harvest: float, tender: bool) -> dt.date:
    """Latest sowing that is harvested before the first autumn frost.

    Days to harvest, days indoors, harvest period and a fall factor of 14 days for the short days of
    autumn, with 14 more for a crop that frost kills (Virginia Cooperative Extension 426-334).

    Parameters
    ----------
    first_frost : date
    days : float
        From the start to the first harvest. [days]
    indoors : float
        Raised indoors for. [days]
    harvest : float
        Length of harvest. [days]
    tender : bool
        Frost kills the crop.

    Examples
    --------
    >>> count_back(dt.date(2026, 10, 16), days=50, indoors=0, harvest=14, tender=True)
    datetime.date(2026, 7, 16)
    """
    factor = practice.FALL_FACTOR * (2 if tender else 1)
    return shift(first_frost, -(days + indoors + harvest + factor))


def days_on_plot(
    number: Callable[[str], float | None], crop: Crop | None, start: str, state: str | None = None
) -> float | None:
    """Days from the start on the plot to the first harvest; None where they are not known.

    Parameters
    ----------
    number : callable
        Gives a figure of the variety or crop by its field.
    crop : Crop, optional
    start : str
        How it starts there (:data:`planner.crops.crop.START_WORDS`).
    state : str, optional
        In which its tubers or plants are planted.
    """
    days = number("days_to_maturity")
    if days is None:
        return None
    counted = crop.maturity_from.value if crop and crop.maturity_from else None
    if crop is not None and practice.from_seed(crop, start):
        days, counted = (
            (number("days_from_seed") or 0.0) * days / (crop.number("days_to_maturity") or days),
            "sowing",
        )
    if practice.is_unsprouted(start, state) and number("heat_to_sprout") is not None:
        return days + practice.SPROUTED_SOONER
    weeks = number("weeks_to_raise") or 0
    grown = 7 * practice.weeks_grown(start, state, weeks)
    if counted == "setting out" and start in ("sown", "bought"):
        return max(days + 7 * weeks - grown, round(days / 3))
    if counted == "sowing" and start in ("raised", "bought"):
        return max(days - grown, round(days / 3))
    return days


def counted_harvest(number: Callable[[str], float | None]) -> float:
    """Days of harvest that are counted back from the frost."""
    return min(number("harvest_days") or 0, practice.COUNTED_HARVEST)


def latest_start(crop: Crop, start: str, first_frost: dt.date) -> dt.date | None:
    """The last day on which a crop is usefully started; None where its days to maturity are not known.

    This ends the window of a crop for which no last day is printed because only the autumn frost
    ends it (``sow_until`` or ``set_out_until`` that does not apply).

    Parameters
    ----------
    crop : Crop
    start : str
        How it starts (:data:`planner.crops.crop.START_WORDS`).
    first_frost : date
    """
    days = days_on_plot(crop.number, crop, start)
    if days is None:
        return None
    return count_back(first_frost, days, 0, counted_harvest(crop.number), practice.tender(crop))
