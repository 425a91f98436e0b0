"""Properties of stations in plots of any shape."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapes_zoo import POLYGONS, concave_polygons, lengths, plots, spacings, turns

from planner.ground import Layout, lay_places, lay_rows, lay_scatter
from planner.ground.shapes import turned

UM = 1e-6

layings = st.fixed_dictionaries(
    {
        "direction": st.one_of(st.just(0.0), turns),
        "staggered": st.booleans(),
        "edge": st.one_of(st.none(), st.floats(0, 0.3)),
        "end": st.one_of(st.none(), st.floats(0, 0.3)),
        "rows": st.one_of(st.none(), st.integers(1, 6)),
    }
)


def farthest_outside(plot: shapely.Geometry, layout: Layout) -> float:
    """How far the farthest station lies outside. [m]"""
    return float(shapely.distance(plot, shapely.points(layout.points)).max(initial=0.0))


def nearest_pair(points: np.ndarray) -> float:
    """Distance of the two nearest stations. [m]"""
    if len(points) < 2:
        return math.inf
    tree = shapely.STRtree(shapely.points(points))
    _, distances = tree.query_nearest(tree.geometries, exclusive=True, return_distance=True)
    return float(distances.min())


def allowed(layout: Layout, staggered: bool) -> float:
    """Least distance that two stations of an arrangement have. [m]"""
    s, r = layout.in_row_spacing or 0.0, layout.row_spacing or 0.0
    return min(s, 2 * r, math.hypot(r, s / 2)) if staggered else min(s, r)


@given(plots, spacings, spacings, layings)
def test_every_station_lies_in_its_plot_and_keeps_its_distance(plot, s, r, how):
    layout = lay_rows(plot, s, r, **how)
    assert farthest_outside(plot, layout) <= UM
    assert nearest_pair(layout.points) >= allowed(layout, how["staggered"]) - 2 * UM


@given(plots, spacings, spacings, turns)
def test_stations_keep_their_room_from_the_outline(plot, s, r, direction):
    layout = lay_rows(plot, s, r, direction=direction)
    height = np.diff(shapely.bounds(turned(plot, -direction))[1::2])[0]
    lone = math.floor(height / r + 0.04 + 1e-9) <= 1
    # by itself, or in arms narrower than a row spacing, a row needs the room of its plants
    r *= 0.98  # the rows of a bed may be closer by as much
    across = min(0.48 * s, r / 2, height / 4) if lone else 0.48 * min(s, r)
    scale = np.array([0.48 * s, across])
    outline = shapely.transform(turned(plot, -direction).boundary, lambda points: points / scale)
    places = turned(shapely.multipoints(layout.points), -direction)
    places = shapely.transform(places, lambda points: points / scale)
    if layout.count:
        least = shapely.distance(outline, shapely.get_parts(places)).min()
        assert least >= 1 - 3 * UM / scale.min()


@given(plots, spacings, spacings, st.booleans(), st.floats(0.02, 0.5), st.data())
def test_stations_keep_off_obstacles_and_their_distance_across_them(plot, s, r, staggered, radius, data):
    left, low, right, high = plot.bounds
    spot = shapely.Point(data.draw(st.floats(left, right)), data.draw(st.floats(low, high)))
    post = shapely.box(spot.x - radius / 9, low - 1, spot.x + radius / 9, high + 1)  # thinner than a spacing
    obstacles = shapely.union_all([spot.buffer(radius), post])
    layout = lay_rows(plot, s, r, staggered=staggered, obstacles=obstacles)
    core = obstacles.buffer(-2 * UM)
    assert not shapely.contains_xy(core, layout.points[:, 0], layout.points[:, 1]).any()
    assert nearest_pair(layout.points) >= allowed(layout, staggered) - 2 * UM
    assert layout.row_length <= lay_rows(plot, s, r).row_length + 1e-3 * s or staggered


@given(plots, spacings, spacings, st.sampled_from([0.5, 0.25]))
def test_halving_a_spacing_never_lowers_the_count(plot, s, r, share):
    assert lay_rows(plot, s * share, r).count >= lay_rows(plot, s, r).count
    assert lay_rows(plot, s * share, r * share).count >= lay_rows(plot, s, r).count


@given(lengths, lengths, spacings, spacings, st.floats(0.05, 0.95))
def test_two_stretches_hold_at_most_the_whole(length, width, s, r, share):
    cut = length * share
    whole = lay_rows(shapely.box(0, 0, length, width), s, r).count
    parts = lay_rows(shapely.box(0, 0, cut, width), s, r), lay_rows(shapely.box(cut, 0, length, width), s, r)
    assert sum(part.count for part in parts) <= whole


@given(concave_polygons(), spacings, spacings, st.floats(0.1, 0.9))
def test_two_stretches_of_any_plot_hold_at_most_a_row_more(plot, s, r, share):
    left, low, right, high = plot.bounds
    cut = left + share * (right - left)
    one = shapely.intersection(plot, shapely.box(left, low - 1, cut, high + 1))
    other = shapely.intersection(plot, shapely.box(cut, low - 1, right, high + 1))
    # The rows of each part start again from its own lower side: half a row of the longer direction more.
    row = (max(right - left, high - low) / min(s, r)) + 1
    parts = lay_rows(one, s, r).count + lay_rows(other, s, r).count
    assert parts <= lay_rows(plot, s, r).count + 2 * row


@given(plots, spacings, spacings, turns, st.booleans())
def test_points_are_in_the_order_of_the_rows(plot, s, r, direction, staggered):
    layout = lay_rows(plot, s, r, direction=direction, staggered=staggered)
    assert sum(row.count for row in layout.rows) == layout.count
    assert layout.row_count == len({row.index for row in layout.rows})
    assert layout.row_length == pytest.approx(sum(row.length for row in layout.rows))
    for row in layout.rows:
        line = shapely.LineString([row.start, row.end])
        places = shapely.points(layout.points[row.first : row.first + row.count])
        assert shapely.distance(line, places).max() <= 5 * UM
        assert plot.buffer(5 * UM).covers(line)
        assert row.length >= (row.count - 1) * s


@given(concave_polygons(), spacings, spacings, st.booleans())
def test_rows_of_drills_do_not_overlap(plot, s, r, staggered):
    rows = lay_rows(plot, s, r, staggered=staggered).rows
    for one, other in itertools.pairwise(rows):
        assert one.index != other.index or other.start[0] >= one.end[0] - UM


@pytest.mark.parametrize("name", sorted(POLYGONS.keys() - {"sliver", "hourglass", "zigzag", "askew"}))
def test_a_single_row_runs_along_the_middle_of_any_plot(name):
    layout = lay_rows(POLYGONS[name], 0.3, None, rows=1)
    _, low, _, high = POLYGONS[name].bounds
    assert layout.row_count == 1
    assert set(layout.points[:, 1]) == {(low + high) / 2}


@pytest.mark.parametrize("name", sorted(POLYGONS))
@pytest.mark.parametrize("rows", [1, 2, 3, 4])
def test_there_are_never_more_rows_than_given(name, rows):
    assert lay_rows(POLYGONS[name], 0.1, None, rows=rows).row_count <= rows
    assert lay_rows(POLYGONS[name], 0.1, 0.1, rows=rows).row_count <= rows


@pytest.mark.parametrize(("rows", "edge"), [(1, 0.0), (1, 0.4), (2, 0.0), (3, 0.2), (3, 0.1), (5, 0.25)])
def test_the_given_number_of_rows_shares_the_width(rows, edge):
    layout = lay_rows(shapely.box(0, 0, 3, 1.0), 0.3, None, rows=rows, edge=edge)
    assert layout.row_count == rows
    assert layout.count == 10 * rows
    heights = np.unique(layout.points[:, 1])
    assert heights[0] >= edge - UM
    assert heights[0] == pytest.approx(1.0 - heights[-1])


def test_two_rows_far_from_the_outline_are_nearer_to_each_other():
    layout = lay_rows(shapely.box(0, 0, 3, 1.2), 0.3, None, rows=2, edge=0.5)
    assert np.unique(layout.points[:, 1]).tolist() == pytest.approx([0.5, 0.7])


@pytest.mark.parametrize("low_end", [0.7, 1.0, 1.3])
def test_the_longest_of_staggered_rows_is_full_whichever_it_is(low_end):
    """A short row below a row of 2 m: the longer one holds 4 stations of 0.5 m, as it would alone."""
    plot = shapely.union_all([shapely.box(0.2, 0, low_end, 0.4), shapely.box(0, 0.4, 2, 0.8)])
    layout = lay_rows(plot, 0.5, 0.4, end=0.25, edge=0.2, staggered=True)
    along = layout.points[layout.points[:, 1] > 0.4][:, 0]
    assert along.tolist() == pytest.approx([0.25, 0.75, 1.25, 1.75], abs=1e-5)


def test_rows_on_either_side_of_a_notch_meet_half_way():
    notch = shapely.Polygon([(1.9, 1.0), (2.0, 0.55), (2.1, 1.0)])  # 5 cm off the row line
    layout = lay_rows(shapely.box(0, 0, 4, 1.0).difference(notch), 0.3, None, rows=1, edge=0.1)
    left, right = layout.rows
    assert left.index == right.index
    assert left.end[0] == right.start[0] == pytest.approx(2.0, abs=1e-5)


def test_a_single_row_in_a_bed_as_wide_as_its_row_spacing():
    assert lay_rows(shapely.box(0, 0, 2.4, 0.3), 0.3, 0.3).count == 8


def test_arms_just_one_row_wide_are_planted():
    frame = shapely.box(0, 0, 3, 3).difference(shapely.box(0.3, 0.3, 2.7, 2.7))
    assert lay_rows(frame, 0.3, 0.3).count == 10 + 10 + 2 * 8


@pytest.mark.parametrize(("edge", "end", "count"), [(0, None, 8 * 5), (None, 0, 9 * 4), (0, 0, 9 * 5)])
def test_rows_and_stations_on_the_outline_itself(edge, end, count):
    assert lay_rows(shapely.box(0, 0, 2.4, 1.2), 0.3, 0.3, edge=edge, end=end).count == count


def test_stations_either_side_of_a_thin_obstacle_keep_their_spacing():
    layout = lay_rows(shapely.box(0, 0, 2.4, 0.3), 0.3, 0.3, obstacles=shapely.box(1.04, -1, 1.06, 1))
    assert layout.count == 7
    assert nearest_pair(layout.points) >= 0.3 - UM


def test_a_drill_ends_at_an_obstacle():
    layout = lay_rows(shapely.box(0, 0, 2.4, 0.3), 0.05, 0.3, obstacles=shapely.box(1.0, -1, 1.2, 1))
    assert layout.row_length == pytest.approx(2.2)
    assert [row.end[0] for row in layout.rows] == pytest.approx([1.0, 2.4])


def test_staggered_neighbours_are_half_a_spacing_off():
    layout = lay_rows(shapely.box(0, 0, 3, 3), 0.3, 0.3, staggered=True)
    rows = [layout.points[row.first : row.first + row.count, 0] for row in layout.rows]
    for one, other in itertools.pairwise(rows):
        assert (one[0] - other[0]) / 0.3 % 1 == pytest.approx(0.5)


@pytest.mark.parametrize("bad", [0.0, -0.3, math.nan, math.inf])
def test_impossible_spacings_are_refused(bad):
    for spacings_ in ((bad, 0.3), (0.3, bad)):
        with pytest.raises(ValueError, match="spacings must be above 0 m"):
            lay_rows(shapely.box(0, 0, 1, 1), *spacings_)


@pytest.mark.parametrize("bad", [-0.1, math.nan, math.inf])
def test_impossible_distances_from_the_outline_are_refused(bad):
    for name in ("edge", "end"):
        with pytest.raises(ValueError, match="must not be below 0 m"):
            lay_rows(shapely.box(0, 0, 1, 1), 0.3, 0.3, **{name: bad})


def test_neither_spacing_nor_number_of_rows_is_refused():
    with pytest.raises(ValueError, match="row spacing or a number of rows"):
        lay_rows(shapely.box(0, 0, 1, 1), 0.3, None)


def test_too_many_stations_are_refused_before_they_are_laid():
    with pytest.raises(ValueError, match="at most 5,000,000"):
        lay_rows(shapely.box(0, 0, 2000, 2000), 0.002, 0.002)
    with pytest.raises(ValueError, match="at most 5,000,000"):
        lay_scatter(shapely.box(0, 0, 2000, 2000), 100_000)


@pytest.mark.parametrize("plot", [shapely.Polygon(), shapely.MultiPolygon()])
def test_an_empty_plot_holds_nothing(plot):
    assert lay_rows(plot, 0.3, 0.3).count == 0
    assert lay_scatter(plot, 10).count == 0
    assert lay_places(plot, [(0.0, 0.0)]).count == 0


def test_stations_cannot_be_written_to():
    for layout in (lay_rows(shapely.box(0, 0, 1, 1), 0.3, 0.3), lay_scatter(shapely.box(0, 0, 1, 1), 9)):
        with pytest.raises(ValueError, match="read-only"):
            layout.points[0, 0] = 1.0


@given(plots, st.floats(0.5, 60))
def test_scattered_plants_are_as_many_as_area_times_density(plot, density):
    layout = lay_scatter(plot, density)
    assert layout.count == math.floor(plot.area * density + 1e-6)
    assert farthest_outside(plot, layout) == 0.0
    if layout.count > 1:
        assert nearest_pair(layout.points) > 0.05 / math.sqrt(density)


def test_scatter_in_a_long_strip_askew_needs_no_more_memory_than_it_holds():
    strip = turned(shapely.box(0, 0, 400, 0.05), 45.0)
    assert lay_scatter(strip, 100).count == 2000


def test_given_places_outside_the_plot_or_on_an_obstacle_are_left_out():
    plot, post = shapely.box(0, 0, 1, 1), shapely.box(0.4, 0.4, 0.6, 0.6)
    places = [(0.5, 0.5), (0.0, 0.0), (1.0, 1.0 + 0.5 * UM), (1.1, 0.5), (0.2, 0.2)]
    used = lay_places(plot, places, post).points
    assert used.tolist() == [list(places[1]), list(places[2]), list(places[4])]
