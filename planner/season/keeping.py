"""How long a harvest keeps: by its crop, how it was grown, when it is stored and where."""

from __future__ import annotations

import datetime as dt
from typing import Literal, NamedTuple

from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.season import practice
from planner.season.frosts import Frosts
from planner.season.planting_dates import Dates
from planner.season.spans import Span

#: Days from a harvest to the frost beyond which that frost is the next year's. [days]
NEXT_YEAR = 270
#: Days from lifting to the frost from which a crop meets a warm store. [days]
SUMMER = 60
#: Temperature of the store up to which a crop wants a cool one. [deg C]
COOL = 5.0
#: Share of its time that such a crop keeps in a warm store (estimate: figures hold for 0 degrees).
WARM_SHARE = 0.5
#: Share of their days to maturity before which potatoes are lifted with thin skins (practice).
NEW_POTATOES = 0.9
#: Days that those keep at most (practice). [days]
NEW_KEEP = 21

#: Why a crop keeps fewer days than its figure says; empty where it does not.
ShortLife = Literal["", "autumn sets", "new potatoes", "warm"]


class Keeping(NamedTuple):
    """How long a crop keeps.

    Attributes
    ----------
    days : float
    why : str
        Why that is fewer than its figure says; empty where it is not.
    """

    days: float
    why: ShortLife = ""


class Grown(NamedTuple):
    """A planting as far as its keeping depends on it."""

    planting: Planting
    figures: PlantingFigures
    dates: Dates
    span: Span


def day_of_storing(planting: Planting, dates: Dates) -> dt.date | None:
    """The day on which it is stored: that of its clearing if given (crops lifted at once), else its last harvest."""
    last = dates.last_harvest or dates.first_harvest
    if last is None:
        return None
    return planting.last if last.origin == "worked out" and planting.last is not None else last.day


def frost_after(frosts: Frosts, stored: dt.date) -> dt.date | None:
    """The first autumn frost after a day of storing; what is stored when the frost has come meets that of its own year."""
    frost = frosts.first_after(stored)
    if frost is not None and (frost - stored).days > NEXT_YEAR:
        return frosts.first
    return frost


def overwinters(span: Span, stored: dt.date) -> bool:
    """Whether what is stored on a day has stood through a winter."""
    return (stored - span.first).days > practice.LONG_CROP


def how_long_it_keeps(
    grown: Grown, stored: dt.date | None, frost: dt.date | None, *, in_a_warm_store: bool = True
) -> Keeping | None:
    """How long it keeps; None where the crop has no figure.

    Parameters
    ----------
    grown : Grown
    stored, frost : date or None
        The day of storing, and the first autumn frost after it.
    in_a_warm_store : bool
        Whether what wants the cold and is stored in summer keeps for less; not so where the store's temperature is known.
    """
    figures, crop = grown.figures, grown.planting.crop
    keeps = figures.number("store_days")
    if keeps is None or stored is None or frost is None:
        return Keeping(keeps) if keeps is not None else None
    if crop == "onion" and grown.dates.start == "sets" and overwinters(grown.span, stored):
        return Keeping(min(keeps, practice.AUTUMN_SETS_KEEP), "autumn sets")
    days = figures.number("days_to_maturity") or 0
    if crop == "potato" and (stored - grown.span.first).days < NEW_POTATOES * days:
        return Keeping(min(keeps, NEW_KEEP), "new potatoes")
    cold = figures.number("store_temperature")
    cool = cold is not None and cold <= COOL and crop not in practice.CURED
    if in_a_warm_store and cool and (frost - stored).days > SUMMER:
        return Keeping(keeps * WARM_SHARE, "warm")
    return Keeping(keeps)
