"""Lots of seed: their age, their number, and tested germination in the amounts."""

from __future__ import annotations

import datetime as dt
import math

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts import amount
from planner.amounts.lots import lot_as_tested, lot_state
from planner.amounts.tasks import planting_tasks
from planner.garden import Lot, OwnFigure, Variety
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


def state(one, year=2026, **fields):
    return lot_state(garden(**fields), CATALOGUE, one, year)


# -- age ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("packed", "words", "usable"),
    [
        (2026, "last good year 2030", True),
        (2022, "last good year 2026", True),
        (2021, "too old since 2026", False),
        (2010, "too old since 2015", False),
        (None, "year packed not known", True),
    ],
)
def test_age_of_a_lot_against_its_crops_storage_life(packed, words, usable):
    found = state(lot(packed=packed, seeds=10))
    assert (found.age_words, found.usable) == (words, usable)


def test_a_crop_without_a_storage_life_says_so():
    found = state(lot(crop="bare", packed=2000, seeds=10))
    assert found.usable
    assert found.age == 26
    assert found.age_words == "storage life not known"
    assert "No storage life is known for seed of bare" in found.missing


def test_an_own_varietys_storage_life_goes_before_the_crops():
    own = Variety(
        id="v1", crop="beet", name="Egyptian", figures=(OwnFigure(field="seed_life_years", value=1),)
    )
    assert state(lot(packed=2024, variety="EGYPTIAN"), varieties=(own,)).too_old_since == 2026
    assert state(lot(packed=2024, variety="Other"), varieties=(own,)).too_old_since is None


# -- number ------------------------------------------------------------------------------------


def test_seeds_on_hand_are_counted_or_weighed():
    assert state(lot(seeds=250, grams=1.0)).seeds == 250
    assert state(lot(grams=2.5)).seeds == 150
    assert state(lot(grams=0.1)).seeds == 6
    assert state(lot(crop="bare", grams=0)).seeds == 0


def test_seeds_that_cannot_be_counted_are_not_invented():
    assert state(lot(crop="bare", grams=2)).seeds is None
    assert "cannot be counted" in " ".join(state(lot(crop="bare", grams=2)).missing)
    assert "Neither seeds nor grams are given" in state(lot()).missing
    assert state(lot(crop="unheard of", grams=2, packed=2020)).seeds is None


def test_germination_is_the_tested_one_else_the_standard():
    assert (state(lot(germination=0.9)).germination, state(lot(germination=0.9)).tested) == (0.9, True)
    assert (state(lot()).germination, state(lot()).tested) == (0.65, False)
    assert state(lot(germination=0.0)).dead
    assert not state(lot(germination=0.0)).usable


# -- tested germination in the amounts ---------------------------------------------------------


def one(*stock, **fields):
    document = garden(bed(), planting(crop="beet", **fields), stock=stock)
    return amount(Plan(document, 2026, CATALOGUE), document.plantings[0])


def per_station(germination):
    return max(1, math.ceil(math.log(0.05) / math.log(1 - germination)))


def test_a_tested_lot_goes_before_the_standard():
    found = one(lot(germination=0.9, packed=2025))
    assert (found.germination, found.tested_lot) == (0.9, "l1")
    assert found.seeds == per_station(0.9) * STATIONS == 2 * STATIONS
    assert one().seeds == per_station(0.65) * STATIONS == 3 * STATIONS
    assert one().tested_lot == ""


def test_the_newest_test_counts():
    stock = (lot("l1", germination=0.5, packed=2025), lot("l2", germination=0.8, packed=2020))
    assert one(*stock).tested_lot == "l1"
    assert one(*reversed(stock)).tested_lot == "l1"
    same = (lot("l1", germination=0.5, packed=2025), lot("l2", germination=0.8, packed=2025))
    assert one(*same).tested_lot == "l2"


def test_a_lot_of_another_variety_does_not_count():
    other = lot(variety="Chioggia", germination=0.9)
    assert one(other, variety="Egyptian").germination == 0.65
    assert one(other, variety="chioggia").germination == 0.9
    assert one(other).germination == 0.9  # no variety named: any lot of the crop
    unnamed = lot("l2", germination=0.4, packed=2000)
    assert one(other, unnamed).germination == 0.4


def test_a_lot_that_was_not_tested_or_is_dead_does_not_count():
    assert one(lot(seeds=10), lot("l2", germination=0.0, packed=2026)).germination == 0.65


def test_a_test_goes_before_an_own_varietys_figure():
    own = Variety(
        id="v1", crop="beet", name="Egyptian", figures=(OwnFigure(field="germination", value=0.96),)
    )
    document = garden(
        bed(),
        planting(crop="beet", variety="Egyptian"),
        varieties=(own,),
        stock=(lot(variety="Egyptian", germination=0.5),),
    )
    assert amount(Plan(document, 2026, CATALOGUE), document.plantings[0]).germination == 0.5


def test_an_edit_of_the_stock_is_seen_by_the_next_plan():
    document = garden(bed(), planting(crop="beet"), stock=(lot(germination=0.9),))
    before = Plan(document, 2026, CATALOGUE)
    assert amount(before, document.plantings[0]).seeds == 2 * STATIONS
    after = before.after(document.with_(stock=()))
    assert amount(after, document.plantings[0]).seeds == 3 * STATIONS
    assert lot_as_tested(before, document.plantings[0]) is document.stock[0]


def test_the_work_of_sowing_follows_a_new_test():
    def to_sow(plan):
        return next(task.seeds for task in planting_tasks(plan, plan.plantings[0]) if task.kind == "sow")

    document = garden(bed(), planting(crop="beet", pinned_dates={"sow": dt.date(2026, 4, 20)}))
    before = Plan(document, 2026, CATALOGUE)
    assert to_sow(before) == 3 * STATIONS
    assert to_sow(before.after(document.with_(stock=(lot(germination=0.9),)))) == 2 * STATIONS
