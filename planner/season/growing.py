"""The weather over the life of one planting: under its covers while they lie, then as its place has it."""

from __future__ import annotations

import datetime as dt

from planner.crops.cover_effects import sheltered_by
from planner.garden import Cover
from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.development import Stretch
from planner.season.frosts import shift
from planner.season.usual_weather import UsualWeather

#: Longest time for which covers are looked at. [days]
_LONGEST = 1000


def stretches_of(context: DateContext, on: dt.date, warmer: float = 0.0) -> tuple[Stretch, ...]:
    """Weather that a planting grows in from the day it takes its plot on; empty where that is not known.

    Parameters
    ----------
    context : DateContext
    on : date
    warmer : float
        Warmer, or cooler, than usual by so much. [deg C]
    """
    if context.outside is None:
        return ()
    outside = context.outside.under(None, warmer)
    return tuple(
        Stretch(begins, _under(outside, kinds).kept_above(context.kept_above))
        for begins, kinds in covers_of_growth(context, on)
    )


def covers_of_growth(context: DateContext, on: dt.date) -> tuple[tuple[int, tuple[str, ...]], ...]:
    """Kinds of shelter and cover over a planting, from each number of days after its start on; the first is 0.

    Parameters
    ----------
    context : DateContext
    on : date
        The day it takes its plot.
    """
    lying = _cover_spans(context, on)
    if not lying:
        return ((0, context.shelter),)
    turns = sorted({0, *(first for _, first, _ in lying), *(last for _, _, last in lying)})
    return tuple(
        (day, (*context.shelter, *(kind for kind, first, last in lying if first <= day < last)))
        for day in turns
    )


def _under(outside: UsualWeather, kinds: tuple[str, ...]) -> UsualWeather:
    """The weather under covers and a roof, by their kinds."""
    return outside.under(sheltered_by(kinds)) if kinds else outside


def _cover_spans(context: DateContext, on: dt.date) -> list[tuple[str, int, int]]:
    """Kind of each cover that changes the weather, and the days from the start between which it lies."""
    found: list[tuple[str, int, int]] = []
    for cover in context.planting.covers:
        if cover.kind != "film" and cover.kind not in practice.WARMING:
            continue
        first = max(0, (cover.first - on).days) if cover.first is not None else 0
        last = _until(context, cover, on)
        if first < last:
            found.append((cover.kind, first, last))
    return found


def _until(context: DateContext, cover: Cover, on: dt.date) -> int:
    """Days from the start until a cover comes off."""
    taken = context.done_on_cover("cover off", cover.kind)
    if cover.kind != "film" and taken is not None:
        return max(0, (taken - on).days)
    if cover.last is not None:
        return max(0, (cover.last - on).days)
    if cover.kind in practice.WARMING and context.tender:
        laid = cover.first or on
        return max(0, (shift(laid, practice.SHELTER) - on).days)
    return _LONGEST
