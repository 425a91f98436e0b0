"""What holds of the dates of every crop of the catalogue, in any climate."""

from __future__ import annotations

import datetime as dt
import itertools
import random
from functools import lru_cache

import pytest
from calendar_cases import read_places
from dated_plantings import D
from making import bed, garden, planting

from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Site
from planner.plan import Plan
from planner.season import practice
from planner.season.planting_dates import Dates

DAY = dt.timedelta(days=1)
CROPS = tuple(load_catalogue().crops)


def mirrored(site: Site, climate: Climate) -> tuple[Site, Climate]:
    """The same place on the other side of the equator: half a year later."""

    def later(frost: FrostDates) -> FrostDates:
        def moved(text: str) -> str:
            return f"{dt.date.fromisoformat(f'2026-{text}') + 182 * DAY:%m-%d}"

        return FrostDates(
            risk_10=moved(frost.risk_10), risk_50=moved(frost.risk_50), risk_90=moved(frost.risk_90)
        )

    low, high = climate.monthly_minimum, climate.monthly_maximum
    there = climate.with_(
        last_frost=later(climate.last_frost),
        first_frost=later(climate.first_frost),
        monthly_minimum=(*low[6:], *low[:6]),
        monthly_maximum=(*high[6:], *high[:6]),
    )
    return Site(latitude=-site.latitude), there


@lru_cache
def climates() -> dict[str, tuple[Site, Climate]]:
    """The places of the published calendars, and the hard cases of each kind."""
    kent = read_places()["Kent"]
    frosts = {"last_frost": kent[1].last_frost, "first_frost": kent[1].first_frost}
    return {
        **read_places(),
        "Kent in the south": mirrored(*kent),
        "frosts alone": (Site(latitude=51.3), Climate(**frosts)),
        "no latitude": (Site(), kent[1]),
        "frosts alone and no latitude": (Site(), Climate(**frosts)),
        "temperatures alone": (
            Site(latitude=51.3),
            Climate(monthly_minimum=kent[1].monthly_minimum, monthly_maximum=kent[1].monthly_maximum),
        ),
        "tropics": (
            Site(latitude=1.4),
            Climate(frost_free=True, monthly_minimum=(24.0,) * 12, monthly_maximum=(32.0,) * 12),
        ),
        "tropical hills": (
            Site(latitude=-2.0),
            Climate(frost_free=True, monthly_minimum=(9.0,) * 12, monthly_maximum=(20.0,) * 12),
        ),
        "far north": (
            Site(latitude=69.6),
            Climate(
                last_frost=FrostDates(risk_10="06-15", risk_50="06-05", risk_90="05-25"),
                first_frost=FrostDates(risk_10="08-20", risk_50="09-01", risk_90="09-12"),
                zone="5a",
                monthly_minimum=(-7, -7, -5, -2, 2, 6, 9, 8, 5, 1, -3, -5),
                monthly_maximum=(-2, -2, 0, 3, 8, 12, 15, 14, 10, 5, 1, -1),
            ),
        ),
        "no summer": (
            Site(latitude=72.0),
            Climate(
                last_frost=FrostDates(risk_10="07-10", risk_50="07-01", risk_90="06-25"),
                first_frost=FrostDates(risk_10="07-20", risk_50="07-28", risk_90="08-05"),
                monthly_minimum=(-20.0,) * 5 + (0.0, 2.0, 1.0) + (-15.0,) * 4,
                monthly_maximum=(-10.0,) * 5 + (4.0, 6.0, 5.0) + (-8.0,) * 4,
            ),
        ),
        "desert": (
            Site(latitude=33.4),
            Climate(
                last_frost=FrostDates(risk_10="03-01", risk_50="02-01", risk_90="01-10"),
                first_frost=FrostDates(risk_10="11-25", risk_50="12-15", risk_90="12-30"),
                monthly_minimum=(7, 9, 12, 16, 21, 26, 29, 29, 26, 19, 12, 7),
                monthly_maximum=(20, 22, 26, 30, 35, 41, 42, 41, 38, 31, 25, 19),
            ),
        ),
        "nothing known": (Site(), Climate()),
    }


def dates_at(
    place: str, key: str, year: int = 2026, kind: str = "open", warmer: float = 0.0, **fields
) -> Dates:
    site, climate = climates()[place]
    if warmer:
        climate = climate.with_(
            monthly_minimum=tuple(low + warmer for low in climate.monthly_minimum),
            monthly_maximum=tuple(high + warmer for high in climate.monthly_maximum),
        )
    one = planting(crop=key, year=year, **fields)
    return Plan(garden(bed(kind=kind), one, climate=climate, site=site), year, load_catalogue()).dates(one)


def starts(key: str) -> tuple[str, ...]:
    one = load_catalogue().crops[key]
    return one.starts.value if one.starts else ("sown",)


@pytest.mark.parametrize("place", climates())
def test_dates_are_in_order_or_missing_with_a_reason(place):
    for key in CROPS:
        for start, timing in itertools.product(starts(key), (None, "count back", "autumn")):
            found = dates_at(place, key, start=start, timing=timing)
            what = (key, start, timing)
            steps = [found.sow, found.prick_out, found.pot_on, found.harden_off, found.set_out]
            if not found.stays_for_years:
                steps += [found.first_harvest, found.last_harvest]
            known = [step.day for step in steps if step is not None]
            assert known == sorted(known), what
            assert all(step.why for step in steps if step is not None), what
            if found.clear is not None and found.on_plot is not None:
                assert found.clear.day >= found.on_plot.day, what
            if found.on_plot is None and start != "standing":
                assert found.missing, what
            first = found.first_harvest
            if first is not None and first.earliest is not None:
                assert first.earliest <= first.day, what
                assert first.latest is None or first.day <= first.latest, what
            if first is None and found.on_plot is not None and not found.stays_for_years:
                assert (
                    found.missing
                    or found.doubts
                    or load_catalogue().crops[key].number("days_to_maturity") is None
                ), what


@pytest.mark.parametrize("place", [name for name in climates() if name != "nothing known"])
def test_a_start_given_on_any_day_of_the_year_gets_dates_in_order(place):
    """A seeded walk over crops, days, covers and glass."""
    seeded = random.Random(place)
    for _ in range(250):
        key = seeded.choice(CROPS)
        start = seeded.choice([start for start in starts(key) if start != "standing"] or ["sown"])
        first = D(2026, 1, 1) + seeded.randrange(365) * DAY
        covers = tuple(
            {"kind": kind}
            for kind in seeded.sample(["fleece", "netting", "film", "low tunnel"], seeded.randrange(3))
        )
        kind = seeded.choice(["open", "open", "under glass"])
        found = dates_at(place, key, kind=kind, start=start, first=first, covers=covers)
        what = (key, start, first, covers, kind)
        assert found.on_plot.day == first, what
        harvest = found.first_harvest
        if harvest is not None and not found.stays_for_years:
            assert harvest.day >= first, what
            assert found.last_harvest is None or found.last_harvest.day >= harvest.day, what
            assert (harvest.day - first).days <= 3 * 366, what


@pytest.mark.parametrize("place", ["Kent", "Hamburg", "Ames IA", "Christchurch NZ", "Kent in the south"])
def test_a_warmer_place_is_never_later_with_what_heat_does_not_slow(place):
    """Half a degree more, of crops of one sort whose days never come near their ceiling, and that wait for no long days."""
    site, climate = climates()[place]
    hottest = max(climate.monthly_maximum) + 6.0
    told = 0
    for key in CROPS:
        one = load_catalogue().crops[key]
        ceiling, start = one.number("ceiling_temperature"), one.usual_start
        if (
            ceiling is None
            or ceiling < hottest
            or one.number("day_length_to_bulb")
            or practice.stays_for_years(one)
        ):
            continue
        if start == "standing" or one.number("days_to_maturity") is None:
            continue
        first = D(2026, 10, 25) if site.latitude < 0 else D(2026, 4, 25)
        plain, warm = (dates_at(place, key, start=start, first=first, warmer=warmer) for warmer in (0.0, 0.5))
        if plain.first_harvest is None or "sort" in plain.first_harvest.why:
            continue
        assert warm.first_harvest is not None, key
        assert warm.first_harvest.day <= plain.first_harvest.day, key
        told += 1
    assert told >= 40


@pytest.mark.parametrize("place", ["Kent", "Hamburg", "Ames IA", "Athens GA"])
def test_a_southern_garden_mirrors_the_northern_one_by_half_a_year(place, monkeypatch):
    """First days and harvests within a week of half a year: months have other lengths, and the earth's path is no circle."""
    monkeypatch.setitem(climates(), "mirror", mirrored(*read_places()[place]))
    told = 0
    for key in CROPS:
        one = load_catalogue().crops[key]
        if practice.stays_for_years(one) or one.usual_start == "standing":
            continue
        north, south = (
            dates_at(where, key, start=one.usual_start, timing="spring") for where in (place, "mirror")
        )
        if north.on_plot is None or south.on_plot is None:
            assert (north.on_plot is None) == (south.on_plot is None), key
            continue
        assert abs((south.on_plot.day - north.on_plot.day).days - 182) <= 8, (
            key,
            north.on_plot,
            south.on_plot,
        )
        if north.first_harvest is None or south.first_harvest is None:
            continue
        north_took, south_took = (
            (found.first_harvest.day - found.on_plot.day).days for found in (north, south)
        )
        sorts = [
            words in found.first_harvest.why
            for found in (north, south)
            for words in ("early sort", "late sort")
        ]
        if sorts[:2] == sorts[2:] and max(north_took, south_took) < 200:
            assert abs(north_took - south_took) <= max(8, 0.15 * north_took), key
            told += 1
    assert told >= 60


def test_where_frosts_alone_are_known_dates_are_rough_and_not_missing():
    for key in ("carrot", "tomato", "lettuce", "potato", "kale"):
        rough, known = dates_at("frosts alone", key), dates_at("Kent", key)
        assert "roughly" in rough.first_harvest.why
        assert "roughly" not in known.first_harvest.why
        assert abs((rough.first_harvest.day - known.first_harvest.day).days) <= 35, key


def test_frost_free_tropics_have_harvests_of_every_crop_that_heat_lets_grow():
    """A day is given by hand, as there is no frost to count from; nothing is killed, dark or cold."""
    for key in ("okra", "sweet_potato", "tomato", "aubergine", "cowpea", "sweet_corn", "leaf_amaranth"):
        for first in (D(2026, 1, 10), D(2026, 7, 10)):
            found = dates_at("tropics", key, start=load_catalogue().crops[key].usual_start, first=first)
            assert found.first_harvest is not None, key
            assert found.ripens, key
            assert (found.first_harvest.day - first).days < 200, key
            assert not any("frost" in doubt for doubt in found.doubts), key


def test_where_days_are_alike_all_year_it_takes_as_long_from_any_day():
    took = set()
    for month in range(1, 13):
        first = D(2026, month, 5)
        took.add(
            (dates_at("tropical hills", "carrot", start="sown", first=first).first_harvest.day - first).days
        )
    assert max(took) - min(took) <= 1


def test_no_summer_ripens_nothing_and_says_why():
    for key in ("tomato", "sweet_corn", "melon", "dwarf_bean"):
        found = dates_at("no summer", key)
        assert found.first_harvest is None, key
        assert found.doubts, key
        assert not found.ripens, key
