"""Ground of a perennial planting that is dug or planted over."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame import fixes, moves
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import share_words
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.overlap import overlapping_ground
from planner.garden.units import show_area
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital, later, number_words, say

CHECK = "standing"
#: Least days to maturity of a crop that is planted for years. [days]
SLOW = 365
#: Tolerance of the days a planting must have grown before it is dug. [days]
SLACK = 60
#: Crops that are also grown for a single harvest (practice).
ANNUAL = ("strawberry",)
#: Days after which these may be dug: planted in autumn and picked in the next summer (practice). [days]
A_WINTER = 240
#: Mean length of a year. [days]
YEAR = 365.25

_RULE_DUG = later("What takes years to bear stays until it has borne for as long")
_RULE = later("Ground in which roots stand for years is neither dug nor planted over")


def check(context: CheckContext) -> Iterator[Finding]:
    """Report perennial plantings that are planted over, or dug before they have borne as long as they took to bear."""
    plan = context.plan
    for pair in context.pairs:
        if pair.apart > 0 or not (pair.one.stays_for_years or pair.other.stays_for_years):
            continue
        inputs = PlantedOverInputs(pair.one, pair.other)
        found = plan.cached(judge_planted_over, (pair.one.id, pair.other.id), inputs)
        if found is not None:
            yield found
    for view in context.views:
        dug = plan.cached(judge_dug, view.id, DugInputs(view, plan.span.first, plan.span.last))
        if dug is not None:
            yield dug


# -- dug ------------------------------------------------------------------------------------------


class DugInputs(NamedTuple):
    """A planting, and the first and last day of the growing year."""

    view: PlantingView
    first: dt.date
    last: dt.date


@fact("perennial dug")
def judge_dug(inputs: DugInputs) -> Finding | None:
    """The finding about a perennial dug in this year before it has borne as long as it took to bear."""
    view, last = inputs.view, inputs.view.planting.last
    days = view.number("days_to_maturity")
    if not view.stays_for_years or days is None or days < SLOW:
        return None
    if last is None or not inputs.first <= last <= inputs.last:
        return None
    grown = (last - view.span.first).days
    if grown >= 2 * days - SLACK or (view.planting.crop in ANNUAL and grown >= A_WINTER):
        return None
    text = say(
        "{planting} is dug on {day}, {years} years after planting; it begins to bear after {bears}",
        planting=view.name,
        day=view.day(last),
        years=number_words(grown / YEAR, 1),
        bears=number_words(days / YEAR, 1),
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE_DUG),
        view.source("days_to_maturity"),
        [str(last)],
        Span(last, last),
        topic="dug",
        candidates=lambda plan: [
            Fix(
                say("Let {crop} stand", crop=view.crop_name),
                say("it bears for years"),
                fixes.changed(view.planting, last=None),
            )
        ],
    )


# -- planted over ---------------------------------------------------------------------------------


class PlantedOverInputs(NamedTuple):
    """Two plantings that touch and share days, at least one of them perennial."""

    one: PlantingView
    other: PlantingView


@fact("perennial planted over")
def judge_planted_over(inputs: PlantedOverInputs) -> Finding | None:
    """The finding about a perennial whose ground another planting takes; None if their ground is apart."""
    both = overlapping_ground(*inputs)
    if both is None:
        return None
    old, new = sorted(inputs, key=lambda view: (not view.stays_for_years, view.span.first, view.id))
    days = Span(max(old.span.first, new.span.first), min(old.span.last, new.span.last))
    return planting_finding(
        CHECK,
        "stop",
        (new, old),
        capital(_planted_over_words(old, new, both.area)),
        say(_RULE),
        "practice",
        [round(both.area / old.ground.area, 2), str(days.first), str(old.span.last)],
        days,
        both,
        candidates=lambda plan: _protect_perennial(plan, old.id, new.id),
    )


def _planted_over_words(old: PlantingView, new: PlantingView, area: float) -> str:
    """The sentence about a planting that takes so much ground [m2] of an older one."""
    shown, share = show_area(area, new.units), share_words(area / old.ground.area)
    if old.span.open:
        return say(
            "{new} takes {area} ({share}) of the ground of {old}, which stands there since {year} and has no end",
            new=new.name,
            area=shown,
            share=share,
            old=old.crop_name,
            year=old.span.first.year,
        )
    return say(
        "{new} takes {area} ({share}) of the ground of {old}, which stands there since {year} until {last}",
        new=new.name,
        area=shown,
        share=share,
        old=old.crop_name,
        year=old.span.first.year,
        last=old.day(old.span.last),
    )


def _protect_perennial(plan: Plan, old_id: str, new_id: str) -> Iterator[Fix]:
    old, new = (planting_view(plan, plan.garden.plantings_by_id[key]) for key in (old_id, new_id))
    undisturbed = say("{crop} stays undisturbed", crop=old.crop_name)
    yield from moves.elsewhere(plan, new, undisturbed)
    yield fixes.share_ground(new, say("it is meant to stand between {crop}", crop=old.crop_name))
    yield fixes.remove(new, undisturbed)
    if old.span.first < new.span.first:
        day = shift(new.span.first, -1)
        yield fixes.clear_on(old, day, say("{crop} is taken out for good", crop=old.crop_name))
