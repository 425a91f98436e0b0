"""Reach and paths: both sides of each threshold."""

from __future__ import annotations

import pytest
from checks.faults import SITE, made
from checks.thresholds import Threshold
from making import bed, rectangle, ring_bed

from planner.garden import Garden, Structure

LONG_SIDES = ("left", "right")


def wide_bed(width: float) -> Garden:
    """A bed of a width, reached for 60 cm from its long sides."""
    return made(bed(outline=rectangle(4.8, width), access=LONG_SIDES), site=SITE.with_(reach=0.6))


def bed_and_wall(gap: float, reach: float = 0.6) -> Garden:
    """A bed of 1.2 m with a wall so far along its left side."""
    wall = Structure(id="s1", kind="wall", height=0.5, outline=rectangle(4.8, 0.2, center=(0.0, 0.7 + gap)))
    return made(bed(access=LONG_SIDES), structures=(wall,), site=SITE.with_(reach=reach))


def two_beds(gap: float, **fields: object) -> Garden:
    """Two beds so far apart."""
    return made(
        bed("b1", **fields),
        bed("b2", rectangle(center=(0.0, 1.2 + gap)), **fields),
        site=SITE.with_(reach=1.3),
    )


def keyhole(half: float) -> Garden:
    """A bed with a way into it of twice a width."""
    ring = [
        (-1.2, -1.2),
        (1.2, -1.2),
        (1.2, 1.2),
        (half, 1.2),
        (half, -0.2),
        (-half, -0.2),
        (-half, 1.2),
        (-1.2, 1.2),
    ]
    return made(ring_bed(ring), site=SITE.with_(reach=2.0))


OUT, NARROW, AT_WALL = [("note", "")], [("mind", "")], [("note", "")]
THRESHOLDS = [
    Threshold("a twentieth of a bed out of reach", "reach", wide_bed, 1.26, [], 1.27, OUT),
    Threshold("a wall that blocks a side", "reach", lambda gap: bed_and_wall(gap), 0.06, [], 0.04, OUT),
    Threshold("a joint between two beds", "path", two_beds, 0.11, [], 0.13, NARROW),
    Threshold("a path of the least width", "path", two_beds, 0.45, [], 0.448, NARROW),
    Threshold("a bed against a wall", "path", lambda gap: bed_and_wall(gap, 1.3), 0.29, [], 0.31, AT_WALL),
    Threshold("a joint within a bed", "path", keyhole, 0.055, [], 0.065, OUT),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_threshold(threshold: Threshold) -> None:
    threshold.assert_found()
