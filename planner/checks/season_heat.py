"""Season, where summer is too cool: too little heat before the frost, or nights that are never warm."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import numpy as np

from planner.checks.frame import fixes, moves
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix
from planner.checks.frame.fixes import other_start
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import weather_over
from planner.crops.cover_effects import SUMMER, effect
from planner.garden import Cover
from planner.garden.units import show_degrees, show_heat, show_temperature
from planner.plan import Plan
from planner.season.frosts import Frosts, shift
from planner.season.practice import WARMING
from planner.season.spans import Span
from planner.season.usual_weather import UsualWeather
from planner.words import capital, later, percent, say, say_count

CHECK = "season"
#: Nights below which crops of the tropics do not grow; far above the cold that kills them (practice). [deg C]
_WARM_NIGHTS = {"okra": 15.0, "sweet_potato": 10.0, "watermelon": 13.0, "melon": 13.0}
#: By how much cooler than that the nights of the warmest month may be (practice). [deg C]
NIGHT = 1.0
#: Share of the heat a crop needs below which it fails; figures and means leave the rest in doubt (practice).
FAR_TOO_COOL = 0.8

#: Most days sooner that are tried. [days]
MOST_SOONER = 75

_RULE = later("What loves warmth ripens where the summer gives it its heat sum before the first autumn frost")


def judge_heat_sum(view: PlantingView, frosts: Frosts) -> Finding | None:
    """Report a planting that finds too little heat before the autumn frost to ripen.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    """
    heat, frost = view.dates.heat, frosts.first_after(view.span.first)
    if heat is None or heat.enough or frost is None or not view.tender:
        return None
    text = say(
        "{planting} finds {heat} before the first autumn frost ({frost}, risk {risk} %), {share} of what its early sorts "
        "need to be ripe",
        planting=view.name,
        heat=show_heat(heat.found, view.units, heat.base),
        frost=view.day(frost),
        risk=frosts.risk,
        share=percent(heat.found / heat.wanted),
    )
    return planting_finding(
        CHECK,
        "stop" if heat.found < FAR_TOO_COOL * heat.wanted else "mind",
        (view,),
        capital(text),
        say(_RULE),
        view.source("heat_to_harvest" if view.number("heat_to_harvest") else "days_to_maturity"),
        [round(heat.found), round(heat.wanted)],
        Span(view.span.first, frost),
        topic="heat",
        candidates=lambda plan: _warmer_place(plan, view.id),
    )


def judge_cold_nights(view: PlantingView, outside: UsualWeather | None) -> Finding | None:
    """Report a crop of the tropics where not even the nights of midsummer are warm enough.

    Parameters
    ----------
    view : PlantingView
    outside : UsualWeather, optional
        The usual weather of the garden.
    """
    least = _WARM_NIGHTS.get(view.planting.crop)
    if least is None or view.sheltered or outside is None or outside.rough:
        return None
    warmest = np.arange(-15, 16) + int(outside.low.argmax())
    at = dt.date(2000, 1, 1) + dt.timedelta(days=int(outside.low.argmax()))
    midsummer = next((day for day in _days_of(view) if (day.month, day.day) == (at.month, at.day)), None)
    over = weather_over(view, outside, midsummer) if midsummer is not None else outside
    night, inside = (float(weather.low[warmest % 366].mean()) for weather in (outside, over))
    if inside >= least - NIGHT:
        return None
    text = say(
        "{planting} wants nights of {temperature}; those of the warmest month fall to {night} on the mean",
        planting=view.name,
        temperature=show_temperature(least, view.units),
        night=show_temperature(night, view.units),
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE),
        "practice",
        [round(night), least],
        topic="nights",
        candidates=lambda plan: _warmer_place(plan, view.id),
    )


def _days_of(view: PlantingView) -> Iterator[dt.date]:
    """The days of a planting, a year of them at most."""
    for days in range(min(view.span.days, 366)):
        yield shift(view.span.first, days)


def _sooner(days: int) -> str:
    return say_count(
        "{count} day sooner, so much more of the warmth",
        "{count} days sooner, so much more of the warmth",
        -days,
    )


def _warmer_place(plan: Plan, key: str) -> Iterator[Candidate]:
    """Sooner, under a cover, or under glass."""
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield other_start(view, range(-1, -MOST_SOONER, -1), _sooner)
    if not any(cover.kind in WARMING for cover in view.planting.covers):
        last = max(view.span.first, shift(view.span.last, -1))
        cloche = Cover(kind="cloche", first=view.span.first, last=last)
        yield Fix(
            say("Keep a cloche over it all its time"),
            say("about {degrees} warmer by day", degrees=_warms("cloche", view)),
            fixes.changed(view.planting, covers=(*view.planting.covers, cloche)),
        )
    if not view.sheltered:
        gain = say("about {degrees} warmer by day there", degrees=_warms("glasshouse", view))
        yield from moves.elsewhere(plan, view, gain, "under glass")
    yield fixes.remove(view, say("no ground is lost to what does not ripen"))


def _warms(kind: str, view: PlantingView) -> str:
    """How much warmer a cover or shelter is by day in summer."""
    return show_degrees(effect(kind).maximum_gain[SUMMER], view.units)
