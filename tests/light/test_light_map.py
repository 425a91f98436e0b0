"""Map of direct sun."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
import shapely
from making import bed, garden, rectangle

from planner.garden import Garden, Site
from planner.light.beams import Beams, beams
from planner.light.casters import Caster
from planner.light.hours import hours_at
from planner.light.map import MOST_CELLS, garden_extent, light_maps
from planner.light.place import Place
from planner.light.raster import Raster
from planner.light.receiver import Receiver
from planner.light.sample_days import on_day, sample_days
from planner.light.shading import Shading
from planner.season.spans import Span

PLACE, DAY = Place(52.0), dt.date(2026, 6, 21)
EXTENT = (-4.0, -3.0, 4.0, 5.0)
CASTERS = [
    Caster("w", "wall", shapely.box(-3, -1, 3, -0.8), 0.0, 2.0),
    Caster("t", "tree", shapely.Point(2.5, 2.5).buffer(1.0), 1.5, 4.0, 0.7),
    Caster(
        "h", "hedge", shapely.Polygon([(-4, 1), (-3, 1), (-3, 3), (-2, 3), (-2, 3.4), (-4, 3.4)]), 0, 1.4, 0.9
    ),
]


def maps(**fields):
    casters = fields.pop("casters", CASTERS)
    return list(
        light_maps(
            fields.pop("extent", EXTENT),
            PLACE,
            fields.pop("days", on_day(DAY)),
            lambda _day: casters,
            **fields,
        )
    )


def test_coarse_maps_come_first_and_agree_with_the_finished_one():
    found = maps()
    assert [one.cell for one in found] == [0.4, 0.2, 0.1]
    assert [one.finished for one in found] == [False, False, True]
    fine = found[-1].hours
    assert fine.shape == (80, 80)
    for rough, most in zip(found[:-1], (0.55, 0.35), strict=True):
        scale = round(rough.cell / 0.1)
        blocks = fine.reshape(80 // scale, scale, 80 // scale, scale).mean(axis=(1, 3))
        assert np.abs(rough.hours - blocks).mean() < most
        assert rough.unshaded == pytest.approx(found[-1].unshaded, abs=0.05)


def test_the_map_agrees_with_hours_at_points():
    finished = maps()[-1]
    points = [
        (-3.95, -2.95),
        (0.05, -0.55),
        (0.05, 1.55),
        (2.55, 2.55),
        (2.55, 4.05),
        (-3.55, 2.05),
        (3.95, 4.95),
    ]
    expected = hours_at(points, PLACE, on_day(DAY), lambda _day: CASTERS)
    found = [finished.at(*point) for point in points]
    np.testing.assert_allclose(found, expected, atol=1e-3)
    assert finished.at(-4.2, 0) is None
    assert finished.at(0, 5.01) is None
    assert finished.hours.max() <= finished.unshaded + 1e-4


def test_a_symmetrical_garden_has_a_symmetrical_map():
    mirrored = [
        Caster(
            c.key + "m",
            c.name,
            shapely.affinity.scale(c.shape, -1, 1, origin=(0, 0)),
            c.base,
            c.top,
            c.opacity,
        )
        for c in CASTERS
    ]
    both = [*CASTERS, *mirrored]
    raster = Raster(-4, -3, 0.1, 80, 80)
    light = beams(PLACE, DAY)
    there = light.toward * (-1, 1)
    even = Beams(np.concatenate([light.instants] * 2), np.tile(light.hours, 2), np.concatenate([light.toward, there]), np.tile(light.altitude, 2))  # fmt: skip
    cells = Shading(both, [raster]).hours(even)[0]
    np.testing.assert_allclose(cells, cells[:, ::-1], atol=2e-3)
    # The real day is even about noon but for the steps, and the sun's own way in its orbit.
    finished = maps(casters=both, step=2)[-1].hours
    assert np.abs(finished - finished[:, ::-1]).max() < 0.12


def test_beds_and_plants_are_measured_at_their_height():
    plot, taller = shapely.box(-1, -0.6, 1, 0.4), shapely.box(-1, 0.5, 1, 1.5)
    own = Caster("p", "maize", taller, 0.0, 2.0, 0.9)
    surfaces = [Receiver("b", plot, 1.0), Receiver("p", taller, lambda _day: 2.0)]
    casters = [*CASTERS, own]
    flat, raised = maps(casters=casters)[-1], maps(casters=casters, surfaces=surfaces)[-1]
    assert raised.at(0.05, 0.05) == pytest.approx(hours_at([(0.05, 0.05)], PLACE, on_day(DAY), lambda _d: casters, 1.0)[0], abs=1e-3)  # fmt: skip
    assert raised.at(0.05, 0.05) > flat.at(0.05, 0.05)
    assert raised.at(0.05, 1.05) > flat.at(0.05, 1.05) + 5
    outside = ~shapely.contains_xy(shapely.union_all([plot, taller]), *np.meshgrid(np.arange(-3.95, 4, 0.1), np.arange(-2.95, 5, 0.1)))  # fmt: skip
    np.testing.assert_allclose(raised.hours[outside], flat.hours[outside], atol=1e-4)


def test_a_surface_that_leaves_a_caster_out_is_not_shaded_by_it():
    box = shapely.box(-1, 1, 1, 2)
    plants = Caster("p", "beans", box, 0, 1.5)
    spared = maps(casters=[plants], surfaces=[Receiver("b", box, 0.0, frozenset({"p"}))])[-1]
    assert spared.at(0.05, 1.55) == pytest.approx(spared.unshaded, abs=1e-3)


def test_a_superseded_map_stops():
    calls = 0

    def superseded() -> bool:
        nonlocal calls
        calls += 1
        return calls > 4

    found = maps(cancelled=superseded)
    assert [one.finished for one in found] in ([False], [False, False])
    assert maps(cancelled=lambda: True) == []


def test_a_map_of_a_span_is_the_mean_of_its_days():
    days = sample_days(Span(dt.date(2026, 3, 1), dt.date(2026, 10, 31)), 3)
    mean = maps(days=days)[-1]
    single = [maps(days=on_day(day))[-1] for day, _ in days]
    expected = sum(share * one.hours for (_, share), one in zip(days, single, strict=True))
    np.testing.assert_allclose(mean.hours, expected, atol=1e-3)


def test_coarse_maps_of_a_span_represent_all_of_its_days():
    days = sample_days(Span(dt.date(2026, 3, 1), dt.date(2026, 10, 31)), 12)
    for found in maps(casters=[], days=days):
        assert found.hours == pytest.approx(np.full(found.hours.shape, found.unshaded), rel=0.2)
        assert found.unshaded == pytest.approx(13.2, abs=0.2)


def test_a_very_large_garden_gets_larger_cells():
    found = maps(extent=(0, 0, 900, 700), casters=[], coarse=())
    assert found[-1].hours.size <= MOST_CELLS * 1.01
    assert found[-1].finished


def test_an_empty_garden_has_no_map():
    assert garden_extent(Garden()) is None
    assert garden_extent(garden(bed(outline=rectangle(4, 2, center=(5, 5))))) == pytest.approx((2, 3, 8, 7))
    outlined = garden(bed(), site=Site(outline=rectangle(10, 6)))
    assert garden_extent(outlined) == pytest.approx((-5, -3, 5, 3))
