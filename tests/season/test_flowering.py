"""When crops that must be pollinated flower."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import D, dates, day, ripe_in
from making import catalogue_of, crop

from planner.season.planting_dates import Dates

DAY = dt.timedelta(days=1)
FLOWERS = {"needs_pollination": {"value": True, "source": "practice"}}


def flowering(key: str, days: int, **fields) -> Dates:
    one = crop(key, set_out_from=0, harvest_days=10, maturity_from="setting out", **ripe_in(days), **FLOWERS)
    return dates(key, shelf=catalogue_of(one), start="bought", first=D(2026, 5, 1), **fields)


def test_a_fruiting_crop_flowers_half_way_to_its_harvest():
    assert day(flowering("melon", 80).flower) == D(2026, 5, 1) + 40 * DAY


@pytest.mark.parametrize(("days", "flower"), [(60, 50), (21, 11), (20, 10), (16, 8)])
def test_fruit_picked_young_is_picked_ten_days_after_its_flower(days, flower):
    assert day(flowering("courgette", days).flower) == D(2026, 5, 1) + flower * DAY


def test_a_perennial_flowers_four_weeks_before_its_harvest(catalogue):
    found = dates("strawberry", shelf=catalogue, start="standing", first=D(2024, 4, 1))
    assert found.first_harvest is not None
    assert day(found.flower) == found.first_harvest.day - 28 * DAY


def test_crops_without_need_of_insects_have_no_flowering_day():
    assert dates("hardy").flower is None
