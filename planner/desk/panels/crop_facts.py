"""What crops are ordered and chosen by, beyond their figures: harvest, days to begin, years grown here, what fits now."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from planner.crops import Crop
from planner.garden import Bed, Garden
from planner.plan import Plan
from planner.words import day_words, join_list, later, say, say_count

if TYPE_CHECKING:
    from planner.proposal.fitting import Fit
    from planner.season.start_windows import StartWindow

CropOrder = Literal["name", "harvest", "due", "grown"]
CropChoice = Literal["all", "fits", "fits_stock", "stock", "favourites"]

ORDERS: dict[CropOrder, str] = {
    "name": later("by name"),
    "harvest": later("soonest harvest"),
    "due": later("due to sow or plant"),
    "grown": later("most grown here"),
}
CHOICES: dict[CropChoice, str] = {
    "all": later("all crops"),
    "fits": later("what fits now"),
    "fits_stock": later("what fits, in stock"),
    "stock": later("in stock"),
    "favourites": later("favourites"),
}
#: Choices for which it is worked out what fits.
FITTING: tuple[CropChoice, ...] = ("fits", "fits_stock")


@dataclass(frozen=True, eq=False)
class CropFacts:
    """What has been worked out of crops for a day, by their keys; without a crop it is not known.

    Attributes
    ----------
    harvest : dict of str to date
        First harvest of what goes in on the day, where that comes to a good one.
    windows : dict of str to StartWindow
        Days on which a crop may go in.
    fits : dict of str to Fit
    day : date or None
        That it holds for; None before anything is worked out.
    """

    harvest: dict[str, dt.date] = field(default_factory=dict)
    windows: dict[str, StartWindow] = field(default_factory=dict)
    fits: dict[str, Fit] = field(default_factory=dict)
    day: dt.date | None = None


def years_grown(garden: Garden) -> dict[str, int]:
    """In how many growing years the garden has had each crop, by its key."""
    years: dict[str, set[int]] = {}
    for planting in garden.plantings:
        years.setdefault(planting.crop, set()).add(planting.year)
    return {key: len(found) for key, found in years.items()}


def harvests(
    plan: Plan, crops: Iterable[Crop], day: dt.date, cancelled: Callable[[], bool]
) -> Iterator[tuple[str, dt.date]]:
    """First harvest of each crop that goes in on a day, where that comes to a good one."""
    for crop in crops:
        if cancelled():
            return
        dates, good = plan.dates_begun_on(crop, "", day)
        if good and dates.first_harvest is not None:
            yield crop.key, dates.first_harvest.day


def windows(
    plan: Plan, crops: Iterable[Crop], cancelled: Callable[[], bool]
) -> Iterator[tuple[str, StartWindow]]:
    """First and last day on which each crop may go in; of what is begun in autumn its usual day."""
    from planner.season.start_windows import StartWindow

    for crop in crops:
        if cancelled():
            return
        window = plan.outer_window(crop, "")
        if window is None and (usual := plan.usual_dates(crop).on_plot) is not None:
            window = StartWindow(usual.day, usual.day)
        if window is not None:
            yield crop.key, window


def rank_of(order: CropOrder, key: str, facts: CropFacts, grown: dict[str, int]) -> tuple[int, int]:
    """Where a crop comes in an order; those of which nothing is known come last."""
    if order == "grown":
        return 0, -grown.get(key, 0)
    if order == "harvest":
        first = facts.harvest.get(key)
        return (0, first.toordinal()) if first is not None else (1, 0)
    if order == "due":
        window, day = facts.windows.get(key), facts.day
        if window is None or day is None or day > window.last:
            return 2, 0
        return (0, window.last.toordinal()) if day >= window.first else (1, window.first.toordinal())
    return 0, 0


def order_words(order: CropOrder, key: str, facts: CropFacts, grown: dict[str, int]) -> str:
    """What a crop is ordered by, in words; empty where nothing is known of it."""
    if order == "grown":
        years = grown.get(key, 0)
        return say_count("grown in {count} year", "grown in {count} years", years) if years else ""
    if order == "harvest":
        first = facts.harvest.get(key)
        return say("pick from {day}", day=day_words(first)) if first is not None else ""
    window, day = facts.windows.get(key), facts.day
    if order != "due" or window is None or day is None:
        return ""
    if day > window.last:
        return say("too late this year")
    if day < window.first:
        return say("goes in from {day}", day=day_words(window.first))
    return say("goes in until {day}", day=day_words(window.last))


def fitting_words(fits: dict[str, Fit], beds: tuple[Bed, ...], day: dt.date, *, garden: bool) -> str:
    """How many crops fit where and when.

    Parameters
    ----------
    fits : dict of str to Fit
    beds : tuple of Bed
        Those asked.
    day : date
    garden : bool
        Whether they are all beds of the garden.
    """
    if not beds:
        return say("No bed is there to fit into.")
    count, when = sum(fit.filling is not None for fit in fits.values()), day_words(day)
    if not count:
        return say(
            "No crop fits {place} on {day}.",
            place=say("the garden") if garden else join_list([bed.name for bed in beds]),
            day=when,
        )
    if garden:
        return say_count(
            "{count} crop fits somewhere in the garden on {day}.",
            "{count} crops fit somewhere in the garden on {day}.",
            count,
            day=when,
        )
    if len(beds) > 1:
        return say_count(
            "{count} crop fits one of the selected beds on {day}.",
            "{count} crops fit one of the selected beds on {day}.",
            count,
            day=when,
        )
    return say_count(
        "{count} crop fits {bed} on {day}.",
        "{count} crops fit {bed} on {day}.",
        count,
        bed=beds[0].name,
        day=when,
    )
