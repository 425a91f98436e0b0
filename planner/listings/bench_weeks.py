"""A bench in a week, in words: what stands there, and what is free."""

from __future__ import annotations

from planner.amounts.bench import BenchWeek, BenchYear
from planner.garden.units import show_area
from planner.listings.phrases import days_in_short
from planner.listings.raising import names_of
from planner.plan import Plan
from planner.season.frosts import shift
from planner.words import join_list, number_words, say, say_count


def week_words(plan: Plan, year: BenchYear, week: BenchWeek, *, entered: bool) -> str:
    """Say how many trays stand on a bench on the fullest day of a week, what is free, and what stands there.

    Parameters
    ----------
    plan : Plan
    year : BenchYear
    week : BenchWeek
        One of its weeks.
    entered : bool
        The garden has this bench; else nothing is said of what is free.
    """
    lines = [_trays(plan, week)]
    if entered:
        lines.append(_room(plan, week))
    there = year.trays_on(week.bench.id, week.day)
    by_crop: dict[str, float] = {}
    for name, trays in zip(names_of(plan, there), there.values(), strict=True):
        by_crop[name] = by_crop.get(name, 0.0) + trays
    crops = [
        say("{crop} {trays}", crop=name, trays=number_words(trays, 1))
        for name, trays in sorted(by_crop.items(), key=lambda pair: -pair[1])
    ]
    lines.append(say("Trays: {crops}", crops=join_list(crops)))
    others = [name for name in dict.fromkeys(names_of(plan, week.plantings)) if name not in by_crop]
    if others:
        lines.append(say("On other days of the week also {crops}", crops=join_list(others)))
    return " ".join(f"{line}." for line in lines)


def _trays(plan: Plan, week: BenchWeek) -> str:
    return say_count(
        "{days}: {count} tray, {area}",
        "{days}: {count} trays, {area}",
        week.trays,
        days=days_in_short(week.monday, shift(week.monday, 6)),
        area=show_area(week.taken, plan.garden.site.units),
    )


def _room(plan: Plan, week: BenchWeek) -> str:
    free = week.free_trays
    if free < 0:
        return say_count("{count} tray too many", "{count} trays too many", -free)
    if not free:
        return say("No tray more has room")
    area = show_area(week.free, plan.garden.site.units)
    return say_count(
        "Room for {count} tray more, {area} is free",
        "Room for {count} trays more, {area} is free",
        free,
        area=area,
    )
