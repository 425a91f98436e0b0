"""Soil warmth: seed sown colder than it germinates."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

import numpy as np

from planner.checks import moves
from planner.checks.asked import Asked, of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.stands import Stand, capital, stand_of
from planner.garden import Climate
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.season.climate import shift
from planner.season.covers import WARMING
from planner.season.heat import emergence, mean_on
from planner.season.spans import Span

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


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan about the warmth of the soil at sowing."""
    plan = asked.plan
    climate = plan.garden.climate
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        return
    for stand in asked.stands:
        if stand.starts_here:
            work = _of if stand.dates.start == "sown" else _set_out
            found = plan.once("soil", stand.id, (stand, climate), partial(work, stand, climate))
            if found is not None:
                yield found


def _air(stand: Stand, climate: Climate, day: dt.date) -> float | None:
    """Mean of the air over its seed bed, glass and covers reckoned in. [deg C]"""
    mean = mean_on(climate, day)
    if mean is None:
        return None
    warmed = any(
        (cover.kind in WARMING or cover.kind == "film") and cover.on.day <= day
        for cover in stand.dates.covers
    )
    return mean + (GLASS_WARMS if stand.sheltered else 0.0) + (COVER_WARMS if warmed else 0.0)


def _share(stand: Stand, air: float) -> float | None:
    """Share of sound seedlings in soil under such air; None where no table reaches down to it."""
    table = stand.crop.normal_seedlings if stand.crop is not None else None
    soil = air + SUN_WARMS
    if table is None or not table.at or soil < table.at[0][0]:
        return None
    return float(np.interp(soil, [pair[0] for pair in table.at], [pair[1] for pair in table.at]))


def _cold(stand: Stand, air: float, least: float) -> str:
    """How grave such air is for its seed: empty, ``note`` or ``mind``."""
    share = _share(stand, air)
    if share is None or air >= least:
        short = least - air
        gap = max(COLDER, least / 3)
        return "" if short <= gap else "note" if short <= 1.5 * gap else "mind"
    few = TOO_FEW
    if stand.tender and stand.crop is not None:
        days = emergence(stand.crop.emergence_days, air + SUN_WARMS)
        few = TOO_FEW_AFTER_LONG if days is not None and days > LONG else few
    return "" if share >= few else "note" if share >= HARDLY_ANY else "mind"


def _of(stand: Stand, climate: Climate) -> Finding | None:
    least, sow = stand.number("soil_least"), stand.dates.sow
    if least is None or sow is None or sow.origin == "done":
        return None
    air = _air(stand, climate, sow.day)
    severity = _cold(stand, air, least) if air is not None else ""
    if air is None or not severity:
        return None
    units, share = stand.units, _share(stand, air)
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
        f"{stand.name} is sown on {stand.day(sow.day)} in soil of about {show_temperature(air, units)}, judged by the "
        f"mean air; {needs}{few}"
    )
    return of_stands(
        CHECK,
        "mind" if severity == "mind" else "note",
        (stand,),
        capital(text),
        _RULE,
        stand.source("soil_least" if share is None else "normal_seedlings"),
        [f"{sow.day}", round(air), least],
        Span(sow.day, sow.day),
        candidates=lambda plan: _warmer(plan, stand.id, climate, least),
    )


def _set_out(stand: Stand, climate: Climate) -> Finding | None:
    """Crops of the tropics set out in ground in which their roots do not grow."""
    wants, out = min(stand.number("soil_least") or WARM_ROOTS, WARM_ROOTS), stand.dates.set_out
    if stand.planting.crop not in TROPICAL or out is None or out.origin == "done":
        return None
    air = _air(stand, climate, out.day)
    if air is None or air >= wants - ROOTS_COLDER:
        return None
    units = stand.units
    text = (
        f"{stand.name} is set out on {stand.day(out.day)} in soil of about {show_temperature(air, units)}, judged by the "
        f"mean air; its roots want {show_temperature(wants, units)}"
    )
    return of_stands(
        CHECK,
        "note",
        (stand,),
        capital(text),
        _RULE_ROOTS,
        stand.source("soil_least"),
        [f"{out.day}", round(air), wants],
        Span(out.day, out.day),
        topic="roots",
        candidates=lambda plan: _warm_roots(plan, stand.id, climate, wants - ROOTS_COLDER),
    )


def _warm_roots(plan: Plan, key: str, climate: Climate, wanted: float) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    for day, air in _airs(stand, climate, 120):
        if air >= wanted:
            yield moves.start_on(stand, day, f"the air is {show_temperature(air, stand.units)} then")
            return


def _airs(stand: Stand, climate: Climate, days: int) -> Iterator[tuple[dt.date, float]]:
    """The days after its start, with the mean of the air over its bed."""
    for ahead in range(1, days):
        day = shift(stand.span.first, ahead)
        air = _air(stand, climate, day)
        if air is not None:
            yield day, air


def _warmer(plan: Plan, key: str, climate: Climate, least: float) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    for day, air in _airs(stand, climate, 150):
        frost = plan.frosts(stand.planting.year).last_after(day)
        if stand.tender and not stand.sheltered and frost is not None and (frost - day).days < SPRING:
            continue  # it would come up into it
        if not _cold(stand, air, least):
            share = _share(stand, air)
            warm = f"the air is {show_temperature(air, stand.units)} then, the soil warmer by day"
            sound = f"about {round((share or 0.0) * 100)} of 100 seeds make a sound seedling then"
            yield moves.start_on(stand, day, warm if share is None or air >= least else sound)
            return
