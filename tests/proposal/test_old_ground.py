"""Whether ground has rested, as proposals and offers for free ground see it, against the check of the rotation."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting, rectangle

from planner.checks import check_all, rotation
from planner.checks.frame.planting_view import planting_view
from planner.crops import load_catalogue
from planner.garden import Site
from planner.plan import Plan
from planner.proposal.old_ground import LONG_REST, comes_too_soon
from planner.proposal.strips import carried_by, strips_of

CATALOGUE = load_catalogue()
D = dt.date
#: When the ground was cleared, the growing year that it belonged to, and for how many days it stood there.
BEFORE = [
    (D(2026, 4, 10), 2025, 170),
    (D(2026, 4, 10), 2025, 60),  # short, and of the year before
    (D(2026, 4, 10), 2026, 40),
    (D(2025, 8, 20), 2025, 60),
    (D(2024, 8, 20), 2024, 90),
    (D(2022, 8, 20), 2022, 90),
]


@pytest.mark.parametrize(
    "crop", ["lettuce", "basil", "borage", "spinach", "pea", "potato", "corn_salad", "buckwheat"]
)
@pytest.mark.parametrize(("cleared", "year", "days"), BEFORE)
def test_ground_has_rested_where_the_check_of_the_rotation_says_so(
    crop: str, cleared: dt.date, year: int, days: int
) -> None:
    one = garden(
        bed("b1", outline=rectangle(4, 1.2)),
        planting("old", "b1", crop=crop, year=year, first=cleared - dt.timedelta(days=days), last=cleared),
        planting("new", "b1", crop=crop, year=2026, first=D(2026, 5, 1), last=D(2026, 8, 20)),
        site=Site(latitude=54.0, longitude=-2.0),
    )
    plan = Plan(one, 2026, CATALOGUE)
    view = planting_view(plan, one.plantings_by_id["new"])
    years = rotation.interval(view)
    found = [f for f in check_all(plan) if f.check == rotation.CHECK and "new" in f.plantings]
    (carried,) = carried_by(plan, strips_of(plan, plan.beds))
    assert view.crop is not None
    soon = years is not None and any(
        comes_too_soon(old, view.crop.family, view.span, years, 2026)
        for old in carried
        if old.view.id == "old"
    )
    if years is not None and years.wanted < LONG_REST:
        assert soon == bool(found)
    else:
        assert soon or not found  # from three years on proposals are the stricter
