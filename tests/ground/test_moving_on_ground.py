"""What a planting becomes that is moved within its bed, or carried to another."""

from __future__ import annotations

import pytest
import shapely
from making import bed, garden, planting, rectangle

from planner.garden import Places, Rows, Stretch, Support, Whole
from planner.garden.edits import EditError
from planner.ground.moving import landing_in_other_bed, move_on_plan, move_within_bed

NORTH, SOUTH = bed("b1", rectangle(4.0, 1.0)), bed("b2", rectangle(3.0, 1.0, center=(0, 5)), name="South")
STRETCH, PLACES = Stretch(start=1.0, end=2.0), Places(points=((0.0, 0.0), (0.4, 0.1)))
ALL_FREE = shapely.box(-1.5, -0.5, 1.5, 0.5)


def test_a_stretch_moves_along_its_bed_in_whole_steps():
    start = garden(NORTH, planting(plot=STRETCH))
    assert move_within_bed(start, "p1", 0.52, 0.3).plantings[0].plot == Stretch(start=1.52, end=2.52)
    assert move_within_bed(start, "p1", 0.52, 0.3, 0.05).plantings[0].plot == Stretch(start=1.5, end=2.5)
    assert move_within_bed(start, "p1", 0.02, 0.0, 0.05) is start


def test_single_plants_move_and_their_plot_stays_the_whole_bed():
    start = garden(NORTH, planting(arrangement=PLACES))
    (after,) = move_within_bed(start, "p1", 0.1, -0.2).plantings
    assert after.arrangement == Places(points=((0.1, -0.2), (0.5, -0.1)))
    assert after.plot == Whole()


def test_the_line_of_a_support_goes_along():
    support = Support(kind="net", line=((-1.0, 0.0), (1.0, 0.0)))
    start = garden(NORTH, planting(plot=STRETCH, support=support))
    (after,) = move_within_bed(start, "p1", 0.5, 0.0).plantings
    assert after.support == support.with_(line=((-0.5, 0.0), (1.5, 0.0)))


@pytest.mark.parametrize(
    ("turn", "dx", "dy", "start"),
    [(0, 0.5, 0, 1.5), (90, 0, 0.5, 1.5), (180, 0.5, 0, 0.5), (90, 0.5, 0, 1.0)],
)
def test_an_offset_on_the_plan_is_turned_into_the_beds_direction(turn, dx, dy, start):
    document = garden(bed("b1", rectangle(4.0, 1.0, turn=turn)), planting(plot=STRETCH))
    (after,) = move_on_plan(document, ["p1"], dx, dy).plantings
    assert after.plot.start == pytest.approx(start)


def test_a_planting_takes_its_length_to_another_bed():
    land = landing_in_other_bed(planting(plot=STRETCH), NORTH, SOUTH, (0.0, 0.0), lambda: ALL_FREE)
    assert (land.plot, land.arrangement) == (Stretch(start=1.0, end=2.0), Rows())


def test_a_planting_keeps_its_arrangement_in_another_bed():
    rows = Rows(in_row_spacing=0.1)
    one = planting(plot=STRETCH, arrangement=rows)
    assert landing_in_other_bed(one, NORTH, SOUTH, (0, 0), lambda: ALL_FREE).arrangement == rows


def test_where_nothing_is_free_a_planting_does_not_land():
    land = landing_in_other_bed(planting(plot=STRETCH), NORTH, SOUTH, (0, 0), shapely.Polygon)
    assert land.plot is None
    assert land.why == "South has no free ground at this time"


def test_single_plants_go_as_they_stand_to_each_other_wherever_there_is_free_ground():
    def free():
        raise AssertionError("free ground was worked out")

    land = landing_in_other_bed(planting(arrangement=PLACES), NORTH, SOUTH, (0.5, 0.2), free)
    assert land.plot == Whole()
    assert land.arrangement == Places(points=((0.5, 0.2), (0.9, 0.3)))


def test_nothing_is_moved_off_the_plan():
    line = Support(kind="net", line=((9_999, 0), (9_999, 1)))
    for fields in ({"arrangement": PLACES}, {"plot": STRETCH, "support": line}):
        with pytest.raises(EditError, match=r"b1: a place would lie more than 10 km off"):
            move_within_bed(garden(NORTH, planting(**fields)), "p1", 20_000.0, 0.0)
