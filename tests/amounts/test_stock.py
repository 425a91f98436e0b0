"""Seed needed against seed on hand: what is short."""

from __future__ import annotations

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts import amounts, needs, shortages
from planner.amounts.lots import stock_states
from planner.garden import Lot
from planner.plan import Plan

BEET = crop(
    "beet", in_row_spacing=0.1, row_spacing=0.3, seeds_per_gram=60, germination=0.65, seed_life_years=4
)
BARE = crop("bare", in_row_spacing=0.2, row_spacing=0.2, germination=0.5)
CATALOGUE = catalogue_of(BEET, BARE)
#: Stations of a bed of 4.8 m x 1.2 m in beet.
STATIONS = 48 * 4


def lot(key="l1", **fields):
    return Lot(**{"id": key, "crop": "beet", **fields})


def wants(*plantings, stock=()):
    document = garden(bed("b1"), bed("b2"), *plantings, stock=stock)
    plan = Plan(document, 2026, CATALOGUE)
    return {(need.crop, need.variety): need for need in needs(plan, amounts(plan))}


def test_what_is_short_is_wanted_less_on_hand():
    need = wants(planting(crop="beet"), stock=(lot(seeds=100, packed=2025),))["beet", ""]
    assert (need.seeds, need.on_hand, need.short) == (3 * STATIONS, 100, 3 * STATIONS - 100)
    assert need.short_grams == pytest.approx(need.short / 60)


def test_enough_is_not_short():
    need = wants(planting(crop="beet"), stock=(lot(grams=10, packed=2025),))["beet", ""]
    assert (need.on_hand, need.short, need.short_grams) == (600, 0, 0.0)


def test_old_and_dead_seed_is_not_on_hand():
    stock = (lot("l1", seeds=900, packed=2010), lot("l2", seeds=900, germination=0.0))
    need = wants(planting(crop="beet"), stock=stock)["beet", ""]
    assert (need.on_hand, need.unusable, need.short) == (0, 2, 3 * STATIONS)


def test_lots_of_another_variety_do_not_help_a_named_one():
    found = wants(planting(crop="beet", variety="Egyptian"), stock=(lot(seeds=900, variety="Chioggia"),))
    assert found["beet", "Egyptian"].short == 3 * STATIONS


def test_unnamed_plantings_take_what_the_named_leave():
    stock = (lot("l1", seeds=700, variety="Egyptian"), lot("l2", seeds=100))
    plantings = (planting("p1", "b1", crop="beet"), planting("p2", "b2", crop="beet", variety="egyptian"))
    found = wants(*plantings, stock=stock)
    assert (found["beet", "egyptian"].on_hand, found["beet", "egyptian"].short) == (700, 0)
    assert found["beet", ""].on_hand == 100 + 700 - 3 * STATIONS
    assert found["beet", ""].short == 2 * 3 * STATIONS - 800


def test_lots_of_another_crop_do_not_help():
    stock = (lot("l1", crop="bare", variety="Egyptian", seeds=900), lot("l2", seeds=10))
    assert wants(planting(crop="beet"), stock=stock)["beet", ""].on_hand == 10


def test_nothing_short_weighs_nothing_even_where_seeds_cannot_be_weighed():
    need = wants(planting(crop="bare"), stock=(lot(crop="bare", seeds=9000),))["bare", ""]
    assert (need.short, need.short_grams) == (0, 0.0)
    need = wants(planting(crop="bare"), stock=(lot(crop="bare", seeds=1),))["bare", ""]
    assert need.short > 0
    assert need.short_grams is None


def test_no_lot_serves_two_named_wants_at_once():
    plantings = (planting("p1", "b1", crop="beet"), planting("p2", "b2", crop="beet"))
    need = wants(*plantings, stock=(lot(seeds=600),))["beet", ""]
    assert (need.seeds, need.short) == (6 * STATIONS, 6 * STATIONS - 600)


def test_what_cannot_be_told_is_among_the_shortages():
    document = garden(
        bed(),
        planting("p1", crop="bare"),
        stock=(lot(crop="bare", grams=5),),
    )
    plan = Plan(document, 2026, CATALOGUE)
    (need,) = shortages(plan, amounts(plan))
    assert (need.on_hand, need.short) == (None, None)
    assert "cannot be counted" in need.missing[0]


def test_plantings_without_seed_need_none():
    assert wants(planting(crop="beet", start="bought")) == {}
    assert stock_states(garden(), CATALOGUE, 2026) == ()
