"""When a planting is sown and set out: forward from a frost, or backward from a harvest."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.season import practice
from planner.season.counting_back import FALL_SOURCE, count_back, counted_harvest, days_on_plot
from planner.season.date_inputs import DateContext
from planner.season.day_length import ripens_in_short_days
from planner.season.frosts import shift
from planner.season.heat import mean_on
from planner.season.planting_dates import Dated
from planner.season.windows import opening_of_window, outside_window
from planner.sun import longest_day
from planner.words import day_words


class Start(NamedTuple):
    """The start of a planting.

    Attributes
    ----------
    sow, set_out : Dated or None
        None where the step does not belong to it or cannot be worked out.
    on_plot : Dated or None
        The one of the two on which it takes its plot.
    missing, doubts : tuple of str
        What could not be worked out, and what is doubtful of the start; a sentence each.
    """

    sow: Dated | None
    set_out: Dated | None
    on_plot: Dated | None
    missing: tuple[str, ...]
    doubts: tuple[str, ...]


def work_out_start(context: DateContext) -> Start:
    """Sowing and setting out: done before pinned, pinned before worked out."""
    if context.start == "sown":
        sow = context.given_day("sow", context.pins.sow or context.planting.first, "Sown")
        sow, missing = (sow, ()) if sow is not None else first_day(context)
        return Start(sow, None, sow, missing, _doubts(context, sow))
    out = context.given_day("set out", context.pins.set_out or context.planting.first, "Set out")
    if context.start == "standing":
        return Start(None, out, out, (), _doubts(context, out))
    if context.start == "raised":
        return _raised(context, out)
    out, missing = (out, ()) if out is not None else first_day(context)
    return Start(None, out, out, missing, _doubts(context, out))


def _raised(context: DateContext, out: Dated | None) -> Start:
    """Start of plants raised indoors: each of sowing and setting out follows from the other."""
    sow = context.given_day("sow", context.pins.sow, "Sown")
    weeks = context.number("weeks_to_raise")
    missing: tuple[str, ...] = ()
    if out is None and sow is not None and weeks is not None:
        why = f"{weeks:g} weeks after sowing"
        out = Dated(shift(sow.day, 7 * weeks), why, context.source("weeks_to_raise"))
    if out is None:
        out, missing = first_day(context)
    if sow is None and out is not None:
        if weeks is not None:
            why = f"{weeks:g} weeks before setting out"
            sow = Dated(shift(out.day, -7 * weeks), why, context.source("weeks_to_raise"))
        else:
            missing += context.note_unknown("weeks_to_raise", "time to raise is", "when to sow is not known")
    return Start(sow, out, out, missing, _doubts(context, out))


def growing_days(context: DateContext) -> float | None:
    """Days on its plot until the first harvest; None where they are not known."""
    return days_on_plot(context.number, context.crop, context.start)


def first_day(context: DateContext) -> tuple[Dated | None, tuple[str, ...]]:
    """The day a planting takes its plot where it is neither done nor pinned, and what is missing for it."""
    wanted = context.pins.first_harvest
    # Autumn planting has its season: a harvest wanted the year after does not move it into summer.
    if wanted is not None and context.planting.timing != "autumn":
        back = _back_from_harvest(context, wanted)
        if back is not None:
            return back, ()
    if context.planting.timing == "count back":
        return _back_from_frost(context)
    return opening_of_window(context)


def _back_from_harvest(context: DateContext, wanted: dt.date) -> Dated | None:
    """The start from which the first harvest falls on a wanted day."""
    days = growing_days(context)
    if days is None:
        return None
    at = shift(wanted, -days)
    late = at > longest_day(at.year, context.southern)
    if late and ripens_in_short_days(at, wanted, context.southern):
        at = shift(at, -practice.FALL_FACTOR)
    why = f"{(wanted - at).days} days before the first harvest wanted on {day_words(wanted)}"
    return Dated(at, why, context.source("days_to_maturity"))


def _back_from_frost(context: DateContext) -> tuple[Dated | None, tuple[str, ...]]:
    """The latest start that is still picked before the first autumn frost."""
    days, frost = growing_days(context), context.frosts.first
    if days is None:
        return None, ()
    if frost is None:
        missing = f"The first autumn frost is not given: {context.name} cannot be counted back"
        return None, (missing,)
    harvest = counted_harvest(context.number)
    at = count_back(frost, days, 0, harvest, context.tender)
    why = (
        f"Counted back from the first autumn frost ({day_words(frost)}): {days:g} days to harvest, "
        f"{harvest:g} of harvest, fall factor {practice.FALL_FACTOR}"
        + (f", {practice.FALL_FACTOR} more for a crop frost kills" if context.tender else "")
    )
    return Dated(at, why, FALL_SOURCE), ()


def _doubts(context: DateContext, on: Dated | None) -> tuple[str, ...]:
    """Sentences about a start outside the crop's window, or in soil that is too cold."""
    if on is None:
        return ()
    return (*outside_window(context, on), *_cold_soil(context, on))


def _cold_soil(context: DateContext, on: Dated) -> tuple[str, ...]:
    least = context.number("soil_least")
    if context.start != "sown" or least is None or context.sheltered:
        return ()
    mean = mean_on(context.climate, on.day)
    if mean is None or mean >= least - 0.05:
        return ()
    return (
        f"The soil is about {mean:.0f} °C on {day_words(on.day)}, judged by the mean air temperature; "
        f"{context.name} needs {least:g} °C to come up",
    )
