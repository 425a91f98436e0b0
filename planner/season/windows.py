"""Windows in which a crop is started, in weeks from the last spring or first autumn frost."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.crops.cover_effects import sheltered_by
from planner.garden.site import Risk
from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import day_within, frost_day, shift
from planner.season.planting_dates import Dated
from planner.season.sheltered_frosts import covers_at_start, last_frost_there
from planner.season.temperatures import first_day
from planner.season.usual_weather import UsualWeather
from planner.sun import next_longest_day
from planner.words import day_words, number_words, say, short_number

#: Chance of frost at which what frost kills is set out. [%]
TENDER_RISK: Risk = 10
#: Mean below which a day chills young plants (10 for most crops with a figure). [deg C]
CHILL = 10.0
#: Most days of chill of crops that are not set out while it is so cool (practice). [days]
QUICKLY_CHILLED = 21
#: Raised plants that bear frost are set out so far into their window, at most ... [days]
INTO_WINDOW = 14
#: ... or after so great a share of it (practice).
SHARE_OF_WINDOW = 0.25
#: Mean of the soil in spring from which the ground is open (practice). [deg C]
OPEN_GROUND = 2.0
#: Longest wait for warm soil after the last frost, and least time from the start to midsummer (practice). [days]
LONGEST_WAIT = 14


class WindowEdge(NamedTuple):
    """Beginning or end of a window.

    Attributes
    ----------
    weeks : float
        From the frost; negative: before it. [weeks]
    field : str
        The crop's figure it is read from.
    """

    weeks: float
    field: str


def window_edge(context: DateContext, autumn: bool, edge: str = "from") -> WindowEdge | None:
    """Beginning or end of the window for the way the planting starts; None where it is not known.

    Parameters
    ----------
    context : DateContext
    autumn : bool
        The autumn window, counted from the first autumn frost; else the spring one.
    edge : str
        ``from`` or ``until``.
    """
    field = "autumn" if autumn else "sow" if context.start == "sown" else "set_out"
    fields = [f"{field}_{edge}"]
    if field == "sow" and context.crop and context.crop.usual_start in practice.LIFTED:
        fields.append(f"set_out_{edge}")
    if field == "set_out" and context.start in practice.LIFTED:
        fields.append(f"sow_{edge}")  # some tables print them as sown
    for name in fields:
        weeks = context.number(name)
        if weeks is not None:
            return WindowEdge(weeks - (_seed_sooner(context) if autumn else 0.0), name)
    return None


def _seed_sooner(context: DateContext) -> float:
    """By how much sooner than sets seed is sown, where the autumn window is that of sets. [weeks]

    Both are ripe in the same long days.
    """
    seed, sets = context.number("days_from_seed"), context.number("days_to_maturity")
    usual = context.crop.usual_start if context.crop is not None else ""
    if context.start != "sown" or usual not in practice.LIFTED or seed is None or sets is None:
        return 0.0
    return (seed - sets) / 7


def starts_in_autumn(context: DateContext) -> bool:
    """Whether the planting starts in the crop's autumn window."""
    if context.planting.timing is not None:
        return context.planting.timing == "autumn"
    if window_edge(context, autumn=True) is None:
        return False
    spring = window_edge(context, autumn=False)
    if spring is None or context.start == "cloves":
        return True
    days = context.number("days_to_maturity")
    if (
        context.stays_for_years
        or context.start not in ("sown", *practice.LIFTED)
        or days is None
        or not practice.LONG_CROP <= days < practice.BEARS_NEXT_YEAR
    ):
        return False
    last, first = context.frosts.last, context.frosts.first
    return last is not None and first is not None and shift(last, 7 * spring.weeks + days) > first


def opening_of_window(context: DateContext) -> tuple[Dated | None, tuple[str, ...]]:
    """The first day of the crop's usual window in the garden, and why it is missing (a sentence) where it is.

    What frost kills waits for the day after which frost comes in one year of ten; everything waits until the soil is
    warm enough.
    """
    autumn = starts_in_autumn(context)
    frost = context.frosts.autumn if autumn else context.frosts.last
    edge = window_edge(context, autumn)
    if edge is None:
        if autumn:
            missing = (
                say("No autumn window to sow {crop} is known: give its day by hand", crop=context.name)
                if context.start == "sown"
                else say(
                    "No autumn window to set out {crop} is known: give its day by hand", crop=context.name
                )
            )
        else:
            missing = (
                say("No spring window to sow {crop} is known: give its day by hand", crop=context.name)
                if context.start == "sown"
                else say(
                    "No spring window to set out {crop} is known: give its day by hand", crop=context.name
                )
            )
        return None, (missing,)
    if frost is None:
        if context.frosts.frost_free:
            missing = say(
                "This garden has no frost to count from: give the first day of {crop} by hand",
                crop=context.name,
            )
        elif autumn:
            missing = say(
                "The first autumn frost is not given: when {crop} starts is not known", crop=context.name
            )
        else:
            missing = say(
                "The last spring frost is not given: when {crop} starts is not known", crop=context.name
            )
        return None, (missing,)
    weeks = edge.weeks
    number, day, risk = short_number(abs(weeks)), day_words(frost), context.frosts.risk
    if not weeks:
        why = (
            say("On the day of the first autumn frost ({day}, risk {risk} %)", day=day, risk=risk)
            if autumn
            else say("On the day of the last spring frost ({day}, risk {risk} %)", day=day, risk=risk)
        )
    elif weeks < 0:
        why = (
            say(
                "{weeks} weeks before the first autumn frost ({day}, risk {risk} %)",
                weeks=number,
                day=day,
                risk=risk,
            )
            if autumn
            else say(
                "{weeks} weeks before the last spring frost ({day}, risk {risk} %)",
                weeks=number,
                day=day,
                risk=risk,
            )
        )
    else:
        why = (
            say(
                "{weeks} weeks after the first autumn frost ({day}, risk {risk} %)",
                weeks=number,
                day=day,
                risk=risk,
            )
            if autumn
            else say(
                "{weeks} weeks after the last spring frost ({day}, risk {risk} %)",
                weeks=number,
                day=day,
                risk=risk,
            )
        )
    opens = Dated(shift(frost, 7 * weeks), why, context.source(edge.field))
    return (opens if autumn else warm_enough(context, opens)), ()


def usual_day(context: DateContext) -> tuple[Dated | None, tuple[str, ...]]:
    """The day on which a planting is usually started, and why it is missing (a sentence) where it is.

    Raised plants that bear frost are set out some way into their window: its first day is the earliest on which they live.
    Seed, sets and tubers are put in the ground, and what frost kills is set out, as soon as that may be.
    """
    first, missing = opening_of_window(context)
    opens, closes = window_edge(context, autumn=False), window_edge(context, autumn=False, edge="until")
    hurried = context.tender or context.sheltered or context.start not in ("raised", "bought")
    if first is None or opens is None or closes is None or hurried or starts_in_autumn(context):
        return first, missing
    into = min(INTO_WINDOW, 7 * (closes.weeks - opens.weeks) * SHARE_OF_WINDOW)
    if into < 1 or context.stays_for_years:
        return first, missing
    why = say(
        "{into} days into its window, which opens on {day}",
        into=number_words(into, 0),
        day=day_words(first.day),
    )
    return Dated(shift(first.day, into), why, first.source), missing


def warm_enough(context: DateContext, opens: Dated) -> Dated:
    """The first day, not before another, on which frost and soil let a planting start in spring.

    Parameters
    ----------
    context : DateContext
    opens : Dated
        The opening of its window.
    """
    covers = covers_at_start(context)
    last = context.frosts.last
    ahead = (last - last_frost_there(context, last, covers)).days if last is not None else 0
    day = opens
    if ahead:
        if context.sheltered:
            why = say("{reason}; {days} days sooner under glass", reason=opens.why, days=ahead)
        elif covers:
            why = say("{reason}; {days} days sooner under a cover", reason=opens.why, days=ahead)
        else:
            why = say("{reason}; {days} days sooner by a wall", reason=opens.why, days=ahead)
        day = Dated(shift(opens.day, -ahead), why, opens.source)
    frost = frost_at_risk(context, TENDER_RISK)
    if context.tender and not _waits_below(context) and frost is not None and shift(frost, -ahead) > day.day:
        why = say("Frost comes later than {day} in one year of ten", day=day_words(frost))
        day = Dated(
            shift(frost, -ahead),
            why if not ahead else say("{reason}; {days} days sooner here", reason=why, days=ahead),
            "practice",
        )
    if context.outside is None:
        return day
    film = tuple(
        cover.kind for cover in context.planting.covers if cover.kind == "film" and cover.first is None
    )
    kinds = (*context.shelter, *covers, *film)
    there = context.outside.under(sheltered_by(kinds)) if kinds else context.outside
    there = there.kept_above(context.kept_above)
    return _past_chill(context, _warm_soil(context, day, there), there)


def _waits_below(context: DateContext) -> bool:
    """Whether it is planted before the last frost by print, as corms that come up after it."""
    edge = window_edge(context, autumn=False)
    return context.start in practice.LIFTED and edge is not None and edge.weeks < 0


def _past_chill(context: DateContext, day: Dated, weather: UsualWeather) -> Dated:
    """The first day, not before another, on which young plants that few cold days send to seed may be set out."""
    chill = context.number("chill_to_bolt")
    if context.start not in ("raised", "bought") or chill is None or chill > QUICKLY_CHILLED:
        return day
    mild = first_day(weather.mean >= CHILL, day.day)
    if mild is None or mild <= day.day:
        return day
    why = say(
        "{chill} days below {chill_2} °C would send it to seed",
        chill=short_number(chill),
        chill_2=short_number(CHILL),
    )
    return Dated(mild, why, context.source("chill_to_bolt"))


def _warm_soil(context: DateContext, day: Dated, weather: UsualWeather) -> Dated:
    """The first day, not before another, on which the soil is as warm as handbooks ask.

    A cool place is not waited for beyond two weeks, or until two weeks before midsummer.  Nothing is put into frozen ground.
    """
    in_the_soil = context.start in ("sown", *practice.LIFTED)
    for field in ("start_temperature", "soil_least") if in_the_soil else ("start_temperature",):
        least = context.number(field)
        if least is not None:
            break
    if least is None or least < OPEN_GROUND:
        thawed = first_day(weather.soil >= OPEN_GROUND, day.day)
        if thawed is None or thawed <= day.day:
            return day
        return Dated(thawed, say("The ground is open from then on"), "practice")
    warm = first_day(weather.soil >= least, day.day)
    longest = next_longest_day(shift(day.day, -LONGEST_WAIT), context.southern)
    limit = max(shift(day.day, LONGEST_WAIT), shift(longest, -LONGEST_WAIT))
    if warm is not None and warm <= limit:
        if warm <= day.day:
            return day
        return Dated(
            warm,
            say("The soil has {least} °C from then on", least=short_number(least)),
            context.source(field),
        )
    if not context.tender:
        return day
    return Dated(
        limit,
        say("The soil stays below {least} °C for long: no later than this", least=short_number(least)),
        "practice",
    )


def frost_at_risk(context: DateContext, risk: Risk) -> dt.date | None:
    """The last spring frost of the growing year at a risk, or at the garden's own where that is less."""
    last = context.frosts.last
    if last is None or context.frosts.risk <= risk:
        return last
    day = day_within(frost_day(context.climate.last_frost, risk), shift(last, -180))
    return max(day, last)
