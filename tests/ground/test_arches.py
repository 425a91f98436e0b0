"""Arches drawn as a box: across which of its directions they span."""

from __future__ import annotations

import math

import pytest
import shapely
from making import bed, rectangle

from planner.garden import Rectangle, Structure
from planner.ground.arches import arch_between_beds
from planner.ground.obstacles import footprint
from planner.ground.shapes import plan_polygon

NEAR, FAR = bed("b1", rectangle(4.8, 1.2)), bed("b2", rectangle(4.8, 1.2, center=(0.0, 1.8)))


def box(left: float, low: float, right: float, high: float) -> Rectangle:
    return Rectangle(center=((left + right) / 2, (low + high) / 2), length=right - left, width=high - low)


@pytest.mark.parametrize(
    ("drawn", "beds"),
    [
        (box(-2.2, 0.5, 2.2, 1.3), (NEAR, FAR)),  # its feet in the beds
        (box(-2.2, 0.6, 2.2, 1.2), (NEAR, FAR)),  # its feet at their edges
        (box(0.0, 0.5, 0.4, 1.3), (NEAR, FAR)),  # narrow
    ],
)
def test_the_feet_of_an_arch_over_a_path_stand_at_its_beds(drawn, beds):
    made = arch_between_beds(drawn, beds)
    assert plan_polygon(made).symmetric_difference(plan_polygon(drawn)).area == pytest.approx(0.0, abs=1e-9)
    assert made.length == pytest.approx(drawn.width)
    feet = footprint(Structure(id="s1", kind="arch", outline=made, height=2.3))
    low, high = sorted(foot.centroid.y for foot in feet.geoms)
    assert (low, high) == pytest.approx(
        (drawn.center[1] - drawn.width / 2 + 0.05, drawn.center[1] + drawn.width / 2 - 0.05)
    )
    ground = shapely.union_all([plan_polygon(one.outline) for one in beds]).buffer(0.1 + 1e-9)
    assert ground.covers(feet)


@pytest.mark.parametrize(
    "beds",
    [
        (),
        (
            bed("b1", rectangle(1.2, 1.2, center=(-2.8, 0.9))),
            bed("b2", rectangle(1.2, 1.2, center=(2.8, 0.9))),
        ),
    ],
)
def test_an_arch_along_its_box_or_away_from_beds_stays_as_drawn(beds):
    drawn = box(-2.25, 0.7, 2.25, 1.1)
    assert arch_between_beds(drawn, beds) == drawn


def test_it_may_be_turned():
    turned = Rectangle(center=(0.0, 0.0), length=3.0, width=0.8, turn=30.0)
    a = math.radians(30)
    beds = tuple(bed(f"b{side}", rectangle(4.0, 1.0, center=(-side * 0.8 * math.sin(a), side * 0.8 * math.cos(a)), turn=30.0))
                 for side in (1, -1))  # fmt: skip
    assert arch_between_beds(turned, beds).turn == pytest.approx(120.0)
