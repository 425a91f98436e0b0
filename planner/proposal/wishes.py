"""Wishes for the next growing year, from what this one brought."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planner.amounts.begun import begun_in_year
from planner.amounts.closing import gaps_of
from planner.amounts.eating import appetite
from planner.amounts.enough_for import usual_purpose
from planner.amounts.supply_year import CropYear, crop_years
from planner.crops import Catalogue, Crop
from planner.crops.per_person import per_person
from planner.garden import Garden, Planting
from planner.garden.edits.common import EditError
from planner.garden.planting import Purpose
from planner.garden.records import PickedRecord
from planner.garden.units import show_mass
from planner.garden.wishes import Importance, Wish
from planner.plan import Plan
from planner.season.practice import stays_for_years
from planner.words import day_words, join_list, number_words, say

#: Nothing is wished more, or less, than so many times what was grown (practice).
MOST_MORE, LEAST_LESS = 2.0, 0.5
#: Share of what waits in the ground or in store that may be left over without less of it being wished (practice).
MUCH_LEFT = 0.1
#: Plantings of one kind that take their ground within so many days are one wish (practice). [days]
TOGETHER = 14
#: Most beds over which a wish is divided.
MOST_PARTS = 3
#: What is eaten; of all else as much is wished as there was.
_EATEN: tuple[Purpose, ...] = ("kitchen", "store", "bottling", "drying", "freezing")
#: What is never grown to be fed by: it gives way to food (practice).
_BESIDE_FOOD: tuple[Purpose, ...] = ("cutting", "green manure", "trial")
#: Products of crops that are food only where they are preserved, as flowers for tea are (practice).
_RARELY_EATEN = ("flowers", "green manure")


class _Kind(NamedTuple):
    """What is wished together: a variety of a crop for one purpose, begun about the same time."""

    crop: str
    variety: str
    purpose: Purpose


def usual_importance(purpose: Purpose, crop: Crop | None) -> Importance:
    """How much a new wish matters: food should be met, for the kitchen and for the store; flowers, green manure and trials could (practice).

    Parameters
    ----------
    purpose : str
    crop : Crop or None
        None where it is not known.
    """
    product = crop.product.value if crop is not None and crop.product is not None else ""
    preserved = purpose in _EATEN and purpose != "kitchen"
    if purpose in _BESIDE_FOOD or (product in _RARELY_EATEN and not preserved):
        return "could"
    return "should"


def wishes_from(plan: Plan) -> tuple[Wish, ...]:
    """Wishes for the next growing year: what was begun in this one, more of what lacked and less of what spoiled.

    The number of plants is what was planted.  Of what is stored or preserved it is times what was wanted over what was there
    where the household lacked some: gaps of what is eaten fresh are closed by other days, not by more of it.  Where some
    spoiled, or was given away, there is less of it.  At most it is doubled, at least halved.  A planting that was sown anew
    counts once; green manure goes by its area.  What is begun weeks later than the rest of its sort is a wish of its own, and each
    is planted like the largest of its plantings, over no more beds than they were.  Ids are those of no garden.

    Parameters
    ----------
    plan : Plan
        Of the growing year that ends.
    """
    groups: dict[_Kind, list[Planting]] = {}
    for planting in begun_in_year(plan):
        if plan.dates(planting).stays_for_years:
            continue
        groups.setdefault(_Kind(planting.crop, planting.variety, planting.purpose), []).append(planting)
    years = {crop: year for year in crop_years(plan) for crop in year.appetite.crops}
    found: list[Wish] = []
    for kind, plantings in sorted(groups.items()):
        for together in _begun_together(plan, plantings):
            factor, why = _more_or_less(plan, kind, years.get(kind.crop), together)
            wish = _wish(plan, kind, together, factor, why)
            found.append(wish.with_(id=f"w{len(found) + 1}"))
    return tuple(found)


def _begun_together(plan: Plan, plantings: Sequence[Planting]) -> list[list[Planting]]:
    """Plantings of one kind, those that take their ground within some weeks of the first together, a few at the most."""
    found: list[list[Planting]] = []
    opened: dt.date | None = None
    by_id = plan.garden.plantings_by_id

    def begun(planting: Planting) -> dt.date:
        """The first day of what it is, or of what failed before it."""
        while planting.replaces in by_id:
            planting = by_id[planting.replaces]
        return plan.span_of(planting).first

    for planting in sorted(plantings, key=lambda one: (begun(one), one.id)):
        first = begun(planting)
        if opened is None or (first - opened).days > TOGETHER or len(found[-1]) == MOST_PARTS:
            found.append([])
            opened = first
        found[-1].append(planting)
    return found


def _wish(plan: Plan, kind: _Kind, plantings: Sequence[Planting], factor: float, why: Sequence[str]) -> Wish:
    outcomes = {one.id: plan.garden.outcome(one) for one in plantings}
    counted = [one for one in plantings if (out := outcomes[one.id]) is None or out.why != "resown"]
    counted = counted or list(plantings)
    plants = sum(plan.placed(one).plants for one in counted)
    area = sum(plan.placed(one).area for one in counted)
    by_area = kind.purpose == "green manure"
    reasons = [*why, *_picked(plan, plantings), *_lost(plan, plantings)]
    like = max(counted, key=lambda one: (plan.placed(one).plants, one.id))
    return Wish(
        id="w1",
        year=plan.year + 1,
        crop=kind.crop,
        variety=kind.variety,
        amount=round(area, 2) or None if by_area else math.ceil(plants * factor - 1e-9) or None,
        unit="m2" if by_area else "plants",
        purpose=kind.purpose,
        importance=usual_importance(kind.purpose, plan.catalogue.get(kind.crop)),
        parts=min(MOST_PARTS, len(counted) * math.ceil(factor - 1e-9)),
        like=like.id,
        reason="; ".join(reasons),
    )


def wishes_to_eat(plan: Plan) -> tuple[Wish, ...]:
    """Wishes for a growing year from what the household eats: each crop for its people, the whole year.

    What the household typed comes first.  Of what was ever grown here and is typed nowhere, what is published for a person and
    year is wished, and the reason says so; crops that are eaten in each other's place count once.  Crops that stand for years, and
    those that stand or are wished already, are left out.  Ids are those of no garden.

    Parameters
    ----------
    plan : Plan
        Of the growing year that is wished for.

    Raises
    ------
    EditError
        Where it is not known how many eat, or nothing is known of what.
    """
    household = plan.garden.household
    typed = [one.crop for one in household.eats]
    grown = sorted({one.crop for one in plan.garden.plantings} - set(typed))
    if not household.persons or not (typed or grown):
        raise EditError(
            say("the household does not say how many eat, and of what"),
            fix=say("Give its persons and what they eat on the Household page"),
        )
    there = {one.crop for one in plan.plantings} | {
        one.crop for one in plan.garden.wishes if one.year == plan.year
    }
    met = {crop for key in {*typed, *there} for crop in _eaten_alike(key)}
    found: list[Wish] = []
    for key in (*typed, *grown):
        crop = plan.catalogue.get(key)
        if crop is None or key in there or stays_for_years(crop):
            continue
        if key not in typed:
            words = published_words(plan.garden, plan.catalogue, key)
            if not words or key in met:
                continue
            met.update(_eaten_alike(key))
        else:
            words = ""
        found.append(
            Wish(
                id=f"w{len(found) + 1}",
                year=plan.year,
                crop=key,
                amount=household.persons,
                unit="people",
                purpose=(purpose := usual_purpose(plan, crop, plan.usual_dates(crop))),
                importance=usual_importance(purpose, crop),
                parts=2,
                reason=words,
            )
        )
    return tuple(found)


def _eaten_alike(crop: str) -> tuple[str, ...]:
    """A crop and those that are eaten in its place."""
    published = per_person().get(crop)
    return (crop,) if published is None else (crop, published.crop, *published.together)


def published_words(garden: Garden, catalogue: Catalogue, crop: str) -> str:
    """What is published that so many people as the household has eat of a crop in a year; empty where nothing is, or they typed it.

    Parameters
    ----------
    garden : Garden
    catalogue : Catalogue
    crop : str
        Its key.
    """
    eats, persons = appetite(garden, catalogue, crop), garden.household.persons
    if not persons or eats.yearly is None or eats.source in ("", "own"):
        return ""
    mass = show_mass(eats.yearly * persons * 1000, garden.site.units)
    people = number_words(persons, 0 if persons == int(persons) else 1)
    words = (
        say("{mass} a year for one person, as published (table)", mass=mass)
        if persons == 1
        else say("{mass} a year for {people} people, as published (table)", mass=mass, people=people)
    )
    if len(eats.crops) == 1:
        return words
    return say(
        "{amount}, of {crops} together",
        amount=words,
        crops=join_list(catalogue.name_of(one) for one in eats.crops),
    )


def _more_or_less(
    plan: Plan, kind: _Kind, year: CropYear | None, plantings: Sequence[Planting]
) -> tuple[float, list[str]]:
    """How many times as much is wished of a crop, and why."""
    whole, given = _picked_and_given(plan, plantings)
    if given:  # its own words say how much
        return max(LEAST_LESS, 1 - given / whole), []
    if year is None or year.course is None or kind.purpose not in _EATEN:
        return 1.0, []
    there = sum(one.within(plan.span) for one in year.harvests)
    units = plan.garden.site.units
    gaps = gaps_of(plan, year)
    lack = sum(gap.grams for gap in gaps)
    if there and lack and kind.purpose != "kitchen":
        words = say(
            "{amount} lacked from {day} on",
            amount=show_mass(lack, units),
            day=day_words(gaps[0].first),
        )
        return min(MOST_MORE, 1 + lack / there), [words]
    spoilt = sum(glut.grams for glut in year.gluts)
    left, whole = _not_eaten(plan, year, plantings)
    less, told = 0.0, list[str]()
    if there and spoilt:
        less += spoilt / there
        told.append(_spoiled_words(plan, year, show_mass(spoilt, units), show_mass(there, units)))
    if left:
        less += left / whole
        told.append(
            say(
                "{amount} of {all} were not eaten before they were over",
                amount=show_mass(left, units),
                all=show_mass(whole, units),
            )
        )
    return max(LEAST_LESS, 1 - less), told


def _spoiled_words(plan: Plan, year: CropYear, spoilt: str, there: str) -> str:
    """How much spoiled, of which crops where several are eaten as one."""
    crops = list(dict.fromkeys(one.crop for one in year.harvests if one.within(plan.span)))
    if len(crops) < 2:
        return say("{amount} of {all} spoiled", amount=spoilt, all=there)
    return say(
        "{amount} of {all} spoiled, of {crops} together", amount=spoilt, all=there, crops=join_list(crops)
    )


def _not_eaten(plan: Plan, year: CropYear, plantings: Iterable[Planting]) -> tuple[float, float]:
    """What of some plantings waited in the ground or in store and was not eaten while it was good, and all that waited. [g]"""
    keys = {one.id for one in plantings}
    waited = [one for one in year.waiting if one.lot.planting in keys and one.lot.first >= plan.span.first]
    left = sum(one.spoilt for one in waited if one.spoilt > MUCH_LEFT * one.lot.grams)
    return left, sum(one.lot.grams for one in waited)


def _picked_and_given(plan: Plan, plantings: Iterable[Planting]) -> tuple[float, float]:
    """What was really picked, and how much of it was given away or fed to animals. [g]"""
    picked = [
        one
        for planting in plantings
        for one in plan.garden.records_of(planting.id)
        if isinstance(one, PickedRecord) and one.amount.unit == "g"
    ]
    given = sum(one.amount.value for one in picked if one.picked_for in ("given away", "fed to animals"))
    return sum(one.amount.value for one in picked), given


def _picked(plan: Plan, plantings: Iterable[Planting]) -> list[str]:
    """What was really picked, and how much of it was not kept, in words."""
    units, (whole, given) = plan.garden.site.units, _picked_and_given(plan, plantings)
    if not whole:
        return []
    if given:
        return [
            say(
                "{amount} picked, {given} of it given away or fed to animals",
                amount=show_mass(whole, units),
                given=show_mass(given, units),
            )
        ]
    return [say("{amount} picked", amount=show_mass(whole, units))]


def _lost(plan: Plan, plantings: Sequence[Planting]) -> list[str]:
    """Beds in which it was lost, and when."""
    lost = [
        say("{bed} on {day}", bed=plan.bed_of(one).name, day=day_words(outcome.day))
        for one in plantings
        if (outcome := plan.garden.outcome(one)) is not None
        and outcome.lost
        and not _picked_and_given(plan, [one])[0]  # what was picked of before it ended was not lost
    ]
    return [say("lost in {places}", places=join_list(lost))] if lost else []
