"""Shadows against trigonometry."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
import shapely

from planner.light.beams import beam_at, beams, toward_sun
from planner.light.casters import Caster
from planner.light.hours import hours_at
from planner.light.place import Place
from planner.light.sample_days import on_day
from planner.light.shadow import shadow, shadows

EQUINOX = dt.date(2026, 3, 20)


@pytest.mark.parametrize("altitude", [5.0, 20.0, 45.0, 60.0, 85.0])
@pytest.mark.parametrize("azimuth", [0.0, 90.0, 137.0, 250.0])
@pytest.mark.parametrize("bearing_up", [0.0, 90.0, -33.0])
def test_the_shadow_of_a_pole(altitude, azimuth, bearing_up):
    half, height = 0.005, 2.5
    pole = Caster("p", "pole", shapely.box(-half, -half, half, half), 0.0, height)
    toward = toward_sun(Place(50.0, bearing_up=bearing_up), np.array([altitude]), np.array([azimuth]))[0]
    corners = shapely.get_coordinates(shadow(pole, toward))
    away = np.radians(azimuth + 180.0 - bearing_up)  # clockwise from plan-up
    along = corners @ np.array([np.sin(away), np.cos(away)])
    across = corners @ np.array([np.cos(away), -np.sin(away)])
    assert along.max() == pytest.approx(height / np.tan(np.radians(altitude)), abs=1.5 * half)
    assert np.abs(across).max() <= 1.5 * half


def test_a_raised_caster_s_shadow_begins_away_from_its_foot():
    crown = Caster("t", "tree", shapely.box(-1, -1, 1, 1), 2.0, 5.0)
    outline = shadow(crown, np.array([0.0, -1.0]))  # sun 45 degrees up, at plan-down
    assert outline.equals_exact(shapely.box(-1, 1, 1, 6), 1e-9) or outline.equals(shapely.box(-1, 1, 1, 6))


def test_a_shadow_on_a_plant_is_cast_above_its_own_height():
    wall = Caster("w", "wall", shapely.box(-5, 0, 5, 0.2), 0.0, 2.0)
    toward = np.array([0.0, -1.0])
    assert shadow(wall, toward, 0.0).bounds[3] == pytest.approx(2.2)
    assert shadow(wall, toward, 1.5).bounds[3] == pytest.approx(0.7)
    assert shadow(wall, toward, 2.0).is_empty
    assert shadow(wall, toward, 3.0).is_empty


@pytest.mark.parametrize("latitude", [56.0, 35.0, -41.0, -20.0])
def test_a_long_wall_at_the_equinox_shades_its_far_side_as_deep_as_the_latitude_says(latitude):
    """The sun runs in the plane of the equator: the shadow's rim stays h x tan(latitude) from the wall."""
    height, far = 2.0, 1 if latitude > 0 else -1
    wall = [Caster("w", "wall", shapely.box(-3000, -0.001, 3000, 0.001), 0.0, height)]
    deep = height * np.tan(np.radians(abs(latitude)))
    place = Place(latitude)
    points = [
        (0, far * 0.5 * deep),
        (0, far * 0.93 * deep),
        (0, far * 1.07 * deep),
        (0, far * 3 * deep),
        (0, -far * 0.05),
    ]
    shaded, near_rim, past_rim, away, sunny = hours_at(points, place, on_day(EQUINOX), lambda _day: wall)
    whole = beams(place, EQUINOX).total
    assert shaded == pytest.approx(0.0, abs=0.05)
    assert near_rim < 0.5
    assert past_rim > whole - 0.5
    assert away == pytest.approx(whole, abs=0.05)
    assert sunny == pytest.approx(whole, abs=0.05)


def test_the_rim_at_noon_is_where_the_noon_altitude_puts_it():
    place = Place(56.0)
    noon = beam_at(place, dt.datetime(2026, 12, 21, 11, 58))
    wall = Caster("w", "wall", shapely.box(-50, -0.1, 50, 0.1), 0.0, 2.0)
    assert float(noon.altitude[0]) == pytest.approx(90 - 56 - 23.44, abs=0.12)
    reach = shadow(wall, noon.toward[0]).bounds[3] - 0.1
    assert reach == pytest.approx(2.0 / np.tan(np.radians(float(noon.altitude[0]))), rel=1e-3)


def test_no_sun_no_shadows():
    wall = Caster("w", "wall", shapely.box(-5, 0, 5, 0.2), 0.0, 2.0)
    assert shadows([wall], beam_at(Place(56.0), dt.datetime(2026, 12, 21, 2, 0))) == ()
    assert len(shadows([wall], beam_at(Place(56.0), dt.datetime(2026, 12, 21, 12, 0)))) == 1


def test_a_caster_without_height_or_opacity_casts_nothing():
    box = shapely.box(0, 0, 1, 1)
    for flat in (Caster("f", "", box, 0, 0), Caster("f", "", box, 1, 1), Caster("f", "", box, 2, 1), Caster("f", "", box, 0, 2, 0.0), Caster("f", "", shapely.Polygon(), 0, 2)):  # fmt: skip
        assert shadow(flat, np.array([1.0, 1.0])).is_empty
        whole = beams(Place(50.0), EQUINOX).total
        assert hours_at([(0.5, 0.5)], Place(50.0), on_day(EQUINOX), lambda _d, f=flat: [f])[
            0
        ] == pytest.approx(whole)
