"""Frost in blossom: fruit that stays for years, in flower while nights are usual that kill its flowers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import frosty_until
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.season.frosts import Frosts, shift
from planner.season.spans import Span
from planner.season.usual_weather import UsualWeather
from planner.words import capital, later, say

CHECK = "frost"
#: Least days of such nights that are told: the day of flowering is an estimate. [days]
SLACK = 7
#: Most days from the first flower to the last spring frost that it is judged by. [days]
SPRING = 75

_RULE = later("Blossom is spoilt by frosts that leaves and buds bear")


def judge_blossom(view: PlantingView, frosts: Frosts, outside: UsualWeather | None) -> Finding | None:
    """Report fruit in flower before nights are over that kill its flowers.

    Parameters
    ----------
    view : PlantingView
        Of a crop that stays for years.
    frosts : Frosts
        Of any growing year.
    outside : UsualWeather, optional
        The usual weather of the garden.
    """
    bears, flower = view.number("kills_flower"), view.dates.flower
    if bears is None or flower is None or outside is None:
        return None
    last = frosts.last_after(flower.day)
    if last is None or (last - flower.day).days > SPRING:
        return None
    frosty = frosty_until(view, outside, min(bears, 0.0), flower.day, last)
    if frosty is None or (frosty - flower.day).days < SLACK:
        return None
    text = say(
        "{planting} is in flower from about {day}, and nights of {temperature}, which kill its flowers, are usual until {last}",
        planting=view.name,
        day=view.day(flower.day),
        temperature=show_temperature(bears, view.units),
        last=view.day(frosty),
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE),
        view.source("kills_flower"),
        [flower.day.strftime("%m-%d"), frosty.strftime("%m-%d")],
        Span(flower.day, frosty),
        topic="blossom",
        candidates=lambda plan: _covered(plan, view.id, flower.day, frosty),
    )


def _covered(plan: Plan, key: str, first: dt.date, last: dt.date) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for kind, text in (
        ("fleece", say("Keep fleece at hand until {day}", day=view.day(shift(last, 1)))),
        ("low tunnel", say("Keep a low tunnel over it until {day}", day=view.day(shift(last, 1)))),
    ):
        cover = {"kind": kind, "first": first, "last": shift(last, 1)}
        gain = say("taken off by day, for the insects")
        yield Fix(text, gain, fixes.changed(view.planting, covers=(*view.planting.covers, cover)))
    yield fixes.remove(view, say("no blossom is lost"))
