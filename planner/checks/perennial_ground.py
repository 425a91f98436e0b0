"""Standing: ground of a planting of many years that is dug or planted over."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, Pair, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import share_words
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.overlap import ground_taken_twice
from planner.garden.units import show_area
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital

CHECK = "standing"
#: What begins to bear after so many days is planted for years. [days]
SLOW = 365
#: Days short of that it is not said. [days]
SLACK = 60
#: Of these a single crop is taken too, from plants set the autumn before (practice).
ANNUAL, A_WINTER = ("strawberry",), 240
_RULE_DUG = "What takes years to bear stays until it has borne for as long"
_RULE = "Ground in which roots stand for years is neither dug nor planted over"


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    for pair in context.pairs:
        if pair.apart > 0 or not (pair.one.stays_for_years or pair.other.stays_for_years):
            continue
        found = context.plan.once(
            f"planted over {pair.other.id}",
            pair.one.id,
            (pair.one, pair.other, context.plan.year),
            partial(_of_pair, pair),
        )
        if found is not None:
            yield found
    for view in context.views:
        soon = context.plan.once(
            "dug", view.id, (view, context.plan.year), partial(_dug_soon, view, context.plan.span)
        )
        if soon is not None:
            yield soon


def _dug_soon(view: PlantingView, year: Span) -> Finding | None:
    """A planting of many years taken out before it has borne as long as it took to bear."""
    days, last = view.number("days_to_maturity"), view.planting.last
    if not view.stays_for_years or days is None or days < SLOW or last is None or not year.holds(last):
        return None
    stood = (last - view.span.first).days
    if stood >= 2 * days - SLACK or (view.planting.crop in ANNUAL and stood >= A_WINTER):
        return None
    text = (
        f"{view.name} is dug on {view.day(last)}, {stood / 365.25:.1f} years after planting; it begins to bear "
        f"after {days / 365.25:.1f}"
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        _RULE_DUG,
        view.source("days_to_maturity"),
        [f"{last}"],
        Span(last, last),
        topic="dug",
        candidates=lambda plan: [
            Fix(f"Let {view.crop_name} stand", "it bears for years", fixes.changed(view.planting, last=None))
        ],
    )


def _of_pair(pair: Pair) -> Finding | None:
    both = ground_taken_twice(pair)
    if both is None:
        return None
    old, new = sorted((pair.one, pair.other), key=lambda s: (not s.stays_for_years, s.span.first, s.id))
    days = Span(max(old.span.first, new.span.first), min(old.span.last, new.span.last))
    share = both.area / old.ground.area
    text = (
        f"{new.name} takes {show_area(both.area, new.units)} ({share_words(share)}) of the ground of "
        f"{old.crop_name}, which stands there since {old.span.first.year} "
        f"{'and has no end' if old.span.open else f'until {old.day(old.span.last)}'}"
    )
    return planting_finding(
        CHECK,
        "stop",
        (new, old),
        capital(text),
        _RULE,
        "practice",
        [round(share, 2), f"{days.first}", f"{old.span.last}"],
        days,
        both,
        candidates=lambda plan: _fixes(plan, old.id, new.id),
    )


def _fixes(plan: Plan, old_id: str, new_id: str) -> Iterator[Fix]:
    old, new = (planting_view(plan, plan.garden.plantings_by_id[key]) for key in (old_id, new_id))
    yield from fixes.elsewhere(plan, new, f"{old.crop_name} stays undisturbed")
    yield fixes.share_ground(new, f"it is meant to stand between {old.crop_name}")
    yield fixes.remove(new, f"{old.crop_name} stays undisturbed")
    if old.span.first < new.span.first:
        yield fixes.clear_on(old, shift(new.span.first, -1), f"{old.crop_name} is taken out for good")
