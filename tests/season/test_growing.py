"""The weather over the life of a planting: covers while they lie, glass, warmer and cooler years."""

from __future__ import annotations

import datetime as dt

import pytest
from calendar_cases import read_places
from dated_plantings import D, context_at, dates, steady
from making import catalogue_of, crop

from planner.crops import load_catalogue
from planner.crops.cover_effects import effect, sheltered_by
from planner.garden import Cover, Site
from planner.season import practice
from planner.season.growing import stretches_of

DAY = dt.timedelta(days=1)
ON = D(2026, 6, 1)
#: Every day 14 to 24 degrees: 9 degree-days over 10. [deg C]
WARM = steady(14.0, 24.0)
OVER_TEN = {"base_temperature": 10, "best_temperature": 35, "ceiling_temperature": 45}
TENDER = crop("tender", hardiness="tender", days_to_maturity=80, heat_to_harvest=600, **OVER_TEN)
HARDY = crop(
    "hardy",
    hardiness="very hardy",
    days_to_maturity=80,
    heat_to_harvest=600,
    slows_in_short_days={"value": False, "source": "practice"},
    **OVER_TEN,
)


def begins(one, *covers: Cover, under_glass: bool = False, done=()) -> list[int]:
    context = context_at(one, WARM, covers=covers, under_glass=under_glass)
    return [stretch.begins for stretch in stretches_of(context, ON)]


def weather(one, on: int, *covers: Cover, under_glass: bool = False):
    """The weather some days after the start."""
    found = stretches_of(context_at(one, WARM, covers=covers, under_glass=under_glass), ON)
    return next(stretch.weather for stretch in reversed(found) if stretch.begins <= on)


def test_in_the_open_it_has_the_weather_of_the_place():
    context = context_at(TENDER, WARM)
    (only,) = stretches_of(context, ON)
    assert only.begins == 0
    assert only.weather is context.outside


def test_a_cover_with_its_days_lies_between_them():
    fleece = Cover(kind="fleece", first=ON + 10 * DAY, last=ON + 30 * DAY)
    assert begins(HARDY, fleece) == [0, 10, 30]
    outside = weather(HARDY, 0)
    for day, under in ((9, False), (10, True), (29, True), (30, False)):
        found = weather(HARDY, day, fleece)
        assert (found is not outside) == under, day
        assert found is (outside.under(sheltered_by(("fleece",))) if under else outside)


def test_a_warming_cover_without_an_end_shelters_a_tender_crop_for_two_weeks_and_another_one_throughout():
    """As :mod:`planner.season.covers` takes it off."""
    assert practice.SHELTER == 14
    assert begins(TENDER, Cover(kind="fleece")) == [0, 14]
    assert begins(TENDER, Cover(kind="low tunnel", first=ON + 5 * DAY)) == [0, 5, 19]
    assert weather(HARDY, 300, Cover(kind="fleece")) is not weather(HARDY, 300)
    assert weather(TENDER, 300, Cover(kind="film")) is not weather(TENDER, 300), "film stays"


def test_a_net_changes_no_weather():
    assert begins(HARDY, Cover(kind="netting")) == [0]
    assert weather(HARDY, 0, Cover(kind="netting")) is weather(HARDY, 0)


def test_a_cover_that_is_over_before_the_start_changes_nothing():
    past = Cover(kind="fleece", first=ON - 30 * DAY, last=ON)
    assert begins(HARDY, past) == [0]
    assert weather(HARDY, 0, past) is weather(HARDY, 0)


def test_covers_over_each_other_add_up_while_both_lie():
    film, fleece = Cover(kind="film"), Cover(kind="fleece", first=ON, last=ON + 20 * DAY)
    both, alone = weather(HARDY, 10, film, fleece), weather(HARDY, 30, film, fleece)
    gain = effect("film").maximum_gain[2] + effect("fleece").maximum_gain[2]
    july = 196
    assert both.high[july] - WARM.monthly_maximum[6] == pytest.approx(gain, abs=0.05)
    assert alone.high[july] - WARM.monthly_maximum[6] == pytest.approx(
        effect("film").maximum_gain[2], abs=0.05
    )


def test_under_glass_the_roof_is_always_over_it_and_covers_add_to_it():
    assert weather(TENDER, 0, under_glass=True).mean[196] > weather(TENDER, 0).mean[196] + 1
    fleeced = weather(TENDER, 3, Cover(kind="fleece"), under_glass=True)
    assert fleeced.mean[196] > weather(TENDER, 3, under_glass=True).mean[196]


def test_warmer_years_are_warmer_under_covers_too():
    context = context_at(HARDY, WARM, covers=(Cover(kind="fleece"),))
    plain, warm = (stretches_of(context, ON, warmer)[0].weather for warmer in (0.0, 1.0))
    assert warm.mean - plain.mean == pytest.approx(1.0)


def test_a_garden_without_temperatures_has_no_weather():
    assert (
        stretches_of(
            context_at(TENDER, WARM.with_(monthly_minimum=None, monthly_maximum=None, last_frost=None)), ON
        )
        == ()
    )


# -- what that does to a harvest ------------------------------------------------------------------


def harvest(place: str, key: str, first: dt.date, start: str, **fields) -> dt.date:
    site, climate = read_places()[place]
    found = dates(key, climate, load_catalogue(), site=site, start=start, first=first, **fields).first_harvest
    assert found is not None
    return found.day


@pytest.mark.parametrize("place", ["Kent", "Hamburg", "Ames IA"])
@pytest.mark.parametrize(
    ("key", "start"), [("lettuce", "raised"), ("beetroot", "sown"), ("carrot", "sown"), ("potato", "tubers")]
)
def test_film_fleece_and_a_tunnel_move_the_first_harvest_earlier(place, key, start):
    first = D(2026, 4, 5)
    plain = harvest(place, key, first, start)
    film = harvest(place, key, first, start, covers=({"kind": "film"},))
    fleece = harvest(place, key, first, start, covers=({"kind": "fleece"},))
    hoops = harvest(place, key, first, start, covers=({"kind": "low tunnel"},))
    roof = harvest(place, key, first, start, bed_kind="under glass")
    for covered in (film, fleece, hoops, roof):
        assert DAY <= plain - covered <= 50 * DAY
    assert plain - fleece <= 15 * DAY
    assert plain - film <= 12 * DAY
    assert roof < film
    assert roof <= min(fleece, hoops) + 3 * DAY


@pytest.mark.parametrize("key", ["tomato", "cucumber", "courgette", "sweet_pepper", "sweet_corn"])
def test_no_cover_delays_a_warm_crop_in_a_cool_place(key):
    """The sort is chosen by the place in the open, so that fleece does not turn an early sort into a later one."""
    for place in ("Kent", "Hamburg"):
        start = "sown" if key == "sweet_corn" else "raised"
        plain = harvest(place, key, D(2026, 5, 25), start)
        for kind in ("film", "fleece", "cloche", "low tunnel"):
            assert harvest(place, key, D(2026, 5, 25), start, covers=({"kind": kind},)) <= plain, kind


@pytest.mark.parametrize("key", ["tomato", "cucumber", "courgette"])
def test_glass_brings_warm_crops_on_in_cool_summers(key):
    for place in ("Kent", "Hamburg"):
        assert harvest(place, key, D(2026, 5, 25), "raised") - harvest(place, key, D(2026, 5, 25), "raised", bed_kind="under glass") >= 7 * DAY  # fmt: skip


def test_fleece_by_the_numbers():
    """In steady weather of 14 to 24 degrees a summer fleece adds half a degree by night and 3.9 by day: 11.2 a day, not 9."""
    effects = effect("fleece")
    gain = (effects.maximum_gain[2] + effects.minimum_gain[2]) / 2
    shelf = catalogue_of(HARDY)
    site = Site(latitude=45)
    plain = dates("hardy", WARM, shelf, site=site, start="sown", first=D(2026, 6, 10)).first_harvest.day
    under = dates("hardy", WARM, shelf, site=site, start="sown", first=D(2026, 6, 10), covers=({"kind": "fleece"},)).first_harvest.day  # fmt: skip
    assert (plain - D(2026, 6, 10)).days == 67  # 600 / 9 = 66.7
    assert (under - D(2026, 6, 10)).days == pytest.approx(600 / (9 + gain), abs=1)
