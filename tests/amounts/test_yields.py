"""What plantings yield: published yields of rows of 100 feet, and what closer rows make of them."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.amounts.yields import planting_yield
from planner.garden import OwnFigure, Rows, StaggeredRows, Variety
from planner.plan import Plan

TABLE = Path(__file__).parents[1] / "reference" / "yield_and_planting_per_person.csv"
LB, FOOT = 453.59237, 0.3048
HUNDRED = 100 * FOOT


def printed():
    with TABLE.open(encoding="utf-8", newline="") as file:
        return [(row["crop"], float(row["yield_per_100ft"])) for row in csv.DictReader(file)]


def yields(one, *crops, varieties=(), outline=None):
    document = garden(bed("b1", outline or rectangle(HUNDRED, 0.9)), one, varieties=varieties)
    return planting_yield(Plan(document, 2026, catalogue_of(*crops)), document.plantings[0])


@pytest.mark.parametrize(("key", "pounds"), printed())
def test_a_row_of_100_feet_yields_what_is_printed(key, pounds):
    one = crop(key, in_row_spacing=0.1, row_spacing=0.9, yield_per_metre=pounds * LB / 1000 / HUNDRED)
    got = yields(planting(crop=key, arrangement=Rows(rows=1)), one)
    assert got.grams == pytest.approx(pounds * LB, abs=1)
    assert (got.low, got.high) == (got.grams, got.grams)


def test_the_catalogues_potatoes_yield_100_lb_to_100_feet_and_200_in_two_rows():
    document = garden(bed("b1", rectangle(HUNDRED, 1.8)), planting(crop="potato", arrangement=Rows(rows=2)))
    plan = Plan(document, 2026)
    assert planting_yield(plan, document.plantings[0]).grams == pytest.approx(200 * LB, rel=0.002)


ROW = crop(in_row_spacing=0.1, row_spacing=0.4, yield_per_metre={"value": 1.0, "low": 0.5, "high": 2.0, "source": "guide"})  # fmt: skip
PLANT = crop("tomato", in_row_spacing=0.4, row_spacing=0.5, yield_per_plant=3.0)


@pytest.mark.parametrize(
    ("rows", "share"),
    # on 1.2 m: as in a field (0.4 m), twice as close, four times: never more than the field on the same ground
    [(2, 1.0), (3, 1.0), (6, 0.5), (12, 0.25)],
)
def test_close_rows_yield_what_the_ground_yields_in_the_rows_of_the_publication(rows, share):
    got = yields(planting(arrangement=Rows(rows=rows)), ROW, outline=rectangle(10, 1.2))
    assert got.grams == pytest.approx(10_000 * rows * share, rel=0.01)
    assert got.low == pytest.approx(got.grams / 2, rel=0.01)
    assert got.high == pytest.approx(got.grams * 2, rel=0.01)


#: Published yields of fields, the most of each: potatoes of Oregon and tomatoes of Alabama and Wisconsin's rows (DSSAT data;
#: MDPI tunnels 2020), broccoli and cauliflower of Connecticut (CAES), a garden of many crops half a pound a square foot
#: (Rutgers 2012), to which roots close together may come up to three times.  Means of fields: a garden may do a little better. [kg/m2]
MOST_OF_GROUND = {
    "potato": 10.2, "tomato": 6.0, "broccoli": 1.82, "cauliflower": 2.11,
    "carrot": 7.3, "onion": 7.3, "beetroot": 7.3, "turnip": 7.3, "swede": 7.3, "cabbage": 7.3, "leek": 7.3,
}  # fmt: skip


@pytest.mark.parametrize("key", MOST_OF_GROUND)
def test_no_bed_yields_more_of_its_ground_than_published_fields(key):
    for arrangement in (Rows(), Rows(row_spacing=0.1, in_row_spacing=0.1), StaggeredRows(spacing_for="beds")):
        one = planting(crop=key, arrangement=arrangement)
        plan = Plan(garden(bed("b1", rectangle(4.8, 3.6)), one), 2026)
        grams = planting_yield(plan, plan.plantings[0]).grams
        assert 0 < grams / 1000 / (4.8 * 3.6) <= 1.15 * MOST_OF_GROUND[key], arrangement


def test_least_and_most_are_those_of_all_publications():
    """Potatoes: 100 lb to 100 feet (Kansas), 2 lb of seed to 10 feet and ten times that harvested (Maine), 9 kg from 3 m."""
    one = planting(crop="potato", arrangement=Rows(rows=1))
    plan = Plan(garden(bed("b1", rectangle(HUNDRED, 0.9)), one), 2026)
    got = planting_yield(plan, plan.plantings[0])
    assert (got.low, got.high) == (got.grams, pytest.approx(3000 * HUNDRED, rel=0.002))
    assert got.grams == pytest.approx(100 * LB, rel=0.002)


def test_a_single_row_has_the_ground_beside_its_plot():
    got = yields(planting(arrangement=Rows(rows=1)), ROW, outline=rectangle(10, 0.1))
    assert got.grams == 10_000


def test_plants_yield_one_by_one():
    got = yields(planting(crop="tomato"), PLANT, outline=rectangle(4, 1.0))
    assert got.grams == 3000 * 10 * 2


def test_own_figures_come_first_whatever_they_are_of():
    own = Variety(
        id="v1", crop="tomato", name="Mine", figures=(OwnFigure(field="yield_per_metre", value=2.0),)
    )
    got = yields(planting(crop="tomato", variety="Mine", arrangement=Rows(rows=1)), PLANT, varieties=(own,))
    assert got.grams == pytest.approx(2000 * HUNDRED, abs=1)
    assert got.provenance == "practice"


def test_a_yield_that_is_not_known_is_said_and_never_none_at_all():
    got = yields(planting(), crop(in_row_spacing=0.1, row_spacing=0.4))
    assert got.grams is None
    assert got.missing == "no yield of carrot is known"


def test_a_further_product_has_a_yield_of_its_own():
    bean = crop(
        "bean", in_row_spacing=0.1, row_spacing=0.5, yield_per_metre=1.2,
        product={"value": "pods", "source": "practice"},
        further_products=[{"product": "dry seed", "yield_per_metre": {"value": 0.1, "source": "guide"}}],
    )  # fmt: skip
    alone = Rows(rows=1)
    assert yields(planting(crop="bean", arrangement=alone), bean).grams == pytest.approx(
        1200 * HUNDRED, abs=1
    )
    dry = planting(crop="bean", product="dry seed", arrangement=alone)
    assert yields(dry, bean).grams == pytest.approx(100 * HUNDRED, abs=1)


@pytest.mark.parametrize(
    ("unit", "product", "counted"),
    [("head", "heads", True), ("piece", "roots", True), ("piece", "fruit", False), ("bunch", "roots", False)],
)
def test_pieces_are_counted_where_one_plant_is_one(unit, product, counted):
    words = {name: {"value": value, "source": "practice"} for name, value in (("harvest_unit", unit), ("product", product))}  # fmt: skip
    got = yields(planting(arrangement=Rows(rows=1)), crop(in_row_spacing=0.5, row_spacing=0.5, yield_per_plant=0.3, **words))  # fmt: skip
    assert got.pieces == (round(got.grams / 300) if counted else None)
    assert got.unit == (unit if counted else "kilogram")
