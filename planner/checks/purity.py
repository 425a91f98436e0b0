"""Seed purity: a crop grown for seed among its own kind in flower, or from too few plants."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import shapely

from planner.checks import moves
from planner.checks.asked import Asked, of_stands
from planner.checks.finding import Finding, Mend, Severity
from planner.checks.stands import Stand, capital, many, shared, stand_of
from planner.crops.neighbours import genus
from planner.garden.units import show_distance
from planner.plan import Plan
from planner.season.climate import shift
from planner.season.spans import Span

CHECK = "seed purity"
#: Families whose crop is the fruit or seed: they flower before they are picked.
_FRUITING = ("Cucurbitaceae", "Fabaceae", "Solanaceae", "Malvaceae")
#: Crops of those families, and others, that are lifted before or do not cross by flower.
_LIFTED = ("potato", "sweet_potato")
_RULE = "Seed stays true where nothing else of its species flowers within the isolation distance"
_RULE_FEW = "Seed of too few plants loses vigour from year to year"


def species(stand: Stand) -> str:
    """The first two words of its Latin name: what crosses with what."""
    if stand.crop is None:
        return ""
    words = [w for w in stand.crop.latin.replace("×", " ").split() if w != "x"]
    return " ".join(words[:2]) if genus(stand.crop.latin) else ""


def flowering(stand: Stand) -> Span | None:
    """Days on which it may be in flower; None where it is picked before it flowers."""
    crop = stand.crop
    if crop is None or stand.manure or not stand.placed.plants:
        return None
    seed = stand.planting.purpose == "seed"
    flowers = (
        stand.dates.flower is not None
        or crop.growth_form == "flower"
        or (crop.family in _FRUITING and crop.key not in _LIFTED)
    )
    if not seed and not flowers:
        return None
    if stand.dates.flower is not None:
        return Span(min(stand.dates.flower.day, stand.span.last), stand.span.last)
    days = min(stand.span.days, 365)
    return Span(shift(stand.span.first, days // 3), stand.span.last)


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = asked.plan
    for stand in asked.stands:
        if stand.planting.purpose != "seed" or stand.crop is None or not stand.placed.plants:
            continue
        few = plan.once("seed plants", stand.id, (stand,), partial(_too_few, stand))
        if few is not None:
            yield few
        kind = species(stand)
        others = tuple(
            o for o in asked.stands if o is not stand and species(o) == kind and not _same(stand, o)
        )
        found = plan.once("purity", stand.id, (stand, others), partial(_crossing, stand, others))
        if found is not None:
            yield found


def _same(one: Stand, other: Stand) -> bool:
    """Whether two are known to be one variety."""
    a, b = one.planting, other.planting
    return a.crop == b.crop and a.variety.casefold() == b.variety.casefold()


def _too_few(stand: Stand) -> Finding | None:
    least = stand.number("seed_plants")
    if least is None or stand.placed.plants >= least:
        return None
    text = f"{stand.name} gives seed from {many(stand.placed.plants, 'plant')}; at least {least:.0f} keep the variety sound"
    return of_stands(
        CHECK,
        "mind",
        (stand,),
        capital(text),
        _RULE_FEW,
        stand.source("seed_plants"),
        [stand.placed.plants, least],
        topic="few",
        candidates=lambda plan: _for_the_kitchen(plan, stand.id),
    )


def _for_the_kitchen(plan: Plan, key: str) -> Iterator[Mend]:
    planting = plan.garden.plantings_by_id[key]
    yield Mend(
        "Grow it for the kitchen", "no seed is saved from it", moves.changed(planting, purpose="kitchen")
    )
    yield moves.remove(stand_of(plan, planting), "no seed is saved from it")


def _crossing(stand: Stand, others: tuple[Stand, ...]) -> Finding | None:
    wanted, mine = stand.number("isolation"), flowering(stand)
    if wanted is None or mine is None:
        return None
    near: list[tuple[float, str, Stand, Span]] = []
    for other in others:
        theirs = flowering(other)
        days = shared(mine, theirs) if theirs is not None else None
        if days is None or days.days < 5:
            continue
        away = float(shapely.distance(shapely.multipoints(stand.points), shapely.multipoints(other.points)))
        if away < wanted - 1e-6:
            near.append((away, other.id, other, days))
    if not near:
        return None
    away, _, other, days = min(near, key=lambda item: item[:2])
    more = f" (and {len(near) - 1} more)" if len(near) > 1 else ""
    text = (
        f"{stand.name} is grown for seed {show_distance(away, stand.units)} from {other.name}{more} of the same species, "
        f"in flower at the same time; {show_distance(wanted, stand.units)} keep it true"
    )
    selfing = (
        stand.crop is not None
        and stand.crop.pollination is not None
        and stand.crop.pollination.value == "self"
    )
    severity: Severity = "note" if selfing else "mind"
    return of_stands(
        CHECK,
        severity,
        (stand, *(o for _, _, o, _ in sorted(near, key=lambda item: item[:2]))),
        capital(text),
        _RULE,
        stand.source("isolation"),
        [round(away, 1), wanted, len(near)],
        days,
        topic="crossing",
        candidates=lambda plan: _mends(plan, stand.id, other.id),
    )


def _mends(plan: Plan, key: str, other_key: str) -> Iterator[Mend]:
    stand, other = (stand_of(plan, plan.garden.plantings_by_id[k]) for k in (key, other_key))
    yield from moves.elsewhere(plan, stand, f"farther from {other.crop_name}")
    if stand.planting.crop == other.planting.crop:
        yield Mend(
            f"Grow {other.crop_name} of the same variety",
            "what crosses is one variety",
            moves.changed(other.planting, variety=stand.planting.variety),
        )
    yield moves.remove(other, f"{stand.crop_name} stays true")
    yield from _for_the_kitchen(plan, key)
