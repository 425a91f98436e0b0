"""Standing: ground of a planting of many years that is dug or planted over."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planner.checks import moves
from planner.checks.asked import Asked, Pair, of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.overlap import ground_taken_twice
from planner.checks.stands import Stand, capital, share_words, stand_of
from planner.garden.units import show_area
from planner.plan import Plan
from planner.season.climate import shift
from planner.season.spans import Span

CHECK = "standing"
#: What begins to bear after so many days is planted for years. [days]
SLOW = 365
#: Days short of that it is not said. [days]
SLACK = 60
#: Of these a single crop is taken too, from plants set the autumn before (practice).
ANNUAL, A_WINTER = ("strawberry",), 240
_RULE_DUG = "What takes years to bear stays until it has borne for as long"
_RULE = "Ground in which roots stand for years is neither dug nor planted over"


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan."""
    for pair in asked.pairs:
        if pair.apart > 0 or not (pair.one.stands or pair.other.stands):
            continue
        found = asked.plan.once(
            f"planted over {pair.other.id}",
            pair.one.id,
            (pair.one, pair.other, asked.plan.year),
            partial(_of_pair, pair),
        )
        if found is not None:
            yield found
    for stand in asked.stands:
        soon = asked.plan.once(
            "dug", stand.id, (stand, asked.plan.year), partial(_dug_soon, stand, asked.plan.span)
        )
        if soon is not None:
            yield soon


def _dug_soon(stand: Stand, year: Span) -> Finding | None:
    """A planting of many years taken out before it has borne as long as it took to bear."""
    days, last = stand.number("days_to_maturity"), stand.planting.last
    if not stand.stands or days is None or days < SLOW or last is None or not year.holds(last):
        return None
    stood = (last - stand.span.first).days
    if stood >= 2 * days - SLACK or (stand.planting.crop in ANNUAL and stood >= A_WINTER):
        return None
    text = (
        f"{stand.name} is dug on {stand.day(last)}, {stood / 365.25:.1f} years after planting; it begins to bear "
        f"after {days / 365.25:.1f}"
    )
    return of_stands(
        CHECK,
        "note",
        (stand,),
        capital(text),
        _RULE_DUG,
        stand.source("days_to_maturity"),
        [f"{last}"],
        Span(last, last),
        topic="dug",
        candidates=lambda plan: [
            Mend(
                f"Let {stand.crop_name} stand", "it bears for years", moves.changed(stand.planting, last=None)
            )
        ],
    )


def _of_pair(pair: Pair) -> Finding | None:
    both = ground_taken_twice(pair)
    if both is None:
        return None
    old, new = sorted((pair.one, pair.other), key=lambda s: (not s.stands, s.span.first, s.id))
    days = Span(max(old.span.first, new.span.first), min(old.span.last, new.span.last))
    share = both.area / old.ground.area
    text = (
        f"{new.name} takes {show_area(both.area, new.units)} ({share_words(share)}) of the ground of "
        f"{old.crop_name}, which stands there since {old.span.first.year} "
        f"{'and has no end' if old.span.open else f'until {old.day(old.span.last)}'}"
    )
    return of_stands(
        CHECK,
        "stop",
        (new, old),
        capital(text),
        _RULE,
        "practice",
        [round(share, 2), f"{days.first}", f"{old.span.last}"],
        days,
        both,
        candidates=lambda plan: _mends(plan, old.id, new.id),
    )


def _mends(plan: Plan, old_id: str, new_id: str) -> Iterator[Mend]:
    old, new = (stand_of(plan, plan.garden.plantings_by_id[key]) for key in (old_id, new_id))
    yield from moves.elsewhere(plan, new, f"{old.crop_name} stays undisturbed")
    yield moves.share_ground(new, f"it is meant to stand between {old.crop_name}")
    yield moves.remove(new, f"{old.crop_name} stays undisturbed")
    if old.span.first < new.span.first:
        yield moves.clear_on(old, shift(new.span.first, -1), f"{old.crop_name} is taken out for good")
