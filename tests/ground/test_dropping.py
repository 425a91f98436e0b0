"""Plots of crops dropped on a bed, and plots moved or resized within it."""

from __future__ import annotations

import datetime as dt
import math

import pytest
import shapely
from making import bed, rectangle

from planner.garden import Circle, Places, Region, Rows, Stretch, Whole
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
from planner.ground.free import free_ground
from planner.ground.shapes import bed_polygon, plot_polygon

D = dt.date
BED = bed(name="Long")  # 4.8 m x 1.2 m about its centre
FREE = bed_polygon(BED)
UPRIGHT = bed(outline=rectangle(1.2, 4.8))
#: Free ground of the long bed with its middle occupied from 2 m to 3 m.
TWO_PIECES = free_ground(BED, [plot_polygon(BED, Stretch(start=2, end=3))])
NONE = shapely.Polygon()
SHORT = bed(outline=rectangle(4.0, 1.0), name="Long")
LEFT, RIGHT = shapely.box(-2.0, -0.5, -0.5, 0.5), shapely.box(0.5, -0.5, 2.0, 0.5)


def test_a_drop_on_an_empty_bed_is_the_whole_bed():
    assert landing(BED, FREE, (1, 0), "free") == Landing(Whole(), Rows())


@pytest.mark.parametrize(("x", "plot"), [(-1, Stretch(start=0, end=2)), (2, Stretch(start=3, end=4.8))])
def test_a_drop_is_the_free_piece_under_the_pointer(x, plot):
    assert landing(BED, TWO_PIECES, (x, 0), "free").plot == plot


def test_a_drop_of_the_whole_bed_ignores_occupied_ground():
    assert landing(BED, TWO_PIECES, (-1, 0), "whole").plot == Whole()


def test_a_drop_of_a_single_plant_is_at_the_pointer():
    land = landing(BED, TWO_PIECES, (0.123456, -0.2), "single")
    assert land == Landing(Whole(), Places(points=((0.1235, -0.2),)))


@pytest.mark.parametrize("manner", ["free", "stretch"])
def test_a_drop_on_a_full_bed_is_refused(manner):
    land = landing(BED, NONE, (0, 0), manner)
    assert (land.plot, land.why) == (None, "Long has no free ground at this time")
    with pytest.raises(ValueError, match="Long has no free ground"):
        fields_of(land)


def test_fields_of_a_landing():
    assert fields_of(Landing(Whole(), Rows())) == {"plot": Whole(), "arrangement": Rows()}


@pytest.mark.parametrize(
    ("x", "step", "start", "end"),
    [
        (0.5, 0.0, 2.9, 4.8),  # beyond the middle: from the end
        (-0.5, 0.0, 0.0, 1.9),  # before it: from the beginning
        (0.5, 0.25, 2.8, 4.8),
        (9.0, 0.0, 0.0, 4.8),  # beside the bed: all of it
        (-9.0, 0.25, 0.0, 4.8),
    ],
)
def test_a_stretch_is_from_the_nearer_end_to_the_pointer(x, step, start, end):
    plot = landing(BED, FREE, (x, 0), "stretch", step).plot
    if (start, end) == (0.0, 4.8):
        assert plot == Whole()
    else:
        assert isinstance(plot, Stretch)
        assert (plot.start, plot.end) == (pytest.approx(start), pytest.approx(end))


def test_a_stretch_is_at_least_a_step_long_and_at_most_its_piece():
    narrow = free_ground(BED, [plot_polygon(BED, Stretch(start=0.06, end=4.8))])
    assert landing(BED, narrow, (-2.37, 0), "stretch", 1.0).plot == Stretch(start=0, end=0.06)
    tiny = free_ground(BED, [plot_polygon(BED, Stretch(start=0.08, end=4.8))])
    plot = landing(BED, tiny, (-2.36, 0), "stretch").plot
    assert plot.end - plot.start == pytest.approx(LEAST_STRETCH)


def test_a_stretch_runs_along_the_long_side_of_an_upright_bed():
    plot = landing(UPRIGHT, bed_polygon(UPRIGHT), (0, 0.6), "stretch").plot
    assert (plot.start, plot.end) == (pytest.approx(3.0), pytest.approx(4.8))


@pytest.mark.parametrize(
    ("x", "start"), [(0.0, 1.9), (-2.4, 0.0), (2.4, 3.8), (0.023, 1.9), (0.03, 1.95)]
)  # to 5 cm
def test_a_moved_planting_has_its_middle_at_the_pointer(x, start):
    plot = carried(BED, FREE, (x, 0), 1.0).plot
    assert (plot.start, plot.end) == (pytest.approx(start), pytest.approx(start + 1.0))


def test_a_moved_planting_longer_than_the_free_piece_is_that_piece():
    assert carried(BED, TWO_PIECES, (-1, 0), 2.0).plot == Stretch(start=0, end=2)
    assert carried(BED, TWO_PIECES, (-1, 0), 3.0).plot == Stretch(start=0, end=2)
    assert carried(BED, NONE, (0, 0), 1.0).plot is None


def test_a_moved_planting_stays_in_its_free_piece():
    assert carried(BED, TWO_PIECES, (-0.5, 0), 1.0).plot == Stretch(start=1, end=2)


@pytest.mark.parametrize(
    ("dx", "start", "end"), [(0.5, 1.5, 2.5), (-0.4, 0.6, 1.6), (-5, 0, 1), (9, 3.8, 4.8)]
)
def test_a_stretch_moves_along_its_bed_up_to_the_ends(dx, start, end):
    moved = shifted_plot(Stretch(start=1, end=2), BED, dx, 0.3)
    assert (moved.start, moved.end) == (pytest.approx(start), pytest.approx(end))


def test_a_region_moves_both_ways_and_the_whole_bed_not_at_all():
    region = Region(points=((0, 0), (1, 0), (0, 0.5)))
    assert shifted_plot(region, BED, 0.25, -0.1).points == ((0.25, -0.1), (1.25, -0.1), (0.25, 0.4))
    assert shifted_plot(Whole(), BED, 1, 1) == Whole()


def test_a_stretch_of_an_upright_bed_moves_along_its_long_side():
    moved = shifted_plot(Stretch(start=1, end=2), UPRIGHT, 0.7, 0.5)
    assert (moved.start, moved.end) == (pytest.approx(1.5), pytest.approx(2.5))


@pytest.mark.parametrize("where", [BED, UPRIGHT])
def test_the_box_of_a_plot_gives_the_plot_back(where):
    assert plot_box(where, Whole()) == (-2.4, -0.6, 2.4, 0.6)
    assert plot_box(where, Stretch(start=1, end=2)) == pytest.approx((-1.4, -0.6, -0.4, 0.6))
    for plot in (Whole(), Stretch(start=1, end=2)):
        assert plot_of_box(where, *plot_box(where, plot)) == plot
    assert plot_of_box(where, -0.4, 0.6, -1.4, -0.6) == Stretch(start=1, end=2)


def test_a_box_across_part_of_the_bed_is_a_region():
    plot = plot_of_box(BED, -1, -0.6, 1, 0.2)
    assert shapely.Polygon(plot.points).equals(shapely.box(-1, -0.6, 1, 0.2))
    assert plot_of_box(BED, 3, -0.6, 4, 0.6) is None


def test_boxes_of_a_round_bed():
    pond = bed(outline=Circle(radius=1.0))
    left, low, right, high = plot_box(pond, Whole())
    assert (left, low, right, high) == pytest.approx((-1, -1, 1, 1), abs=1e-5)
    assert plot_of_box(pond, left, low, right, high) == Whole()
    stretch = plot_of_box(pond, left, low, 0.5, high)
    assert (stretch.start, stretch.end) == (0, pytest.approx(1.5, abs=1e-5))
    box = plot_of_box(pond, -0.5, -0.5, 0.5, 0.5)
    assert shapely.Polygon(box.points).equals(shapely.box(-0.5, -0.5, 0.5, 0.5))
    assert math.isclose(plot_polygon(pond, box).area, 1.0)


# -- drops in a bed of 4 m ------------------------------------------------------------------------------


def test_a_drop_is_the_free_piece_under_the_pointer_or_the_nearest():
    free = shapely.union_all([LEFT, RIGHT])
    assert landing(SHORT, free, (-1.0, 0.0), "free").plot == Stretch(start=0.0, end=1.5)
    assert landing(SHORT, free, (0.2, 0.0), "free").plot == Stretch(start=2.5, end=4.0)


def test_a_bed_without_free_ground_gives_no_plot_and_the_reason():
    found = landing(SHORT, NONE, (0.0, 0.0), "free")
    assert found.plot is None
    assert found.why == "Long has no free ground at this time"
    with pytest.raises(ValueError, match="no free ground"):
        fields_of(found)


def test_a_whole_bed_and_a_single_plant_need_no_free_ground():
    assert landing(SHORT, NONE, (0.0, 0.0), "whole").plot == Whole()
    single = landing(SHORT, NONE, (0.12345, -0.2), "single")
    assert fields_of(single) == {"plot": Whole(), "arrangement": Places(points=((0.1235, -0.2),))}


@pytest.mark.parametrize(
    ("x", "step", "start", "end"),
    [
        (-0.9, 0.1, 1.1, 1.5),  # nearer to the right end: from there to the pointer
        (-0.9, 0.5, 1.0, 1.5),
        (-1.6, 0.1, 0.0, 0.4),  # nearer to the left end of the piece
        (-5.0, 0.1, 0.0, 1.5),  # beside the piece: all of it
    ],
)
def test_a_stretch_reaches_from_an_end_of_the_piece_to_the_pointer(x, step, start, end):
    plot = landing(SHORT, LEFT, (x, 0.0), "stretch", step).plot
    assert isinstance(plot, Stretch)
    assert (plot.start, plot.end) == pytest.approx((start, end))


def test_a_stretch_goes_in_whole_plants_and_is_never_shorter_than_the_least():
    assert stretch_step(0.3, 0.05) == 0.3
    assert stretch_step(None, 0.1) == 0.1
    assert stretch_step(None, 0.01) == stretch_step(0.02, 0.1) == LEAST_STRETCH


# -- ground that becomes free later -------------------------------------------------------------------


def test_ground_free_in_the_crops_own_days_goes_first():
    later = shapely.box(-2.0, -0.5, 2.0, 0.5)
    grounds = [(None, LEFT), (D(2026, 8, 1), later)]
    found = drop(SHORT, grounds, (-1.0, 0.0), "free")
    assert found == Drop(Landing(Stretch(start=0.0, end=1.5), Rows()), None)
    assert drop(SHORT, grounds, (1.0, 0.0), "free") == Drop(
        landing(SHORT, later, (1, 0), "free"), D(2026, 8, 1)
    )


def test_ground_under_the_pointer_counts_from_the_first_day_it_is_free():
    grounds = [(None, LEFT), (D(2026, 7, 1), shapely.union_all([LEFT, RIGHT])), (D(2026, 9, 1), RIGHT)]
    found = drop(SHORT, grounds, (1.0, 0.0), "free")
    assert found is not None
    assert found.first == D(2026, 7, 1)
    assert found.landing.plot == Stretch(start=2.5, end=4.0)


def test_the_nearest_piece_is_used_if_nothing_is_free_under_the_pointer():
    found = drop(SHORT, [(None, LEFT)], (1.9, 0.0), "free")
    assert found is not None
    assert (found.first, found.landing.plot) == (None, Stretch(start=0.0, end=1.5))


def test_later_ground_is_used_if_none_is_free_in_the_crops_own_days():
    found = drop(SHORT, [(None, NONE), (D(2026, 8, 1), RIGHT)], (-1.0, 0.0), "free")
    assert found is not None
    assert (found.first, found.landing.plot) == (D(2026, 8, 1), Stretch(start=2.5, end=4.0))


def test_a_bed_that_is_never_free_gives_the_reason():
    found = drop(SHORT, [(None, NONE)], (0.0, 0.0), "stretch", 0.1)
    assert found is not None
    assert found.landing.plot is None
    assert "no free ground" in found.landing.why


def test_free_ground_is_not_worked_out_for_a_whole_bed_or_a_single_plant():
    def grounds():
        raise AssertionError("free ground was worked out")
        yield

    assert drop(SHORT, grounds(), (0.0, 0.0), "whole") == Drop(Landing(Whole(), Rows()))
    assert drop(SHORT, grounds(), (0.0, 0.0), "single") is not None


def test_a_single_plant_beside_the_bed_is_no_drop():
    assert drop(SHORT, [], (0.0, 0.51), "single") is None
    assert drop(SHORT, [], (0.0, 0.5), "single") is not None


# -- moved and resized plots --------------------------------------------------------------


def test_a_moved_planting_is_centred_on_the_pointer_as_far_as_there_is_room():
    ground = shapely.box(-2, -0.5, 2, 0.5)
    assert carried(SHORT, ground, (0.0, 0.0), 1.0).plot == Stretch(start=1.5, end=2.5)
    assert carried(SHORT, ground, (-1.9, 0.0), 1.0).plot == Stretch(start=0.0, end=1.0)
    assert carried(SHORT, ground, (1.9, 0.0), 1.0).plot == Stretch(start=3.0, end=4.0)
    assert carried(SHORT, LEFT, (0.0, 0.0), 2.0).plot == Stretch(start=0.0, end=1.5)
    assert "no free ground" in carried(SHORT, NONE, (0.0, 0.0), 1.0).why


def test_a_shifted_stretch_stops_at_the_ends_of_the_bed():
    plot = Stretch(start=1.0, end=2.0)
    assert shifted_plot(plot, SHORT, 0.5, 0.3) == Stretch(start=1.5, end=2.5)
    assert shifted_plot(plot, SHORT, -3.0, 0.0) == Stretch(start=0.0, end=1.0)
    assert shifted_plot(plot, SHORT, 9.0, 0.0) == Stretch(start=3.0, end=4.0)
    assert shifted_plot(Whole(), SHORT, 1.0, 0.0) == Whole()
    square = Region(points=((0, 0), (0.5, 0), (0.5, 0.5), (0, 0.5)))
    moved = shifted_plot(square, SHORT, 0.25, -0.125)
    assert moved.points == ((0.25, -0.125), (0.75, -0.125), (0.75, 0.375), (0.25, 0.375))


@pytest.mark.parametrize("turn", [0.0, 90.0, 37.0])
def test_the_box_of_a_plot_in_a_turned_bed_gives_the_plot_back(turn):
    ground = bed(outline=rectangle(4.0, 1.0, turn=turn))
    for plot in (Whole(), Stretch(start=0.5, end=2.25)):
        assert plot_of_box(ground, *plot_box(ground, plot)) == plot
    assert plot_of_box(ground, 2.5, -0.5, 3.0, 0.5) is None
