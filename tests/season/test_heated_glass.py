"""Frosts under a roof or a cover, and in heated glass."""

from __future__ import annotations

import datetime as dt

import pytest
from calendar_cases import read_places
from making import bed, catalogue_of, garden, planting

from planner.crops import load_catalogue
from planner.crops.cover_effects import effect
from planner.plan import Plan
from planner.season.date_inputs import DateContext, context_of
from planner.season.sheltered_frosts import first_frost_there, frost_held_off, last_frost_there
from planner.season.temperatures import day_of_year_index

D = dt.date
SHELF = load_catalogue()
PLACES = sorted(read_places())


def context(place: str, ground=None, **fields) -> DateContext:
    site, climate = read_places()[place]
    one = planting(crop="tomato", start="raised", year=2026, **fields)
    plan = Plan(garden(ground or bed(), one, site=site, climate=climate), 2026, SHELF)
    return context_of(plan._date_inputs(plan._facts_of(one)))


@pytest.mark.parametrize("place", PLACES)
def test_a_frost_moves_to_the_day_whose_minimum_is_as_much_lower(place):
    inside = context(place, bed(kind="under glass"))
    assert frost_held_off(inside) == effect("glasshouse").frost_gain > 0
    low = inside.outside.low
    for frost, there, forward in (
        (inside.frosts.first, first_frost_there(inside, inside.frosts.first), True),
        (inside.frosts.last, last_frost_there(inside, inside.frosts.last), False),
    ):
        wanted = low[day_of_year_index(frost)] - frost_held_off(inside)
        assert (there > frost) if forward else (there < frost)
        if abs((there - frost).days) < 120:
            inward = there - dt.timedelta(days=1 if forward else -1)
            assert low[day_of_year_index(there)] <= wanted < low[day_of_year_index(inward)]


def test_in_the_open_frosts_are_those_of_the_open():
    out = context("Kent")
    assert frost_held_off(out) == 0
    assert first_frost_there(out, out.frosts.first) == out.frosts.first
    assert last_frost_there(out, out.frosts.last) == out.frosts.last


def test_no_frost_comes_where_it_is_heated():
    warm = context("Hamburg", bed(kind="under glass", kept_above=5.0))
    assert (first_frost_there(warm, warm.frosts.first) - warm.frosts.first).days == 120


def test_heating_warms_glass_alone():
    heated, cold, out = (
        context("Kent", bed(**fields)).weather
        for fields in (
            {"kind": "under glass", "kept_above": 10.0},
            {"kind": "under glass"},
            {"kind": "open", "kept_above": 10.0},
        )
    )
    assert heated.low.min() == 10.0 > cold.low.min()
    assert out.low.min() < 10.0
    assert (heated.low >= cold.low).all()
    assert (heated.high >= cold.high).all()


def test_tomatoes_in_heated_glass_start_and_ripen_sooner():
    site, climate = read_places()["Kent"]
    found = []
    for fields in ({}, {"kind": "under glass"}, {"kind": "under glass", "kept_above": 12.0}):
        one = planting(crop="tomato", start="raised", year=2026)
        place = garden(bed(**fields), one, site=site, climate=climate)
        dates = Plan(place, 2026, catalogue_of(SHELF.crops["tomato"])).dates(one)
        found.append((dates.on_plot.day, dates.first_harvest.day))
    assert found == sorted(found, reverse=True)
    assert len(set(found)) == 3
