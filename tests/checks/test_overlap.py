"""Ground taken twice, by annuals and of perennials: both sides of each threshold."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import beans, day, lettuce, made, places, plot
from checks.thresholds import Threshold, own
from making import bed, planting, rectangle

from planner.garden import Garden


def lettuce_until(last: dt.date) -> Garden:
    """Beans set out on 5 July where lettuce grows until a day."""
    return made(bed(), lettuce("p1", last=last), beans("p2", first=day(7, 5), last=day(10, 1)))


def beans_up_to(end: float, width: float = 1.2) -> Garden:
    """Beans on a bed of 4.8 m, up to so far along it; lettuce from the middle on."""
    return made(
        bed(outline=rectangle(4.8, width)),
        beans("p1", plot=plot(0.0, end)),
        lettuce("p2", first=day(6, 3), plot=plot(2.4, 4.8)),
    )


def two_heads(apart: float) -> Garden:
    """Two plantings of one lettuce each, of 30 cm of ground, so far apart."""
    return made(
        bed(),
        lettuce("p1", variety="Own", arrangement=places((0.0, 0.0))),
        lettuce("p2", variety="Own", arrangement=places((apart, 0.0))),
        **own("lettuce", spread=0.3, in_row_spacing=0.3),
    )


def asparagus(days: float, last: dt.date) -> Garden:
    """Asparagus planted in April 2024 that begins to bear after so many days, dug on a day."""
    crowns = planting(
        crop="asparagus", variety="Own", year=2024, start="crowns", first=day(4, 15, 2024), last=last
    )
    return made(bed(), crowns, **own("asparagus", days_to_maturity=days))


def strawberries(last: dt.date) -> Garden:
    """Strawberries planted in September 2025 that begin to bear after 400 days, dug on a day."""
    plants = planting(
        crop="strawberry", variety="Own", year=2025, start="bought", first=day(9, 10, 2025), last=last
    )
    return made(bed(), plants, **own("strawberry", days_to_maturity=400))


def dug_after(days: int) -> dt.date:
    return day(4, 15, 2024) + dt.timedelta(days=days)


STOP, MIND, DUG = [("stop", "plots")], [("mind", "plots")], [("note", "dug")]
THRESHOLDS = [
    Threshold(
        "two weeks on one ground only hurt", "overlap", lettuce_until, day(7, 18), MIND, day(7, 19), STOP
    ),
    Threshold("a sliver of a plot", "overlap", beans_up_to, 2.42, [], 2.43, STOP),
    Threshold("a speck of a narrow bed", "overlap", lambda end: beans_up_to(end, 0.15), 2.43, [], 2.44, STOP),
    Threshold("single plants lean over each other", "overlap", two_heads, 0.13, [], 0.11, STOP),
    Threshold(
        "what bears within a year is no perennial to be spared",
        "standing",
        lambda days: asparagus(days, dug_after(650)),
        364,
        [],
        365,
        DUG,
    ),
    Threshold(
        "dug when it has borne as long as it took to bear",
        "standing",
        lambda grown: asparagus(500, dug_after(grown)),
        940,
        [],
        939,
        DUG,
    ),
    Threshold(
        "strawberries for a single crop",
        "standing",
        strawberries,
        day(9, 10, 2025) + dt.timedelta(days=240),
        [],
        day(9, 10, 2025) + dt.timedelta(days=239),
        DUG,
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_threshold(threshold: Threshold) -> None:
    threshold.assert_found()
