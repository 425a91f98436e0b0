"""The plan at its true place on the Earth, against geodesics of GeographicLib (Karney, J. Geodesy 87, 2013)."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import shapely
from geographiclib.geodesic import Geodesic

from planner.garden import Site
from planner.ground.earth import Earth, NoPlaceError

WGS84 = Geodesic.WGS84
#: 1 mm in 100 m.
NEAR = 1e-5
#: Places all over the Earth, and how the plan lies there.
PLACES = [(0.0, 0.0, 0.0), (56.1, -3.2, 12.0), (-33.9, 151.2, 250.0), (78.2, 15.6, 100.0), (-89.9, 10.0, 45.0), (51.0, 179.9999, 30.0)]  # fmt: skip
POINTS = np.array([[0, 0], [100, 0], [0, 100], [-73.5, 41.2], [900, -400], [12.34, 5.6]], dtype=float)


def geodesic(one: np.ndarray, other: np.ndarray) -> dict[str, float]:
    """From longitude and latitude to longitude and latitude."""
    return WGS84.Inverse(one[1], one[0], other[1], other[0])


def across(latitude: float, azimuth: float) -> float:
    """Radius of curvature in a direction, after Euler. [m]"""
    a, f = WGS84.a, WGS84.f
    sine = f * (2 - f) * math.sin(math.radians(latitude)) ** 2
    meridian, normal = a * (1 - f * (2 - f)) / (1 - sine) ** 1.5, a / (1 - sine) ** 0.5
    turn = math.radians(azimuth)
    return 1 / (math.cos(turn) ** 2 / meridian + math.sin(turn) ** 2 / normal)


@pytest.mark.parametrize(("latitude", "longitude", "bearing"), PLACES)
@pytest.mark.parametrize("height", [0.0, 2000.0])
def test_distances_are_those_of_the_plan(latitude, longitude, bearing, height):
    placed = Earth(latitude, longitude, height, bearing).positions(POINTS)
    for one, other in itertools.combinations(range(len(POINTS)), 2):
        found = geodesic(placed[one], placed[other])
        level = across(latitude, found["azi1"])
        wanted = math.dist(POINTS[one], POINTS[other]) * level / (level + height)
        assert found["s12"] == pytest.approx(wanted, rel=NEAR), "1 mm in 100 m"


@pytest.mark.parametrize(("latitude", "longitude", "bearing"), PLACES)
def test_bearings_are_those_of_the_plan(latitude, longitude, bearing):
    placed = Earth(latitude, longitude, 0.0, bearing).positions(POINTS)
    for k, (x, y) in enumerate(POINTS[1:], 1):
        wanted = math.degrees(math.atan2(x, y)) + bearing
        apart = (geodesic(placed[0], placed[k])["azi1"] - wanted + 180.0) % 360.0 - 180.0
        assert abs(apart) < 1e-3


@pytest.mark.parametrize(("latitude", "longitude", "bearing"), PLACES)
def test_the_way_back_leads_to_the_plan(latitude, longitude, bearing):
    earth = Earth(latitude, longitude, 120.0, bearing)
    assert np.abs(earth.on_plan(earth.positions(POINTS)) - POINTS).max() < 1e-4


def test_a_garden_on_both_sides_of_180_degrees_is_cut_there():
    shape = Earth(-16.8, 179.9999).shape(shapely.box(-50, -10, 50, 10))
    assert shape.geom_type == "MultiPolygon"
    sides = sorted(tuple(part.bounds) for part in shape.geoms)
    assert sides[0][0] == -180.0
    assert sides[-1][2] == 180.0
    whole = sum(abs(WGS84_area(part)) for part in shape.geoms)
    assert whole == pytest.approx(2000.0, rel=1e-4)


def WGS84_area(polygon: shapely.Polygon) -> float:  # noqa: N802
    """Area of a polygon of longitudes and latitudes; above 0 where it runs anticlockwise. [m2]"""
    line = WGS84.Polygon()
    for lon, lat in polygon.exterior.coords[:-1]:
        line.AddPoint(lat, lon)
    return line.Compute(False, True)[2]


def test_outer_rings_run_anticlockwise_and_holes_clockwise():
    ring = shapely.box(0, 0, 30, 20).difference(shapely.box(10, 5, 15, 10)).reverse()
    shape = Earth(52.0, 5.0, bearing_up=77.0).shape(ring)
    assert WGS84_area(shapely.Polygon(shape.exterior)) == pytest.approx(600.0, rel=1e-4)
    assert WGS84_area(shapely.Polygon(shape.interiors[0])) == pytest.approx(-25.0, rel=1e-4)


@pytest.mark.parametrize("place", [{}, {"latitude": 50.0}, {"longitude": 5.0}])
def test_a_garden_without_a_place_is_refused(place):
    with pytest.raises(NoPlaceError, match="Yard: its place on the Earth is not known"):
        Earth.of(Site(name="Yard", **place))
