"""Room for young plants on the benches of the garden."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial
from typing import NamedTuple

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
#: Days with too many trays that are no farther apart are one finding. [days]
ONE_RUN = 21
#: Most plantings that are tried to be raised otherwise.
MOST_TRIED = 8
#: Plantings that are named; of more their number is told.
MOST_NAMED = 4

_RULE = later("Young plants have room on their bench until they are set out")
_OTHERWISE = {
    "cells": later("Raise {crops} in smaller cells"),
    "sown": later("Sow {crops} in place"),
    "bought": later("Buy plants of {crops}"),
}
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
        for span in _runs(there.too_full()):
            yield _too_small(plan, year, there, span)


def _runs(spans: Iterable[Span]) -> list[Span]:
    """Spans of days, of which those that follow each other soon are one."""
    found: list[Span] = []
    for span in spans:
        if found and (span.first - found[-1].last).days <= ONE_RUN:
            found[-1] = Span(found[-1].first, span.last)
        else:
            found.append(span)
    return found


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
        "note" if there.bench.kind == "cold frame" else "mind",  # plants are hardened off in the open, too
        views,
        capital(text),
        say(_RULE),
        "practice",
        [there.bench.id, there.capacity, there.on(fullest), str(span.first), str(span.last)],
        span,
        topic=there.bench.id,
        candidates=lambda plan: _mends(plan, there.bench.id, span),
    )
    quarter = (fullest.month - 1) // 3
    return replace(found, kind="full", subject=(there.bench.id, str(quarter)), about=there.bench.name)


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
    """Raise some plantings later, or in smaller cells, or not at all, so that there is room: as few as will do."""
    trial = _Trial.of(plan, bench, span)
    if trial is None:
        return
    gain = say("there is room for them on {bench}", bench=trial.there.bench.name)
    for days in LATER:
        found = trial.fewest(partial(_later, days=days))
        if found is not None:
            yield Fix(say(_LATER_WORDS[days], crops=_in_beds(found[0])), gain, found[1])
    for otherwise, edit in (("cells", _in_smaller_cells), ("sown", _sown_in_place), ("bought", _bought)):
        found = trial.fewest(edit)
        if found is not None:
            yield Fix(say(_OTHERWISE[otherwise], crops=_in_beds(found[0])), gain, found[1])


#: An edit of one planting; None where it cannot be made.
_Edit = Callable[[PlantingView], Callable[[Garden], Garden] | None]


#: Plantings that are changed, and the edit of all of them.
_Chosen = tuple[list[PlantingView], Callable[[Garden], Garden]]


class _Trial(NamedTuple):
    """What is tried so that a bench has room in a span of days.

    Attributes
    ----------
    plan : Plan
    there : BenchDays
        The bench.
    span : Span
    views : list of PlantingView
        What stands on it then, what takes most room first.
    trays : dict of str to float
        Of each of them, at most.
    """

    plan: Plan
    there: BenchDays
    span: Span
    views: list[PlantingView]
    trays: dict[str, float]

    @classmethod
    def of(cls, plan: Plan, bench: str, span: Span) -> _Trial | None:
        """None where the garden has no such bench."""
        year = bench_year(plan)
        there = next((one for one in year.benches if one.bench.id == bench), None)
        if there is None:
            return None
        standing = _by_share(year.standing_on(bench, span))
        trays: dict[str, float] = {}
        for one in standing:
            trays[one.planting] = max(trays.get(one.planting, 0.0), one.number / one.container.per_tray + 1)
        return cls(plan, there, span, _views(plan, standing)[:MOST_TRIED], trays)

    @property
    def too_many(self) -> int:
        """Trays too many on the fullest day."""
        days = (self.span.last - self.span.first).days + 1
        return (
            max(self.there.on(shift(self.span.first, number)) for number in range(days)) - self.there.capacity
        )

    def enough(self, chosen: Iterable[PlantingView], garden: Garden) -> bool:
        """Whether there is room in an edited garden in which some plantings were changed."""
        if sum(self.trays[view.id] for view in chosen) < self.too_many:  # no need to look
            return False
        before = self.there.too_full()
        for after in bench_year(self.plan.what_if(garden)).benches:
            if after.bench.id == self.there.bench.id:
                return all(span in before and not span.meets(self.span) for span in after.too_full())
        return False

    def fewest(self, edit_of: _Edit) -> _Chosen | None:
        """Plantings to be changed so that there is room, and the edit of all of them; None where it does not help.

        One alone where that is enough, else one after the other, what takes most room first.
        """
        garden = self.plan.garden
        edits = [(view, edit) for view in self.views if (edit := edit_of(view)) is not None]
        for view, edit in edits:
            after = _applied(garden, [edit])
            if after is not None and self.enough([view], after):
                return [view], edit
        chosen: list[tuple[PlantingView, Callable[[Garden], Garden]]] = []
        for pair in edits:
            after = _applied(garden, [*(edit for _, edit in chosen), pair[1]])
            if after is None:
                continue
            chosen.append(pair)
            views = [view for view, _ in chosen]
            if len(chosen) > 1 and self.enough(views, after):
                return views, partial(_apply, edits=tuple(edit for _, edit in chosen))
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


def _may_start(view: PlantingView, start: str) -> bool:
    """Whether a crop is also started in another way."""
    starts = view.figures.crop.starts if view.figures.crop is not None else None
    return starts is not None and start in starts.value


def _bought(view: PlantingView) -> Callable[[Garden], Garden] | None:
    """Buy the plants; None where none of the crop are sold."""
    return fixes.changed(view.planting, start="bought", raising=None) if _may_start(view, "bought") else None


def _sown_in_place(view: PlantingView) -> Callable[[Garden], Garden] | None:
    """Sow where it is to grow, on the day on which it would be set out; None where its crop is always raised."""
    if not _may_start(view, "sown"):
        return None
    pins = view.planting.pinned_dates.with_(
        sow=None, prick_out=None, pot_on=None, harden_off=None, set_out=None
    )
    return fixes.changed(view.planting, start="sown", raising=None, first=view.span.first, pinned_dates=pins)


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
