"""What a household eats of a crop: its own amounts, else what publications say of one person, times its persons.

A publication gives an amount a year.  It is eaten for as long as the crop is there: picked, and then kept.  What is sown again
and again, so that one sowing follows the other, is eaten for half of the year.
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
#: Weeks for which a crop is eaten that is sown again and again (estimate). [weeks]
SOWN_AGAIN = 26
#: Days of keeping from which a harvest is one for the store (practice). [days]
STORED = 42
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
    per_week : bool
        It is given as an amount a week, whatever the weeks in which the crop is there.
    again : bool
        One sowing follows the other, so that it may be there for half of the year.
    """

    key: str
    crops: tuple[str, ...]
    yearly: float | None
    weeks: int
    weekly: int | None
    source: str
    note: str = ""
    per_week: bool = False
    again: bool = False


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
        return _own(own[crop], catalogue.get(crop), household.persons)
    published = per_person().get(crop)
    if published is None or published.kilograms is None:
        alone = catalogue.get(crop)
        return Appetite(crop, (crop,), None, weeks_eaten(alone), None, "", again=follows_itself(alone))
    crops = tuple(one for one in (published.crop, *published.together) if one not in own)
    known = [catalogue.get(one) for one in crops]
    weeks = max(weeks_eaten(one) for one in known)
    yearly = published.kilograms.value or 0.0
    return Appetite(
        published.crop,
        crops,
        yearly,
        weeks,
        _weekly(yearly / weeks, household.persons),
        published.kilograms.source or "",
        published.kilograms.note or "",
        again=any(follows_itself(one) for one in known),
    )


def _own(eaten: Eaten, crop: Crop | None, persons: float) -> Appetite:
    weeks = ALL_YEAR if eaten.per == "week" else weeks_eaten(crop)
    yearly = eaten.kilograms * (ALL_YEAR if eaten.per == "week" else 1)
    weekly = _weekly(yearly / weeks, persons)
    return Appetite(
        eaten.crop,
        (eaten.crop,),
        yearly,
        weeks,
        weekly,
        "own",
        per_week=eaten.per == "week",
        again=follows_itself(crop),
    )


def _weekly(kilograms: float, persons: float) -> int | None:
    return round(kilograms * persons * 1000) if persons else None


def all_the_year(eats: Appetite, persons: float) -> Appetite:
    """The same amount a year spread over all weeks: of what is bottled, dried or frozen."""
    if eats.yearly is None or eats.weeks == ALL_YEAR:
        return eats
    return over_weeks(eats, persons, ALL_YEAR)


def over_weeks(eats: Appetite, persons: float, weeks: int) -> Appetite:
    """The same amount a year eaten in so many weeks; an own amount a week stays what it is.

    Parameters
    ----------
    eats : Appetite
    persons : float
    weeks : int
        At least 1.
    """
    if eats.yearly is None or eats.per_week or not persons:
        return eats
    return eats._replace(weeks=weeks, weekly=_weekly(eats.yearly / weeks, persons))


def weeks_eaten(crop: Crop | None) -> int:
    """Weeks of a year for which a crop is eaten.

    Examples
    --------
    >>> from planner.crops import load_catalogue
    >>> [weeks_eaten(load_catalogue().get(key)) for key in ("onion", "leaf_lettuce", "sweet_corn", "asparagus")]
    [35, 26, 3, 11]
    """
    if crop is None:
        return ALL_YEAR
    return max(weeks_there(crop), SOWN_AGAIN) if follows_itself(crop) else weeks_there(crop)


def weeks_there(crop: Crop) -> int:
    """Weeks for which one planting of a crop is usually there, picked and then kept."""
    picked, keeps = crop.number("harvest_days") or FRESH, crop.number("store_days") or FRESH
    there = keeps if keeps >= STORED else picked + keeps  # what is for the store is brought in at once
    return max(1, min(ALL_YEAR, math.ceil(there / 7)))


def follows_itself(crop: Crop | None) -> bool:
    """Whether a crop is sown again so soon that one sowing is there until about the next (a week may lie between)."""
    if crop is None:
        return False
    again = crop.number("sow_again_days")
    there = (crop.number("harvest_days") or FRESH) + (crop.number("store_days") or FRESH)
    return again is not None and again <= there + 7
