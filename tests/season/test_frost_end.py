"""What the first autumn frost does to a harvest."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import CLIMATE, D, dates, day, ripe_in
from making import catalogue_of, crop

DAY = dt.timedelta(days=1)
#: The first autumn frost of the tests' climate.
FROST = D(2026, 10, 16)


def ripe_after(days: int, hardiness: str, *, zone: str = "", **figures):
    """Dates of a crop sown in spring that is ripe this long after the first frost."""
    first = D(2026, 5, 1)
    to_frost = (FROST - first).days
    one = crop("one", hardiness=hardiness, harvest_days=10, **ripe_in(to_frost + days), **figures)
    return dates("one", CLIMATE.with_(zone=zone), catalogue_of(one), first=first)


@pytest.mark.parametrize(
    ("hardiness", "days", "ripens"),
    [
        ("tender", 0, True),
        ("tender", 1, False),
        ("warm-loving", 1, False),
        ("frost-tolerant", 28, True),
        ("frost-tolerant", 29, False),
        ("very hardy", 40, True),
    ],
)
def test_a_crop_must_be_ripe_by_the_frost_or_four_weeks_later_where_it_bears_some(hardiness, days, ripens):
    assert ripe_after(days, hardiness).ripens == ripens


def test_what_is_harvested_beyond_the_winter_ripens():
    """From 200 days to maturity on a crop lives through a winter by its nature."""
    assert not ripe_after(120, "frost-tolerant").ripens
    assert ripe_after(121, "frost-tolerant").ripens
    assert not ripe_after(121, "tender").ripens


@pytest.mark.parametrize(("bears", "ripens"), [(-9.0, True), (-8.4, True), (-3.7, True), (-3.6, False)])
def test_what_bears_the_coldest_night_of_its_zone_grows_on_and_three_degrees_do_no_harm(bears, ripens):
    """The mean yearly minimum of zone 8b goes up to -6.7 °C."""
    found = ripe_after(40, "frost-tolerant", zone="8b", least_night_temperature=bears)
    assert found.ripens == ripens


def test_frost_cuts_the_shoots_of_potatoes_though_their_class_is_hardy():
    figures = {"hardiness": "very hardy", "harvest_days": 10, **ripe_in(120)}
    potato = crop("potato", least_night_temperature=1, **figures)
    other = crop("other", least_night_temperature=-8, **figures)
    fields = {"start": "tubers", "first": D(2026, 7, 26)}
    assert not dates("potato", shelf=catalogue_of(potato), **fields).ripens
    assert dates("other", shelf=catalogue_of(other), **fields).ripens


@pytest.mark.parametrize(
    ("harvest", "last"),
    [(1, FROST - DAY), (20, FROST - DAY), (11, FROST - DAY), (10, FROST - DAY), (9, FROST - 2 * DAY)],
)
def test_the_harvest_of_a_tender_crop_ends_the_day_before_the_frost(harvest, last):
    one = crop("one", hardiness="tender", harvest_days=harvest, **ripe_in(60))
    first = FROST - 10 * DAY - 60 * DAY
    found = dates(
        "one", shelf=catalogue_of(one), first=first, pinned_dates={"first_harvest": FROST - 10 * DAY}
    )
    if harvest == 1:
        last = FROST - 10 * DAY
    assert day(found.last_harvest) == last


# -- tubers lifted after the frost ----------------------------------------------------------------


def tubers(days: float, **more):
    """A tender crop whose tubers are lifted once its leaves are dead, planted so that it has 100 days until the frost."""
    figures = {"hardiness": "tender", "product": "tubers", "harvest_ends": "dies back", "harvest_days": 15}
    one = crop("one", **{**figures, **ripe_in(days), **more})
    return dates("one", shelf=catalogue_of(one), start="tubers", first=FROST - 100 * DAY)


@pytest.mark.parametrize(
    ("days", "first"),
    [(80, FROST - 20 * DAY), (100, FROST), (101, FROST), (133, FROST), (134, None)],
)
def test_tubers_are_lifted_when_frost_has_killed_the_leaves_if_they_had_three_quarters_of_their_warmth(
    days, first
):
    found = tubers(days)
    assert (found.first_harvest.day if found.first_harvest else None) == first
    assert found.ripens == (first is not None)
    if first is not None:
        assert found.last_harvest.day == first + 14 * DAY == found.clear.day


def test_tubers_of_short_days_need_some_of_them_before_the_frost():
    """At 45 degrees the days are shorter than 12 h from 26 September on, and the frost comes on 16 October."""
    assert not tubers(100, day_length_class="short-day").ripens
    assert tubers(100, day_length_class="long-day").ripens
