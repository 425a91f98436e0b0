"""How a yield is spread over the days of picking."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.amounts.picking import AT_THE_END, PEAK, Picking, by_week, picking_of, shape_of, share_by, spread
from planner.crops import load_catalogue
from planner.garden import Planting, Variety
from planner.garden.planting_figures import PlantingFigures
from planner.season.planting_dates import Dated, Dates

D = dt.date
shapes = st.sampled_from(["once", "even", "peaked"])


@given(st.integers(0, 10**7), st.integers(1, 200), shapes)
def test_the_parts_of_a_yield_are_whole_and_add_up(grams, times, shape):
    parts = spread(grams, times, shape)
    assert len(parts) == times
    assert sum(parts) == grams
    assert min(parts) >= 0


@given(st.integers(0, 10**6), st.integers(0, 300), st.integers(0, 300), shapes)
def test_weeks_add_up_to_the_yield(grams, begin, days, shape):
    first = D(2026, 1, 1) + dt.timedelta(begin)
    picking = Picking(first, first + dt.timedelta(days), shape)
    picks = picking.picks(grams)
    assert sum(by_week(picks).values()) == grams
    assert all(picking.first <= pick.day <= picking.last for pick in picks)
    assert all(week.weekday() == 0 for week in by_week(picks))


def test_the_share_that_has_come_is_the_integral_of_a_rise_a_level_and_a_fall():
    # second implementation: the density by points, summed up numerically
    x = np.linspace(0, 1, 200_001)
    begins, ends = PEAK
    density = np.where(
        x < begins, x / begins, np.where(x <= ends, 1.0, 1 - (1 - AT_THE_END) * (x - ends) / (1 - ends))
    )
    whole = np.concatenate([[0.0], np.cumsum((density[1:] + density[:-1]) / 2)])
    whole /= whole[-1]
    for place in (0.0, 0.1, 0.25, 0.4, 0.6, 0.83, 1.0):
        assert share_by(place, "peaked") == pytest.approx(np.interp(place, x, whole), abs=1e-6)


def test_summer_squash_has_its_peak_in_weeks_3_to_5_of_picking():
    # Strickler, Western SARE FW06-042: weekly yield of summer squash, peak in weeks 3-5
    catalogue = load_catalogue()
    assert shape_of(catalogue.crops["courgette"]) == ("peaked", "sare_squash")
    first = D(2026, 7, 6)
    days = round(catalogue.crops["courgette"].number("harvest_days"))
    weeks = list(by_week(Picking(first, first + dt.timedelta(days), "peaked").picks(100_000)).values())
    peak = max(weeks)
    assert [
        number for number, grams in enumerate(weeks, start=1) if grams > 0.9 * peak and number in (3, 4, 5)
    ]
    assert weeks.index(peak) + 1 in (3, 4, 5)
    assert weeks[0] < 0.5 * peak
    assert weeks[-1] < 0.6 * peak


def harvested(key, purpose="kitchen"):
    one = Planting(id="p1", bed="b1", crop=key, year=2026, purpose=purpose)
    dates = Dates(
        start="sown", first_harvest=Dated(D(2026, 8, 1), ""), last_harvest=Dated(D(2026, 9, 30), "")
    )
    return picking_of(one, PlantingFigures(load_catalogue().crops[key], None), dates)


@pytest.mark.parametrize(
    ("key", "shape", "stands"),
    [
        ("potato", "once", False),
        ("onion", "once", False),
        ("sweet_corn", "even", True),
        ("leek", "even", True),
        ("parsnip", "even", True),
        ("kale", "even", False),
        ("lettuce", "even", True),
        ("spinach", "even", False),
        ("tomato", "peaked", False),
        ("dwarf_bean", "peaked", False),
    ],
)
def test_what_ends_a_harvest_says_how_it_comes(key, shape, stands):
    found = harvested(key)
    assert (found.shape, found.stands) == (shape, stands)


@pytest.mark.parametrize("key", ["carrot", "onion", "cabbage", "potato"])
def test_what_is_for_the_store_is_lifted_on_its_last_day(key):
    found = harvested(key, "store")
    assert (found.shape, found.first, found.last) == ("once", D(2026, 9, 30), D(2026, 9, 30))


def test_beans_for_the_store_are_picked_over_as_any():
    assert harvested("dwarf_bean", "store").shape == "peaked"


def test_without_a_day_of_harvest_there_is_no_picking():
    one = Planting(id="p1", bed="b1", crop="carrot", year=2026)
    assert (
        picking_of(one, PlantingFigures(load_catalogue().crops["carrot"], None), Dates(start="sown")) is None
    )


def test_the_days_of_picking_of_a_variety_come_before_those_of_its_crop():
    """A bean picked for 10 days yields all of it in them, though its crop's days go on: nothing is cut off."""
    crop = load_catalogue().crops["dwarf_bean"]
    one = Planting(id="p1", bed="b1", crop="dwarf_bean", variety="Short", year=2026)
    short = Variety(
        id="v1", crop="dwarf_bean", name="Short", figures=({"field": "harvest_days", "value": 10},)
    )
    dates = Dates(
        start="sown", first_harvest=Dated(D(2026, 8, 1), ""), last_harvest=Dated(D(2026, 8, 10), "")
    )
    assert picking_of(one, PlantingFigures(crop, short), dates).share == 1
    assert picking_of(one, PlantingFigures(crop, None), dates).share < 1
