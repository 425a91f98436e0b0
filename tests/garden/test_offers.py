"""Offers, planting stock, and what was ordered and has arrived."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden

from planner.garden import Garden, Lot, Offer, OwnCrop, PlantingStock, ShedItem
from planner.garden import edits as e
from planner.garden.conflict_words import conflict_words
from planner.garden.conflicts import Conflict
from planner.garden.differences import difference_words
from planner.garden.edits import EditError
from planner.garden.join import join
from planner.storage import dump, parse

START = garden(bed("b1", name="North"))
DAY = dt.date(2026, 3, 9)


def test_an_offer_is_added_changed_and_removed():
    there, key = e.put_offer(START, crop="carrot", seeds=400, price=2.5, shop="by post")
    assert there.offers == (Offer(id=key, crop="carrot", seeds=400, price=2.5, shop="by post"),)
    dearer, same = e.put_offer(there, key, price=3)
    assert (same, dearer.offers[0].price) == (key, 3)
    assert e.put_offer(dearer, key, price=3)[0] is dearer
    assert e.remove_offer(dearer, key) == START
    assert parse(dump(dearer)) == dearer


def test_planting_stock_is_added_changed_and_removed():
    there, key = e.put_planting_stock(START, crop="potato", kind="tubers", number=30, year=2026)
    fewer, _ = e.put_planting_stock(there, key, number=12)
    assert fewer.planting_stock[0].number == 12
    assert e.remove_offer(fewer, key) == START
    assert parse(dump(fewer)) == fewer


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"crop": "carrot"}, "carrot: a packet of seed needs its seeds or grams"),
        ({"crop": "carrot", "seeds": 0}, "seeds 0: at least 1 is possible"),
        ({"crop": "carrot", "seeds": 9, "pieces": 3}, "a packet of seed has seeds or grams, not pieces"),
        ({"crop": "onion", "kind": "sets", "grams": 500}, "a pack of sets needs its pieces"),
        ({"crop": "onion", "kind": "sets", "pieces": 50, "seeds": 9}, "has pieces, not seeds"),
        ({"crop": "onion", "kind": "sets", "pieces": 50, "price": -1}, "price -1: at least 0 is possible"),
    ],
)
def test_an_offer_without_a_size_of_its_kind_is_refused(fields, words):
    with pytest.raises(EditError, match=words):
        e.put_offer(START, **fields)


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"kind": "potting mix"}, "potting mix needs its litres"),
        ({"kind": "cell tray"}, "a tray of cells needs the number of its cells"),
        ({"kind": "pot"}, "a pot needs its width"),
        ({"kind": "peg", "sold": True, "ordered": True}, "is a size in which it is sold, or is ordered"),
    ],
)
def test_what_plants_are_raised_in_needs_its_size(fields, words):
    with pytest.raises(EditError, match=words):
        e.put_shed_item(START, **fields)


def test_what_is_not_there_is_said():
    for edit in (e.put_offer, e.put_planting_stock):
        with pytest.raises(EditError, match=r"there is no .* 'x9'"):
            edit(START, "x9", notes="")
    with pytest.raises(EditError, match="no offer and no planting stock 'x9'"):
        e.remove_offer(START, "x9")


def with_orders() -> Garden:
    return START.with_(
        stock=(Lot(id="l1", crop="carrot", seeds=50, ordered=True), Lot(id="l2", crop="carrot", seeds=9)),
        planting_stock=(PlantingStock(id="g1", crop="onion", kind="sets", number=50, ordered=True),),
        shed=(ShedItem(id="m1", kind="fleece", length=10, width=2, ordered=True, uncut=True),),
    )


def test_what_arrives_is_on_hand_from_its_day_on():
    there = with_orders()
    for key in ("l1", "g1", "m1"):
        there = e.arrived(there, key, DAY)
    assert there.stock[0] == Lot(id="l1", crop="carrot", seeds=50, counted=DAY)
    assert there.planting_stock[0].ordered is False
    assert (there.shed[0].ordered, there.shed[0].since, there.shed[0].uncut) == (False, DAY, True)


@pytest.mark.parametrize("key", ["l2", "b1", "x9"])
def test_only_what_is_ordered_arrives(key):
    with pytest.raises(EditError, match=f"nothing with the id '{key}' is ordered"):
        e.arrived(with_orders(), key, DAY)


def test_an_own_crop_with_offers_stays():
    own = START.with_(crops=(OwnCrop(key="own_oca", name="Oca"),))
    for there in (
        e.put_offer(own, crop="own_oca", kind="tubers", pieces=5)[0],
        e.put_planting_stock(own, crop="own_oca", kind="tubers", number=5)[0],
    ):
        with pytest.raises(EditError, match="Oca has varieties, seed or offers"):
            e.remove_own(there, "own_oca")


def test_differences_and_conflicts_name_offers():
    there = e.put_offer(START, crop="carrot", seeds=400)[0]
    assert difference_words(START, there) == "1 offer added"
    stocked = e.put_planting_stock(START, crop="onion", kind="sets", number=9)[0]
    assert difference_words(stocked, START) == "1 planting stock removed"
    mine, theirs = (e.put_offer(there, "o1", price=price)[0] for price in (2, 3))
    joined = join(there, mine, theirs).garden
    assert joined.offers[0].price == 2
    (conflict,) = joined.conflicts
    assert (
        conflict_words(joined, conflict)
        == "the offer of seed of carrot: price is 2 in this garden, 3 in the other"
    )
    assert e.settle(joined, conflict, True).offers[0].price == 3
    gone = Conflict(part="planting_stock", key="g1", other="null")
    kept = stocked.with_(conflicts=(gone,))
    assert conflict_words(kept, gone).startswith("sets of onion: removed in the other garden")
    assert e.settle(kept, gone, True).planting_stock == ()
