"""Rows of a planting as plantings of their own: every plant stays where it was, whatever the shape of the bed."""

from __future__ import annotations

import numpy as np
import pytest
from making import bed, garden, planting, rectangle

from planner.garden import Circle, Polygon
from planner.garden.edits import EditError
from planner.ground.splitting import row_at, row_lines, split_rows
from planner.plan import Plan

SHAPES = {
    "rectangle": rectangle(4.0, 1.2),
    "turned": rectangle(3.7, 1.25, turn=30.0),
    "circle": Circle(center=(0.0, 0.0), radius=1.4),
    "wedge": Polygon(points=((0, 0), (3, 0), (2.4, 1.6), (0.3, 1.6))),
    "slanting": Polygon(points=((0, 0), (5, 0), (5, 0.6), (0, 1.5))),
    "triangle": Polygon(points=((0, 0), (4, 0), (2, 1.8))),
}
ARRANGEMENTS = {
    "rows": {"kind": "rows", "in_row_spacing": 0.3, "row_spacing": 0.3},
    "shared": {"kind": "rows", "in_row_spacing": 0.25, "rows": 3},
    "staggered": {"kind": "staggered", "in_row_spacing": 0.28},
    "across": {"kind": "rows", "in_row_spacing": 0.3, "row_spacing": 0.4, "turn": 90},
    "askew": {"kind": "rows", "in_row_spacing": 0.3, "row_spacing": 0.3, "turn": 20},
}


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_every_plant_stays_where_it_was(shape: str, arrangement: str):
    made = garden(
        bed("b1", SHAPES[shape]), planting("p1", "b1", crop="lettuce", arrangement=ARRANGEMENTS[arrangement])
    )
    plan = Plan(made, 2026)
    placed = plan.placed(made.plantings[0])
    lines = row_lines(placed)
    assert len(lines) > 2
    for varieties in (
        [f"Sort {number}" for number in range(len(lines))],
        ["First"] + ["Second"] * (len(lines) - 1),
    ):
        after, ids = split_rows(made, "p1", placed, varieties)
        new = Plan(after, 2026)
        parts = [after.plantings_by_id[key] for key in ids]
        assert {one.variety for one in parts} == set(varieties)
        points = np.concatenate([new.placed(one).layout.points for one in parts])
        more = len(points) - placed.plants
        assert more == 0 or (shape == "wedge" and more == 1), "where the rows narrow, one more may fit"
        far = np.linalg.norm(points[:, None] - placed.layout.points[None], axis=2)
        assert np.sort(far.min(axis=1))[placed.plants - 1] < 0.03
        assert far.min(axis=0).max() < 0.03


def test_the_row_under_a_place_is_found_and_what_has_no_rows_says_so():
    made = garden(
        bed("b1", SHAPES["rectangle"]),
        planting("p1", "b1", crop="lettuce", arrangement=ARRANGEMENTS["rows"]),
        planting("p2", "b1", crop="lettuce", arrangement={"kind": "scatter", "density": 20}),
    )
    plan = Plan(made, 2026)
    placed = plan.placed(made.plantings[0])
    assert [row_at(placed, (1.0, y)) for y in (-0.5, -0.1, 0.1, 0.59)] == [0, 1, 2, 3]
    with pytest.raises(EditError, match="only what grows in rows"):
        split_rows(made, "p2", plan.placed(made.plantings[1]), [])
