"""Seed that is left of a lot after what was sown from it, and seed that is ordered."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts import amounts, needs
from planner.garden import Lot
from planner.plan import Plan

D = dt.date
BEET = crop(
    "beet", in_row_spacing=0.1, row_spacing=0.3, seeds_per_gram=60, germination=0.65, seed_life_years=4
)
CATALOGUE = catalogue_of(BEET)
#: Seeds of a bed of beet.
SEEDS = 3 * 48 * 4


def beet(key: str, on: str, first: dt.date, **fields):
    return planting(
        key, on, crop="beet", year=first.year, first=first, last=first + dt.timedelta(90), **fields
    )


OLD, NEW = beet("p1", "b1", D(2025, 5, 1)), beet("p2", "b2", D(2026, 5, 1))


def need(year, *lots, plantings=(OLD, NEW)):
    document = garden(bed("b1"), bed("b2"), *plantings, stock=lots)
    (found,) = needs(Plan(document, year, CATALOGUE))
    return found


def lot(key="l1", **fields):
    return Lot(**{"id": key, "crop": "beet", "packed": 2024, "seeds": 700, **fields})


def test_a_lot_without_a_day_of_counting_is_there_in_every_year():
    assert [need(year, lot()).on_hand for year in (2025, 2026)] == [700, 700]


def test_what_was_sown_since_a_lot_was_counted_is_gone():
    counted = lot(counted=D(2025, 1, 1))
    assert need(2025, counted).on_hand == 700
    later = need(2026, counted)
    assert (later.on_hand, later.short) == (700 - SEEDS, SEEDS - (700 - SEEDS))


def test_what_was_sown_before_it_was_counted_is_not_taken_again():
    assert need(2026, lot(counted=D(2025, 6, 1))).on_hand == 700


def test_sowings_of_the_year_before_the_count_are_over():
    early = beet("p3", "b1", D(2026, 3, 1))
    found = need(2026, lot(counted=D(2026, 4, 1), seeds=10), plantings=(early, NEW))
    assert (found.seeds, found.on_hand, found.short) == (SEEDS, 10, SEEDS - 10)


def test_the_oldest_lot_is_used_up_first():
    lots = (
        lot("l1", packed=2024, seeds=100, counted=D(2025, 1, 1)),
        lot("l2", packed=2021, seeds=SEEDS, counted=D(2025, 1, 1)),
    )
    # The lot of 2021 is too old in 2026, and what is left of that of 2024 is all that was there.
    assert need(2026, *lots).on_hand == 100


@pytest.mark.parametrize("seeds", [0, 100, SEEDS])
def test_what_is_ordered_counts_and_is_named_apart(seeds):
    found = need(2026, lot(seeds=50), lot("l2", seeds=seeds, ordered=True), plantings=(NEW,))
    assert (found.on_hand, found.ordered) == (50, seeds)
    assert found.short == max(0, SEEDS - 50 - seeds)


def test_an_order_for_a_year_does_not_serve_the_year_before():
    order = lot("l2", seeds=SEEDS, ordered=True, counted=D(2026, 1, 1), packed=2026)
    assert (need(2025, order).ordered, need(2025, order).short) == (0, SEEDS)
    assert (need(2026, order).ordered, need(2026, order).short) == (SEEDS, 0)


def test_named_varieties_take_from_orders_before_the_unnamed():
    plantings = (NEW, beet("p3", "b1", D(2026, 5, 1), variety="Egyptian"))
    stock = (
        lot("l1", variety="Egyptian", seeds=SEEDS, ordered=True),
        lot("l2", variety="Egyptian", seeds=20),
    )
    document = garden(bed("b1"), bed("b2"), *plantings, stock=stock)
    plan = Plan(document, 2026, CATALOGUE)
    named, unnamed = sorted(needs(plan, amounts(plan)), key=lambda one: not one.variety)
    assert (named.on_hand, named.ordered, named.short) == (20, SEEDS, 0)
    assert (unnamed.on_hand, unnamed.ordered, unnamed.short) == (0, 20, SEEDS - 20)


def test_what_is_sown_before_the_count_takes_nothing_of_what_is_ordered():
    early = beet("p3", "b1", D(2026, 3, 1))
    lots = (lot("l1", seeds=50, counted=D(2026, 4, 1)), lot("l2", seeds=SEEDS - 50, ordered=True))
    found = need(2026, *lots, plantings=(early, NEW))
    assert (found.on_hand, found.ordered, found.short) == (50, SEEDS - 50, 0)
