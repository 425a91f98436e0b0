"""Ground that lies bare in summer, against days and steps tried one by one, and what could go in, judged by the checks."""

from __future__ import annotations

import datetime as dt
from random import Random
from typing import Any

import pytest
from making import bed, garden, planting, rectangle

from planner.checks import check_all
from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Site, Stretch, Structure
from planner.garden.edits.common import put
from planner.listings.filling import bare_lines_of_year, bare_summer_lines
from planner.plan import Plan
from planner.proposal.bare_summer import LEAST_DAYS, LEAST_LENGTH, bare_in_summer, largest_free
from planner.proposal.costs import summer_and_winter
from planner.proposal.strips import strips_of, taken_in
from planner.season.spans import Span

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
TUNNEL = Structure(id="s1", kind="tunnel", name="tunnel", height=2.2, outline=rectangle(6.0, 3.0))


def made(*things: Any, latitude: float = 54.0, **fields: Any) -> Garden:
    return garden(*things, site=Site(latitude=latitude, longitude=-2.0), climate=CLIMATE, **fields)


def plan_of(there: Garden, year: int = 2027) -> Plan:
    return Plan(there, year, CATALOGUE)


def in_the_tunnel(*plantings: Any) -> Garden:
    return made(
        bed("b1", rectangle(4.0, 1.2), name="Glass", kind="under glass"), *plantings, structures=(TUNNEL,)
    )


@pytest.mark.parametrize("seed", range(12))
def test_the_largest_stretch_is_that_of_all_tried(seed: int) -> None:
    chance = Random(seed)
    plantings = []
    for number in range(chance.randint(0, 4)):
        start, length = chance.randint(0, 15) / 10, chance.randint(3, 9) / 10
        first = dt.date(2027, 3, 1) + dt.timedelta(days=chance.randint(0, 180))
        plantings.append(
            planting(
                f"p{number}",
                "b1",
                crop="lettuce",
                year=2027,
                start="raised",
                plot=Stretch(start=start, end=start + length),
                first=first,
                last=first + dt.timedelta(days=chance.randint(20, 90)),
            )
        )
    plan = plan_of(made(bed("b1", rectangle(2.4, 1.2)), *plantings))
    (strip,) = strips_of(plan, plan.beds)
    taken, season = taken_in(plan, strip), summer_and_winter(plan)[0]
    best = 0
    days = [season.first + dt.timedelta(days=n) for n in range((season.last - season.first).days + 1)]
    free = {
        (step, day)
        for step in range(strip.length)
        for day in days
        if not any(t.start <= step < t.end and t.first <= day <= t.last for t in taken)
    }
    for start in range(strip.length):
        for end in range(start + round(LEAST_LENGTH * 10), strip.length + 1):
            run = 0
            for day in days:
                run = run + 1 if all((step, day) in free for step in range(start, end)) else 0
                if run >= LEAST_DAYS:
                    best = max(best, run * (end - start))
    found = largest_free(strip, taken, season)
    if found is None:
        assert best == 0
        return
    start, end, span = found
    assert (end - start) * span.days == best
    assert all(
        (step, span.first + dt.timedelta(days=n)) in free
        for step in range(start, end)
        for n in range(span.days)
    )


def test_a_tunnel_that_is_empty_from_may_to_september_is_told_with_what_would_like_the_warmth() -> None:
    there = in_the_tunnel(
        planting(
            "p1", "b1", crop="spinach", year=2026, first=dt.date(2026, 10, 10), last=dt.date(2027, 4, 10)
        ),
        planting("p2", "b1", crop="corn_salad", year=2027, first=dt.date(2027, 10, 10)),
        planting(
            "p3", "b1", crop="cucumber", year=2024, first=dt.date(2024, 5, 20), last=dt.date(2024, 9, 10)
        ),
    )
    plan = plan_of(there)
    (one,) = bare_in_summer(plan)
    assert one.roofed
    assert one.free == Span(dt.date(2027, 5, 1), dt.date(2027, 9, 30))
    assert (one.start, one.end) == (0.0, 4.0)
    assert one.offers[0].crop.key == "cucumber"
    (head, line) = bare_summer_lines(plan, [one])
    assert head == "Bare in summer"
    assert line.startswith("  Glass, 0.00 m to 4.00 m, 1 May to 30 Sep: warm ground; could take cucumber (")
    for each in one.offers:
        after = plan_of(put(there, plantings=(*there.plantings, each.planting.with_(id="p9"))))
        assert not [f.text for f in check_all(after) if "p9" in f.plantings and f.severity == "stop"]


def test_ground_that_is_planted_all_summer_is_not_told() -> None:
    there = in_the_tunnel(
        planting("p1", "b1", crop="tomato", year=2027, first=dt.date(2027, 5, 20), last=dt.date(2027, 10, 10))
    )
    assert not bare_in_summer(plan_of(there))
    assert not bare_summer_lines(plan_of(there), ())


def test_warm_ground_comes_first_and_winter_follows() -> None:
    beds = [bed("b0", rectangle(3.0, 1.2, center=(0.0, 9.0)), name="Open"), *in_the_tunnel().beds]
    there = made(*beds, structures=(TUNNEL,))
    plan = plan_of(there)
    assert [one.bed.name for one in bare_in_summer(plan)] == ["Glass", "Open"]
    lines = bare_lines_of_year(plan, plan.beds)
    assert [line for line in lines if not line.startswith(" ")] == [
        "Bare in summer",
        "Bare in winter, and in summer too",
    ]


def test_in_the_south_summer_is_half_a_year_later() -> None:
    there = made(bed("b1", rectangle(3.0, 1.2)), latitude=-41.0)
    plan = plan_of(there)
    (one,) = bare_in_summer(plan)
    assert (one.free.first.month, one.free.last.month) == (11, 3)
    assert one.free.first >= plan.span.first
