"""Standing: ground of a planting of many years that is dug or planted over."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planner.checks import moves
from planner.checks.asked import Asked, Pair, of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.overlap import ground_taken_twice
from planner.checks.stands import capital, share_words, stand_of
from planner.garden.units import show_area
from planner.plan import Plan
from planner.season.climate import shift
from planner.season.spans import Span

CHECK = "standing"
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


def _of_pair(pair: Pair) -> Finding | None:
    both = ground_taken_twice(pair)
    if both is None:
        return None
    old, new = sorted((pair.one, pair.other), key=lambda s: (not s.stands, s.span.first, s.id))
    days = Span(max(old.span.first, new.span.first), min(old.span.last, new.span.last))
    share = both.area / old.placed.area
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
    if old.span.first < new.span.first:
        yield moves.clear_on(old, shift(new.span.first, -1), f"{old.crop_name} is taken out first")
    yield moves.remove(new, f"{old.crop_name} stays undisturbed")
