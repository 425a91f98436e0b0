"""Search for crops by typed words."""

from __future__ import annotations

import pytest

from planner.crops import Catalogue, Crop
from planner.crops.search import find, near, plain, rank, singulars


def crop(key: str, name: str, latin: str, family: str, *also: str) -> Crop:
    fields = {"key": key, "name": name, "latin": latin, "family": family, "also": also}
    return Crop.model_validate({**fields, "life_cycle": "annual", "growth_form": "bush"})


SMALL = Catalogue(
    {
        one.key: one
        for one in (
            crop("broad_bean", "broad bean", "Vicia faba", "Fabaceae", "fava bean"),
            crop("runner_bean", "runner bean", "Phaseolus coccineus", "Fabaceae"),
            crop("carrot", "carrot", "Daucus carota", "Apiaceae"),
            crop("tomato", "tomato", "Solanum lycopersicum", "Solanaceae"),
            crop("cress", "cress", "Lepidium sativum", "Brassicaceae"),
            crop("watercress", "watercress", "Nasturtium officinale", "Brassicaceae"),
            crop("strawberry", "strawberry", "Fragaria", "Rosaceae"),
            crop("creme", "Crème", "Nomen", "Rosaceae"),
        )
    },
    {},
)


@pytest.mark.parametrize(
    ("words", "keys"),
    [
        ("carrot", ["carrot"]),
        ("Carrots", ["carrot"]),
        ("tomatoes", ["tomato"]),
        ("strawberries", ["strawberry"]),
        ("broad_bean", ["broad_bean"]),
        ("broad-bean", ["broad_bean"]),
        ("FAVA BEANS", ["broad_bean"]),
        ("beans", ["broad_bean", "runner_bean"]),
        ("bean run", ["runner_bean"]),
        ("cress", ["cress"]),
        ("watercresses", ["watercress"]),
        ("daucus", ["carrot"]),
        ("fabaceae", ["broad_bean", "runner_bean"]),
        ("berry", ["strawberry"]),
        ("creme", ["creme"]),
        ("cress cress", ["cress"]),
        ("turnip", []),
        ("", []),
        (" -/ ", []),
    ],
)
def test_find(words, keys):
    assert [found.key for found in find(SMALL, words)] == keys


@pytest.mark.parametrize(
    ("words", "key"), [("carot", "carrot"), ("tomatto", "tomato"), ("borad bean", "broad_bean")]
)
def test_near_with_a_typing_error(words, key):
    assert near(SMALL, words)[0].key == key


@pytest.mark.parametrize(
    ("words", "keys"), [("beam", ["broad_bean", "runner_bean"]), ("bem", []), ("tomaro", ["tomato"])]
)
def test_one_typing_error_is_forgiven_from_four_letters(words, keys):
    assert [found.key for found in find(SMALL, words)] == keys


def test_beginning_of_the_name_is_as_good_as_of_any_word():
    keys = ["broad_bean", "cress", "watercress"]  # two by their family
    assert rank(SMALL, "br") == keys
    assert [found.key for found in find(SMALL, "br")] == keys


def test_near_nothing():
    assert near(SMALL, "zzzzzz") == []


def test_every_crop_is_found_by_its_own_names(catalogue):
    for one in catalogue.crops.values():
        for name in (one.key, one.name, one.latin, *one.also):
            assert one in find(catalogue, name)


def test_plural_of_a_short_word():
    assert "pea" in singulars("peas")
    assert singulars("as") == {"as"}
    assert singulars("cress") == {"cress"}


def test_plain_text():
    assert plain("  Crème_brûlée-2 ") == "creme brulee 2"


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("courgette", "courgette"), ("zucchini", "courgette"), ("zucchinis", "courgette"),
        ("aubergine", "aubergine"), ("eggplant", "aubergine"), ("egg plants", "aubergine"),
        ("rocket", "rocket"), ("arugula", "rocket"), ("swede", "swede"), ("rutabaga", "swede"),
        ("broad bean", "broad_bean"), ("fava beans", "broad_bean"), ("fava", "broad_bean"),
        ("beetroot", "beetroot"), ("beet", "beetroot"), ("beets", "beetroot"), ("coriander", "coriander"),
        ("cilantro", "coriander"), ("Solanum lycopersicum", "tomato"), ("tomatos", "tomato"),
        ("potatoe", "potato"), ("lettice", "lettuce"), ("cucmber", "cucumber"), ("parnsip", "parsnip"),
        ("brocoli", "broccoli"), ("aubergene", "aubergine"), ("zuchini", "courgette"), ("leeks", "leek"),
        ("Pak-Choi", "pak_choi"), ("bok choy", "pak_choi"), ("spring onions", "spring_onion"),
        ("daucus", "carrot"), ("strawberries", "strawberry"), ("radishes", "radish"), ("ZUCCHINI ", "courgette"),
        ("Crème", ""), ("bocking 14", "comfrey"), ("comfrey 14", "comfrey"),
        ("+1+1", ""), ("1 1", ""), ("14", ""), ("=1+x", ""), ("-1", ""),
    ],
)  # fmt: skip
def test_the_likeliest_crop_comes_first(catalogue, words, key):
    assert (rank(catalogue, words) or [""])[0] == key
    if key:
        assert find(catalogue, words)[0].key == key


def test_find_gives_only_the_best_of_the_ranked(catalogue):
    assert [one.key for one in find(catalogue, "pea")] == ["pea"]
    assert rank(catalogue, "pea")[0] == "pea"
    assert len(rank(catalogue, "pea")) > 1
    assert find(catalogue, "xqzw") == ()
