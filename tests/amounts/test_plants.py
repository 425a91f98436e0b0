"""Amounts of plantings and their totals."""

from __future__ import annotations

import math

import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.amounts import amount, amounts, totals
from planner.garden import OwnFigure, Variety
from planner.plan import Plan

WORDS = {"value": ["raised"], "source": "estimate"}
CARROT = crop(
    in_row_spacing=0.075, row_spacing=0.3, sowing_spacing=0.02, seeds_per_gram=800, germination=0.55
)
BEET = crop("beet", in_row_spacing=0.1, row_spacing=0.3, seeds_per_gram=60, germination=0.65)
CABBAGE = crop(
    "cabbage", in_row_spacing=0.4, row_spacing=0.4, seeds_per_gram=300, germination=0.75, starts=WORDS
)
GARLIC = crop(
    "garlic", in_row_spacing=0.15, row_spacing=0.3, starts={"value": ["cloves"], "source": "estimate"}
)
BARE = crop("bare", in_row_spacing=0.2, row_spacing=0.2)
DEAD = crop("dead", in_row_spacing=0.2, row_spacing=0.2, germination=0, seeds_per_gram=10)
CATALOGUE = catalogue_of(CARROT, BEET, CABBAGE, GARLIC, BARE, DEAD)


def one(**fields):
    document = garden(bed(), planting(**fields))
    return amount(Plan(document, 2026, CATALOGUE), document.plantings[0])


def test_a_thinned_drill_is_sown_along_all_its_rows():
    got = one()
    assert (got.plants, got.rows, got.sowing) == (64 * 4, 4, "drill")
    assert got.seeds == got.thinned_from == 4 * math.ceil(4.8 / 0.02)
    assert got.seed_grams == pytest.approx(960 / 800)
    assert (got.raise_, got.acquire, got.seeds_per_station) == (0, 0, None)


def test_stations_get_the_seeds_of_the_rule():
    got = one(crop="beet")
    assert got.sowing == "stations"
    assert got.seeds_per_station == math.ceil(math.log(0.05) / math.log(0.35)) == 3
    assert got.seeds == 3 * got.plants
    assert got.seed_grams == pytest.approx(got.seeds / 60)


def test_a_drill_without_a_sowing_spacing_is_sown_at_the_final_one():
    got = one(crop="beet", sowing="drill")
    assert got.seeds == 4 * 48


def test_raised_plants_are_sown_with_something_to_spare():
    got = one(crop="cabbage")
    assert got.start == "raised"
    assert got.plants == 12 * 3
    assert got.raise_ == got.seeds > 36 / 0.75
    assert got.seed_grams == pytest.approx(got.seeds / 300)


def test_broadcast_seed_is_reckoned_on_the_average():
    found = one(crop="beet", arrangement={"kind": "scatter", "density": 100})
    assert found.sowing == "broadcast"
    assert found.plants > 500
    assert found.seeds == math.ceil(found.plants / 0.65)
    assert found.seeds_per_station is None
    assert found.seed_grams == pytest.approx(found.seeds / 60)


def test_scattered_plants_that_are_raised_are_raised():
    found = one(crop="beet", arrangement={"kind": "scatter", "density": 10}, start="raised")
    assert found.sowing == ""
    assert found.raise_ == found.seeds > found.plants


def test_broadcast_seed_without_a_germination_is_not_invented():
    bare = catalogue_of(crop("beet", in_row_spacing=0.1, row_spacing=0.3))
    document = garden(bed(), planting(crop="beet", arrangement={"kind": "scatter", "density": 10}))
    found = amount(Plan(document, 2026, bare), document.plantings[0])
    assert found.seeds is None
    assert "seeds to broadcast cannot be worked out" in found.missing[0]


def test_cloves_and_bought_plants_are_got_not_sown():
    assert (one(crop="garlic").acquire, one(crop="garlic").seeds) == (32 * 4, 0)
    bought = one(crop="cabbage", start="bought")
    assert (bought.acquire, bought.seeds, bought.raise_) == (36, 0, 0)


def test_what_stands_already_needs_nothing():
    got = one(crop="cabbage", start="standing")
    assert (got.plants, got.acquire, got.seeds, got.seed_grams) == (36, 0, 0, 0.0)


@pytest.mark.parametrize(
    ("fields", "seeds", "words"),
    [
        (
            {"crop": "bare"},
            None,
            "No germination is known for bare: seeds for each plant cannot be worked out",
        ),
        ({"crop": "bare", "start": "raised"}, None, "No germination is known for bare: seeds to raise"),
        ({"crop": "bare", "sowing": "drill"}, 6 * 24, "No seeds per gram are known for bare"),
        ({"crop": "dead"}, None, "No germination is known for dead"),
        ({"crop": "unheard of"}, None, "No germination is known for unheard of"),
    ],
)
def test_what_is_not_known_is_said_and_not_invented(fields, seeds, words):
    got = one(**fields)
    assert got.seeds == seeds
    assert got.seed_grams is None
    assert any(words in line for line in got.missing)


def test_an_own_figure_goes_before_the_catalogues():
    own = Variety(
        id="v1", crop="beet", name="Egyptian", figures=(OwnFigure(field="germination", value=0.96),)
    )
    document = garden(bed(), planting(crop="beet", variety="egyptian"), varieties=(own,))
    assert amount(Plan(document, 2026, CATALOGUE), document.plantings[0]).seeds_per_station == 1


def test_no_stations_need_no_seed():
    got = one(plot={"kind": "stretch", "start": 50, "end": 51})
    assert (got.plants, got.seeds, got.seed_grams) == (0, 0, 0.0)
    assert "lies outside" in got.problem


def test_an_empty_garden_needs_nothing():
    assert amounts(Plan(garden(), 2026, CATALOGUE)) == ()
    assert totals(()) == ()


def test_totals_by_variety_add_up_and_say_where_a_part_is_unknown():
    document = garden(
        bed("b1"),
        bed("b2", rectangle(2.4, 1.2)),
        planting("p1", "b2"),
        planting("p2", "b1"),
        planting("p3", "b1", variety="Nantes"),
        planting("p4", "b1", crop="bare"),
        planting("p5", "b1", crop="beet", year=2025),
    )
    parts = amounts(Plan(document, 2026, CATALOGUE))
    assert [part.planting.id for part in parts] == ["p2", "p3", "p4", "p1"]  # bed by bed
    found = {(total.crop, total.variety): total for total in totals(parts)}
    assert list(found) == [("bare", ""), ("carrot", ""), ("carrot", "Nantes")]
    carrots = found["carrot", ""]
    assert (carrots.plantings, carrots.plants, carrots.seeds) == (2, 256 + 128, 960 + 480)
    assert carrots.area == pytest.approx(4.8 * 1.2 + 2.4 * 1.2)
    assert carrots.seed_grams == pytest.approx(1440 / 800)
    assert found["bare", ""].seeds is None
