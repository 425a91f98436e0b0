"""Days on which a crop may be begun: in one window, or one of spring and one of autumn."""

from __future__ import annotations

import datetime as dt
import itertools
from typing import Any, NamedTuple

import pytest
from calendar_cases import read_places
from dated_plantings import CLIMATE, ZONE_5, D, ripe_in
from making import crop, planting

from planner.crops import Crop, load_catalogue
from planner.garden import Climate, Site
from planner.garden.planting_figures import PlantingFigures
from planner.season.date_inputs import DateInputs
from planner.season.frosts import frosts
from planner.season.start_windows import PICKED, STEP, StartWindow, start_windows
from planner.season.work_out_dates import outlook, work_out

DAY = dt.timedelta(days=1)


class Asked(NamedTuple):
    """A crop in a climate."""

    inputs: DateInputs
    windows: tuple[StartWindow, ...]


def inputs_of(
    one: Crop, climate: Climate = CLIMATE, latitude: float = 45.0, start: str | None = None, **fields
) -> DateInputs:
    site = Site(latitude=latitude)
    of_year = frosts(site, climate, 2026)
    return DateInputs(
        planting=planting(crop=one.key, start=start, **fields),
        figures=PlantingFigures(one, None),
        climate=climate,
        frosts=of_year,
        harvest_frosts=of_year,
        southern=latitude < 0,
        latitude=latitude,
    )


def ask(one: Crop, *more: Any, **named: Any) -> Asked:
    inputs = inputs_of(one, *more, **named)
    return Asked(inputs, start_windows(inputs))


def inputs_at(place: str, key: str, start: str) -> DateInputs:
    site, climate = read_places()[place]
    return inputs_of(load_catalogue().crops[key], climate, site.latitude, start)


def asked_at(place: str, key: str, start: str | None = None) -> Asked:
    site, climate = read_places()[place]
    return ask(load_catalogue().crops[key], climate, site.latitude, start)


BEAN = crop("bean", hardiness="tender", sow_from=0, harvest_days=20, **ripe_in(60))


def test_a_window_runs_from_the_frost_of_spring_to_the_last_start_that_is_picked():
    """From 11 May, after which frost comes in one year of ten, to 80 days before 6 October."""
    (found,) = ask(BEAN).windows
    assert found == StartWindow(D(2026, 5, 11), D(2026, 10, 6) - 80 * DAY)


@pytest.mark.parametrize("key", ["spinach", "coriander"])
def test_what_runs_to_seed_in_long_days_and_heat_has_a_window_of_spring_and_one_of_autumn(key):
    """In Georgia spinach is sown in late winter and in September."""
    spring, autumn = asked_at("Athens GA", key).windows
    assert spring.last < D(2026, 6, 1)
    assert autumn.first > D(2026, 8, 1)


@pytest.mark.parametrize("place", ["Kent", "Ames IA", "Athens GA", "Christchurch NZ"])
@pytest.mark.parametrize(
    "key", ["carrot", "lettuce", "dwarf_bean", "tomato", "spinach", "beetroot", "sweet_corn"]
)
def test_from_the_first_and_the_last_day_of_each_window_it_is_picked_and_from_the_day_before_it_is_not_so_well(
    place, key
):
    asked = asked_at(place, key)
    for window in asked.windows:
        assert window.first <= window.last
        for day in (window.first, window.last):
            dates = work_out(asked.inputs._replace(planting=asked.inputs.planting.with_(first=day)))
            assert dates.ripens, day
            assert (dates.last_harvest.day - dates.first_harvest.day).days + 1 >= min(
                PICKED, load_catalogue().crops[key].number("harvest_days") / 2
            ), day


def test_windows_are_in_order_and_apart():
    for place in ("Kent", "Athens GA"):
        for key in load_catalogue().crops:
            found = asked_at(place, key).windows
            for one, other in itertools.pairwise(found):
                assert (other.first - one.last).days >= STEP, (place, key)


@pytest.mark.parametrize("month", [4, 8])
def test_what_tells_a_good_start_is_that_of_all_dates(month):
    """A second way to the same days: windows ask for a few of the dates, which must be those of ``work_out``."""
    ripen = bolt = 0
    for key, one in load_catalogue().crops.items():
        for start in one.starts.value if one.starts else ():
            inputs = inputs_at("Kent" if month == 4 else "Athens GA", key, start)
            inputs = inputs._replace(planting=inputs.planting.with_(first=D(2026, month, 12), timing=None))
            whole, few = work_out(inputs), outlook(inputs)
            assert few[:4] == (whole.start, whole.ripens, whole.first_harvest, whole.last_harvest), key
            assert few.bolts == (whole.bolts if whole.ripens else None), key
            ripen += whole.ripens
            bolt += few.bolts is not None
    assert ripen > 50
    assert bolt > 0


def test_soil_too_hot_for_seed_parts_a_window():
    hot = ask(
        crop("one", hardiness="frost-tolerant", sow_from=-4, harvest_days=20, soil_most=24.7, **ripe_in(40)),
        ZONE_5,
    )
    cool = ask(
        crop("one", hardiness="frost-tolerant", sow_from=-4, harvest_days=20, soil_most=35, **ripe_in(40)),
        ZONE_5,
    )
    assert len(cool.windows) == 1
    assert len(hot.windows) == 2
    assert hot.windows[0].last < D(2026, 7, 15) < hot.windows[1].first


def test_a_place_too_cool_for_it_has_none():
    site, climate = read_places()["Hamburg"]
    colder = climate.with_(
        monthly_minimum=tuple(low - 6 for low in climate.monthly_minimum),
        monthly_maximum=tuple(high - 6 for high in climate.monthly_maximum),
    )
    assert ask(load_catalogue().crops["watermelon"], colder, site.latitude).windows == ()


def test_none_is_told_where_nothing_is_known_of_perennials_and_of_what_autumn_starts():
    assert ask(BEAN, Climate()).windows == ()
    for key in ("rhubarb", "garlic"):
        assert asked_at("Kent", key).windows == ()
