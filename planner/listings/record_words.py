"""Records in sentences."""

from __future__ import annotations

from collections.abc import Iterable
from typing import get_args

from planner.crops.families import family_title
from planner.garden import Garden
from planner.garden.harm_words import HARM_WORDS, WHY_WORDS
from planner.garden.planting import Work
from planner.garden.records import (
    Amount,
    CameUpRecord,
    EndedRecord,
    LessonRecord,
    MeasuredRecord,
    PickedRecord,
    RecordBase,
    SeenRecord,
    WorkRecord,
)
from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length, show_mass
from planner.plan import Plan
from planner.words import (
    full_day_words,
    join_list,
    later,
    number_words,
    percent,
    say,
    say_count,
    say_in_context,
)

#: What kinds of records are called, in the order in which they are offered.
KIND_WORDS = {
    "done": later("done"),
    "seen": later("harm seen"),
    "came up": later("came up"),
    "flowering": later("in flower"),
    "ripe": later("ripe"),
    "first picking": later("first picking"),
    "last picking": later("last picking"),
    "picked": later("picked"),
    "ended": later("ended"),
    "measured": later("measured"),
    "note": later("note"),
    "lesson": later("lesson"),
}
#: Tasks that may have been done.
DONE_TASKS: tuple[Work, ...] = get_args(Work)
#: What was done, by the task; of the others a word has two meanings.
_TASK_DONE = {
    "sow": later("sown"),
    "prick out": later("pricked out"),
    "pot on": later("potted on"),
    "harden off": later("hardened off"),
    "film down": later("film laid"),
    "support up": later("support put up"),
    "cover on": later("covered"),
    "vent": later("cover opened"),
    "thin": later("thinned"),
    "mulch": later("mulched"),
    "earth up": later("earthed up"),
    "earth up again": later("earthed up again"),
    "tie in": later("tied in"),
    "pinch out": later("side shoots pinched out"),
    "stop": later("tips pinched out"),
    "feed": later("fed"),
    "cover off": later("uncovered"),
    "film up": later("film taken up"),
    "pick": later("picked"),
    "lift and cure": later("lifted and cured"),
    "prune": later("pruned"),
    "divide": later("divided"),
    "renew": later("renewed"),
    "lift and store": later("lifted and stored"),
    "clear": later("cleared"),
    "sow the next": later("the next sown"),
}
PICKED_FOR_WORDS = {
    "kept": later("kept"),
    "given away": later("given away"),
    "bottled": later("bottled"),
    "fed to animals": later("fed to animals"),
}


def done_words(task: str) -> str:
    """What was done, by the task."""
    match task:
        case "chit":
            return say_in_context("done", "set to sprout")
        case "spread":
            return say_in_context("done", "spread")
        case "set out":
            return say_in_context("done", "set out")
        case "cut back":
            return say_in_context("done", "cut back")
        case _:
            return say(_TASK_DONE[task])


def amount_words(amount: Amount, units: UnitSystem) -> str:
    """An amount with its unit: ``1.2 kg``, ``3 bunches``.

    Parameters
    ----------
    amount : Amount
    units : UnitSystem
    """
    value, number = amount.value, number_words(amount.value, 0 if amount.value == int(amount.value) else 1)
    match amount.unit:
        case "g":
            return show_mass(value, units)
        case "m":
            return show_length(value, units)
        case "m2":
            return show_area(value, units)
        case "l":
            return say("{number} l", number=number)
        case "pieces":
            return (
                say_count("{count} piece", "{count} pieces", int(value))
                if value == int(value)
                else say("{number} pieces", number=number)
            )
        case "bunches":
            return (
                say_count("{count} bunch", "{count} bunches", int(value))
                if value == int(value)
                else say("{number} bunches", number=number)
            )
        case "seeds":
            return say_count("{count} seed", "{count} seeds", round(value))
        case "plants":
            return say_count("{count} plant", "{count} plants", round(value))


def record_place(plan: Plan, record: RecordBase) -> str:
    """Where a record belongs: ``carrot Early in North``, ``North``, or ``the garden``.

    Parameters
    ----------
    plan : Plan
        Of any year.
    record : RecordBase
    """
    garden = plan.garden
    if record.planting is not None:
        planting = garden.plantings_by_id[record.planting]
        crop = plan.catalogue.get(planting.crop)
        name = crop.name if crop is not None else planting.crop
        bed = garden.beds_by_id[planting.bed].name
        if planting.variety:
            return say("{crop} {variety} in {bed}", crop=name, variety=planting.variety, bed=bed)
        return say("{crop} in {bed}", crop=name, bed=bed)
    if record.bed is not None:
        return garden.beds_by_id[record.bed].name
    if isinstance(record, LessonRecord) and (record.crop or record.family):
        crop = plan.catalogue.get(record.crop)
        return crop.name if crop is not None else (record.crop or family_title(record.family))
    return say("the garden")


def record_sentence(garden: Garden, record: RecordBase) -> str:
    """What a record tells, without its day and place and without a full stop: ``picked 1.2 kg, given away``.

    Parameters
    ----------
    garden : Garden
    record : RecordBase
    """
    parts = [part for part in (_measure(garden, record), record.words.strip()) if part]
    return join_with_colon(parts)


def dated_record(plan: Plan, record: RecordBase) -> str:
    """A record in a line: ``9 Jun 2026, carrot in North: came up, 60 %``.

    Parameters
    ----------
    plan : Plan
    record : RecordBase
    """
    return say(
        "{day}, {place}: {what}",
        day=full_day_words(record.day),
        place=record_place(plan, record),
        what=record_sentence(plan.garden, record) or say(KIND_WORDS[record.kind]),
    )


def lesson_lines(lessons: Iterable[LessonRecord]) -> list[str]:
    """Lessons in words, a line each: ``Remember: sow thinner (2025)``."""
    return [
        say("Remember: {words} ({year})", words=" ".join(one.words.split()), year=one.day.year)
        for one in lessons
    ]


def join_with_colon(parts: list[str]) -> str:
    """What was measured, and the words after a colon."""
    return say("{what}: {words}", what=parts[0], words=parts[1]) if len(parts) == 2 else "".join(parts)


def _measure(garden: Garden, record: RecordBase) -> str:
    units = garden.site.units
    match record:
        case WorkRecord():
            done = done_words(record.task) if record.task is not None else ""
            amount = amount_words(record.amount, units) if record.amount is not None else ""
            return join_list([part for part in (done, record.cover or "", amount) if part])
        case SeenRecord():
            return _with_commas(_harm(record))
        case CameUpRecord():
            return _came_up(record)
        case PickedRecord():
            amount = amount_words(record.amount, units)
            if record.picked_for == "kept":
                return say("picked {amount}", amount=amount)
            where = say(PICKED_FOR_WORDS[record.picked_for])
            return say("picked {amount}, {where}", amount=amount, where=where)
        case EndedRecord():
            return say("ended: {why}", why=say(WHY_WORDS[record.why]))
        case MeasuredRecord():
            value = (
                number_words(record.value, 2).rstrip("0").rstrip(".")
                if record.value != int(record.value)
                else number_words(record.value, 0)
            )
            return say(
                "{measure} {value} {unit}", measure=record.measure, value=value, unit=record.unit
            ).strip()
        case _:
            return say(KIND_WORDS[record.kind]) if record.kind not in ("note", "lesson") else ""


def _with_commas(parts: list[str]) -> str:
    """What was seen, and what is known of it, one after the other."""
    said = parts[0]
    for part in parts[1:]:
        said = say("{words}, {more}", words=said, more=part)
    return said


def _harm(record: SeenRecord) -> list[str]:
    parts = [say(HARM_WORDS[record.harm])]
    if record.share is not None:
        parts.append(say("{share} of it", share=percent(record.share)))
    if record.lost is not None:
        parts.append(say("{share} of what was there lost", share=percent(record.lost)))
    if record.cause:
        parts.append(say("perhaps {cause}", cause=record.cause))
    if record.response:
        parts.append(say("answered with {response}", response=record.response))
    return parts


def _came_up(record: CameUpRecord) -> str:
    if record.count is not None and record.sown is not None:
        return say("came up, {count} of {sown}", count=record.count, sown=record.sown)
    if record.count is not None:
        return say_count("came up, {count} plant", "came up, {count} plants", record.count)
    if record.share is not None:
        return say("came up, {share}", share=percent(record.share))
    return say("came up")
