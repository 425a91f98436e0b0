"""What the first autumn frost does to a harvest: it ends it, or comes before it."""

from __future__ import annotations

import datetime as dt

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.planting_dates import Dated
from planner.season.winter import bears_winter
from planner.words import day_words, say


def frost_after_start(context: DateContext, on: Dated | None) -> dt.date | None:
    """The first autumn frost after the start; None where none comes, under glass, and of what stays for years."""
    if on is None or context.sheltered or context.stays_for_years:
        return None
    return context.frosts.first_after(on.day)


def ripens_after_frost(context: DateContext, first: Dated, frost: dt.date) -> tuple[str, ...]:
    """A sentence where a crop that frost harms would ripen too long after it.

    A tender crop must be ripe by the frost, others four weeks later; what bears the winter, and what is
    harvested the spring after, ripens whenever it does.

    Parameters
    ----------
    context : DateContext
    first : Dated
        First harvest.
    frost : date
        The first autumn frost after the start.
    """
    limit = frost if context.tender else shift(frost, practice.LIGHT_FROST)
    if first.day <= limit or _bears_frost(context):
        return ()
    if not context.tender and first.day > shift(frost, practice.BEYOND_WINTER):
        return ()
    return (
        say(
            "{crop} would ripen on {day}, after the first autumn frost ({day_2})",
            crop=context.name,
            day=day_words(first.day),
            day_2=day_words(frost),
        ),
    )


def _bears_frost(context: DateContext) -> bool:
    """Whether it grows on after the first frosts; so does a crop of unknown hardiness."""
    crop = context.crop
    if practice.frost_cuts_shoots(crop, context.start):
        return False
    return bears_winter(context) or practice.very_hardy(crop) or crop is None or crop.hardiness is None


def end_of_tender_harvest(
    context: DateContext, first: Dated, last: Dated | None, frost: dt.date
) -> Dated | None:
    """The last harvest, the day before the frost where frost kills the crop amid its harvest.

    Parameters
    ----------
    context : DateContext
    first, last : Dated
        First and last harvest; a last one that was given or done stays as it is.
    frost : date
        The first autumn frost after the start.
    """
    if not context.tender or last is None or last.origin != "worked out":
        return last
    if practice.lifted_after_frost(context.crop):
        return last
    if last.day >= frost > first.day:
        why = say("The first autumn frost ends the harvest (risk {risk} %)", risk=context.frosts.risk)
        return Dated(shift(frost, -1), why, "practice")
    return last
