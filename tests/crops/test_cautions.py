"""Cautions: use of the shipped ones, and broken files."""

from __future__ import annotations

from typing import get_args

import pytest
from making import catalogue_of, crop, write_catalogue

from planner.crops import CatalogueError, load_catalogue
from planner.crops.cautions import (
    BED_WORDS,
    COVER_WORDS,
    STRUCTURE_WORDS,
    TASK_WORDS,
    cautions,
    cautions_at_work,
    cautions_of,
)
from planner.crops.vocabulary import SUPPORT_WORDS
from planner.garden.beds import BedKind, StructureKind
from planner.garden.planting import CoverKind, SupportKind, Work

SOURCES = '[book]\ntitle = "A book"\n'
CROPS = """
family = "Apiaceae"
[carrot]
name = "carrot"
latin = "Daucus carota"
life_cycle = "biennial"
growth_form = "root"
cautions = ["sharp"]
"""
GOOD = '[sharp]\ntext = "Mind it."\nsource = "book"\nabout = ["carrot"]\ntasks = ["thin"]\nstructures = ["arch"]\n'


def shelf(folder, text):
    write_catalogue(folder, SOURCES, apiaceae=CROPS)
    if text is not None:
        (folder / "cautions.toml").write_text(text, encoding="utf-8")
    return load_catalogue(folder)


def keys(found):
    return [caution.key for caution in found]


def test_words_are_those_of_the_garden_document():
    assert get_args(StructureKind) == STRUCTURE_WORDS
    assert get_args(BedKind) == BED_WORDS
    assert get_args(CoverKind) == COVER_WORDS
    assert set(get_args(Work)) == set(TASK_WORDS)
    assert set(get_args(SupportKind)) == set(SUPPORT_WORDS) - {"none"}


def test_dangerous_crops_have_their_caution(catalogue):
    for crop_key, key in [
        ("potato", "green_potato"), ("rhubarb", "rhubarb_leaves"), ("runner_bean", "raw_kidney_beans"),
        ("dwarf_bean", "raw_kidney_beans"), ("foxglove", "foxglove_poisonous"), ("parsnip", "sap_burns_skin"),
        ("sweet_pea", "sweet_pea_seed"), ("comfrey", "comfrey_not_eaten"), ("parsnip", "umbel_look_alikes"), ("onion", "alliums_and_pets"),
        ("cowpea", "raw_soya_beans"), ("soya_bean", "raw_soya_beans"), ("borage", "borage_alkaloids"),
        ("spinach", "oxalates"), ("grape_vine", "grapes_and_dogs"), ("garlic", "garlic_in_oil"),
        ("dwarf_bean", "low_acid_preserves"),
    ]:  # fmt: skip
        assert key in keys(cautions_of(catalogue, catalogue.crops[crop_key])), crop_key


@pytest.mark.parametrize(
    ("structure", "key"),
    [
        ("arch", "arch_over_path"), ("arch", "buried_services"), ("fence", "buried_services"),
        ("frame", "arch_over_path"), ("wall", "against_a_wall"), ("raised", "treated_timber"),
        ("open", "old_soil"), ("tunnel", "hot_tunnel"), ("glasshouse", "hot_tunnel"), ("tower", "ladders"),
        ("container", "lifting"), ("netting", "nets_and_animals"), ("tree", "ladders"),
    ],
)  # fmt: skip
def test_structures_have_their_caution(catalogue, structure, key):
    assert key in keys(cautions_of(catalogue, structure=structure))


@pytest.mark.parametrize(
    ("task", "key"),
    [("sow", "treated_seed"), ("support up", "buried_services"), ("dig", "buried_services"),
     ("build", "treated_timber"), ("lift and cure", "green_potato"), ("pick", "raw_kidney_beans")],
)  # fmt: skip
def test_tasks_have_their_caution(catalogue, task, key):
    assert key in keys(cautions_of(catalogue, task=task))


@pytest.mark.parametrize(
    ("task", "key"),
    [("mulch", "fresh_manure"), ("feed", "fresh_manure"), ("mulch", "herbicide_in_manure"),
     ("prick out", "legionella_in_compost"), ("pot on", "legionella_in_compost"), ("dig", "tetanus"), ("prune", "blades_and_current")],
)  # fmt: skip
def test_work_in_any_bed_has_its_caution(catalogue, task, key):
    for bed in BED_WORDS:
        assert key in keys(cautions_at_work(catalogue, task, structures=[bed])), bed


def test_days_hours_and_minutes_are_those_of_the_authorities(catalogue):
    """7 CFR 205.203(c)(1) as in Virginia FST-39; the FDA's Bad Bug Book; NCHFP, garlic-in-oil."""
    found = cautions(catalogue)
    assert "120 days" in found["fresh_manure"].text
    assert "90 days" in found["fresh_manure"].text
    assert "5 hours" in found["raw_kidney_beans"].text
    assert "30 minutes" in found["raw_kidney_beans"].text
    assert "7 days" in found["garlic_in_oil"].text


def test_leaves_of_peppers_are_not_called_poisonous(catalogue):
    for pepper in ("sweet_pepper", "chilli_pepper"):
        assert "nightshade_leaves" not in keys(cautions_of(catalogue, catalogue.crops[pepper]))


def test_every_caution_is_used_somewhere(catalogue):
    named = {key for one in catalogue.crops.values() for key in one.cautions}
    for caution in cautions(catalogue).values():
        assert caution.about or caution.structures or caution.key in named, caution.key
        assert caution.text.endswith(".")


def test_a_caution_about_a_crop_and_a_structure_needs_both(catalogue):
    squash, carrot = catalogue.crops["winter_squash"], catalogue.crops["carrot"]
    up = "support up"
    assert "heavy_fruit_overhead" in keys(cautions_at_work(catalogue, up, squash, ["arch"]))
    assert "heavy_fruit_overhead" not in keys(cautions_at_work(catalogue, up, squash, ["net"]))
    assert "heavy_fruit_overhead" not in keys(cautions_at_work(catalogue, up, carrot, ["arch"]))
    assert "buried_services" in keys(cautions_at_work(catalogue, up, carrot, ["arch"]))
    assert keys(cautions_at_work(catalogue, up, carrot)) == []


def test_a_catalogue_made_in_code_has_the_shipped_cautions():
    small = catalogue_of(crop("potato"))
    assert "green_potato" in keys(cautions_of(small, small.crops["potato"]))


@pytest.mark.parametrize("about", ['about = ["carrot"]\n', ""])
def test_a_caution_names_the_crop_or_the_crop_names_it(tmp_path, about):
    catalogue = shelf(tmp_path, GOOD.replace('about = ["carrot"]\n', about))
    assert keys(cautions_of(catalogue, catalogue.crops["carrot"])) == ["sharp"]
    assert keys(cautions_of(catalogue, crop("carrot"))) == (["sharp"] if about else [])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (None, "cautions.toml: is missing"),
        ("[sharp\n", "cautions.toml: is not TOML"),
        ("sharp = 1\n", "cautions.toml, sharp: must be a table"),
        ("", "apiaceae.toml, carrot, cautions: unknown caution 'sharp'"),
        (GOOD.replace('"book"', '"bok"'), "cautions.toml, sharp, source: unknown source key 'bok'"),
        (GOOD.replace('"carrot"', '"karrot"'), "cautions.toml, sharp, about: unknown crop 'karrot'"),
        (GOOD.replace('"thin"', '"thinning"'), "cautions.toml, sharp, tasks: 'thinning' is none of sow, "),
        (GOOD.replace('"arch"', '"bower"'), "cautions.toml, sharp, structures: 'bower' is none of wall, "),
        (GOOD.replace('"Mind it."', '""'), "cautions.toml, sharp, text: "),
        (GOOD + "colour = 1\n", "cautions.toml, sharp, colour: Extra inputs"),
        (GOOD.replace("[sharp]", "[Sharp]"), "cautions.toml, Sharp, key: "),
    ],
)
def test_faults_are_named_by_file_caution_and_field(tmp_path, text, words):
    found = shelf(tmp_path, text)
    with pytest.raises(CatalogueError) as caught:
        cautions(found)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_good_file_is_read_once(tmp_path):
    found = shelf(tmp_path, GOOD)
    assert cautions(found) is cautions(found)
    assert keys(cautions_of(found, found.crops["carrot"], task="thin", structure="arch")) == ["sharp"]
    assert cautions_of(found, found.crops["carrot"], task="sow") == ()
