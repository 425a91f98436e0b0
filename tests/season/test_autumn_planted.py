"""What is planted in autumn is in every growing year that it stands in, whatever it is grown for."""

from __future__ import annotations

import datetime as dt
import functools
import typing

import pytest
from making import bed, garden, planting

from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Site
from planner.garden.planting import Purpose
from planner.plan import Plan
from planner.season.practice import stays_for_years
from planner.season.spans import growing_year, planting_span

D = dt.date
NORTH = Climate(
    last_frost=FrostDates(risk_90="04-10", risk_50="04-25", risk_10="05-10"),
    first_frost=FrostDates(risk_10="10-01", risk_50="10-15", risk_90="10-30"),
    zone="8a",
)
SOUTH = Climate(
    last_frost=FrostDates(risk_90="10-10", risk_50="10-25", risk_10="11-10"),
    first_frost=FrostDates(risk_10="04-01", risk_50="04-15", risk_90="04-30"),
    zone="8a",
)
PURPOSES = typing.get_args(Purpose)


@functools.cache
def autumn_crops() -> list[tuple[str, str]]:
    """Crops with an autumn window or planted as sets, that are lifted or die down within a year."""
    found = []
    for key, crop in load_catalogue().crops.items():
        autumn = crop.autumn_from is not None and crop.autumn_from.applies
        if not stays_for_years(crop) and (autumn or crop.usual_start in ("sets", "cloves")):
            found.append((key, crop.usual_start))
    return found


def planted(key: str, start: str, purpose: str, month: int, southern: bool) -> Garden:
    first = D(2026, 4, 12) if southern else D(2025, 10, 12)
    site = Site(latitude=-41.0 if southern else 52.0, first_month=month)
    one = planting(
        crop=key,
        start=start,
        purpose=purpose,
        year=growing_year(site, first),
        first=first,
        timing="autumn",
    )
    return garden(bed(), one, site=site, climate=SOUTH if southern else NORTH)


@pytest.mark.parametrize("purpose", PURPOSES)
@pytest.mark.parametrize("southern", [False, True])
def test_an_autumn_planting_is_in_every_growing_year_it_stands_in(purpose: str, southern: bool) -> None:
    assert ("shallot", "sets") in autumn_crops()
    assert len(autumn_crops()) > 15
    for key, start in autumn_crops():
        for month in range(1, 13):
            document = planted(key, start, purpose, month, southern)
            (one,) = document.plantings
            plan = Plan(document, one.year)
            span = plan.span_of(one)
            if purpose != "green manure":
                kitchen = planted(key, start, "kitchen", month, southern)
                ripe = Plan(kitchen, one.year).dates(kitchen.plantings[0]).first_harvest
                assert ripe is None or span.holds(ripe.day), (key, month)
            plans = {year: plan.after(document, year) for year in range(one.year - 1, one.year + 3)}
            there = [year for year, of_year in plans.items() if one in of_year.plantings]
            touched = [year for year, of_year in plans.items() if span.meets(of_year.span)]
            assert there == touched, (key, month)
            last = plan.dates(one).last_harvest
            if last is not None:
                assert growing_year(document.site, last.day) in there, (key, month)


@pytest.mark.parametrize("month", range(1, 13))
@pytest.mark.parametrize("southern", [False, True])
@pytest.mark.parametrize("purpose", ["seed", "kitchen"])
def test_shallots_of_autumn_are_there_in_the_year_they_are_lifted(month, southern, purpose):
    document = planted("shallot", "sets", purpose, month, southern)
    (one,) = document.plantings
    lifted = Plan(document, one.year).dates(one).first_harvest
    assert lifted is not None
    assert (lifted.day - one.first).days > 150
    assert one in Plan(document, growing_year(document.site, lifted.day)).plantings


def test_seed_that_ripens_later_than_the_kitchen_harvest_has_no_known_end_but_stands():
    mild = NORTH.with_(zone="9a")  # where it lives through the winter
    document = planted("broad_bean", "sown", "seed", 1, southern=False).with_(climate=mild)
    (one,) = document.plantings
    plan = Plan(document, 2026)
    dates = plan.dates(one)
    assert dates.first_harvest is None
    assert dates.clear is None
    assert plan.span_of(one).last == D(2026, 12, 31)
    assert plan.plantings == (one,)


@pytest.mark.parametrize("purpose", PURPOSES)
def test_a_last_day_given_by_hand_holds(purpose):
    document = planted("shallot", "sets", purpose, 1, southern=False)
    one = document.plantings[0].with_(last=D(2025, 12, 31))
    plan = Plan(document.with_(plantings=(one,)), 2025)
    assert plan.span_of(one).last == D(2025, 12, 31)


def test_a_planting_begun_after_its_growing_year_stands_in_the_year_it_begins_in():
    span = planting_span(Site(), planting(year=2025, first=D(2026, 2, 1)))
    assert (span.first, span.last) == (D(2026, 2, 1), D(2026, 12, 31))
    for day in (D(1, 1, 1), D(9999, 12, 31)):
        assert planting_span(Site(first_month=7), planting(first=day)).holds(day)
