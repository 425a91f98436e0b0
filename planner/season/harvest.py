"""When a planting is harvested, and whether it ripens in time."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.day_length import harvest_of_cloves, in_long_days, ripens_in_short_days
from planner.season.frost_end import end_of_tender_harvest, frost_after_start, ripens_after_frost
from planner.season.frosts import shift
from planner.season.heat_to_ripen import (
    delayed_by_cool_place,
    harvest_by_degree_days,
    heat_doubts,
    heat_sum,
)
from planner.season.overwintering import harvest_after_winter
from planner.season.planting_dates import Dated, HeatSum
from planner.season.start_day import Start, growing_days
from planner.season.yearly_harvest import first_harvest_of_year


class Harvest(NamedTuple):
    """The harvest of a planting.

    Attributes
    ----------
    first, last : Dated or None
        First and last day of it; None where there is none or it is not known.
    heat : HeatSum or None
        Of crops that a cool summer may leave unripe, where the monthly means are known.
    ripens : bool
        False where it would not be ripe in time.
    missing, doubts : tuple of str
        What could not be worked out, and what is doubtful of it; a sentence each.
    """

    first: Dated | None = None
    last: Dated | None = None
    heat: HeatSum | None = None
    ripens: bool = True
    missing: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


def work_out_harvest(context: DateContext, start: Start, up: Dated | None) -> Harvest:
    """First and last harvest: done before pinned, pinned before worked out.

    Parameters
    ----------
    context : DateContext
    start : Start
    up : Dated, optional
        Emergence.
    """
    first, last = _given_harvest(context)
    found = Harvest(first)
    if first is None:
        if context.planting.purpose == "green manure":
            return found
        found = _worked_out_harvest(context, start, up)
        first = found.first
    if first is None:
        return found
    missing = found.missing
    if last is None:
        days = context.number("harvest_days")
        if days is not None:
            why = f"{days:g} days of harvest"
            last = Dated(shift(first.day, max(days - 1, 0)), why, context.source("harvest_days"))
        else:
            missing += context.note_unknown(
                "harvest_days", "length of harvest is", "when it is over is not known"
            )
    if last is not None and last.day < first.day:
        last = Dated(first.day, "The first harvest is later than the last one set by hand")
    ripens, doubts = found.ripens, found.doubts
    frost = frost_after_start(context, start.on_plot)
    if frost is not None:
        unripe = ripens_after_frost(context, first, frost)
        ripens, doubts = ripens and not unripe, doubts + unripe
        last = end_of_tender_harvest(context, first, last, frost)
    return Harvest(first, last, found.heat, ripens, missing, doubts)


def _given_harvest(context: DateContext) -> tuple[Dated | None, Dated | None]:
    """First and last harvest done or pinned; of what stays for years those of the year wanted."""
    kind = "lift and cure" if "lift and cure" in context.done else "pick"
    first = context.given_day(kind, context.pins.first_harvest, "Harvested from")
    last = context.given_day("", context.pins.last_harvest, "")
    if context.stays_for_years:
        first = first if first is not None and context.in_year(first.day) else None
        last = last if last is not None and context.in_year(last.day) else None
    return first, last


def _worked_out_harvest(context: DateContext, start: Start, up: Dated | None) -> Harvest:
    """The first harvest by the rules, with the heat it finds, notes and doubts; its last day is left open."""
    if context.planting.purpose == "seed" and not practice.lifted_as_seed(
        context.planting.crop, context.start
    ):
        missing = (
            f"{context.name} is grown for seed: days to ripe seed are not known; give its harvest by hand"
        )
        return Harvest(missing=(missing,))
    on = start.on_plot
    if context.stays_for_years:
        first, missing_days = first_harvest_of_year(context, on)
        return Harvest(first, missing=missing_days)
    days = growing_days(context)
    if days is None:
        words = ("days to maturity are", "its harvest is not known")
        return Harvest(missing=context.note_unknown("days_to_maturity", *words))
    if on is None:
        return Harvest()
    if days >= practice.LONG_CROP:
        cloves, doubts = harvest_of_cloves(context, on.day, days)
        return Harvest(cloves or _harvest_by_days(context, start.sow, on, up, days), doubts=doubts)
    heat = heat_sum(context, on.day, days)
    by_heat, doubts = harvest_by_degree_days(context, on.day, days)
    plain = by_heat or _harvest_by_days(context, start.sow, on, up, days)
    first = delayed_by_cool_place(context, heat, on.day, days, plain.day) or plain
    doubts += heat_doubts(context, heat)
    return Harvest(first, heat=heat, ripens=not doubts, doubts=doubts)


def _harvest_by_days(
    context: DateContext, sow: Dated | None, on: Dated, up: Dated | None, days: float
) -> Dated:
    """Harvest by the days to maturity, and what a cold soil, winter and short days do to them."""
    plain, why = _by_days_alone(context, sow, on, days)
    source = context.source("days_to_maturity")
    if context.start == "sown" and up is not None:
        soonest = shift(up.day, practice.AFTER_EMERGENCE * days)
        if soonest > plain:
            plain, why = soonest, f"{why}, and it comes up late in the cold"
    if days >= practice.LONG_CROP or context.sheltered:
        return Dated(plain, why, source)
    over = harvest_after_winter(context, on.day, plain, days)
    if over is not None:
        return over
    if ripens_in_short_days(on.day, plain, context.southern):
        plain = shift(plain, practice.FALL_FACTOR)
        why += f", and {practice.FALL_FACTOR} for the short days of autumn"
    long = in_long_days(context, plain)
    return Dated(long, why if long == plain else "When the days are long again", source)


def _by_days_alone(context: DateContext, sow: Dated | None, on: Dated, days: float) -> tuple[dt.date, str]:
    """First harvest and its reason, counted from where the crop's days count."""
    counted = context.crop.maturity_from.value if context.crop and context.crop.maturity_from else None
    if context.start == "raised" and counted == "sowing" and sow is not None:
        whole = context.number("days_to_maturity") or 0
        return max(shift(sow.day, whole), on.day), f"{whole:g} days after sowing"
    why = f"{days:g} days after {'sowing' if context.start == 'sown' else 'setting out'}"
    return shift(on.day, days), why
