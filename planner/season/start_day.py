"""When a planting is sown and set out: forward from a frost, or backward from a harvest."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.season import practice
from planner.season.counting_back import FALL_SOURCE, count_back, counted_harvest, days_on_plot
from planner.season.date_inputs import DateContext
from planner.season.development import latest_start, need_of
from planner.season.frosts import day_within, frost_day, shift
from planner.season.harvest_end import AT_REST, killed_on
from planner.season.planting_dates import Dated
from planner.season.sheltered_frosts import first_frost_there
from planner.season.soil_rule import day_by_soil
from planner.season.temperatures import first_day as first_day_of
from planner.season.windows import opening_of_window, usual_day, window_edge
from planner.words import full_day_words, number_words, say, short_number


class Start(NamedTuple):
    """The start of a planting.

    Attributes
    ----------
    sow, set_out : Dated or None
        None where the step does not belong to it or cannot be worked out.
    on_plot : Dated or None
        The one of the two on which it takes its plot.
    missing : tuple of str
        What could not be worked out, a sentence each.
    """

    sow: Dated | None
    set_out: Dated | None
    on_plot: Dated | None
    missing: tuple[str, ...]


def work_out_start(context: DateContext) -> Start:
    """Sowing and setting out: done before pinned, pinned before worked out."""
    if context.start == "sown":
        sow = context.given_day("sow", context.pins.sow or context.planting.first, say("Sown on this day"))
        sow, missing = (sow, ()) if sow is not None else first_day(context)
        return Start(sow, None, sow, missing)
    out = context.given_day(
        "set out", context.pins.set_out or context.planting.first, say("Set out on this day")
    )
    if context.start == "standing":
        return Start(None, out, out, ())
    if context.start == "raised":
        return _raised(context, out)
    out, missing = (out, ()) if out is not None else first_day(context)
    return Start(None, out, out, missing)


def _raised(context: DateContext, out: Dated | None) -> Start:
    """Start of plants raised indoors: each of sowing and setting out follows from the other."""
    sow = context.given_day("sow", context.pins.sow, say("Sown on this day"))
    weeks = context.number("weeks_to_raise")
    missing: tuple[str, ...] = ()
    if out is None and sow is not None and weeks is not None:
        why = say("{weeks} weeks after sowing", weeks=short_number(weeks))
        out = Dated(shift(sow.day, 7 * weeks), why, context.source("weeks_to_raise"))
    if out is None:
        out, missing = first_day(context)
    if sow is None and out is not None:
        if weeks is not None:
            why = say("{weeks} weeks before setting out", weeks=short_number(weeks))
            sow = Dated(shift(out.day, -7 * weeks), why, context.source("weeks_to_raise"))
        else:
            missing += context.note_unknown(
                "weeks_to_raise",
                say("No time to raise is known for {crop}: when to sow is not known", crop=context.name),
            )
    return Start(sow, out, out, missing)


def growing_days(context: DateContext) -> float | None:
    """Days on its plot until the first harvest; None where they are not known."""
    return days_on_plot(context.number, context.crop, context.start, context.planting.state)


def first_day(context: DateContext) -> tuple[Dated | None, tuple[str, ...]]:
    """The day a planting takes its plot where it is neither done nor pinned, and what is missing for it."""
    if context.planting.soil_rule is not None:
        return day_by_soil(context, context.planting.soil_rule)
    wanted = context.pins.first_harvest
    # Autumn planting has its season: a harvest wanted the year after does not move it into summer.
    if wanted is not None and context.planting.timing != "autumn":
        back = _back_from_harvest(context, wanted)
        if back is not None:
            return back, ()
    autumn = context.planting.timing == "autumn"
    if context.planting.timing == "count back" or (autumn and window_edge(context, autumn=True) is None):
        return last_start(context)  # for autumn: as late as it is still picked
    return usual_day(context)


def _back_from_harvest(context: DateContext, wanted: dt.date) -> Dated | None:
    """The start from which the first harvest falls on a wanted day."""
    need = need_of(context)
    if need is not None and context.weather is not None:
        at = latest_start(wanted, need, context.weather)
        if at is not None:
            why = say(
                "{heat} degree-days over {base} °C, {days} days, before the first harvest wanted on {day}",
                heat=number_words(need.heat, 0),
                base=short_number(need.response.base),
                days=(wanted - at).days,
                day=full_day_words(wanted),
            )
            return Dated(at, why, need.source)
    days = growing_days(context)
    if days is None:
        return None
    why = say(
        "{days} days before the first harvest wanted on {day}",
        days=short_number(days),
        day=full_day_words(wanted),
    )
    return Dated(shift(wanted, -days), why, context.source("days_to_maturity"))


def last_start(context: DateContext) -> tuple[Dated | None, tuple[str, ...]]:
    """The latest start that is still picked before the cold ends it, and what is missing for it."""
    days, frost = growing_days(context), context.frosts.first
    if days is None:
        unknown = say(
            "No days to maturity are known for {crop}: its last start is not known", crop=context.name
        )
        unpicked = say(
            "{crop} has no harvest to count back from: give its first day by hand", crop=context.name
        )
        return None, context.note_unknown("days_to_maturity", unknown) or (unpicked,)
    if frost is None:
        missing = say("The first autumn frost is not given: {crop} cannot be counted back", crop=context.name)
        return None, (missing,)
    harvest = counted_harvest(context.number)
    need = need_of(context)
    if need is not None and context.weather is not None:
        end, words = end_of_growth(context, frost)
        at = latest_start(shift(end, -harvest), need, context.weather)
        opens, _ = opening_of_window(context)
        if opens is not None and (at is None or at < opens.day < end):
            why = say(
                "As early as it may start: it has too little time before {day}, {words}",
                day=full_day_words(end),
                words=words,
            )
            return Dated(opens.day, why, need.source), ()
        if at is not None:
            why = say(
                "{heat} degree-days over {base} °C and {harvest} days of harvest before {day}, {words}",
                heat=number_words(need.heat, 0),
                base=short_number(need.response.base),
                harvest=short_number(harvest),
                day=full_day_words(end),
                words=words,
            )
            return Dated(at, why, need.source), ()
    at = count_back(frost, days, 0, harvest, context.tender)
    why = say(
        "Counted back from the first autumn frost ({day}): {days} days to harvest, {harvest} of harvest, fall factor {factor}",
        day=full_day_words(frost),
        days=short_number(days),
        harvest=short_number(harvest),
        factor=practice.FALL_FACTOR,
    )
    if context.tender:
        why = say("{reason}, {factor} more for a crop frost kills", reason=why, factor=practice.FALL_FACTOR)
    return Dated(at, why, FALL_SOURCE), ()


def end_of_growth(context: DateContext, frost: dt.date) -> tuple[dt.date, str]:
    """The day by which a crop is grown, and the words for it.

    What frost kills: the day before which frost comes in one year of ten.  Others: the day from which it is too cool
    and dark for them, or their cold is usual.

    Parameters
    ----------
    context : DateContext
    frost : date
        First autumn frost.
    """
    if context.tender:
        early = frost_day(context.climate.first_frost, 10)
        day = day_within(early, shift(frost, -180)) if early else frost
        return first_frost_there(context, min(day, frost)), say("before which frost comes in one year of ten")
    assert context.weather is not None
    stops = first_day_of(context.weather.slower_than(context.response, AT_REST), frost)
    killed = killed_on(context, frost)
    if killed is not None and (stops is None or killed.day < stops):
        return killed.day, say("when its cold is usual")
    if stops is None:
        return shift(frost, practice.LIGHT_FROST), say("four weeks after the first autumn frost")
    return stops, say("when it is too cool and dark to grow")
