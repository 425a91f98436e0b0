"""Neighbour rules: content of the shipped ones, plants they apply to, and broken files."""

from __future__ import annotations

import re
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


#: Words for what was handed down.
HANDED_DOWN = re.compile(r"\b(said|believed|reputed|thought) to\b|\bis believed\b", re.I)
#: Words for what did not happen in a bed.
IN_A_LABORATORY = re.compile(
    r"extracts?\b|bioassay|petri|\bin vitro\b|laborator|exudate|infected on purpose|set temperatures|germination",
    re.I,
)
#: Words for what one of the two lost.
LOST = re.compile(
    r"lighter|smaller|lower quality|lower than alone|less of it|less fruit in all|yielded less|some yield lost|greater than"
)
#: Words for a source that says nothing.
SILENT = re.compile(r"not mention|no reduction named|not named|does not say|silent", re.I)


def test_lore_is_never_called_more_than_lore(catalogue):
    for rule in rules(catalogue):
        assert (rule.source == "folk") <= (rule.grade == "lore"), rule.number
        assert bool(HANDED_DOWN.search(f"{rule.mechanism} {rule.note}")) == (rule.grade == "lore"), rule


def test_what_was_seen_in_a_laboratory_is_no_trial(catalogue):
    for rule in rules(catalogue):
        if rule.effect == "none" and rule.grade == "advice":
            continue  # a review of trials
        words = f"{catalogue.sources[rule.source].title} {rule.mechanism} {rule.note.split('Doubted')[0]}"
        assert bool(IN_A_LABORATORY.search(words)) == (rule.grade == "laboratory"), rule


def test_no_rule_is_drawn_from_silence(catalogue):
    assert [rule for rule in rules(catalogue) if SILENT.search(f"{rule.mechanism} {rule.note}")] == []


#: By source, pairs of crops where a trial found both gain and loss: the acting, and the one that gains and loses.
BOTH_SIDES = {
    "theunissen1995": [("white_clover", "cabbage")],
    "ramert1993": [("Medicago littoralis", "carrot")],
    "theunissen1996": [("Trifolium subterraneum", "leek")],
    "baumann2000": [("celery", "leek")],
    "gombac2014": [("summer_savory", "leek"), ("Lotus corniculatus", "leek")],
    "brennan2013": [("sweet_alyssum", "cos_lettuce")],
    "ogenga1992": [("sweet_corn", "dry_bean"), ("flour_corn", "climbing_bean")],
    "carvalho_ishs933": [("herb_fennel", "tomato"), ("florence_fennel", "tomato")],
    "kourik2018": [("french_marigold", "dwarf_bean")],
}


@pytest.mark.parametrize("source", BOTH_SIDES)
def test_gain_and_loss_of_a_trial_are_both_rules(catalogue, source):
    crops = catalogue.crops
    for one, other in BOTH_SIDES[source]:
        between = rules_between(catalogue, crops.get(one, one), crops[other])
        sides = {rule.rule.effect for rule in between if rule.rule.source == source and rule.on_second}
        assert sides == {"good", "bad"}, (source, one, other)


def test_a_gain_whose_note_tells_of_a_loss_has_a_bad_twin(catalogue):
    shipped = rules(catalogue)
    for rule in shipped:
        if rule.effect == "good" and LOST.search(f"{rule.mechanism} {rule.note}"):
            twins = [
                one
                for one in shipped
                if (one.effect, one.source, one.a) == ("bad", rule.source, rule.a)
                and any(one.b.fits(crop) and rule.b.fits(crop) for crop in catalogue.crops.values())
            ]
            assert twins, rule
            assert rule.source in BOTH_SIDES, rule


def test_maize_loses_to_beans_too(catalogue):
    crops = catalogue.crops
    between = rules_between(catalogue, crops["dwarf_bean"], crops["sweet_corn"])
    assert "maize yields less among beans" in {one.rule.mechanism for one in between if one.on_second}


def test_potato_onion_is_a_shallot(catalogue):
    found = [rule for rule in rules(catalogue) if "potato onion" in f"{rule.mechanism} {rule.note}".lower()]
    assert [rule.a.names for rule in found] == [("shallot",)]
    assert "Aggregatum" in catalogue.crops["shallot"].latin


#: Crops reached by every rule's side that is named wider than by its key: a new crop of the kin shows up here, and whether
#: the sources mean it is to be looked up before it is added.
REACHED = {
    "genus:Allium": "chives elephant_garlic garlic garlic_chives japanese_onion leek onion shallot spring_onion welsh_onion",
    "genus:Brassica": "broccoli brussels_sprouts cabbage cauliflower chinese_broccoli chinese_cabbage choy_sum collards kale kohlrabi komatsuna mizuna mustard_greens pak_choi perennial_kale red_cabbage romanesco savoy_cabbage spring_cabbage sprouting_broccoli swede tatsoi turnip winter_cauliflower",
    "genus:Capsicum": "chilli_pepper sweet_pepper",
    "genus:Citrullus": "watermelon",
    "genus:Cucumis": "cucumber gherkin melon",
    "genus:Cucurbita": "courgette pumpkin winter_squash",
    "genus:Fagopyrum": "buckwheat",
    "genus:Foeniculum": "florence_fennel herb_fennel",
    "genus:Lactuca": "cos_lettuce crisphead_lettuce leaf_lettuce lettuce",
    "genus:Lobularia": "sweet_alyssum",
    "genus:Lotus": "",
    "genus:Pelargonium": "",
    "genus:Phaseolus": "climbing_bean dry_bean dwarf_bean lima_bean runner_bean",
    "genus:Ruta": "",
    "genus:Secale": "winter_rye",
    "genus:Sinapis": "white_mustard",
    "genus:Tagetes": "african_marigold french_marigold",
    "genus:Trifolium": "crimson_clover red_clover white_clover",
    "genus:Triticum": "wheat",
    "species:Allium fistulosum": "spring_onion welsh_onion",
    "species:Barbarea vulgaris": "",
    "species:Brassica rapa oleifera": "",
    "species:Juglans nigra": "",
    "species:Medicago littoralis": "",
    "species:Mentha piperita": "",
    "species:Phaseolus vulgaris": "climbing_bean dry_bean dwarf_bean",
    "species:Trifolium subterraneum": "",
    "species:Zea mays": "flour_corn popcorn sweet_corn",
}


def test_a_rule_reaches_the_crops_that_its_source_means(catalogue):
    wide = {side for rule in rules(catalogue) for side in (rule.a, rule.b) if side.kind != "crop"}
    reached = {
        f"{side.kind}:{side.latin}": " ".join(
            sorted(key for key, one in catalogue.crops.items() if side.fits(one))
        )
        for side in wide
    }
    assert reached == REACHED


def test_what_is_found_of_cabbage_holds_for_cabbages(catalogue):
    """One trial names white cabbage; the others mean headed cabbages, some of them ``capitata`` only."""
    lists = {
        side.names: rule.source
        for rule in rules(catalogue)
        for side in (rule.a, rule.b)
        if "cabbage" in side.names and rule.source != "chalkerscott_walnut"
    }
    assert set(lists) == {
        ("cabbage",),
        ("cabbage", "red_cabbage", "spring_cabbage"),
        ("cabbage", "red_cabbage", "savoy_cabbage", "spring_cabbage"),
    }
    assert {rule.source for rule in rules(catalogue) if ("cabbage",) in (rule.a.names, rule.b.names)} == {
        "theunissen1995"
    }


@pytest.mark.parametrize(
    "kin", [("early_potato", "potato"), ("autumn_raspberry", "raspberry"), ("cucumber", "gherkin")]
)
def test_what_is_found_of_one_of_a_kind_holds_for_the_other(catalogue, kin):
    one, other = (catalogue.crops[key] for key in kin)
    for rule in rules(catalogue):
        for side in (rule.a, rule.b):
            assert side.fits(one) == side.fits(other), rule


def test_no_rule_speaks_of_a_whole_family(catalogue):
    assert not [rule for rule in rules(catalogue) if "family" in (rule.a.kind, rule.b.kind)]


def test_rules_are_read_once(catalogue):
    assert rules(catalogue) is rules(catalogue)


def test_walnut_reaches_as_far_as_its_source_says(catalogue):
    found = [rule for rule in rules(catalogue) if rule.a.latin == "Juglans nigra" and rule.effect == "bad"]
    assert len(found) >= 6
    for rule in found:
        assert (rule.reach, rule.grade) == (18.0, "advice")
        assert "15 to 18 m" in rule.note
        assert "Doubted" in rule.note
        assert "black walnut" in rule.note


def test_what_walnuts_are_said_to_harm_is_also_told_to_be_doubted(catalogue):
    named = {"bad": set(), "none": set()}
    for rule in rules(catalogue):
        if rule.a.latin == "Juglans nigra" and (rule.effect == "bad" or rule.source == "chalkerscott_walnut"):
            named[rule.effect] |= {key for key, one in catalogue.crops.items() if rule.b.fits(one)}
    assert named["bad"] == named["none"]
    assert {"tomato", "early_potato", "red_cabbage", "trained_apple"} <= named["bad"]
    assert {"savoy_cabbage", "lingonberry", "physalis"}.isdisjoint(named["bad"])


def test_a_tree_outside_the_catalogue_is_looked_up_by_its_latin_name(catalogue):
    crops = catalogue.crops
    found, doubt = rules_between(catalogue, "Juglans nigra", crops["tomato"])
    assert (found.on_first, found.on_second, found.rule.reach) == (False, True, 18.0)
    assert doubt.rule.effect == "none"
    found, _ = rules_between(catalogue, crops["tomato"], "Juglans nigra")
    assert (found.on_first, found.on_second) == (True, False)
    assert rules_between(catalogue, "Acer campestre", crops["tomato"]) == ()
    assert len(rules_for(catalogue, "Juglans nigra")) >= 10
    assert rules_for(catalogue, "Juglans regia") == ()


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
    assert {m.rule.grade for m in rules_for(catalogue, tomato, DEFAULT_GRADES)} <= {
        "trial",
        "advice",
        "laboratory",
    }
    assert GRADES == ("trial", "advice", "laboratory", "lore")


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
        ("crop:onion, leek", True), ("crop:onion, garlic", False), ("species:Allium ampeloprasum", True),
        ("species:Allium ampeloprasum Leek", True), ("species:Allium ampeloprasum ampeloprasum", False),
        ("species:Allium cepa", False), ("species:Allium amp", False),
    ],
)  # fmt: skip
def test_plants_that_a_selector_fits(selector, fits):
    leek = plant("leek", "Allium ampeloprasum Leek Group", "Amaryllidaceae")
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
    assert (mention.other.latin, mention.affected, mention.acts) == ("Daucus", True, True)


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
            "neighbours.toml, rule 1, a: 'carrot' must be crop:KEY, species:LATIN, genus:LATIN",
        ),
        (
            text({"a": '"genus:tagetes"'}),
            "rule 1, a: 'genus:tagetes': a genus is a Latin name with a capital",
        ),
        (text({"a": '"species:Tagetes"'}), "rule 1, a: 'species:Tagetes': a species is a Latin name"),
        (text({"a": '"crop:carrot, dil"'}), "rule 1, a: unknown crop 'dil'"),
        (text({"a": '"crop:carrot,"'}), "rule 1, a: 'crop:carrot,': a crop is given by its key"),
        (text({"a": '"crop:dill, dill"'}), "rule 1, a: 'crop:dill, dill': a crop is named twice"),
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
    assert rules(shelf(tmp_path, text({"a": '"genus:Juglans"'})))[0].a.latin == "Juglans"


def test_practice_and_estimate_are_sources(tmp_path):
    assert len(rules(shelf(tmp_path, text({"source": '"practice"'}, {"source": '"estimate"'})))) == 2
