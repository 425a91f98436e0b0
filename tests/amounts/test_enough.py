"""How much to plant: published examples, the least stretch that is enough, and free ground only."""

from __future__ import annotations

import datetime as dt
import math

import pytest
import shapely
from calendar_places import read_places
from making import bed, catalogue_of, crop, garden, planting, rectangle
from own_years import garden_of_years
from sample_reading import FOLDER

from planner.amounts.enough import STEP, find_room, needed, planting_edit
from planner.amounts.enough_for import EnoughError, enough_for, first_day_eaten
from planner.garden import Stretch
from planner.garden import edits as e
from planner.garden.planting_figures import PlantingFigures
from planner.listings.enough import need_lines
from planner.plan import Plan
from planner.season.spans import Span
from planner.storage import load

D = dt.date
HOLLOW = load(FOLDER / "hollow_lane.bedwright")
LB, FOOT = 453.59237, 0.3048


def figures(**numbers):
    return PlantingFigures(crop(**numbers), None)


def test_78_pounds_at_two_and_a_half_pounds_a_foot_take_31_feet_of_row():
    # agricultural education lesson: 78 lb, 2.5 lb per foot of row: 31.2 ft
    got = needed(figures(yield_per_metre=2.5 * LB / 1000 / FOOT), "sown", round(78 * LB))
    assert got.metres / FOOT == pytest.approx(31.2, rel=1e-4)


def test_twelve_feet_a_person_are_60_feet_for_five():
    # University of Georgia Extension (Starr 2016): 12 feet of row a person for canning, 5 persons: 60 ft
    per_foot = 11.5 * LB / 12
    got = needed(figures(yield_per_metre=per_foot / 1000 / FOOT), "sown", round(5 * 12 * per_foot))
    assert got.metres / FOOT == pytest.approx(60, rel=1e-4)


def test_plants_are_rounded_up_and_take_their_ground():
    got = needed(figures(yield_per_plant=3.0, in_row_spacing=0.5, row_spacing=0.8), "bought", 10_000)
    assert (got.plants, got.metres, got.seeds) == (4, 2.0, 0)
    assert got.area == pytest.approx(1.6)


def test_seed_is_that_of_the_start():
    numbers = {"yield_per_metre": 1.0, "in_row_spacing": 0.1, "row_spacing": 0.3, "germination": 0.65}
    assert needed(figures(**numbers), "sown", 5000).seeds == 50 * math.ceil(math.log(0.05) / math.log(0.35))
    assert needed(figures(**numbers, sowing_spacing=0.02), "sown", 5000).seeds == 250
    assert needed(figures(**numbers), "raised", 5000).seeds > 50 / 0.65
    assert needed(figures(yield_per_metre=1.0, in_row_spacing=0.1), "raised", 5000).seeds is None


def test_no_yield_is_no_answer():
    assert needed(figures(in_row_spacing=0.1), "sown", 5000) is None


def test_spots_lie_on_free_ground_for_all_of_their_days():
    plan = Plan(HOLLOW, 2027)
    found = enough_for(plan, plan.catalogue.crops["potato"], 2, D(2028, 3, 31))
    assert found.spots
    span = Span(found.dates.on_plot.day, found.dates.clear.day)
    for spot in found.spots:
        plot = plan.trial(spot.planting).plot
        for other in plan.garden_in_bed(spot.bed.id):
            if plan.span_of(other).meets(span) and not other.shares_ground:
                assert shapely.intersection(plot, plan.placed(other).plot).area < 0.02


def test_the_last_stretch_is_the_least_that_is_enough():
    plan = Plan(HOLLOW, 2027)
    carrot = plan.catalogue.crops["carrot"]
    found = find_room(plan, carrot, "", plan.usual_dates(carrot), 3000).spots
    assert len(found) == 1
    assert found[0].grams >= 3000
    plot = found[0].planting.plot
    shorter = found[0].planting.with_(plot=Stretch(start=plot.start, end=plot.end - STEP))
    edited = planting_edit((found[0]._replace(planting=shorter),))(HOLLOW)
    from planner.amounts.yields import planting_yield

    assert planting_yield(Plan(edited, 2027), edited.plantings[-1]).grams < 3000


def test_what_is_planted_there_yields_what_was_said():
    from planner.amounts.yields import planting_yield

    plan = Plan(HOLLOW, 2027)
    carrot = plan.catalogue.crops["carrot"]
    found = find_room(plan, carrot, "", plan.usual_dates(carrot), 9000).spots
    edited = planting_edit(found)(HOLLOW)
    new = edited.plantings[len(HOLLOW.plantings) :]
    after = Plan(edited, 2027)
    assert [planting_yield(after, one).grams for one in new] == [spot.grams for spot in found]


def test_a_full_garden_has_no_room():
    document = garden(bed(), planting(crop="beet"), site=HOLLOW.site, climate=HOLLOW.climate)
    plan = Plan(document, 2026)
    assert (
        find_room(
            plan, plan.catalogue.crops["carrot"], "", plan.usual_dates(plan.catalogue.crops["carrot"]), 900
        ).spots
        == ()
    )


def test_it_is_worked_out_for_as_long_as_it_keeps():
    plan = Plan(HOLLOW.with_(store_places=()), 2027)
    potato = plan.catalogue.crops["potato"]
    short = enough_for(plan, potato, 2, D(2028, 1, 31))
    longest = enough_for(plan, potato, 2, D(2028, 12, 31))
    assert short.last == D(2028, 1, 31)
    assert longest.last == longest.picking.last + dt.timedelta(days=210)
    assert short.needed.grams == short.eaten == math.ceil(short.appetite.weekly * short.days / 7)


def test_twice_as_many_need_twice_as_much():
    plan = Plan(HOLLOW, 2027)
    potato = plan.catalogue.crops["potato"]
    two, four = (enough_for(plan, potato, many, D(2028, 3, 31)).needed for many in (2, 4))
    assert four.grams == pytest.approx(2 * two.grams, rel=0.001)
    assert four.metres == pytest.approx(2 * two.metres, rel=0.001)


def test_refusals_say_what_is_missing():
    plan = Plan(HOLLOW, 2027)
    crops = plan.catalogue.crops
    with pytest.raises(EnoughError, match="how much of mizuna a person eats is not known"):
        enough_for(plan, crops["mizuna"], 2, D(2027, 6, 1))
    with pytest.raises(EnoughError, match="after the day asked for"):
        enough_for(plan, crops["carrot"], 2, D(2027, 3, 1))
    bare = Plan(garden(bed()), 2026, catalogue_of(crop(days_to_maturity=60)))
    with pytest.raises(EnoughError, match="Give the garden its frosts"):
        first_day_eaten(bare, bare.catalogue.crops["carrot"])


# -- what is published for a person ----------------------------------------------------------------------

KENT, ATHENS = (Plan(garden(bed(), site=site, climate=climate), 2026) for site, climate in (read_places()[place] for place in ("Kent", "Athens GA")))  # fmt: skip
#: Feet of row a person: Kansas State University MF315, but lettuce, mustard and endive (Missouri G6201).
FEET = {
    "beetroot": (5, 10), "carrot": (5, 10), "celeriac": (5, 5), "dwarf_bean": (15, 16), "kale": (5, 10), "parsnip": (5, 5),
    "pea": (15, 20), "potato": (50, 100), "salsify": (5, 5), "spinach": (5, 10), "okra": (4, 6), "cowpea": (10, 15),
    "lima_bean": (10, 15), "sweet_corn": (10, 15), "radish": (3, 5), "leaf_lettuce": (5, 10), "mustard_greens": (5, 10),
    "endive": (3, 5), "soya_bean": (50, 50), "chard": (5, 10),
}  # fmt: skip


@pytest.mark.parametrize("key", FEET)
def test_who_eats_all_that_is_published_plants_the_row_that_is_published(key):
    tender = key in ("okra", "cowpea", "lima_bean", "soya_bean", "sweet_corn")
    plan = ATHENS if tender else KENT
    found = enough_for(plan, plan.catalogue.crops[key], 1, D(2028, 12, 31))
    least, most = (feet * FOOT for feet in FEET[key])
    short = found.days / 7 / found.appetite.weeks  # of a week that has begun, or of weeks that frost cuts off
    assert 0.9 * least * short - 0.1 <= found.needed.metres <= most / found.picking.share + 0.2
    assert found.needed.metres == pytest.approx(
        (least + most) / 2 * short / found.picking.share, rel=0.02, abs=0.25
    )


def test_leeks_and_parsnips_are_eaten_from_the_first_day_on_which_they_are_ready():
    for key in ("leek", "parsnip"):
        crop_ = KENT.catalogue.crops[key]
        first = first_day_eaten(KENT, crop_)
        assert first == KENT.usual_dates(crop_).first_harvest.day
        assert first.year == 2026
        assert enough_for(KENT, crop_, 2, D(2027, 3, 1), weekly=0.25).picking.first == first


def test_what_is_proposed_is_what_stands_in_the_beds():
    plan = Plan(HOLLOW, 2027)
    for key in ("potato", "carrot", "onion", "kale"):
        found = enough_for(plan, plan.catalogue.crops[key], 2, D(2028, 2, 1))
        if found.planted is None:
            assert found.takes is found.needed
            continue
        assert found.takes.plants == sum(spot.plants for spot in found.spots)
        assert found.takes.area == pytest.approx(sum(spot.area for spot in found.spots))
        assert found.takes.grams >= found.needed.grams


def test_tomatoes_for_bottling_are_there_until_spring():
    tomato = ATHENS.catalogue.crops["tomato"]
    fresh = enough_for(ATHENS, tomato, 2, D(2027, 3, 31))
    jars = enough_for(ATHENS, tomato, 2, D(2027, 3, 31), purpose="bottling")
    assert fresh.last < D(2026, 12, 1) < jars.last == D(2027, 3, 31)
    assert jars.appetite.weeks == 52


@pytest.mark.parametrize(
    ("key", "reason"),
    [
        ("watermelon", "does not ripen in time"),
        ("strawberry", "bears nothing in the year in which it is planted"),
    ],
)
def test_the_reason_is_the_right_one(key, reason):
    site, climate = read_places()["Kent"]
    cold = climate.with_(
        monthly_maximum=tuple(one - 4 for one in climate.monthly_maximum),
        monthly_minimum=tuple(one - 4 for one in climate.monthly_minimum),
    )
    plan = Plan(garden(bed(), site=site, climate=cold), 2026)
    with pytest.raises(EnoughError, match=reason):
        first_day_eaten(plan, plan.catalogue.crops[key])


def test_what_a_garden_learned_counts_in_how_much_to_plant() -> None:
    """A garden that picks twice of what is printed needs, by hand, as much less as its own figure is more; and it is named."""
    years = {
        year: {"sow": (5, 20), "grams": {(8, 20): 9000, (9, 1): 9000}, "end": (10, 1)}
        for year in (2023, 2024, 2025)
    }
    of = garden_of_years("dwarf_bean", years)
    beds = tuple(one.with_(last_year=2025) for one in of.beds)
    of = of.with_(beds=(*beds, bed("new", rectangle(8.0, 1.2, center=(20.0, 0.0)))))
    plan, by_print = Plan(of, 2026), Plan(e.use_learned(of, "never"), 2026)
    crop = plan.catalogue.crops["dwarf_bean"]
    learned = plan.own_figures(crop, "sown").learned_figure("yield")
    assert learned is not None
    assert learned.factor > 1.2
    until = dt.date(2026, 9, 20)
    mine, printed = (enough_for(one, crop, 2, until) for one in (plan, by_print))
    assert mine.needed.metres is not None
    assert printed.needed.metres is not None
    per_metre = crop.number("yield_per_metre")
    assert per_metre is not None
    assert mine.needed.metres == pytest.approx(mine.needed.grams / 1000 / (per_metre * learned.factor))
    assert printed.needed.metres == pytest.approx(printed.needed.grams / 1000 / per_metre)
    words = "\n".join(need_lines(plan, mine))
    assert "by this garden's own years, 3 (2023-2025)" in words
    assert "own years" not in "\n".join(need_lines(by_print, printed))


def test_what_ripens_only_when_it_is_raised_is_reckoned_so():
    """At 56 degrees north maize sown in the open stays green; raised and set out it ripens."""
    plan = Plan(load(FOLDER / "hollow_lane.bedwright"), 2027)
    maize = plan.catalogue.crops["sweet_corn"]
    assert not plan.usual_dates(maize).ripens
    found = enough_for(plan, maize, 2, dt.date(2028, 6, 1))
    assert found.dates.start == "raised"
    assert found.dates.ripens
    assert found.needed.grams > 0
