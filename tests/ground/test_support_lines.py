"""Plants that follow the drawn line of their support."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely

from planner.amounts import amount
from planner.garden import Bed, Garden, Planting, Rectangle, Support, edits
from planner.plan import Plan


def _garden(**support: object) -> Garden:
    bed = Bed(id="b1", name="One", outline=Rectangle(length=4.0, width=1.2, center=(3.0, 2.0), turn=30.0))
    planting = Planting(
        id="p1",
        bed="b1",
        crop="pea",
        year=2026,
        arrangement={"kind": "rows", "in_row_spacing": 0.1},
        support=Support.model_validate({"kind": "net", **support}),
    )
    return Garden(beds=(bed,), plantings=(planting,))


def _points(garden: Garden) -> np.ndarray:
    return Plan(garden, 2026).placed(garden.plantings[0]).layout.points


@pytest.mark.parametrize(("sides", "count"), [(1, 20), (2, 40)])
def test_plants_are_beside_the_line_on_its_sides(sides, count):
    garden = _garden(line=((-1.0, 0.0), (1.0, 0.0)), sides=sides, offset=0.15)
    points = _points(garden)
    assert len(points) == count
    distances = shapely.distance(shapely.LineString([(-1, 0), (1, 0)]), shapely.points(points))
    assert distances == pytest.approx(0.15)
    along = np.unique(points[:, 0].round(6))
    assert np.diff(along) == pytest.approx(0.1)
    assert set(np.sign(points[:, 1])) == ({1.0, -1.0} if sides == 2 else {1.0})


def test_without_a_line_plants_are_in_rows():
    layout = Plan(_garden(), 2026).placed(_garden().plantings[0]).layout
    assert layout.row_count == 2
    assert set(layout.points[:, 1]) == {-0.305, 0.305}


def test_a_line_longer_than_its_bed_reports_the_number_lost():
    garden = _garden(line=((-4.0, 0.0), (4.0, 0.0)))
    placed = Plan(garden, 2026).placed(garden.plantings[0])
    assert placed.plants == 80
    assert "80 of 160" in placed.problem


def test_a_line_beside_the_bed_holds_nothing_and_is_a_problem():
    garden = _garden(line=((-1.0, 3.0), (1.0, 3.0)))
    placed = Plan(garden, 2026).placed(garden.plantings[0])
    assert placed.plants == 0
    assert "along its support" in placed.problem


@pytest.mark.parametrize("line", [((0.0, 0.0),), ((1.0, 0.0), (1.0, 0.0))])
def test_a_line_of_no_length_is_refused(line):
    with pytest.raises(edits.EditError, match="two places"):
        edits.draw_support(_garden(), "p1", line)


def test_seed_is_counted_by_stations():
    garden = _garden(line=((-1.0, 0.0), (1.0, 0.0)))
    plan = Plan(garden, 2026)
    part = amount(plan, garden.plantings[0])
    assert part.sowing == "stations"
    assert part.seeds == part.seeds_per_station * 40


def test_the_support_follows_the_line():
    garden = _garden(line=((-1.0, 0.1), (1.0, 0.1)), height=1.5)
    support = Plan(garden, 2026).built_support(garden.plantings[0])
    assert support.height == 1.5
    assert shapely.LineString([(-1, 0.1), (1, 0.1)]).within(support.ground.buffer(1e-6))
    assert any(material.name == "net" for material in support.materials)


def test_a_resized_bed_leaves_the_line_where_it_is_on_the_ground():
    garden = _garden(line=((-1.0, 0.0), (1.0, 0.0)))
    from planner.ground import shapes

    before = shapes.to_plan(garden.beds[0].outline, garden.plantings[0].support.line)
    turn = math.radians(30)
    outline = garden.beds[0].outline.with_(
        length=5.0, center=(3.0 + 0.5 * math.cos(turn), 2.0 + 0.5 * math.sin(turn))
    )
    after = edits.resize_bed(garden, "b1", outline)
    now = shapes.to_plan(after.beds[0].outline, after.plantings[0].support.line)
    assert now == pytest.approx(before, abs=1e-5)
