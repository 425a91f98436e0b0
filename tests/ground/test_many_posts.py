"""Very many posts, places and corners: taken together, or as they were before, only faster."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.checks.crowding_within_planting import _leave_out_places
from planner.garden import Places, Support
from planner.ground import built_support as supports
from planner.ground import place, reach
from planner.ground.built_support import build_along
from planner.ground.scatter import stations_beside
from planner.light import casters
from planner.light.casters import support_casters
from planner.plan import Plan


def test_more_towers_than_are_looked_at_one_by_one_take_their_strip(monkeypatch):
    line = shapely.LineString([(0, 0), (30, 0)])
    few = build_along("tower", [line], 2.0)
    monkeypatch.setattr(supports, "MOST_POSTS", 10)
    many = build_along("tower", [line], 2.0)
    assert shapely.get_num_geometries(many.over) == 1
    assert many.over.covers(few.over)
    assert many.materials == few.materials


def test_more_posts_than_cast_a_shadow_each_cast_one_of_the_same_weight(monkeypatch):
    stations = np.array([(x * 0.5, y * 0.5) for x in range(6) for y in range(5)], dtype=float)
    built = build_along("cage", [], 1.5, stations=stations)
    outline = rectangle(6, 6)
    one_by_one = support_casters("p1", "tomato", outline, 0.0, built, 1.0, 0.5)
    monkeypatch.setattr(casters, "MOST_POSTS", 29)
    together = support_casters("p1", "tomato", outline, 0.0, built, 1.0, 0.5)
    assert len(one_by_one) == 2 * len(together) * 15
    for low in {one.base for one in one_by_one}:
        weights = [
            sum(c.shape.area * c.opacity for c in found if c.base == low) for found in (one_by_one, together)
        ]
        assert weights[0] == pytest.approx(weights[1], rel=1e-6)


def test_too_many_plants_along_a_support_are_refused_with_the_limit(monkeypatch):
    monkeypatch.setattr(place, "MOST_ALONG_SUPPORT", 10)
    support = Support(kind="net", line=((-2, 0), (2, 0)))
    catalogue = catalogue_of(crop(in_row_spacing=0.1, row_spacing=0.3))
    plan = Plan(garden(bed(), planting(support=support)), 2026, catalogue)
    placed = plan.placed(plan.plantings[0])
    assert placed.plants == 0
    assert placed.problem.endswith("80 plants; at most 10 can be laid out")


def test_stations_beside_a_bent_line_lie_at_its_distance():
    line = shapely.LineString([(0, 0), (2, 0), (2, 2)])
    found = stations_beside(line, 0.5, 0.1, 2)
    assert len(found) == 16
    assert shapely.distance(line, shapely.points(found)) == pytest.approx(0.1, abs=1e-6)
    assert found[0] == pytest.approx((0.25, 0.1))
    assert found[8] == pytest.approx((0.25, -0.1))


def test_an_outline_of_many_corners_is_reached_as_one_of_few(monkeypatch):
    round_bed = bed("b1", rectangle(4, 4))
    before = reach.out_of_reach(round_bed, 0.6)
    monkeypatch.setattr(reach, "MANY_CORNERS", 1)
    assert reach.out_of_reach(round_bed, 0.6).symmetric_difference(before).area < 1e-9


def test_places_too_near_to_one_before_them_are_left_out():
    points = np.random.default_rng(3).random((300, 2)) * 4
    kept: list[int] = []
    for i, point in enumerate(points):
        if all(np.hypot(*(point - points[j])) >= 0.3 for j in kept):
            kept.append(i)
    (fix,) = _leave_out_places("p1", points, 0.3)
    places = Places(points=tuple((float(x), float(y)) for x, y in points))
    after = fix.apply(garden(bed(outline=rectangle(9, 9)), planting(arrangement=places)))
    assert after.plantings[0].arrangement.points == tuple(places.points[i] for i in kept)
