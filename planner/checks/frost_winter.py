"""Frost in winter: plants that stay through colder nights than they bear."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import cold_from, frost_gain, outside_weather
from planner.checks.frost_kills import harvest_bears
from planner.crops.cover_effects import effect
from planner.garden.units import show_degrees, show_temperature
from planner.plan import Plan
from planner.season.frosts import shift, zone_floor, zone_minimum
from planner.season.practice import BEARS
from planner.season.spans import Span
from planner.words import capital, later, say

CHECK = "frost"
#: The ground about the roots gets no colder than this share of the coldest night below 0 (estimate: without snow or mulch,
#: a hand's breadth deep; strawberries are mulched from zone 6 on down).
GROUND_FEELS = 0.32
#: Starts that lie in the ground over winter and do not feel the coldest night (practice).
_IN_THE_GROUND = ("tubers", "cloves", "sets")
#: From the first day of January or July to the coldest night. [days]
MIDWINTER = 14
#: A planting meets a winter if it is there so long before and after the coldest night. [days]
AROUND = 30
#: From the coldest night to either end of the worst cold, and to the end of a winter cover. [days]
WORST_COLD, COVERED = 45, 75

_RULE = later("What stands through the winter bears the cold of its zone")


def judge_winter(view: PlantingView, zone: str, southern: bool) -> Finding | None:
    """Report a planting that stays through a winter whose coldest night is colder than it bears.

    What stays for years comes again from its roots: where the cold they bear is known, the ground is judged and not the
    air.  What lies in the ground (bulbs, tubers, such roots) is also held against the zone in which its crop is said to live.  In a container the ground gets as cold as the air.  A tender annual that meets the winter is reported by ``season``.

    Parameters
    ----------
    view : PlantingView
    zone : str
        USDA hardiness zone of the garden; may be empty.
    southern : bool
        Whether the garden lies in the south.
    """
    field = "least_night_temperature"
    if view.stays_for_years and view.number("kills_root") is not None:
        field = "kills_root"
    bears, cold = view.number(field), zone_minimum(zone)
    lasts = view.stays_for_years or not view.tender
    if cold is None or not lasts:
        return None
    if view.dates.start in _IN_THE_GROUND:
        return _judge_zone(view, zone, cold, southern)
    if bears is None:
        return None
    winters = _winters(view, southern)
    if not winters:
        return None
    coldest = winters[-1]
    if _is_picked_before(view, coldest):
        return None
    meets = cold + frost_gain(view, coldest)
    in_ground = field == "kills_root" and view.bed.kind != "container"
    if in_ground:
        meets = min(meets, 0.0) * GROUND_FEELS
    if bears <= meets + (0.0 if in_ground else BEARS):
        return _judge_zone(view, zone, cold, southern) if in_ground else None
    text = _roots(view, bears, meets, zone) if in_ground else _text(view, bears, cold, zone)
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE),
        view.source(field),
        [bears, zone],
        Span(shift(coldest, -WORST_COLD), shift(coldest, WORST_COLD)),
        topic="winter",
        candidates=lambda plan: _for_winter(plan, view.id, coldest),
    )


def _judge_zone(view: PlantingView, zone: str, cold: float, southern: bool) -> Finding | None:
    """Report roots and bulbs in the ground of a zone colder than those in which their crop is said to live."""
    own, winters = view.number("winter_zone"), _winters(view, southern)
    if own is None or not winters:
        return None
    coldest = winters[-1]
    bears = zone_floor(own)
    if bears <= cold + frost_gain(view, coldest) + BEARS:
        return None
    text = _text(view, bears, cold, zone)
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE),
        view.source("winter_zone"),
        [round(bears, 1), zone],
        Span(shift(coldest, -WORST_COLD), shift(coldest, WORST_COLD)),
        topic="winter",
        candidates=lambda plan: _for_winter(plan, view.id, coldest),
    )


def _text(view: PlantingView, bears: float, cold: float, zone: str) -> str:
    return say(
        "{planting} stands over winter and bears {temperature} at the least; the coldest night of a usual year in zone "
        "{zone} is about {cold}",
        planting=view.name,
        temperature=show_temperature(bears, view.units),
        zone=zone,
        cold=show_temperature(cold, view.units),
    )


def _is_picked_before(view: PlantingView, coldest: dt.date) -> bool:
    """Whether an annual is picked from long before the worst cold on, and nobody said that it should stand longer."""
    first, last = view.dates.first_harvest, view.dates.last_harvest
    if view.stays_for_years or view.planting.last is not None or first is None or last is None:
        return False
    return last.origin == "worked out" and first.day <= shift(coldest, -WORST_COLD)


def _roots(view: PlantingView, bears: float, ground: float, zone: str) -> str:
    return say(
        "{planting} stands over winter and its roots bear {temperature} at the least; in a usual year of zone {zone} the ground "
        "about them gets to about {cold}",
        planting=view.name,
        temperature=show_temperature(bears, view.units),
        zone=zone,
        cold=show_temperature(ground, view.units),
    )


def _winters(view: PlantingView, southern: bool) -> list[dt.date]:
    """The coldest nights of its growing year and the next that it is there for; an annual until it is picked."""
    begins = dt.date(view.year, 7 if southern else 1, 1)
    coldest = [shift(begins, MIDWINTER), shift(begins, MIDWINTER + 365)]
    there = [
        day for day in coldest if view.span.holds(shift(day, -AROUND)) and view.span.holds(shift(day, AROUND))
    ]
    if not view.stays_for_years and view.dates.last_harvest is not None:
        there = [day for day in there if view.dates.last_harvest.day > day]
    return there


def _last_mild_day(plan: Plan, view: PlantingView, coldest: dt.date) -> dt.date:
    """The day before the worst cold, or before nights that are colder than it bears are usual."""
    before = shift(coldest, -WORST_COLD - 1)
    outside, bears = outside_weather(plan), harvest_bears(view)
    frost = plan.frosts(view.planting.year).first_after(view.span.first)
    if outside is None or bears is None or frost is None:
        return before
    killed = cold_from(view, outside, bears.temperature, frost)
    return before if killed is None else min(before, killed)


def _for_winter(plan: Plan, key: str, coldest: dt.date) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    first = max(view.span.first, shift(coldest, -COVERED))
    fleece = {"kind": "fleece", "first": first, "last": shift(coldest, COVERED)}
    yield Fix(
        say("Keep fleece over it in winter"),
        say("about {degrees} warmer", degrees=show_degrees(effect("fleece").frost_gain, view.units)),
        fixes.changed(view.planting, covers=(*view.planting.covers, fleece)),
    )
    if not view.stays_for_years:
        before = _last_mild_day(plan, view, coldest)
        yield fixes.clear_on(view, max(view.span.first, before), say("picked before the worst cold"))
        pins = {**dict(view.planting.pinned_dates), "last_harvest": before}
        yield Fix(
            say("Pick it before the worst cold"),
            "",
            fixes.changed(view.planting, pinned_dates=pins, last=before),
        )
    yield fixes.remove(view, say("nothing is lost to the cold"))
