"""wattle_bank: a garden of the south, where the growing year begins in July."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
import shapely
from sample_reading import YEAR, back_on_their_ground, grounds, named, sample, these, used_twice

from planner.crops import load_catalogue
from planner.garden import Garden
from planner.plan import Plan
from planner.storage import load

WATTLE = sample("wattle_bank")


@pytest.fixture(scope="module")
def wattle() -> Garden:
    return load(WATTLE)


@pytest.fixture(scope="module")
def plan(wattle: Garden) -> Plan:
    return Plan(wattle, YEAR, load_catalogue())


# -- place and ground -----------------------------------------------------------------------


def test_place_is_southern_metric_and_in_hobart_time(wattle: Garden) -> None:
    site = wattle.site
    assert (site.units, site.time_zone) == ("metric", "Australia/Hobart")
    assert site.latitude == pytest.approx(-41, abs=0.5)
    assert site.southern


def test_growing_year_runs_from_july_to_june_without_being_told(wattle: Garden, plan: Plan) -> None:
    assert wattle.site.first_month is None
    assert (plan.span.first, plan.span.last) == (dt.date(2026, 7, 1), dt.date(2027, 6, 30))


def test_spring_comes_in_september_and_autumn_in_may(plan: Plan) -> None:
    frosts = plan.frosts()
    assert (frosts.last, frosts.first) == (dt.date(2026, 9, 28), dt.date(2027, 5, 4))


def test_january_is_warm_and_july_cold(wattle: Garden) -> None:
    high = wattle.climate.monthly_maximum
    assert high is not None
    assert max(high[:2]) == max(high)
    assert high[6] == min(high)


def test_there_are_thirteen_beds_with_a_round_and_a_cornered_one(wattle: Garden) -> None:
    shapes = [bed.outline.shape for bed in wattle.beds]
    assert (len(shapes), shapes.count("circle"), shapes.count("polygon")) == (13, 1, 1)
    wedge = grounds(WATTLE, "beds")["Wedge bed"]
    assert len(wedge.exterior.coords) == 5
    assert wedge.area < 0.9 * wedge.envelope.area


def test_no_path_is_narrower_than_the_least_width(wattle: Garden) -> None:
    beds = grounds(WATTLE, "beds")
    least = min(a.distance(b) for a, b in itertools.combinations(beds.values(), 2))
    assert least >= wattle.site.path_width


def test_trellised_fence_stands_south_of_the_long_bed_and_takes_no_sun(wattle: Garden) -> None:
    fence = grounds(WATTLE, "structures")["trellised fence"]
    beds = grounds(WATTLE, "beds")
    assert fence.bounds[3] < min(bed.bounds[1] for bed in beds.values())
    left, _, right, _ = beds["Fence bed"].bounds
    assert fence.bounds[0] <= left
    assert fence.bounds[2] >= right
    assert abs((wattle.site.bearing_up + 180) % 360 - 180) < 45, "plan-up is north, so south is down"


def test_tree_is_evergreen(wattle: Garden) -> None:
    (tree,) = [s for s in wattle.structures if s.kind == "tree"]
    assert len(tree.opacity) == 1


def test_tunnel_covers_just_the_two_beds_under_glass(wattle: Garden) -> None:
    beds, tunnel = grounds(WATTLE, "beds"), grounds(WATTLE, "structures")["tunnel"]
    inside = {name for name, bed in beds.items() if bed.within(tunnel)}
    assert (
        inside == {b.name for b in wattle.beds if b.kind == "under glass"} == {"Tunnel west", "Tunnel east"}
    )
    assert not any(bed.intersects(tunnel) for name, bed in beds.items() if name not in inside)


# -- the years ------------------------------------------------------------------------------


@pytest.mark.parametrize("year", [2025, 2026])
def test_every_bed_is_planted_in_both_growing_years(wattle: Garden, year: int) -> None:
    plan = Plan(wattle, year, load_catalogue())
    assert [bed.name for bed in plan.beds if not plan.in_bed(bed)] == []
    assert len(these(plan, lambda p: True)) >= 13


def test_no_family_returns_to_its_ground_the_year_after(wattle: Garden, plan: Plan) -> None:
    assert back_on_their_ground(wattle, plan) == []


def test_garlic_is_set_in_april_and_lifted_about_midsummer(plan: Plan) -> None:
    spans = [plan.span_of(p) for p in plan.garden.plantings if p.crop == "garlic"]
    assert [(s.first.year, s.first.month, s.last.year, s.last.month) for s in spans] == [
        (2026, 4, 2026, 12),
        (2027, 4, 2027, 12),
    ]


def test_garlic_of_april_belongs_to_the_year_that_began_in_july_before(wattle: Garden, plan: Plan) -> None:
    first = next(p for p in wattle.plantings if p.crop == "garlic")
    assert first.year == 2025
    assert first in plan.plantings
    assert first in Plan(wattle, 2025, plan.catalogue).plantings


# -- what grows from July 2026 to June 2027 -----------------------------------------------------


@pytest.mark.parametrize(
    ("crop", "starts"),
    [
        ("tomato", [dt.date(2026, 11, 3)]),
        ("potato", [dt.date(2026, 9, 20)]),
        ("pumpkin", [dt.date(2026, 10, 28)]),
        ("sweet_corn", [dt.date(2026, 10, 30), dt.date(2026, 11, 20)]),
        ("pea", [dt.date(2026, 8, 17)]),
        ("broad_bean", [dt.date(2027, 5, 6)]),
    ],
)
def test_crop_starts_in_its_southern_season(plan: Plan, crop: str, starts: list[dt.date]) -> None:
    assert [plan.span_of(p).first for p in these(plan, lambda p: p.crop == crop)] == starts


def test_tomatoes_are_set_out_in_november_after_the_frost_and_raised_from_september(plan: Plan) -> None:
    (tomato,) = these(plan, lambda p: p.crop == "tomato")
    dates, frost = plan.dates(tomato), plan.frosts().last
    assert dates.set_out is not None
    assert dates.sow is not None
    assert frost is not None
    assert dates.set_out.day.month == 11
    assert dates.set_out.day > frost
    assert dates.sow.day.month == 9


def test_peas_are_sown_six_weeks_before_the_last_frost_by_themselves(plan: Plan) -> None:
    (pea,) = these(plan, lambda p: p.crop == "pea")
    sow, frost = plan.dates(pea).sow, plan.frosts().last
    assert pea.first is None
    assert sow is not None
    assert frost is not None
    assert frost - sow.day == dt.timedelta(weeks=6)


def test_broad_beans_stand_through_winter_and_are_picked_in_november(wattle: Garden, plan: Plan) -> None:
    early = next(p for p in wattle.plantings if p.crop == "broad_bean" and p.year == 2025)
    dates = plan.dates(early)
    assert dates.sow is not None
    assert dates.first_harvest is not None
    assert (dates.sow.day.month, dates.first_harvest.day.month) == (5, 11)


def test_brassicas_are_picked_in_the_cold_months(wattle: Garden, plan: Plan) -> None:
    winter = {6, 7, 8}
    picked = set()
    for planting in wattle.plantings:
        dates = plan.dates(planting)
        crop = plan.catalogue.get(planting.crop)
        if crop is None or crop.family != "Brassicaceae" or not dates.first_harvest or not dates.last_harvest:
            continue
        first, last = dates.first_harvest.day, dates.last_harvest.day
        if any((first + dt.timedelta(days=i)).month in winter for i in range((last - first).days)):
            picked.add(planting.crop)
    assert picked == {"kale", "brussels_sprouts", "sprouting_broccoli"}


@pytest.mark.parametrize("crop", ["asparagus", "rhubarb", "raspberry", "blackcurrant"])
def test_perennial_of_the_fence_bed_stands_until_taken_out_and_is_picked_in_spring(
    plan: Plan, crop: str
) -> None:
    (planting,) = [p for p in plan.plantings if p.crop == crop]
    first = plan.dates(planting).first_harvest
    assert plan.bed_of(planting).name == "Fence bed"
    assert plan.span_of(planting).open
    assert first is not None
    assert dt.date(2026, 8, 1) <= first.day <= dt.date(2026, 12, 31)


def test_lettuce_series_keeps_its_stretch_of_bed_from_september_on(plan: Plan) -> None:
    lettuce = these(plan, lambda p: p.crop == "lettuce")
    starts = sorted(plan.span_of(p).first for p in lettuce)
    assert len(lettuce) >= 5
    assert len({(p.bed, p.series) for p in lettuce}) == 1
    assert all((b - a).days % 21 == 0 for a, b in itertools.pairwise(starts))
    assert starts[0] == dt.date(2026, 9, 12)


def test_ground_is_used_twice_in_several_beds(wattle: Garden, plan: Plan) -> None:
    assert used_twice(wattle, plan) >= {"Creek 2", "Creek 3", "Bank 1", "Bank 2", "Bank 3", "Bank 4"}


def test_plantings_of_the_wedge_follow_its_slanting_side(wattle: Garden, plan: Plan) -> None:
    bed = wattle.beds_by_id[named(wattle, "Wedge bed")]
    assert bed.outline.shape == "polygon"
    own = shapely.Polygon(bed.outline.points)
    for planting in plan.in_bed(bed):
        assert shapely.multipoints(plan.placed(planting).layout.points).within(own)
    assert any(len(plan.placed(p).plot.exterior.coords) == 5 for p in plan.in_bed(bed))
    whole = shapely.union_all([plan.placed(p).plot for p in plan.in_bed(bed)])
    assert whole.area == pytest.approx(own.area)


def test_ground_is_green_in_winter(wattle: Garden, plan: Plan) -> None:
    day = dt.date(2026, 7, 20)
    bare = [b.name for b in plan.beds if not any(plan.span_of(p).holds(day) for p in plan.in_bed(b))]
    assert len(bare) <= 3
