"""hollow_lane: three ranges of beds, a tunnel, an arch, perennials at a wall; three years."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
import shapely
from sample_reading import SPECK, YEAR, grounds, named, sample, these, used_twice

from planner.crops import load_catalogue
from planner.garden import Garden, Planting
from planner.plan import Plan
from planner.storage import load

HOLLOW = sample("hollow_lane")


@pytest.fixture(scope="module")
def hollow() -> Garden:
    return load(HOLLOW)


@pytest.fixture(scope="module")
def plan(hollow: Garden) -> Plan:
    return Plan(hollow, YEAR, load_catalogue())


# -- ground --------------------------------------------------------------------


def test_site_has_place_units_and_a_plan_turned_from_north(hollow: Garden) -> None:
    site = hollow.site
    assert (site.units, site.time_zone) == ("metric", "Europe/London")
    assert site.latitude == pytest.approx(56, abs=0.5)
    assert site.longitude == pytest.approx(-3, abs=0.5)
    assert site.bearing_up == 12


def test_frost_dates_are_in_order_of_their_risk(hollow: Garden) -> None:
    climate = hollow.climate
    assert climate.last_frost is not None
    assert climate.first_frost is not None
    spring, autumn = climate.last_frost, climate.first_frost
    assert spring.risk_90 < spring.risk_50 < spring.risk_10 < autumn.risk_10 < autumn.risk_50 < autumn.risk_90


def test_there_are_eighteen_beds_in_three_ranges(hollow: Garden) -> None:
    names = [bed.name for bed in hollow.beds]
    assert len(names) == 18
    ranges = {word: sum(name.startswith(word) for name in names) for word in ("West", "Middle", "East")}
    assert ranges == {"West": 5, "Middle": 5, "East": 3}


def test_most_beds_are_of_the_two_usual_sizes(hollow: Garden) -> None:
    sizes = [(b.outline.length, b.outline.width) for b in hollow.beds if b.outline.shape == "rectangle"]
    assert sizes.count((4.8, 1.2)) == 10
    assert sizes.count((3.6, 1.2)) == 2


def test_there_are_raised_round_and_cornered_beds(hollow: Garden) -> None:
    assert sum(b.kind == "raised" and b.height > 0 for b in hollow.beds) == 3
    assert [b.name for b in hollow.beds if b.outline.shape == "circle"] == ["Herb round"]
    corner = [b for b in hollow.beds if b.outline.shape == "polygon"]
    assert [b.name for b in corner] == ["Corner bed"]
    polygon = grounds(HOLLOW, "beds")["Corner bed"]
    assert polygon.area < 0.99 * polygon.convex_hull.area, "it is no convex shape"


@pytest.mark.parametrize(
    ("one", "other", "width"),
    [
        *((f"West {i}", f"Middle {i}", 0.9) for i in range(1, 6)),
        *((f"Middle {i}", f"East {i}", 0.6) for i in range(1, 4)),
        *((f"{r} {i}", f"{r} {i + 1}", 0.5) for r in ("West", "Middle") for i in range(1, 5)),
        ("East 1", "East 2", 0.5),
        ("East 2", "East 3", 0.5),
        ("Wall bed", "West 1", 0.6),
        ("Wall bed", "Middle 1", 0.6),
        ("Wall bed", "East 1", 0.6),
        ("East 3", "Corner bed", 0.5),
        ("Middle 5", "Corner bed", 0.6),
        ("Tunnel west", "Tunnel east", 0.6),
    ],
)
def test_path_between_neighbouring_beds_is_as_wide_as_designed(one: str, other: str, width: float) -> None:
    beds = grounds(HOLLOW, "beds")
    assert beds[one].distance(beds[other]) == pytest.approx(width, abs=1e-9)


def test_no_path_between_beds_is_narrower_than_the_least_width(hollow: Garden) -> None:
    beds = grounds(HOLLOW, "beds")
    least = min(a.distance(b) for a, b in itertools.combinations(beds.values(), 2))
    assert least >= hollow.site.path_width


def test_long_bed_lies_along_the_south_side_of_the_wall(hollow: Garden) -> None:
    bed, wall = grounds(HOLLOW, "beds")["Wall bed"], grounds(HOLLOW, "structures")["old wall"]
    left, _, right, top = bed.bounds
    assert right - left > 12
    assert wall.bounds[1] - top == pytest.approx(0.45)
    assert wall.bounds[0] <= left
    assert right <= wall.bounds[2]


def test_tunnel_covers_just_the_two_beds_under_glass(hollow: Garden) -> None:
    beds, tunnel = grounds(HOLLOW, "beds"), grounds(HOLLOW, "structures")["tunnel"]
    inside = {name for name, bed in beds.items() if bed.within(tunnel)}
    assert inside == {b.name for b in hollow.beds if b.kind == "under glass"}
    assert len(inside) == 2
    assert not any(bed.intersects(tunnel) for name, bed in beds.items() if name not in inside)


def test_arch_spans_the_barrow_path_with_a_foot_in_either_bed(hollow: Garden) -> None:
    arch = next(s for s in hollow.structures if s.kind == "arch")
    beds, span = grounds(HOLLOW, "beds"), grounds(HOLLOW, "structures")[arch.name]
    left, low, right, high = span.bounds
    assert shapely.box(left, low, left + arch.foot, high).difference(beds["West 4"]).area < 1e-9
    assert shapely.box(right - arch.foot, low, right, high).difference(beds["Middle 4"]).area < 1e-9
    assert arch.clear_height >= 2.0


def test_structures_of_every_promised_kind_are_there(hollow: Garden) -> None:
    kinds = sorted(s.kind for s in hollow.structures)
    assert kinds == ["arch", "fence", "gate", "other", "shed", "tap", "tree", "tunnel", "wall"]
    tree = next(s for s in hollow.structures if s.kind == "tree")
    assert len(tree.opacity) == 12
    assert min(tree.opacity) < max(tree.opacity)
    assert next(s for s in hollow.structures if s.kind == "other").height == 1.0


# -- the years -----------------------------------------------------------------


@pytest.mark.parametrize("year", [2024, 2025, 2026])
def test_every_bed_is_planted_in_each_of_three_years(hollow: Garden, year: int) -> None:
    plan = Plan(hollow, year, load_catalogue())
    assert [bed.name for bed in plan.beds if not plan.in_bed(bed)] == []


def test_each_of_the_three_years_has_its_note(hollow: Garden) -> None:
    assert [note.year for note in hollow.notes] == [2024, 2025, 2026]


def test_families_come_back_within_three_years_only_where_meant(hollow: Garden) -> None:
    catalogue = load_catalogue()
    plan = Plan(hollow, YEAR, catalogue)
    slips = set()
    for a, b in itertools.combinations(hollow.plantings, 2):
        if a.bed != b.bed or a.year == b.year or "standing" in (a.start, b.start):
            continue
        one, other = catalogue.get(a.crop), catalogue.get(b.crop)
        assert one is not None
        assert other is not None
        if one.family != other.family:
            continue
        if shapely.intersection(plan.placed(a).plot, plan.placed(b).plot).area > SPECK:
            slips.add((plan.bed_of(a).name, one.key, other.key, min(a.year, b.year), max(a.year, b.year)))
    beans = [
        (bed, "climbing_bean", "climbing_bean", a, b)
        for bed in ("West 4", "Middle 4")
        for a, b in itertools.combinations((2024, 2025, 2026), 2)
    ]
    assert slips == {*beans, ("Tunnel west", "tomato", "tomato", 2025, 2026)}


# -- what grows in 2026 ----------------------------------------------------------


def test_beds_hold_one_crop_or_several(plan: Plan) -> None:
    on_july_1 = [
        len([p for p in plan.in_bed(bed) if plan.span_of(p).holds(dt.date(YEAR, 7, 1))]) for bed in plan.beds
    ]
    assert min(on_july_1) == 1
    assert max(on_july_1) >= 4


@pytest.mark.parametrize("crop", ["carrot", "parsnip", "beetroot"])
def test_root_is_sown_in_drills_and_thinned(plan: Plan, crop: str) -> None:
    (planting,) = these(plan, lambda p: p.crop == crop)
    assert planting.sowing == "drill"


@pytest.mark.parametrize("crop", ["broccoli", "cabbage", "carrot"])
def test_netting_lies_over_it_all_season(plan: Plan, crop: str) -> None:
    (planting,) = these(plan, lambda p: p.crop == crop)
    assert [(c.kind, c.first, c.last) for c in planting.covers] == [("netting", None, None)]


@pytest.mark.parametrize("crop", ["beetroot", "chard"])
def test_fleece_lies_over_it_from_sowing_to_clearing(plan: Plan, crop: str) -> None:
    (planting,) = these(plan, lambda p: p.crop == crop)
    assert [(c.kind, c.first, c.last) for c in planting.covers] == [("fleece", planting.first, planting.last)]


@pytest.mark.parametrize("crop", ["courgette", "winter_squash", "sweet_corn"])
def test_what_wants_warmth_stands_on_film_and_under_fleece_for_its_first_weeks(plan: Plan, crop: str) -> None:
    """At 56 degrees north neither squash nor corn ripens without them."""
    (planting,) = these(plan, lambda p: p.crop == crop)
    film, fleece = planting.covers
    assert (film.kind, film.first, film.last) == ("film", None, None)
    assert fleece.kind == "fleece"
    assert fleece.first == planting.first
    assert fleece.last is not None
    assert dt.timedelta(weeks=4) <= fleece.last - fleece.first <= dt.timedelta(weeks=9)


def test_autumn_garlic_is_one_planting_seen_in_two_years(hollow: Garden, plan: Plan) -> None:
    garlic = [p for p in plan.plantings if p.crop == "garlic"]
    assert [(p.year, p.first and p.first.month, p.last and p.last.month) for p in garlic] == [
        (2025, 10, 7),
        (2026, 10, 7),
    ]
    assert garlic[0] in Plan(hollow, 2025, plan.catalogue).plantings
    assert garlic[0].bed != garlic[1].bed


@pytest.mark.parametrize("crop", ["asparagus", "rhubarb", "raspberry", "strawberry"])
def test_perennial_stands_from_years_before_to_years_after(plan: Plan, crop: str) -> None:
    (planting,) = [p for p in plan.plantings if p.crop == crop]
    span = plan.span_of(planting)
    assert planting.start == "standing"
    assert span.first.year <= 2023
    assert span.last.year >= 2027
    assert plan.bed_of(planting).name == "Wall bed"


def test_potatoes_grow_from_tubers_and_onions_from_sets(plan: Plan) -> None:
    assert {p.start for p in plan.plantings if p.crop == "potato"} == {"tubers"}
    assert {p.start for p in plan.plantings if p.crop == "onion"} == {"sets"}


def test_leeks_follow_early_peas_on_the_same_plot(plan: Plan) -> None:
    (pea,), (leek,) = these(plan, lambda p: p.crop == "pea"), these(plan, lambda p: p.crop == "leek")
    assert (pea.bed, pea.plot) == (leek.bed, leek.plot)
    assert pea.last is not None
    assert leek.first is not None
    assert dt.timedelta(0) < leek.first - pea.last < dt.timedelta(days=14)


def test_peas_are_picked_for_a_week_at_least_before_they_are_cleared(hollow: Garden) -> None:
    for year in hollow.years():
        of_year = Plan(hollow, year, load_catalogue())
        for pea in (one for one in hollow.plantings if one.crop == "pea" and one.year == year):
            dates = of_year.dates(pea)
            assert dates.first_harvest is not None
            assert dates.last_harvest is not None
            assert (dates.last_harvest.day - dates.first_harvest.day).days >= 6, pea.id


def test_lettuce_and_radish_come_in_successions(hollow: Garden, plan: Plan) -> None:
    bed = named(hollow, "Middle 1")
    assert len({p.first for p in these(plan, lambda p: p.crop == "lettuce" and p.bed == bed)}) >= 3
    assert len({p.first for p in these(plan, lambda p: p.crop == "radish" and p.bed == bed)}) >= 2


def test_one_crop_is_left_to_flower_for_seed(plan: Plan) -> None:
    (seed,) = these(plan, lambda p: p.purpose == "seed")
    assert seed.crop == "lettuce"
    assert plan.span_of(seed).days > 120


def test_trial_pair_stands_side_by_side_under_the_same_terms(plan: Plan) -> None:
    a, b = these(plan, lambda p: p.purpose == "trial")
    assert (a.bed, a.crop, a.first, a.last) == (b.bed, b.crop, b.first, b.last)
    assert a.variety != b.variety
    assert shapely.distance(plan.placed(a).plot, plan.placed(b).plot) < 1e-9
    assert plan.placed(a).plants == plan.placed(b).plants


def test_half_of_a_bed_stays_empty_until_august(hollow: Garden, plan: Plan) -> None:
    bed = hollow.beds_by_id[named(hollow, "Middle 3")]
    free = plan.free(bed, dt.date(YEAR, 6, 10), dt.date(YEAR, 7, 31))
    assert free.area == pytest.approx(plan.area(bed) / 2)
    late = [p.first for p in plan.in_bed(bed) if p.first and p.first.month == 8]
    assert len(late) == 1


@pytest.mark.parametrize("crop", ["sunflower", "lettuce", "basil"])
def test_single_plants_share_the_ground_at_given_places(plan: Plan, crop: str) -> None:
    (planting,) = these(plan, lambda p: p.crop == crop and p.shares_ground)
    assert planting.arrangement.kind == "places"
    assert plan.placed(planting).plants == len(planting.arrangement.points)
    own = plan.placed(planting).layout.points
    for other in plan.in_bed(plan.bed_of(planting)):
        if other is planting or not plan.span_of(other).meets(plan.span_of(planting)):
            continue
        near = shapely.distance(
            shapely.multipoints(own), shapely.multipoints(plan.placed(other).layout.points)
        )
        assert near > 0.2, f"{crop} stands {near:.2f} m from {other.crop}"


def test_staggered_and_scattered_plantings_are_there(plan: Plan) -> None:
    staggered = these(plan, lambda p: p.arrangement.kind == "staggered")
    assert {p.crop for p in staggered} >= {"broccoli", "cabbage"}
    scattered = these(plan, lambda p: p.arrangement.kind == "scatter")
    assert {p.purpose for p in scattered} == {"green manure", "kitchen"}


def test_narrow_bed_holds_a_single_row(hollow: Garden, plan: Plan) -> None:
    bed = hollow.beds_by_id[named(hollow, "East 3")]
    assert bed.outline.shape == "rectangle"
    assert bed.outline.width == 0.6
    (beans,) = [p for p in plan.in_bed(bed) if p.crop == "runner_bean"]
    assert beans.arrangement.kind == "rows"
    assert beans.arrangement.rows == 1
    assert (plan.placed(beans).layout.row_count, plan.placed(beans).plants) == (1, 12)


def test_sweet_corn_stands_in_a_block(plan: Plan) -> None:
    (corn,) = these(plan, lambda p: p.crop == "sweet_corn")
    assert plan.placed(corn).layout.row_count >= 3
    left, low, right, high = plan.placed(corn).plot.bounds
    assert right - left <= 2.5 * (high - low)


def test_climbing_beans_stand_at_both_feet_of_the_arch(plan: Plan) -> None:
    beans = these(plan, lambda p: p.crop == "climbing_bean")
    assert {plan.bed_of(p).name for p in beans} == {"West 4", "Middle 4"}
    assert {p.support and p.support.kind for p in beans} == {"arch"}


def test_crops_of_the_tunnel_stand_under_glass(plan: Plan) -> None:
    for crop in ("tomato", "cucumber", "sweet_pepper", "melon"):
        assert {plan.bed_of(p).kind for p in plan.plantings if p.crop == crop} == {"under glass"}


def test_own_varieties_have_figures_notes_and_plantings(hollow: Garden) -> None:
    assert len(hollow.varieties) == 4
    planted = {hollow.own_variety(p) for p in hollow.plantings if p.year == YEAR}
    for own in hollow.varieties:
        fields = {figure.field for figure in own.figures}
        assert "days_to_maturity" in fields
        assert fields & {"in_row_spacing", "row_spacing"}
        assert own.notes
        assert own in planted


def test_stock_holds_lots_by_grams_and_by_seeds_one_of_them_tested(hollow: Garden) -> None:
    assert len(hollow.stock) >= 5
    assert any(lot.grams for lot in hollow.stock)
    assert any(lot.seeds for lot in hollow.stock)
    assert any(lot.germination for lot in hollow.stock)


def test_ground_is_used_twice_in_at_least_four_beds(hollow: Garden, plan: Plan) -> None:
    assert used_twice(hollow, plan) >= {"West 4", "West 5", "Middle 1", "Middle 4", "East 1", "Tunnel east"}


def test_series_run_over_at_least_four_beds_in_the_order_of_their_days(plan: Plan) -> None:
    series: dict[str, list[Planting]] = {}
    for planting in these(plan, lambda p: p.series is not None):
        series.setdefault(planting.series or "", []).append(planting)
    assert len({p.bed for members in series.values() for p in members}) >= 4
    for members in series.values():
        assert len({p.crop for p in members}) == 1
        assert len({plan.span_of(p).first for p in members}) == len(members) >= 2


def test_leeks_of_the_year_before_stand_until_march(hollow: Garden, plan: Plan) -> None:
    (leek,) = [p for p in plan.plantings if p.crop == "leek" and p.year == YEAR - 1]
    assert plan.span_of(leek).last == dt.date(YEAR, 3, 20)


def test_beans_are_raised_for_the_soil_is_too_cold_to_sow_them(hollow: Garden) -> None:
    beans = [p for p in hollow.plantings if p.crop in ("dwarf_bean", "climbing_bean", "runner_bean")]
    assert len(beans) > 8
    assert {p.start for p in beans} == {"raised"}


def test_winter_squash_is_raised_for_three_weeks_and_set_out_after_the_last_frost(plan: Plan) -> None:
    (squash,) = these(plan, lambda p: p.crop == "winter_squash")
    dates, frost = plan.dates(squash), plan.frosts().last
    assert dates.sow is not None
    assert dates.set_out is not None
    assert frost is not None
    assert (dates.set_out.day - dates.sow.day).days == 21
    assert dates.set_out.day > frost
