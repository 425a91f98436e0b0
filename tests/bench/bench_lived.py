"""125 plantings lived through thirty recorded years, from cold and after an edit, against the plain day-by-day loop."""

from __future__ import annotations

import random
import time
import tracemalloc

from bench.figures import Measured, best, ms, percentile
from season.lived.plain_years import DAY, PlainLife, PlainRecord, RecordEndsError
from station_years import BRUSSELS, station_years

from planner import resources
from planner.garden import edits as e
from planner.plan import Plan
from planner.plan.lived import RecordInputs, weather_in, weather_of_record
from planner.season.date_inputs import context_of
from planner.season.growing import covers_of_growth
from planner.season.harvest import needs_as_grown
from planner.season.start_day import Start
from planner.season.weather_years import station_weather
from planner.storage import load

YEAR, PLANTINGS, EDITS, PLAIN = 2026, 125, 60, 12


def plan_with_years() -> Plan:
    """The largest sample, all its plantings of all years, with thirty years of Brussels."""
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    garden = garden.with_(weather=station_years(BRUSSELS.name), plantings=garden.plantings[:PLANTINGS])
    plan = Plan(garden, YEAR)
    for planting in garden.plantings:
        plan.dates(planting)
    return plan


def _all_odds(plan: Plan) -> None:
    for planting in plan.garden.plantings:
        plan.odds(planting)


def _cold(plan: Plan) -> float:
    """Odds of all plantings, their dates worked out before, the weather decoded. [s]"""
    fresh = Plan(plan.garden, YEAR)
    for planting in fresh.garden.plantings:
        fresh.dates(planting)
    weather_in(fresh)
    start = time.process_time()
    _all_odds(fresh)
    return time.process_time() - start


def _edits(plan: Plan) -> list[float]:
    """Time of new plan and odds of all plantings after one of them is moved by some days. [s]"""
    chance, took = random.Random(1), []
    garden = plan.garden
    movable = [
        one for one in garden.plantings if one.first is not None and not plan.dates(one).stays_for_years
    ]
    for _ in range(EDITS):
        planting = garden.plantings_by_id[chance.choice(movable).id]
        assert planting.first is not None
        day = planting.first + DAY * chance.randint(-3, 3)
        try:
            garden = e.change_planting(garden, planting.id, first=day)
        except ValueError:
            continue  # before its other days
        start = time.process_time()
        plan = plan.after(garden)
        _all_odds(plan)
        took.append(time.process_time() - start)
    return took


def _plain(plan: Plan) -> float:
    """The plain loop over some of the plantings, for all of them. [s]"""
    weather = station_weather(plan.garden.weather)
    assert weather is not None
    days = {
        weather.first + DAY * at: (float(low), float(high))
        for at, (low, high) in enumerate(zip(weather.low, weather.high, strict=True))
    }
    record = PlainRecord(days, BRUSSELS.latitude)
    chosen = [
        one
        for one in plan.garden.plantings
        if not plan.dates(one).stays_for_years and one.purpose not in ("seed", "green manure")
    ][::PLAIN]
    start = time.process_time()
    for planting in chosen:
        dates, context = plan.dates(planting), context_of(plan.date_inputs(planting))
        assert dates.on_plot is not None
        needs = needs_as_grown(context, Start(dates.sow, dates.set_out, dates.on_plot, ()))
        sort, need = needs if needs is not None else (None, None)
        covers = covers_of_growth(context, dates.on_plot.day)
        for year in range(weather.first.year, weather.last.year + 1):
            try:
                PlainLife(record, context, dates, need, sort, covers, year - planting.year).live()
            except RecordEndsError:
                continue
    return (time.process_time() - start) / len(chosen) * len(plan.garden.plantings)


def measure() -> list[Measured]:
    """The lines of this bench."""
    plan = plan_with_years()
    site = plan.garden.site
    inputs = RecordInputs(plan.garden.weather, site.elevation, site.latitude, site.year_begins)
    decode = best(lambda: weather_of_record(inputs))
    cold = min(_cold(plan) for _ in range(7))
    plain = _plain(plan)
    _all_odds(plan)
    edit = percentile(_edits(plan), 0.95)
    tracemalloc.start()
    _cold(plan)
    memory = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    return [
        Measured("years of weather decoded, 30", ms(decode), "", "", "", True),
        Measured(
            f"odds of {PLANTINGS} plantings in 30 years",
            ms(cold),
            ms(plain),
            f"{plain / cold:.0f}",
            "100 ms",
            cold <= 0.1,
        ),
        Measured("odds after an edit, 95 %", ms(edit), "", "", "16 ms", edit <= 0.016),
        Measured("odds: memory at most", f"{memory:.0f} MB", "", "", "200 MB", memory <= 200),
    ]
