"""red_mesa: raised beds in feet and inches, high and dry, with a short season."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
import shapely
from sample_reading import YEAR, back_on_their_ground, grounds, named, sample, these, used_twice

from planner.crops import load_catalogue
from planner.garden import Garden
from planner.garden.units import show_length
from planner.plan import Plan
from planner.storage import load

MESA = sample("red_mesa")
FOOT = 0.3048


@pytest.fixture(scope="module")
def mesa() -> Garden:
    return load(MESA)


@pytest.fixture(scope="module")
def plan(mesa: Garden) -> Plan:
    return Plan(mesa, YEAR, load_catalogue())


# -- ground ---------------------------------------------------------------------------------


def test_place_is_high_and_shown_in_feet_and_inches(mesa: Garden) -> None:
    site = mesa.site
    assert (site.units, site.time_zone, site.year_begins) == ("feet_inches", "America/Denver", 1)
    assert (site.latitude, site.longitude, site.elevation) == (35.7, -106.0, 2000.0)


def test_season_between_the_frosts_is_short(plan: Plan) -> None:
    frosts = plan.frosts()
    assert (frosts.last, frosts.first) == (dt.date(2026, 5, 20), dt.date(2026, 9, 25))


def test_there_are_twenty_four_raised_beds_of_three_sizes(mesa: Garden) -> None:
    assert [(bed.kind, bed.height > 0) for bed in mesa.beds] == [("raised", True)] * 24
    outlines = [b.outline for b in mesa.beds if b.outline.shape == "rectangle"]
    feet = [(round(o.length / FOOT, 5), round(o.width / FOOT, 5)) for o in outlines]
    assert (feet.count((8, 4)), feet.count((10, 3))) == (15, 8)
    assert [b.name for b in mesa.beds if b.outline.shape == "circle"] == ["Herb round"]


def test_sizes_are_whole_feet_on_the_screen(mesa: Garden) -> None:
    outline = mesa.beds_by_id[named(mesa, "North 1")].outline
    assert outline.shape == "rectangle"
    assert [show_length(v, "feet_inches") for v in (outline.length, outline.width)] == ["8 ft", "4 ft"]


@pytest.mark.parametrize(
    ("one", "other", "feet"),
    [
        *((f"North {i}", f"North {i + 1}", 2) for i in range(1, 8)),
        *((f"South {i}", f"South {i + 1}", 2) for i in range(1, 7)),
        *((f"{r} long {i}", f"{r} long {i + 1}", 2) for r in ("Upper", "Lower") for i in range(1, 4)),
        ("North 1", "Upper long 1", 3),
        ("Upper long 1", "South 1", 3),
        ("South 1", "Lower long 1", 3),
    ],
)
def test_path_between_neighbouring_beds_is_two_or_three_feet_wide(one: str, other: str, feet: int) -> None:
    beds = grounds(MESA, "beds")
    assert beds[one].distance(beds[other]) == pytest.approx(feet * FOOT, abs=1e-5)


def test_no_path_is_narrower_than_two_feet(mesa: Garden) -> None:
    beds = grounds(MESA, "beds")
    least = min(a.distance(b) for a, b in itertools.combinations(beds.values(), 2))
    assert least >= 2 * FOOT - 1e-5
    assert least > mesa.site.path_width


def test_windbreaks_stand_north_and_west_of_all_beds(mesa: Garden) -> None:
    breaks = {s.kind for s in mesa.structures if "windbreak" in s.name}
    assert breaks == {"fence", "hedge"}
    beds = shapely.union_all(list(grounds(MESA, "beds").values())).bounds
    structures = grounds(MESA, "structures")
    assert structures["windbreak fence"].bounds[2] < beds[0]
    assert structures["juniper windbreak"].bounds[1] > beds[3]


def test_glasshouse_and_shed_are_there(mesa: Garden) -> None:
    assert {s.kind for s in mesa.structures} >= {"glasshouse", "shed", "fence", "hedge"}


# -- the years ------------------------------------------------------------------------------


@pytest.mark.parametrize("year", [2025, 2026])
def test_every_bed_is_planted_in_both_years(mesa: Garden, year: int) -> None:
    plan = Plan(mesa, year, load_catalogue())
    assert [bed.name for bed in plan.beds if not plan.in_bed(bed)] == []
    assert len(these(plan, lambda p: True)) >= 24


def test_no_family_returns_to_its_ground_the_year_after(mesa: Garden, plan: Plan) -> None:
    assert back_on_their_ground(mesa, plan) == []


def test_garlic_stands_over_winter_and_is_lifted_in_summer(plan: Plan) -> None:
    spans = [plan.span_of(p) for p in plan.plantings if p.crop == "garlic"]
    assert [(s.first.year, s.first.month, s.last.year, s.last.month) for s in spans] == [
        (2025, 10, 2026, 7),
        (2026, 10, 2027, 7),
    ]


# -- what grows in 2026 -----------------------------------------------------------------------


def test_crops_of_a_short_dry_summer_are_there(plan: Plan) -> None:
    crops = {p.crop for p in plan.plantings}
    assert crops >= {"pea", "spinach", "lettuce", "carrot", "beetroot", "potato", "onion", "garlic"}
    assert crops >= {"sweet_corn", "climbing_bean", "winter_squash", "tomato", "chilli_pepper", "tomatillo"}
    assert crops >= {"cabbage", "broccoli", "chives", "thyme", "zinnia", "cosmos", "sunflower"}


@pytest.mark.parametrize("crop", ["tomato", "chilli_pepper", "tomatillo", "cucumber", "melon", "dwarf_bean"])
def test_what_frost_kills_starts_after_the_last_frost_at_the_chosen_risk(plan: Plan, crop: str) -> None:
    found = these(plan, lambda p: p.crop == crop)
    assert found
    for planting in found:
        dates, frosts = plan.dates(planting), plan.frosts()
        assert frosts.risk == plan.garden.climate.risk
        assert dates.on_plot is not None
        assert frosts.last is not None
        assert dates.on_plot.day > frosts.last


@pytest.mark.parametrize("crop", ["tomato", "chilli_pepper", "tomatillo", "melon"])
def test_shelter_lies_over_it_for_the_first_two_weeks(plan: Plan, crop: str) -> None:
    (planting,) = these(plan, lambda p: p.crop == crop)
    (cover,) = [c for c in plan.dates(planting).covers if c.kind in ("fleece", "low tunnel")]
    assert cover.off is not None
    assert cover.on.day == plan.span_of(planting).first
    assert (cover.off.day - cover.on.day).days == 14


@pytest.mark.parametrize("crop", ["tomato", "chilli_pepper", "tomatillo", "sweet_corn", "winter_squash"])
def test_it_ripens_before_the_first_autumn_frost(plan: Plan, crop: str) -> None:
    for planting in these(plan, lambda p: p.crop == crop):
        first, frost = plan.dates(planting).first_harvest, plan.frosts().first
        assert first is not None
        assert frost is not None
        assert first.day < frost


def test_peas_start_six_weeks_before_the_last_frost_by_themselves(plan: Plan) -> None:
    (pea,) = these(plan, lambda p: p.crop == "pea")
    sow = plan.dates(pea).sow
    assert pea.first is None
    assert sow is not None
    assert sow.day == dt.date(2026, 4, 8)
    assert "6 weeks before the last spring frost" in sow.why


@pytest.mark.parametrize("crop", ["cabbage", "broccoli", "kale"])
def test_cabbage_kind_stands_under_netting(plan: Plan, crop: str) -> None:
    (planting,) = these(plan, lambda p: p.crop == crop)
    assert [c.kind for c in planting.covers] == ["netting"]


def test_lettuce_is_sown_every_two_weeks_as_one_series(plan: Plan) -> None:
    lettuce = these(plan, lambda p: p.crop == "lettuce")
    starts = sorted(plan.span_of(p).first for p in lettuce)
    assert len(lettuce) == 4
    assert len({p.series for p in lettuce} - {None}) == 1
    assert {(b - a).days for a, b in itertools.pairwise(starts)} == {14}


def test_radish_comes_three_times_on_the_same_plot(plan: Plan) -> None:
    radish = these(plan, lambda p: p.crop == "radish")
    assert len(radish) == 3
    assert len({(p.bed, p.plot, p.series) for p in radish}) == 1


def test_the_blocks_of_corn_ripen_one_after_another(plan: Plan) -> None:
    corn = sorted(these(plan, lambda p: p.series == "corn"), key=lambda p: plan.span_of(p).first)
    firsts = [first.day for p in corn if (first := plan.dates(p).first_harvest)]
    assert len(firsts) == 3
    assert firsts[-1] - firsts[0] >= dt.timedelta(days=14)
    assert "follow" in corn[-1].notes


@pytest.mark.parametrize("name", ["South 1", "South 2"])
def test_corn_beans_and_squash_share_one_bed_without_crowding(mesa: Garden, plan: Plan, name: str) -> None:
    here = plan.in_bed(mesa.beds_by_id[named(mesa, name)])
    assert {p.crop: p.shares_ground for p in here} == {
        "sweet_corn": False,
        "climbing_bean": True,
        "winter_squash": True,
    }
    for a, b in itertools.combinations(here, 2):
        one, other = (shapely.multipoints(plan.placed(p).layout.points) for p in (a, b))
        assert one.distance(other) > 0.2
    sown = {p.crop: plan.span_of(p).first for p in here}
    assert sown["climbing_bean"] - sown["sweet_corn"] >= dt.timedelta(days=14)


def test_ground_is_used_twice_in_several_beds(mesa: Garden, plan: Plan) -> None:
    assert used_twice(mesa, plan) >= {"North 1", "North 2", "North 5", "Upper long 2", "Upper long 3"}


def test_herbs_stand_for_years_in_the_round(mesa: Garden, plan: Plan) -> None:
    here = plan.in_bed(mesa.beds_by_id[named(mesa, "Herb round")])
    assert {p.crop for p in here if plan.span_of(p).open} == {"chives", "thyme", "sage", "oregano"}


def test_own_varieties_and_stock_are_planted(mesa: Garden) -> None:
    assert {own.name for own in mesa.varieties} == {
        p.variety for p in mesa.plantings if p.year == YEAR and p.variety
    }
    assert {lot.variety for lot in mesa.stock} - {""} == {own.name for own in mesa.varieties}
