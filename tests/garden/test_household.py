"""Edits of the household and of the places in which its harvest is kept."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from planner.garden import Eaten, Garden, Household
from planner.garden import edits as e
from planner.garden.edits import EditError
from planner.garden.join import join


def test_an_amount_is_set_changed_and_taken_back():
    one = e.set_eaten(Garden(), "onion", 8)
    two = e.set_eaten(one, "onion", 0.2, "week")
    assert two.household.eats == (Eaten(crop="onion", kilograms=0.2, per="week"),)
    assert e.set_eaten(two, "onion", 0.2, "week") is two
    assert e.set_eaten(two, "onion", None).household == Household()


def test_a_household_of_before_is_nobody():
    assert Garden.model_validate({}).household == Household(persons=0)


def test_a_crop_is_eaten_once():
    with pytest.raises(ValidationError, match="gives what is eaten of 'onion' twice"):
        Household(eats=(Eaten(crop="onion", kilograms=1), Eaten(crop="onion", kilograms=2)))


def test_places_have_ids_and_names_of_their_own():
    garden, key = e.put_store_place(Garden(), name="Cellar")
    garden, other = e.put_store_place(garden, name="Loft", kind="dry room")
    assert (key, other) == ("k1", "k2")
    with pytest.raises(EditError, match="there is a place 'Cellar' already"):
        e.put_store_place(garden, "k2", name="cellar")
    garden, _ = e.put_store_place(garden, "k1", temperature=7)
    assert garden.store_places[0].temperature == 7
    assert [place.id for place in e.remove_store_place(garden, "k1").store_places] == ["k2"]


@pytest.mark.parametrize(
    "edit", [lambda g: e.remove_store_place(g, "k9"), lambda g: e.put_store_place(g, "k9", name="A")]
)
def test_a_place_that_is_not_there_is_named(edit):
    with pytest.raises(EditError, match="there is no place 'k9' to keep a harvest in"):
        edit(Garden())


def test_an_impossible_number_is_refused_in_a_line():
    with pytest.raises(EditError, match="persons -1"):
        e.change_household(Garden(), persons=-1)


def test_two_who_changed_persons_and_amounts_are_joined():
    base = Garden(household=Household(persons=2))
    mine = e.change_household(base, persons=3)
    theirs = e.set_eaten(base, "onion", 8)
    joined = join(base, mine, theirs)
    assert joined.conflicts == ()
    assert joined.garden.household == Household(persons=3, eats=(Eaten(crop="onion", kilograms=8),))


def test_two_who_gave_different_persons_are_in_conflict_and_settle_it():
    base = Garden(household=Household(persons=2))
    joined = join(base, e.change_household(base, persons=3), e.change_household(base, persons=4))
    (conflict,) = joined.conflicts
    assert joined.garden.household.persons == 3
    assert e.settle(joined.garden, conflict, take_other=True).household.persons == 4


def test_places_that_two_added_are_both_kept():
    mine, _ = e.put_store_place(Garden(), name="Cellar")
    theirs, _ = e.put_store_place(Garden(), name="Clamp", kind="clamp")
    joined = join(Garden(), mine, theirs).garden
    assert sorted((place.id, place.name) for place in joined.store_places) == [
        ("k1", "Cellar"),
        ("k2", "Clamp"),
    ]


def test_a_crop_is_kept_in_one_place_only():
    garden, cellar = e.put_store_place(Garden(), name="Cellar")
    garden, loft = e.put_store_place(garden, name="Loft", kind="dry room", crops=("garlic",))
    kept = e.keep_in(garden, "onion", cellar)
    assert [place.crops for place in kept.store_places] == [("onion",), ("garlic",)]
    assert e.keep_in(kept, "onion", cellar) is kept
    moved = e.keep_in(kept, "onion", loft)
    assert [place.crops for place in moved.store_places] == [(), ("garlic", "onion")]
    assert e.keep_in(moved, "onion", None) == garden
    with pytest.raises(e.EditError, match="there is no place 'k9'"):
        e.keep_in(garden, "onion", "k9")
