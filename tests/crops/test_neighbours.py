"""Neighbour rules: content of the shipped ones, plants they apply to, and broken files."""

from __future__ import annotations

from collections import Counter

import pytest
from making import catalogue_of, crop, write_catalogue

from planner.crops import CatalogueError, Crop, load_catalogue
from planner.crops.neighbours import DEFAULT_GRADES, GRADES, Selector, genus, rules, rules_between, rules_for

SOURCES = '[book]\ntitle = "A book"\n'
CROPS = """
family = "Apiaceae"
[carrot]
name = "carrot"
latin = "Daucus carota"
life_cycle = "biennial"
growth_form = "root"
[dill]
name = "dill"
latin = "Anethum graveolens"
life_cycle = "annual"
growth_form = "fern"
"""
RULE = {
    "a": '"crop:dill"',
    "b": '"crop:carrot"',
    "effect": '"good"',
    "on": '"b"',
    "reach": "0.5",
    "mechanism": '"a test"',
    "grade": '"trial"',
    "source": '"book"',
}


def text(*changes: dict[str, str]) -> str:
    tables = []
    for change in changes:
        fields = {key: value for key, value in {**RULE, **change}.items() if value}
        tables.append("[[rule]]\n" + "".join(f"{key} = {value}\n" for key, value in fields.items()))
    return "\n".join(tables)


def shelf(folder, neighbours):
    write_catalogue(folder, SOURCES, apiaceae=CROPS)
    if neighbours is not None:
        (folder / "neighbours.toml").write_text(neighbours, encoding="utf-8")
    return load_catalogue(folder)


# -- the shipped rules -------------------------------------------------------------------------


def test_there_are_many_rules_and_enough_with_evidence(catalogue):
    grades = Counter(rule.grade for rule in rules(catalogue))
    assert sum(grades.values()) >= 60
    assert grades["trial"] + grades["advice"] >= 20
    assert grades["lore"] >= 10
    assert {rule.effect for rule in rules(catalogue)} == {"good", "bad", "none"}


def test_lore_is_never_called_more_than_lore(catalogue):
    for rule in rules(catalogue):
        assert (rule.source == "folk") <= (rule.grade == "lore"), rule.number


def test_rules_are_read_once(catalogue):
    assert rules(catalogue) is rules(catalogue)


def test_walnut_reaches_as_far_as_its_source_says(catalogue):
    found = [rule for rule in rules(catalogue) if rule.a.name == "Juglans" and rule.effect == "bad"]
    assert len(found) >= 6
    for rule in found:
        assert (rule.reach, rule.grade) == (18.0, "advice")
        assert "15 to 18 m" in rule.note


def test_a_tree_outside_the_catalogue_is_looked_up_by_its_latin_name(catalogue):
    crops = catalogue.crops
    (found,) = rules_between(catalogue, "Juglans nigra", crops["tomato"])
    assert (found.on_first, found.on_second, found.rule.reach) == (False, True, 18.0)
    (found,) = rules_between(catalogue, crops["tomato"], "Juglans nigra")
    assert (found.on_first, found.on_second) == (True, False)
    assert rules_between(catalogue, "Acer campestre", crops["tomato"]) == ()
    assert len(rules_for(catalogue, "Juglans regia")) >= 10


def test_the_affected_plant_depends_on_the_rule_and_not_on_the_order_of_arguments(catalogue):
    onion, carrot = catalogue.crops["onion"], catalogue.crops["carrot"]
    found = {b.rule.mechanism: (b.on_first, b.on_second) for b in rules_between(catalogue, onion, carrot)}
    assert found["fewer carrot fly attacks"] == (False, True)
    assert found["fewer onion thrips"] == (True, False)
    swapped = {b.rule.mechanism: (b.on_first, b.on_second) for b in rules_between(catalogue, carrot, onion)}
    assert swapped == {mechanism: (second, first) for mechanism, (first, second) in found.items()}


def test_the_best_evidence_comes_first_and_lore_can_be_left_out(catalogue):
    tomato = catalogue.crops["tomato"]
    grades = [mention.rule.grade for mention in rules_for(catalogue, tomato)]
    assert grades == sorted(grades, key=GRADES.index)
    assert "lore" in grades
    assert {m.rule.grade for m in rules_for(catalogue, tomato, DEFAULT_GRADES)} <= {"trial", "advice"}


def test_most_crops_have_a_rule(catalogue):
    assert sum(bool(rules_for(catalogue, one)) for one in catalogue.crops.values()) > 60


# -- selectors ---------------------------------------------------------------------------------


def plant(key: str, latin: str, family: str) -> Crop:
    return crop(key).model_copy(update={"latin": latin, "family": family})


@pytest.mark.parametrize(
    ("selector", "fits"),
    [
        ("crop:leek", True), ("crop:onion", False), ("genus:Allium", True), ("genus:Al", False),
        ("family:Amaryllidaceae", True), ("family:Allium", False),
    ],
)  # fmt: skip
def test_plants_that_a_selector_fits(selector, fits):
    leek = plant("leek", "Allium ampeloprasum", "Amaryllidaceae")
    assert Selector.model_validate(selector).fits(leek) is fits


def test_the_sign_of_a_hybrid_is_no_genus():
    assert genus("Fragaria × ananassa") == "Fragaria"
    assert genus("× Triticosecale") == "Triticosecale"
    assert genus("") == ""


def test_a_crop_beside_its_own_kind(tmp_path):
    found = shelf(tmp_path, text({"a": '"family:Apiaceae"', "b": '"genus:Daucus"', "on": '"both"'}))
    carrot, dill = found.crops["carrot"], found.crops["dill"]
    (between,) = rules_between(found, carrot, carrot)
    assert (between.on_first, between.on_second) == (True, True)
    assert len(rules_for(found, carrot)) == 1
    (mention,) = rules_for(found, dill)
    assert (mention.other.name, mention.affected, mention.acts) == ("Daucus", True, True)


def test_a_catalogue_made_in_code_has_the_shipped_rules():
    small = catalogue_of(plant("tomato", "Solanum lycopersicum", "Solanaceae"))
    assert rules_between(small, "Juglans nigra", small.crops["tomato"])


# -- broken files ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("neighbours", "words"),
    [
        (None, "neighbours.toml: is missing"),
        ("[[rule]\n", "neighbours.toml: is not TOML"),
        ("rule = 3\n", "neighbours.toml, rule: must be [[rule]]"),
        ("rule = [3]\n", "neighbours.toml, rule 1, the rule: "),
        ("[pairs]\n", "neighbours.toml, pairs: only [[rule]]"),
        (text({"a": '"crop:karrot"'}), "neighbours.toml, rule 1, a: unknown crop 'karrot'"),
        (text({}, {"b": '"family:Rosaceae"'}), "neighbours.toml, rule 2, b: unknown family 'Rosaceae'"),
        (text({"source": '"bok"'}), "neighbours.toml, rule 1, source: unknown source key 'bok'"),
        (
            text({"a": '"carrot"'}),
            "neighbours.toml, rule 1, a: 'carrot' must be crop:KEY, genus:LATIN or family",
        ),
        (
            text({"a": '"genus:tagetes"'}),
            "rule 1, a: 'genus:tagetes': a genus is a Latin name with a capital",
        ),
        (text({"grade": '"rumour"'}), "neighbours.toml, rule 1, grade: "),
        (text({"effect": ""}), "neighbours.toml, rule 1, effect: Field required"),
        (text({"reach": "-1"}), "neighbours.toml, rule 1, reach: "),
        (text({"colour": '"red"'}), "neighbours.toml, rule 1, colour: Extra inputs"),
    ],
)
def test_faults_are_named_by_file_rule_and_field(tmp_path, neighbours, words):
    found = shelf(tmp_path, neighbours)
    with pytest.raises(CatalogueError) as caught:
        rules(found)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_all_faults_are_named_together(tmp_path):
    found = shelf(tmp_path, text({"source": '"bok"'}, {"a": '"crop:x"'}, {"grade": "1"}))
    with pytest.raises(CatalogueError, match=r"rule 1, source.*rule 2, a.*rule 3, grade"):
        rules(found)


def test_a_genus_outside_the_catalogue_is_allowed(tmp_path):
    assert rules(shelf(tmp_path, text({"a": '"genus:Juglans"'})))[0].a.name == "Juglans"


def test_practice_and_estimate_are_sources(tmp_path):
    assert len(rules(shelf(tmp_path, text({"source": '"practice"'}, {"source": '"estimate"'})))) == 2
