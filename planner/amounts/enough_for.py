"""How much of a crop to plant so that some people have enough of it until a day."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable
from dataclasses import dataclass

from planner.amounts.eating import FRESH, Appetite, appetite
from planner.amounts.enough import Needed, Refusal, Spot, find_room, needed, planting_edit
from planner.amounts.harvest import STORED
from planner.amounts.picking import Picking, picking_of
from planner.amounts.store_places import Kept, best_place
from planner.crops import Crop
from planner.errors import BedwrightError
from planner.garden import Bed, Garden, Planting
from planner.garden.household import Eaten, Household, StorePlace
from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.planting_dates import Dates
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
    spots : tuple of Spot
        Free ground for it.
    refused : tuple of (Bed, str)
        Beds with free ground that was passed over, and why.
    place_given : bool
        Whether the place was asked for, and not looked for.
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

    @property
    def edit(self) -> Callable[[Garden], Garden]:
        """The edit that plants it there."""
        return planting_edit(self.spots)

    @property
    def days(self) -> int:
        """Days for which it is eaten."""
        return (self.last - self.picking.first).days + 1

    @property
    def room_for(self) -> int:
        """What the free ground yields of it. [g]"""
        return sum(spot.grams for spot in self.spots)


def first_day_eaten(plan: Plan, crop: Crop) -> dt.date:
    """The first day on which a crop is eaten that is begun at its earliest in the open.

    Raises
    ------
    EnoughError
        Where no harvest of it is known.
    """
    return _picking(plan, crop, plan.usual_dates(crop)).first


def enough_for(
    plan: Plan,
    crop: Crop,
    persons: float,
    until: dt.date,
    weekly: float | None = None,
    place: StorePlace | None = None,
    refusal: Refusal | None = None,
) -> Enough:
    """Work out how much of a crop to plant.

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
    dates = plan.usual_dates(crop)
    picking = _picking(plan, crop, dates)
    if until < picking.first:
        raise EnoughError(
            say(
                "{crop} is harvested from {day} on, after the day asked for",
                crop=crop.name,
                day=day_words(picking.first, plan.year),
            ),
            fix=say("Name a later day"),
        )
    figures = PlantingFigures(crop, None)
    places = plan.garden.store_places if place is None else (place.with_(crops=()),)
    kept = best_place(crop.key, figures, crop.number("store_days") or FRESH, places)
    last = min(until, shift(picking.last, int(kept.days)))
    days = (last - picking.first).days + 1
    takes = needed(figures, dates.start, math.ceil(eats.weekly * days / 7))
    if takes is None:
        raise EnoughError(
            say("no yield of {crop} is known", crop=crop.name), fix=say("Give it with an own variety")
        )
    room = find_room(plan, crop, "", dates, takes.grams, refusal=refusal)
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
    )


def _appetite(plan: Plan, crop: Crop, persons: float, weekly: float | None) -> Appetite:
    household = Household(persons=persons, eats=plan.garden.household.eats)
    if weekly is not None:
        household = Household(persons=persons, eats=(Eaten(crop=crop.key, kilograms=weekly, per="week"),))
    return appetite(plan.garden.with_(household=household), plan.catalogue, crop.key)


def _picking(plan: Plan, crop: Crop, dates: Dates) -> Picking:
    purpose = "store" if (crop.number("store_days") or 0) >= STORED else "kitchen"
    draft = Planting.model_validate(
        {"id": "enough", "bed": "enough", "crop": crop.key, "year": plan.year, "purpose": purpose}
    )
    picking = picking_of(draft, crop, dates)
    if picking is None or not dates.ripens:
        raise EnoughError(
            say("when {crop} is harvested in this garden is not known", crop=crop.name),
            fix=say("Give the garden its frosts, or take another crop"),
        )
    return picking
