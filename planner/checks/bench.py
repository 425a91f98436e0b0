"""Room for young plants on the benches of the garden."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial

from planner.amounts.bench import BenchDays, BenchYear, bench_year
from planner.amounts.raising import Standing
from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.crops.containers import Container, smaller
from planner.errors import BedwrightError
from planner.garden import Garden, Planting
from planner.garden import edits as e
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.raising import way_of_raising
from planner.season.spans import Span
from planner.words import capital, join_list, later, say, say_count

CHECK = "bench"
#: Plants are raised so much later where there is no room for them, the least first. [days]
LATER = (7, 14)
#: A cell may be narrower than the least width that is printed by this share of it: trays come in steps.
NARROWER = 0.05
#: Plantings that are named; of more their number is told.
MOST_NAMED = 4

_RULE = later("Young plants have room on their bench until they are set out")
_LATER_WORDS = {
    7: later("Raise {crops} a week later"),
    14: later("Raise {crops} two weeks later"),
}


def check(context: CheckContext) -> Iterator[Finding]:
    """Report benches on which more trays would stand than they hold; nothing where no benches are entered."""
    plan = context.plan
    if not plan.garden.benches:
        return
    year = bench_year(plan)
    for there in year.benches:
        for span in there.too_full():
            yield _too_small(plan, year, there, span)


def _too_small(plan: Plan, year: BenchYear, there: BenchDays, span: Span) -> Finding:
    days = [shift(span.first, number) for number in range((span.last - span.first).days + 1)]
    fullest = max(days, key=there.on)
    standing = _by_share(year.standing_on(there.bench.id, Span(fullest, fullest)))
    views = _views(plan, standing)
    text = say_count(
        "{bench} holds {count} tray; from {first} to {last} up to {trays} would stand on it: {crops}",
        "{bench} holds {count} trays; from {first} to {last} up to {trays} would stand on it: {crops}",
        there.capacity,
        bench=there.bench.name,
        first=views[0].day(span.first),
        last=views[0].day(span.last),
        trays=there.on(fullest),
        crops=_names(views),
    )
    found = planting_finding(
        CHECK,
        "mind",
        views,
        capital(text),
        say(_RULE),
        "practice",
        [there.bench.id, there.capacity, there.on(fullest), str(span.first), str(span.last)],
        span,
        topic=there.bench.id,
        candidates=lambda plan: _mends(plan, there.bench.id, span),
    )
    return replace(found, kind="full", about=there.bench.name)


def _by_share(standing: Iterable[Standing]) -> list[Standing]:
    """What stands on a bench, what takes most of it first."""
    return sorted(standing, key=lambda one: (-one.share, one.planting))


def _views(plan: Plan, standing: Iterable[Standing]) -> list[PlantingView]:
    keys = dict.fromkeys(one.planting for one in standing)
    return [planting_view(plan, plan.garden.plantings_by_id[key]) for key in keys]


def _names(views: Iterable[PlantingView]) -> str:
    """The crops of some plantings; of many those that take most room and how many more there are."""
    names = list(dict.fromkeys(view.crop_name for view in views))
    if len(names) <= MOST_NAMED + 1:
        return join_list(names)
    more = say_count("{count} more crop", "{count} more crops", len(names) - MOST_NAMED)
    return join_list([*names[:MOST_NAMED], more])


def _in_beds(views: Iterable[PlantingView]) -> str:
    """Plantings with their beds."""
    return join_list([view.name for view in views])


# -- mends -----------------------------------------------------------------------------------------


def _mends(plan: Plan, bench: str, span: Span) -> Iterator[Fix]:
    """Raise some plantings later, or in smaller cells, so that there is room: as few as will do."""
    before = bench_year(plan)
    there = next((one for one in before.benches if one.bench.id == bench), None)
    if there is None:
        return
    others = set(there.too_full()) - {span}
    views = _views(plan, _by_share(before.standing_on(bench, span)))
    gain = say("there is room for them on {bench}", bench=there.bench.name)

    def enough(garden: Garden) -> bool:
        after = bench_year(plan.what_if(garden))
        return all(set(one.too_full()) <= others for one in after.benches if one.bench.id == bench)

    for days in LATER:
        found = _fewest(plan.garden, views, partial(_later, days=days), enough)
        if found is not None:
            chosen, edit = found
            yield Fix(say(_LATER_WORDS[days], crops=_in_beds(chosen)), gain, edit)
    found = _fewest(plan.garden, views, _in_smaller_cells, enough)
    if found is not None:
        yield Fix(say("Raise {crops} in smaller cells", crops=_in_beds(found[0])), gain, found[1])
    found = _fewest(plan.garden, [view for view in views if _can_be_bought(view)], _bought, enough)
    if found is not None:
        yield Fix(say("Buy plants of {crops}", crops=_in_beds(found[0])), gain, found[1])


#: An edit of one planting; None where it cannot be made.
_Edit = Callable[[PlantingView], Callable[[Garden], Garden] | None]


def _fewest(
    garden: Garden, views: Iterable[PlantingView], edit_of: _Edit, enough: Callable[[Garden], bool]
) -> tuple[list[PlantingView], Callable[[Garden], Garden]] | None:
    """Plantings that are to be changed so that there is room, and the edit of all of them; None where it does not help.

    One alone where that is enough, else one after the other, what takes most room first.

    Parameters
    ----------
    garden : Garden
    views : iterable of PlantingView
    edit_of : callable
    enough : callable
        Whether there is room in an edited garden.
    """
    edits = [(view, edit) for view in views if (edit := edit_of(view)) is not None]
    for view, edit in edits:
        after = _applied(garden, [edit])
        if after is not None and enough(after):
            return [view], edit
    chosen: list[tuple[PlantingView, Callable[[Garden], Garden]]] = []
    for pair in edits:
        after = _applied(garden, [*(edit for _, edit in chosen), pair[1]])
        if after is None:
            continue
        chosen.append(pair)
        if len(chosen) > 1 and enough(after):
            return [view for view, _ in chosen], partial(_apply, edits=tuple(edit for _, edit in chosen))
    return None


def _apply(garden: Garden, edits: Iterable[Callable[[Garden], Garden]]) -> Garden:
    for edit in edits:
        garden = edit(garden)
    return garden


def _applied(garden: Garden, edits: Iterable[Callable[[Garden], Garden]]) -> Garden | None:
    try:
        return _apply(garden, edits)
    except BedwrightError:
        return None


def _later(view: PlantingView, days: int) -> Callable[[Garden], Garden]:
    return fixes.start_on(view, shift(view.span.first, days), "").apply


def _can_be_bought(view: PlantingView) -> bool:
    """Whether plants of a crop are sold."""
    starts = view.figures.crop.starts if view.figures.crop is not None else None
    return starts is not None and "bought" in starts.value


def _bought(view: PlantingView) -> Callable[[Garden], Garden]:
    return fixes.changed(view.planting, start="bought", raising=None)


def _in_smaller_cells(view: PlantingView) -> Callable[[Garden], Garden] | None:
    """Raise a planting in the next smaller cells; None where they are narrower than is printed for its crop."""
    way = way_of_raising(view.planting, view.figures)
    container = way.container
    narrower = smaller(container) if container is not None else None
    if narrower is None or narrower.width < _least_width(view, container) * (1 - NARROWER):
        return None
    return partial(_in_cells, planting=view.planting, way=way.way, cells=narrower.per_tray)


def _least_width(view: PlantingView, container: Container | None) -> float:
    """The least width of cell that is printed for a crop; where none is, that of the tray it is usually raised in. [m]"""
    figure = view.figures.crop.cell_width if view.figures.crop is not None else None
    if figure is not None and figure.least is not None:
        return figure.least
    usual = way_of_raising(view.planting.with_(raising=None), view.figures)
    if usual.source != "practice" and usual.container is not None:
        return usual.container.width
    return 0.0 if container is not None else 1.0


def _in_cells(garden: Garden, planting: Planting, way: str, cells: int) -> Garden:
    return e.change_planting(garden, planting.id, raising={"way": way, "cells": cells})
