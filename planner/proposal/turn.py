"""The turn of the year: what a growing year leaves to the next one.

Plantings are one list, so what stands for years and what was planted in autumn go over by themselves, and history stays
whole.  What is written down at the turn is what the year used up and brought: seed that was sown is taken off its packets,
own seed becomes a packet, and wishes for the next year begin from this one.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from planner.amounts.begun import begun_in_year, begun_on
from planner.amounts.plants import Amount, amount
from planner.amounts.supply import Supply
from planner.amounts.tasks import planting_tasks
from planner.garden import Garden, Lot, Planting
from planner.garden import edits as e
from planner.garden.edits.common import put
from planner.garden.planting import SEEDLESS, Work
from planner.garden.records import EndedWhy, LessonRecord, PickedRecord, WorkRecord
from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.repeat import Repeated, repeat_one_by_one
from planner.proposal.wishes import wishes_from
from planner.season.tasks import Task
from planner.words import say

#: Work that begins a planting: where it is not ticked off, the planting may never have been begun.
_BEGINS = ("sow", "set out", "chit")


@dataclass(frozen=True)
class LotUsed:
    """A packet of seed of which something was sown in the year; as it was and as it is."""

    before: Lot
    after: Lot


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
        All else that is not ticked off was done on its day.
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
    used : tuple of LotUsed
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
    used: tuple[LotUsed, ...]
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
    year = plan.year + 1
    garden = _with_answers(plan, answers)
    plan = plan.after(garden)
    unfinished = unfinished_work(plan)
    garden, used = _seed_used(plan)
    garden, saved = _seed_saved(plan, garden, answers.seed)
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
    yield Turn(garden, year, staying, going_over, unfinished, used, saved, lessons, wishes, ())
    repeated: tuple[Repeated, ...] = ()
    for with_one, one in repeat_one_by_one(plan, after, answers.repeat):
        garden, repeated = with_one.garden, (*repeated, one)
        yield Turn(garden, year, staying, going_over, unfinished, used, saved, lessons, wishes, repeated)


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
    for planting in plan.plantings:
        if plan.garden.outcome(planting) is not None:
            continue
        tasks = [one for one in planting_tasks(plan, planting) if plan.span.holds(one.date)]
        begun = next((one for one in tasks if one.kind in _BEGINS), None)
        asked = [one for one in (begun, *(one for one in tasks if one.kind == "clear")) if one is not None]
        later = {one.kind for one in plan.garden.done(planting)} - {"chit"}
        found += [one for one in asked if one.is_open and not (one is begun and later)]
    return tuple(sorted(found, key=lambda one: (one.date, one.bed, one.planting)))


def _stands_in(plan: Plan, planting: Planting) -> bool:
    return plan.span_of(planting).meets(plan.span)


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
            garden = e.tick(garden, task.planting, task.kind, task.date)
    return garden


def _without_not_begun(plan: Plan, garden: Garden, keys: Iterable[str]) -> Garden:
    """Take out what was never begun, and say so on its bed: what never stood there says nothing of the ground."""
    notes = []
    for key in keys:
        planting = garden.plantings_by_id.get(key)
        if planting is None:
            raise e.EditError(f"there is no planting '{key}' that was not begun")
        crop = plan.catalogue.get(planting.crop)
        name = " ".join(word for word in (crop.name if crop else planting.crop, planting.variety) if word)
        words = say("Planned for {year} and never begun: {crop}", year=planting.year, crop=name)
        notes.append({"kind": "note", "bed": planting.bed, "day": plan.span.last, "words": words})
    garden = e.remove(garden, keys)
    return e.add_records(garden, notes)[0]


# -- seed ---------------------------------------------------------------------------------------------


def _seed_used(plan: Plan) -> tuple[Garden, tuple[LotUsed, ...]]:
    """Take what was sown in the year off its packets, and write down the day on which the rest was there."""
    supply = Supply(plan)
    sown = [
        (day, planting)
        for planting in begun_in_year(plan)
        if plan.dates(planting).start not in SEEDLESS and (day := begun_on(plan, planting)) is not None
    ]
    for day, planting in sorted(sown, key=lambda one: (one[0], not one[1].variety, one[1].id)):
        supply.draw(_as_recorded(plan, amount(plan, planting)), day)
    next_day = plan.span.last + dt.timedelta(days=1)
    used = []
    for lot_supply in (one for lots in supply.lots.values() for one in lots):
        lot, at_first, left = lot_supply.state.lot, lot_supply.state.seeds, lot_supply.left
        if lot.ordered or left is None or not at_first or lot_supply.since > plan.span.last:
            continue
        changes: dict[str, object] = {"counted": next_day}
        if lot.seeds is not None:
            changes["seeds"] = left
        if lot.grams is not None:
            changes["grams"] = round(lot.grams * left / at_first, 3)
        if left < at_first:
            used.append(LotUsed(lot, lot.with_(**changes)))
    after = {one.before.id: one.after for one in used}
    garden = (
        put(plan.garden, stock=tuple(after.get(lot.id, lot) for lot in plan.garden.stock))
        if after
        else plan.garden
    )
    return garden, tuple(one for one in used)


def _as_recorded(plan: Plan, part: Amount) -> Amount:
    """What a planting needed, with the seed that its record says was sown."""
    per_gram = plan.figures_of(part.planting).number("seeds_per_gram")
    for record in plan.garden.records_of(part.planting.id):
        if isinstance(record, WorkRecord) and record.task == "sow":
            sown = record.amount
            if sown is not None and sown.unit == "seeds":
                return replace(part, seeds=round(sown.value))
            if sown is not None and sown.unit == "g" and per_gram:
                return replace(part, seeds=round(sown.value * per_gram))
    return part


def _seed_saved(plan: Plan, garden: Garden, typed: Mapping[str, float]) -> tuple[Garden, tuple[Lot, ...]]:
    """Packets of own seed: of each planting for seed that ended its year and was not lost.

    Grams are those that the gardener says, else those that were recorded as picked; where none were, the packet says nothing
    of its amount.
    """
    for key in typed:
        if key not in garden.plantings_by_id:
            raise e.EditError(f"there is no planting '{key}' of which seed was saved")
    known = {lot.saved_from for lot in garden.stock}
    saved = []
    for planting in plan.plantings:
        outcome = garden.outcome(planting)
        last = plan.span_of(planting).last
        if planting.purpose != "seed" or planting.id in known or (outcome is not None and outcome.lost):
            continue
        if not plan.span.holds(last) or plan.span_of(planting).open:
            continue
        grams = [
            record.amount.value
            for record in garden.records_of(planting.id)
            if isinstance(record, PickedRecord) and record.amount.unit == "g"
        ]
        fields: dict[str, Any] = {"crop": planting.crop, "variety": planting.variety, "packed": last.year}
        fields |= {"saved_from": planting.id, "counted": plan.span.last + dt.timedelta(days=1)}
        if planting.id in typed:
            fields["grams"] = typed[planting.id]
        elif grams:
            fields["grams"] = sum(grams)
        garden, key = e.put_lot(garden, **fields)
        saved.append(next(lot for lot in garden.stock if lot.id == key))
    return garden, tuple(saved)


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
