"""The water balance of 125 plantings through thirty recorded years against the plain day-by-day loop, and the water of a garden."""

from __future__ import annotations

import time

from bench.figures import Measured, best, ms, percentile
from invented_weather import invented
from season.test_water_balance import plain_loop, random_case

from planner import resources
from planner.garden import edits as e
from planner.garden.weather_years import WeatherYears
from planner.plan import Plan
from planner.plan.water import garden_water
from planner.season.water.balance import need_by_day, water_balance
from planner.season.weather_years import years_of
from planner.storage import load

DAYS, PLANTINGS, YEARS, PLAIN, EDITS = 365, 125, 30, 12, 30


def _plan() -> Plan:
    """The largest sample with thirty invented years and drip lines; dates and places worked out."""
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    return Plan(garden.with_(weather=WeatherYears(years=years_of(invented("hollow_lane")))), 2026)


def _garden() -> tuple[float, list[float], int]:
    """Water of the garden with dates and places known, after edits of one planting, and how many plantings it has. [s]"""
    plan = _plan()
    for planting in plan.plantings:
        plan.dates(planting)
        plan.placed(planting)
    start = time.process_time()
    water = garden_water(plan)
    cold = time.process_time() - start
    assert water is not None
    count = sum(len(one.plantings) for one in water.beds)
    took = []
    movable = [one for one in plan.plantings if one.first is not None][:EDITS]
    for planting in movable:
        assert planting.first is not None
        try:
            garden = e.change_planting(plan.garden, planting.id, first=planting.first.replace(day=15))
        except ValueError:
            continue
        after = plan.after(garden)
        after.dates(after.garden.plantings_by_id[planting.id])
        start = time.process_time()
        garden_water(after)
        took.append(time.process_time() - start)
    return cold, took, count


def measure() -> list[Measured]:
    """The balance, the loop, and a garden."""
    ground, reference, rain = random_case(5, DAYS, PLANTINGS, YEARS)
    balance = best(lambda: water_balance(ground, reference, rain), 3)
    found = water_balance(ground, reference, rain)
    need = best(lambda: need_by_day(found, ground.growing), 3)
    start = time.process_time()
    for number in range(PLAIN):
        plain_loop(ground, reference, rain, number, number % YEARS)
    plain = (time.process_time() - start) / PLAIN * PLANTINGS * YEARS
    cold, edited, count = _garden()
    edit = percentile(edited, 0.95)
    return [
        Measured(
            f"balance of {PLANTINGS} plantings, {YEARS} years",
            ms(balance),
            f"{ms(plain)}, day by day",
            f"{plain / balance:.0f}",
            "20 times faster",
            plain >= 20 * balance,
        ),
        Measured("watering laid onto its days, the same", ms(need), "", "", "", True),
        Measured(f"water of a garden, {count} plantings, {YEARS} years", ms(cold), "", "", "", True),
        Measured(
            "water of a garden after an edit",
            ms(edit),
            f"{ms(cold)}, all of it",
            f"{cold / edit:.0f}",
            "100 ms",
            edit <= 0.1,
        ),
    ]
