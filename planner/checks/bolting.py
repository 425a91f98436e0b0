"""Bolting: what runs to seed before it is picked, chilled when it was young, or kept in the ground after a winter."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix, Severity
from planner.checks.frame.fixes import other_start
from planner.checks.frame.odds import LivedYears, lived_years, seed_words, with_odds
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import outside_weather
from planner.checks.odds_alone import judge_seed_in_years
from planner.checks.soil import sown_too_hot
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.lived.lived_years import Lived
from planner.season.lived.odds import Odds
from planner.season.planting_dates import Bolting
from planner.season.spans import Span
from planner.season.usual_weather import UsualWeather
from planner.season.windows import CHILL, QUICKLY_CHILLED
from planner.words import capital, later, say, say_count

CHECK = "bolting"
#: Purposes of what is picked before it flowers.
PICKED = ("kitchen", "store")
#: Most days that it may be kept after it has run to seed: that day is not more exact. [days]
LEFT = 21
#: Days sooner and later on which another start is tried. [days]
MOST_TRIED = 150

_CAUSES = {
    "long days": later("long days send it to seed from {day} on"),
    "heat": later("heat sends it to seed from {day} on"),
}
_RULE = later("Leaves and roots are picked before long days, heat or cold send them to seed")


class BoltingInputs(NamedTuple):
    """A planting that may run to seed, and the usual weather of its garden."""

    view: PlantingView
    outside: UsualWeather | None
    lived: Lived | None = None
    odds: Odds | None = None
    assumed: str = ""


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings that run to seed before they are picked, and those that are kept after they have."""
    outside, recorded = outside_weather(context.plan), context.plan.recorded is not None
    for view in context.views:
        if view.starts_here and (view.dates.bolts is not None or recorded):
            yield from context.plan.cached(
                bolting_findings, view.id, bolting_inputs(context.plan, view, outside)
            )


def bolting_inputs(plan: Plan, view: PlantingView, outside: UsualWeather | None) -> BoltingInputs:
    """What the judgement of a planting by bolting depends on.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    outside : UsualWeather, optional
        Of the garden.
    """
    return BoltingInputs(view, outside, *lived_years(plan, view))


@fact("bolting findings")
def bolting_findings(inputs: BoltingInputs) -> tuple[Finding, ...]:
    """Judge when one planting runs to seed."""
    view, outside = inputs.view, inputs.outside
    years = LivedYears(inputs.lived, inputs.odds, inputs.assumed)
    found = _judged(view, outside)
    if years.odds is None or view.planting.purpose not in PICKED:
        return found
    if not found:
        alone = judge_seed_in_years(view, years)
        return (alone,) if alone is not None else ()
    odds = years.odds
    return tuple(
        with_odds(one, years, seed_words(odds.seed, odds.years), odds.seed) if one.topic != "left" else one
        for one in found
    )


def _judged(view: PlantingView, outside: UsualWeather | None) -> tuple[Finding, ...]:
    """What the usual year says."""
    bolts, first = view.dates.bolts, view.dates.first_harvest
    if bolts is None or first is None or first.origin == "done" or view.planting.purpose not in PICKED:
        return ()
    if bolts.cause == "heat" and outside is not None and sown_too_hot(view, outside):
        return ()  # told of its seed already
    found = _judge_picking(view, bolts, first.day) or _judge_end(view, bolts)
    return (found,) if found is not None else ()


# -- before it is picked -------------------------------------------------------------------------


def _judge_picking(view: PlantingView, bolts: Bolting, first: dt.date) -> Finding | None:
    """Report what has run to seed before its first harvest, or soon after it."""
    if bolts.cause == "cold":
        return _finding(view, bolts, "mind" if _is_sure(view) else "note", _chilled(view, bolts), "chilled")
    if bolts.gone < first:
        return _finding(view, bolts, "mind", _too_soon(view, bolts, first), "")
    return None


def _is_sure(view: PlantingView) -> bool:
    """Whether cold is sure to send it to seed: of seedlings and of slowly chilled crops that depends on the sort."""
    days = view.number("chill_to_bolt")
    return view.dates.start != "sown" and days is not None and days <= QUICKLY_CHILLED


def _finding(view: PlantingView, bolts: Bolting, severity: Severity, text: str, topic: str) -> Finding:
    return planting_finding(
        CHECK,
        severity,
        (view,),
        capital(text),
        say(_RULE),
        bolts.source or "practice",
        [str(bolts.begins), str(bolts.gone)],
        Span(min(bolts.begins, bolts.gone), bolts.gone),
        topic=topic,
        candidates=lambda plan: _at_another_time(plan, view.id),
    )


def _chilled(view: PlantingView, bolts: Bolting) -> str:
    days = round(view.number("chill_to_bolt") or 0)
    return say_count(
        "{planting} has had {count} day below {temperature} by {day}, which sends young plants of it to seed",
        "{planting} has had {count} days below {temperature} by {day}, which send young plants of it to seed",
        days,
        planting=view.name,
        temperature=show_temperature(CHILL, view.units),
        day=view.day(bolts.begins),
    )


def _too_soon(view: PlantingView, bolts: Bolting, first: dt.date) -> str:
    if bolts.cause == "winter":
        return say(
            "{planting} is grown when winter chills it, and runs to seed by {gone}, before it is first picked ({harvest})",
            planting=view.name,
            gone=view.day(bolts.gone),
            harvest=view.day(first),
        )
    return say(
        "{planting} would first be picked on {harvest}, but {cause}",
        planting=view.name,
        harvest=view.day(first),
        cause=say(_CAUSES[bolts.cause], day=view.day(bolts.begins)),
    )


def _at_another_time(plan: Plan, key: str) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    days = sorted((*range(-MOST_TRIED, 0), *range(1, MOST_TRIED)), key=lambda days: (abs(days), -days))
    yield other_start(view, days, lambda _: say("it is picked before it runs to seed"))
    yield fixes.remove(view, say("no ground is lost to what runs to seed"))


# -- kept too long -------------------------------------------------------------------------------


def _judge_end(view: PlantingView, bolts: Bolting) -> Finding | None:
    """Report what is picked or left, by a day that was given, after it has run to seed."""
    last = view.dates.last_harvest
    given = last.day if last is not None and last.origin == "by hand" else view.planting.last
    first = view.dates.first_harvest
    if given is None or first is None:
        return None
    picked = shift(first.day, view.number("harvest_days") or 0)  # its usual weeks are never too long
    if given <= shift(max(bolts.gone, picked), LEFT):
        return None
    text = say_count(
        "{planting} stands until {day}, {count} day after it has run to seed ({gone})",
        "{planting} stands until {day}, {count} days after it has run to seed ({gone})",
        (given - bolts.gone).days,
        planting=view.name,
        day=view.day(given),
        gone=view.day(bolts.gone),
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE),
        bolts.source or "practice",
        [str(given), str(bolts.gone)],
        Span(bolts.gone, given),
        topic="left",
        candidates=lambda plan: _end_with_bolting(plan, view.id, bolts.gone),
    )


def _end_with_bolting(plan: Plan, key: str, gone: dt.date) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    pins = dict(view.planting.pinned_dates)
    if pins.get("last_harvest") is not None:
        pins["last_harvest"] = min(pins["last_harvest"], gone)
    text = say("Clear {crop} on {day}", crop=view.crop_name, day=view.day(gone))
    gain = say("the ground is free then")
    yield Fix(text, gain, fixes.changed(view.planting, last=gone, pinned_dates=pins))
