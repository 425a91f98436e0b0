"""The turn of a growing year, as lines."""

from __future__ import annotations

from planner.garden import Planting
from planner.garden.planting import Purpose
from planner.garden.records import LessonRecord
from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length, show_mass
from planner.garden.wishes import Wish
from planner.listings.phrases import PURPOSE_WORDS
from planner.listings.record_words import record_place
from planner.plan import Plan
from planner.proposal.repeat import Repeated
from planner.proposal.turn import LotUsed, Turn
from planner.words import capital, day_words, full_day_words, number_words, say, say_count

#: Most pieces of work that are asked about by name.
MOST_UNFINISHED = 100


def turn_lines(plan: Plan, turn: Turn) -> list[str]:
    """Print what the turn of a year found and wrote down.

    Parameters
    ----------
    plan : Plan
        Of the growing year that begins.
    turn : Turn
    """
    parts = [
        (say("Stays"), [planting_words(plan, one) for one in turn.staying]),
        (say("Goes over"), [planting_words(plan, one) for one in turn.going_over]),
        (say("Not ticked off: was it done?"), unfinished_lines(turn)),
        (say("Seed used"), [used_words(plan, one) for one in turn.used]),
        (say("Own seed"), [_saved(plan, one.crop, one.variety, one.grams) for one in turn.saved]),
        (say("Repeated"), [repeated_words(plan, one) for one in turn.repeated]),
        (say("Wishes for {year}", year=turn.year), [wish_words(plan, one) for one in turn.wishes]),
        (
            say("Lessons"),
            [lesson_words(plan, one) for one in turn.lessons],
        ),
    ]
    lines: list[str] = []
    for head, found in parts:
        if found:
            lines += ["", head, *(f"  {line}" for line in found)]
    return lines[1:] if lines else [say("Nothing stood in the garden in {year}", year=turn.year - 1)]


def planting_words(plan: Plan, planting: Planting) -> str:
    """A planting with its bed and id: ``garlic Messidrome in North (p12)``."""
    return say("{planting} ({id})", planting=crop_in_bed(plan, planting), id=planting.id)


def crop_in_bed(plan: Plan, planting: Planting) -> str:
    """A planting with its bed: ``garlic Messidrome in North``."""
    name = crop_and_variety(plan, planting.crop, planting.variety)
    return say("{crop} in {bed}", crop=name, bed=plan.garden.beds_by_id[planting.bed].name)


def crop_and_variety(plan: Plan, crop: str, variety: str) -> str:
    """The name of a crop, with its variety where one is named."""
    known = plan.catalogue.get(crop)
    name = known.name if known is not None else crop
    return say("{crop} {variety}", crop=name, variety=variety) if variety else name


def unfinished_lines(turn: Turn) -> list[str]:
    """Work that is not ticked off, with the ids to answer by."""
    shown = turn.unfinished[:MOST_UNFINISHED]
    lines = [
        say(
            "{day}: {work} ({id})",
            day=day_words(task.date),
            work=task.text.removesuffix("."),
            id=task.planting,
        )
        for task in shown
    ]
    more = len(turn.unfinished) - len(shown)
    if more:
        lines.append(say_count("and {count} more piece of work", "and {count} more pieces of work", more))
    return lines


def lesson_words(plan: Plan, lesson: LessonRecord) -> str:
    """A lesson with what it is about and its day."""
    return say(
        "{place}, {day}: {words}",
        place=capital(record_place(plan, lesson)),
        day=full_day_words(lesson.day),
        words=lesson.words,
    )


def used_words(plan: Plan, used: LotUsed) -> str:
    """What was sown of a packet, and what is left."""
    name = crop_and_variety(plan, used.before.crop, used.before.variety)
    if used.after.seeds is not None and used.before.seeds is not None:
        return say(
            "{seed}: {before} seeds, {after} left",
            seed=name,
            before=used.before.seeds,
            after=used.after.seeds,
        )
    return say(
        "{seed}: {before} g, {after} g left",
        seed=name,
        before=number_words(used.before.grams or 0.0, 1),
        after=number_words(used.after.grams or 0.0, 1),
    )


def _saved(plan: Plan, crop: str, variety: str, grams: float | None) -> str:
    name = crop_and_variety(plan, crop, variety)
    if grams is None:
        return say("{seed}: enter how much there is", seed=name)
    return say("{seed}: {grams} g", seed=name, grams=number_words(grams, 1))


def wish_words(plan: Plan, wish: Wish) -> str:
    """A wish in words: ``120 plants of carrot Early, from the store: 3 kg lacked from 2 Feb on``."""
    name, use = crop_and_variety(plan, wish.crop, wish.variety), purpose_words(wish.purpose)
    amount = wish_amount(wish, plan.garden.site.units)
    what = (
        say("{amount} of {crop}, {use}", amount=amount, crop=name, use=use)
        if amount
        else say("{crop}, {use}", crop=name, use=use)
    )
    return say("{wish}: {reason}", wish=what, reason=wish.reason) if wish.reason else what


def wish_amount(wish: Wish, units: UnitSystem = "metric") -> str:
    """How much is wished, with its unit; empty where it does not say."""
    if wish.amount is None:
        return ""
    match wish.unit:
        case "plants":
            return say_count("{count} plant", "{count} plants", round(wish.amount))
        case "m":
            return say("{length} of row", length=show_length(wish.amount, units))
        case "m2":
            return show_area(wish.amount, units)
        case "g":
            return show_mass(wish.amount, units)
        case "people":
            if wish.amount == 1:
                return say("for one person")
            return say("for {people} people", people=number_words(wish.amount, 1))


def purpose_words(purpose: Purpose) -> str:
    """What something is grown for, in a word or two."""
    return PURPOSE_WORDS[purpose]


def repeated_words(plan: Plan, repeated: Repeated) -> str:
    """Where a planting was repeated, or why not."""
    old = crop_in_bed(plan, repeated.old)
    if repeated.new is None:
        return say("{planting}: no ground left that is fit for it ({why})", planting=old, why=repeated.why)
    if not repeated.moved:
        return say("{planting}: there again", planting=old)
    bed = plan.garden.beds_by_id[repeated.new.bed].name
    if repeated.fewer:
        return say(
            "{planting}: in {bed}, {plants} of {all} plants ({why})",
            planting=old,
            bed=bed,
            plants=repeated.plants,
            all=repeated.of,
            why=repeated.why,
        )
    return say("{planting}: in {bed} ({why})", planting=old, bed=bed, why=repeated.why)
