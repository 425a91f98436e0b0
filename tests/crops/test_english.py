"""Names of crops in British and American English."""

from __future__ import annotations

import pytest
from sample_reading import YEAR, sample

from planner.amounts import amounts
from planner.checks import check_all
from planner.crops import load_catalogue
from planner.crops.search import find
from planner.garden import Garden, Site, edits
from planner.listings.reports.amounts import amount_rows
from planner.plan import Plan
from planner.storage import load

PAIRS = (
    ("aubergine", "aubergine", "eggplant"),
    ("courgette", "courgette", "zucchini"),
    ("rocket", "rocket", "arugula"),
    ("coriander", "coriander", "cilantro"),
    ("swede", "swede", "rutabaga"),
    ("broad_bean", "broad bean", "fava bean"),
    ("carrot", "carrot", "carrot"),
)


@pytest.mark.parametrize(("key", "british", "american"), PAIRS)
def test_a_crop_has_the_name_of_the_english_asked_for(key: str, british: str, american: str) -> None:
    catalogue = load_catalogue()
    assert catalogue.in_english("british").crops[key].name == british
    spoken = catalogue.in_english("american").crops[key]
    assert spoken.name == american
    assert british in (spoken.name, *spoken.also), "the other name is kept"
    assert american not in spoken.also
    for words in (british, american):
        for one in (catalogue, catalogue.in_english("american")):
            assert key in {crop.key for crop in find(one, words)}, "both names are found in both"
            assert one.named(words) is one.crops[key]


def test_american_names_differ_and_no_two_crops_share_one() -> None:
    american = load_catalogue().in_english("american")
    names = [crop.name for crop in american.crops.values()]
    assert len(names) == len(set(names))
    assert names == sorted(names, key=str.casefold), "listed by the names shown"
    for crop in load_catalogue().crops.values():
        if crop.american is not None:
            assert crop.american.value != crop.name
            assert crop.american.value in crop.also


def test_a_catalogue_in_an_english_is_the_same_one_every_time() -> None:
    catalogue = load_catalogue()
    american = catalogue.in_english("american")
    assert american is not catalogue
    assert catalogue.in_english("american") is american
    assert american.in_english("american") is american
    assert american.in_english("british") is catalogue


@pytest.mark.parametrize(
    ("site", "name"),
    [
        (Site(), "aubergine"),
        (Site(units="feet_inches"), "eggplant"),
        (Site(crop_names="american"), "eggplant"),
        (Site(units="feet_inches", crop_names="british"), "aubergine"),
    ],
)
def test_names_follow_the_units_unless_they_are_chosen(site: Site, name: str) -> None:
    assert Plan(Garden(site=site), 2026).catalogue.crops["aubergine"].name == name


def test_a_plan_follows_the_garden_from_one_english_to_the_other() -> None:
    plan = Plan(load(sample("red_mesa")), YEAR)
    fresh = {row["planting_id"]: row for row in amount_rows(amounts(plan))}
    british = plan.after(edits.change_site(plan.garden, crop_names="british"))
    rows = {row["planting_id"]: row for row in amount_rows(amounts(british))}
    assert {row["crop"] for row in rows.values()} == {row["crop"] for row in fresh.values()}
    changed = {(fresh[key]["crop_name"], rows[key]["crop_name"]) for key in rows}
    assert ("bush bean", "dwarf bean") in changed or ("zucchini", "courgette") in changed
    back = british.after(edits.change_site(british.garden, crop_names=None))
    assert {row["planting_id"]: row for row in amount_rows(amounts(back))} == fresh


def test_findings_and_their_waivers_are_the_same_in_both() -> None:
    garden = load(sample("red_mesa"))
    american = check_all(Plan(garden, YEAR), light=False)
    british = check_all(Plan(edits.change_site(garden, crop_names="british"), YEAR), light=False)
    assert {(one.key, one.waived) for one in american} == {(one.key, one.waived) for one in british}
    assert any("pole bean" in one.text for one in american)
    assert not any("pole bean" in one.text for one in british)
