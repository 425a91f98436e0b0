"""Seed wanted against seed on hand: what is short.

A lot serves plantings of its crop and variety; a planting that names no variety uses any lot of its
crop, lots without a variety first.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from planner.amounts.lots import LotState, stock_states
from planner.amounts.plants import Amount
from planner.plan import Plan

#: A crop's key and the variety's name in lower case, empty where none is named.
VarietyKey = tuple[str, str]


@dataclass(frozen=True)
class Need:
    """Seed of one variety: needed, on hand, short.

    Attributes
    ----------
    crop : str
        Key.
    name, variety : str
        As shown; the variety may be empty.
    seeds : int or None
        Needed by all plantings of the year; None where a part is unknown.
    on_hand : int or None
        In usable lots; None where it cannot be counted.
    unusable : int
        Lots that are too old or dead.
    short : int or None
        Seeds to get; None where ``seeds`` or ``on_hand`` is.
    short_grams : float or None
        The same by weight. [g]
    missing : tuple of str
        What could not be worked out, a sentence each.
    """

    crop: str
    name: str
    variety: str
    seeds: int | None
    on_hand: int | None
    unusable: int
    short: int | None
    short_grams: float | None
    missing: tuple[str, ...] = ()


def needs(plan: Plan, parts: Iterable[Amount]) -> tuple[Need, ...]:
    """Compare seed needed with seed on hand, by crop and variety.

    Plantings that name no variety draw first on lots that name none, then on what plantings with a
    variety leave of the other lots of their crop.

    Parameters
    ----------
    plan : Plan
        For the stock, and the growing year that decides which lots are too old.
    parts : iterable of Amount
        What the plantings need; those without seed are passed over.

    Returns
    -------
    tuple of Need
        In alphabetical order; empty where nothing is sown.
    """
    needed: dict[VarietyKey, list[Amount]] = {}
    for part in parts:
        if part.seeds is None or part.seeds:
            key = (part.planting.crop, part.planting.variety.casefold())
            needed.setdefault(key, []).append(part)
    lots: dict[VarietyKey, list[LotState]] = {}
    for state in stock_states(plan.garden, plan.catalogue, plan.year):
        lots.setdefault((state.lot.crop, state.lot.variety.casefold()), []).append(state)
    left = {key: _on_hand(states) for key, states in lots.items()}
    found = []
    # Named varieties first, so that what they leave is known when the unnamed draw on it.
    for key in sorted(needed, key=lambda key: not key[1]):
        sources = [key]
        if not key[1]:
            sources += [other for other in lots if other[0] == key[0] and other[1]]
        need = _need(plan, needed[key], sources, lots, left)
        there = left.get(key)
        if there is not None:
            left[key] = max(0, there - (need.seeds or 0))
        found.append(need)
    return tuple(sorted(found, key=lambda need: (need.name.casefold(), need.variety.casefold())))


def shortages(plan: Plan, parts: Iterable[Amount]) -> tuple[Need, ...]:
    """Return the needs of which seed is short, or may be because it cannot be counted.

    Parameters
    ----------
    plan : Plan
    parts : iterable of Amount
        As for :func:`needs`.
    """
    return tuple(need for need in needs(plan, parts) if need.short is None or need.short)


def _on_hand(states: Iterable[LotState]) -> int | None:
    counts = [state.seeds for state in states if state.usable]
    return None if None in counts else sum(count or 0 for count in counts)


def _need(
    plan: Plan,
    group: Sequence[Amount],
    sources: Sequence[VarietyKey],
    lots: Mapping[VarietyKey, Sequence[LotState]],
    left: Mapping[VarietyKey, int | None],
) -> Need:
    """The need of plantings of one variety, against what is left of the seeds of its sources."""
    first = group[0]
    states = [state for source in sources for state in lots.get(source, ())]
    counts = [left.get(source, 0) for source in sources]
    on_hand = None if None in counts else sum(count or 0 for count in counts)
    counted = [part.seeds for part in group if part.seeds is not None]
    seeds = sum(counted) if len(counted) == len(group) else None
    missing = [line for part in group if part.seeds is None for line in part.missing]
    missing += [
        line for state in states if state.usable and state.seeds is None for line in state.missing[-1:]
    ]
    short = max(0, seeds - on_hand) if seeds is not None and on_hand is not None else None
    per_gram = plan.figures_of(first.planting).number("seeds_per_gram")
    grams = None
    if short is not None and (per_gram is not None or not short):
        grams = short / per_gram if per_gram else 0.0
    return Need(
        crop=first.planting.crop,
        name=first.crop,
        variety=first.variety,
        seeds=seeds,
        on_hand=on_hand,
        unusable=sum(not state.usable for state in states),
        short=short,
        short_grams=grams,
        missing=tuple(dict.fromkeys(missing)),
    )
