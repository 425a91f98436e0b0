"""How far one walks, against ways measured by hand, and against straight lines."""

from __future__ import annotations

import math

import pytest
from making import bed, rectangle

from planner.garden import Band, Structure
from planner.ground.walking_distance import LEAST_CELL, WayInputs, walking_distances

#: A way on the raster is up to 3 % and a cell and a half longer than the shortest; at corners it may cut off half a cell.
SHARE, CELLS, CUT = 0.03, 1.5, 0.75


def near(found: float, wanted: float, cell: float = LEAST_CELL) -> bool:
    return wanted - CUT * cell <= found <= wanted * (1 + SHARE) + CELLS * cell


@pytest.mark.parametrize("degrees", [0, 10, 26.6, 33, 45, 70, 100, 215])
def test_on_open_ground_it_is_the_straight_way_in_any_direction(degrees: float):
    at = 6 * math.cos(math.radians(degrees)), 6 * math.sin(math.radians(degrees))
    (far,) = walking_distances(WayInputs((0.0, 0.0), (bed("b1", rectangle(0.2, 0.2, center=at)),), (), None))
    assert near(far, 6 - 0.1)


def test_a_wall_is_walked_round_by_its_nearer_end():
    wall = Structure(id="s1", kind="wall", outline=rectangle(0.3, 6.0, center=(2, 1)), height=2)
    target = bed("b1", rectangle(1, 1, center=(4.5, 0)))
    (far,) = walking_distances(WayInputs((0.0, 0.0), (target,), (wall,), None))
    end = (1.85, -2.0), (2.15, -2.0), (4.0, -0.5)  # round the lower end, to the nearest corner of the bed
    assert near(far, math.dist((0, 0), end[0]) + math.dist(end[0], end[1]) + math.dist(end[1], end[2]))


def test_a_closed_fence_is_walked_through_at_its_gate_only():
    fence = Structure(id="s1", kind="fence", outline=rectangle(20, 0.2, center=(0, 2)), height=1)
    gate = Structure(id="s2", kind="gate", outline=rectangle(1, 0.4, center=(5, 2)), height=1)
    edge = rectangle(20, 12, center=(0, 2))
    target = bed("b1", rectangle(1, 1, center=(0, 5)))
    closed = walking_distances(WayInputs((0.0, 0.0), (target,), (fence,), edge))
    assert closed == (math.inf,)
    (far,) = walking_distances(WayInputs((0.0, 0.0), (target,), (fence, gate), edge))
    assert near(far, math.dist((0, 0), (4.5, 1.9)) + 0.2 + math.dist((4.5, 2.1), (0.5, 4.5)), 0.25)


def test_a_path_leads_through_a_bed():
    long_bed = bed("b1", rectangle(1, 19.9, center=(3, 0)))
    path = Structure(id="s1", kind="path", outline=Band(line=((2.0, 0.0), (4.0, 0.0)), width=0.6), height=0)
    target = bed("b2", rectangle(1, 1, center=(6, 0)))
    edge = rectangle(20, 19.8)
    assert walking_distances(WayInputs((0.0, 0.0), (long_bed, target), (), edge))[1] == math.inf
    assert near(walking_distances(WayInputs((0.0, 0.0), (long_bed, target), (path,), edge))[1], 5.5, 0.32)


def test_a_start_within_a_bed_begins_beside_it_and_no_beds_need_no_way():
    around = bed("b1", rectangle(2, 2))
    (far,) = walking_distances(WayInputs((0.0, 0.0), (around,), (), None))
    assert far <= 1 + 2 * LEAST_CELL
    assert walking_distances(WayInputs((0.0, 0.0), (), (), None)) == ()
