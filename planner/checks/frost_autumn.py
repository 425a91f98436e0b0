"""Frost in autumn: plants picked after the cold that ends them, or tender ones left in their ground long after it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import cold_from, frost_gain
from planner.checks.frost_kills import Bears, harvest_bears
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.season.frosts import Frosts, shift, zone_minimum
from planner.season.practice import BEARS
from planner.season.spans import Span
from planner.season.usual_weather import UsualWeather
from planner.words import capital, later, say, say_count

CHECK = "frost"
#: Most days that a planting may be left after the frost that kills it. [days]
FOR_NOTHING = 21
#: Most days that it may still be picked after the frost, from plants it missed. [days]
PICKED_AFTER = 7

#: From the first autumn frost to the worst cold. [days]
MIDWINTER = 75
#: Cold beyond which a hardy crop is judged as what stands the winter. [deg C]
LIGHT = -5.0

_RULE = later("Frost ends what is tender, and colder nights what bears light frost only")


def judge_autumn(
    view: PlantingView, frosts: Frosts, outside: UsualWeather | None, zone: str
) -> Finding | None:
    """Report a planting that is picked after the cold that ends it, or a tender one that is left long after it.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    outside : UsualWeather, optional
        The usual weather of the garden.
    zone : str
        USDA hardiness zone of the garden; may be empty.
    """
    frost, bears = frosts.first_after(view.span.first), harvest_bears(view)
    if view.dates.last_harvest is None or frost is None or bears is None or not view.dates.ripens:
        return None
    given = view.dates.last_harvest.origin != "worked out"
    if not view.tender and (
        not given or bears.temperature < LIGHT or _bears_winter(view, bears, zone, frost)
    ):
        return None
    until = _picked_until(view, frost) if given else _left_until(view)
    killed = cold_from(view, outside, bears.temperature, frost) if outside is not None else frost
    if until is None or killed is None:
        return None
    if (until - killed).days <= (PICKED_AFTER if given else FOR_NOTHING):
        return None
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(_text(view, given, until, killed, frosts.risk, bears.temperature)),
        say(_RULE),
        view.source(bears.field),
        [str(until), str(killed)],
        Span(killed, until),
        topic="autumn",
        candidates=lambda plan: (
            _pick_sooner(plan, view.id, killed)
            if given
            else [fixes.clear_on(view, killed, say("the ground is free then"))]
        ),
    )


def _bears_winter(view: PlantingView, bears: Bears, zone: str, frost: dt.date) -> bool:
    """Whether it stands the coldest night of the zone, under what covers it from the first frost on."""
    cold = zone_minimum(zone)
    midwinter = shift(frost, MIDWINTER)
    return cold is not None and bears.temperature <= cold + frost_gain(view, midwinter) + BEARS


def _picked_until(view: PlantingView, frost: dt.date) -> dt.date | None:
    """The last harvest given for it; None where it does not ripen at all, which ``season`` reports."""
    first, last = view.dates.first_harvest, view.dates.last_harvest
    return None if first is None or last is None or first.day > frost else last.day


def _left_until(view: PlantingView) -> dt.date | None:
    """The last day given for it; None where it is left for its seed."""
    return None if view.planting.purpose == "seed" else view.planting.last


def _text(view: PlantingView, picked: bool, until: dt.date, killed: dt.date, risk: int, bears: float) -> str:
    day, cold, late = view.day(until), view.day(killed), (until - killed).days
    if not view.tender:
        return say_count(
            "{planting} is picked until {day}, {count} day after nights colder than {temperature} are usual ({cold}, risk "
            "{risk} %), which end it",
            "{planting} is picked until {day}, {count} days after nights colder than {temperature} are usual ({cold}, risk "
            "{risk} %), which end it",
            late,
            planting=view.name,
            day=day,
            temperature=show_temperature(bears, view.units),
            cold=cold,
            risk=risk,
        )
    if picked:
        return say_count(
            "{planting} is picked until {day}, {count} day after the first autumn frost ({frost}, risk {risk} %), "
            "which ends it",
            "{planting} is picked until {day}, {count} days after the first autumn frost ({frost}, risk {risk} %), "
            "which ends it",
            late,
            planting=view.name,
            day=day,
            frost=cold,
            risk=risk,
        )
    return say_count(
        "{planting} stands until {day}, {count} day after the first autumn frost ({frost}, risk {risk} %), "
        "which kills it",
        "{planting} stands until {day}, {count} days after the first autumn frost ({frost}, risk {risk} %), "
        "which kills it",
        late,
        planting=view.name,
        day=day,
        frost=cold,
        risk=risk,
    )


def _pick_sooner(plan: Plan, key: str, frost: dt.date) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    last = shift(frost, -1)
    pins = {**dict(planting.pinned_dates), "last_harvest": last}
    yield Fix(
        say("End the harvest on {day}", day=planting_view(plan, planting).day(last)),
        say("before the frost does"),
        fixes.changed(planting, pinned_dates=pins),
    )
