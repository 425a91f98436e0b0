"""Stock: seed on hand that is too old to come up, too little for what is planned, or not there at all."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from typing import Any

from planner.amounts import Amount, LotState, Need, amounts, begun_in_year, shortages, stock_states
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import significant
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Garden
from planner.garden import edits as e
from planner.plan import Plan
from planner.season.spans import Span
from planner.words import capital, later, say, say_count

CHECK = "stock"
_RULE = later("Seed on hand is young enough to come up, and enough for what is planned")


def check(context: CheckContext) -> Iterator[Finding]:
    """Report seed that is too old, too little or missing for the year, as the lists of amounts and seed do.

    Nothing where no stock is entered.
    """
    plan = context.plan
    if not plan.garden.stock:
        return
    parts = amounts(plan, begun_in_year(plan))
    states: dict[str, list[LotState]] = {}
    for state in stock_states(plan.garden, plan.catalogue, plan.year):
        states.setdefault(state.lot.crop, []).append(state)
    for need in shortages(plan, parts):
        users = [planting_view(plan, part.planting) for part in parts if _uses_seed(part, need)]
        if users:
            lots = [state for state in states.get(need.crop, ()) if _serves(state, need)]
            yield _seed_finding(plan, need, users, lots)


def _uses_seed(part: Amount, need: Need) -> bool:
    """Whether a planting of the year is grown from the seed that is needed."""
    planting = part.planting
    same = planting.crop == need.crop and planting.variety.casefold() == need.variety.casefold()
    return same and part.seeds != 0


def _serves(state: LotState, need: Need) -> bool:
    return not need.variety or state.lot.variety.casefold() == need.variety.casefold()


def _seed_finding(plan: Plan, need: Need, users: list[PlantingView], lots: list[LotState]) -> Finding:
    first = users[0]
    sowing = min((s.dates.sow.day for s in users if s.dates.sow is not None), default=first.span.first)
    old = next((state for state in lots if not state.usable), None)
    if need.short is None:
        text, topic, source = _not_counted(need), "unknown", "practice"
    elif not lots:
        text, topic, source = _none(need, first.day(sowing)), "none", "practice"
    elif old is not None and not need.on_hand and not need.ordered:
        text, topic, source = _too_old(need, old, first.day(sowing)), "old", first.source("seed_life_years")
    else:
        text, topic, source = _too_little(need, first.day(sowing)), "short", "practice"
    found = planting_finding(
        CHECK,
        "note",
        users,
        capital(text),
        say(_RULE),
        source,
        [need.seeds, need.on_hand, need.short],
        Span(min(sowing, plan.span.last), max(view.span.first for view in users)),
        topic=" ".join((topic, need.variety.casefold())),
        candidates=lambda plan: _ordered(plan, need),
    )
    return replace(found, kind=topic, about=_name(need))


def _name(need: Need) -> str:
    """The crop, with the variety where one is named."""
    if not need.variety:
        return need.name
    return say("{crop} '{variety}'", crop=need.name, variety=need.variety)


def _too_old(need: Need, lot: LotState, day: str) -> str:
    if not lot.dead:
        return say(
            "The seed of {crop} packed in {packed} is too old since {year}; {seeds} seeds are wanted by {day}",
            crop=_name(need),
            packed=lot.lot.packed,
            year=lot.too_old_since,
            seeds=need.seeds,
            day=day,
        )
    if lot.lot.packed is not None:
        return say(
            "The seed of {crop} packed in {packed} did not come up when tested; {seeds} seeds are wanted by {day}",
            crop=_name(need),
            packed=lot.lot.packed,
            seeds=need.seeds,
            day=day,
        )
    return say(
        "The seed of {crop} did not come up when tested; {seeds} seeds are wanted by {day}",
        crop=_name(need),
        seeds=need.seeds,
        day=day,
    )


def _not_counted(need: Need) -> str:
    """That it cannot be said whether the seed is enough, and for what reason."""
    if not need.missing:
        return say("Whether the seed of {crop} is enough cannot be counted", crop=_name(need))
    return say(
        "Whether the seed of {crop} is enough cannot be counted: {reason}",
        crop=_name(need),
        reason=need.missing[0],
    )


def _none(need: Need, day: str) -> str:
    return say_count(
        "No seed of {crop} is on hand; {count} seed is wanted by {day}",
        "No seed of {crop} is on hand; {count} seeds are wanted by {day}",
        need.seeds or 0,
        crop=_name(need),
        day=day,
    )


def _too_little(need: Need, day: str) -> str:
    if need.ordered:
        return say_count(
            "{count} seed of {crop} is on hand and {ordered} are ordered; {seeds} are wanted by {day}: {short} short",
            "{count} seeds of {crop} are on hand and {ordered} are ordered; {seeds} are wanted by {day}: {short} short",
            need.on_hand or 0,
            crop=_name(need),
            ordered=need.ordered,
            seeds=need.seeds,
            day=day,
            short=need.short,
        )
    return say_count(
        "{count} seed of {crop} is on hand and {seeds} are wanted by {day}: {short} short",
        "{count} seeds of {crop} are on hand and {seeds} are wanted by {day}: {short} short",
        need.on_hand or 0,
        crop=_name(need),
        seeds=need.seeds,
        day=day,
        short=need.short,
    )


def _ordered(plan: Plan, need: Need) -> Iterator[Fix]:
    """Note what is short as ordered, for this growing year; nothing where that cannot be counted."""
    short = need.short
    if short is None:
        return
    if need.short_grams:
        grams = significant(need.short_grams, 2)
        text = say(
            "Note {seeds} seeds ({grams} g) of {crop} as ordered", seeds=short, grams=grams, crop=_name(need)
        )
    else:
        text = say("Note {seeds} seeds of {crop} as ordered", seeds=short, crop=_name(need))
    lot = {
        "crop": need.crop,
        "variety": need.variety,
        "seeds": short,
        "packed": plan.year,
        "counted": plan.span.first,
        "ordered": True,
    }
    yield Fix(
        text,
        say("with it there is enough; it stands among the lots as ordered"),
        partial(_add_lot, lot=lot),
        say("Note what is short as ordered"),
    )


def _add_lot(garden: Garden, lot: dict[str, Any]) -> Garden:
    return e.put_lot(garden, **lot)[0]
