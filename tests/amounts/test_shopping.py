"""The shopping list: what it says of single needs, and what holds of every garden."""

from __future__ import annotations

import datetime as dt
import math
import random
from functools import lru_cache
from typing import get_args

import pytest
from making import bed, garden, planting, ticked
from random_edits import random_edit
from sample_reading import FOLDER

from planner.amounts import amounts
from planner.amounts.bench import bench_year, benches_wanted
from planner.amounts.covers import covers
from planner.amounts.ordering import order
from planner.amounts.raising import mix_to_have, raisings
from planner.amounts.sharing import Job, most_at_once
from planner.amounts.shopping import Shopping, shopping
from planner.amounts.shopping_items import Item, Served, first_uncovered, to_buy_of
from planner.amounts.spread import spreads
from planner.amounts.supports import supports
from planner.crops import Catalogue, load_catalogue
from planner.garden import (
    Bench,
    Climate,
    Dressing,
    FrostDates,
    Garden,
    Lot,
    Offer,
    PlantingStock,
    ShedItem,
    Site,
    Stretch,
)
from planner.garden import edits as e
from planner.garden.materials import BarKind, CountedKind
from planner.garden.raising import Raising
from planner.listings.shopping_words import pack_list
from planner.plan import Plan
from planner.storage import load

YEAR = 2026
CLIMATE = Climate(last_frost=FrostDates(risk_50="05-06"), first_frost=FrostDates(risk_50="10-17"))
FIRST, SECOND = Stretch(start=0, end=2), Stretch(start=2, end=4.8)


def plan_of(*things: object, **fields: object) -> Plan:
    document = garden(bed("b1"), *things, climate=CLIMATE, site=Site(latitude=52.0), **fields)
    return Plan(document, YEAR, load_catalogue())


def line(plan: Plan, kind: str, crop: str = "", variety: str = "") -> Item:
    found = [
        one
        for one in shopping(plan).items
        if one.kind == kind and one.crop == crop and (not variety or one.variety == variety)
    ]
    assert len(found) == 1
    return found[0]


def bought(item: Item) -> list[tuple[int, float]]:
    return [(one.number, one.size) for one in item.purchases]


# -- seed ----------------------------------------------------------------------------------------------


def test_seed_is_bought_in_the_packets_that_cost_least() -> None:
    offers = (
        Offer(id="o1", crop="carrot", seeds=500, price=3.2, shop="by post"),
        Offer(id="o2", crop="carrot", seeds=200, price=1.0),
        Offer(id="o3", crop="carrot", variety="Early", seeds=5_000, price=0.1),
        Offer(id="o4", crop="parsnip", seeds=5_000, price=0.1),
    )
    plan = plan_of(planting(plot=FIRST), stock=(Lot(id="l1", crop="carrot", seeds=100),), offers=offers)
    item = line(plan, "seed", "carrot")
    (part,) = amounts(plan)
    assert item.needed == part.seeds
    assert item.to_buy == part.seeds - 100 > 200
    number = math.ceil(item.to_buy / 200)
    assert bought(item) == [(number, 200)]
    assert item.price == number
    assert item.by == plan.dates(part.planting).sow.day
    assert item.serves == (Served("p1", part.seeds, item.by),)


def test_a_packet_by_weight_holds_the_seeds_of_its_grams(catalogue: Catalogue) -> None:
    plan = plan_of(planting(plot=FIRST), offers=(Offer(id="o1", crop="carrot", grams=0.1),))
    item = line(plan, "seed", "carrot")
    per_gram = catalogue.crops["carrot"].seeds_per_gram.value
    assert item.grams == pytest.approx(item.to_buy / per_gram)
    assert bought(item) == [(math.ceil(item.to_buy / math.floor(0.1 * per_gram)), math.floor(0.1 * per_gram))]


def test_seed_is_needed_by_the_first_sowing_that_the_lots_do_not_cover() -> None:
    early = planting("p1", plot=FIRST, pinned_dates={"sow": dt.date(2026, 4, 10)})
    late = planting("p2", plot=SECOND, pinned_dates={"sow": dt.date(2026, 6, 1)})
    first = amounts(plan_of(early))[0].seeds
    for there, by in ((first - 1, dt.date(2026, 4, 10)), (first, dt.date(2026, 6, 1))):
        plan = plan_of(early, late, stock=(Lot(id="l1", crop="carrot", seeds=there),))
        assert line(plan, "seed", "carrot").by == by


def test_what_is_ordered_is_not_bought_again_and_says_by_when_it_must_be_there() -> None:
    lots = (Lot(id="l1", crop="carrot", seeds=10), Lot(id="l2", crop="carrot", seeds=9_000, ordered=True))
    item = line(plan_of(planting(plot=FIRST), stock=lots), "seed", "carrot")
    assert (item.status, item.to_buy, item.ordered) == ("ordered", 0, 9_000)
    assert item.by is not None
    there = line(plan_of(planting(plot=FIRST), stock=(lots[1].with_(ordered=False),)), "seed", "carrot")
    assert (there.status, there.by) == ("on hand", None)


def test_seed_of_poor_germination_is_bought_for_more() -> None:
    leek = planting(crop="leek", plot=FIRST)
    good = line(plan_of(leek, stock=(Lot(id="l1", crop="leek", seeds=1, germination=0.9),)), "seed", "leek")
    poor = line(plan_of(leek, stock=(Lot(id="l1", crop="leek", seeds=1, germination=0.3),)), "seed", "leek")
    assert poor.needed > 2 * good.needed


def test_seed_too_old_is_bought_anew() -> None:
    item = line(
        plan_of(planting(plot=FIRST), stock=(Lot(id="l1", crop="carrot", seeds=9_000, packed=2010),)),
        "seed",
        "carrot",
    )
    assert item.to_buy == item.needed
    assert item.on_hand == 0


def test_what_was_sown_lacks_nothing() -> None:
    sown = ticked("p1", "sow", dt.date(2026, 4, 10))
    plan = plan_of(planting("p1", plot=FIRST), planting("p2", plot=SECOND), records=(sown,))
    item = line(plan, "seed", "carrot")
    parts = {part.planting.id: part.seeds for part in amounts(plan)}
    assert item.needed == sum(parts.values())
    assert item.to_buy == parts["p2"]
    assert item.by == plan.dates(plan.garden.plantings_by_id["p2"]).sow.day


def test_a_lot_that_cannot_be_counted_leaves_open_what_to_buy() -> None:
    item = line(plan_of(planting(plot=FIRST), stock=(Lot(id="l1", crop="carrot"),)), "seed", "carrot")
    assert (item.status, item.to_buy) == ("not known", None)
    assert item.missing


def test_plantings_without_a_variety_take_any_packet_but_of_one_variety() -> None:
    offers = (
        Offer(id="o1", crop="carrot", variety="Early", seeds=100, price=1.0),
        Offer(id="o2", crop="carrot", variety="Late", seeds=90, price=0.95),
    )
    item = line(plan_of(planting(plot=FIRST), offers=offers), "seed", "carrot")
    assert len(item.purchases) == 1
    prices = {offer.id: math.ceil(item.to_buy / offer.seeds) * offer.price for offer in offers}
    assert item.price == pytest.approx(min(prices.values()))
    named = line(plan_of(planting(plot=FIRST, variety="Late"), offers=offers), "seed", "carrot", "Late")
    assert [one.key for one in named.purchases] == ["o2"]


# -- planting stock ------------------------------------------------------------------------------------


def test_tubers_less_those_on_hand_and_ordered_for_the_year() -> None:
    potatoes = planting(crop="potato", variety="Pink")
    needed = amounts(plan_of(potatoes))[0].acquire
    stock = (
        PlantingStock(id="g1", crop="potato", variety="pink", kind="tubers", number=2, year=YEAR),
        PlantingStock(id="g2", crop="potato", variety="Pink", kind="tubers", number=1, ordered=True),
        PlantingStock(id="g3", crop="potato", variety="Pink", kind="tubers", number=90, year=YEAR - 1),
        PlantingStock(id="g4", crop="potato", variety="Blue", kind="tubers", number=90),
        PlantingStock(id="g5", crop="potato", variety="Pink", kind="sets", number=90),
    )
    offers = (Offer(id="o1", crop="potato", variety="Pink", kind="tubers", pieces=5, price=4.0, grams=500),)
    plan = plan_of(potatoes, planting_stock=stock, offers=offers)
    item = line(plan, "tubers", "potato")
    assert (item.needed, item.on_hand, item.ordered, item.to_buy) == (needed, 2, 1, needed - 3)
    assert bought(item) == [(math.ceil((needed - 3) / 5), 5)]
    chit, out = (
        plan.dates(plan.plantings[0]).care_day("chit").day,
        plan.dates(plan.plantings[0]).set_out.day,
    )
    assert item.by == chit < out


def test_planting_stock_serves_one_planting_only() -> None:
    stock = (PlantingStock(id="g1", crop="onion", variety="Red", kind="sets", number=500),)
    named = planting("p1", crop="onion", variety="Red", plot=FIRST, start="sets")
    other = planting("p2", crop="onion", plot=SECOND, start="sets")
    plan = plan_of(named, other, planting_stock=stock)
    both = [one for one in shopping(plan).items if one.kind == "sets"]
    needed = {one.variety: one.needed for one in both}
    assert {one.variety: one.on_hand for one in both} == {"Red": 500, "": 500 - needed["Red"]}


# -- trays, mix, material -------------------------------------------------------------------------------


def raised(*days: dt.date) -> list[object]:
    return [
        planting(
            f"p{number}",
            f"b{number + 1}",
            crop="leek",
            start="raised",
            raising={"way": "cells", "cells": 128},
            plot={"kind": "stretch", "start": 0, "end": 2},
            pinned_dates={"sow": day, "set_out": day + dt.timedelta(40)},
        )
        for number, day in enumerate(days, start=1)
    ]


def test_trays_are_those_in_use_at_once_and_not_their_sum() -> None:
    beds = [bed("b2"), bed("b3")]
    apart = raised(dt.date(2026, 2, 1), dt.date(2026, 7, 1))
    together = raised(dt.date(2026, 2, 1), dt.date(2026, 2, 10))
    benches = (Bench(id="t1", name="Bench", kind="cool", length=2, width=1),)
    one, both = (line(plan_of(*beds, *things, benches=benches), "cell tray") for things in (apart, together))
    each = one.needed
    assert each >= 1
    assert one.by == dt.date(2026, 2, 1)
    seeds = amounts(plan_of(*beds, *apart))[0].seeds
    assert each == math.ceil(seeds / 128)
    assert both.needed == math.ceil(2 * seeds / 128) > each


def test_trays_pots_and_mix_in_the_shed_are_not_bought() -> None:
    things = [bed("b2"), *raised(dt.date(2026, 2, 1))]
    shed = (
        ShedItem(id="m1", kind="cell tray", cells=128, number=50),
        ShedItem(id="m2", kind="cell tray", cells=72, number=50),
        ShedItem(id="m3", kind="potting mix", litres=1, number=1),
        ShedItem(id="m4", kind="potting mix", litres=20, sold=True, price=6),
    )
    plan = plan_of(*things, shed=shed)
    assert line(plan, "cell tray").status == "on hand"
    mix = line(plan, "potting mix")
    assert mix.to_buy == pytest.approx(mix.needed - 1)
    assert bought(mix) == [(math.ceil(mix.to_buy / 20), 20)]


def test_bags_are_those_of_the_least_price_and_the_shed_comes_first() -> None:
    dressing = Dressing(id="d1", bed="b1", kind="compost", day=dt.date(2026, 3, 1), depth=0.05)
    shed = (
        ShedItem(id="m1", kind="compost", litres=100),
        ShedItem(id="m2", kind="compost", litres=50, sold=True, price=7, shop="yard"),
        ShedItem(id="m3", kind="compost", litres=20, sold=True, price=3.6),
    )
    plan = plan_of(dressings=(dressing,), shed=shed)
    item = line(plan, "compost")
    assert item.needed == pytest.approx(sum(one.litres for one in spreads(plan)))
    assert item.to_buy == pytest.approx(188)
    assert bought(item) == [(4, 50)]
    assert item.price == 28
    assert item.serves == (Served("b1", pytest.approx(288), dt.date(2026, 3, 1)),)


def test_straw_comes_in_bales_and_leaf_mould_in_no_bags() -> None:
    dressings = tuple(
        Dressing(id=f"d{number}", bed="b1", kind=kind, day=dt.date(2026, 3, 1), depth=0.10)
        for number, kind in enumerate(("straw", "leaf mould"))
    )
    plan = plan_of(dressings=dressings)
    straw, mould = line(plan, "straw"), line(plan, "leaf mould")
    assert straw.to_buy == mould.to_buy == pytest.approx(576)
    assert pack_list(plan, straw) == ["2 bales, each 500 l loose"]
    assert mould.purchases == ()


def test_blocks_take_more_loose_mix_than_they_hold() -> None:
    (thing,) = raised(dt.date(2026, 2, 1))
    blocks = thing.with_(raising=Raising(way="blocks", width=0.05))
    plan = plan_of(bed("b2"), blocks)
    (part,) = raisings(plan)
    assert line(plan, "potting mix").needed == pytest.approx(mix_to_have(part.litres, part.litres))
    assert mix_to_have(part.litres, part.litres) > mix_to_have(part.litres)


def test_a_net_longer_than_a_roll_is_one_piece_of_several_rolls() -> None:
    short = ShedItem(id="m1", kind="netting", length=3.0, width=4.0, sold=True, price=5)
    cover = {"kind": "netting", "first": dt.date(2026, 4, 1), "last": dt.date(2026, 6, 1)}
    plan = plan_of(planting("p1", first=dt.date(2026, 4, 1), covers=(cover,)), shed=(short,))
    item = line(plan, "netting")
    (cutting,) = item.cuttings
    (joined,) = cutting.cuts.joined
    assert max(joined.parts) <= 3000
    assert (item.to_buy, item.price, item.missing) == (1, 5 * len(joined.parts), ())
    assert bought(item) == [(len(joined.parts), 1)]


def test_a_net_that_serves_twice_is_bought_once() -> None:
    def netted(key: str, plot: Stretch, first: int) -> object:
        cover = {"kind": "netting", "first": dt.date(2026, first, 1), "last": dt.date(2026, first + 1, 1)}
        days = {"first": dt.date(2026, first, 1), "last": dt.date(2026, first + 2, 1)}
        return planting(key, crop="cabbage", plot=plot, covers=(cover,), **days)

    plan = plan_of(netted("p1", FIRST, 4), netted("p2", Stretch(start=2.8, end=4.8), 7))
    item = line(plan, "netting")
    assert (item.needed, item.to_buy) == (1, 1)
    assert [one.amount for one in item.serves] == [1, 0]
    assert item.by == dt.date(2026, 4, 1)


def test_a_sheet_in_the_shed_is_cut_for_several() -> None:
    def fleeced(key: str, plot: Stretch) -> object:
        cover = {"kind": "fleece", "first": dt.date(2026, 4, 1), "last": dt.date(2026, 6, 1)}
        return planting(key, plot=plot, covers=(cover,), first=dt.date(2026, 4, 1))

    two = [fleeced("p1", Stretch(start=0, end=1.5)), fleeced("p2", Stretch(start=3.3, end=4.8))]
    roll = ShedItem(id="m1", kind="fleece", length=25, width=2)
    for uncut in (False, True):
        found = line(plan_of(*two, shed=(roll.with_(uncut=uncut),)), "fleece")
        assert (found.on_hand, found.to_buy) == (2, 0)
    coming = line(plan_of(*two, shed=(roll.with_(uncut=True, ordered=True),)), "fleece")
    assert (coming.on_hand, coming.ordered, coming.to_buy) == (0, 2, 0)


# -- what holds of every garden -------------------------------------------------------------------------


@lru_cache
def gardens() -> list[Garden]:
    """The sample gardens, and each of them after many random edits."""
    found = [load(file) for file in sorted(FOLDER.glob("*.bedwright"))]
    rng = random.Random(19)
    for document in list(found):
        now = document
        for _ in range(250):
            name = rng.choice((None, None, "put_shed_item", "put_offer", "put_planting_stock", "put_lot"))
            now = random_edit(rng, now, name) or now
        found.append(now)
    return found


every = pytest.mark.parametrize("number", range(8))


def list_of(document: Garden, year: int = YEAR) -> tuple[Plan, Shopping]:
    plan = Plan(document, year, load_catalogue())
    return plan, shopping(plan)


@every
def test_needs_add_up_over_plantings(number: int) -> None:
    plan, found = list_of(gardens()[number])
    trays = ("cell tray", "pot", "seed tray")
    for one in found.items:
        total = math.fsum(served.amount for served in one.serves)
        if one.needed is None:
            continue
        if one.kind in trays:  # several benches and sizes each have a tray that is not full
            assert total <= one.needed + 1e-6
            assert one.needed - total < 3 * (1 + len(plan.garden.benches))
        else:
            assert total == pytest.approx(one.needed)
    seeds = [part.seeds or 0 for part in amounts(plan)]
    counted = [one.needed for one in found.items if one.kind == "seed" and one.needed is not None]
    assert sum(counted) <= sum(seeds)


@every
def test_nothing_that_is_there_or_ordered_is_bought_again(number: int) -> None:
    _, found = list_of(gardens()[number])
    for one in found.items:
        if one.to_buy is None:
            assert one.missing
            continue
        assert one.to_buy <= max(0.0, one.needed - one.on_hand - one.ordered) + 1e-6
        if not any(served.done for served in one.serves):
            assert one.to_buy == pytest.approx(max(0.0, one.needed - one.on_hand - one.ordered), abs=1e-5)
    keys = [one.key for one in found.items]
    assert len(set(keys)) == len(keys)


@every
def test_nothing_is_wanted_twice_at_the_same_time(number: int) -> None:
    """Of what is only counted as many as the jobs of the fullest day take; trays and pots counted day by day."""
    plan, found = list_of(gardens()[number])
    jobs: dict[str, list[Job]] = {}
    for some in (covers(plan).jobs, supports(plan).jobs):
        for kind, of_kind in some.items():
            jobs.setdefault(kind, []).extend(of_kind)
    for one in found.items:
        if one.kind in get_args(CountedKind):
            most = most_at_once(jobs[one.kind])
            # What came in the year does not serve what lay before it, so that more may be there than is in use at once.
            assert one.needed == most if one.to_buy else most <= one.needed <= one.on_hand + one.ordered
        elif one.kind in get_args(BarKind) and one.kind != "string":
            assert one.needed <= sum(job.number for job in jobs[one.kind])
        elif one.kind in ("cell tray", "pot", "seed tray"):
            assert one.needed == trays_by_day(plan, one)


def trays_by_day(plan: Plan, item: Item) -> int:
    """The most trays or pots of a line in use on any day of the year."""
    year = bench_year(plan) if plan.garden.benches else benches_wanted(plan)
    most = 0
    for number in range((plan.span.last - plan.span.first).days + 1):
        day = plan.span.first + dt.timedelta(number)
        seeds: dict[tuple[str, int], int] = {}
        for one in year.placed:
            container = one.standing.container
            size = {
                "cells": container.kind == "cells" and container.per_tray == item.cells,
                "pot": container.kind == "pots" and abs(container.width - item.width) < 0.001,
                "seed tray": container.kind in ("seed tray", "blocks"),
            }["cells" if item.kind == "cell tray" else item.kind]
            if size and one.standing.first <= day <= one.standing.last:
                key = (one.bench, 1 if item.kind == "pot" else container.per_tray)
                seeds[key] = seeds.get(key, 0) + one.standing.number
        most = max(most, sum(math.ceil(count / each) for (_, each), count in seeds.items()))
    return most


@every
def test_packs_hold_what_is_to_be_bought(number: int) -> None:
    _, found = list_of(gardens()[number])
    for one in found.items:
        if one.purchases and not one.cuttings:
            held = sum(bought.number * bought.size for bought in one.purchases)
            assert held >= one.to_buy - 1e-6
        for cutting in one.cuttings:
            wanted = cutting.cuts.bars(on_hand=False)
            for length, bars in wanted.items():
                held = sum(
                    bought.number * bought.size
                    for bought in one.purchases
                    if round(bought.length * 1000) == length and bought.width == cutting.width
                )
                assert held >= bars


@every
def test_buying_what_the_list_says_makes_the_list_empty(number: int) -> None:
    plan, found = list_of(gardens()[number])
    _, after = list_of(order(plan, found.items))
    assert [one.key for one in after.items if one.to_buy] == []
    unknown = {one.key for one in found.items if one.to_buy is None}
    assert {one.key for one in after.to_buy} <= unknown


@every
def test_what_has_arrived_is_on_hand_and_not_bought_again(number: int) -> None:
    plan, found = list_of(gardens()[number])
    now = order(plan, found.items)
    # What is sown before the latest count of its seed took what was there then, not what arrives afterwards.
    counts = [lot.counted for lot in now.stock if lot.counted and lot.counted <= plan.span.last]
    for one in (*now.stock, *now.planting_stock, *now.shed):
        if one.ordered:
            now = e.arrived(now, one.id, max([plan.span.first, *counts]))
    _, after = list_of(now)
    assert [(one.key, one.to_buy) for one in after.items if one.to_buy] == []
    assert after.awaited == ()


# -- parts ----------------------------------------------------------------------------------------------


def test_the_day_by_which_it_is_needed() -> None:
    days = [dt.date(2026, month, 1) for month in (3, 5, 7)]
    serves = [Served(f"p{day.month}", 10, day) for day in days]
    assert [first_uncovered(serves, there) for there in (0, 9, 10, 29, 30)] == [
        days[0], days[0], days[1], days[2], None,
    ]  # fmt: skip
    done = [serves[0]._replace(done=True), *serves[1:]]
    assert [first_uncovered(done, there) for there in (0, 10, 20)] == [days[1], days[1], days[2]]
    assert [to_buy_of(30, there, done) for there in (0, 10, 15, 30, 40)] == [20, 20, 15, 0, 0]
