"""Marks of gates and taps: a leaf as long as the gate with its swing about the hinge, a ring with a cross."""

from __future__ import annotations

import math

import pytest
import shapely
from making import rectangle

from planner.garden import Circle, Structure
from planner.ground.ribs import marks


@pytest.mark.parametrize("turn", [0.0, 30.0, 90.0, -75.0])
def test_a_gate_swings_by_a_right_angle_about_its_hinge(turn):
    gate = Structure(id="s1", kind="gate", outline=rectangle(1.0, 0.1, center=(4, 2), turn=turn), height=1.2)
    lines = [shapely.LineString(line) for line in marks(gate)]
    leaf, swing = lines[0], shapely.line_merge(shapely.MultiLineString(lines[1:]))
    assert leaf.length == pytest.approx(1.0)
    hinge = shapely.Point(leaf.coords[0])
    assert all(shapely.Point(at).distance(hinge) == pytest.approx(1.0) for at in swing.coords)
    assert swing.length == pytest.approx(math.pi / 2, rel=2e-3)
    shut = shapely.Point(swing.coords[-1])
    assert shapely.Point(4, 2).distance(shapely.LineString([hinge, shut])) == pytest.approx(0, abs=1e-9)


def test_a_tap_is_a_ring_with_a_cross():
    tap = Structure(id="s1", kind="tap", outline=Circle(radius=0.1, center=(1, 1)), height=0.8)
    lines = shapely.MultiLineString(marks(tap))
    assert lines.bounds == pytest.approx((0.78, 0.78, 1.22, 1.22))
    assert lines.length == pytest.approx(math.tau * 0.22 + 4 * 0.22, rel=2e-3)


def test_others_have_none():
    assert marks(Structure(id="s1", kind="wall", outline=rectangle(), height=2)) == ()
    assert marks(Structure(id="s1", kind="gate", outline=Circle(radius=1), height=1)) == ()
