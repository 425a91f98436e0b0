"""Lack of light: both sides of each threshold, with needs set about the hours measured."""

from __future__ import annotations

import datetime as dt
from typing import Any

from checks.faults import HOT, YEAR, day, made, region, rows
from checks.shade import in_a_yard
from making import bed, planting, rectangle

from planner.checks import check_all, check_light
from planner.checks.frame.planting_view import planting_view
from planner.checks.light_measure import LEAST_DAYS, growing_days, measured
from planner.garden import Garden, Structure
from planner.light import SunHours
from planner.plan import Plan


def sun(garden: Garden) -> SunHours:
    """The light of the one planting."""
    plan = Plan(garden, YEAR)
    view = planting_view(plan, garden.plantings[0])
    days = growing_days(plan, view)
    assert days is not None
    return measured(plan, [(view, days)])["p1"]


def found(garden: Garden) -> list[tuple[str, str]]:
    return [(one.severity, one.text) for one in check_light(Plan(garden, YEAR))]


def test_half_an_hour_less_than_the_need_is_not_reported() -> None:
    hours = sun(in_a_yard(5.0)).hours
    assert hours < 3.9, "all needs stay below those of full sun, which are judged otherwise"
    assert found(in_a_yard(hours + 0.45)) == []
    ((severity, text),) = found(in_a_yard(hours + 0.55))
    assert severity == "note"
    assert f"has {hours:.1f} h of direct sun a day and needs" in text


def test_two_hours_less_than_the_need_make_it_suffer() -> None:
    hours = sun(in_a_yard(5.0)).hours
    assert [severity for severity, _ in found(in_a_yard(hours + 1.95))] == ["note"]
    assert [severity for severity, _ in found(in_a_yard(hours + 2.05))] == ["mind"]


def test_few_days_in_the_lighter_half_of_the_year_are_not_judged() -> None:
    def until(days: int) -> Garden:
        first = day(6, 1)
        return in_a_yard(9.0, first=first, last=first + dt.timedelta(days=days - 1))

    assert found(until(LEAST_DAYS - 1)) == []
    assert len(found(until(LEAST_DAYS))) == 1
    assert LEAST_DAYS == 21


def test_the_share_of_the_days_sun_is_judged_of_what_wants_full_sun() -> None:
    light = sun(in_a_yard(6.0, height=2.5))
    assert light.hours > 6.0
    assert light.weighed / light.unshaded < 0.5
    assert found(in_a_yard(5.9, height=2.5)) == []
    ((_, text),) = found(in_a_yard(6.0, height=2.5))
    assert "of the sun of an open place (it wants 50 % or more)" in text


def test_fruit_wants_a_greater_share_of_the_days_sun() -> None:
    def in_june(need: float) -> Garden:
        return in_a_yard(need, height=2.4, first=day(6, 1), last=day(7, 20))

    light = sun(in_june(8.0))
    assert light.hours > 8.5
    assert 0.5 < light.weighed / light.unshaded < 0.65
    assert found(in_june(7.9)) == []
    ((_, text),) = found(in_june(8.0))
    assert "(it wants 65 % or more)" in text


def test_the_darkest_weeks_are_judged_of_what_grows_for_two_months() -> None:
    def for_days(days: int) -> Garden:
        first = day(7, 20)
        return in_a_yard(6.0, height=1.7, first=first, last=first + dt.timedelta(days=days - 1))

    light = sun(for_days(59))
    assert light.weighed / light.unshaded > 0.5
    assert light.darkest(0.4) < 0.4
    assert found(for_days(59)) == []
    ((_, text),) = found(for_days(60))
    assert "in the darkest weeks 32 % of the sun of an open place" in text


def test_days_outside_the_lighter_half_of_the_year_do_not_count() -> None:
    plan = Plan(in_a_yard(6.0, first=day(2, 1), last=day(11, 1)), YEAR)
    days = growing_days(plan, planting_view(plan, plan.garden.plantings[0]))
    assert days is not None
    assert (days.first, days.last) == (day(3, 21), day(9, 22))


def test_the_gravity_follows_the_hours_that_are_missing() -> None:
    """Melons need 8 h: behind a low wall they lack some low sun, behind one of 4 m most of what they need."""

    def behind(height: float) -> Garden:
        wall = Structure(
            id="s1",
            kind="wall",
            name="wall",
            height=height,
            outline=rectangle(20.0, 0.3, center=(0.0, -1.2)),
        )
        melon = planting(crop="melon", start="raised", first=day(6, 1), arrangement=rows(0.9, 1.2, rows=1))
        return made(bed(), melon, structures=(wall,), climate=HOT)

    assert [found(behind(height)) != [] for height in (0.5, 2.0, 4.0)] == [False, True, True]
    assert [found(behind(height))[0][0] for height in (2.0, 4.0)] == ["note", "stop"]


def test_a_tall_row_on_the_sunny_side_may_change_places_with_the_low_one() -> None:
    """Of two rows along a bed from west to east, the southern takes the sun of the northern."""
    south, north = region(-2.4, -0.6, 4.8, 0.55), region(-2.4, 0.0, 4.8, 0.6)

    def rows_of(beans: dict[str, Any], peppers: dict[str, Any]) -> Garden:
        return made(
            bed(),
            planting(
                "p1",
                crop="climbing_bean",
                start="raised",
                first=day(5, 25),
                plot=beans,
                support={"kind": "net", "height": 2.4},
                arrangement=rows(0.15, rows=1),
            ),
            planting(
                "p2",
                crop="sweet_pepper",
                start="raised",
                first=day(6, 5),
                plot=peppers,
                support={"kind": "stake", "height": 0.8},
                arrangement=rows(0.45, rows=1),
            ),
            climate=HOT,
        )

    garden = rows_of(south, north)
    (one,) = [one for one in check_all(Plan(garden, YEAR)) if one.check == "light"]
    assert one.topic == "takes"
    mend = next(fix for fix in one.fixes if "change places with sweet pepper in b1" in fix.text)
    after = mend.apply(garden)
    assert [one.check for one in check_all(Plan(after, YEAR))] == []
    assert after.plantings_by_id["p1"].plot == garden.plantings_by_id["p2"].plot
    assert [one for one in check_all(Plan(rows_of(north, south), YEAR)) if one.check == "light"] == []
