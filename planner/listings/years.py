"""Years side by side as lines: what stood where, its days, what was picked, and what was lost."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from planner.garden import Bed
from planner.garden.harm_words import HARM_WORDS, WHY_WORDS
from planner.garden.records import Amount
from planner.garden.units import show_length
from planner.listings.learned import crop_name
from planner.listings.record_words import amount_words
from planner.listings.tables import aligned
from planner.listings.weights import weight_words
from planner.plan import Plan
from planner.plan.history import Stood
from planner.words import day_words, join_list, say, say_count


def years_lines(plan: Plan, found: Sequence[Stood], of: str, room: int | None = None) -> list[str]:
    """Print what stood in the years of a garden.

    Parameters
    ----------
    plan : Plan
        Of any growing year.
    found : sequence of Stood
    of : str
        Of what: a crop, a bed or a place; empty for the whole garden.
    room : int, optional
        Width of tables; any by default. [columns]
    """
    name = plan.garden.site.name
    lines = [
        say("{garden}, years side by side: {of}", garden=name, of=of)
        if of
        else say("{garden}, years side by side", garden=name)
    ]
    if not found:
        return [*lines, "", say("Nothing stood there in any year.")]
    heads = (
        say("planting"), say("bed"), say("on its plot"), say("came up"), say("picked"), say("amount"), say("ended"), say("also noted"),
    )  # fmt: skip
    for year in sorted({one.year for one in found}):
        of_year = [one for one in found if one.year == year]
        rows = [_row(plan, one) for one in of_year]
        lines += ["", str(year), *aligned(heads, rows, right=(5,), room=room), *_sums(plan, of_year)]
    return lines


def _row(plan: Plan, one: Stood) -> tuple[str, ...]:
    units, year = plan.garden.site.units, one.span.first.year

    def day(date: dt.date | None) -> str:
        return day_words(date, year) if date is not None else ""

    picked = [weight_words(one.grams, units)] if one.grams else []
    picked += [_amount(plan, value, unit) for value, unit in one.other_amounts]
    besides = [_amount(plan, value, unit) for value, unit in one.seed]
    besides += [say(HARM_WORDS[harm]) for harm in one.harms]
    name = crop_name(plan, one.planting.crop)
    if one.planting.variety:
        name = say("{crop} {variety}", crop=name, variety=one.planting.variety)
    days = [day(date) for date in (one.first, one.last) if date is not None]
    return (
        name,
        one.bed.name,
        say("{first} to {last}", first=day(one.span.first), last=day(one.span.last)),
        day(one.came_up),
        say("{first} to {last}", first=days[0], last=days[1]) if len(days) == 2 else "".join(days),
        join_list(picked) if picked else "",
        ended_words(one, year),
        join_list(besides) if besides else "",
    )


def _amount(plan: Plan, value: float, unit: str) -> str:
    return amount_words(Amount.model_validate({"value": value, "unit": unit}), plan.garden.site.units)


def ended_words(one: Stood, year: int) -> str:
    """How a planting ended; empty where nothing tells.

    Parameters
    ----------
    one : Stood
    year : int
        Days of another year are told with it.
    """
    if one.ended is None:
        return ""
    if one.why:
        return say("{why} {day}", why=say(WHY_WORDS[one.why]), day=day_words(one.ended, year))
    return say("cleared {day}", day=day_words(one.ended, year))


def _sums(plan: Plan, of_year: Sequence[Stood]) -> list[str]:
    """What a year gave in all, and how many plantings were lost."""
    grams, lost = sum(one.grams for one in of_year), sum(one.lost for one in of_year)
    lines = []
    if grams:
        lines.append(say("  {weight} picked in all", weight=weight_words(grams, plan.garden.site.units)))
    if lost:
        lines.append(say_count("  {count} planting was lost", "  {count} plantings were lost", lost))
    return lines


def place_words(plan: Plan, at: tuple[float, float]) -> str:
    """A place on the plan."""
    units = plan.garden.site.units
    x, y = (
        show_length(abs(one), units) if one >= 0 else say("-{length}", length=show_length(-one, units))
        for one in at
    )
    return say("the ground at {x}, {y}", x=x, y=y)


def bed_words(bed: Bed) -> str:
    """The ground of a bed."""
    return say("the ground of {bed}", bed=bed.name)
