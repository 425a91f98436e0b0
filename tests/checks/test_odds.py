"""Findings in odds against plain counts over the recorded years, and what stays as it is without any."""

from __future__ import annotations

import datetime as dt
import math
from functools import cache

import pytest

from planner.checks import check_all
from planner.checks.frame.finding import Finding
from planner.checks.frame.odds import ENOUGH_YEARS, severity_of
from planner.checks.odds_alone import TOPIC
from planner.garden import Garden
from planner.garden.edits import change_planting, change_weather
from planner.plan import Plan
from planner.season.lived.assumed import Assumed
from planner.season.lived.lived_years import FATES
from tests.recorded_gardens import recorded

YEAR = 2026
BY_YEARS = ("frost", "season", "bolting")


@cache
def red_mesa() -> Plan:
    return Plan(recorded("red_mesa"), YEAR)


@cache
def found_in_red_mesa() -> tuple[Finding, ...]:
    return check_all(red_mesa(), light=False)


def early_tomato(garden: Garden) -> tuple[Garden, str]:
    """A garden whose tomato goes out so early that the usual year speaks against it."""
    key = next(one.id for one in garden.plantings if one.crop == "tomato" and one.year == YEAR)
    return change_planting(garden, key, first=dt.date(YEAR, 4, 20), covers=()), key


def spring_of(plan: Plan, key: str) -> Finding:
    found = check_all(plan, light=False)
    return next(
        one for one in found if (one.check, one.topic) == ("frost", "spring") and one.plantings[0] == key
    )


def frosts(plan: Plan, key: str, until: dt.date) -> int:
    """Years in which frost takes a planting by a day, counted one by one."""
    lived = plan.lived(plan.garden.plantings_by_id[key])
    assert lived is not None
    count = 0
    for fate, day in zip(lived.fate.tolist(), lived.frost.tolist(), strict=True):
        if FATES[fate] == "frost" and not math.isnan(day) and dt.date.fromordinal(int(day)) <= until:
            count += 1
    return count


def test_a_finding_of_the_usual_year_says_in_how_many_years_it_comes_so() -> None:
    garden, key = early_tomato(recorded("red_mesa"))
    plan = Plan(garden, YEAR)
    count = frosts(plan, key, dt.date(YEAR, 6, 22))
    finding = spring_of(plan, key)
    assert count >= 10
    assert f"frost takes it in {count} of 30 years" in finding.text
    assert finding.severity == severity_of(count, 30)


def test_without_recorded_years_the_finding_is_as_it_was() -> None:
    garden, key = early_tomato(recorded("red_mesa"))
    plain = spring_of(Plan(change_weather(garden, years=()), YEAR), key)
    told = spring_of(Plan(garden, YEAR), key)
    assert "years" not in plain.text
    assert told.text.startswith(plain.text)
    assert plain.rule == told.rule


def test_a_garden_without_years_has_no_findings_in_odds() -> None:
    plan = Plan(change_weather(recorded("red_mesa"), years=()), YEAR)
    found = check_all(plan, light=False)
    assert found
    assert all(one.topic != TOPIC and "of 30 years" not in one.text for one in found)


def test_few_years_are_told_and_decide_nothing() -> None:
    garden, key = early_tomato(recorded("red_mesa"))
    few = change_weather(garden, years=garden.weather.years[: ENOUGH_YEARS - 1])
    plain = spring_of(Plan(change_weather(garden, years=()), YEAR), key)
    told = spring_of(Plan(few, YEAR), key)
    assert f"of {ENOUGH_YEARS - 1} years" in told.text
    assert told.severity == plain.severity
    assert all(one.topic != TOPIC for one in check_all(Plan(few, YEAR), light=False))


@pytest.mark.parametrize(
    ("lost", "severity"), [(0, "note"), (5, "note"), (6, "mind"), (14, "mind"), (15, "stop"), (30, "stop")]
)
def test_half_of_the_years_fail_and_one_in_five_suffers(lost: int, severity: str) -> None:
    assert severity_of(lost, 30) == severity


def test_what_only_the_years_tell_is_reported_where_one_in_five_is_lost() -> None:
    plan = red_mesa()
    alone = {
        one.plantings[0]: one for one in found_in_red_mesa() if one.topic == TOPIC and one.check == "frost"
    }
    said = {
        one.plantings[0]
        for one in found_in_red_mesa()
        if one.check == "frost" and one.topic in ("spring", "winter")
    }
    judged = 0
    for planting in plan.plantings:
        dates, odds = plan.dates(planting), plan.odds(planting)
        if planting.year != YEAR or dates.stays_for_years or dates.on_plot is None or odds is None:
            continue
        first = dates.first_harvest
        if dates.start == "standing" or dates.outcome is not None or (first and first.origin == "done"):
            continue
        judged += 1
        midsummer = dt.date(YEAR + (dates.on_plot.day > dt.date(YEAR, 6, 21)), 6, 22)
        lost = frosts(plan, planting.id, midsummer)
        told = lost / odds.years >= 0.2 and planting.id not in said
        assert (planting.id in alone) == told, planting.id
        if told:
            assert f"frost takes it in {lost} of {odds.years} years" in alone[planting.id].text
    assert judged > 30
    assert len(alone) >= 4


def test_a_mend_says_what_it_gains() -> None:
    plan = red_mesa()
    finding = next(
        one
        for one in found_in_red_mesa()
        if one.topic == TOPIC and one.fixes and "later" in one.fixes[0].gain
    )
    fix, key = finding.fixes[0], finding.plantings[0]
    after = plan.what_if(fix.apply(plan.garden))
    planting = after.garden.plantings_by_id[key]
    moved = after.dates(planting).on_plot
    assert moved is not None
    until = dt.date(YEAR, 6, 22)
    before_count, after_count = frosts(plan, key, until), frosts(after, key, until)
    assert after_count < before_count
    assert f"frost in {after_count} of 30 years instead of {before_count}" in fix.gain
    old, new = plan.odds(plan.garden.plantings_by_id[key]), after.odds(planting)
    assert old is not None and new is not None and old.first is not None and new.first is not None  # noqa: PT018
    days = (new.first.middle - old.first.middle).days
    assert days > 0
    assert f"first picking {days} day" in fix.gain


def test_an_assumption_is_marked_in_what_is_said_of_it() -> None:
    garden, key = early_tomato(recorded("red_mesa"))
    warm = Plan(garden, YEAR).assuming(Assumed(warmer=2.0))
    finding = spring_of(warm, key)
    count = frosts(warm, key, dt.date(YEAR, 6, 22))
    assert count < frosts(Plan(garden, YEAR), key, dt.date(YEAR, 6, 22))
    assert f"as if 3.6 °F warmer, frost takes it in {count} of 30 years" in finding.text


def test_a_run_follows_an_assumption_and_recorded_years() -> None:
    plan = red_mesa()
    warm = plan.assuming(Assumed(warmer=2.0))
    cold = check_all(plan, light=False)
    assert [one.text for one in check_all(warm, light=False)] != [one.text for one in cold]
    assert [one.text for one in check_all(warm.assuming(Assumed()), light=False)] == [
        one.text for one in cold
    ]
    bare = plan.after(change_weather(plan.garden, years=()))
    assert all(one.topic != TOPIC for one in check_all(bare, light=False))
