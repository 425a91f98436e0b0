"""Hours of direct sun of plots and beds, and the sources of their shade."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
import shapely
from shapes_zoo import POLYGONS

from planner.light.beams import beams
from planner.light.casters import Caster
from planner.light.hours import hours_at, hours_over
from planner.light.place import Place
from planner.light.raster import rasterize
from planner.light.receiver import Receiver
from planner.light.sample_days import on_day, sample_days
from planner.light.shade_sources import shade_sources
from planner.light.shading import Shading
from planner.season.spans import Span

PLACE = Place(52.0, 0.0)
DAY = dt.date(2026, 5, 5)
BED = shapely.box(0, 0, 4.8, 1.2)


def wall(key="w", low=-0.4, height=2.0, left=-10.0, right=15.0, opacity=1.0):
    return Caster(key, f"wall {key}", shapely.box(left, low, right, low + 0.2), 0.0, height, opacity)


def over(casters, shape=BED, day=DAY, place=PLACE, **fields):
    return hours_over([Receiver("b", shape, **fields)], place, on_day(day), lambda _day: casters)["b"]


def test_ground_without_casters_has_the_whole_day():
    light = over([])
    whole = beams(PLACE, DAY).total
    assert light.least == pytest.approx(whole, abs=1e-4)
    assert light.best == pytest.approx(whole, abs=1e-4)
    assert light.unshaded == pytest.approx(whole)


def test_least_mean_and_best_of_a_bed_behind_a_wall():
    light = over([wall()])
    spots = hours_at([(2.4, y) for y in np.arange(0.05, 1.2, 0.1)], PLACE, on_day(DAY), lambda _day: [wall()])
    assert light.least < light.mean < light.best < light.unshaded
    assert light.least == pytest.approx(spots.min(), abs=0.35)
    assert light.best == pytest.approx(spots.max(), abs=0.35)
    assert light.mean == pytest.approx(spots.mean(), abs=0.35)


def test_plants_as_high_as_the_wall_have_the_whole_day():
    assert over([wall()], height=2.0).least == pytest.approx(beams(PLACE, DAY).total, abs=1e-4)
    hours = [over([wall()], height=height).mean for height in (0.0, 0.5, 1.0, 1.9)]
    assert hours == sorted(hours)


def test_a_planting_does_not_shade_itself():
    own = Caster("p", "beans", BED, 0.0, 1.8, 0.85)
    assert over([own], height=1.8).least == pytest.approx(beams(PLACE, DAY).total, abs=1e-4)
    assert over([own], leaving_out=frozenset({"p"})).least == pytest.approx(beams(PLACE, DAY).total, abs=1e-4)
    assert over([own]).mean < 0.2 * beams(PLACE, DAY).total


def test_hours_lost_are_proportional_to_opacity():
    whole = beams(PLACE, DAY).total
    lost = {share: whole - over([wall(opacity=share)]).mean for share in (0.25, 0.5, 1.0)}
    assert lost[0.25] == pytest.approx(lost[1.0] * 0.25, rel=1e-3)
    assert lost[0.5] == pytest.approx(lost[1.0] * 0.5, rel=1e-3)


def test_splitting_an_opaque_caster_changes_nothing():
    whole = [wall(left=-3, right=5)]
    along = [wall(left=-3, right=1), wall(left=1, right=5)]
    across = [Caster("a", "", whole[0].shape, 0, 0.9), Caster("b", "", whole[0].shape, 0.9, 2.0)]
    for day in (dt.date(2026, 1, 9), DAY):
        light = over(whole, day=day)
        for split in (along, across):
            parts = over(split, day=day)
            assert parts.least == pytest.approx(light.least, abs=1e-5)
            assert parts.mean == pytest.approx(light.mean, abs=1e-5)
            assert parts.best == pytest.approx(light.best, abs=1e-5)


@pytest.mark.parametrize("turn", [17.0, 90.0, -123.0])
def test_turning_plan_up_changes_nothing(turn):
    """The same garden drawn on a sheet that is turned: shapes turn back by what plan-up turns."""
    casters = [
        wall(),
        Caster("t", "tree", shapely.Point(6, 3).buffer(1.5), 1.5, 5.0, 0.8),
        Caster("u", "", POLYGONS["U"], 0, 1.2),
    ]
    points = [(x, y) for x in np.arange(-1, 7, 0.9) for y in np.arange(-2, 4, 0.7)]
    # On a sheet whose up is `turn` clockwise from north everything is drawn turned anticlockwise by it.
    drawn = [
        Caster(c.key, c.name, shapely.affinity.rotate(c.shape, turn, origin=(0, 0)), c.base, c.top, c.opacity)
        for c in casters
    ]
    moved = shapely.get_coordinates(shapely.affinity.rotate(shapely.MultiPoint(points), turn, origin=(0, 0)))
    plain = hours_at(points, PLACE, on_day(DAY), lambda _day: casters)
    turned = hours_at(moved, Place(52.0, 0.0, bearing_up=turn), on_day(DAY), lambda _day: drawn)
    np.testing.assert_allclose(turned, plain, atol=1e-4)


def test_hours_of_a_span_are_the_mean_of_its_days():
    span = Span(dt.date(2026, 5, 1), dt.date(2026, 5, 3))
    casters = {day: [wall(height=1.0 + day.day)] for day, _ in sample_days(span)}
    light = hours_over([Receiver("b", BED)], PLACE, sample_days(span), casters.__getitem__)["b"]
    days = [over(casters[day], day=day) for day in casters]
    assert light.mean == pytest.approx(np.mean([one.mean for one in days]), abs=1e-4)
    assert light.unshaded == pytest.approx(np.mean([one.unshaded for one in days]), abs=1e-4)


def test_plants_that_grow_out_of_the_shade_get_more():
    span = sample_days(Span(dt.date(2026, 5, 1), dt.date(2026, 8, 31)))
    stays = hours_over([Receiver("p", BED, 0.1)], PLACE, span, lambda _day: [wall(height=1.2)])["p"]
    grows = hours_over([Receiver("p", BED, lambda day: 0.4 * (day.month - 4))], PLACE, span, lambda _day: [wall(height=1.2)])["p"]  # fmt: skip
    assert grows.mean > stays.mean + 0.3


def test_several_receivers_at_once_as_one_by_one():
    shapes = {name: polygon for name, polygon in POLYGONS.items() if name != "far away"}
    casters = [wall(low=-1.0), Caster("t", "", shapely.Point(3, 5).buffer(1), 1, 4, 0.7)]
    receivers = [Receiver(name, shape, 0.1) for name, shape in shapes.items()]
    together = hours_over(receivers, PLACE, on_day(DAY), lambda _day: casters)
    assert list(together) == list(shapes)
    for receiver in receivers:
        alone = hours_over([receiver], PLACE, on_day(DAY), lambda _day: casters)[receiver.key]
        assert together[receiver.key].mean == pytest.approx(alone.mean, abs=1e-4)
        assert together[receiver.key].least == pytest.approx(alone.least, abs=1e-4)


def test_the_polar_night_has_no_hours():
    light = over([wall()], place=Place(75.0), day=dt.date(2026, 12, 21))
    assert (light.least, light.mean, light.best, light.unshaded) == (0, 0, 0, 0)
    assert (
        shade_sources(Receiver("b", BED), Place(75.0), on_day(dt.date(2026, 12, 21)), lambda _day: [wall()])
        == ()
    )


def test_nothing_to_measure():
    assert hours_over([], PLACE, on_day(DAY), lambda _day: []) == {}
    assert hours_over([Receiver("b", shapely.Polygon())], PLACE, on_day(DAY), lambda _day: []) == {}
    assert hours_at([], PLACE, on_day(DAY), lambda _day: []).shape == (0,)
    assert shade_sources(Receiver("b", shapely.Polygon()), PLACE, on_day(DAY), lambda _day: [wall()]) == ()


def test_cancelled_computation_has_no_result():
    assert (
        hours_over([Receiver("b", BED)], PLACE, on_day(DAY), lambda _day: [wall()], cancelled=lambda: True)
        == {}
    )


@pytest.mark.parametrize("name", POLYGONS)
def test_every_shape_has_cells_in_it(name):
    raster, inside = rasterize(POLYGONS[name])
    assert inside.any()
    assert raster.cells <= 25_000
    if POLYGONS[name].area > 1:
        assert inside.sum() * raster.cell**2 == pytest.approx(POLYGONS[name].area, rel=0.08)


def test_specks_and_strips_are_measured():
    for shape in (
        shapely.box(0, 0, 0.001, 0.001),
        shapely.box(0, 0, 30, 0.02),
        shapely.box(0, 0, 2000, 2000),
    ):
        raster, inside = rasterize(shape)
        assert inside.any()
        assert raster.cells <= 45_000


@pytest.mark.parametrize("width", [0.1, 0.2, 0.36])
def test_narrow_ground_has_four_cells_across_or_more(width):
    raster, inside = rasterize(shapely.box(0, 0, 3, width))
    assert raster.cell <= width / 4
    assert inside.sum() * raster.cell**2 == pytest.approx(3 * width, rel=0.25)
    assert rasterize(shapely.box(0, 0, 3, 0.5))[0].cell == 0.1


# -- sources of shade ---------------------------------------------------------------------------


def test_shade_is_the_gain_without_its_source():
    casters = [wall("w"), wall("e", left=-3, right=2, low=-1.2, height=3.0, opacity=0.6), wall("far", low=-300.0),
               Caster("t", "tree", shapely.Point(7, 1).buffer(1.5), 1.0, 5.0, 0.8)]  # fmt: skip
    found = shade_sources(Receiver("b", BED), PLACE, on_day(DAY), lambda _day: casters)
    whole = over(casters).mean
    assert {one.key for one in found} == {"w", "e", "t"}
    for one in found:
        without = over([caster for caster in casters if caster.key != one.key]).mean
        only = over([caster for caster in casters if caster.key == one.key]).mean
        assert one.hours == pytest.approx(without - whole, abs=1e-3)
        assert one.alone == pytest.approx(beams(PLACE, DAY).total - only, abs=1e-3)
    assert [one.hours for one in found] == sorted((one.hours for one in found), reverse=True)
    assert next(one.name for one in found if one.key == "t") == "tree"


def test_weighed_shade_is_measured_in_weighed_hours():
    casters = [wall("w"), wall("e", left=-3, right=2, low=-1.2, height=3.0, opacity=0.6)]
    raster, inside = rasterize(BED)
    light = beams(PLACE, DAY).weighed
    whole, without = (
        Shading(some, [raster]).hours(light)[0][inside].mean() for some in (casters, casters[1:])
    )
    found = shade_sources(Receiver("b", BED), PLACE, on_day(DAY), lambda _day: casters, weighed=True)
    by_key = {one.key: one for one in found}
    assert by_key["w"].hours == pytest.approx(without - whole, abs=1e-3)
    plain = shade_sources(Receiver("b", BED), PLACE, on_day(DAY), lambda _day: casters)
    assert by_key["w"].hours > {one.key: one for one in plain}["w"].hours + 0.1


def test_two_walls_in_line_cost_nothing_each_but_each_costs_alone():
    twins = [wall("a"), wall("b")]
    one, other = shade_sources(Receiver("b", BED), PLACE, on_day(DAY), lambda _day: twins)
    assert one.hours == other.hours == 0.0
    assert one.alone == pytest.approx(other.alone) != 0.0


def test_parts_of_one_thing_count_as_one():
    parts = [Caster("arch", "arch", shapely.box(x, -0.5, x + 0.2, -0.3), 0, 2) for x in (0.0, 2.0, 4.0)]
    (one,) = shade_sources(Receiver("b", BED), PLACE, on_day(DAY), lambda _day: parts)
    assert one.hours == pytest.approx(one.alone, abs=1e-4)


def test_meeting_leaves_out_only_what_cannot_shade():
    casters = [wall("w"), wall("far", low=500.0), wall("low", height=0.05)]
    raster, _ = rasterize(BED)
    assert Shading(casters, [raster.at_height(0.1)]).meeting(beams(PLACE, DAY)).tolist() == [0]
