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


def _built(garden: Garden):
    return Plan(garden, 2026).built_support(garden.plantings[0])


def _heights(built) -> list[float]:
    return [round(float(line.centroid.y), 6) for line in built.lines]


def test_a_support_of_before_is_one_drawn_line_or_one_along_every_row():
    drawn = _garden(line=((-1.0, 0.1), (1.0, 0.1)))
    assert _heights(_built(drawn)) == [0.1]
    rows = _garden()
    assert _heights(_built(rows)) == [-0.305, 0.305]


@pytest.mark.parametrize(
    ("lines", "apart", "heights"), [(1, None, [0.0]), (2, None, [0.25, -0.25]), (3, 0.4, [0.4, 0.0, -0.4])]
)
def test_plants_are_beside_each_of_several_drawn_lines(lines, apart, heights):
    garden = _garden(line=((-1.0, 0.0), (1.0, 0.0)), lines=lines, line_spacing=apart, sides=1, offset=0.05)
    assert _heights(_built(garden)) == heights
    points = _points(garden)
    assert len(points) == 20 * lines
    assert sorted(np.unique(points[:, 1].round(6))) == pytest.approx(sorted(y + 0.05 for y in heights))


@pytest.mark.parametrize(
    ("lines", "apart", "heights"), [(1, None, [0.0]), (3, None, [-0.4, 0.0, 0.4]), (2, 0.5, [-0.25, 0.25])]
)
@pytest.mark.parametrize("kind", ["net", "wire", "sticks", "tower"])
def test_lines_without_a_drawn_one_share_the_plot(kind, lines, apart, heights):
    garden = _garden(kind=kind, lines=lines, line_spacing=apart)
    built = _built(garden)
    assert _heights(built) == pytest.approx(heights)
    assert all(line.length == pytest.approx(4.0) for line in built.lines)
    assert len(_points(garden)) == 80  # the plants stay in their rows


def test_as_much_netting_as_there_are_lines():
    one, three = (_built(_garden(lines=lines)).materials for lines in (1, 3))
    amounts = {material.name: material.amount for material in one}
    for material in three:
        if material.unit == "m2":
            assert material.amount == pytest.approx(3 * amounts[material.name])


def test_each_line_shades():
    garden = _garden(lines=3, height=1.8).with_(site={"latitude": 52.0, "longitude": 0.0})
    plan = Plan(garden, 2026)
    span = plan.span_of(garden.plantings[0])
    casters = plan.casters(span.first + (span.last - span.first) / 2)
    assert len({round(float(caster.shape.centroid.x), 3) for caster in casters}) == 3


def test_stakes_are_at_their_plants_however_many_lines():
    assert len(shapely.get_parts(_built(_garden(kind="stake", lines=2)).over)) == 80


def test_lines_keep_to_a_plot_in_any_shape():
    bed = Bed.model_validate({"id": "b1", "name": "Elbow", "outline": {"shape": "polygon", "points": [
        (0, 0), (4, 0), (4, 1), (1, 1), (1, 3), (0, 3)]}})  # fmt: skip
    elbow = _garden(lines=3).with_(beds=(bed,))
    built = _built(elbow)
    inside = shapely.Polygon(bed.outline.points).buffer(1e-6)
    assert len(built.lines) == 3
    assert all(inside.covers(line) for line in built.lines)


BEANS = [(x, y) for x in (-0.9, -0.3, 0.3, 0.9) for y in (0.46, -0.46)]


@pytest.mark.parametrize("kind", ["sticks", "net", "wire"])
@pytest.mark.parametrize(
    ("points", "heights"),
    [
        (BEANS, [-0.46, 0.46]),
        ([*BEANS, (1.2, 0.0)], [0.0]),  # one stands in no line: along the middle
    ],
)
def test_plants_set_singly_in_lines_have_their_support_in_those_lines(kind, points, heights):
    garden = _garden(kind=kind)
    places = {"kind": "places", "points": points}
    planting = Planting.model_validate({**garden.plantings[0].model_dump(), "arrangement": places})
    built = Plan(garden, 2026).built_support(planting)
    ends = [shapely.get_coordinates(line) for line in built.lines]
    assert sorted(float(line[0, 1]) for line in ends) == pytest.approx(heights)
    assert all(line[0, 1] == pytest.approx(line[-1, 1]) for line in ends)
    far = shapely.distance(shapely.union_all(built.lines), shapely.points(BEANS))
    assert bool(far.max() < 1e-6) is (len(heights) == 2)


def test_scattered_plants_have_their_support_along_the_middle():
    garden = _garden(kind="net")
    scatter = {"kind": "scatter", "density": 100}
    planting = Planting.model_validate({**garden.plantings[0].model_dump(), "arrangement": scatter})
    (line,) = Plan(garden, 2026).built_support(planting).lines
    assert shapely.get_coordinates(line)[:, 1] == pytest.approx(0.0, abs=1e-9)
