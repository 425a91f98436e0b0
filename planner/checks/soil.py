"""Soil warmth: seed sown in soil too cold to come up, and crops of the tropics set out in cold ground."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Literal, NamedTuple

import numpy as np

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Climate
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.emergence import emergence
from planner.season.frosts import shift
from planner.season.practice import WARMING
from planner.season.spans import Span
from planner.season.temperatures import mean_on
from planner.words import capital, later, say

CHECK = "soil warmth"
#: By how much the seed bed is warmer than the mean of the air, by day, in spring sun (practice). [deg C]
SUN_WARMS = 1.5
#: Warmth that glass adds to the soil, and a cover or film (practice; unh_rowcover). [deg C]
GLASS_WARMS, COVER_WARMS = 5.0, 2.0
#: Share of seeds that make a sound seedling below which it is a note, and below which it will suffer (practice).
TOO_FEW, HARDLY_ANY = 0.5, 0.2
#: Days to emergence from which a tender crop loses more of its seed in the soil (practice). [days]
LONG = 21
#: Share of sound seedlings that is too few for a tender crop after so long in the soil (practice).
TOO_FEW_AFTER_LONG = 0.75
#: By how much colder than its least the air may be for a crop without a table of seedlings; or by a third of the least,
#: where that is more (practice). [deg C]
COLDER = 3.5
#: By how many times as much it is colder where the crop will suffer (practice).
MUCH_COLDER = 1.5

#: Least days to the last frost from which that frost is not this spring's. [days]
SPRING = 100
#: Crops of the tropics (practice).
TROPICAL = ("melon", "okra", "sweet_potato", "watermelon")
#: By how much colder than their seed wants it the roots of those crops bear the ground (practice). [deg C]
ROOTS_COLDER = 5.0
#: Warmest ground that the roots of any of them need. [deg C]
WARM_ROOTS = 18.0
#: Days after a start in which a warmer day is looked for, of seed and of young plants. [days]
SEED_WAITS, PLANTS_WAIT = 150, 120

_RULE_ROOTS = later("What comes from the tropics is set out in warm ground, or it stands still")
_RULE = later("Seed comes up where the soil is at least as warm as it germinates in")


class SoilInputs(NamedTuple):
    """What the judgement of one planting depends on.

    Attributes
    ----------
    view : PlantingView
    climate : Climate
        With the monthly means.
    """

    view: PlantingView
    climate: Climate


def check(context: CheckContext) -> Iterator[Finding]:
    """Report seed sown colder than it germinates, and crops of the tropics set out in ground too cold for their roots.

    None while the garden's monthly means are not known.
    """
    plan = context.plan
    climate = plan.garden.climate
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        return
    for view in context.views:
        if view.starts_here:
            found = plan.cached(soil_finding, view.id, SoilInputs(view, climate))
            if found is not None:
                yield found


@fact("soil finding")
def soil_finding(inputs: SoilInputs) -> Finding | None:
    """Judge the soil in which one planting starts."""
    view, climate = inputs
    return _judge_sowing(view, climate) if view.dates.start == "sown" else _judge_setting_out(view, climate)


# -- how warm it is ------------------------------------------------------------------------------


def _air(view: PlantingView, climate: Climate, day: dt.date) -> float | None:
    """Mean of the air over its seed bed, with what glass and covers add. [deg C]"""
    mean = mean_on(climate, day)
    if mean is None:
        return None
    warmed = any(
        (cover.kind in WARMING or cover.kind == "film") and cover.on.day <= day for cover in view.dates.covers
    )
    return mean + (GLASS_WARMS if view.sheltered else 0.0) + (COVER_WARMS if warmed else 0.0)


def _sound_share(view: PlantingView, air: float) -> float | None:
    """Share of seeds that make a sound seedling in soil under such air; None where no table reaches down to it."""
    table = view.crop.normal_seedlings if view.crop is not None else None
    soil = air + SUN_WARMS
    if table is None or not table.at or soil < table.at[0][0]:
        return None
    return float(np.interp(soil, [pair[0] for pair in table.at], [pair[1] for pair in table.at]))


def _severity(view: PlantingView, air: float, least: float) -> Literal["mind", "note"] | None:
    """How grave such air is for its seed; None where it comes up well."""
    share = _sound_share(view, air)
    if share is None or air >= least:
        short, gap = least - air, max(COLDER, least / 3)
        if short <= gap:
            return None
        return "note" if short <= MUCH_COLDER * gap else "mind"
    few = TOO_FEW
    if view.tender and view.crop is not None:
        days = emergence(view.crop.emergence_days, air + SUN_WARMS)
        few = TOO_FEW_AFTER_LONG if days is not None and days > LONG else few
    if share >= few:
        return None
    return "note" if share >= HARDLY_ANY else "mind"


def _days_ahead(view: PlantingView, climate: Climate, days: int) -> Iterator[tuple[dt.date, float]]:
    """The days after its start, with the mean of the air over its bed. [deg C]"""
    for ahead in range(1, days):
        day = shift(view.span.first, ahead)
        air = _air(view, climate, day)
        if air is not None:
            yield day, air


# -- seed ----------------------------------------------------------------------------------------


def _judge_sowing(view: PlantingView, climate: Climate) -> Finding | None:
    """Report seed sown in soil so cold that too little of it comes up."""
    least, sow = view.number("soil_least"), view.dates.sow
    if least is None or sow is None or sow.origin == "done":
        return None
    air = _air(view, climate, sow.day)
    severity = _severity(view, air, least) if air is not None else None
    if air is None or severity is None:
        return None
    share = _sound_share(view, air)
    return planting_finding(
        CHECK,
        severity,
        (view,),
        capital(_sown_cold(view, sow.day, air, least, share)),
        say(_RULE),
        view.source("soil_least" if share is None else "normal_seedlings"),
        [str(sow.day), round(air), least],
        Span(sow.day, sow.day),
        candidates=lambda plan: _sow_warmer(plan, view.id, least),
    )


def _sown_cold(view: PlantingView, day: dt.date, air: float, least: float, share: float | None) -> str:
    text = say(
        "{planting} is sown on {day} in soil of about {warmth}, judged by the mean air; it needs {least} to come up",
        planting=view.name,
        day=view.day(day),
        warmth=show_temperature(air, view.units),
        least=show_temperature(least, view.units),
    )
    if share is None:
        return text
    seeds = round(share * 100)
    if seeds:
        return say("{sown}, and about {seeds} of 100 seeds make a sound seedling", sown=text, seeds=seeds)
    return say("{sown}, and hardly any seed does so in such soil", sown=text)


def _sow_warmer(plan: Plan, key: str, least: float) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    frosts = plan.frosts(view.planting.year)
    for day, air in _days_ahead(view, plan.garden.climate, SEED_WAITS):
        frost = frosts.last_after(day)
        if view.tender and not view.sheltered and frost is not None and (frost - day).days < SPRING:
            continue  # it would come up into it
        if _severity(view, air, least) is None:
            yield fixes.start_on(view, day, _better(view, air, least))
            return


def _better(view: PlantingView, air: float, least: float) -> str:
    """What is better in air that warm."""
    share = _sound_share(view, air)
    if share is None or air >= least:
        return say(
            "the air is {warmth} then, the soil warmer by day", warmth=show_temperature(air, view.units)
        )
    return say("about {seeds} of 100 seeds make a sound seedling then", seeds=round(share * 100))


# -- roots ---------------------------------------------------------------------------------------


def _judge_setting_out(view: PlantingView, climate: Climate) -> Finding | None:
    """Report crops of the tropics set out in ground in which their roots do not grow."""
    wants, out = min(view.number("soil_least") or WARM_ROOTS, WARM_ROOTS), view.dates.set_out
    if view.planting.crop not in TROPICAL or out is None or out.origin == "done":
        return None
    air = _air(view, climate, out.day)
    if air is None or air >= wants - ROOTS_COLDER:
        return None
    text = say(
        "{planting} is set out on {day} in soil of about {warmth}, judged by the mean air; its roots want {wanted}",
        planting=view.name,
        day=view.day(out.day),
        warmth=show_temperature(air, view.units),
        wanted=show_temperature(wants, view.units),
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE_ROOTS),
        view.source("soil_least"),
        [str(out.day), round(air), wants],
        Span(out.day, out.day),
        topic="roots",
        candidates=lambda plan: _set_out_warmer(plan, view.id, wants - ROOTS_COLDER),
    )


def _set_out_warmer(plan: Plan, key: str, wanted: float) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for day, air in _days_ahead(view, plan.garden.climate, PLANTS_WAIT):
        if air >= wanted:
            gain = say("the air is {warmth} then", warmth=show_temperature(air, view.units))
            yield fixes.start_on(view, day, gain)
            return
