"""When a crop that must be pollinated comes into flower."""

from __future__ import annotations

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.observed import day_seen
from planner.season.planting_dates import Dated
from planner.words import say


def flowering_day(
    context: DateContext, up: Dated | None, out: Dated | None, first: Dated | None
) -> Dated | None:
    """The day it flowers: seen, else as it is worked out.

    Parameters
    ----------
    context : DateContext
    up, out, first : Dated, optional
        As in :func:`expected_flowering`.
    """
    return day_seen(context, "flowering") or expected_flowering(context, up, out, first)


def expected_flowering(
    context: DateContext, up: Dated | None, out: Dated | None, first: Dated | None
) -> Dated | None:
    """The day it flowers by its harvest; None of crops that need no pollination, and where that is not known.

    Parameters
    ----------
    context : DateContext
    up, out, first : Dated, optional
        Emergence, setting out and first harvest.
    """
    needs = context.crop.needs_pollination if context.crop is not None else None
    if needs is None or not needs.value or first is None:
        return None
    if context.stays_for_years:
        why = say("{days} days before the first harvest", days=practice.SETTING)
        return Dated(shift(first.day, -practice.SETTING), why, "estimate")
    begin = out or up
    if begin is None or first.day <= begin.day:
        return None
    days = (first.day - begin.day).days
    if context.planting.crop in practice.PICKED_YOUNG and days > 2 * practice.YOUNG:
        why = say("{days} days before the first harvest", days=practice.YOUNG)
        return Dated(shift(first.day, -practice.YOUNG), why, "practice")
    why = (
        say("About half way from setting out to the first harvest")
        if out
        else say("About half way from coming up to the first harvest")
    )
    return Dated(shift(begin.day, days * practice.FLOWERING), why, "estimate")
