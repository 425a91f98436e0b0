"""Work that comes back every year on what stays for years: one list, a record of its own for each year."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.amounts.tasks import planting_tasks, tasks
from planner.crops import Catalogue
from planner.garden import Climate, Cover, FrostDates, Garden, Planting, Support
from planner.garden import edits as e
from planner.garden.edits.ticks import YEARLY
from planner.plan import Plan
from planner.season.practice import stays_for_years
from planner.season.tasks import Task

D = dt.date
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
#: A perennial with every kind of yearly work that its dates give: mulch, covers, film and harvest.
STRAWBERRY = planting(
    crop="strawberry",
    start="standing",
    year=2020,
    first=D(2020, 3, 1),
    covers=(Cover(kind="netting"), Cover(kind="film")),
    support=Support(kind="wire"),
)


def document(one: Planting = STRAWBERRY) -> Garden:
    return garden(bed(), one, climate=CLIMATE)


def by_kind(made: Garden, year: int, catalogue: Catalogue) -> dict[str, Task]:
    one = made.plantings[0]
    found = planting_tasks(Plan(made, year, catalogue), one)
    return {task.kind: task for task in reversed(found)}  # the first of what is done again and again


@pytest.mark.parametrize("kind", YEARLY)
def test_ticks_of_two_years_are_both_kept_and_a_second_one_of_a_year_corrects_it(kind):
    made = e.tick(document(), "p1", kind, D(2024, 6, 1))
    made = e.tick(made, "p1", kind, D(2025, 6, 10))
    assert [record.day for record in made.records] == [D(2024, 6, 1), D(2025, 6, 10)]
    made = e.tick(made, "p1", kind, D(2025, 6, 20))
    assert [record.day for record in made.records] == [D(2024, 6, 1), D(2025, 6, 20)]
    assert [record.day for record in e.untick(made, "p1", kind, D(2025, 6, 20)).records] == [D(2024, 6, 1)]
    assert e.untick(made, "p1", kind).records == ()


def test_earthing_up_is_recorded_anew_each_year(catalogue):
    artichoke = planting(crop="jerusalem_artichoke", start="tubers", year=2023, first=D(2023, 4, 1))
    made = e.tick(document(artichoke), "p1", "earth up", D(2024, 6, 1))
    made = e.tick(made, "p1", "earth up", D(2025, 6, 10))
    for year, day in ((2024, D(2024, 6, 1)), (2025, D(2025, 6, 10))):
        work = by_kind(made, year, catalogue)["earth up"]
        assert (work.date, work.done, work.key) == (day, day, f"p1/earth-up/{year}")


@pytest.mark.parametrize("kind", ["film down", "cover on", "mulch", "pick"])
def test_work_ticked_off_in_one_year_is_due_again_in_the_next(kind, catalogue):
    made = e.tick(document(), "p1", kind, D(2024, 6, 3))
    before, then, after = (by_kind(made, year, catalogue)[kind] for year in (2023, 2024, 2025))
    assert (then.date, then.done, then.origin) == (D(2024, 6, 3), D(2024, 6, 3), "done")
    for work, year in ((before, 2023), (after, 2025)):
        assert (work.date.year, work.until.year, work.done, work.origin) == (year, year, None, "worked out")
    assert len({before.key, then.key, after.key}) == 3
    due = tasks(Plan(made, 2025, catalogue))
    assert kind in {task.kind for task in due}
    assert all(task.done is None for task in due)


def test_a_support_goes_up_once_and_its_tick_holds_in_every_year(catalogue):
    assert "support up" not in YEARLY
    made = e.tick(document(), "p1", "support up", D(2021, 3, 4))
    for year in (2021, 2025):
        work = by_kind(made, year, catalogue)["support up"]
        assert (work.date, work.done, work.key) == (D(2021, 3, 4), D(2021, 3, 4), "p1/support-up/wire")
    corrected = e.tick(made, "p1", "support up", D(2022, 3, 5))
    assert [record.day for record in corrected.records] == [D(2022, 3, 5)]


def test_the_list_holds_all_work_whose_date_moves_with_the_year(catalogue):
    """Earthing up is worked out for the first year only, lifting is of what does not stay; both are recorded each year."""
    moving = set()
    for key, crop in catalogue.crops.items():
        if not stays_for_years(crop):
            continue
        for start in crop.starts.value if crop.starts else ("sown",):
            one = planting(
                crop=key,
                start=start,
                year=2020,
                first=D(2020, 4, 1),
                covers=(
                    Cover(kind="netting"),
                    Cover(kind="fleece"),
                    Cover(kind="film"),
                    Cover(kind="low tunnel"),
                ),
                support=Support(kind="wire"),
            )
            days: dict[str, set[dt.date]] = {}
            for year in (
                2024,
                2025,
                2026,
                2028,
                2032,
            ):  # work of every four, five and six years is in two of them
                for kind, work in by_kind(document(one), year, catalogue).items():
                    days.setdefault(kind, set()).add(work.date)
            moving |= {kind for kind, found in days.items() if len(found) > 1}
    elsewhere = {"earth up again"}  # of potatoes and leeks, which do not stay
    lasting = {"film up"}  # of film that is given its last day: else it lies as long as its planting
    assert moving == set(YEARLY) - {"earth up", "lift and cure"} - elsewhere - lasting
