"""The household of a garden, as lines."""

from __future__ import annotations

from planner.amounts.store_places import conditions
from planner.crops import Catalogue
from planner.garden import Garden
from planner.garden.household import StorePlace
from planner.garden.units import show_temperature
from planner.listings.weights import weight_words
from planner.words import join_list, percent, say, say_count


def household_lines(garden: Garden, catalogue: Catalogue) -> list[str]:
    """Print who eats from a garden, the own amounts and the places in which its harvest is kept.

    Parameters
    ----------
    garden : Garden
    catalogue : Catalogue
        For the names of crops.
    """
    household, units = garden.household, garden.site.units
    lines = [
        say(
            "{garden}: {persons}",
            garden=garden.site.name,
            persons=persons_words(household.persons) if household.persons else say("persons not given"),
        )
    ]
    for one in household.eats:
        crop = catalogue.get(one.crop)
        name, weight = crop.name if crop is not None else one.crop, weight_words(one.kilograms * 1000, units)
        if one.per == "week":
            text = say("{crop}: {weight} a person in a week", crop=name, weight=weight)
        else:
            text = say("{crop}: {weight} a person in a year", crop=name, weight=weight)
        lines.append("  " + text)
    lines += ["  " + place_words(garden, place, catalogue) for place in garden.store_places]
    if household.persons:
        lines.append(
            say(
                "How much to plant for them: bedwright enough CROP FILE --until DAY, with --for-use bottling, freezing, drying or store"
            )
        )
    return lines


def persons_words(persons: float) -> str:
    """How many eat: ``1 person``, ``2.5 persons``."""
    if persons == round(persons):
        return say_count("{count} person", "{count} persons", round(persons))
    number = f"{persons:g}"
    return say("{number} persons", number=number)


def place_words(garden: Garden, place: StorePlace, catalogue: Catalogue) -> str:
    """A place with its temperature and humidity, and the crops that it is for where it is not for all."""
    temperature, humidity = conditions(place)
    words = say(
        "{place}: {temperature}, {humidity} humidity",
        place=place.name,
        temperature=show_temperature(temperature, garden.site.units),
        humidity=percent(humidity),
    )
    if not place.crops:
        return words
    crops = join_list([catalogue.name_of(crop) for crop in place.crops])
    return say("{place}; for {crops} only", place=words, crops=crops)
