"""The harvest of a year: its weeks add up over beds and crops, and what is kept keeps as published."""

from __future__ import annotations

import datetime as dt
import itertools
from collections import Counter

import pytest
from calendar_places import read_places
from making import bed, garden, planting, rectangle
from sample_reading import FOLDER

from planner.amounts.harvest import PRESERVED, harvest, harvests, kept_from_before
from planner.amounts.picking import picking_of
from planner.amounts.supply_year import crop_years
from planner.garden import Planting, StorePlace
from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.plan.yields import NOT_EATEN
from planner.season.spans import year_span
from planner.storage import load

SAMPLES = sorted(FOLDER.glob("*.bedwright"))
D = dt.date
HOLLOW = load(FOLDER / "hollow_lane.bedwright")


@pytest.fixture(scope="module", params=SAMPLES, ids=lambda path: path.stem)
def plan(request):
    document = load(request.param)
    return Plan(document, document.years()[-1])


def test_the_picks_of_each_planting_add_up_to_its_whole_yield(plan):
    found = harvests(plan)
    assert found
    for one in found:
        assert one.picked == (one.amount.grams - one.lost if one.picks else 0)
        assert 0 <= one.lost <= (one.amount.grams or 0)
        assert sum(lot.grams for lot in one.lots) == sum(pick.grams for pick in one.picks)


def test_weeks_beds_and_crops_add_up_to_the_same(plan):
    found = harvests(plan)
    by_bed, by_crop, by_week = Counter(), Counter(), Counter()
    for one in found:
        by_bed[one.bed.id] += one.within(plan.span)
        by_crop[one.planting.crop] += one.within(plan.span)
        by_week.update(one.weeks(plan.span))
    assert by_bed.total() == by_crop.total() == by_week.total() > 0
    in_crops = sum(one.within(plan.span) for year in crop_years(plan) for one in year.harvests)
    assert in_crops == by_week.total()


def test_the_growing_years_of_a_planting_add_up_to_its_yield(plan):
    for one in harvests(plan):
        if one.picks and not plan.dates(one.planting).stays_for_years:
            years = [year_span(plan.garden.site, plan.year + number) for number in (-2, -1, 0, 1, 2)]
            assert sum(one.within(year) for year in years) == one.amount.grams - one.lost


def test_every_planting_that_is_picked_in_the_year_is_there_once(plan):
    expected = {
        planting.id
        for planting in plan.plantings
        if planting.purpose not in NOT_EATEN
        and (dates := plan.dates(planting)).first_harvest is not None
        and dates.first_harvest.day <= plan.span.last
        and (dates.last_harvest or dates.first_harvest).day >= plan.span.first
    }
    found = [one.planting.id for one in harvests(plan)]
    assert len(set(found)) == len(found)
    # a lot for the store is lifted on the day it is cleared, which may lie in another year
    assert {one.planting.id for one in harvests(plan) if one.picking is not None} <= expected | {
        planting.id for planting in plan.plantings if planting.purpose == "store"
    }
    assert expected <= set(found) | {
        planting.id
        for planting in plan.plantings
        if planting.purpose == "store" or plan.figures_of(planting).crop is None
    }


def test_what_is_not_known_has_a_reason_and_no_zero(plan):
    for one in harvests(plan):
        assert bool(one.missing) == (not one.picks)
        if one.amount.grams is None:
            assert one.lots == ()


def keeping(crop, purpose, places=(), **fields):
    document = garden(
        bed("b1", rectangle(3, 1)), planting(crop=crop, purpose=purpose, **fields), store_places=tuple(places)
    )
    plan = Plan(load(FOLDER / "hollow_lane.bedwright").with_(dressings=(), records=(), trials=()).with_(**{
        name: getattr(document, name) for name in ("beds", "plantings", "store_places", "structures")
    }).with_(varieties=(), waived=()), 2026)  # fmt: skip
    return harvest(plan, plan.garden.plantings[0])


def test_onions_keep_as_published_where_no_place_is_given():
    one = keeping("onion", "store", first=D(2026, 3, 28), last=D(2026, 8, 20), start="sets")
    assert (one.kept.place, one.kept.days) == (None, 243)
    assert one.lots[0].last == D(2026, 8, 20) + dt.timedelta(days=243)
    assert one.lots[0].place == "store"


def test_in_a_place_as_wanted_onions_keep_as_published_and_in_a_warm_one_for_less():
    cold = StorePlace(id="k1", name="Loft", kind="dry room", temperature=2.0)
    warm = StorePlace(id="k2", name="Kitchen", kind="dry room", temperature=14.4)
    days = {place.name: keeping("onion", "store", [place], last=D(2026, 8, 20), start="sets").kept.days for place in (cold, warm)}  # fmt: skip
    assert days["Loft"] == 243
    assert days["Kitchen"] == pytest.approx(243 / 2.5), "ten degrees over 4.4 °C, the most that is printed"
    both = keeping("onion", "store", [warm, cold], last=D(2026, 8, 20), start="sets").kept
    assert both.place.name == "Loft"


def test_carrots_shrivel_in_a_dry_loft_and_onions_rot_in_a_damp_cellar():
    loft = StorePlace(id="k1", name="Loft", kind="dry room", temperature=2.0)
    clamp = StorePlace(id="k2", name="Clamp", kind="clamp", temperature=2.0)
    carrot = keeping("carrot", "store", [loft], last=D(2026, 10, 31))
    onion = keeping("onion", "store", [clamp], last=D(2026, 8, 20), start="sets")
    assert (carrot.kept.fault, onion.kept.fault) == ("too dry", "too damp")
    assert (carrot.kept.days, onion.kept.days) == (243 / 2, 243 / 2)


def test_squash_is_spoilt_by_the_cold_of_a_fridge():
    fridge = StorePlace(id="k1", name="Fridge", kind="fridge", humidity=0.65)
    assert (
        keeping(
            "winter_squash",
            "store",
            [fridge],
            pinned_dates={"first_harvest": D(2026, 10, 1), "last_harvest": D(2026, 10, 10)},
        ).kept.fault
        == "too cold"
    )


def test_a_place_that_names_crops_takes_those_and_no_others():
    named = StorePlace(id="k1", name="Box", kind="shed", crops=("onion",))
    cold = StorePlace(id="k2", name="Loft", kind="dry room", temperature=2.0)
    assert keeping("onion", "store", [named, cold], last=D(2026, 8, 20)).kept.place.name == "Box"
    assert keeping("carrot", "store", [named, cold], last=D(2026, 10, 31)).kept.place.name == "Loft"


@pytest.mark.parametrize("purpose", PRESERVED)
def test_preserved_peas_keep_for_months_from_each_picking(purpose):
    one = keeping("pea", purpose, first=D(2026, 4, 10))
    assert len(one.picks) > len(one.lots) > 1, "one for each half of a week"
    assert sum(lot.grams for lot in one.lots) == one.picked
    assert {(lot.last - lot.first).days for lot in one.lots} == {PRESERVED[purpose]}
    assert one.stored


def test_garlic_of_two_autumns_before_is_still_kept():
    old = planting(
        "p1", crop="garlic", purpose="store", year=2024, first=D(2024, 10, 10), last=D(2025, 7, 31)
    )
    plan = Plan(garden(bed(), old), 2026)
    (one,) = kept_from_before(plan)
    assert one.lots[0].first == D(2025, 7, 31)
    assert one.lots[0].last == D(2025, 7, 31) + dt.timedelta(days=213)


def test_the_store_of_last_year_is_there_when_the_year_begins():
    plan = Plan(load(FOLDER / "hollow_lane.bedwright"), 2026)
    crops = {one.planting.crop for one in kept_from_before(plan)}
    assert {"onion", "cabbage", "carrot"} <= crops
    assert "lettuce" not in crops


# -- what is cut off ------------------------------------------------------------------------------------


def tomatoes(first, last=None):
    """A planting of tomatoes of the cool sample, set out on a day and cleared on another."""
    one = Planting(id="t", bed="b1", crop="tomato", year=2026, first=first, last=last, start="raised")
    return Plan(garden(bed(), one, site=HOLLOW.site, climate=HOLLOW.climate), 2026)


def test_the_later_tomatoes_are_set_out_the_less_ripens_before_the_frost():
    """Property: never more, and not the whole of the published figure where its weeks of picking are cut off."""
    picked = []
    for days in range(0, 40, 3):
        one = harvest(plan_ := tomatoes(D(2026, 5, 10) + dt.timedelta(days)), plan_.plantings[0])
        assert one.picked + one.lost == (one.amount.grams if one.picks else 0)
        picked.append(one.picked)
    assert picked == sorted(picked, reverse=True)
    assert picked[5] < 0.6 * picked[0]


def test_fruit_that_does_not_ripen_in_time_gives_nothing_and_says_so():
    one = harvest(plan_ := tomatoes(D(2026, 7, 10)), plan_.plantings[0])
    assert (one.picked, one.missing) == (0, "tomato does not ripen in time")


@pytest.mark.parametrize("key", ["tomato", "courgette", "dwarf_bean", "sweet_pepper", "aubergine", "spinach", "runner_bean", "cucumber"])  # fmt: skip
@pytest.mark.parametrize("place", ["Kent", "Ames IA", "Athens GA", "Hamburg"])
def test_a_later_start_under_the_same_frost_never_yields_more(key, place):
    """Brute force: week by week through the whole window; what is picked for all of its usual weeks yields in full."""
    site, climate = read_places()[place]
    plan_ = Plan(garden(bed(), site=site, climate=climate), 2026)
    one = plan_.catalogue.crops[key]
    window = plan_.outer_window(one, "")
    draft = Planting(id="p", bed="b1", crop=key, year=2026)
    shares = []
    for days in range(0, (window.last - window.first).days + 1, 7):
        dates, good = plan_.dates_begun_on(one, "", window.first + dt.timedelta(days))
        picking = picking_of(draft, PlantingFigures(one, None), dates) if good else None
        if picking is not None and dates.first_harvest.day.month > 5:
            whole = (picking.last - picking.first).days + 1 >= one.number("harvest_days")
            assert (picking.share == 1) == whole
            assert sum(pick.grams for pick in picking.picks(10**6)) == pytest.approx(
                picking.share * 10**6, abs=60
            )
            shares.append(picking.share)
    if one.harvest_ends.value == "with frost":
        assert all(later <= sooner + 0.02 for sooner, later in itertools.pairwise(shares)), shares
