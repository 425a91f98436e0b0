"""Seed purity: a crop grown for seed among its own kind in flower, or from too few plants."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import shapely

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix, Severity
from planner.checks.frame.phrases import many
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.crops.neighbours import genus
from planner.garden.units import show_distance
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.spans import Span
from planner.words import capital

CHECK = "seed purity"
#: Families whose crop is the fruit or seed: they flower before they are picked.
_FRUITING = ("Cucurbitaceae", "Fabaceae", "Solanaceae", "Malvaceae")
#: Crops of those families, and others, that are lifted before or do not cross by flower.
_LIFTED = ("potato", "sweet_potato")
_RULE = "Seed stays true where nothing else of its species flowers within the isolation distance"
_RULE_FEW = "Seed of too few plants loses vigour from year to year"


def species(view: PlantingView) -> str:
    """The first two words of its Latin name: what crosses with what."""
    if view.crop is None:
        return ""
    words = [w for w in view.crop.latin.replace("×", " ").split() if w != "x"]
    return " ".join(words[:2]) if genus(view.crop.latin) else ""


def flowering(view: PlantingView) -> Span | None:
    """Days on which it may be in flower; None where it is picked before it flowers."""
    crop = view.crop
    if crop is None or view.manure or not view.placed.plants:
        return None
    seed = view.planting.purpose == "seed"
    flowers = (
        view.dates.flower is not None
        or crop.growth_form == "flower"
        or (crop.family in _FRUITING and crop.key not in _LIFTED)
    )
    if not seed and not flowers:
        return None
    if view.dates.flower is not None:
        return Span(min(view.dates.flower.day, view.span.last), view.span.last)
    days = min(view.span.days, 365)
    return Span(shift(view.span.first, days // 3), view.span.last)


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = context.plan
    for view in context.views:
        if view.planting.purpose != "seed" or view.crop is None or not view.placed.plants:
            continue
        few = plan.once("seed plants", view.id, (view,), partial(_too_few, view))
        if few is not None:
            yield few
        kind = species(view)
        others = tuple(
            o for o in context.views if o is not view and species(o) == kind and not _same(view, o)
        )
        found = plan.once("purity", view.id, (view, others), partial(_crossing, view, others))
        if found is not None:
            yield found


def _same(one: PlantingView, other: PlantingView) -> bool:
    """Whether two are known to be one variety."""
    a, b = one.planting, other.planting
    return a.crop == b.crop and a.variety.casefold() == b.variety.casefold()


def _too_few(view: PlantingView) -> Finding | None:
    least = view.number("seed_plants")
    if least is None or view.placed.plants >= least:
        return None
    text = f"{view.name} gives seed from {many(view.placed.plants, 'plant')}; at least {least:.0f} keep the variety sound"
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        _RULE_FEW,
        view.source("seed_plants"),
        [view.placed.plants, least],
        topic="few",
        candidates=lambda plan: _for_the_kitchen(plan, view.id),
    )


def _for_the_kitchen(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    yield Fix(
        "Grow it for the kitchen", "no seed is saved from it", fixes.changed(planting, purpose="kitchen")
    )
    yield fixes.remove(planting_view(plan, planting), "no seed is saved from it")


def _crossing(view: PlantingView, others: tuple[PlantingView, ...]) -> Finding | None:
    wanted, mine = view.number("isolation"), flowering(view)
    if wanted is None or mine is None:
        return None
    near: list[tuple[float, str, PlantingView, Span]] = []
    for other in others:
        theirs = flowering(other)
        days = shared(mine, theirs) if theirs is not None else None
        if days is None or days.days < 5:
            continue
        away = float(shapely.distance(shapely.multipoints(view.points), shapely.multipoints(other.points)))
        if away < wanted - 1e-6:
            near.append((away, other.id, other, days))
    if not near:
        return None
    away, _, other, days = min(near, key=lambda item: item[:2])
    more = f" (and {len(near) - 1} more)" if len(near) > 1 else ""
    text = (
        f"{view.name} is grown for seed {show_distance(away, view.units)} from {other.name}{more} of the same species, "
        f"in flower at the same time; {show_distance(wanted, view.units)} keep it true"
    )
    selfing = (
        view.crop is not None and view.crop.pollination is not None and view.crop.pollination.value == "self"
    )
    severity: Severity = "note" if selfing else "mind"
    return planting_finding(
        CHECK,
        severity,
        (view, *(o for _, _, o, _ in sorted(near, key=lambda item: item[:2]))),
        capital(text),
        _RULE,
        view.source("isolation"),
        [round(away, 1), wanted, len(near)],
        days,
        topic="crossing",
        candidates=lambda plan: _fixes(plan, view.id, other.id),
    )


def _fixes(plan: Plan, key: str, other_key: str) -> Iterator[Fix]:
    view, other = (planting_view(plan, plan.garden.plantings_by_id[k]) for k in (key, other_key))
    yield from fixes.elsewhere(plan, view, f"farther from {other.crop_name}")
    if view.planting.crop == other.planting.crop:
        yield Fix(
            f"Grow {other.crop_name} of the same variety",
            "what crosses is one variety",
            fixes.changed(other.planting, variety=view.planting.variety),
        )
    yield fixes.remove(other, f"{view.crop_name} stays true")
    yield from _for_the_kitchen(plan, key)
