"""Soil warmth: seed sown in soil too cold or too hot to come up, and crops of the tropics set out in cold ground."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Literal, NamedTuple

import numpy as np

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Candidate, Finding
from planner.checks.frame.fixes import other_start
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import outside_weather, weather_over
from planner.checks.purity import species
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.emergence import emergence
from planner.season.spans import Span
from planner.season.start_doubts import colder
from planner.season.usual_weather import UsualWeather
from planner.words import capital, later, say, say_count

CHECK = "soil warmth"
#: Share of seeds that make a sound seedling below which it is a note, and below which it will suffer (practice).
TOO_FEW, HARDLY_ANY = 0.5, 0.2
#: Days to emergence from which a tender crop loses more of its seed in the soil (practice). [days]
LONG = 21
#: Share of sound seedlings that is too few for a tender crop after so long in the soil (practice).
TOO_FEW_AFTER_LONG = 0.75
#: By how many times as much it is colder where the crop will suffer; what comes from the tropics does at once (practice).
MUCH_COLDER = 1.5

#: By how much hotter than its most the soil may be: the table's steps are no finer; and from how much on it will suffer
#: (practice). [deg C]
HOTTER, FAR_HOTTER = 1.0, 2.5
#: Species of the tropics (practice).
TROPICAL = (
    "Abelmoschus esculentus",
    "Capsicum annuum",
    "Citrullus lanatus",
    "Cucumis melo",
    "Cucumis sativus",
    "Ipomoea batatas",
    "Luffa aegyptiaca",
    "Solanum melongena",
)
#: By how much colder than their seed wants it the roots of those crops bear the ground (practice). [deg C]
ROOTS_COLDER = 4.0
#: Warmest ground that the roots of any of them need. [deg C]
WARM_ROOTS = 18.0
#: Days after a start in which a warmer day is looked for, of seed and of young plants. [days]
SEED_WAITS, PLANTS_WAIT = 150, 120

_RULE_ROOTS = later("What comes from the tropics is set out in warm ground, or it stands still")
_RULE_HOT = later("Seed comes up where the soil is no hotter than it germinates in")
_RULE = later("Seed comes up where the soil is at least as warm as it germinates in")


class SoilInputs(NamedTuple):
    """What the judgement of one planting depends on.

    Attributes
    ----------
    view : PlantingView
    outside : UsualWeather
        The usual weather of the garden.
    """

    view: PlantingView
    outside: UsualWeather


def check(context: CheckContext) -> Iterator[Finding]:
    """Report seed sown colder or hotter than it germinates, and crops of the tropics set out in ground too cold for them.

    None while the garden's monthly means are not known.
    """
    plan, outside = context.plan, outside_weather(context.plan)
    if outside is None or outside.rough:
        return
    for view in context.views:
        if view.starts_here:
            yield from plan.cached(soil_findings, view.id, SoilInputs(view, outside))


@fact("soil findings")
def soil_findings(inputs: SoilInputs) -> tuple[Finding, ...]:
    """Judge the soil in which one planting starts."""
    view, outside = inputs
    sown = view.dates.start == "sown"
    found = _judge_sowing(view, outside) if sown else _judge_setting_out(view, outside)
    return (found,) if found is not None else ()


# -- how warm it is ------------------------------------------------------------------------------


def soil_on(view: PlantingView, outside: UsualWeather, day: dt.date) -> float:
    """Mean temperature of the soil of a planting on a day, with what glass, covers and film add. [deg C]

    Parameters
    ----------
    view : PlantingView
    outside : UsualWeather
    day : date
    """
    return weather_over(view, outside, day).soil_on(day)


def _sound_share(view: PlantingView, soil: float) -> float | None:
    """Share of seeds that make a sound seedling in such soil; None where no table reaches down to it."""
    table = view.crop.normal_seedlings if view.crop is not None else None
    if table is None or not table.at or soil < table.at[0][0]:
        return None
    return float(np.interp(soil, [pair[0] for pair in table.at], [pair[1] for pair in table.at]))


def _severity(view: PlantingView, soil: float, least: float) -> Literal["mind", "note"] | None:
    """How grave such soil is for its seed; None where it comes up well."""
    share = _sound_share(view, soil)
    if share is None or soil >= least:
        short, gap = least - soil, colder(least)
        if short <= gap:
            return None
        tropical = species(view.crop) in TROPICAL
        return "note" if short <= MUCH_COLDER * gap and not tropical else "mind"
    few = TOO_FEW
    if view.tender and view.crop is not None:
        days = emergence(view.crop.emergence_days, soil)
        few = TOO_FEW_AFTER_LONG if days is not None and days > LONG else few
    if share >= few:
        return None
    return "note" if share >= HARDLY_ANY else "mind"


# -- seed ----------------------------------------------------------------------------------------


def sown_too_hot(view: PlantingView, outside: UsualWeather) -> bool:
    """Whether it is sown into soil that is hotter than its seed comes up in.

    Parameters
    ----------
    view : PlantingView
    outside : UsualWeather
    """
    most, sow = view.number("soil_most"), view.dates.sow
    if view.dates.start != "sown" or most is None or sow is None or outside.rough:
        return False
    return soil_on(view, outside, sow.day) > most + HOTTER


def _judge_sowing(view: PlantingView, outside: UsualWeather) -> Finding | None:
    """Report seed sown in soil so cold or so hot that too little of it comes up."""
    least, most, sow = view.number("soil_least"), view.number("soil_most"), view.dates.sow
    if sow is None or sow.origin == "done":
        return None
    soil = soil_on(view, outside, sow.day)
    if most is not None and sown_too_hot(view, outside):
        return _too_hot(view, sow.day, soil, most)
    severity = _severity(view, soil, least) if least is not None else None
    if least is None or severity is None:
        return None
    share = _sound_share(view, soil)
    return planting_finding(
        CHECK,
        severity,
        (view,),
        capital(_sown_cold(view, sow.day, soil, least, share)),
        say(_RULE),
        view.source("soil_least" if share is None else "normal_seedlings"),
        [str(sow.day), round(soil), least],
        Span(sow.day, sow.day),
        candidates=lambda plan: _sow_warmer(plan, view.id),
    )


def _sown_cold(view: PlantingView, day: dt.date, soil: float, least: float, share: float | None) -> str:
    text = say(
        "{planting} is sown on {day} in soil of about {warmth}, judged by the mean air; it needs {least} to come up",
        planting=view.name,
        day=view.day(day),
        warmth=show_temperature(soil, view.units),
        least=show_temperature(least, view.units),
    )
    if share is None:
        return text
    seeds = round(share * 100)
    if seeds:
        return say("{sown}, and about {seeds} of 100 seeds make a sound seedling", sown=text, seeds=seeds)
    return say("{sown}, and hardly any seed does so in such soil", sown=text)


def _sow_warmer(plan: Plan, key: str) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield other_start(view, range(1, SEED_WAITS), _later_in_warmth)


def _later_in_warmth(days: int) -> str:
    return say_count("{count} day later, in warmer soil", "{count} days later, in warmer soil", days)


def _too_hot(view: PlantingView, day: dt.date, soil: float, most: float) -> Finding:
    """The finding about seed sown hotter than it germinates."""
    text = say(
        "{planting} is sown on {day} in soil of about {warmth}, judged by the mean air; above {most} it comes up badly",
        planting=view.name,
        day=view.day(day),
        warmth=show_temperature(soil, view.units),
        most=show_temperature(most, view.units),
    )
    return planting_finding(
        CHECK,
        "mind" if soil > most + FAR_HOTTER else "note",
        (view,),
        capital(text),
        say(_RULE_HOT),
        view.source("soil_most"),
        [str(day), round(soil), most],
        Span(day, day),
        topic="hot",
        candidates=lambda plan: _sow_cooler(plan, view.id),
    )


def _sow_cooler(plan: Plan, key: str) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    days = sorted((*range(-SEED_WAITS, 0), *range(1, SEED_WAITS)), key=lambda days: (abs(days), -days))
    yield other_start(view, days, lambda _: say("the soil is cool enough for its seed then"))
    yield fixes.remove(view, say("no ground is lost to what does not come up"))


# -- roots ---------------------------------------------------------------------------------------


def _judge_setting_out(view: PlantingView, outside: UsualWeather) -> Finding | None:
    """Report crops of the tropics set out in ground in which their roots do not grow."""
    wants, out = min(view.number("soil_least") or WARM_ROOTS, WARM_ROOTS), view.dates.set_out
    if species(view.crop) not in TROPICAL or out is None or out.origin == "done":
        return None
    soil = soil_on(view, outside, out.day)
    if soil >= wants - ROOTS_COLDER:
        return None
    text = say(
        "{planting} is set out on {day} in soil of about {warmth}, judged by the mean air; its roots want {wanted}",
        planting=view.name,
        day=view.day(out.day),
        warmth=show_temperature(soil, view.units),
        wanted=show_temperature(wants, view.units),
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE_ROOTS),
        view.source("soil_least"),
        [str(out.day), round(soil), wants],
        Span(out.day, out.day),
        topic="roots",
        candidates=lambda plan: _set_out_warmer(plan, view.id),
    )


def _set_out_warmer(plan: Plan, key: str) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield other_start(view, range(1, PLANTS_WAIT), _later_in_warmth)
