"""The turn of a growing year, as lines."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from planner.garden import Lot, Planting
from planner.garden.planting import Purpose
from planner.garden.records import LessonRecord
from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length, show_mass
from planner.garden.wishes import Wish
from planner.listings.phrases import PURPOSE_WORDS
from planner.listings.record_words import record_place
from planner.plan import Plan
from planner.proposal.repeat import Repeated
from planner.proposal.turn import Aged, Turn
from planner.proposal.turn_seed import LotUsed, NotConfirmed
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
        *standing_parts(plan, turn, planting_words),
        (say("Not ticked off: was it done?"), unfinished_lines(turn)),
        *seed_parts(plan, turn),
        (say("Own seed"), [_saved(plan, one.crop, one.variety, one.grams) for one in turn.saved]),
        (say("Grown again"), [repeated_words(plan, one) for one in turn.repeated]),
        (say("Wishes for {year}", year=turn.year), [wish_words(plan, one) for one in turn.wishes]),
        (say("Lessons"), [lesson_words(plan, one) for one in turn.lessons]),
    ]
    lines: list[str] = []
    for head, found in parts:
        if found:
            lines += ["", head, *(f"  {line}" for line in found)]
    return lines[1:] if lines else [say("Nothing stood in the garden in {year}", year=turn.year - 1)]


def standing_parts(
    plan: Plan, turn: Turn, named: Callable[[Plan, Planting], str]
) -> list[tuple[str, list[str]]]:
    """What stands in the garden when a year begins, and what is at the end of its years: heads with their lines.

    Parameters
    ----------
    plan : Plan
    turn : Turn
    named : callable
        The words of a planting: :func:`planting_words` or :func:`crop_in_bed`.
    """
    return [
        (say("Stays for years"), [named(plan, one) for one in turn.staying]),
        (
            say("At the end of its years: renew it?"),
            [aged_words(named(plan, one.planting), one) for one in turn.aged],
        ),
        (say("Stands on into {year}", year=str(turn.year)), [named(plan, one) for one in turn.going_over]),
    ]


def seed_parts(plan: Plan, turn: Turn) -> list[tuple[str, list[str]]]:
    """What was taken off the seed in stock, and what was not since nobody said that it was sown: heads with their lines."""
    return [
        (say("Taken off the seed in stock"), [used_words(plan, one) for one in turn.used]),
        (
            say("Planned, and not taken off the seed in stock: was it sown?"),
            not_confirmed_lines(plan, [one for one in turn.not_confirmed if not one.no_packet]),
        ),
        (
            say(
                "Sown, and not taken off the seed in stock, as no packet is named for it: which one was it from?"
            ),
            not_confirmed_lines(plan, [one for one in turn.not_confirmed if one.no_packet]),
        ),
    ]


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


def aged_words(name: str, aged: Aged) -> str:
    """What is at the end of its years: since when it stands there, how long such plants bear, and when it is to go."""
    if aged.last is not None and aged.bears is not None:
        return say_count(
            "{planting}: there since {since}, to be cleared on {day}; such plants usually bear well for {count} year",
            "{planting}: there since {since}, to be cleared on {day}; such plants usually bear well for {count} years",
            aged.bears,
            planting=name,
            since=str(aged.since),
            day=full_day_words(aged.last),
        )
    if aged.last is not None:
        return say(
            "{planting}: there since {since}, to be cleared on {day}",
            planting=name,
            since=str(aged.since),
            day=full_day_words(aged.last),
        )
    return say_count(
        "{planting}: there since {since}; such plants usually bear well for {count} year",
        "{planting}: there since {since}; such plants usually bear well for {count} years",
        aged.bears or 0,
        planting=name,
        since=str(aged.since),
    )


def used_words(plan: Plan, used: LotUsed) -> str:
    """What was sown of a packet, and what is left; that it is used up, and what was sown beyond it."""
    name = crop_and_variety(plan, used.before.crop, used.before.variety)
    before, after = (_seed_words(plan, lot) for lot in (used.before, used.after))
    if used.over:
        return say_count(
            "{seed}: {before}, used up; {count} seed more was sown than was in stock",
            "{seed}: {before}, used up; {count} seeds more were sown than were in stock",
            used.over,
            seed=name,
            before=before,
        )
    if used.used_up:
        return say("{seed}: {before}, used up", seed=name, before=before)
    return say("{seed}: {before} before, {after} left", seed=name, before=before, after=after)


def _seed_words(plan: Plan, lot: Lot) -> str:
    """How much seed a packet holds."""
    if lot.seeds is not None:
        return _seeds_words(lot.seeds)
    return show_mass(lot.grams or 0.0, plan.garden.site.units)


def not_confirmed_lines(plan: Plan, sowings: Iterable[NotConfirmed]) -> list[str]:
    """Sowings of which no seed was taken off: for each sort the seed that they take."""
    sorts: dict[tuple[str, str], list[int]] = {}
    for one in sowings:
        sorts.setdefault((one.planting.crop, one.planting.variety), []).append(one.seeds)
    return [
        say_count(
            "{seed}: {seeds} for {count} sowing",
            "{seed}: {seeds} for {count} sowings",
            len(seeds),
            seed=crop_and_variety(plan, *sort),
            seeds=_seeds_words(sum(seeds)),
        )
        for sort, seeds in sorts.items()
    ]


def _seeds_words(seeds: int) -> str:
    return say_count("{count} seed", "{count} seeds", seeds)


def _saved(plan: Plan, crop: str, variety: str, grams: float | None) -> str:
    name = crop_and_variety(plan, crop, variety)
    if grams is None:
        return say("{seed}: type into the stock how much there is", seed=name)
    return say("{seed}: {amount}", seed=name, amount=show_mass(grams, plan.garden.site.units))


def wish_words(plan: Plan, wish: Wish) -> str:
    """A wish in words: ``120 plants of carrot Early, for storing: 3 kg lacked from 2 Feb on``."""
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
            return say(
                "for {people} people",
                people=number_words(wish.amount, 0 if wish.amount == int(wish.amount) else 1),
            )


def purpose_words(purpose: Purpose) -> str:
    """What something is grown for, in a word or two."""
    return say(PURPOSE_WORDS[purpose])


def repeated_words(plan: Plan, repeated: Repeated) -> str:
    """Where a planting was repeated, or why not."""
    old = crop_in_bed(plan, repeated.old)
    if repeated.new is None:
        if repeated.best:
            return say(
                "{planting}: no place found ({why}); {best}",
                planting=old,
                why=repeated.why,
                best=repeated.best,
            )
        return say("{planting}: no place found ({why})", planting=old, why=repeated.why)
    bed = plan.garden.beds_by_id[repeated.new.bed].name
    if repeated.already:
        return say(
            "{planting}: is planned for {year} already, in {bed}", planting=old, year=str(plan.year), bed=bed
        )
    if repeated.accepted:
        return say(
            "{planting}: in the same place, as you accepted it before ({why})",
            planting=old,
            why=repeated.accepted,
        )
    if not repeated.moved:
        return say("{planting}: in the same place", planting=old)
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
