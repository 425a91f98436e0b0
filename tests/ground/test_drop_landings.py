"""Where a crop lands that is let go over a bed."""

from __future__ import annotations

import datetime as dt

import pytest
import shapely
from making import bed, rectangle

from planner.garden import Places, Region, Rows, Stretch, Whole
from planner.ground.dropping import (
    LEAST_STRETCH,
    Drop,
    Landing,
    carried,
    drop,
    fields_of,
    landing,
    plot_box,
    plot_of_box,
    shifted_plot,
    stretch_step,
)

D = dt.date
BED = bed(outline=rectangle(4.0, 1.0), name="Long")
LEFT, RIGHT = shapely.box(-2.0, -0.5, -0.5, 0.5), shapely.box(0.5, -0.5, 2.0, 0.5)
NOTHING = shapely.Polygon()


# -- one landing ------------------------------------------------------------------------------


def test_a_drop_takes_the_free_piece_under_the_pointer_or_the_nearest():
    free = shapely.union_all([LEFT, RIGHT])
    assert landing(BED, free, (-1.0, 0.0), "free").plot == Stretch(start=0.0, end=1.5)
    assert landing(BED, free, (0.2, 0.0), "free").plot == Stretch(start=2.5, end=4.0)


def test_a_bed_without_free_ground_says_so_and_gives_no_plot():
    found = landing(BED, NOTHING, (0.0, 0.0), "free")
    assert found.plot is None
    assert found.why == "Long has no free ground at this time"
    with pytest.raises(ValueError, match="no free ground"):
        fields_of(found)


def test_a_whole_bed_and_a_single_plant_need_no_free_ground():
    assert landing(BED, NOTHING, (0.0, 0.0), "whole").plot == Whole()
    single = landing(BED, NOTHING, (0.12345, -0.2), "single")
    assert fields_of(single) == {"plot": Whole(), "arrangement": Places(points=((0.1235, -0.2),))}


@pytest.mark.parametrize(
    ("x", "step", "start", "end"),
    [
        (-0.9, 0.1, 0.0, 1.1),  # nearer to the left end: from there to the pointer
        (-0.9, 0.5, 0.0, 1.0),
        (-1.6, 0.1, 0.4, 1.5),  # nearer to the right end of the piece
        (-5.0, 0.1, 0.0, 1.5),  # beside the piece: all of it
    ],
)
def test_a_stretch_reaches_from_an_end_of_the_piece_to_the_pointer(x, step, start, end):
    plot = landing(BED, LEFT, (x, 0.0), "stretch", step).plot
    assert isinstance(plot, Stretch)
    assert (plot.start, plot.end) == pytest.approx((start, end))


def test_a_stretch_goes_in_whole_plants_and_is_never_shorter_than_the_least():
    assert stretch_step(0.3, 0.05) == 0.3
    assert stretch_step(None, 0.1) == 0.1
    assert stretch_step(None, 0.01) == stretch_step(0.02, 0.1) == LEAST_STRETCH


# -- ground that falls free -------------------------------------------------------------------


def test_ground_free_in_the_crops_own_days_goes_first():
    later = shapely.box(-2.0, -0.5, 2.0, 0.5)
    grounds = [(None, LEFT), (D(2026, 8, 1), later)]
    found = drop(BED, grounds, (-1.0, 0.0), "free")
    assert found == Drop(Landing(Stretch(start=0.0, end=1.5), Rows()), None)
    assert drop(BED, grounds, (1.0, 0.0), "free") == Drop(landing(BED, later, (1, 0), "free"), D(2026, 8, 1))


def test_under_the_pointer_the_first_day_counts_on_which_ground_falls_free():
    grounds = [(None, LEFT), (D(2026, 7, 1), shapely.union_all([LEFT, RIGHT])), (D(2026, 9, 1), RIGHT)]
    found = drop(BED, grounds, (1.0, 0.0), "free")
    assert found is not None
    assert found.first == D(2026, 7, 1)
    assert found.landing.plot == Stretch(start=2.5, end=4.0)


def test_where_nothing_is_free_under_the_pointer_the_nearest_piece_is_taken():
    found = drop(BED, [(None, LEFT)], (1.9, 0.0), "free")
    assert found is not None
    assert (found.first, found.landing.plot) == (None, Stretch(start=0.0, end=1.5))


def test_ground_that_falls_free_later_is_taken_where_there_is_none_in_the_crops_own_days():
    found = drop(BED, [(None, NOTHING), (D(2026, 8, 1), RIGHT)], (-1.0, 0.0), "free")
    assert found is not None
    assert (found.first, found.landing.plot) == (D(2026, 8, 1), Stretch(start=2.5, end=4.0))


def test_a_bed_that_is_never_free_gives_the_reason():
    found = drop(BED, [(None, NOTHING)], (0.0, 0.0), "stretch", 0.1)
    assert found is not None
    assert found.landing.plot is None
    assert "no free ground" in found.landing.why


def test_free_ground_is_not_worked_out_for_a_whole_bed_or_a_single_plant():
    def grounds():
        raise AssertionError("free ground was worked out")
        yield

    assert drop(BED, grounds(), (0.0, 0.0), "whole") == Drop(Landing(Whole(), Rows()))
    assert drop(BED, grounds(), (0.0, 0.0), "single") is not None


def test_a_single_plant_beside_the_bed_lands_nowhere():
    assert drop(BED, [], (0.0, 0.51), "single") is None
    assert drop(BED, [], (0.0, 0.5), "single") is not None


# -- carried, shifted, stretched --------------------------------------------------------------


def test_a_carried_planting_comes_with_its_middle_under_the_pointer_as_far_as_there_is_room():
    ground = shapely.box(-2, -0.5, 2, 0.5)
    assert carried(BED, ground, (0.0, 0.0), 1.0).plot == Stretch(start=1.5, end=2.5)
    assert carried(BED, ground, (-1.9, 0.0), 1.0).plot == Stretch(start=0.0, end=1.0)
    assert carried(BED, ground, (1.9, 0.0), 1.0).plot == Stretch(start=3.0, end=4.0)
    assert carried(BED, LEFT, (0.0, 0.0), 2.0).plot == Stretch(start=0.0, end=1.5)
    assert "no free ground" in carried(BED, NOTHING, (0.0, 0.0), 1.0).why


def test_a_shifted_stretch_stops_at_the_ends_of_the_bed():
    plot = Stretch(start=1.0, end=2.0)
    assert shifted_plot(plot, BED, 0.5, 0.3) == Stretch(start=1.5, end=2.5)
    assert shifted_plot(plot, BED, -3.0, 0.0) == Stretch(start=0.0, end=1.0)
    assert shifted_plot(plot, BED, 9.0, 0.0) == Stretch(start=3.0, end=4.0)
    assert shifted_plot(Whole(), BED, 1.0, 0.0) == Whole()
    square = Region(points=((0, 0), (0.5, 0), (0.5, 0.5), (0, 0.5)))
    moved = shifted_plot(square, BED, 0.25, -0.125)
    assert moved.points == ((0.25, -0.125), (0.75, -0.125), (0.75, 0.375), (0.25, 0.375))


@pytest.mark.parametrize("turn", [0.0, 90.0, 37.0])
def test_the_box_of_a_plot_makes_that_plot_again(turn):
    ground = bed(outline=rectangle(4.0, 1.0, turn=turn))
    for plot in (Whole(), Stretch(start=0.5, end=2.25)):
        assert plot_of_box(ground, *plot_box(ground, plot)) == plot
    assert plot_of_box(ground, 2.5, -0.5, 3.0, 0.5) is None
