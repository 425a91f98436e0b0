"""Green manures behind what is cleared late: what is offered for bare ground is proposed for a wish, too."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting, rectangle

from planner.checks import check_all
from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Site, Wish
from planner.plan import Plan
from planner.proposal.bare import bare_in_winter
from planner.proposal.garden_puzzle import garden_puzzle
from planner.proposal.greedy import greedy
from planner.proposal.judging import cases_of, objections
from planner.proposal.layouts import plantings_of
from planner.proposal.manure_days import last_sowing

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
)
D = dt.date


def cleared_on(last: dt.date, crop: str, *more: Wish) -> Garden:
    """A bed that is full until a day, and a green manure wished for all of it."""
    return garden(
        bed("b1", outline=rectangle(4, 1.2)),
        planting("p1", "b1", crop="potato", year=2027, last=last),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        wishes=(Wish(id="w1", crop=crop, year=2027, amount=4.0, unit="m2", purpose="green manure"), *more),
    )


@pytest.mark.parametrize("crop", ["winter_rye", "winter_vetch"])
def test_a_winter_green_manure_is_sown_behind_what_is_cleared_after_its_usual_day(crop: str) -> None:
    plan = Plan(cleared_on(D(2027, 9, 20), crop), 2027, CATALOGUE)
    (offered,) = bare_in_winter(plan)
    assert offered.manure is not None  # the bare bed is offered one
    of = garden_puzzle(plan)
    layout = greedy(of.puzzle)
    (new,) = plantings_of(of, layout)
    span = of.offers[layout[0].option].way.span
    assert new.crop == crop
    assert D(2027, 9, 20) < span.first <= D(2027, 10, 27)
    assert span.holds(D(2027, 12, 21))
    assert not objections(of, layout, cases_of(plan))


def test_none_is_sown_when_it_would_not_cover_its_ground_any_more() -> None:
    plan = Plan(cleared_on(D(2027, 11, 1), "winter_rye"), 2027, CATALOGUE)
    of = garden_puzzle(plan)
    assert not greedy(of.puzzle)
    for offer in of.offers:
        latest = last_sowing(plan, offer.way.view)
        assert latest is not None
        assert offer.way.span.first <= latest


def test_the_usual_day_comes_first_where_the_ground_is_free() -> None:
    plan = Plan(cleared_on(D(2027, 7, 31), "winter_rye"), 2027, CATALOGUE)
    of = garden_puzzle(plan)
    (choice,) = greedy(of.puzzle)
    assert of.offers[choice.option].way.number == 0
    assert not [one for one in check_all(plan) if one.severity == "stop"]


def test_bare_in_winter_is_long_ground_in_the_open() -> None:
    def bare(kind: str, size: tuple[float, float], last: dt.date) -> list[tuple[str | None, bool]]:
        there = garden(
            bed("b1", outline=rectangle(*size), kind=kind),
            planting("p1", "b1", crop="potato", year=2027, last=last),
            site=Site(latitude=54.0, longitude=-2.0),
            climate=CLIMATE,
        )
        found = bare_in_winter(Plan(there, 2027, CATALOGUE))
        return [(one.manure.crop.key if one.manure is not None else None, one.in_summer) for one in found]

    ((manure, in_summer),) = bare("open", (4.0, 1.2), D(2027, 9, 10))
    assert manure is not None
    assert not in_summer
    assert bare("open", (0.9, 0.8), D(2027, 9, 10)) == []
    assert bare("under glass", (4.0, 1.2), D(2027, 9, 10)) == []
    ((manure, in_summer),) = bare("open", (4.0, 1.2), D(2027, 7, 10))
    assert in_summer


def test_ground_that_is_planted_in_the_middle_of_winter_is_not_bare() -> None:
    there = garden(
        bed("b1", outline=rectangle(4, 1.2)),
        planting("p1", "b1", crop="garlic", year=2027, first=D(2027, 12, 5)),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
    )
    assert bare_in_winter(Plan(there, 2027, CATALOGUE)) == ()


def test_days_unlike_those_of_the_planting_it_is_like_cost_by_the_week() -> None:
    there = garden(
        bed("b1", outline=rectangle(4, 1.2)),
        planting("p1", "b1", crop="leek", year=2026, first=D(2026, 7, 21), start="raised"),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        wishes=(Wish(id="w1", crop="leek", year=2027, amount=10, unit="plants", like="p1"),),
    )
    of = garden_puzzle(Plan(there, 2027, CATALOGUE))
    ways = {
        offer.way.span.first: option.cost for offer, option in zip(of.offers, of.puzzle.options, strict=True)
    }
    assert len(ways) > 1
    assert min(ways, key=lambda day: ways[day]) == D(2027, 7, 21)
    for day, cost in ways.items():
        weeks = abs((day - D(2027, 7, 21)).days) / 7
        assert cost - ways[D(2027, 7, 21)] >= 8 * weeks
