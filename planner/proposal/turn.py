"""The turn of the year: what a growing year leaves to the next one.

Plantings are one list, so what stands for years and what was planted in autumn go over by themselves, and history stays
whole.  What is written down at the turn is what the year used up and brought: seed that was sown is taken off its packets,
own seed becomes a packet, and wishes for the next year begin from this one.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from planner.amounts.begun import begun_in_year
from planner.amounts.tasks import planting_tasks
from planner.garden import Garden, Lot, Planting
from planner.garden import edits as e
from planner.garden.edits.common import put
from planner.garden.planting import Work
from planner.garden.records import EndedWhy, LessonRecord
from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.repeat import Repeated, repeat_one_by_one
from planner.proposal.turn_seed import LotUsed, NotConfirmed, known_begun, seed_saved, seed_used
from planner.proposal.wishes import wishes_from
from planner.season.spans import growing_year
from planner.season.tasks import Task
from planner.words import say

#: Work that begins a planting: where it is not ticked off, the planting may never have been begun.
_BEGINS = ("sow", "set out", "chit")


@dataclass(frozen=True)
class Aged:
    """What stays for years and is at the end of them: to be renewed, or left.

    Attributes
    ----------
    planting : Planting
    since : int
        The growing year in which it was planted, or found grown.
    bears : int or None
        Years for which such plants usually bear; None where they are not over, or not known.
    last : date or None
        Its planned last day, where that comes before the growing year that begins is over.
    """

    planting: Planting
    since: int
    bears: int | None = None
    last: dt.date | None = None


@dataclass(frozen=True)
class Answers:
    """What the gardener says of a year that ends.

    Attributes
    ----------
    not_begun : frozenset of str
        Ids of plantings that were planned and never begun: they are taken out of the year, and a note on their bed says so.
    ended : mapping of str to (date, str)
        How plantings ended, by id: the day and one of :data:`planner.garden.records.ENDED_WHY`.
    done : mapping of (str, str) to date
        Work that was done, by planting and kind, with its day.
    as_planned : bool
        All else that is not ticked off was done on its day; not what is still to come after ``until``.
    until : date
        The last day that has been.
    seed : mapping of str to float
        How much own seed there is, by the id of the planting it is of. [g]
    repeat : tuple of str
        Ids of plantings to repeat in the next year.
    wishes : bool
        Wishes for the next year are made.
    """

    not_begun: frozenset[str] = frozenset()
    ended: Mapping[str, tuple[dt.date, EndedWhy]] = field(default_factory=dict)
    done: Mapping[tuple[str, Work], dt.date] = field(default_factory=dict)
    as_planned: bool = False
    until: dt.date = dt.date.max
    seed: Mapping[str, float] = field(default_factory=dict)
    repeat: tuple[str, ...] = ()
    wishes: bool = True


@dataclass(frozen=True)
class Turn:
    """A growing year that was turned.

    Attributes
    ----------
    garden : Garden
        With everything that the turn writes down.
    year : int
        The growing year that begins.
    staying : tuple of Planting
        What stays for years.
    going_over : tuple of Planting
        What was begun before and stands on into the new year.
    unfinished : tuple of Task
        Work of the year that ends which is not ticked off, of plantings of which nothing says how they ended.
    aged : tuple of Aged
        What stays for years and is at the end of them.
    used : tuple of LotUsed
    not_confirmed : tuple of NotConfirmed
        Sowings for which there is seed, of which nothing says that they were begun.
    saved : tuple of Lot
        Packets of own seed.
    lessons : tuple of LessonRecord
        All that hold, the newest first.
    wishes : tuple of Wish
        That were made.
    repeated : tuple of Repeated
        Plantings that were repeated, or not, and why.
    """

    garden: Garden
    year: int
    staying: tuple[Planting, ...]
    going_over: tuple[Planting, ...]
    unfinished: tuple[Task, ...]
    aged: tuple[Aged, ...]
    used: tuple[LotUsed, ...]
    not_confirmed: tuple[NotConfirmed, ...]
    saved: tuple[Lot, ...]
    lessons: tuple[LessonRecord, ...]
    wishes: tuple[Wish, ...]
    repeated: tuple[Repeated, ...]


def turn_year(plan: Plan, answers: Answers | None = None) -> Turn:
    """Turn a growing year.  Turning it twice changes nothing more.

    Parameters
    ----------
    plan : Plan
        Of the growing year that ends.
    answers : Answers, optional

    Raises
    ------
    EditError
        If an answer names a planting that is not in the garden, or a day that cannot be.
    """
    *_, turn = turn_steps(plan, answers)
    return turn


def turn_steps(plan: Plan, answers: Answers | None = None) -> Iterator[Turn]:
    """Turn a growing year step by step, for who shows how far it is; the last is the whole turn.

    The first has all but the plantings to repeat; each after it has one of those more, since it may take long to find ground.

    Parameters
    ----------
    plan, answers
        As of :func:`turn_year`.

    Raises
    ------
    EditError
        As :func:`turn_year`.
    """
    answers = answers or Answers()
    before, year = plan.garden, plan.year + 1
    garden = _with_answers(plan, answers)
    plan = plan.after(garden)
    unfinished = unfinished_work(plan)
    garden, used, not_confirmed = seed_used(plan, before)
    garden, saved = seed_saved(plan, garden, answers.seed)
    wishes: tuple[Wish, ...] = ()
    if answers.wishes:
        garden, wishes = _with_wishes(garden, wishes_from(plan))
    after = Plan(garden, year, plan.catalogue)
    standing = [one for one in garden.plantings if one.year < year and _stands_in(after, one)]
    staying = tuple(one for one in standing if plan.dates(one).stays_for_years)
    going_over = tuple(one for one in standing if one not in staying)
    lessons = tuple(
        sorted(
            (one for one in garden.records if isinstance(one, LessonRecord)),
            key=lambda one: one.day,
            reverse=True,
        )
    )
    turn = Turn(
        garden=garden,
        year=year,
        staying=staying,
        going_over=going_over,
        unfinished=unfinished,
        aged=_aged(plan, after),
        used=used,
        not_confirmed=not_confirmed,
        saved=saved,
        lessons=lessons,
        wishes=wishes,
        repeated=(),
    )
    yield turn
    for with_one, one in repeat_one_by_one(plan, after, answers.repeat):
        turn = replace(turn, garden=with_one.garden, repeated=(*turn.repeated, one))
        yield turn


def with_wishes(turn: Turn, wishes: Iterable[Wish]) -> Turn:
    """A turn with other wishes for the year that begins: those of before and those that were made are changed to these.

    Parameters
    ----------
    turn : Turn
    wishes : iterable of Wish
        All of the year that begins.
    """
    new = tuple(wishes)
    others = tuple(one for one in turn.garden.wishes if one.year != turn.year)
    garden = put(turn.garden, wishes=(*others, *new))
    made = {one.id for one in turn.wishes}
    return replace(turn, garden=garden, wishes=tuple(one for one in new if one.id in made))


def unfinished_work(plan: Plan) -> tuple[Task, ...]:
    """Work of a growing year that is not ticked off, of plantings of which nothing says how they ended; by day.

    Only the work that begins or ends a planting is asked about, and of what begins one the first.

    Parameters
    ----------
    plan : Plan
    """
    found: list[Task] = []
    asked_about = {one.id: one for one in (*plan.plantings, *begun_in_year(plan))}
    for planting in asked_about.values():
        if plan.garden.outcome(planting) is not None:
            continue
        tasks = [one for one in planting_tasks(plan, planting) if plan.span.holds(one.date)]
        begun = next((one for one in tasks if one.kind in _BEGINS), None)
        asked = [one for one in (begun, *(one for one in tasks if one.kind == "clear")) if one is not None]
        known = known_begun(plan.garden, planting)
        found += [one for one in asked if one.is_open and not (one is begun and known)]
    return tuple(sorted(found, key=lambda one: (one.date, one.bed, one.planting)))


def _stands_in(plan: Plan, planting: Planting) -> bool:
    return plan.span_of(planting).meets(plan.span)


def _aged(plan: Plan, after: Plan) -> tuple[Aged, ...]:
    """What stays for years and is at the end of them, of which nothing says how it ended."""
    found = []
    for planting in plan.plantings:
        dates, span = plan.dates(planting), plan.span_of(planting)
        if not dates.stays_for_years or plan.garden.outcome(planting) is not None:
            continue
        since = growing_year(plan.garden.site, span.first)
        figures = plan.figures_of(planting)
        waits, bears = figures.number("years_to_crop") or 0, figures.number("productive_years")
        over = bears is not None and after.year >= since + waits + bears
        last = span.last if not span.open and span.last <= after.span.last else None
        if over or last is not None:
            found.append(Aged(planting, since, round(bears) if over and bears is not None else None, last))
    return tuple(found)


# -- answers ------------------------------------------------------------------------------------------


def _with_answers(plan: Plan, answers: Answers) -> Garden:
    """The garden with what the gardener says of the year."""
    garden = plan.garden
    new = [
        {"kind": "ended", "planting": key, "day": day, "why": why}
        for key, (day, why) in answers.ended.items()
        if key not in garden.plantings_by_id or garden.outcome(garden.plantings_by_id[key]) is None
    ]
    garden, _ = e.add_records(garden, new)
    if answers.not_begun:
        garden = _without_not_begun(plan, garden, answers.not_begun)
    for (key, kind), day in answers.done.items():
        garden = e.tick(garden, key, kind, day)
    if answers.as_planned:
        for task in unfinished_work(plan.after(garden)):
            if task.date > answers.until:
                continue
            garden = e.tick(garden, task.planting, task.kind, task.date)
    return garden


def _without_not_begun(plan: Plan, garden: Garden, keys: Iterable[str]) -> Garden:
    """Take out what was never begun, and say so on its bed: what never stood there says nothing of the ground."""
    notes = []
    for key in keys:
        planting = garden.plantings_by_id.get(key)
        if planting is None:
            raise e.EditError(say("there is no planting '{key}' that was not begun", key=key))
        crop = plan.catalogue.get(planting.crop)
        name = " ".join(word for word in (crop.name if crop else planting.crop, planting.variety) if word)
        words = say("Planned for {year} and never begun: {crop}", year=planting.year, crop=name)
        notes.append({"kind": "note", "bed": planting.bed, "day": plan.span.last, "words": words})
    garden = e.remove(garden, keys)
    return e.add_records(garden, notes)[0]


def _with_wishes(garden: Garden, new: Iterable[Wish]) -> tuple[Garden, tuple[Wish, ...]]:
    """Add wishes of crops and varieties of which the year has none yet."""
    known = {(one.year, one.crop, one.variety.casefold(), one.purpose) for one in garden.wishes}
    made = []
    for wish in new:
        if (wish.year, wish.crop, wish.variety.casefold(), wish.purpose) not in known:
            fields = {name: getattr(wish, name) for name in Wish.model_fields if name != "id"}
            garden, key = e.put_wish(garden, **fields)
            made.append(next(one for one in garden.wishes if one.id == key))
    return garden, tuple(made)
