"""Years that a garden does not learn from, and plantings that were lost, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from planner.garden.harm_words import HARM_WORDS, WHY_WORDS
from planner.garden.site import UnitSystem
from planner.listings.weights import weight_words
from planner.plan.own_years import GroupLeftOut, LostInYear
from planner.season.seen_times import LeftOut
from planner.words import join_list, later, number_words, percent, say, say_count

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
    told = [_left_out(one, units) for one in group.untold if one.why != "not over"]
    return [*lost_lines(group), *told]


def end_lines(groups: Iterable[GroupLeftOut], name: Callable[[GroupLeftOut], str]) -> list[str]:
    """Of which no end is written down, said once for all of them: those that count as over, and those that do not yet.

    Parameters
    ----------
    groups : iterable of GroupLeftOut
    name : callable
        A group in words.
    """
    over: list[str] = []
    still: list[str] = []
    for group in groups:
        over += [say("{crop} {year}", crop=name(group), year=year) for year in group.taken_as_over]
        years = dict.fromkeys(one.year for one in group.what if one.why == "not over")
        still += [say("{crop} {year}", crop=name(group), year=year) for year in years]
    lines = []
    if over:
        lines.append(
            say(
                "No last picking and no end is written down, and they count as over since their planned end is past: {crops}.",
                crops=join_list(over),
            )
        )
    if still:
        lines.append(
            say(
                "Left out of the yield as long as no last picking and no end is written down: {crops}.",
                crops=join_list(still),
            )
        )
    return lines


def lost_lines(group: GroupLeftOut) -> list[str]:
    """What of it was lost: ``lost in 1 of 4 years: 2024 to voles``, and years in which only a part of it was."""
    whole = [one for one in group.lost if one.whole]
    lines = []
    if whole:
        told = [say("{year} {causes}", year=one.year, causes=_lost_to(one)) for one in whole]
        lines.append(
            say_count(
                "lost in {lost} of {count} year: {years}",
                "lost in {lost} of {count} years: {years}",
                max(group.years, len(whole)),
                lost=len(whole),
                years=join_list(told),
            )
        )
    for one in group.lost:
        if one.whole:
            continue
        if one.lost:
            lines.append(
                say_count(
                    "{count} of {plantings} plantings was lost in {year} {causes}",
                    "{count} of {plantings} plantings were lost in {year} {causes}",
                    one.lost,
                    plantings=one.plantings,
                    year=one.year,
                    causes=_lost_to(one),
                )
            )
        elif one.plantings > 1:
            lines.append(
                say(
                    "{share} of one of {plantings} plantings was lost in {year} {causes}",
                    share=percent(one.share),
                    plantings=one.plantings,
                    year=one.year,
                    causes=_lost_to(one),
                )
            )
        else:
            lines.append(
                say(
                    "{share} of it was lost in {year} {causes}",
                    share=percent(one.share),
                    year=one.year,
                    causes=_lost_to(one),
                )
            )
    return lines


def _lost_to(one: LostInYear) -> str:
    """``to voles and slugs``, or why it ended where no harm was seen."""
    return join_list(
        say("({reason})", reason=cause_words(cause))
        if cause in WHY_WORDS
        else say("to {cause}", cause=cause_words(cause))
        for cause in one.causes
    )


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
        case "unweighed":
            return say("nothing that was picked was weighed")
        case "wanted":
            return say(
                "it waits in the ground, so it was picked when it was wanted; write down the day on which it was ripe, or pick "
                "it over some weeks"
            )
        case "lifted":
            return say(
                "it is lifted at once when there is time for it; write down the day on which it was ripe"
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
