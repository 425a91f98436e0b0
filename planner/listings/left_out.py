"""Years that a garden does not learn from, and plantings that were lost, in words."""

from __future__ import annotations

from planner.garden.harm_words import HARM_WORDS
from planner.garden.site import UnitSystem
from planner.listings.record_words import WHY_WORDS
from planner.listings.weights import weight_words
from planner.plan.own_years import GroupLeftOut
from planner.season.seen_times import LeftOut
from planner.words import join_list, later, number_words, say, say_count

_DAYS_OF = {
    "coming up": later("{year} is left out of the days until it comes up: {reason}"),
    "flowering": later("{year} is left out of the days until it flowers: {reason}"),
    "first picking": later("{year} is left out of the days until the first picking: {reason}"),
    "length of picking": later("{year} is left out of the days of picking: {reason}"),
    "emergence": later("{year} is left out of the seed that comes up: {reason}"),
    "yield": later("{year} is left out of the yield: {reason}"),
}


def left_out_lines(group: GroupLeftOut, units: UnitSystem) -> list[str]:
    """What of a crop and variety is left out, a sentence each without a full stop: first how often it was lost.

    Parameters
    ----------
    group : GroupLeftOut
    units : UnitSystem
    """
    lines = [lost_words(group)] if group.lost else []
    return [*lines, *(_left_out(one, units) for one in group.untold)]


def lost_words(group: GroupLeftOut) -> str:
    """In how many of its years something of it was lost, and to what: ``lost in 1 of 4 years: 2024 to voles``."""
    years: dict[int, list[str]] = {}
    for one in group.lost:
        words = _lost_to(one)
        if words not in years.setdefault(one.year, []):
            years[one.year].append(words)
    told = [
        say("{year} {causes}", year=year, causes=join_list(causes)) for year, causes in sorted(years.items())
    ]
    return say_count(
        "lost in {lost} of {count} year: {years}",
        "lost in {lost} of {count} years: {years}",
        max(group.years, len(years)),
        lost=len(years),
        years=join_list(told),
    )


def _lost_to(one: LeftOut) -> str:
    """``to voles``, ``to pigeons``, or why it ended where no harm was seen."""
    if one.cause in WHY_WORDS:
        return say("({reason})", reason=cause_words(one.cause))
    return say("to {cause}", cause=cause_words(one.cause))


def cause_words(cause: str) -> str:
    """What took a planting that was lost: a harm, why it ended, or the gardener's words."""
    if cause in WHY_WORDS:
        return say(WHY_WORDS[cause])
    return say(HARM_WORDS[cause]) if cause in HARM_WORDS else cause


def _left_out(one: LeftOut, units: UnitSystem) -> str:
    return say(_DAYS_OF[one.kind], year=one.year, reason=_reason(one, units))


def _reason(one: LeftOut, units: UnitSystem) -> str:
    match one.why:
        case "slip":
            return _slip(one, units)
        case "pieces":
            return say("it was picked in pieces or bunches and not weighed")
        case "not over":
            return say("it is not over as long as no last picking and no end is written down")
        case "unweighed":
            return say("nothing that was picked was weighed")
        case "wanted":
            return say(
                "it waits in the ground, so it was picked when it was wanted; write down the day on which it was ripe, or pick "
                "it over some weeks"
            )
        case "not by warmth":
            return say("cold or the length of the day decided, and not its warmth")
        case _:
            return say("it was lost")


def _slip(one: LeftOut, units: UnitSystem) -> str:
    """A number that no garden has, beside what was to be expected."""
    seen, expected = one.seen or 0.0, one.expected or 1.0
    if one.kind != "yield":
        return say(
            "{seen} days, where {expected} are to be expected, are perhaps a slip of the pen",
            seen=number_words(seen, 0),
            expected=number_words(expected, 0),
        )
    times = int(seen / expected)
    return say_count(
        "{weight} is more than this crop can bear here, perhaps a slip of the pen",
        "{weight} is more than {count} times what is to be expected of it here, perhaps a slip of the pen",
        times,
        weight=weight_words(seen, units),
    )
