"""Names of botanical families: no screen shows a bare Latin one, and growers find them by their own."""

from __future__ import annotations

import pytest

from planner.crops import load_catalogue
from planner.crops.families import ENGLISH, GERMAN, family_title, family_words
from planner.crops.search import find
from planner.listings.crops import crop_lines, crops_table

CATALOGUE = load_catalogue()
FAMILIES = sorted({crop.family for crop in CATALOGUE.crops.values()})


@pytest.mark.parametrize("family", FAMILIES)
def test_every_family_has_an_english_and_a_german_name(family):
    assert ENGLISH[family].endswith(" family")
    assert GERMAN[family]
    assert GERMAN[family] != family
    assert family_title(family) == f"{ENGLISH[family]} ({family})"
    assert family_words(family) == f"the {ENGLISH[family]} ({family})"


def test_no_name_is_of_two_families_and_none_is_of_no_crop():
    assert set(ENGLISH) == set(GERMAN) == set(FAMILIES)
    for names in (ENGLISH, GERMAN):
        assert len(set(names.values())) == len(names)


@pytest.mark.parametrize(
    ("asked", "key"),
    [("Nachtschattengewächse", "tomato"), ("doldenbluetler", "carrot"), ("Poaceae", "sweet_corn")],
)
def test_crops_are_found_by_the_name_of_their_family(asked, key):
    assert key in [crop.key for crop in find(CATALOGUE, asked)]


def test_the_lists_of_crops_name_families_as_growers_do():
    for line in crops_table(list(CATALOGUE.crops.values()))[1:]:
        assert " family (" in line
    assert "honeysuckle family (Caprifoliaceae)" in crop_lines(CATALOGUE, CATALOGUE.crops["corn_salad"])[0]
