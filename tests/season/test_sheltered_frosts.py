"""Frosts under a roof or a cover come later in autumn and end sooner in spring."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import FROSTS_ALONE, ZONE_5, D, context_at, steady
from making import crop

from planner.crops.cover_effects import effect, sheltered_by
from planner.garden import Climate, FrostDates
from planner.season.sheltered_frosts import (
    LONGEST,
    covers_at_start,
    first_frost_there,
    frost_held_off,
    last_frost_there,
)
from planner.season.temperatures import by_day, day_of_year_index

DAY = dt.timedelta(days=1)
AUTUMN, SPRING = D(2026, 10, 4), D(2026, 4, 29)
ONE = crop("one", hardiness="tender", days_to_maturity=60)


def place(climate: Climate = ZONE_5, under_glass: bool = False, latitude: float = 42.0, **fields):
    return context_at(ONE, climate, latitude, under_glass=under_glass, **fields)


def minimum(day: dt.date) -> float:
    return float(by_day(ZONE_5.monthly_minimum)[day_of_year_index(day)])


def test_in_the_open_frost_comes_when_it_comes():
    assert (first_frost_there(place(), AUTUMN), last_frost_there(place(), SPRING)) == (AUTUMN, SPRING)
    assert frost_held_off(place()) == 0.0


@pytest.mark.parametrize("covers", [("fleece",), ("cloche",), ("low tunnel",), ("fleece", "low tunnel")])
def test_it_comes_when_the_mean_minimum_has_fallen_by_what_is_held_off(covers):
    """Day by day, by hand; the covers' degrees are those of their file."""
    held = sum(effect(kind).frost_gain for kind in covers)
    assert frost_held_off(place(), covers) == pytest.approx(held)
    later = next(AUTUMN + i * DAY for i in range(200) if minimum(AUTUMN + i * DAY) <= minimum(AUTUMN) - held)
    sooner = next(SPRING - i * DAY for i in range(200) if minimum(SPRING - i * DAY) <= minimum(SPRING) - held)
    assert first_frost_there(place(), AUTUMN, covers) == later
    assert abs(last_frost_there(place(), SPRING, covers) - sooner) <= DAY


def test_glass_holds_off_more_with_a_cover_within():
    glass, both = (place(under_glass=True) for _ in range(2))
    assert AUTUMN < first_frost_there(glass, AUTUMN) < first_frost_there(both, AUTUMN, ("fleece",))
    assert frost_held_off(both, ("fleece",)) == sheltered_by(("glasshouse", "fleece")).frost_gain


def test_in_steady_weather_a_shelter_helps_for_so_long_at_most():
    steadily = place(steady(14.0, 24.0), under_glass=True)
    assert first_frost_there(steadily, AUTUMN) == AUTUMN + LONGEST * DAY
    assert last_frost_there(steadily, SPRING) == SPRING - LONGEST * DAY


def test_where_autumn_is_long_a_shelter_gives_more_days():
    """Minima that fall slowly by the sea, and fast far from it."""
    by_the_sea = ZONE_5.with_(monthly_minimum=(1, 1, 2, 4, 7, 10, 12, 12, 10, 7, 4, 2), monthly_maximum=(7, 7, 9, 12, 15, 18, 20, 20, 17, 14, 10, 8))  # fmt: skip
    sea, inland = (
        first_frost_there(place(climate, under_glass=True), AUTUMN) - AUTUMN
        for climate in (by_the_sea, ZONE_5)
    )
    assert sea > 1.5 * inland


def test_in_the_south_autumn_is_in_april():
    south = Climate(
        last_frost=FrostDates(risk_10="10-30", risk_50="10-20", risk_90="10-10"),
        first_frost=FrostDates(risk_10="04-01", risk_50="04-10", risk_90="04-20"),
        monthly_minimum=(*ZONE_5.monthly_minimum[6:], *ZONE_5.monthly_minimum[:6]),
        monthly_maximum=(*ZONE_5.monthly_maximum[6:], *ZONE_5.monthly_maximum[:6]),
    )
    there = place(south, under_glass=True, latitude=-42.0)
    assert D(2027, 4, 10) < first_frost_there(there, D(2027, 4, 10)) < D(2027, 6, 1)
    assert D(2026, 8, 25) < last_frost_there(there, D(2026, 10, 20)) < D(2026, 10, 20)


def test_covers_that_warm_and_lie_from_the_start_count_for_it():
    covers = ({"kind": "fleece"}, {"kind": "netting"}, {"kind": "cloche", "first": D(2026, 6, 1)})
    assert covers_at_start(place(covers=covers)) == ("fleece",)


def test_without_temperatures_nothing_is_moved():
    nothing = place(FROSTS_ALONE.with_(last_frost=None), under_glass=True)
    assert first_frost_there(nothing, AUTUMN) == AUTUMN
