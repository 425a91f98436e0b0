"""What is spread on beds: true ground, volumes, bags and barrows."""

from __future__ import annotations

import datetime as dt
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import bed, garden, planting, rectangle

from planner.amounts.sold_sizes import BALE_LITRES, bag_litres
from planner.amounts.spread import SpreadTotal, spread_totals, spreads, true_area
from planner.garden import Circle, Climate, Dressing, FrostDates, ShedItem, Site, Stretch, Structure
from planner.garden.units import FOOT, INCH
from planner.garden.volumes import CUBIC_YARD
from planner.plan import Plan

CLIMATE = Climate(last_frost=FrostDates(risk_50="05-06"), first_frost=FrostDates(risk_50="10-17"))
MARCH = dt.date(2026, 3, 10)


def dressing(key: str = "d1", **fields: object) -> Dressing:
    return Dressing.model_validate({"id": key, "bed": "b1", "kind": "compost", "day": MARCH, **fields})


def plan_of(*things: object, **fields: object) -> Plan:
    return Plan(garden(*things, site=Site(latitude=52.0), climate=CLIMATE, **fields), 2026)


def test_an_inch_on_a_hundred_square_feet():
    # 0.31 cubic yards, 0.24 m3 (practice, as recalled; it is 100 / 12 / 27).
    plan = plan_of(bed("b1", rectangle(10 * FOOT, 10 * FOOT)), dressings=(dressing(depth=INCH),))
    (one,) = spreads(plan)
    assert one.litres == pytest.approx(0.31 * CUBIC_YARD, rel=0.005)
    assert one.litres == pytest.approx(240, rel=0.02)


def test_structures_take_no_mulch():
    post = Structure(id="s1", kind="other", outline=Circle(radius=0.3), height=1.0, clearance=0.1)
    plan = plan_of(bed(), structures=(post,), dressings=(dressing(depth=0.02),))
    assert true_area(plan, plan.beds[0]) == pytest.approx(4.8 * 1.2 - math.pi * 0.4**2, rel=0.01)
    assert spreads(plan)[0].litres == pytest.approx(true_area(plan, plan.beds[0]) * 20)


def test_a_plot_takes_what_its_ground_takes():
    half = planting("p1", plot=Stretch(start=0, end=2.4))
    plan = plan_of(bed(), half, dressings=(dressing(planting="p1", depth=0.05),))
    (one,) = spreads(plan)
    assert one.litres == pytest.approx(2.4 * 1.2 * 50)


def test_lime_is_spread_by_mass():
    plan = plan_of(bed(), dressings=(dressing(kind="lime", rate=200.0),))
    (one,) = spreads(plan)
    assert one.grams == pytest.approx(4.8 * 1.2 * 200)
    assert one.litres is None
    (total,) = spread_totals(plan, [one])
    assert (total.grams_to_buy, total.bags, total.barrows) == (pytest.approx(one.grams), 0, 0)


def test_the_shed_is_emptied_before_anything_is_bought():
    shed = (
        ShedItem(id="m1", kind="compost", litres=40.0, number=2),
        ShedItem(id="m2", kind="compost", litres=60.0, sold=True),
        ShedItem(id="m3", kind="bark", litres=600.0),
    )
    plan = plan_of(bed(), dressings=(dressing(depth=0.05),), shed=shed)
    (total,) = spread_totals(plan, spreads(plan))
    assert total.litres == pytest.approx(288)
    assert (total.litres_in_shed, total.litres_to_buy) == pytest.approx((80, 208))
    assert (total.bags, total.bag, total.barrows) == (4, 60.0, 4)


def test_only_dressings_of_the_year_count():
    dressings = (dressing(depth=0.02), dressing("d2", day=dt.date(2025, 3, 10), depth=0.02))
    plan = plan_of(bed(), dressings=dressings)
    assert len(spreads(plan)) == 1
    assert len(spreads(Plan(plan.garden, 2025))) == 1


def garlic() -> object:
    return planting("p1", crop="garlic", start="cloves", first=dt.date(2026, 10, 10))


def test_a_crop_wants_its_mulch_unless_its_bed_gets_one_just_then():
    alone = spreads(plan_of(bed(), garlic()))
    assert [(one.kind, one.planting.id) for one in alone if one.planting] == [("straw", "p1")]
    day = alone[0].day
    given = spreads(plan_of(bed(), garlic(), dressings=(dressing(kind="leaf mould", day=day, depth=0.05),)))
    assert [one.kind for one in given] == ["leaf mould"]
    its = spreads(plan_of(bed(), garlic(), dressings=(dressing(planting="p1", day=day, depth=0.05),)))
    assert [(one.kind, one.planting.id) for one in its if one.planting] == [("compost", "p1")]
    lime = spreads(plan_of(bed(), garlic(), dressings=(dressing(kind="lime", day=day, rate=100.0),)))
    assert {one.kind for one in lime} == {"straw", "lime"}


@given(
    st.lists(
        st.tuples(st.sampled_from(["compost", "straw", "manure"]), st.floats(0.005, 0.3)),
        min_size=1,
        max_size=6,
    ),
    st.floats(1, 5000),
)
def test_totals_add_up_and_nothing_on_hand_is_bought(dressed, there):
    dressings = tuple(dressing(f"d{i}", kind=kind, depth=depth) for i, (kind, depth) in enumerate(dressed))
    plan = plan_of(bed(), dressings=dressings, shed=(ShedItem(id="m1", kind="compost", litres=there),))
    parts = spreads(plan)
    totals = spread_totals(plan, parts)
    assert math.fsum(one.litres for one in totals) == pytest.approx(
        math.fsum(one.litres or 0 for one in parts)
    )
    for one in totals:
        assert one.litres_in_shed + one.litres_to_buy == pytest.approx(one.litres)
        assert one.bags * one.bag >= one.litres_to_buy - 1e-3
        if one.kind == "compost":
            assert one.litres_to_buy == pytest.approx(max(0, one.litres - there), abs=1e-6)


def test_manure_by_weight_is_wheeled_and_bagged_and_straw_comes_in_bales():
    manure = SpreadTotal("manure", 0.0, 23_000.0, 0.0, 0.0, 50.0)
    assert 0.3 <= 23 / (manure.bags * 50) <= 1.0, "between half a kilogram and one to a litre"
    assert manure.barrows == 1
    lime = SpreadTotal("lime", 0.0, 864.0, 0.0, 0.0, 50.0)
    assert (lime.barrows, lime.bags) == (0, 0)
    assert bag_litres("straw", ()) == BALE_LITRES > bag_litres("compost", ())
