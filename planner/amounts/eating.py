"""What a household eats of a crop: its own amounts, else what publications say of one person, times its persons.

A publication gives an amount a year.  What keeps for months is eaten in all weeks; what is sown again and again for half of
them; everything else for as long as it is picked and then keeps.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from planner.crops import Catalogue, Crop
from planner.crops.per_person import per_person
from planner.garden import Garden
from planner.garden.household import Eaten

#: Weeks of a year.
ALL_YEAR = 52
#: Days of keeping from which a crop is eaten the year round (practice). [days]
KEEPS_ALL_YEAR = 120
#: Weeks for which a crop is eaten that is sown again and again (estimate). [weeks]
SOWN_AGAIN = 26
#: Days for which a picked crop keeps of which no time is published (practice). [days]
FRESH = 7


class Appetite(NamedTuple):
    """What a household eats of a crop, or of several that are eaten in each other's place.

    Attributes
    ----------
    key : str
        Key of the crop under which the amount stands.
    crops : tuple of str
        Keys of all crops that it is of.
    yearly : float or None
        Of one person in a year; None where it is not known. [kg]
    weeks : int
        For which that lasts.
    weekly : int or None
        Of the household in one of these weeks; None where the amount or the persons are not known. [g]
    source : str
        Key of a publication, ``own``, or empty where nothing is known.
    note : str
        How the amount came about.
    """

    key: str
    crops: tuple[str, ...]
    yearly: float | None
    weeks: int
    weekly: int | None
    source: str
    note: str = ""


def appetite(garden: Garden, catalogue: Catalogue, crop: str) -> Appetite:
    """What a household eats of a crop.

    Parameters
    ----------
    garden : Garden
        For its household.
    catalogue : Catalogue
    crop : str
        Its key.
    """
    household = garden.household
    own = {one.crop: one for one in household.eats}
    if crop in own:
        return _own(own[crop], weeks_eaten(catalogue.get(crop)), household.persons)
    published = per_person().get(crop)
    if published is None:
        return Appetite(crop, (crop,), None, weeks_eaten(catalogue.get(crop)), None, "")
    crops = tuple(one for one in (published.crop, *published.together) if one not in own)
    weeks = max(weeks_eaten(catalogue.get(one)) for one in crops)
    yearly = published.kilograms.value or 0.0
    return Appetite(
        published.crop,
        crops,
        yearly,
        weeks,
        _weekly(yearly / weeks, household.persons),
        published.kilograms.source or "",
        published.kilograms.note or "",
    )


def _own(eaten: Eaten, weeks: int, persons: float) -> Appetite:
    if eaten.per == "week":
        weeks = ALL_YEAR
    yearly = eaten.kilograms * (ALL_YEAR if eaten.per == "week" else 1)
    return Appetite(eaten.crop, (eaten.crop,), yearly, weeks, _weekly(yearly / weeks, persons), "own")


def _weekly(kilograms: float, persons: float) -> int | None:
    return round(kilograms * persons * 1000) if persons else None


def all_the_year(eats: Appetite, persons: float) -> Appetite:
    """The same amount a year spread over all weeks: of what is bottled, dried or frozen."""
    if eats.yearly is None or eats.weeks == ALL_YEAR:
        return eats
    return eats._replace(weeks=ALL_YEAR, weekly=_weekly(eats.yearly / ALL_YEAR, persons))


def weeks_eaten(crop: Crop | None) -> int:
    """Weeks of a year for which a crop is eaten.

    Examples
    --------
    >>> from planner.crops import load_catalogue
    >>> [weeks_eaten(load_catalogue().get(key)) for key in ("onion", "leaf_lettuce", "asparagus")]
    [52, 26, 11]
    """
    if crop is None:
        return ALL_YEAR
    keeps = crop.number("store_days") or FRESH
    if keeps >= KEEPS_ALL_YEAR:
        return ALL_YEAR
    if crop.number("sow_again_days"):
        return SOWN_AGAIN
    picked = crop.number("harvest_days") or FRESH
    return max(1, min(ALL_YEAR, math.ceil((picked + keeps) / 7)))
