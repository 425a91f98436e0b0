"""Free ground and the plots made of it."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from making import bed, rectangle, ring_bed
from shapes_zoo import RINGS, concave_polygons

from planner.garden import Circle, Region, Stretch, Whole
from planner.garden.outlines import LEAST_AREA
from planner.ground.free import SLIVER, free_ground, piece_at, pieces, plot_of
from planner.ground.shapes import bed_polygon, plot_polygon

boxes = st.tuples(st.floats(-4, 4), st.floats(-4, 4), st.floats(0.05, 3), st.floats(0.05, 3)).map(
    lambda box: shapely.box(round(box[0], 3), round(box[1], 3), round(box[0] + box[2], 3), round(box[1] + box[3], 3))
)  # fmt: skip


def polygon_bed(polygon: shapely.Polygon):
    return ring_bed([(x, y) for x, y in polygon.exterior.coords[:-1]])


@given(concave_polygons(), st.lists(boxes, max_size=5))
def test_free_and_occupied_ground_add_up_to_the_bed(polygon, occupied):
    ground = polygon_bed(polygon)
    free = free_ground(ground, occupied)
    rest = polygon.difference(shapely.union_all(occupied))
    assert free.difference(rest).area < 1e-9
    lost = rest.difference(free)  # only slivers, sharp corners and specks
    assert lost.area <= SLIVER * rest.length + LEAST_AREA * (len(shapely.get_parts(rest)) + 1)
    deepest = shapely.union_all(lost.buffer(-1.5 * SLIVER))
    assert deepest.area <= LEAST_AREA * len(occupied)


@given(concave_polygons(), st.lists(boxes, min_size=1, max_size=5))
def test_every_free_piece_makes_a_plot_that_is_that_piece(polygon, occupied):
    ground = polygon_bed(polygon)
    for piece in pieces(free_ground(ground, occupied)):
        plot = plot_polygon(ground, plot_of(ground, piece))
        off = plot.symmetric_difference(piece).area
        if piece.interiors:
            assert plot.difference(piece).area < 1e-5
            assert plot.area > 0
        else:
            assert off <= 1e-5 * max(polygon.length, 1)


@given(st.floats(0.3, 4.7), st.floats(0.05, 1), st.sampled_from([0, 90, 33.3]))
def test_a_stretch_leaves_two_stretches_of_a_rectangle(start, length, turn):
    ground = bed(outline=rectangle(6, 1.2, turn=turn, center=(3, 4)))
    occupied = Stretch(start=round(start, 3), end=round(start + length, 3))
    left, right = (
        plot_of(ground, piece) for piece in pieces(free_ground(ground, [plot_polygon(ground, occupied)]))
    )
    assert left == Stretch(start=0, end=occupied.start)
    assert right == Stretch(start=occupied.end, end=6)


def test_an_empty_bed_is_free_as_a_whole():
    for ring in RINGS.values():
        ground = ring_bed(ring)
        assert plot_of(ground, free_ground(ground, [])) == Whole()
        assert free_ground(ground, []).equals(bed_polygon(ground))


def test_a_full_bed_has_no_free_ground():
    ground = bed()
    free = free_ground(ground, [bed_polygon(ground)])
    assert free.is_empty
    assert pieces(free) == []
    assert piece_at(free, 0, 0) is None


def test_slivers_and_specks_are_not_free_ground():
    ground = bed(outline=rectangle(4, 1))
    assert free_ground(ground, [shapely.box(-2, -0.5, 1.992, 0.5)]).is_empty
    assert free_ground(ground, [shapely.box(-2, -0.5, 1.98, 0.5), shapely.box(1, -0.47, 3, 1)]).is_empty


@pytest.mark.parametrize(("width", "area"), [(0.008, 0.0), (0.012, 0.012)])
def test_a_strip_is_free_ground_from_a_centimetre(width, area):
    ground = bed(outline=rectangle(4, 1))
    assert free_ground(ground, [shapely.box(-2, -0.5, 2 - width, 0.5)]).area == pytest.approx(area)


@pytest.mark.parametrize(("length", "area"), [(0.028, 0.0), (0.036, 0.00108)])
def test_a_piece_is_free_ground_from_the_least_area_of_a_plot(length, area):
    ground = bed(outline=rectangle(4, 1))
    occupied = [shapely.box(-2, -0.5, 1.97, 0.5), shapely.box(-2, -0.5 + length, 2, 0.5)]
    assert free_ground(ground, occupied).area == pytest.approx(area)


def test_the_piece_under_the_pointer_or_the_nearest():
    ground = bed(outline=rectangle(4, 1))
    free = free_ground(ground, [shapely.box(-0.5, -1, 0.5, 1)])
    left, right = pieces(free)
    assert piece_at(free, -1, 0) == left
    assert piece_at(free, 0.2, 0) == right
    assert piece_at(free, 9, 9) == right


def test_ground_about_a_post_is_a_region_without_the_hole():
    ground = bed(outline=rectangle(4, 1))
    (piece,) = pieces(free_ground(ground, [], shapely.Point(0.5, 0).buffer(0.1)))
    plot = plot_of(ground, piece)
    assert isinstance(plot, (Region, Stretch))
    shape = plot_polygon(ground, plot)
    assert shape.difference(piece).area < 1e-6
    assert shape.area == pytest.approx(2.4, abs=1e-3)


def test_a_crescent_of_a_round_bed_has_no_more_corners_than_a_region_may_have():
    ground = bed(outline=Circle(radius=1.5))
    other = shapely.Point(0.9, 0).buffer(1.5, quad_segs=2000)
    (piece,) = pieces(free_ground(ground, [other]))
    plot = plot_of(ground, piece)
    assert isinstance(plot, Region)
    assert len(plot.points) <= 2000
    assert plot_polygon(ground, plot).area == pytest.approx(piece.area, rel=1e-4)
