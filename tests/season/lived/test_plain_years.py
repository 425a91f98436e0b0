"""The engine beside the plain day-by-day loop of ``plain_years.py``, on open daily records of both halves of the earth.

PYTHONPATH=.:tests .venv/bin/python tests/season/lived/test_plain_years.py   # all plantings, all years
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import numpy as np
import pytest
from season.lived.plain_years import DAY, Found, PlainLife, PlainRecord, RecordEndsError
from station_years import BRUSSELS, CHAMPION, CORDOBA, Station, station_years

from planner import resources
from planner.plan import Plan
from planner.season.date_inputs import context_of
from planner.season.growing import covers_of_growth
from planner.season.harvest import needs_as_grown
from planner.season.lived.lived_years import FATES
from planner.season.spans import usual_year
from planner.season.start_day import Start
from planner.season.weather_years import station_weather
from planner.storage import load

#: A garden, the station whose years it lives through, of how many plantings one is held against the loop, and of how many years.
CASES = (
    ("balcony_boxes", BRUSSELS, 1, 3),
    ("hollow_lane", BRUSSELS, 4, 7),
    ("red_mesa", CHAMPION, 4, 7),
    ("wattle_bank", CORDOBA, 3, 7),
)


def plan_at(garden_name: str, station: Station) -> Plan:
    """A sample garden at a station, with its recorded years."""
    garden = load(resources.sample_folder() / f"{garden_name}.bedwright")
    site = garden.site.with_(elevation=None, latitude=station.latitude)
    garden = garden.with_(weather=station_years(station.name), site=site)
    return Plan(garden, usual_year(garden, dt.date(2026, 1, 1)))


def differences(garden_name: str, station: Station, of_plantings: int, of_years: int) -> Iterator[str]:
    """What the two say differently of each planting and year; the last text tells how many were held."""
    plan = plan_at(garden_name, station)
    weather = station_weather(plan.garden.weather)
    assert weather is not None
    days = {
        weather.first + DAY * at: (float(low), float(high))
        for at, (low, high) in enumerate(zip(weather.low, weather.high, strict=True))
    }
    record, held = PlainRecord(days, station.latitude), 0
    first = weather.first.year + (plan.garden.site.year_begins > 1 and weather.first.month > 1)
    for number, planting in enumerate(plan.garden.plantings):
        dates = plan.dates(planting)
        if number % of_plantings or dates.stays_for_years or dates.on_plot is None:
            continue
        if planting.purpose in ("seed", "green manure"):
            continue
        context = context_of(plan.date_inputs(planting))
        needs = needs_as_grown(context, Start(dates.sow, dates.set_out, dates.on_plot, ()))
        sort, need = needs if needs is not None else (None, None)
        covers = covers_of_growth(context, dates.on_plot.day)
        lived = plan.lived(planting)
        assert lived is not None
        for year in range(first + number % of_years, weather.last.year + 1, of_years):
            life = PlainLife(record, context, dates, need, sort, covers, year - planting.year)
            try:
                plain = life.live()
            except RecordEndsError:
                plain = None
            held += 1
            at = np.flatnonzero(lived.years == year)
            found = None
            if len(at):
                from_start = {
                    name: getattr(lived, name)[at[0]] - dates.on_plot.day.toordinal()
                    for name in Found._fields[1:]
                }
                told = {
                    name: None if np.isnan(by) else life.on + DAY * int(by) for name, by in from_start.items()
                }
                found = Found(FATES[lived.fate[at[0]]], **told)
            if plain != found:
                yield f"{planting.id} {planting.crop} {year}: the loop has {plain}, the engine {found}"
    yield f"{held}"


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0]} {case[1].name}")
def test_the_engine_says_what_the_plain_loop_says(case: tuple[str, Station, int, int]) -> None:
    *wrong, held = differences(*case)
    assert wrong == []
    assert int(held) >= 60


if __name__ == "__main__":
    for garden_name, station, *_ in CASES:
        *wrong, held = differences(garden_name, station, 1, 1)
        print(garden_name, station.name, "years of plantings:", held, "differences:", len(wrong))
        print("\n".join(wrong[:20]))
