"""Things pasted into a garden: where they lie, in which year, on which ground."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting, rectangle

from planner.garden import Places, Stretch, Whole
from planner.garden.edits import EditError, put_variety
from planner.plan import Plan
from planner.plan.pasting import copied, offset_to, paste

D = dt.date
SOURCE, _ = put_variety(
    garden(
        bed("b1", rectangle(4.0, 1.0, center=(1.0, 2.0)), name="North"),
        bed("b2", rectangle(4.0, 1.0, center=(1.0, -2.0)), name="South"),
        planting("p1", variety="Early", plot=Stretch(start=0, end=1)),
        planting("p2", plot=Stretch(start=1, end=2)),
    ),
    crop="carrot",
    name="Early",
)


def test_a_copy_holds_what_its_things_need():
    copy = copied(SOURCE, ["p1"])
    assert [one.id for one in copy.garden.beds] == ["b1"]
    assert [one.id for one in copy.garden.plantings] == ["p1"]
    assert copy.garden.varieties == SOURCE.varieties
    assert [one.id for one in copied(SOURCE, ["b1"]).garden.plantings] == ["p1", "p2"]


def test_beds_bring_their_plantings_and_varieties():
    made, new = paste(garden(), copied(SOURCE, ["b1"]), (1.0, 0.5), None, 2026)
    (one,) = made.beds
    assert new == (one.id,)
    assert one.outline.center == (2.0, 2.5)
    assert [p.bed for p in made.plantings] == [one.id, one.id]
    assert [own.name for own in made.varieties] == ["Early"]


def test_the_middle_of_what_is_copied_comes_to_the_place_in_steps():
    copy = copied(SOURCE, ["b1", "b2"])
    assert offset_to(copy, (3.04, 1.0)) == (2.0, 1.0)
    assert offset_to(copy, None) == (0.0, 0.0)
    assert offset_to(copied(SOURCE, ["p1"]), (3.0, 1.0)) == (0.0, 0.0)


def test_a_planting_by_itself_goes_onto_free_ground_with_its_variety():
    taken = planting("p1", crop="kale", plot=Stretch(start=0, end=2.5))
    made, (key,) = paste(
        garden(bed(outline=rectangle(4.0, 1.0)), taken), copied(SOURCE, ["p1"]), (0, 0), None, 2026
    )
    assert made.plantings_by_id[key].plot == Stretch(start=2.5, end=3.5)
    assert made.plantings_by_id[key].variety == "Early"
    assert [own.name for own in made.varieties] == ["Early"]


def test_ground_that_is_free_is_taken_as_it_was():
    made, (key,) = paste(garden(bed()), copied(SOURCE, ["p2"]), (0, 0), None, 2026)
    assert made.plantings_by_id[key].plot == Stretch(start=1, end=2)


def test_a_bed_without_free_ground_refuses_a_planting():
    full = garden(bed(name="Full"), planting(crop="kale", plot=Whole()))
    with pytest.raises(EditError, match="Full has no free ground"):
        paste(full, copied(SOURCE, ["p1"]), (0, 0), None, 2026)


def test_single_places_are_pasted_over_what_is_there():
    source = garden(bed(), planting(arrangement=Places(points=((0.5, 0.1),))))
    full = garden(bed(), planting(crop="kale", plot=Whole()))
    made, (key,) = paste(full, copied(source, ["p1"]), (0, 0), None, 2026)
    assert made.plantings_by_id[key].arrangement == Places(points=((0.5, 0.1),))


def test_a_planting_goes_into_the_year_shown_with_its_days():
    source = garden(bed(), planting(first=D(2024, 2, 29), last=D(2024, 5, 20), year=2024))
    made, (key,) = paste(garden(bed()), copied(source, ["p1"]), (0, 0), None, 2026)
    one = made.plantings_by_id[key]
    assert (one.year, one.first, one.last) == (2026, D(2026, 2, 28), D(2026, 5, 20))


def test_a_planting_that_grows_in_the_year_shown_stays_in_its_own():
    source = garden(bed(), planting(first=D(2025, 10, 1), last=D(2026, 5, 20), year=2025))
    made, (key,) = paste(garden(bed()), copied(source, ["p1"]), (0, 0), None, 2026)
    one = made.plantings_by_id[key]
    assert (one.year, one.first, one.last) == (2025, D(2025, 10, 1), D(2026, 5, 20))


def test_a_planting_needs_a_bed():
    with pytest.raises(EditError, match="carrot has no bed to go to"):
        paste(garden(bed("b7")), copied(SOURCE, ["p1"]), (0, 0), None, 2026)
    made, (key,) = paste(garden(bed("b7")), copied(SOURCE, ["p1"]), (0, 0), "b7", 2026)
    assert made.plantings_by_id[key].bed == "b7"


def test_what_was_planted_last_autumn_grows_in_the_year_it_is_pasted_in():
    source = garden(bed("b1"), bed("b2"), planting("p1", crop="garlic", year=2025, first=D(2025, 10, 12)))
    assert planting_in(Plan(source, 2026), "p1")  # worked out, without a last day by hand
    made, (key,) = paste(source, copied(source, ["p1"]), (0.0, 0.0), "b2", 2026)
    assert made.plantings_by_id[key].year == 2025
    assert planting_in(Plan(made, 2026), key)


def planting_in(plan, key):
    return key in {one.id for one in plan.plantings}
