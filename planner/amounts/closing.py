"""What closes a gap: another sowing that is picked in it, or more of what there is, as an edit of the garden.

What is sown again and again is begun once more, on the latest day from which it is picked when the gap begins.  Of what
has one season more is planted on the days of the planting that there is.  Of its harvest only what is there in the gap counts.
Where that is less than a quarter of it, the rest would be too much, and nothing is proposed.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from planner.amounts.eating import follows_itself
from planner.amounts.enough import Needed, Refusal, Spot, find_room, needed, planting_edit
from planner.amounts.harvest import Harvest
from planner.amounts.picking import Picking, picking_of
from planner.amounts.supply_year import CropYear, Gap
from planner.crops import Crop
from planner.garden import Bed, Garden
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.planting_dates import Dates

#: A yield of which shares are worked out. [g]
_PARTS = 1_000_000
#: Days before the latest start up to which another is tried where that one does not do well. [days]
SOONER = 28
#: Days into a gap by which the first of a new sowing is to be picked. [days]
INTO_GAP = 3
#: A gap of less than this is not worth another sowing, nor is one of less than a week's amount (practice). [g]
LEAST_GAP = 200
#: Least share of its harvest that is to be there in a gap that a planting closes (practice).
IN_GAP = 0.25


@dataclass(frozen=True)
class Closing:
    """A planting that closes a gap, or as much of it as there is room for.

    Attributes
    ----------
    gap : Gap
    crop : Crop
    start : str
        How it starts.
    dates : Dates
    needed : Needed
        So much that what of it is there in the gap closes that.
    spots : tuple of Spot
        Where it fits; empty where there is no free ground for its days.
    refused : tuple of (Bed, str)
        Beds with free ground that was passed over, and why.
    within : int
        What of its harvest is there in the gap and lacks in it. [g]
    first : date or None
        The day from which it is picked.
    """

    gap: Gap
    crop: Crop
    start: str
    dates: Dates
    needed: Needed
    spots: tuple[Spot, ...]
    refused: tuple[tuple[Bed, str], ...] = ()
    within: int = 0
    first: dt.date | None = None

    @property
    def whole(self) -> bool:
        """Whether there is room for all of it."""
        return sum(spot.grams for spot in self.spots) >= self.needed.grams

    @property
    def edit(self) -> Callable[[Garden], Garden]:
        """The edit that plants it."""
        return planting_edit(self.spots)


def time_of(plan: Plan, year: CropYear) -> tuple[dt.date, dt.date] | None:
    """First and last day on which something of a crop may be had; None where nothing is harvested.

    That is from its first to its last day; of what is sown again and again from the first harvest that the garden's frosts
    and warmth allow to the last.

    Parameters
    ----------
    plan : Plan
    year : CropYear
    """
    season = year.season
    if season is None:
        return None
    first, last = season
    leader = _leader(year)
    if leader is not None and (crop := plan.figures_of(leader.planting).crop) and follows_itself(crop):
        window = plan.outer_window(crop, _start(plan, leader))
        for day in window or ():
            dates, good = plan.dates_begun_on(crop, _start(plan, leader), day)
            if good and dates.first_harvest is not None and dates.last_harvest is not None:
                first, last = min(first, dates.first_harvest.day), max(last, dates.last_harvest.day)
    return first, last


def gaps_of(plan: Plan, year: CropYear) -> tuple[Gap, ...]:
    """Gaps of a crop in the time in which something of it may be had.

    Gaps of less than a week's amount, or less than :data:`LEAST_GAP`, are left out.

    Parameters
    ----------
    plan : Plan
    year : CropYear
    """
    time = time_of(plan, year)
    if time is None:
        return ()
    least = max(LEAST_GAP, year.appetite.weekly or 0)
    return tuple(gap for gap in year.gaps(max(time[0], plan.span.first), time[1]) if gap.grams >= least)


def closings(
    plan: Plan, year: CropYear, refusal: Refusal | None = None
) -> Iterator[tuple[Gap, Closing | None]]:
    """Each gap of a crop with what closes it; None where nothing that is begun in this year does.

    Parameters
    ----------
    plan : Plan
    year : CropYear
    refusal : callable, optional
        Says of free ground why the crop should not grow there; by default all of it will do.
    """
    leader = _leader(year)
    for gap in gaps_of(plan, year):
        yield gap, _closing(plan, year, leader, gap, refusal) if leader is not None else None


def _leader(year: CropYear) -> Harvest | None:
    """The harvest whose crop is planted once more: of those with a yield the last one that began this year."""
    known = [one for one in year.harvests if one.picks]
    return max(known, key=lambda one: one.picks[0].day, default=None)


def _start(plan: Plan, leader: Harvest) -> str:
    start = plan.dates(leader.planting).start
    return "" if start == "standing" else start


def _closing(
    plan: Plan, year: CropYear, leader: Harvest, gap: Gap, refusal: Refusal | None
) -> Closing | None:
    crop, own = plan.figures_of(leader.planting).crop, plan.dates(leader.planting)
    if crop is None or own.stays_for_years:
        return None
    start = _start(plan, leader)
    again = follows_itself(crop)
    dates = begun_for(plan, crop, start, gap) if again else own
    if dates is None or dates.first_harvest is None or dates.on_plot is None:
        return None
    if dates.on_plot.day < plan.span.first or dates.first_harvest.day > gap.last:
        return None
    like = leader.planting if not again else None
    figures = plan.figures_of(like) if like is not None else plan.own_figures(crop, start)
    picking = picking_of(leader.planting, figures, dates)
    if picking is None:
        return None
    keeps = int(leader.kept.days if leader.kept is not None else figures.number("store_days") or 0)
    # Weeks through all of which it is good: what is over on a Monday closes no week.
    grams = year.lacks(max(gap.first, picking.first), shift(min(gap.last, shift(picking.last, keeps)), -6))
    share = _share_in_gap(picking, gap, keeps)
    if grams <= 0 or share < IN_GAP:
        return None
    takes = needed(figures, start or crop.usual_start, math.ceil(grams / share))
    if takes is None:
        return None
    found = find_room(plan, crop, start, dates, takes.grams, like, refusal)
    return Closing(gap, crop, start, dates, takes, found.spots, found.refused, grams, picking.first)


def _share_in_gap(picking: Picking, gap: Gap, keeps: int) -> float:
    """Share of a yield that is picked and good to eat in a gap."""
    parts = picking.picks(_PARTS)
    if picking.stands:
        return sum(part.grams for part in parts) / _PARTS
    there = (part for part in parts if part.day <= gap.last and shift(part.day, keeps) >= gap.first)
    return sum(part.grams for part in there) / _PARTS


def begun_for(plan: Plan, crop: Crop, start: str, gap: Gap) -> Dates | None:
    """Dates of a crop begun as late as it may be to be picked when a gap begins; else early enough for some of the gap.

    Parameters
    ----------
    plan : Plan
    crop : Crop
    start : str
        How it starts.
    gap : Gap

    Returns
    -------
    Dates or None
        None where no good day to begin it gives a harvest in the gap.
    """
    window = plan.outer_window(crop, start)
    if window is None:
        return None
    wanted = shift(gap.first, INTO_GAP)
    low, high, late = 0, (window.last - window.first).days, 0
    while low <= high:
        middle = (low + high) // 2
        dates, _ = plan.dates_begun_on(crop, start, shift(window.first, middle))
        if dates.first_harvest is not None and dates.first_harvest.day <= wanted:
            low, late = middle + 1, middle
        else:
            high = middle - 1
    for sooner in range(0, SOONER, 7):
        day = shift(window.first, late - sooner)
        if day < window.first:
            break
        dates, good = plan.dates_begun_on(crop, start, day)
        begins, ends = dates.first_harvest, dates.last_harvest
        fits = begins is not None and ends is not None and begins.day <= gap.last and ends.day >= gap.first
        if good and fits:
            return dates
    return None
