"""The benches of a garden as pictures over the weeks of a growing year."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.amounts.bench import BenchWeek, BenchYear, bench_year, benches_wanted
from planner.desk.pages.stacked_weeks import Band, Stack
from planner.garden.raising import Bench
from planner.listings.raising import bench_words, names_of
from planner.plan import Plan
from planner.season.tasks import monday
from planner.words import later, say, say_in_context

_WEEK = dt.timedelta(days=7)
#: Titles of benches that the garden does not have.
_WANTED_TITLES = {
    "heated": later("On a heated bench would stand"),
    "cool": later("On a cool bench would stand"),
    "cold frame": later("In a cold frame would stand"),
}


@dataclass(frozen=True)
class BenchStack:
    """One bench over the year.

    Attributes
    ----------
    bench : Bench
    entered : bool
        The garden has it; else it is one that would be wanted.
    title : str
        The bench in words.
    stack : Stack
        Trays on the fullest day of each week, a band a planting.
    weeks : tuple of (BenchWeek or None)
        For each Monday of the stack; None where nothing stands there.
    year : BenchYear
    """

    bench: Bench
    entered: bool
    title: str
    stack: Stack
    weeks: tuple[BenchWeek | None, ...]
    year: BenchYear

    @property
    def fullest(self) -> int:
        """Number of the first of its fullest weeks, -1 where it stays empty."""
        trays = [week.trays if week is not None else 0 for week in self.weeks]
        return trays.index(max(trays)) if any(trays) else -1


def bench_stacks(plan: Plan) -> tuple[BenchStack, ...]:
    """Make a picture of each bench that the garden has; without any, of those kinds that would be wanted.

    Parameters
    ----------
    plan : Plan
    """
    entered = bool(plan.garden.benches)
    year = bench_year(plan) if entered else benches_wanted(plan)
    mondays = _mondays(plan)
    weeks: dict[str, dict[dt.date, BenchWeek]] = {there.bench.id: {} for there in year.benches}
    for week in year.weeks():
        weeks[week.bench.id][week.monday] = week
    return tuple(
        _of_bench(plan, year, there.bench, tuple(map(weeks[there.bench.id].get, mondays)), entered=entered)
        for there in year.benches
        if entered or weeks[there.bench.id]
    )


def _mondays(plan: Plan) -> tuple[dt.date, ...]:
    first, last = monday(plan.span.first), plan.span.last
    return tuple(first + number * _WEEK for number in range((last - first).days // 7 + 1))


def _of_bench(
    plan: Plan, year: BenchYear, bench: Bench, weeks: tuple[BenchWeek | None, ...], *, entered: bool
) -> BenchStack:
    units = plan.garden.site.units
    values: dict[str, list[float]] = {}
    for number, week in enumerate(weeks):
        if week is None:
            continue
        for key, trays in year.trays_on(bench.id, week.day).items():
            values.setdefault(key, [0.0] * len(weeks))[number] = trays
    capacity = next(there.capacity for there in year.benches if there.bench.id == bench.id)
    stack = Stack(
        mondays=_mondays(plan),
        span=plan.span,
        bands=tuple(
            Band(key, name, _family(plan, key), tuple(values[key]))
            for key, name in zip(values, names_of(plan, values), strict=True)
        ),
        limit=(float(capacity),) * len(weeks) if entered else (),
        limit_name=say("room for {count}", count=capacity) if entered else "",
        unit=say_in_context("beside an axis", "trays"),
        limits_below=entered,
        least_step=1.0,
    )
    title = bench_words(bench, units) if entered else say(_WANTED_TITLES[bench.kind])
    return BenchStack(bench, entered, title, stack, weeks, year)


def _family(plan: Plan, planting: str) -> str:
    crop = plan.figures_of(plan.garden.plantings_by_id[planting]).crop
    return crop.family if crop is not None else ""
