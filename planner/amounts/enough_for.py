"""How much of a crop to plant so that some people have enough of it until a day."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable
from dataclasses import dataclass

from planner.amounts.eating import (
    ALL_YEAR,
    FRESH,
    STORED,
    Appetite,
    all_the_year,
    appetite,
    over_weeks,
    weeks_there,
)
from planner.amounts.enough import Needed, Refusal, Spot, find_room, needed, needed_in, planting_edit
from planner.amounts.harvest import PRESERVED
from planner.amounts.picking import Picking, picking_of
from planner.amounts.store_places import Kept, best_place
from planner.crops import Crop
from planner.errors import BedwrightError
from planner.garden import Bed, Garden, Planting
from planner.garden.household import Eaten, Household, StorePlace
from planner.garden.planting import Purpose
from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.planting_dates import Dates
from planner.sun import next_longest_day
from planner.words import day_words, say


class EnoughError(BedwrightError):
    """An amount that cannot be worked out."""


@dataclass(frozen=True)
class Enough:
    """What it takes to have enough of a crop until a day.

    Attributes
    ----------
    crop : Crop
    persons : float
    appetite : Appetite
        Of these persons.
    dates : Dates
        Of the crop in the open, begun at its earliest.
    picking : Picking
    until : date
        The day asked for.
    kept : Kept
        Where it keeps best, and for how long.
    last : date
        The day until which it is worked out: that asked for, or the last on which it is good.
    needed : Needed
        In rows with paths, for what is eaten and what is lost.
    spots : tuple of Spot
        Free ground for it.
    refused : tuple of (Bed, str)
        Beds with free ground that was passed over, and why.
    place_given : bool
        Whether the place was asked for, and not looked for.
    purpose : str
        What it is grown for: a word of the garden file.
    eaten : int
        Until the last day. [g]
    planted : Needed
        In the beds that are proposed, where they hold all of it; else in rows with paths.
    """

    crop: Crop
    persons: float
    appetite: Appetite
    dates: Dates
    picking: Picking
    until: dt.date
    kept: Kept
    last: dt.date
    needed: Needed
    spots: tuple[Spot, ...]
    refused: tuple[tuple[Bed, str], ...] = ()
    place_given: bool = False
    purpose: Purpose = "kitchen"
    eaten: int = 0
    planted: Needed | None = None

    @property
    def edit(self) -> Callable[[Garden], Garden]:
        """The edit that plants it there."""
        return planting_edit(self.spots)

    @property
    def takes(self) -> Needed:
        """What is planted: that of the beds where there is room for all of it."""
        return self.planted if self.planted is not None else self.needed

    @property
    def days(self) -> int:
        """Days for which it is eaten."""
        return (self.last - self.picking.first).days + 1

    @property
    def room_for(self) -> int:
        """What the free ground yields of it. [g]"""
        return sum(spot.grams for spot in self.spots)


def first_day_eaten(plan: Plan, crop: Crop, purpose: Purpose | None = None) -> dt.date:
    """The first day on which a crop is eaten that is begun at its earliest in the open.

    Parameters
    ----------
    plan : Plan
    crop : Crop
    purpose : str, optional
        What it is grown for; what keeps for months is for the store by default, all else for the kitchen.

    Raises
    ------
    EnoughError
        Where no harvest of it is known.
    """
    _, dates = _start_that_ripens(plan, crop)
    return _picking(plan, crop, dates, purpose or usual_purpose(plan, crop, dates)).first


def usual_purpose(plan: Plan, crop: Crop, dates: Dates) -> Purpose:
    """What keeps for months is for the store, all else for the kitchen; what waits in the ground over winter too.

    Parameters
    ----------
    plan : Plan
    crop : Crop
    dates : Dates
        Of the crop in its garden.
    """
    if (crop.number("store_days") or 0) < STORED:
        return "kitchen"
    first, last = dates.first_harvest, dates.last_harvest
    waits = crop.harvest_ends is not None and crop.harvest_ends.value == "stands"
    if waits and first is not None and last is not None:
        shortest = next_longest_day(first.day, not plan.garden.site.southern)
        return "kitchen" if last.day > shortest else "store"
    return "store"


def enough_for(
    plan: Plan,
    crop: Crop,
    persons: float,
    until: dt.date,
    weekly: float | None = None,
    place: StorePlace | None = None,
    refusal: Refusal | None = None,
    purpose: Purpose | None = None,
) -> Enough:
    """Work out how much of a crop to plant.

    An amount a year is eaten in the weeks in which the planting is there, so that who wants it for all of them plants what
    is published for a person.

    Parameters
    ----------
    plan : Plan
        Its frosts and warmth set the dates, its household what is eaten, its beds where it fits.
    crop : Crop
    persons : float
    until : date
        The last day on which it is to be eaten.
    weekly : float, optional
        What one person eats in a week; else what the household or a publication says. [kg]
    place : StorePlace, optional
        Where it is kept; by default where it keeps best of the garden's places.
    refusal : callable, optional
        Says of free ground why the crop should not grow there; by default all of it will do.
    purpose : str, optional
        What it is grown for: ``kitchen`` to be eaten fresh, ``store``, ``bottling``, ``freezing``, ``drying``.  By default
        what keeps for months is stored.

    Raises
    ------
    EnoughError
        Where it is not known how much is eaten, when it is harvested or what it yields, and where the day is before the
        harvest.
    """
    eats = _appetite(plan, crop, persons, weekly)
    if eats.weekly is None:
        raise EnoughError(
            say("how much of {crop} a person eats is not known", crop=crop.name),
            fix=say("Say what one person eats of it in a week"),
        )
    start, dates = _start_that_ripens(plan, crop)
    purpose = purpose or usual_purpose(plan, crop, dates)
    picking = _picking(plan, crop, dates, purpose)
    if until < picking.first:
        raise EnoughError(
            say(
                "{crop} is harvested from {day} on, after the day asked for",
                crop=crop.name,
                day=day_words(picking.first, plan.year),
            ),
            fix=say("Name a later day"),
        )
    kept = _kept(plan, crop, purpose, place)
    good = shift(picking.last, int(kept.days))
    eats = _over_its_weeks(eats, persons, crop, purpose, (good - picking.first).days + 1)
    last = min(until, good)
    eaten = math.ceil((eats.weekly or 0) * ((last - picking.first).days + 1) / 7)
    takes = needed(plan.own_figures(crop), dates.start, math.ceil(eaten / picking.share))
    if takes is None:
        raise EnoughError(
            say("no yield of {crop} is known", crop=crop.name), fix=say("Give it with an own variety")
        )
    room = find_room(plan, crop, start, dates, takes.grams, refusal=refusal)
    whole = room.spots and sum(spot.grams for spot in room.spots) >= takes.grams
    planted = needed_in(plan, crop, dates.start, room.spots) if whole else None
    return Enough(
        crop,
        persons,
        eats,
        dates,
        picking,
        until,
        kept,
        last,
        takes,
        room.spots,
        room.refused,
        place is not None,
        purpose,
        eaten,
        planted,
    )


def _start_that_ripens(plan: Plan, crop: Crop) -> tuple[str, Dates]:
    """The usual start of a crop (empty) and its dates; where it does not ripen so, another start that does: maize raised and set out."""
    usual = plan.usual_dates(crop)
    if usual.ripens or crop.starts is None:
        return "", usual
    for start in crop.starts.value or ():
        dates = plan.usual_dates(crop, start) if start not in (usual.start, "standing") else usual
        if dates.ripens and dates.first_harvest is not None:
            return start, dates
    return "", usual


def _kept(plan: Plan, crop: Crop, purpose: Purpose, place: StorePlace | None) -> Kept:
    if purpose in PRESERVED:
        return Kept(None, PRESERVED[purpose])
    days = crop.number("store_days") or FRESH
    places = plan.garden.store_places if place is None else (place.with_(crops=()),)
    return best_place(crop.key, PlantingFigures(crop, None), days, places)


def _over_its_weeks(eats: Appetite, persons: float, crop: Crop, purpose: Purpose, days: int) -> Appetite:
    """The same amount a year over the weeks in which one planting is there, if those are no fewer than usual."""
    if purpose in PRESERVED:
        return all_the_year(eats, persons)
    return over_weeks(eats, persons, min(ALL_YEAR, max(math.ceil(days / 7), weeks_there(crop))))


def _appetite(plan: Plan, crop: Crop, persons: float, weekly: float | None) -> Appetite:
    household = Household(persons=persons, eats=plan.garden.household.eats)
    if weekly is not None:
        household = Household(persons=persons, eats=(Eaten(crop=crop.key, kilograms=weekly, per="week"),))
    return appetite(plan.garden.with_(household=household), plan.catalogue, crop.key)


def _picking(plan: Plan, crop: Crop, dates: Dates, purpose: Purpose) -> Picking:
    draft = Planting.model_validate(
        {"id": "enough", "bed": "enough", "crop": crop.key, "year": plan.year, "purpose": purpose}
    )
    picking = picking_of(draft, plan.own_figures(crop), dates)
    if picking is None or not dates.ripens:
        raise _no_harvest(plan, crop, dates)
    return picking


def _no_harvest(plan: Plan, crop: Crop, dates: Dates) -> EnoughError:
    """Why a crop has no harvest in a garden."""
    if not dates.ripens:
        return EnoughError(
            say("{crop} does not ripen in time in the open of this garden", crop=crop.name),
            fix=say("Plan it under glass, or take an earlier variety"),
        )
    frosts = plan.frosts()
    if frosts.last is None and not frosts.frost_free:
        return EnoughError(
            say("when {crop} is harvested in this garden is not known", crop=crop.name),
            fix=say("Give the garden its frosts, or take another crop"),
        )
    if dates.stays_for_years and not dates.missing:
        return EnoughError(
            say("{crop} bears nothing in the year in which it is planted", crop=crop.name),
            fix=say("Plan it in a bed: its harvest is worked out from the year in which it bears"),
        )
    return EnoughError(
        say("when {crop} is harvested is not known, since figures of it are missing", crop=crop.name),
        fix=say("Give its days to maturity with an own variety, or take another crop"),
    )
