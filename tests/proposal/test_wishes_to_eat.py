"""Wishes from what a household eats: what it typed, and what is published of what it grows."""

from __future__ import annotations

import pytest
from making import bed, garden, planting, rectangle

from planner.crops import load_catalogue
from planner.crops.per_person import per_person
from planner.garden import Climate, FrostDates, Garden, Household, Site, Wish
from planner.garden.edits.common import EditError
from planner.garden.units import show_mass
from planner.plan import Plan
from planner.proposal.wishes import published_words, wishes_to_eat

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
)


def made(*crops: str, **fields: object) -> Garden:
    grown = [planting(f"p{n}", "b1", crop=crop, year=2025) for n, crop in enumerate(crops)]
    return garden(
        bed("b1", rectangle(4.0, 1.2)),
        *grown,
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        **fields,
    )


def wished(there: Garden) -> dict[str, Wish]:
    return {one.crop: one for one in wishes_to_eat(Plan(there, 2027, CATALOGUE))}


def test_what_was_grown_and_is_not_typed_is_wished_as_published() -> None:
    household = Household(persons=3, eats=({"crop": "beetroot", "kilograms": 5.0},))
    found = wished(made("carrot", "asparagus", "beetroot", household=household))
    assert set(found) == {"beetroot", "carrot"}  # asparagus stands for years
    assert found["beetroot"].reason == ""
    assert (found["carrot"].unit, found["carrot"].amount) == ("people", 3)
    published = per_person()["carrot"].kilograms.value
    assert (
        found["carrot"].reason == f"{show_mass(3000 * published)} a year for 3 people, as published (table)"
    )


def test_crops_that_are_eaten_in_each_others_place_are_wished_once() -> None:
    household = Household(persons=2)
    group = next(one for one in per_person().values() if one.together and one.kilograms is not None)
    keys = [group.crop, *group.together][:2]
    found = wished(made(*keys, household=household))
    assert len(found) == 1
    (one,) = found.values()
    assert "together" in one.reason
    typed = household.with_(eats=({"crop": keys[0], "kilograms": 5.0},))
    assert list(wished(made(*keys, household=typed))) == [keys[0]]


def test_nothing_is_published_of_what_no_table_has() -> None:
    there = made("phacelia", household=Household(persons=2))
    assert not wished(there)
    assert published_words(there, CATALOGUE, "phacelia") == ""
    assert published_words(made(), CATALOGUE, "carrot") == ""  # of how many people?


def test_without_people_or_anything_grown_it_says_what_to_do() -> None:
    for there in (made("carrot"), made(household=Household(persons=2))):
        with pytest.raises(EditError, match="how many eat"):
            wished(there)
