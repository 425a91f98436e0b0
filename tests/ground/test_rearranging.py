"""A planting arranged in another way, and its plot given other ends."""

from __future__ import annotations

import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.garden import Places, Rows, Scatter, StaggeredRows, Stretch, Whole
from planner.garden.edits import EditError
from planner.ground.rearranging import move_plot_ends, rearrange
from planner.plan import Plan

SHELF = catalogue_of(crop("carrot", in_row_spacing=0.1, row_spacing=0.25))


def rearranged(kind, **fields):
    start = garden(bed(outline=rectangle(4.0, 1.0)), planting(**fields))
    placed = Plan(start, 2026, SHELF).placed(start.plantings[0])
    return rearrange(start, "p1", kind, placed).plantings[0].arrangement


def test_staggered_rows_take_the_spacings_of_rows_over_and_back():
    old = Rows(in_row_spacing=0.2, row_spacing=0.3, rows=3, edge=0.1, end=0.05, turn=90)
    staggered = rearranged("staggered", arrangement=old)
    assert staggered == StaggeredRows(
        in_row_spacing=0.2, row_spacing=0.3, rows=3, edge=0.1, end=0.05, turn=90
    )
    assert rearranged("rows", arrangement=staggered) == old


def test_scattered_plants_become_rows_at_the_usual_spacing():
    assert rearranged("rows", arrangement=Scatter(density=40)) == Rows()


def test_scattered_plants_stand_as_densely_as_before():
    assert rearranged("scatter") == Scatter(density=40.0)  # 4 rows of 40 on 4 square metres


def test_plants_that_do_not_fit_are_scattered_at_the_usual_density():
    assert rearranged("scatter", arrangement=Rows(in_row_spacing=9.0, row_spacing=9.0)) == Scatter(
        density=25.0
    )


def test_single_places_are_those_of_the_plants():
    places = rearranged("places", arrangement=Rows(in_row_spacing=2.0, row_spacing=1.0))
    assert places == Places(points=((-1.0, 0.0), (1.0, 0.0)))


def test_no_plants_have_no_places_to_stay():
    with pytest.raises(EditError, match="Give it a spacing that fits first"):
        rearranged("places", arrangement=Rows(in_row_spacing=9.0, row_spacing=9.0))


def test_the_same_arrangement_changes_nothing():
    start = garden(bed(), planting())
    assert rearrange(start, "p1", "rows", Plan(start, 2026, SHELF).placed(start.plantings[0])) is start


@pytest.mark.parametrize(
    ("ends", "plot"),
    [
        ({"start": 1.0}, Stretch(start=1.0, end=4.0)),
        ({"end": 2.5}, Stretch(start=0.0, end=2.5)),
        ({"end": 9.0}, Whole()),
        ({"start": -1.0, "end": 0.5}, Stretch(start=0.0, end=0.5)),
    ],
)
def test_a_plot_gets_other_ends_along_its_bed(ends, plot):
    start = garden(bed(outline=rectangle(4.0, 1.0, center=(3.0, 2.0), turn=30)), planting())
    assert move_plot_ends(start, "p1", **ends).plantings[0].plot == plot


@pytest.mark.parametrize(
    ("ends", "words"),
    [
        ({"start": 2.0}, "at least 1 cm beyond its beginning."),
        ({"start": 7.0, "end": 9.0}, "lies outside Long. Give distances along the bed, from 0."),
    ],
)
def test_ends_that_leave_nothing_in_the_bed_are_refused(ends, words):
    start = garden(bed(outline=rectangle(4.0, 1.0), name="Long"), planting(plot=Stretch(start=1.0, end=2.0)))
    with pytest.raises(EditError) as refused:
        move_plot_ends(start, "p1", **ends)
    assert str(refused.value).endswith(words)
