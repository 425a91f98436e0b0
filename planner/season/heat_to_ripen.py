"""Whether a crop of warm summers finds the heat it needs, and when by heat it is ripe."""

from __future__ import annotations

import datetime as dt

from planner.garden import Cover
from planner.season import practice
from planner.season.covers import WARMING
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.heat import COOL_BASE, WARM_BASE, days_for, heat_between
from planner.season.planting_dates import Dated, HeatSum
from planner.season.windows import opening_of_window, starts_in_autumn


def heat_sum(context: DateContext, on: dt.date, days: float) -> HeatSum | None:
    """The heat a planting needs, and the heat it finds before the first autumn frost.

    None where the crop has no figure for heat, or where the frost or the monthly means are not known.

    Parameters
    ----------
    context : DateContext
    on : date
        The day it takes its plot.
    days : float
        From then to the first harvest. [days]
    """
    wanted = _heat_needed(context, days)
    frost = context.frosts.first_after(on)
    if wanted is None or frost is None:
        return None
    until = shift(frost, practice.UNDER_GLASS) if context.sheltered else frost
    found = heat_between(
        context.climate, on, (until - on).days, WARM_BASE, clipped=True, warmer=_warmth_of_glass(context)
    )
    if found is None:
        return None
    return HeatSum(wanted * _share_of_soonest_sorts(context), found + _heat_of_covers(context, on, days))


def heat_doubts(context: DateContext, heat: HeatSum | None) -> tuple[str, ...]:
    """A sentence where the heat is not enough to ripen."""
    if heat is None or heat.enough:
        return ()
    return (
        f"{context.name} finds {heat.found:.0f} of the {heat.wanted:.0f} degree-days over 10 °C that it "
        "needs before the first autumn frost",
    )


def delayed_by_cool_place(
    context: DateContext, heat: HeatSum | None, on: dt.date, days: float, plain: dt.date
) -> Dated | None:
    """The later harvest where the place is too cool for the crop's days; None where it is not.

    Parameters
    ----------
    context : DateContext
    heat : HeatSum, optional
    on : date
        The day it takes its plot.
    days : float
        From then to the first harvest. [days]
    plain : date
        First harvest by its days.
    """
    if heat is None:
        return None
    found = days_for(
        context.climate,
        on,
        max(0.0, heat.wanted - _heat_of_covers(context, on, days)),
        WARM_BASE,
        clipped=True,
        warmer=_warmth_of_glass(context),
    )
    ripe = shift(on, found) if found is not None else None
    frost = context.frosts.first_after(on)
    if heat.enough and frost is not None and not context.sheltered:
        ripe = min(ripe or frost, shift(frost, -1))
    if ripe is None or ripe <= plain:
        return None
    why = f"{(ripe - on).days} days: {heat.wanted:.0f} degree-days over 10 °C, for sorts that need the least"
    return Dated(ripe, why, context.source("heat"))


def harvest_by_degree_days(
    context: DateContext, on: dt.date, days: float
) -> tuple[Dated | None, tuple[str, ...]]:
    """Harvest where the climate runs days on degree-days: the heat of the usual season is reached again.

    None where it does not, or where the usual season or the monthly means are not known; a doubt where
    the heat is never reached.

    Parameters
    ----------
    context : DateContext
    on : date
        The day it takes its plot.
    days : float
        From then to the first harvest, in its usual season. [days]
    """
    climate = context.climate
    if not climate.by_heat or starts_in_autumn(context):
        return None, ()
    usual, _ = opening_of_window(context)
    if usual is None:
        return None, ()
    base = WARM_BASE if context.tender else COOL_BASE
    heat = heat_between(climate, usual.day, round(days), base)
    if not heat:
        return None, ()
    found = days_for(climate, on, heat, base)
    if found is None:
        return None, (f"{context.name} does not find the {heat:.0f} degree-days it needs",)
    why = f"{found} days: {heat:.0f} degree-days over {base:.1f} °C, as in its usual season"
    return Dated(shift(on, found), why, context.source("days_to_maturity")), ()


def _heat_needed(context: DateContext, days: float) -> float | None:
    """Heat until it is ripe, by the crop's figure and its own days; None where none is known. [deg C days]"""
    usual = context.crop.number("days_to_maturity") if context.crop is not None else None
    heat = context.number("heat")
    if heat is None or not usual:
        return None
    own = context.figures.variety
    return heat if own is not None and own.number("heat") is not None else heat * days / usual


def _share_of_soonest_sorts(context: DateContext) -> float:
    """Share of its days that the soonest sorts take; 1 for a variety with days of its own."""
    own = context.figures.variety
    figure = context.crop.days_to_maturity if context.crop is not None else None
    if own is not None and own.number("days_to_maturity") is not None:
        return 1.0
    if figure is None or not figure.value or figure.least is None:
        return 1.0
    return figure.least / figure.value


def _heat_of_covers(context: DateContext, on: dt.date, days: float) -> float:
    """Heat that covers and film add while it grows. [deg C days]"""

    def added(cover: Cover) -> float:
        first, last = cover.first or on, cover.last
        if cover.kind == "film":
            return practice.FILM_WARMS * days
        if cover.kind not in WARMING:
            return 0.0
        last = last or shift(first, practice.SHELTER)
        return practice.COVER_WARMS * max(0, (last - max(first, on)).days)

    return sum(added(cover) for cover in context.planting.covers)


def _warmth_of_glass(context: DateContext) -> float:
    """Warmth of its place over the open ground. [deg C]"""
    return practice.GLASS_WARMS if context.sheltered else 0.0
