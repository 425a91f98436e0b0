"""What ends a harvest: its weeks, frost, cold, the dark, running to seed, spring."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from calendar_cases import read_places
from dated_plantings import CLIMATE, D, context_at, dates, steady
from making import catalogue_of, crop

from planner.crops import load_catalogue
from planner.garden import Climate, Site
from planner.season.harvest_end import AT_REST, LONGER_IN_THE_COOL, NO_MORE_LEAVES, mode_of, pace
from planner.season.planting_dates import Dates
from planner.season.temperatures import by_day, day_of_year_index
from planner.sun import day_lengths

DAY = dt.timedelta(days=1)
SITE = Site(latitude=45)
#: Every day 14 to 24 degrees: 9 degree-days over 10. [deg C]
WARM = steady(14.0, 24.0)
#: A year of northern Europe, whose winter stops growth. [deg C]
NORTH = CLIMATE.with_(
    zone="7b",
    monthly_minimum=(-2, -2, 0, 4, 8, 11, 13, 13, 10, 6, 2, -1),
    monthly_maximum=(4, 5, 9, 14, 19, 22, 24, 24, 20, 14, 8, 5),
)
NEVER_DARK = {"slows_in_short_days": {"value": False, "source": "practice"}}
COOL = {"base_temperature": 4, "best_temperature": 20, "ceiling_temperature": 35}
OVER_TEN = {"base_temperature": 10, "best_temperature": 35, "ceiling_temperature": 45}


def harvest(
    climate: Climate, first: dt.date, ends: str, start: str = "sown", site: Site = SITE, **figures
) -> Dates:
    one = crop(
        "one", **{"days_to_maturity": 60, "heat_to_harvest": 540, "harvest_ends": ends, **OVER_TEN, **figures}
    )
    return dates("one", climate, catalogue_of(one), site=site, start=start, first=first)


def span(found: Dates) -> int:
    """Days of harvest, both ends included."""
    assert found.first_harvest is not None
    assert found.last_harvest is not None
    return (found.last_harvest.day - found.first_harvest.day).days + 1


# -- weeks ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("ends", ["at once", "dies back"])
def test_what_is_ripe_together_is_over_after_its_days(ends):
    for climate in (WARM, steady(8.0, 18.0)):
        assert span(harvest(climate, D(2026, 5, 10), ends, harvest_days=12, hardiness="very hardy")) == 12


def test_what_is_picked_over_is_picked_longer_in_the_cool():
    """540 degree-days in 60 days are 9 a day: 20 more days are 180, which take 22 at 8 a day and 36 at 5."""
    tender = {"hardiness": "tender", "harvest_days": 21}
    assert span(harvest(WARM, D(2026, 5, 10), "after weeks", **tender)) == 21
    assert span(harvest(steady(16.0, 26.0), D(2026, 5, 10), "after weeks", **tender)) == 21, "never fewer"
    assert span(harvest(steady(13.0, 23.0), D(2026, 5, 10), "after weeks", **tender)) == 24
    cool = harvest(steady(10.0, 20.0), D(2026, 5, 10), "after weeks", **tender)
    assert span(cool) == 37
    assert cool.last_harvest.why == "21 days of harvest, longer in the cool"


def test_not_longer_than_twice_its_weeks():
    found = harvest(steady(6.0, 17.0), D(2026, 4, 1), "after weeks", hardiness="very hardy", harvest_days=21, heat_to_harvest=270, **NEVER_DARK)  # fmt: skip
    assert LONGER_IN_THE_COOL == 2.0
    assert span(found) <= 2 * 21 + 1


def test_the_planting_is_cleared_when_its_harvest_is_over():
    found = harvest(WARM, D(2026, 5, 10), "after weeks", hardiness="tender", harvest_days=21)
    assert found.clear.day == found.last_harvest.day


# -- frost, cold and the dark ---------------------------------------------------------------------


def test_what_bears_until_frost_is_picked_to_the_eve_of_it_however_many_days_are_usual():
    for days in (10, 60):
        found = harvest(WARM, D(2026, 5, 10), "with frost", hardiness="tender", harvest_days=days)
        assert found.last_harvest.day == D(2026, 10, 15)
        assert "first autumn frost" in found.last_harvest.why


def test_fruit_ripens_no_more_when_it_is_too_cool_though_no_frost_came():
    """The day before which its pace falls below a fifth of its best, by hand from the course of the year and its light."""
    mild = NORTH.with_(first_frost={"risk_10": "12-10", "risk_50": "12-20", "risk_90": "12-30"})
    found = harvest(
        mild, D(2026, 5, 10), "with frost", hardiness="tender", heat_to_harvest=300, harvest_days=60
    )
    assert found.last_harvest.why == "Too cool and dark to grow on"
    rate = pace(
        context_at(crop("one", hardiness="tender", **OVER_TEN), mild, 45.0),
        context_at(None, mild, 45.0).outside,
    )
    last = day_of_year_index(found.last_harvest.day)
    assert rate[last] >= AT_REST > rate[last + 1]


def test_leaves_are_picked_as_long_as_any_grow():
    chard = harvest(NORTH, D(2026, 5, 10), "with frost", hardiness="frost-tolerant", harvest_days=60, **COOL)
    beans = harvest(NORTH, D(2026, 5, 10), "with frost", hardiness="tender", harvest_days=60, **COOL)
    assert chard.last_harvest.day > beans.last_harvest.day
    assert NO_MORE_LEAVES < AT_REST


def test_what_its_cold_kills_is_over_when_that_cold_is_usual():
    """Half of the years have had their first frost when the mean minimum is that of its day; 6 degrees colder nights
    come when the mean minimum is 6 degrees lower."""
    found = harvest(
        NORTH, D(2026, 5, 10), "stands", hardiness="frost-tolerant", least_night_temperature=-6, **COOL
    )
    low = by_day(NORTH.monthly_minimum)
    at_frost = low[day_of_year_index(D(2026, 10, 16))]
    wanted = next(D(2026, 10, 16) + i * DAY for i in range(200) if low[day_of_year_index(D(2026, 10, 16) + i * DAY)] <= at_frost - 6)  # fmt: skip
    assert "Colder than -6 °C is usual" in found.last_harvest.why
    assert found.last_harvest.day == wanted - DAY


def test_weeks_of_picking_end_with_that_cold_but_not_where_it_was_stood_before():
    """Ripe in October, it would be picked until January; ripe in March, the worst is over."""
    figures = {"hardiness": "frost-tolerant", "harvest_days": 90, **COOL, **NEVER_DARK}
    hardy, other = (
        harvest(NORTH, D(2026, 8, 20), "after weeks", least_night_temperature=bears, **figures)
        for bears in (-20, -5)
    )
    assert D(2026, 10, 1) < other.first_harvest.day == hardy.first_harvest.day < D(2026, 11, 1)
    assert "Colder than -5 °C is usual" in other.last_harvest.why
    assert other.last_harvest.day < D(2026, 12, 20) < hardy.last_harvest.day
    late = harvest(
        NORTH, D(2026, 9, 10), "after weeks", least_night_temperature=-5, heat_to_harvest=1000, **figures
    )
    assert late.first_harvest is None or "days of harvest" in late.last_harvest.why


def test_the_hardier_the_later():
    days = [
        harvest(
            NORTH, D(2026, 5, 10), "stands", hardiness="very hardy", least_night_temperature=bears, **COOL
        ).last_harvest.day
        for bears in (-3, -5, -7, -20)
    ]
    assert days == sorted(days)
    assert days[0] < D(2026, 12, 1) < days[-1]


def test_blossom_that_frost_kills_ends_what_is_picked_of_it():
    figures = {"hardiness": "frost-tolerant", "least_night_temperature": -10, **COOL}
    pods, leaves = (
        harvest(NORTH, D(2026, 8, 1), "with frost", heat_to_harvest=300, kills_flower=kills, **figures)
        for kills in (-2, -10)
    )
    assert pods.last_harvest.day < leaves.last_harvest.day


def test_under_glass_frost_comes_later():
    one = crop("one", hardiness="tender", days_to_maturity=60, heat_to_harvest=540, harvest_ends="with frost", harvest_days=60, **OVER_TEN)  # fmt: skip
    open_air, glass = (
        dates(
            "one", NORTH, catalogue_of(one), site=SITE, start="sown", first=D(2026, 6, 1), **kind
        ).last_harvest.day
        for kind in ({}, {"bed_kind": "under glass"})
    )
    assert glass > open_air


# -- spring and seed ------------------------------------------------------------------------------


def test_what_stands_is_there_until_it_grows_again_in_spring():
    root = {"hardiness": "very hardy", "least_night_temperature": -25, "chill_to_bolt": 60, **COOL}
    found = harvest(NORTH, D(2026, 5, 10), "stands", **root)
    assert found.last_harvest.why == "It grows again in spring"
    assert D(2027, 2, 20) <= found.last_harvest.day <= D(2027, 5, 1)
    assert found.clear.day == found.last_harvest.day


def test_leaves_that_winter_chilled_run_to_seed_in_spring():
    kale = load_catalogue().crops["kale"]
    site, climate = read_places()["Kent"]
    found = dates("kale", climate, load_catalogue(), site=site, start="raised", first=D(2026, 6, 25))
    assert mode_of(context_at(kale, climate)) == "stands"
    assert found.last_harvest.why == "Chilled in winter, it runs to seed in spring"
    assert D(2027, 3, 20) <= found.last_harvest.day <= D(2027, 5, 10)


def test_what_long_days_send_to_seed_is_over_soon_after_they_come():
    """Days are 14 h long at 45 degrees from the end of April on."""
    long = int(np.argmax(day_lengths(45.0) >= 14))
    found = harvest(NORTH, D(2026, 3, 20), "with bolting", hardiness="frost-tolerant", heat_to_harvest=300, harvest_days=90, bolts_at_day_length=14, **COOL)  # fmt: skip
    assert "Long days or heat send it to seed" in found.last_harvest.why
    begun = D(2026, 1, 1) + (long - 1) * DAY  # 2026 has no 29 February
    assert begun + 10 * DAY <= found.last_harvest.day <= max(begun, found.first_harvest.day) + 40 * DAY


def test_in_autumn_the_same_crop_runs_to_no_seed():
    found = harvest(NORTH, D(2026, 8, 20), "with bolting", hardiness="frost-tolerant", heat_to_harvest=300, harvest_days=30, bolts_at_day_length=14, **COOL)  # fmt: skip
    assert "seed" not in found.last_harvest.why


def test_heat_sends_to_seed_what_it_is_said_to():
    hot = CLIMATE.with_(
        monthly_minimum=(0, 1, 5, 9, 14, 19, 21, 20, 16, 10, 5, 1),
        monthly_maximum=(10, 12, 17, 22, 27, 31, 33, 33, 29, 23, 17, 12),
    )
    lettuce = {"hardiness": "frost-tolerant", "heat_to_harvest": 400, "harvest_days": 60, **COOL}
    bitter = harvest(hot, D(2026, 4, 1), "with bolting", bolts_above=24, **lettuce)
    plain = harvest(hot, D(2026, 4, 1), "with bolting", **lettuce)
    assert bitter.last_harvest.day < plain.last_harvest.day
    assert "heat" in bitter.last_harvest.why


def test_spinach_of_spring_is_over_by_midsummer_and_that_of_autumn_stands_longer():
    site, climate = read_places()["Hamburg"]
    spring, autumn = (
        dates("spinach", climate, load_catalogue(), site=site, start="sown", first=first)
        for first in (D(2026, 3, 25), D(2026, 8, 20))
    )
    assert spring.last_harvest.day < D(2026, 6, 30)
    assert span(autumn) > span(spring)


# -- all ------------------------------------------------------------------------------------------


def test_the_gardeners_own_end_wins():
    one = crop("one", hardiness="tender", days_to_maturity=60, heat_to_harvest=540, harvest_ends="with frost", harvest_days=60, **OVER_TEN)  # fmt: skip
    found = dates("one", WARM, catalogue_of(one), site=SITE, start="sown", first=D(2026, 5, 10), pinned_dates={"last_harvest": D(2026, 8, 1)})  # fmt: skip
    assert (found.last_harvest.day, found.last_harvest.origin) == (D(2026, 8, 1), "by hand")
    cleared = dates(
        "one", WARM, catalogue_of(one), site=SITE, start="sown", first=D(2026, 5, 10), last=D(2026, 8, 1)
    )
    assert cleared.last_harvest.day == D(2026, 8, 1)


def test_without_days_or_a_mode_its_end_is_not_known_and_that_is_said():
    one = crop("one", hardiness="tender", days_to_maturity=60, heat_to_harvest=540, **OVER_TEN)
    found = dates("one", WARM, catalogue_of(one), site=SITE, start="sown", first=D(2026, 5, 10))
    assert found.last_harvest is None
    assert any("length of harvest" in words for words in found.missing)


def test_every_crop_that_is_picked_says_what_ends_its_harvest():
    picked = [one for one in load_catalogue().crops.values() if one.number("harvest_days") is not None]
    assert len(picked) > 90
    assert [one.key for one in picked if not mode_of(context_at(one))] == []
