"""What of a typed line is perhaps a slip of the pen: far more than a planting can bear, or picked long after its end."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.amounts.plants import amount
from planner.amounts.tasks import planting_tasks
from planner.garden import Planting
from planner.garden.records import Amount, PickedRecord, RecordBase, SeenRecord, StageRecord, WorkRecord
from planner.garden.units import show_area
from planner.listings.record_words import done_words
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.plan.yields import NOT_EATEN, YieldInputs, yield_of_planting
from planner.words import full_day_words, number_words, say, say_count

#: More than so many times what is expected is asked about as it is typed (practice); own figures leave out less than that
#: (:data:`planner.season.seen_times.MOST_FACTOR`), but a very good year is no slip.
MOST_TIMES = 10
#: More than any crop gives in a year, of crops whose yield is not known (estimate). [g/m2]
MOST_OF_GROUND = 100_000
#: Work with which a planting begins.
_STARTS = ("sow", "set out")
#: Days from the day that is planned from which a start is asked about (practice). [days]
OFF_PLAN = 42
#: Days after the end of a planting from which a picking of it is asked about (practice). [days]
AFTER_END = 14


def record_warnings(plan: Plan, records: tuple[RecordBase, ...]) -> tuple[str, ...]:
    """What of records is perhaps a slip of the pen, a sentence each.

    Parameters
    ----------
    plan : Plan
    records : tuple of RecordBase
        That are about to be written down.
    """
    found = [words for one in records for words in _of_record(plan, one)]
    return tuple(dict.fromkeys(found))


def _of_record(plan: Plan, record: RecordBase) -> Iterator[str]:
    planting = plan.garden.plantings_by_id.get(record.planting or "")
    if planting is None:
        return
    if isinstance(record, PickedRecord):
        yield from _too_much(plan, planting, record.amount)
    if isinstance(record, WorkRecord) and record.amount is not None and record.task in ("sow", "set out"):
        yield from _too_much_for(plan, planting, record.amount)
    if isinstance(record, WorkRecord) and record.task in _STARTS:
        yield from _off_plan(plan, planting, record)
    if isinstance(record, SeenRecord) and record.lost is not None:
        yield from _after_end(plan, planting, record.day)
    if isinstance(record, PickedRecord) or (isinstance(record, StageRecord) and record.kind != "flowering"):
        yield from _after_end(plan, planting, record.day)


def _too_much(plan: Plan, planting: Planting, picked: Amount) -> Iterator[str]:
    """A picking of many times what the whole planting is expected to bear in a year."""
    if planting.purpose in NOT_EATEN:
        return
    inputs = YieldInputs(planting, plan.figures_of(planting), plan.placed(planting))
    bears = yield_of_planting.work(inputs)
    units = plan.garden.site.units
    if picked.unit == "g" and not bears.grams:
        ground = amount(plan, planting).area
        if ground and picked.value > MOST_OF_GROUND * ground:
            yield say(
                "{amount} of {ground} is more than any crop bears: a slip of the pen?",
                amount=weight_words(picked.value, units),
                ground=show_area(ground, units),
            )
    elif picked.unit == "g":
        yield from _many_times(picked.value, bears.grams, weight_words(picked.value, units))
    elif picked.unit == "pieces":
        yield from _many_times(picked.value, bears.pieces, number_words(picked.value, 0))


def _too_much_for(plan: Plan, planting: Planting, given: Amount) -> Iterator[str]:
    """Seed or plants of many times what the planting takes."""
    needs = amount(plan, planting)
    takes = {"g": needs.seed_grams, "seeds": needs.seeds, "plants": needs.plants, "pieces": needs.plants}.get(
        given.unit
    )
    if not takes or given.value <= MOST_TIMES * takes:
        return
    shown = (
        weight_words(given.value, plan.garden.site.units)
        if given.unit == "g"
        else number_words(given.value, 0)
    )
    yield say_count(
        "{amount} is {count} time what this planting takes: a slip of the pen?",
        "{amount} is {count} times what this planting takes: a slip of the pen?",
        int(given.value / takes),
        amount=shown,
    )


def _many_times(value: float, expected: float | None, shown: str) -> Iterator[str]:
    if not expected or value <= MOST_TIMES * expected:
        return
    yield say_count(
        "{amount} is {count} time what is expected of it: a slip of the pen?",
        "{amount} is {count} times what is expected of it: a slip of the pen?",
        int(value / expected),
        amount=shown,
    )


def _off_plan(plan: Plan, planting: Planting, record: WorkRecord) -> Iterator[str]:
    """A start long before or after the day on which it is planned, or was done."""
    days = [task.date for task in planting_tasks(plan, planting) if task.kind == record.task]
    if not days:
        return
    nearest = min(days, key=lambda day: abs((day - record.day).days))
    weeks = abs((nearest - record.day).days) // 7
    if abs((nearest - record.day).days) <= OFF_PLAN:
        return
    yield say_count(
        "by the plan it is {done} on {day}, {count} week away: is that the right planting and day?",
        "by the plan it is {done} on {day}, {count} weeks away: is that the right planting and day?",
        weeks,
        done=done_words(record.task or "sow"),
        day=full_day_words(nearest),
    )


def _after_end(plan: Plan, planting: Planting, day: dt.date) -> Iterator[str]:
    """A picking long after the planting was over: by its records, else by the plan."""
    outcome = plan.garden.outcome(planting)
    last = outcome.day if outcome is not None else plan.span_of(planting).last
    if (day - last).days <= AFTER_END:
        return
    weeks = (day - last).days // 7
    told = outcome is not None
    yield (
        say_count(
            "it ended on {day}, {count} week before: is that the right planting and day?",
            "it ended on {day}, {count} weeks before: is that the right planting and day?",
            weeks,
            day=full_day_words(last),
        )
        if told
        else say_count(
            "by the plan it is over since {day}, {count} week before: is that the right planting and day?",
            "by the plan it is over since {day}, {count} weeks before: is that the right planting and day?",
            weeks,
            day=full_day_words(last),
        )
    )
