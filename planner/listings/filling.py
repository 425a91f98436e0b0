"""What could still go into free ground, as lines."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

from planner.garden import Bed
from planner.garden.planting import SEEDLESS
from planner.garden.units import show_length
from planner.garden.wishes import Wish
from planner.listings.tables import aligned
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.proposal.bare import Bare, bare_in_winter
from planner.proposal.bare_summer import BareInSummer, bare_in_summer
from planner.proposal.filling import Filling
from planner.words import capital, day_words, full_day_words, join_list, say, say_count


def filling_heads() -> tuple[str, ...]:
    """Heads of the table of fillings."""
    return (
        say("crop"),
        say("begin"),
        say("how many"),
        say("room"),
        say("harvest from"),
        say("cleared"),
        say("harvest"),
        say("for"),
    )


def filling_lines(
    plan: Plan, day: dt.date, found: Iterable[tuple[Bed, tuple[Filling, ...]]], room: int | None = None
) -> list[str]:
    """Print what could still go into beds from a day on, the best first.

    Parameters
    ----------
    plan : Plan
    day : date
    found : iterable of (Bed, tuple of Filling)
    room : int, optional
        Width of tables; any by default. [columns]
    """
    lines = [say("What could still go in from {day} on", day=full_day_words(day))]
    for bed, fillings in found:
        lines += ["", bed.name]
        if not fillings:
            lines.append("  " + say("Nothing: no ground is free for long enough, or nothing is begun then"))
            continue
        rows = [filling_cells(plan, one) for one in fillings]
        lines += [f"  {line}" for line in aligned(filling_heads(), rows, room=room)]
    return lines


def filling_cells(plan: Plan, one: Filling) -> tuple[str, ...]:
    """A filling as the cells of a table: crop, begin, how many, room, harvest from, cleared, harvest, for."""
    units = plan.garden.site.units
    first = one.dates.first_harvest
    return (
        capital(one.crop.name) + (f" {one.planting.variety}" if one.planting.variety else ""),
        begin_words(plan, one),
        say_count("{count} plant", "{count} plants", one.plants),
        show_length(one.length, units),
        day_words(first.day, plan.year) if first is not None else "",
        day_words(one.span.last, plan.year),
        weight_words(one.grams, units) if one.grams else "",
        reason_words(one),
    )


def begin_words(plan: Plan, one: Filling) -> str:
    """How and when it begins on its ground."""
    day = day_words(one.span.first, plan.year)
    if one.dates.start == "sown":
        return say("sow {day}", day=day)
    if one.dates.start in SEEDLESS:
        return say("plant {day}", day=day)
    return say("set out {day}", day=day)


def reason_words(one: Filling) -> str:
    """Why it is offered: a wish, what the garden knows, a quick crop, or the ground itself."""
    if one.wish is not None:
        return say("a wish that is not met")
    if one.planting.purpose == "green manure":
        return say("green manure")
    return say("grown here before") if one.grown_before else say("quick crop")


def bare_lines(plan: Plan, found: Iterable[Bare]) -> list[str]:
    """Ground that would lie bare in winter, and what could cover it; nothing where there is none.

    Parameters
    ----------
    plan : Plan
    found : iterable of Bare
    """
    lines: list[str] = []
    whole: list[str] = []
    for one in found:
        told = whole if one.in_summer else lines
        where = say(
            "{bed}, {start} to {end}, free from {day} on",
            bed=one.bed.name,
            start=show_length(one.start, plan.garden.site.units),
            end=show_length(one.end, plan.garden.site.units),
            day=day_words(one.since, plan.year),
        )
        if one.manure is None:
            told.append("  " + say("{ground}: too late to sow a green manure", ground=where))
        else:
            day = day_words(one.manure.span.first, plan.year)
            told.append(
                "  " + say("{ground}: {crop}, sown {day}", ground=where, crop=one.manure.crop.name, day=day)
            )
    return [
        *((say("Bare in winter"), *lines) if lines else ()),
        *((say("Bare in winter, and in summer too"), *whole) if whole else ()),
    ]


def bare_summer_lines(plan: Plan, found: Iterable[BareInSummer]) -> list[str]:
    """Ground that lies bare in summer, and what could go in; nothing where there is none.

    Parameters
    ----------
    plan : Plan
    found : iterable of BareInSummer
    """
    units, lines = plan.garden.site.units, []
    for one in found:
        where = say(
            "{bed}, {start} to {end}, {first} to {last}",
            bed=one.bed.name,
            start=show_length(one.start, units),
            end=show_length(one.end, units),
            first=day_words(one.free.first, plan.year),
            last=day_words(one.free.last, plan.year),
        )
        offers = [_offer_words(plan, each) for each in one.offers]
        if offers and one.roofed:
            words = say("{ground}: warm ground; could take {crops}", ground=where, crops=join_list(offers))
        elif offers:
            words = say("{ground}: could take {crops}", ground=where, crops=join_list(offers))
        else:
            words = where
        lines.append("  " + words)
    return [say("Bare in summer"), *lines] if lines else []


def _offer_words(plan: Plan, one: Filling) -> str:
    """A crop that could go in, how many and from when."""
    name, day = one.crop.name, day_words(one.span.first, plan.year)
    if one.wish is not None:
        return say("{crop}, still wished ({count} from {day} on)", crop=name, count=one.plants, day=day)
    return say("{crop} ({count} from {day} on)", crop=name, count=one.plants, day=day)


def bare_lines_of_year(
    plan: Plan, beds: Iterable[Bed], wished: Mapping[str, Wish] | None = None
) -> list[str]:
    """What a layout leaves bare, in summer and in winter, and what could go in.

    Parameters
    ----------
    plan : Plan
        With the layout.
    beds : iterable of Bed
        That are laid out.
    wished : mapping of str to Wish, optional
        What is still wished of crops, by their keys.
    """
    beds = tuple(beds)
    summer = bare_summer_lines(plan, bare_in_summer(plan, beds, wished))
    return summer + bare_lines(plan, bare_in_winter(plan, beds))
