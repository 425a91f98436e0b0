"""What is doubtful of a start: outside its window, in cold soil.

In the climate of these tests every day gives 9 degree-days: 540 are 60 days.
"""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import CLIMATE, FROSTS_ALONE, ZONE_5, D, dates, ripe_in
from making import catalogue_of, crop

from planner.crops import load_catalogue
from planner.season.start_doubts import COLDER, COLDER_BY, WARMER, colder
from planner.season.temperatures import by_day, day_of_year_index
from planner.season.usual_weather import SOIL_OVER_AIR

DAY = dt.timedelta(days=1)


def doubts(first: dt.date, climate=CLIMATE, **figures) -> tuple[str, ...]:
    fields = {"sow_from": -3, "hardiness": "tender", "harvest_days": 9, **ripe_in(60), **figures}
    return dates("one", climate, catalogue_of(crop("one", **fields)), first=first).doubts


@pytest.mark.parametrize(
    ("first", "told"), [(D(2026, 4, 2), True), (D(2026, 4, 3), False), (D(2026, 5, 20), False)]
)
def test_a_start_more_than_a_week_before_its_window_is_pointed_out(first, told):
    """Three weeks before 1 May are 10 April."""
    assert any("before its window opens on 10 Apr" in words for words in doubts(first)) == told


def test_what_bears_frost_may_be_sown_sooner_where_the_soil_is_warm():
    """Soil of 20 degrees all year: a window counted from frost holds for cold ground."""
    assert doubts(D(2026, 3, 20), hardiness="very hardy", start_temperature=10) == ()
    assert doubts(D(2026, 3, 20), hardiness="very hardy", soil_least=10) == ()
    assert any("before its window" in words for words in doubts(D(2026, 3, 20), hardiness="very hardy"))
    assert any("before its window" in words for words in doubts(D(2026, 3, 20), start_temperature=10)), (
        "frost kills it"
    )
    least = 20 + SOIL_OVER_AIR - WARMER
    assert doubts(D(2026, 3, 20), hardiness="very hardy", soil_least=least - 1.1) == ()
    assert doubts(D(2026, 3, 20), hardiness="very hardy", soil_least=least - 0.9) != ()


def test_a_late_start_that_is_picked_before_the_cold_is_no_fault_however_a_window_is_printed():
    """Windows end in weeks from the spring frost of another place; here 60 days before 16 October are 17 August."""
    printed = {"sow_until": 4}
    assert doubts(D(2026, 6, 20), **printed) == ()
    assert doubts(D(2026, 8, 17), **printed) == ()
    assert doubts(D(2026, 8, 30), **printed) != ()


def test_a_start_from_which_it_is_no_longer_picked_is_after_its_window():
    """Its last start is counted back: 69 days before 6 October, the day before which frost comes in one year of ten."""
    assert not any("after its window closed" in words for words in doubts(D(2026, 8, 5)))
    late = doubts(D(2026, 9, 1))
    assert any("after its window closed on 29 Jul" in words for words in late)


def test_what_stands_the_winter_may_be_started_late():
    assert not any("window" in words for words in doubts(D(2026, 10, 10), hardiness="very hardy"))
    hardy = {"hardiness": "frost-tolerant", "least_night_temperature": -30}
    assert not any("window" in words for words in doubts(D(2026, 10, 10), CLIMATE.with_(zone="7a"), **hardy))


@pytest.mark.parametrize(
    ("first", "fits"),
    [(D(2026, 8, 6), False), (D(2026, 8, 7), True), (D(2026, 10, 2), True), (D(2026, 10, 3), False)],
)
def test_two_weeks_around_its_autumn_window_are_no_fault(first, fits):
    """The window runs from 21 August to 18 September; started then it is too slow to be picked that year."""
    slow = {"autumn_from": -8, "autumn_until": -4, "hardiness": "frost-tolerant", **ripe_in(180)}
    assert (not any("after its window" in words for words in doubts(first, **slow))) == fits


def test_nothing_is_said_under_glass_of_perennials_and_of_days_that_are_worked_out():
    catalogue = load_catalogue()
    assert dates("tomato", ZONE_5, catalogue, first=D(2026, 3, 20), bed_kind="under glass").doubts == ()
    assert dates("rhubarb", ZONE_5, catalogue, start="crowns", first=D(2026, 8, 1)).doubts == ()
    for key in ("carrot", "pea", "dwarf_bean", "tomato", "lettuce"):
        assert dates(key, ZONE_5, catalogue).doubts == (), key


# -- soil -----------------------------------------------------------------------------------------


def soil_on(on: dt.date) -> float:
    at = day_of_year_index(on)
    return float(by_day(ZONE_5.monthly_minimum)[at] + by_day(ZONE_5.monthly_maximum)[at]) / 2 + SOIL_OVER_AIR


def test_more_is_borne_by_seed_that_wants_warm_soil():
    """Seed comes up by day, when the seed bed is warmer than its mean: courgettes in a mean of 13 degrees."""
    assert colder(4.0) == COLDER == 2.5
    assert colder(18.0) == 18.0 * COLDER_BY > 5.0


@pytest.mark.parametrize(("below", "told"), [(4.0, False), (5.0, True)])
def test_soil_is_called_cold_where_even_its_noons_are_below_the_least_that_seed_needs(below, told):
    on = D(2026, 4, 20)
    least = soil_on(on) + below
    assert (below > colder(least)) == told
    found = doubts(on, ZONE_5, hardiness="frost-tolerant", soil_least=soil_on(on) + below)
    assert any("judged by the mean air temperature" in words for words in found) == told


def test_the_sentence_names_both_temperatures():
    found = doubts(D(2026, 4, 1), ZONE_5, hardiness="frost-tolerant", soil_least=15)
    assert f"The soil is about {soil_on(D(2026, 4, 1)):.0f} °C on 1 Apr" in found[-1]
    assert "one needs 15 °C to come up" in found[-1]


def test_plants_come_up_indoors_and_glass_is_warm():
    one = crop(
        "one",
        hardiness="frost-tolerant",
        set_out_from=-6,
        sow_from=-6,
        soil_least=20,
        harvest_days=9,
        **ripe_in(60),
    )
    plants = dates("one", ZONE_5, catalogue_of(one), start="bought", first=D(2026, 4, 1))
    glass = dates("one", ZONE_5, catalogue_of(one), first=D(2026, 4, 1), bed_kind="under glass")
    for found in (plants, glass):
        assert not any("soil" in words for words in found.doubts)


def test_without_temperatures_no_soil_is_judged():
    bare = FROSTS_ALONE.with_(first_frost=None)
    assert not any("soil" in words for words in doubts(D(2026, 3, 1), bare, soil_least=25))
