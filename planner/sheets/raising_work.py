"""What is done on the benches, for paper: sown, pricked out, moved, hardened off and set out, each with its measures."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from planner.amounts.bench import BenchYear
from planner.amounts.bench_moves import bench_moves
from planner.amounts.raising import Raised, raised
from planner.amounts.trays_in_use import benches_of, sharing_trays
from planner.amounts.work import work_between
from planner.garden import Planting
from planner.garden.units import show_area, show_temperature
from planner.lazy import lazy_property
from planner.listings.phrases import BY_HAND
from planner.listings.raising import bench_name, sort_of
from planner.plan import Plan
from planner.season.container_words import filled_words
from planner.season.frosts import shift
from planner.season.raising import Fill
from planner.season.tasks import Task, monday
from planner.sheets.sheet_year import SheetYear
from planner.sheets.sowing_words import plants_words
from planner.sheets.tape_measure import TapeMeasure
from planner.sheets.week_work import spacing_words
from planner.words import capital, day_words, join_list, later, say, say_count, whole_words

#: What is done with raised plants until they stand in their bed, and how it is called, in the order of one day.
_WORK = {
    "sow": later("sow"),
    "prick out": later("prick out"),
    "pot on": later("pot on"),
    "move": later("move"),
    "harden off": later("harden off"),
    "set out": later("set out"),
}
_ORDER = {kind: number for number, kind in enumerate(_WORK)}
#: So many crops at most are named that share a tray with another.
_MOST_NAMED = 3
#: Light in which seed comes up, where it is not all the same to it.
_LIGHT = {"light": later("needs light: do not cover"), "dark": later("keep dark until it is up")}


@dataclass(frozen=True)
class RaisingLine:
    """A piece of work on the raising sheet.

    Attributes
    ----------
    day : date
    kind : str
        ``sow``, ``prick out``, ``pot on``, ``move``, ``harden off`` or ``set out``.
    planting, crop, bed : str
        Id of the planting; crop with variety, and its bed with the letter of its plot, as shown.
    day_text, work, number, how : str
        Day, what is done, with how many in what, and with what measures, in words.
    litres : float
        Mix that is filled. [l]
    done : date or None
        The day it was really done.
    task : Task or None
        None of moves from bench to bench, which are no work of the plan's.
    """

    day: dt.date
    kind: str
    planting: str
    crop: str
    bed: str
    day_text: str
    work: str
    number: str
    how: str
    litres: float
    done: dt.date | None
    task: Task | None


@dataclass(frozen=True)
class RaisingWeek:
    """A week of raising: its work in the order of its days, and the mix for it. [l]"""

    monday: dt.date
    lines: tuple[RaisingLine, ...]

    @property
    def litres(self) -> float:
        """Mix in all that is filled. [l]"""
        return sum(line.litres for line in self.lines)


class RaisingWork:
    """The raising of a growing year.

    Parameters
    ----------
    plan : Plan
    """

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.measure = TapeMeasure(plan.garden.site.units)
        self._year = SheetYear(plan)

    @property
    def entered(self) -> bool:
        """Whether the garden has benches of its own; else what a bench of each kind would hold is told."""
        return bool(self.plan.garden.benches)

    @lazy_property
    def benches(self) -> BenchYear:
        """The benches of the year, or those wanted where none are entered."""
        return benches_of(self.plan)

    def bench_name(self, bench: str) -> str:
        """Name of a bench by its id; of no bench, in the open."""
        return bench_name(self.plan, bench)

    def crop_of(self, planting: str) -> str:
        """Crop and variety of a raised planting by its id, as shown."""
        part = raised(self.plan, self.plan.garden.plantings_by_id[planting])
        return sort_of(part) if part is not None else ""

    @lazy_property
    def weeks(self) -> tuple[RaisingWeek, ...]:
        """Weeks in which there is something to do, in order."""
        found: dict[dt.date, list[RaisingLine]] = defaultdict(list)
        for line in (*self._tasks(), *self._moves()):
            found[monday(line.day)].append(line)
        return tuple(
            RaisingWeek(
                week, tuple(sorted(found[week], key=lambda line: (line.day, _ORDER[line.kind], line.crop)))
            )
            for week in sorted(found)
        )

    # -- work ----------------------------------------------------------------------------------

    def _tasks(self) -> Iterable[RaisingLine]:
        span = self.plan.span
        for task in work_between(self.plan, span.first, span.last):
            planting = self.plan.garden.plantings_by_id.get(task.planting)
            # What goes on from the year before was begun on the sheet of that year.
            if planting is None or task.kind not in _WORK or not span.holds(task.date):
                continue
            part = raised(self.plan, planting)
            if part is not None:
                yield self._task(task, planting, part)

    def _task(self, task: Task, planting: Planting, part: Raised) -> RaisingLine:
        fill = next((one for one in part.fills if one.work == task.kind), None)
        if task.kind == "sow":
            number, how = (
                self._shared(self._sown(part, fill), planting.id, task.date),
                self._sowing(task, planting, part),
            )
        elif fill is not None:
            number, how = (
                self._shared(self._filled(fill), planting.id, task.date),
                self._where(planting.id, task.date),
            )
        elif task.kind == "harden off":
            number, how = self._standing(planting.id, task.date, part), self._hardening(task, part)
        else:
            number, how = plants_words(part.amount), self._set_out(planting)
        return RaisingLine(
            day=task.date,
            kind=task.kind,
            planting=planting.id,
            crop=capital(sort_of(part)),
            bed=self._bed(part),
            day_text=day_words(task.date, self.plan.year) + (BY_HAND if task.origin == "by hand" else ""),
            work=say(_WORK[task.kind]),
            number=number,
            how=how,
            litres=fill.litres if fill is not None else 0.0,
            done=task.done,
            task=task,
        )

    def _moves(self) -> Iterable[RaisingLine]:
        """From bench to bench on days on which nothing else is done with a planting."""
        for move in bench_moves(self.plan, self.benches):
            part = raised(self.plan, self.plan.garden.plantings_by_id[move.planting])
            if part is not None:
                yield RaisingLine(
                    day=move.day,
                    kind="move",
                    planting=move.planting,
                    crop=capital(sort_of(part)),
                    bed=self._bed(part),
                    day_text=day_words(move.day, self.plan.year),
                    work=say(_WORK["move"]),
                    number=self._standing(move.planting, move.day, part),
                    how=say("to: {bench}", bench=self.bench_name(move.to.bench)),
                    litres=0.0,
                    done=None,
                    task=None,
                )

    def _bed(self, part: Raised) -> str:
        letter = self._year.letter(part.planting.id)
        bed = part.amount.bed.name
        return (
            say("for {bed}, plot {letter}", bed=bed, letter=letter) if letter else say("for {bed}", bed=bed)
        )

    # -- measures -------------------------------------------------------------------------------

    def _sown(self, part: Raised, fill: Fill | None) -> str:
        """Seeds, in what, how many to a cell, and grams."""
        units = self.measure.units
        seeds = part.amount.seeds if part.amount.seeds is not None else part.amount.plants
        count = say_count("{count} seed", "{count} seeds", seeds)
        if fill is None:
            area = show_area(part.nursery_area, units)
            return say("{seeds} on {area} of nursery bed", seeds=count, area=area)
        trays = filled_words(fill.container, fill.number, units)
        if fill.container.kind == "seed tray":
            return say("{seeds}, scattered in {trays}", seeds=count, trays=trays)
        each = max(1, round(seeds / fill.number))
        if fill.container.kind == "cells" and each == 1:
            return say("{seeds} in {trays}", seeds=count, trays=trays)
        return say("{seeds} in {trays}, {count} to each", seeds=count, trays=trays, count=each)

    def _sowing(self, task: Task, planting: Planting, part: Raised) -> str:
        """Depth, light, warmth, days until it is up, bench and mix."""
        figures, units = self.plan.figures_of(planting), self.measure.units
        words = []
        depth, best, least = map(figures.number, ("sowing_depth", "soil_best", "soil_least"))
        if depth is not None:
            words.append(say("{depth} deep", depth=self.measure.depth(depth)))
        light = figures.crop.light_to_germinate if figures.crop is not None else None
        if light is not None and light.value in _LIGHT and not (light.value == "light" and depth):
            words.append(say(_LIGHT[str(light.value)]))
        if best is not None and least is not None and least < best:
            words.append(
                say(
                    "mix best at {best}, at least {least}",
                    best=show_temperature(best, units),
                    least=show_temperature(least, units),
                )
            )
        elif best is not None:
            words.append(say("mix best at {best}", best=show_temperature(best, units)))
        elif least is not None:
            words.append(say("mix at least {least}", least=show_temperature(least, units)))
        up = self.plan.dates(planting).emerge
        if part.emerge_days is not None and up is not None:
            day = day_words(up.day, self.plan.year)
            words.append(
                say_count("up in {count} day, {day}", "up in {count} days, {day}", part.emerge_days, day=day)
                if part.emerge_known
                else say_count(
                    "up in about {count} day (estimate)",
                    "up in about {count} days (estimate)",
                    part.emerge_days,
                )
            )
        where = self._where(planting.id, task.date)
        return "; ".join([*words, where] if where else words)

    def _filled(self, fill: Fill) -> str:
        trays = filled_words(fill.container, fill.number, self.measure.units)
        number = say_count("{count} seedling", "{count} seedlings", fill.number)
        return say("{plants} into {trays}", plants=number, trays=trays)

    def _standing(self, key: str, day: dt.date, part: Raised) -> str:
        """How many stand in what on a day."""
        for one in self.benches.placed:
            there = one.standing
            if there.planting == key and there.first <= day <= there.last:
                trays = filled_words(there.container, there.number, self.measure.units)
                if there.container.kind == "seed tray":
                    trays = say("{count} in {trays}", count=whole_words(there.number), trays=trays)
                return self._shared(trays, key, day)
        return plants_words(part.amount)

    def _shared(self, words: str, key: str, day: dt.date) -> str:
        """What is filled or moved, with those with which it shares a tray on its bench on that day."""
        others = [self.crop_of(other) for other in sharing_trays(self.benches, key, day)]
        named = list(dict.fromkeys(others))
        if len(named) > _MOST_NAMED:
            return say("{words}, shared with {count} others", words=words, count=len(others))
        return say("{words}, shared with {others}", words=words, others=join_list(named)) if named else words

    def _bench_on(self, key: str, day: dt.date) -> str | None:
        """Name of the bench on which a planting stands on a day; None where that is not known."""
        for one in self.benches.placed:
            if one.standing.planting == key and one.standing.first <= day <= one.standing.last:
                return self.bench_name(one.bench)
        return None

    def _where(self, key: str, day: dt.date) -> str:
        bench = self._bench_on(key, day)
        return say("goes to: {bench}", bench=bench) if bench else ""

    def _hardening(self, task: Task, part: Raised) -> str:
        out = self.plan.dates(part.planting).set_out
        bench = self._bench_on(part.planting.id, task.date)
        if out is None:
            return say("to: {bench}", bench=bench) if bench else ""
        until = day_words(shift(out.day, -1), self.plan.year)
        if bench is None:
            return say("until {day}", day=until)
        return say("to: {bench}, until {day}", bench=bench, day=until)

    def _set_out(self, planting: Planting) -> str:
        bed, letter = self.plan.bed_of(planting).name, self._year.letter(planting.id)
        where = say("in {bed}, plot {letter}", bed=bed, letter=letter) if letter else say("in {bed}", bed=bed)
        apart = spacing_words(self.plan, planting, self.measure)
        return say("{where}; {spacing}", where=where, spacing=apart) if apart else where

    # -- the benches ------------------------------------------------------------------------------

    def bench_lines(self, week: dt.date) -> list[str]:
        """What stands on each bench on its fullest day of a week, a sentence each without its full stop."""
        found = []
        for one in self.benches.weeks():
            if one.monday != week:
                continue
            trays = (
                say("{count} of {room} trays", count=one.trays, room=one.capacity)
                if self.entered
                else say_count("{count} tray", "{count} trays", one.trays)
            )
            if self.entered and one.free_trays < 0:
                trays = say("{trays}, {more} too many", trays=trays, more=-one.free_trays)
            found.append(say("{bench}: {trays}", bench=self.bench_name(one.bench.id), trays=trays))
        return found
