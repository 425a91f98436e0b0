"""Lists of crops in the rules hold every crop of the catalogue that belongs there, as far as its fields say so."""

from __future__ import annotations

import pytest

from planner.checks import depth, purity, season_frost, season_starts, soil, support
from planner.crops import Catalogue, Crop
from planner.season import bolting, practice


def product(one: Crop) -> str | None:
    return one.product.value if one.product is not None else None


LISTS = {
    "depth.LEAST": depth.LEAST,
    "season_frost._ALL_AT_THE_END": season_frost._ALL_AT_THE_END,
    "season_starts._FOR_SPRING": season_starts._FOR_SPRING,
    "support.POLES": support.POLES,
    "bolting.CHILLED_YOUNG": bolting.CHILLED_YOUNG,
    "bolting.SHOOTS_ARE_EATEN": bolting.SHOOTS_ARE_EATEN,
    "practice.CURED": practice.CURED,
    "practice.CUT_AS_THEY_SPROUT": practice.CUT_AS_THEY_SPROUT,
    "practice.PICKED_YOUNG": practice.PICKED_YOUNG,
    "practice.SUMMER_SET": practice.SUMMER_SET,
}


@pytest.mark.parametrize("name", LISTS)
def test_each_names_crops_of_the_catalogue(name, catalogue):
    assert set(LISTS[name]) <= set(catalogue.crops)


def test_onions_and_garlic_of_all_kinds_are_cured(catalogue):
    bulbs = {
        key
        for key, one in catalogue.crops.items()
        if one.family == "Amaryllidaceae"
        and product(one) == "bulbs"
        and one.harvest_ends.value == "dies back"
    }
    assert {"elephant_garlic", "garlic", "japanese_onion", "onion", "shallot"} <= bulbs <= set(practice.CURED)


def test_bulbs_and_tubers_of_perennials_are_lifted_to_be_planted_again(catalogue):
    found = {
        key
        for key, one in catalogue.crops.items()
        if any(practice.lifted_as_seed(one, start) for start in one.starts.value)
    }
    assert found == {
        "chinese_artichoke",
        "early_potato",
        "elephant_garlic",
        "garlic",
        "jerusalem_artichoke",
        "oca",
        "potato",
        "shallot",
        "yacon",
    }
    assert not practice.lifted_as_seed(catalogue.crops["potato"], "raised")


def test_frost_cuts_the_shoots_of_potatoes_only(catalogue):
    found = {key for key, one in catalogue.crops.items() if practice.frost_cuts_shoots(one, "tubers")}
    assert found & {k for k, one in catalogue.crops.items() if "tubers" in one.starts.value} == {
        "early_potato",
        "potato",
    }


def test_tubers_that_frost_kills_the_leaves_of_are_lifted_then(catalogue):
    assert {key for key, one in catalogue.crops.items() if practice.lifted_after_frost(one)} == {
        "oca",
        "yacon",
    }


def species_of(catalogue: Catalogue, name: str) -> set[str]:
    return {key for key, one in catalogue.crops.items() if purity.species(one) == name}


def test_maize_is_told_apart_by_its_product(catalogue):
    maize = species_of(catalogue, purity.MAIZE)
    assert maize == {"flour_corn", "popcorn", "sweet_corn"}
    assert {key for key in maize if purity._ripens_dry(catalogue.crops[key])} == {"flour_corn", "popcorn"}


@pytest.mark.parametrize("name", soil.TROPICAL)
def test_each_species_of_the_tropics_is_one_of_the_catalogue(name, catalogue):
    assert species_of(catalogue, name)


def test_all_of_a_species_are_of_the_tropics(catalogue):
    found = {key for key, one in catalogue.crops.items() if purity.species(one) in soil.TROPICAL}
    assert {"chilli_pepper", "gherkin", "luffa"} <= found


def test_tall_grain_and_sunflowers_are_poles(catalogue):
    tall = {
        key
        for key, one in catalogue.crops.items()
        if one.family == "Poaceae" and product(one) in ("grain", "green seed") and one.number("height") >= 1.5
    }
    assert tall <= set(support.POLES)


def test_all_broccoli_and_cauliflower_is_eaten_in_bud(catalogue):
    for key, one in catalogue.crops.items():
        if "italica" in one.latin or "botrytis" in one.latin:
            assert key in bolting.SHOOTS_ARE_EATEN
