"""Soil warmth: seed sown colder than it germinates."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

import numpy as np

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Climate
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.season.covers import WARMING
from planner.season.frosts import shift
from planner.season.heat import emergence, mean_on
from planner.season.spans import Span
from planner.words import capital

CHECK = "soil warmth"
#: By day, in spring sun, the seed bed is so much warmer than the mean of the air (practice). [deg C]
SUN_WARMS = 1.5
#: Warmth of soil under glass, and under a cover or film (practice; unh_rowcover). [deg C]
GLASS_WARMS, COVER_WARMS = 5.0, 2.0
#: Where fewer of a hundred seeds make a sound seedling it is said; where so few, as a fault (practice).
TOO_FEW, HARDLY_ANY = 0.5, 0.2
#: A tender crop that lies so long in such soil loses more of its seed: then this share is too few (practice). [days]
LONG, TOO_FEW_AFTER_LONG = 21, 0.75
#: A crop without a table of seedlings: air colder than its least by this, or by a third of it, is said (practice). [deg C]
COLDER = 3.5

#: A last frost still so near ahead is this spring's. [days]
SPRING = 100
#: Crops of the tropics, and how much cooler than their seed wants it their roots bear it (practice). [deg C]
TROPICAL, ROOTS_COLDER = ("melon", "okra", "sweet_potato", "watermelon"), 5.0
#: None of them needs it warmer than this for its roots. [deg C]
WARM_ROOTS = 18.0

_RULE_ROOTS = "What comes from the tropics is set out in warm ground, or it stands still"
_RULE = "Seed comes up where the soil is at least as warm as it germinates in"


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan about the warmth of the soil at sowing."""
    plan = context.plan
    climate = plan.garden.climate
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        return
    for view in context.views:
        if view.starts_here:
            work = _of if view.dates.start == "sown" else _set_out
            found = plan.once("soil", view.id, (view, climate), partial(work, view, climate))
            if found is not None:
                yield found


def _air(view: PlantingView, climate: Climate, day: dt.date) -> float | None:
    """Mean of the air over its seed bed, glass and covers reckoned in. [deg C]"""
    mean = mean_on(climate, day)
    if mean is None:
        return None
    warmed = any(
        (cover.kind in WARMING or cover.kind == "film") and cover.on.day <= day for cover in view.dates.covers
    )
    return mean + (GLASS_WARMS if view.sheltered else 0.0) + (COVER_WARMS if warmed else 0.0)


def _share(view: PlantingView, air: float) -> float | None:
    """Share of sound seedlings in soil under such air; None where no table reaches down to it."""
    table = view.crop.normal_seedlings if view.crop is not None else None
    soil = air + SUN_WARMS
    if table is None or not table.at or soil < table.at[0][0]:
        return None
    return float(np.interp(soil, [pair[0] for pair in table.at], [pair[1] for pair in table.at]))


def _cold(view: PlantingView, air: float, least: float) -> str:
    """How grave such air is for its seed: empty, ``note`` or ``mind``."""
    share = _share(view, air)
    if share is None or air >= least:
        short = least - air
        gap = max(COLDER, least / 3)
        return "" if short <= gap else "note" if short <= 1.5 * gap else "mind"
    few = TOO_FEW
    if view.tender and view.crop is not None:
        days = emergence(view.crop.emergence_days, air + SUN_WARMS)
        few = TOO_FEW_AFTER_LONG if days is not None and days > LONG else few
    return "" if share >= few else "note" if share >= HARDLY_ANY else "mind"


def _of(view: PlantingView, climate: Climate) -> Finding | None:
    least, sow = view.number("soil_least"), view.dates.sow
    if least is None or sow is None or sow.origin == "done":
        return None
    air = _air(view, climate, sow.day)
    severity = _cold(view, air, least) if air is not None else ""
    if air is None or not severity:
        return None
    units, share = view.units, _share(view, air)
    needs = f"it needs {show_temperature(least, units)} to come up"
    few = ""
    if share is not None:
        seeds = round(share * 100)
        few = (
            f", and about {seeds} of 100 seeds make a sound seedling"
            if seeds
            else ", and hardly any seed does so in such soil"
        )
    text = (
        f"{view.name} is sown on {view.day(sow.day)} in soil of about {show_temperature(air, units)}, judged by the "
        f"mean air; {needs}{few}"
    )
    return planting_finding(
        CHECK,
        "mind" if severity == "mind" else "note",
        (view,),
        capital(text),
        _RULE,
        view.source("soil_least" if share is None else "normal_seedlings"),
        [f"{sow.day}", round(air), least],
        Span(sow.day, sow.day),
        candidates=lambda plan: _warmer(plan, view.id, climate, least),
    )


def _set_out(view: PlantingView, climate: Climate) -> Finding | None:
    """Crops of the tropics set out in ground in which their roots do not grow."""
    wants, out = min(view.number("soil_least") or WARM_ROOTS, WARM_ROOTS), view.dates.set_out
    if view.planting.crop not in TROPICAL or out is None or out.origin == "done":
        return None
    air = _air(view, climate, out.day)
    if air is None or air >= wants - ROOTS_COLDER:
        return None
    units = view.units
    text = (
        f"{view.name} is set out on {view.day(out.day)} in soil of about {show_temperature(air, units)}, judged by the "
        f"mean air; its roots want {show_temperature(wants, units)}"
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        _RULE_ROOTS,
        view.source("soil_least"),
        [f"{out.day}", round(air), wants],
        Span(out.day, out.day),
        topic="roots",
        candidates=lambda plan: _warm_roots(plan, view.id, climate, wants - ROOTS_COLDER),
    )


def _warm_roots(plan: Plan, key: str, climate: Climate, wanted: float) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for day, air in _airs(view, climate, 120):
        if air >= wanted:
            yield fixes.start_on(view, day, f"the air is {show_temperature(air, view.units)} then")
            return


def _airs(view: PlantingView, climate: Climate, days: int) -> Iterator[tuple[dt.date, float]]:
    """The days after its start, with the mean of the air over its bed."""
    for ahead in range(1, days):
        day = shift(view.span.first, ahead)
        air = _air(view, climate, day)
        if air is not None:
            yield day, air


def _warmer(plan: Plan, key: str, climate: Climate, least: float) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for day, air in _airs(view, climate, 150):
        frost = plan.frosts(view.planting.year).last_after(day)
        if view.tender and not view.sheltered and frost is not None and (frost - day).days < SPRING:
            continue  # it would come up into it
        if not _cold(view, air, least):
            share = _share(view, air)
            warm = f"the air is {show_temperature(air, view.units)} then, the soil warmer by day"
            sound = f"about {round((share or 0.0) * 100)} of 100 seeds make a sound seedling then"
            yield fixes.start_on(view, day, warm if share is None or air >= least else sound)
            return
