"""A week's work for paper: by person, then by bed as one walks, in the order in which it is done, with its measures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace

from planner.amounts.bench_moves import BenchMove, bench_moves
from planner.amounts.covers import LaidCover
from planner.amounts.plants import Amount, amount
from planner.amounts.raising import raised
from planner.amounts.supports import put_up
from planner.amounts.trays_in_use import benches_of
from planner.garden import Planting
from planner.garden.volumes import show_volume
from planner.listings.phrases import BY_HAND, days_in_short
from planner.listings.raising import bench_name, names_of
from planner.listings.tasks import task_words
from planner.listings.weeks import Week
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order
from planner.season.container_words import filled_words
from planner.season.spans import growing_year
from planner.season.tasks import WORK_ORDER, Task, monday
from planner.sheets.material_words import (
    already_lies,
    arch_words,
    folded_back_words,
    shared_cover_words,
    spread_words,
    support_words,
)
from planner.sheets.sheet_year import SheetYear
from planner.sheets.sowing_words import depth_words, how_words, plants_words, seed_words
from planner.sheets.spread_remarks import standing_remark
from planner.sheets.tape_measure import TapeMeasure
from planner.sheets.work_order import place_in_day
from planner.words import capital, say, uncapital, whole_words

#: Work that only tells what comes next.
TELLS = ("sow the next",)


@dataclass(frozen=True)
class WeekLine:
    """A piece of work on a week's sheet.

    Attributes
    ----------
    task : Task or None
        None of moves from bench to bench, which are no work of the plan's.
    letter : str
        Of its plot on the bed's sheet; may be empty.
    days : str
    work, details : str
        What is done, and with what measures and amounts.
    told : bool
        It only tells what comes next, and has no box.
    """

    task: Task | None
    letter: str
    days: str
    work: str
    details: str
    told: bool


@dataclass(frozen=True)
class BedWork:
    """The work in a bed in a week, in the order in which it is done; indoors, where its id is empty."""

    bed: str
    bed_id: str
    lines: tuple[WeekLine, ...]


@dataclass(frozen=True)
class PersonWork:
    """The work of a person in a week; of nobody in particular where the name is empty."""

    person: str
    beds: tuple[BedWork, ...]


class WeekWork:
    """Work as sheets list it: what is done on benches and in the shed is a part of its own, with moves from bench to bench.

    Parameters
    ----------
    plan : Plan
    beds, tended_by : collection of str, optional
        Of which beds and persons moves are listed; all by default.
    """

    def __init__(
        self,
        plan: Plan,
        *,
        beds: Collection[str] | None = None,
        tended_by: Collection[str] | None = None,
    ) -> None:
        self._plan = plan
        self._of_beds, self._of_persons = beds, tended_by
        self._years: dict[int, SheetYear] = {plan.year: SheetYear(plan)}
        self._walks: dict[int, dict[str, int]] = {}
        self.measure = TapeMeasure(plan.garden.site.units)

    def of_week(self, week: Week, year: int) -> tuple[PersonWork, ...]:
        """The work of a week; those who are named first, by name, and of each what is indoors, then the beds in walking order.

        Parameters
        ----------
        week : Week
        year : int
            The growing year in which it lies.
        """
        if year not in self._years:
            self._years[year] = SheetYear(self._plan.after(self._plan.garden, year))
        walk = self._walk(year)
        begun = {(task.planting, task.date) for task in week.begins if task.kind in ("sow", "set out")}
        begins = sorted(
            week.begins,
            key=lambda task: (task.date, _rank(task, begins=(task.planting, task.date) in begun)),
        )
        goes_on = sorted(
            (task for task in week.goes_on if task.is_open or task.kind in ("pick", "lift and cure")),
            key=_rank,
        )
        found: dict[str, dict[str, list[WeekLine]]] = {}
        indoors: dict[str, list[tuple[dt.date, WeekLine]]] = {}
        for task in (*goes_on, *begins):
            planting = self._plan.garden.plantings_by_id.get(task.planting)
            person = planting.tended_by if planting is not None else ""
            line = self._line(task, planting, week, self._years[year])
            if planting is not None and is_indoors(self._years[year].plan, planting, task):
                indoors.setdefault(person, []).append((task.date, self._for_bed(line, task.bed_name)))
                found.setdefault(person, {})
                continue
            found.setdefault(person, {}).setdefault(task.bed, []).append(line)
        for person, move, line in self._moves(week, year):
            indoors.setdefault(person, []).append((move.day, line))
            found.setdefault(person, {})
        return tuple(
            PersonWork(
                person,
                (
                    *_indoor_work(indoors.get(person, ())),
                    *(
                        BedWork(self._plan.garden.beds_by_id[bed].name, bed, tuple(lines))
                        for bed, lines in sorted(beds.items(), key=lambda item: walk[item[0]])
                    ),
                ),
            )
            for person, beds in sorted(found.items(), key=lambda item: (not item[0], item[0].casefold()))
        )

    def with_moves(self, found: Iterable[Week], first: dt.date, last: dt.date) -> tuple[Week, ...]:
        """Weeks of a span, and those in which something is only moved from bench to bench.

        Parameters
        ----------
        found : iterable of Week
        first, last : date
        """
        weeks = {week.monday: week for week in found}
        site = self._plan.garden.site
        for year in range(growing_year(site, first), growing_year(site, last) + 1):
            plan = self._plan.after(self._plan.garden, year)
            for move in bench_moves(plan, benches_of(plan)):
                if first <= move.day <= last and self._wanted(plan.garden.plantings_by_id[move.planting]):
                    weeks.setdefault(monday(move.day), Week(monday(move.day), ()))
        return tuple(weeks[at] for at in sorted(weeks))

    def _for_bed(self, line: WeekLine, bed: str) -> WeekLine:
        """A line of work indoors, which says for which bed it is."""
        details = (
            say("for {bed}; {details}", bed=bed, details=uncapital(line.details))
            if line.details
            else say("for {bed}", bed=bed)
        )
        return replace(line, details=details)

    def _moves(self, week: Week, year: int) -> Iterator[tuple[str, BenchMove, WeekLine]]:
        """Who moves what from bench to bench in a week."""
        of_year = self._years[year]
        plan = of_year.plan
        for move in bench_moves(plan, benches_of(plan)):
            planting = plan.garden.plantings_by_id[move.planting]
            if monday(move.day) != week.monday or not self._wanted(planting):
                continue
            standing = move.to.standing
            line = WeekLine(
                None,
                of_year.letter(planting.id),
                days_in_short(move.day, move.day),
                say("Move {crop}", crop=names_of(plan, [planting.id])[0]),
                say(
                    "for {bed}; {containers}; to: {bench}",
                    bed=plan.bed_of(planting).name,
                    containers=filled_words(standing.container, standing.number, self.measure.units),
                    bench=bench_name(plan, move.to.bench),
                ),
                told=False,
            )
            yield planting.tended_by, move, line

    def _wanted(self, planting: Planting) -> bool:
        beds, persons = self._of_beds, self._of_persons
        return (beds is None or planting.bed in beds) and (persons is None or planting.tended_by in persons)

    def _walk(self, year: int) -> dict[str, int]:
        """Place of each bed on the walk of a growing year; those that are not in use come last."""
        if year not in self._walks:
            of_year = self._years[year].plan
            beds = (*beds_in_walking_order(of_year), *of_year.garden.beds)
            self._walks[year] = {key: n for n, key in enumerate(dict.fromkeys(bed.id for bed in beds))}
        return self._walks[year]

    def _line(self, task: Task, planting: Planting | None, week: Week, year: SheetYear) -> WeekLine:
        work, amounts = task_words(task)
        details = amounts if planting is None else self._details(task, planting, year, amounts)
        if planting is None and task.kind == "spread" and task.done is None:
            remark = standing_remark(year.plan, year.plan.garden.beds_by_id[task.bed], task.date)
            details = "; ".join(filter(None, (details, remark)))
        if task.kind == "film down" and planting is not None:
            laid = _covers_of(task, planting, year)
            if laid and all(already_lies(cover, planting, year.plan) for cover in laid):
                work = say("Cut holes in the film for {crop}", crop=task.crop)
        return WeekLine(
            task,
            year.letter(task.planting),
            _days(task, week),
            work,
            details,
            task.kind in TELLS,
        )

    # -- measures and amounts -----------------------------------------------------------------------------

    def _details(self, task: Task, planting: Planting, year: SheetYear, amounts: str) -> str:
        plan, measure, kind = year.plan, self.measure, task.kind
        part = amount(plan, planting)
        if kind in TELLS:
            return ""
        if kind in ("sow", "prick out", "pot on") and part.start == "raised":
            return self._raising(plan, planting, part, kind) or amounts
        if kind in ("sow", "set out"):
            return self._planting(plan, planting, part)
        if kind == "thin":
            apart = plan.placed(planting).layout.in_row_spacing
            return say("to one every {spacing}", spacing=measure.spacing(apart)) if apart else amounts
        if kind in ("cover on", "film down"):
            laid = _covers_of(task, planting, year)
            words = [shared_cover_words(cover, planting, year, measure) for cover in laid]
            return "; ".join(words) or amounts
        if kind in ("cover off", "film up"):
            back = [folded_back_words(cover, planting, year) for cover in _covers_of(task, planting, year)]
            return "; ".join(filter(None, (amounts, *back)))
        if kind == "support up" and planting.support is not None:
            arch, found = plan.arch_of(planting), put_up(plan, planting)
            if arch is not None:
                return arch_words(arch, measure)
            if found is not None:
                return support_words(found, measure)
        last = plan.dates(planting).last_harvest
        if kind == "pick" and last is not None and task.date == last.day:
            return "; ".join(filter(None, (say("all at once"), amounts)))
        if kind == "mulch":
            spread = [
                one
                for one in year.spreads.get(planting.bed, ())
                if one.planting is not None and one.planting.id == planting.id
            ]
            return "; ".join(spread_words(one, measure) for one in spread) or amounts
        return amounts

    def _raising(self, plan: Plan, planting: Planting, part: Amount, kind: str) -> str:
        found = raised(plan, planting)
        fill = next((one for one in found.fills if one.work == kind), None) if found is not None else None
        if fill is None:
            return ""
        units = self.measure.units
        trays, mix = filled_words(fill.container, fill.number, units), show_volume(fill.litres, units)
        if kind != "sow":
            number = whole_words(fill.number)
            return say("{count} into {trays}, {mix} of mix", count=number, trays=trays, mix=mix)
        depth = plan.figures_of(planting).number("sowing_depth")
        seed = seed_words(part, self.measure)
        if depth is None:
            return say("{seed}, in {trays}, {mix} of mix", seed=seed, trays=trays, mix=mix)
        deep = self.measure.depth(depth)
        return say(
            "{seed}, {depth} deep in {trays}, {mix} of mix", seed=seed, depth=deep, trays=trays, mix=mix
        )

    def _planting(self, plan: Plan, planting: Planting, part: Amount) -> str:
        """Number, depth, spacing, how, and seed."""
        depth = depth_words(plan.figures_of(planting), part.start, self.measure)
        words = [plants_words(part)]
        if depth:
            words.append(say("{depth} deep", depth=depth))
        words.append(spacing_words(plan, planting, self.measure))
        if part.start == "sown":
            words += [uncapital(how_words(plan, part, self.measure)), seed_words(part, self.measure)]
        return "; ".join(word for word in words if word)


def _covers_of(task: Task, planting: Planting, year: SheetYear) -> list[LaidCover]:
    """The covers that a piece of work lays or takes off: those of its kind and day, or else of its kind."""
    alike = [cover for cover in year.covers.get(planting.id, ()) if cover.kind == task.material]
    on_day = [
        cover
        for cover in alike
        if any(
            part.planting.id == planting.id and task.date in (part.first, part.last) for part in cover.parts
        )
    ]
    return on_day or alike


def spacing_words(plan: Plan, planting: Planting, measure: TapeMeasure) -> str:
    """Plant to plant and row to row; empty of what is scattered or stands at places of its own.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    measure : TapeMeasure
    """
    layout = plan.placed(planting).layout
    if planting.arrangement.kind == "places":
        return say("at the places on the bed sheet")
    if not layout.in_row_spacing or planting.arrangement.kind == "scatter":
        return ""
    apart = measure.spacing(layout.in_row_spacing)
    if layout.row_spacing and layout.row_count > 1:
        between = measure.spacing(layout.row_spacing)
        return say("{apart} apart in rows {between} apart", apart=apart, between=between)
    return say("{apart} apart", apart=apart)


def _rank(task: Task, *, begins: bool = False) -> tuple[bool, int, int]:
    """Place of a piece of work among others of its day, on which its plants may be sown or set out."""
    told = task.kind in TELLS
    return told, place_in_day(task.kind, begins=begins), WORK_ORDER.get(task.kind, 0)


def _days(task: Task, week: Week) -> str:
    """Days of a piece of work; of what goes on the last one."""
    mark = BY_HAND if task.origin == "by hand" else ""
    if task.date >= week.monday:
        return days_in_short(task.date, task.until) + mark
    return say("to {day}", day=days_in_short(task.until, task.until))


def is_indoors(plan: Plan, planting: Planting, task: Task) -> bool:
    """Whether work is done under a roof: tubers that chit, and what is raised until it is set out.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    task : Task
    """
    if task.kind == "chit":
        return True
    if task.kind not in ("sow", "prick out", "pot on", "harden off"):
        return False
    found = raised(plan, planting)
    return found is not None and found.way.container is not None


def _indoor_work(lines: Iterable[tuple[dt.date, WeekLine]]) -> tuple[BedWork, ...]:
    """What is done indoors, day by day; nothing without any."""
    of_days = tuple(line for _, line in sorted(lines, key=lambda one: one[0]))
    return (BedWork(say("Indoors: shed and benches"), "", of_days),) if of_days else ()


def tasks_of(work: Iterable[PersonWork]) -> list[Task]:
    """All pieces of work, those that only tell left out."""
    return [
        line.task
        for person in work
        for bed in person.beds
        for line in bed.lines
        if line.task is not None and not line.told
    ]


def heading_words(person: str) -> str:
    """The heading of a person's work."""
    return capital(person) if person else say("Anybody")
