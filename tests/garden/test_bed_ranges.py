"""Ranges of beds: how many, where, and what they are called."""

from __future__ import annotations

import math

import pytest
from making import bed, garden

from planner.garden import Garden
from planner.garden.edits import BedRange, EditError, add_bed_range


def test_beds_lie_row_by_row_from_the_top_with_paths_between():
    made, ids = add_bed_range(Garden(), BedRange("", 3.0, 1.0, 2, 3, path_across=0.5, path_up=0.4), 1.0, 2.0)
    assert ids == ("b1", "b2", "b3", "b4", "b5", "b6")
    assert [one.name for one in made.beds] == [f"Bed {i}" for i in range(1, 7)]
    assert [one.outline.center for one in made.beds] == [
        (2.5, 1.5),
        (6.0, 1.5),
        (2.5, 0.1),
        (6.0, 0.1),
        (2.5, -1.3),
        (6.0, -1.3),
    ]
    assert {(one.outline.length, one.outline.width) for one in made.beds} == {(3.0, 1.0)}


def test_a_single_bed_has_its_corner_at_the_place_named():
    made, _ = add_bed_range(Garden(), BedRange("Hot bed", 4.8, 1.2), -1.0, 0.5)
    (one,) = made.beds
    assert (one.name, one.outline.center) == ("Hot bed", (1.4, -0.1))


def test_names_of_ranges_never_meet():
    made = Garden()
    for beds in (
        BedRange("Row", 2.0, 1.0, 2, 1),
        BedRange("row", 2.0, 1.0, 2, 1),
        BedRange("Row 1", 2.0, 1.0),
        BedRange("", 2.0, 1.0),
    ):
        made, _ = add_bed_range(made, beds, 0.0, 0.0)
    assert [one.name for one in made.beds] == ["Row 1", "Row 2", "row 3", "row 4", "Row 5", "Bed 6"]


def test_numbers_that_are_taken_are_passed_over():
    start = garden(bed("b7", name="Bed 3"), bed("b2", name="Herbs"))
    made, ids = add_bed_range(start, BedRange("", 2.0, 1.0, 2, 1), 0.0, 0.0)
    assert [made.beds_by_id[key].name for key in ids] == ["Bed 4", "Bed 5"]
    assert ids == ("b8", "b9")
    assert made.beds[:2] == start.beds


@pytest.mark.parametrize(
    ("beds", "words"),
    [
        (BedRange("Row", 0.0, 1.0), "Row: length 0.0"),
        (BedRange("", math.nan, 1.0), "bed: "),
        (BedRange("", 2.0, 9000.0), "bed: width 9000.0"),
        (BedRange("x" * 300, 2.0, 1.0), "at most 200 characters"),
    ],
)
def test_a_range_that_is_not_possible_is_refused_in_one_line(beds, words):
    with pytest.raises(EditError) as refused:
        add_bed_range(Garden(), beds, 0.0, 0.0)
    assert words in str(refused.value)
    assert "\n" not in str(refused.value)


def test_ten_thousand_beds_have_names_of_their_own():
    made, ids = add_bed_range(Garden(), BedRange("", 2.0, 1.0, 100, 100), 0.0, 0.0)
    assert len({one.name for one in made.beds}) == len(set(ids)) == 10_000
