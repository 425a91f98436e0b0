"""Own crops and sources: keys, edits, what is taken of another garden, and the catalogue with them."""

from __future__ import annotations

import pytest
from making import bed, garden, planting
from pydantic import ValidationError

from planner.crops import Catalogue
from planner.garden import Garden, OwnCrop, OwnFigure, OwnSource, OwnWord, Site, Variety
from planner.garden import edits as e
from planner.garden.edits import EditError
from planner.garden.join import join
from planner.garden.own_catalogue import own_catalogue
from planner.garden.planting_figures import figures_of
from planner.plan import Plan
from planner.storage import dump, parse


def with_sea_beet() -> Garden:
    start, source = e.put_source(garden(bed("b1")), title="Shore walks", author="Doe J", year=1988)
    document, key = e.put_crop(
        start,
        name="Sea beet",
        like="chard",
        latin="Beta vulgaris subsp. maritima",
        family="Amaranthaceae",
        life_cycle="perennial",
        figures=(OwnFigure(field="height", value=0.8, low=0.6, high=1.0, source=source),),
        words=(OwnWord(field="hardiness", words=("very hardy",)),),
    )
    assert (source, key) == ("own_shore_walks", "own_sea_beet")
    return document


def test_an_own_crop_has_its_own_figures_and_else_those_of_the_crop_it_is_like(catalogue: Catalogue) -> None:
    document = with_sea_beet()
    chard = catalogue.crops["chard"]
    crop = own_catalogue(catalogue, document).crops["own_sea_beet"]
    assert crop.height is not None
    assert (crop.height.value, crop.height.low, crop.height.high, crop.height.provenance) == (
        0.8,
        0.6,
        1.0,
        "chosen",
    )
    assert crop.in_row_spacing == chard.in_row_spacing
    assert crop.hardiness is not None
    assert (crop.hardiness.value, crop.hardiness.provenance) == ("very hardy", "practice")
    assert (crop.latin, crop.life_cycle, crop.eppo) == ("Beta vulgaris subsp. maritima", "perennial", None)


def test_the_catalogue_of_a_garden_stays_the_same_while_its_own_crops_do(catalogue: Catalogue) -> None:
    document = with_sea_beet()
    one = own_catalogue(catalogue, document)
    moved = e.move_things(document, ["b1"], 1, 0)
    assert own_catalogue(catalogue, moved) is one
    assert own_catalogue(one, moved) is one, "a plan hands on the catalogue that it has"
    american = moved.with_(site=Site(units="feet_inches"))
    assert own_catalogue(one, american).crops["courgette"].name == "zucchini"
    assert own_catalogue(one, garden(bed("b1"))) is catalogue.in_english("british")


def test_a_plan_works_with_own_crops_and_tells_their_sources(catalogue: Catalogue) -> None:
    document = with_sea_beet()
    document, key = e.add_planting(document, "b1", "own_sea_beet", 2026)
    plan = Plan(document, 2026, catalogue)
    assert plan.figures_of(document.plantings_by_id[key]).number("height") == 0.8
    assert plan.placed(document.plantings_by_id[key]).plants > 0
    assert plan.catalogue.source_line("own_shore_walks") == "Doe J 1988. Shore walks"
    assert plan.after(document).catalogue is plan.catalogue


def test_words_of_a_variety_take_the_place_of_its_crops(catalogue: Catalogue) -> None:
    hardy = Variety(id="v1", crop="pea", name="Winter", words=(OwnWord(field="support", words=("none",)),))
    document = garden(bed("b1"), planting("p1", crop="pea", variety="winter"), varieties=(hardy,))
    first, second = (figures_of(document, catalogue, document.plantings[0]).crop for _ in range(2))
    assert first is second, "facts compare their inputs by identity"
    assert first is not None
    assert first.support is not None
    assert first.support.value == "none"
    assert first.height == catalogue.crops["pea"].height


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: OwnWord(field="hardiness", words=("icy",)), "'icy' is none of"),
        (lambda: OwnWord(field="hardiness", words=("tender", "very hardy")), "is one word"),
        (lambda: OwnWord(field="height", words=("tall",)), "is no word of a crop"),
        (lambda: OwnWord(field="needs_pollination", words=("maybe",)), "is yes or no"),
        (lambda: OwnFigure(field="height", value=900), "outside 0.001 to 20 m"),
        (lambda: OwnFigure(field="height", value=0.5, low=0.6, high=0.4), "impossible range"),
        (lambda: OwnCrop(key="chard", name="Chard"), "should match pattern"),
    ],
)
def test_impossible_words_and_figures_are_refused(make: object, words: str) -> None:
    with pytest.raises(ValidationError, match=words):
        make()  # type: ignore[operator]


def test_a_crop_that_is_planted_and_a_source_that_is_named_stay() -> None:
    document = with_sea_beet()
    planted, _ = e.add_planting(document, "b1", "own_sea_beet", 2026)
    with pytest.raises(EditError, match="Sea beet is planted"):
        e.remove_own(planted, "own_sea_beet")
    with pytest.raises(EditError, match="figures of Sea beet come from Shore walks"):
        e.remove_own(document, "own_shore_walks")
    bare = e.remove_own(e.remove_own(document, "own_sea_beet"), "own_shore_walks")
    assert (bare.crops, bare.sources) == ((), ())


def test_what_is_taken_of_another_garden_brings_its_sources_and_nothing_twice() -> None:
    other = with_sea_beet()
    other, _ = e.put_variety(other, crop="own_sea_beet", name="Red stem")
    taken = e.take_own(garden(bed("b1")), other, [], [other.varieties[0].id])
    assert [own.key for own in taken.crops] == ["own_sea_beet"]
    assert [own.key for own in taken.sources] == ["own_shore_walks"]
    assert [own.name for own in taken.varieties] == ["Red stem"]
    assert e.take_own(taken, other, ["own_sea_beet"], [other.varieties[0].id]) is taken


def test_a_pasted_planting_brings_its_own_crop() -> None:
    other, key = e.add_planting(with_sea_beet(), "b1", "own_sea_beet", 2026)
    pasted, _ = e.paste(garden(bed("b9", name="Empty")), other, ["b1"], 5, 0)
    assert [own.key for own in pasted.crops] == ["own_sea_beet"]
    assert [one.crop for one in pasted.plantings] == ["own_sea_beet"]
    assert key


def test_own_crops_are_kept_in_the_file_and_joined_by_key() -> None:
    document = with_sea_beet()
    assert parse(dump(document)) == document
    mine = e.put_crop(document, "own_sea_beet", notes="salty")[0]
    theirs = e.put_crop(document, "own_sea_beet", latin="Beta maritima")[0]
    joined = join(document, mine, theirs)
    assert joined.conflicts == ()
    assert (joined.garden.crops[0].notes, joined.garden.crops[0].latin) == ("salty", "Beta maritima")


@pytest.mark.parametrize(
    ("name", "key"),
    [("Œillet d'Inde", "own_illet_d_inde"), ("紫蘇", "own_1"), ("A" * 200, "own_" + "a" * 40)],
)
def test_names_in_any_script_make_keys(name: str, key: str) -> None:
    document, made = e.put_crop(garden(), name=name[:100])
    assert made == key
    assert OwnSource(key=made, title="x").key == key
    assert document.crops[0].name == name[:100]
