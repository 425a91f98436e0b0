"""A planting on other days, as other sorts and under other shelter: against the plan itself and against every choice."""

from __future__ import annotations

import datetime as dt
import functools
import itertools

import numpy as np
import pytest

from planner import resources
from planner.garden import Garden, Planting
from planner.garden.edits import change_planting, change_weather
from planner.garden.edits.shifts import started_on
from planner.plan import Plan
from planner.plan.lived_otherwise import compared_shelters, compared_sorts, day_curve
from planner.season.lived.even_series import even_series, picked_days
from planner.season.lived.lived_years import Lived
from planner.season.lived.odds import odds_of
from planner.season.lived.other_days import TriedDay, best_day, days_to_try
from planner.season.lived.planned_sort import planned_days
from planner.season.weather_years import years_of
from planner.storage import load
from tests.invented_weather import invented

YEAR = 2026


@functools.cache
def _garden() -> Garden:
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    return change_weather(garden, years=years_of(invented("hollow_lane")), elevation=garden.site.elevation)


@functools.cache
def _plan() -> Plan:
    return Plan(_garden(), YEAR)


def _one(crop: str) -> Planting:
    return next(one for one in _plan().plantings if one.crop == crop)


@pytest.mark.parametrize("crop", ["courgette", "potato", "beetroot", "mizuna"])
def test_the_planned_day_has_the_odds_of_the_plan(crop: str) -> None:
    planting = _one(crop)
    curve = day_curve(_plan(), planting)
    assert curve is not None
    assert curve.planned is not None
    assert curve.planned.odds == _plan().odds(planting)
    assert curve.planned.day == _plan().span_of(planting).first


@pytest.mark.parametrize("crop", ["beetroot", "mizuna"])
def test_a_tried_day_has_the_odds_of_a_garden_that_is_planted_then(crop: str) -> None:
    """Where the plan takes the usual sort on every day, a day of the curve is the garden itself with that day."""
    planting, plan = _one(crop), _plan()
    curve = day_curve(plan, planting)
    assert curve is not None
    planned = plan.span_of(planting).first
    same = 0
    for one in curve.tried[::5]:
        fields = started_on(planting, one.day, (one.day - planned).days)
        moved = Plan(change_planting(_garden(), planting.id, **fields), YEAR)
        there = moved.garden.plantings_by_id[planting.id]
        sorts = {planned_days(each.date_inputs(at)) for each, at in ((plan, planting), (moved, there))}
        if len(sorts) == 1 and moved.odds(there) is not None:
            assert one.odds == moved.odds(there), one.day
            same += 1
    assert same >= 3


def test_frost_takes_less_of_what_is_set_out_later() -> None:
    curve = day_curve(_plan(), _one("courgette"))
    assert curve is not None
    frost = [one.odds.frost for one in curve.tried if one.day <= dt.date(YEAR, 6, 15)]
    assert frost[0] > 20
    assert frost[-1] <= 1
    assert all(before + 1 >= after for before, after in itertools.pairwise(frost))


def test_days_lie_around_the_planned_one_which_is_among_them() -> None:
    planting = _one("beetroot")
    inputs, planned = _plan().date_inputs(planting), _plan().span_of(planting).first
    days = days_to_try(inputs, planned)
    assert planned in days
    assert {(b - a).days for a, b in itertools.pairwise(days)} == {3}


def test_an_early_sort_is_picked_before_the_usual_and_that_before_a_late_one() -> None:
    ways = {one.way: one for one in compared_sorts(_plan(), _one("potato"))}
    assert sum(one.as_planned for one in ways.values()) == 1
    firsts = [ways[sort].odds.first for sort in ("early", "usual", "late")]
    middles = [first.middle for first in firsts if first is not None]
    assert len(middles) == 3
    assert middles == sorted(middles)


def test_shelter_is_compared_with_the_plan_itself_among_it() -> None:
    planting = _one("courgette")
    ways = {one.way: one for one in compared_shelters(_plan(), planting)}
    planned = [one for one in ways.values() if one.as_planned]
    assert [one.odds for one in planned] == [_plan().odds(planting)]
    assert ways["tunnel"].odds.frost <= ways["open"].odds.frost


def _made(first: list[float], length: list[float], lost: list[bool] | None = None) -> TriedDay:
    years = np.arange(2000, 2000 + len(first))
    gone = np.array(lost if lost is not None else [False] * len(first))
    begins = np.where(gone, np.nan, np.array(first))
    ends = begins + np.array(length) - 1
    none = np.full(len(first), np.nan)
    fate = np.where(gone, 1, 0).astype(np.int8)
    start = np.full(len(first), 1.0)
    lived = Lived(
        "heat",
        years,
        (),
        fate,
        start,
        none.copy(),
        none.copy(),
        none.copy(),
        none.copy(),
        begins,
        ends,
        ends.copy(),
    )
    return TriedDay(dt.date.fromordinal(1), lived, odds_of(lived))


@pytest.mark.parametrize("seed", range(30))
def test_a_series_covers_as_much_as_the_best_of_all_choices(seed: int) -> None:
    """Brute force over every choice, for pickings that come later the later is sown."""
    random = np.random.default_rng(seed)
    days, years = 8, 5
    begins = 700_000 + np.cumsum(random.integers(0, 12, (days, years)), axis=0)
    ends = np.maximum.accumulate(begins + random.integers(3, 15, (days, years)), axis=0)
    tried = [
        _made(list(b), list(e - b))._replace(day=dt.date.fromordinal(690_000 + at))
        for at, (b, e) in enumerate(zip(begins, ends, strict=True))
    ]
    for number in (1, 2, 3, 4):
        found = even_series(tried, number)
        assert found is not None
        best = max(
            _covered(begins[list(each)], ends[list(each)])
            for each in itertools.combinations(range(days), number)
        )
        assert found.picked_days.mean() == pytest.approx(best)


def _covered(begins: np.ndarray, ends: np.ndarray) -> float:
    """Days that are picked, counted one by one, on the mean of the years."""
    total = 0
    for year in range(begins.shape[1]):
        days: set[int] = set()
        for b, e in zip(begins[:, year], ends[:, year], strict=True):
            days |= set(range(int(b), int(e)))
        total += len(days)
    return total / begins.shape[1]


def test_picked_days_count_gaps_and_what_is_inside_another() -> None:
    begins = np.array([[10.0, 0.0], [12.0, 0.0], [30.0, 5.0]])
    ends = np.array([[20.0, 0.0], [15.0, 0.0], [31.0, 9.0]])
    assert picked_days(begins, ends).tolist() == [11.0, 4.0]


def test_the_best_day_loses_least_then_is_picked_longest_then_is_near_the_plan() -> None:
    day = dt.date(2026, 5, 1)
    lost = _made([1000.0] * 10, [30.0] * 10, [True] * 4 + [False] * 6)._replace(day=day)
    short = _made([1000.0] * 10, [10.0] * 10)._replace(day=day + dt.timedelta(days=3))
    long = _made([1000.0] * 10, [30.0] * 10)._replace(day=day + dt.timedelta(days=9))
    same = _made([1000.0] * 10, [30.0] * 10)._replace(day=day + dt.timedelta(days=6))
    tried = [lost, short, same, long]
    assert best_day(tried, day) is same
    assert best_day(tried, long.day) is long
    assert best_day(tried, day, enough=10.0) is short
    assert best_day([lost._replace(odds=odds_of(_made([1.0], [1.0], [True]).lived))], day) is None
