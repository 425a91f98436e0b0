"""What a crop that is let go over a bed becomes, by the plan."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting, rectangle

from planner.garden import Bed, Climate, Garden, Places, Site, Stretch, Whole
from planner.garden.site import FrostDates
from planner.plan import Plan
from planner.plan.dropping import TALL, draft_planting, find_drop, shaded_by

D = dt.date
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-10", risk_50="04-25", risk_10="05-10"),
    first_frost=FrostDates(risk_10="10-01", risk_50="10-15", risk_90="10-30"),
)
LONG = bed("b1", rectangle(4.0, 1.0), name="Long")
TAKEN = planting(plot=Stretch(start=0, end=2), first=D(2026, 4, 1), last=D(2026, 7, 14))


def found(plan: Plan, crop: str, at=(0.0, 0.0), manner="free"):
    ground: Bed = plan.garden.beds_by_id["b1"]
    return find_drop(plan, ground, plan.catalogue.get(crop), "", at, manner, 0.05)


def plan_of(document: Garden) -> Plan:
    return Plan(document, 2026)


def test_a_crop_takes_what_is_free_while_it_grows():
    plan = plan_of(garden(LONG, TAKEN))
    drop = found(plan, "carrot", (1.0, 0.0))
    assert (drop.first, drop.landing.plot) == (None, Stretch(start=2.0, end=4.0))


def test_over_ground_that_is_taken_it_waits_until_that_falls_free():
    plan = plan_of(garden(LONG, TAKEN))
    drop = found(plan, "carrot", (-1.0, 0.0))
    assert (drop.first, drop.landing.plot) == (D(2026, 7, 15), Whole())
    draft = draft_planting(plan, LONG, plan.catalogue.get("carrot"), "Early", drop)
    assert (draft.first, draft.variety, draft.year, draft.shares_ground) == (
        D(2026, 7, 15),
        "Early",
        2026,
        False,
    )


def test_ground_that_falls_free_before_the_crop_begins_is_free_for_it():
    early = planting(first=D(2026, 1, 10), last=D(2026, 2, 1))
    plan = plan_of(garden(LONG, early, climate=CLIMATE))
    assert D(2026, 2, 2) in [day for day, _ in plan.free_from(LONG)]
    drop = found(plan, "carrot")
    assert (drop.first, drop.landing.plot) == (None, Whole())


def test_a_stretch_holds_whole_plants():
    plan = plan_of(garden(LONG))
    spacing = plan.catalogue.get("cabbage").number("bed_spacing")
    drop = found(plan, "cabbage", (-0.9, 0.0), "stretch")
    length = drop.landing.plot.end - drop.landing.plot.start
    assert length / spacing == pytest.approx(round(length / spacing))


def test_a_single_plant_shares_the_ground():
    plan = plan_of(garden(LONG, TAKEN))
    drop = found(plan, "carrot", (-1.0, 0.0), "single")
    draft = draft_planting(plan, LONG, plan.catalogue.get("carrot"), "", drop)
    assert draft.shares_ground
    assert draft.arrangement == Places(points=((-1.0, 0.0),))
    assert found(plan, "carrot", (-1.0, 0.6), "single") is None


def test_what_may_not_land_makes_no_planting():
    full = planting(first=D(2026, 1, 1), last=D(2026, 12, 31))
    plan = plan_of(garden(LONG, full))
    drop = found(plan, "carrot")
    assert drop.landing.plot is None
    with pytest.raises(ValueError, match="no free ground"):
        draft_planting(plan, LONG, plan.catalogue.get("carrot"), "", drop)


# -- shade ------------------------------------------------------------------------------------


def shaded(document: Garden, crop: str, day: dt.date) -> dict[str, float]:
    plan = plan_of(document)
    kind = plan.catalogue.get(crop)
    draft = draft_planting(plan, LONG, kind, "", found(plan, crop, manner="whole"))
    return dict(shaded_by(plan, draft, plan.trial(draft), day))


@pytest.fixture
def north_of_it() -> Garden:
    """Lettuce close to the north of an empty bed."""
    close = bed("b2", rectangle(4.0, 1.0, center=(0.0, 1.05)), name="North")
    lettuce = planting("p2", "b2", crop="lettuce", first=D(2026, 4, 1), last=D(2026, 10, 31))
    return garden(LONG, close, lettuce, site=Site(latitude=52.0, longitude=0.0), climate=CLIMATE)


def test_a_tall_crop_names_what_loses_sun_to_it(north_of_it):
    lost = shaded(north_of_it, "sweet_corn", D(2026, 7, 14))
    assert list(lost) == ["butterhead lettuce"]
    assert 0.25 <= lost["butterhead lettuce"] <= 15


def test_a_day_without_the_crop_counts_as_the_middle_of_its_days(north_of_it):
    span = plan_of(north_of_it).span_of(planting("x", crop="sweet_corn"))
    middle = span.first + (span.last - span.first) // 2
    assert span.first > D(2026, 2, 1)
    in_winter = shaded(north_of_it, "sweet_corn", D(2026, 2, 1))
    assert in_winter == shaded(north_of_it, "sweet_corn", middle)
    assert in_winter != shaded(north_of_it, "sweet_corn", middle + dt.timedelta(days=25))


def test_a_low_crop_shades_nothing_and_without_a_latitude_nothing_is_known(north_of_it):
    assert plan_of(north_of_it).catalogue.get("carrot").number("height") < TALL
    assert shaded(north_of_it, "carrot", D(2026, 8, 15)) == {}
    assert shaded(north_of_it.with_(site=Site()), "sweet_corn", D(2026, 8, 15)) == {}
