"""Wishes that are too large: what the largest bed holds beside what stays, and whether dividing them helps."""

from __future__ import annotations

from typing import Any

import pytest
from making import bed, garden, planting, rectangle

from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Site, Wish
from planner.plan import Plan
from planner.proposal.garden_puzzle import garden_puzzle
from planner.proposal.propose import propose

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
)


def wished(amount: float, crop: str = "beetroot", **fields: Any) -> Garden:
    """Three beds of 3 m, and one of 6 m that asparagus holds."""
    return garden(
        *(bed(f"b{n}", rectangle(3.0, 1.2, center=(0.0, 3.0 * n)), name=f"Bed {n}") for n in range(3)),
        bed("b9", rectangle(6.0, 1.2, center=(0.0, 12.0)), name="Wall bed"),
        planting("p1", "b9", crop="asparagus", year=2024),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        wishes=(Wish(id="w1", year=2027, crop=crop, amount=amount, unit="m2", **fields),),
    )


def why(there: Garden) -> str:
    (words,) = garden_puzzle(Plan(there, 2027, CATALOGUE)).impossible.values()
    return words


def test_a_bed_whose_ground_stays_taken_is_not_the_largest() -> None:
    words = why(wished(7.5, in_part=False))
    assert "the largest, Bed " in words
    assert "Wall bed" not in words
    assert "holds 48 % of it" in words


@pytest.mark.parametrize(
    ("amount", "fields", "never", "divided"),
    [
        (7.5, {"in_part": False}, False, "divided over 3 beds there could be 100 % of it"),
        (20.0, {}, True, "divided over 3 beds there could be 54 % of it"),
        (20.0, {"in_part": False}, False, ""),  # dividing it does not meet all of it
        (100.0, {}, True, ""),
    ],
)
def test_too_large_a_wish_says_what_would_help(
    amount: float, fields: dict[str, Any], never: bool, divided: str
) -> None:
    there = wished(amount, **fields)
    words = why(there)
    assert ("less than a quarter of a wish is never planted" in words) == never
    assert ("divided over" in words) == bool(divided)
    assert divided in words
    *_, last = propose(Plan(there, 2027, CATALOGUE), rounds=1)
    if never:
        assert last.unmet  # and so it is
    if divided:
        helped = there.with_(wishes=(there.wishes[0].with_(parts=3),))
        *_, last = propose(Plan(helped, 2027, CATALOGUE), rounds=1)
        assert not last.unmet
