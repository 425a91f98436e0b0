"""How a planting is raised, on which bench it stands, and when it outgrows its cell."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.crops import Catalogue, load_catalogue
from planner.garden import Climate, FrostDates, Raising
from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.season.planting_dates import Dates
from planner.season.raising import on_benches, way_of_raising

D = dt.date
CLIMATE = Climate(last_frost=FrostDates(risk_50="05-01"), first_frost=FrostDates(risk_50="10-15"))
FIGURES = {"starts": {"value": ["raised"], "source": "practice"}, "set_out_from": 0, "days_to_maturity": 60}


def dates(key: str = "one", shelf: Catalogue | None = None, **fields: object) -> Dates:
    one = planting(crop=key, start="raised", first=D(2026, 5, 1), **fields)
    return Plan(garden(bed(), one, climate=CLIMATE), 2026, shelf or load_catalogue()).dates(one)


def figures(key: str) -> PlantingFigures:
    return PlantingFigures(load_catalogue().crops[key], None)


def way(key: str, **raising: object) -> tuple[str, str | None, int | None]:
    given = Raising.model_validate(raising) if raising else None
    found = way_of_raising(planting(crop=key, raising=given), figures(key))
    container = found.container
    return found.way, container.kind if container else None, container.per_tray if container else None


@pytest.mark.parametrize(
    ("key", "raising", "expected"),
    [
        ("lettuce", {}, ("cells", "cells", 392)),  # plugs of three quarters of an inch, four weeks
        ("tomato", {}, ("pricked out", "cells", 50)),
        ("leek", {}, ("cells", "cells", 288)),  # sown into its cells and left there
        ("onion", {}, ("cells", "cells", 288)),
        ("celeriac", {}, ("pricked out", "cells", 128)),
        ("runner_bean", {}, ("pots", "pots", 15)),
        ("leek", {"way": "nursery bed"}, ("nursery bed", None, None)),
        ("leek", {"way": "cells", "cells": 98}, ("cells", "cells", 98)),
        ("tomato", {"way": "pricked out", "width": 0.09}, ("pricked out", "pots", 15)),
        ("tomato", {"way": "blocks"}, ("blocks", "blocks", 50)),
        ("tomato", {"way": "pots", "width": 0.13}, ("pots", "pots", 8)),
        ("runner_bean", {"way": "cells"}, ("cells", "cells", 72)),
    ],
)
def test_the_way_is_what_is_given_else_what_is_usual(key, raising, expected):
    assert way(key, **raising) == expected


@pytest.mark.parametrize(
    ("raising", "steps"),
    [
        (None, ("prick out", "harden off")),
        ({"way": "cells"}, ("harden off",)),
        ({"way": "blocks"}, ("harden off",)),
        ({"way": "pots"}, ("harden off",)),
        ({"way": "pricked out"}, ("prick out", "harden off")),
        ({"way": "nursery bed"}, ()),
    ],
)
def test_the_way_of_raising_decides_on_pricking_out(raising, steps):
    found = dates("broccoli", raising=raising)
    there = {"prick out": found.prick_out, "pot on": found.pot_on, "harden off": found.harden_off}
    assert tuple(name for name, at in there.items() if at is not None) == steps


def test_what_is_sown_directly_into_cells_can_still_be_pricked_out():
    assert dates("lettuce").prick_out is None
    assert dates("lettuce", raising={"way": "pricked out"}).prick_out is not None


# -- outgrown ---------------------------------------------------------------------------------------


def test_a_plant_in_its_usual_cell_is_not_potted_on_in_its_usual_time():
    for key in ("tomato", "leek", "celeriac", "broccoli", "lettuce", "courgette", "sweet_pepper"):
        assert dates(key).pot_on is None, key


def test_a_plant_kept_longer_than_its_figures_say_is_potted_on():
    """Tomatoes are spoilt in their cells after six weeks (udel_transplants), or a week more than their usual time."""
    late = dates("tomato", pinned_dates={"sow": D(2026, 2, 1), "set_out": D(2026, 5, 1)})
    assert late.prick_out is not None
    assert late.pot_on is not None
    assert late.pot_on.day == D(2026, 2, 1) + dt.timedelta(weeks=7)
    assert late.pot_on.source == "practice"


def test_small_cells_are_outgrown_sooner():
    pins = {"sow": D(2026, 3, 1), "set_out": D(2026, 5, 1)}
    usual = dates("cabbage", raising={"way": "cells"}, pinned_dates=pins)
    small = dates("cabbage", raising={"way": "cells", "cells": 392}, pinned_dates=pins)
    assert usual.pot_on is None
    assert small.pot_on is not None
    assert small.pot_on.day == D(2026, 3, 29), "four weeks in cells of less than 2 cm"


def test_nothing_is_potted_on_just_before_it_is_hardened_off():
    pins = {"sow": D(2026, 3, 1), "set_out": D(2026, 4, 12)}  # hardened off from 4 April on
    assert dates("cabbage", raising={"way": "cells", "cells": 392}, pinned_dates=pins).pot_on is None


def test_potting_on_can_be_set_by_hand():
    found = dates("lettuce", pinned_dates={"sow": D(2026, 3, 25), "pot_on": D(2026, 4, 10)})
    assert found.pot_on is not None
    assert (found.pot_on.day, found.pot_on.origin) == (D(2026, 4, 10), "by hand")
    with pytest.raises(ValueError, match="the potting on 2026-03-01 is before the sowing"):
        dates("lettuce", pinned_dates={"sow": D(2026, 3, 25), "pot_on": D(2026, 3, 1)})


def test_potting_on_is_work_and_can_be_ticked():
    from planner.amounts.tasks import planting_tasks
    from planner.garden import edits as e

    one = planting(
        crop="cabbage",
        start="raised",
        first=D(2026, 5, 1),
        raising={"way": "cells", "cells": 392},
        pinned_dates={"sow": D(2026, 3, 1), "set_out": D(2026, 5, 1)},
    )
    document = garden(bed(name="North"), one, climate=CLIMATE)
    (task,) = (task for task in planting_tasks(Plan(document, 2026), one) if task.kind == "pot on")
    words = "Pot on cabbage for North, 24 plants, into 24 pots of 9 cm, 7.8 l of mix."
    assert (task.date, task.text) == (D(2026, 3, 29), words)
    done = e.tick(document, "p1", "pot on", D(2026, 4, 2))
    assert Plan(done, 2026).dates(one).pot_on.day == D(2026, 4, 2)  # type: ignore[union-attr]


# -- benches ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "kinds"),
    [
        ("cabbage", ["heated", "cool", "cold frame"]),
        ("cucumber", ["heated", "cold frame"]),  # loves warmth
        ("corn_salad", ["cool", "cold frame"]),  # comes up best in 15 degrees
    ],
)
def test_a_planting_goes_from_bench_to_bench(key, kinds):
    found = dates(key)
    there = on_benches(figures(key), found)
    assert [one.kind for one in there] == kinds
    assert found.sow is not None
    assert found.indoors == (there[0].first, there[-1].last)
    for one, after in itertools.pairwise(there):
        assert after.first == one.last + dt.timedelta(days=1)
    assert found.harden_off is not None
    assert there[-1].first == found.harden_off.day
    if kinds[:2] == ["heated", "cool"]:
        assert found.emerge is not None
        assert there[1].first == found.emerge.day


def test_nothing_stands_on_a_bench_that_is_not_raised():
    found = dates("one", catalogue_of(crop("one", weeks_to_raise=4, **FIGURES)))
    assert on_benches(PlantingFigures(crop("one"), None), found)
    sown = Plan(garden(bed(), planting(crop="carrot")), 2026)
    assert on_benches(figures("carrot"), sown.dates(sown.garden.plantings[0])) == ()
