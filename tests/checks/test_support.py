"""Supports: both sides of each threshold."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from checks.faults import WARM, day, made, places, rows
from checks.thresholds import Threshold, own
from making import bed, planting, rectangle

from planner.garden import Garden, Rectangle, Structure


def tomatoes(height: float, support: dict[str, Any] | None) -> Garden:
    """Tomatoes of a variety that grows so high."""
    plants = planting(
        crop="tomato",
        variety="Own",
        start="raised",
        first=day(6, 5),
        support=support,
        arrangement=rows(0.6, 0.6),
    )
    return made(bed(), plants, **own("tomato", height=height))


def cucumbers(plants: int) -> Garden:
    """So many cucumbers, without a support, on a plot of 5.76 m²."""
    points = places(*((-2.0 + 0.35 * number, 0.0) for number in range(plants)))
    return made(bed(), planting(crop="cucumber", start="raised", first=day(6, 10), arrangement=points))


def beans_among_corn(days: int, corn: str = "sweet_corn", start: str = "raised") -> Garden:
    """Climbing beans sown so many days after the corn, or other tall plants, among which they grow."""
    first = day(6, 1)
    poles = planting("p1", crop=corn, start=start, first=first, arrangement=rows(0.6, 0.8))
    climbing = planting(
        "p2",
        crop="climbing_bean",
        start="sown",
        first=first + dt.timedelta(days=days),
        shares_ground=True,
        arrangement=places((-0.6, 0.0), (0.6, 0.0)),
    )
    return made(bed(), poles, climbing, climate=WARM)


def beans_at_an_arch(*xs: float) -> Garden:
    """Climbing beans at places along a bed; an arch across its middle, 1 m wide."""
    arch = Structure(
        id="s1",
        kind="arch",
        outline=Rectangle(length=1.1, width=1.0, center=(0.0, 0.85), turn=90),
        height=2.3,
    )
    climbing = planting(
        crop="climbing_bean", start="raised", first=day(6, 1), arrangement=places(*((x, 0.5) for x in xs))
    )
    return made(bed("b1"), bed("b2", rectangle(center=(0.0, 1.7))), climbing, structures=(arch,))


def stake(height: float) -> dict[str, Any]:
    return {"kind": "stake", "height": height}


def net(height: float) -> dict[str, Any]:
    return {"kind": "net", "height": height}


NONE, LOW, MISSING = [("note", "none")], [("note", "low")], [("mind", "none")]
THRESHOLDS = [
    Threshold("what grows so high leans", "support", lambda high: tomatoes(high, None), 1.19, [], 1.2, NONE),
    Threshold(
        "a stake of six tenths", "support", lambda high: tomatoes(1.5, stake(high)), 0.9, [], 0.89, LOW
    ),
    Threshold("a net of half", "support", lambda high: tomatoes(1.5, net(high)), 0.75, [], 0.74, LOW),
    Threshold("cucumbers with room to run", "support", cucumbers, 11, [], 12, NONE),
    Threshold("corn that can bear beans", "support", beans_among_corn, 14, [], 13, MISSING),
    Threshold(
        "flour corn that can bear beans",
        "support",
        lambda days: beans_among_corn(days, "flour_corn", "sown"),
        14,
        [],
        13,
        MISSING,
    ),
    Threshold(
        "beans near enough to an arch",
        "support",
        lambda x: beans_at_an_arch(0.0, x, x),
        1.24,
        [],
        1.26,
        MISSING,
    ),
    Threshold(
        "half of the beans at an arch",
        "support",
        lambda number: beans_at_an_arch(*([0.1, -0.1] + [2.0 + 0.1 * n for n in range(number)])),
        2,
        [],
        3,
        MISSING,
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_threshold(threshold: Threshold) -> None:
    threshold.assert_found()
