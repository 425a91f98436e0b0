"""Shading of random prisms against one straight line to the sun at a time, and against exact shadows."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from rays import on_a_rim, through
from shapes_zoo import POLYGONS, concave_polygons

from planner.light.beams import beams
from planner.light.casters import Caster
from planner.light.place import Place
from planner.light.raster import Raster
from planner.light.shading import Shading
from planner.light.shadow import shadow, swept

RING = shapely.box(-2, -2, 2, 2).difference(shapely.box(-1.2, -1.5, 1.6, 1.0))
SHAPES = st.one_of(
    concave_polygons(), st.sampled_from([RING, POLYGONS["comb"], POLYGONS["U"], POLYGONS["star"]])
)


@st.composite
def prisms(draw):
    shape = draw(SHAPES)
    x, y = draw(st.floats(-6, 6)), draw(st.floats(-6, 6))
    base = draw(st.sampled_from([0.0, 0.0, 0.4, 1.8]))
    rise = draw(st.sampled_from([0.0, 0.05, 0.7, 2.5]))
    opacity = draw(st.sampled_from([1.0, 1.0, 0.7, 0.2]))
    return Caster("c", "", shapely.affinity.translate(shape, x, y), base, base + rise, opacity)


towards = st.tuples(st.floats(0, 6.283), st.floats(3, 89)).map(
    lambda at: np.array([np.sin(at[0]), np.cos(at[0])]) / np.tan(np.radians(at[1]))
)
heights = st.sampled_from([0.0, 0.3, 0.9, 2.6])


@given(st.lists(prisms(), min_size=1, max_size=6), towards, heights)
def test_cells_get_what_a_straight_line_to_the_sun_gets(casters, toward, height):
    raster = Raster(-8.013, -7.987, 0.5, 33, 29, height)
    cells = Shading(casters, [raster]).through(toward)[0]
    columns, rows = raster.middles
    for row in range(0, 33, 4):
        for column in range(0, 29, 4):
            point = (columns[column], rows[row])
            expected = through(casters, point, height, toward)
            if abs(cells[row, column] - expected) > 1e-4:
                assert on_a_rim(casters, point, height, toward)


@given(prisms(), towards, heights)
def test_the_shadow_is_the_ground_from_which_the_line_to_the_sun_is_blocked(caster, toward, height):
    outline = shadow(caster, toward, height)
    solid = Caster("c", "", caster.shape, caster.base, caster.top)
    rng = np.random.default_rng(7)
    left, low, right, high = caster.shape.bounds
    reach = -toward * max(caster.top - height, 0)
    for share in rng.uniform(-0.2, 1.2, (40, 3)):
        point = np.array([left + share[0] * (right - left), low + share[1] * (high - low)]) + share[2] * reach
        barred = through([solid], tuple(point), height, toward) == 0.0
        if shapely.Point(point).distance(outline.boundary) > 1e-6 or outline.is_empty:
            assert barred == outline.contains(shapely.Point(point))


@given(st.lists(prisms(), min_size=1, max_size=4), towards)
def test_filled_cells_and_exact_outlines_have_the_same_area(casters, toward):
    cell = 0.05
    raster = Raster(-20.013, -20.021, cell, 801, 801)
    for caster in casters:
        solid = Caster("c", "", caster.shape, caster.base, caster.top)
        outline = shadow(solid, toward).intersection(shapely.box(-20.013, -20.021, 20.037, 20.029))
        dark = (Shading([solid], [raster]).through(toward)[0] < 0.5).sum() * cell**2
        assert dark == pytest.approx(outline.area, abs=0.5 * cell * outline.length + cell**2)


def test_a_hole_lets_the_high_sun_in_and_not_the_low():
    tall = Caster("c", "", RING, 0.0, 2.0)
    high, low = np.array([0.0, 1 / np.tan(np.radians(80))]), np.array([0.0, 1 / np.tan(np.radians(20))])
    assert len(shapely.get_parts(shadow(tall, high))[0].interiors) == 1
    assert len(shapely.get_parts(shadow(tall, low))[0].interiors) == 0


def test_a_sweep_of_nothing_is_the_shape_itself():
    for shape in POLYGONS.values():
        assert swept(shape, (0, 0), (0, 0)).symmetric_difference(shape).area < 1e-9 * max(1, shape.area)
        moved = swept(shape, (1, 2), (1, 2))
        assert moved.symmetric_difference(shapely.affinity.translate(shape, 1, 2)).area < 1e-6


def test_a_concave_translucent_shape_shades_a_place_once():
    u = Caster("c", "", POLYGONS["U"], 0.0, 3.0, 0.5)
    toward = np.array([1.0, 0.2])  # over both arms of the U
    cells = Shading([u], [Raster(-6, -3, 0.1, 100, 130)]).through(toward)[0]
    assert np.unique(np.round(cells, 3)).tolist() == [0.5, 1.0]


def test_shadows_that_lie_over_each_other_multiply():
    box = shapely.box(-1, -1, 1, 1)
    thin = [Caster(str(n), "", box, n, n + 0.5, 0.4) for n in range(3)]
    middle = Raster(-0.05, -0.05, 0.1, 1, 1)
    straight_down = np.array([1e-6, 0.0])
    assert Shading(thin, [middle]).through(straight_down)[0][0, 0] == pytest.approx(0.6**3, abs=1e-4)
    solid = [Caster("o", "", box, 0, 9), *thin]
    assert Shading(solid, [middle]).through(straight_down)[0][0, 0] < 1e-8


def test_hours_of_a_day_as_the_straight_lines_give_them():
    rng = np.random.default_rng(3)
    place, day = Place(52.0, bearing_up=23.0), dt.date(2026, 9, 9)
    casters = []
    for number in range(12):
        x, y = rng.uniform(-8, 8, 2)
        shape = shapely.affinity.translate(list(POLYGONS.values())[number % 14], x, y)
        casters.append(
            Caster(str(number), "", shape, 0.3 * (number % 3), rng.uniform(1, 4), (1.0, 0.6)[number % 2])
        )
    light = beams(place, day, 20)
    raster = Raster(-5, -5, 1.0, 10, 10, 0.2)
    cells = Shading(casters, [raster]).hours(light)[0]
    columns, rows = raster.middles
    for row in range(10):
        for column in range(10):
            slow = sum(
                hours * through(casters, (columns[column], rows[row]), 0.2, toward)
                for hours, toward in zip(light.hours, light.toward, strict=True)
            )
            assert cells[row, column] == pytest.approx(slow, abs=2e-3)


def test_batches_of_beams_and_rasters_give_what_each_gives_alone():
    casters = [
        Caster(str(n), "", shapely.box(n, n % 3, n + 0.5, n % 3 + 2), 0, 1 + n % 4, 0.9) for n in range(9)
    ]
    light = beams(Place(45.0), dt.date(2026, 5, 5))
    rasters = [Raster(x, -1, 0.25, 20 + x, 11, 0.1 * x) for x in range(6)]
    together = Shading(casters, rasters).hours(light)
    for raster, cells in zip(rasters, together, strict=True):
        alone = Shading(casters, [raster]).hours(light)[0]
        np.testing.assert_allclose(cells, alone, atol=1e-5)
        one_by_one = sum(
            hours * Shading(casters, [raster]).through(toward)[0]
            for hours, toward in zip(light.hours, light.toward, strict=True)
        )
        np.testing.assert_allclose(cells, one_by_one, atol=1e-4)
