"""Seed wanted against seed on hand: what is short.

A lot serves plantings of its crop and variety; a planting that names no variety uses any lot of its
crop, lots without a variety first.  What is ordered counts as there, and is named apart.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planner.amounts.begun import begun_on
from planner.amounts.plants import Amount, amounts
from planner.amounts.supply import Supply, VarietyKey, take, total
from planner.plan import Plan


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
        Needed by all plantings begun in the year, from the latest count of their lots on; None where a
        part is unknown.
    on_hand : int or None
        In usable lots that are not only ordered; None where it cannot be counted.
    ordered : int
        In lots that are ordered.
    unusable : int
        Lots that are too old or dead.
    short : int or None
        Seeds to get; None where ``seeds`` or ``on_hand`` is.
    short_grams : float or None
        The same by weight. [g]
    missing : tuple of str
        What could not be worked out, a sentence each.
    parts : tuple of Amount
        Of those plantings.
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
    ordered: int = 0
    parts: tuple[Amount, ...] = ()


def needs(plan: Plan, parts: Iterable[Amount] | None = None) -> tuple[Need, ...]:
    """Compare seed needed with seed on hand, by crop and variety.

    Plantings that name no variety draw first on lots that name none, then on what plantings with a
    variety leave of the other lots of their crop.

    Parameters
    ----------
    plan : Plan
        For the stock, and the growing year that decides which lots are too old.
    parts : iterable of Amount, optional
        What the plantings need: those begun in the growing year by default.  Those without seed are passed over.

    Returns
    -------
    tuple of Need
        In alphabetical order; empty where nothing is sown.
    """
    supply = Supply(plan)
    needed: dict[VarietyKey, list[Amount]] = {}
    for part in amounts(plan) if parts is None else parts:
        if part.seeds is None or part.seeds:
            key = (part.planting.crop, part.planting.variety.casefold())
            needed.setdefault(key, []).append(part)
    found = []
    # Named varieties first, so that what they leave is known when the unnamed draw on it.
    for key in sorted(needed, key=lambda key: not key[1]):
        group = _not_sown_before_count(plan, supply, key, needed[key])
        if group:
            found.append(_need(plan, group, supply, key))
    return tuple(sorted(found, key=lambda need: (need.name.casefold(), need.variety.casefold())))


def _not_sown_before_count(
    plan: Plan, supply: Supply, key: VarietyKey, group: Sequence[Amount]
) -> list[Amount]:
    """Those plantings of a variety that are sown on or after the latest count; the others take what they took."""
    counted, left = supply.counted_last(key), []
    for part in group:
        day = begun_on(plan, part.planting)
        if day is None or day >= counted:
            left.append(part)
        else:
            supply.draw(part, day)
    return left


def shortages(plan: Plan, parts: Iterable[Amount] | None = None) -> tuple[Need, ...]:
    """Return the needs of which seed is short, or may be because it cannot be counted.

    Parameters
    ----------
    plan : Plan
    parts : iterable of Amount, optional
        As for :func:`needs`.
    """
    return tuple(need for need in needs(plan, parts) if need.short is None or need.short)


def _need(plan: Plan, group: Sequence[Amount], supply: Supply, key: VarietyKey) -> Need:
    """The need of plantings of one variety against what is left of the lots that serve it, which it takes."""
    first = group[0]
    serving = supply.serving(key)
    usable = [lot for lot in serving if lot.state.usable and lot.since <= plan.span.last]
    there = [lot for lot in usable if not lot.state.lot.ordered]
    coming = [lot for lot in usable if lot.state.lot.ordered]
    on_hand, ordered = total(there), total(coming)
    counted = [part.seeds for part in group if part.seeds is not None]
    seeds = sum(counted) if len(counted) == len(group) else None
    missing = [line for part in group if part.seeds is None for line in part.missing]
    missing += [line for lot in usable if lot.state.seeds is None for line in lot.state.missing[-1:]]
    short = None
    if seeds is not None and on_hand is not None and ordered is not None:
        short = max(0, seeds - on_hand - ordered)
    take(seeds or 0, (*there, *coming))
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
        unusable=sum(not lot.state.usable for lot in serving),
        short=short,
        short_grams=grams,
        missing=tuple(dict.fromkeys(missing)),
        ordered=ordered or 0,
        parts=tuple(group),
    )
