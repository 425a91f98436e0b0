"""Rotation: what family this very ground carried before, whatever bed it was called then.

The ground is compared on the plan, so a bed that was redrawn, split, renamed or moved keeps its
history.  A planting is judged in the growing year it belongs to.  Containers are filled anew and have
none (practice).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

import numpy as np
import shapely

from planner.checks.frame import fixes, moves, swaps
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import plural_of, share_words, significant
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.crops.families import family_words
from planner.garden.units import show_area
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import capital, join_list, say, say_count

CHECK = "rotation"
#: Least and wanted years between two crops of a family where the crop has no figure (isu_rotation, wvu_rotation). [years]
GENERAL = (2.0, 3.0)
GENERAL_SOURCE = "isu_rotation"
#: Share of the plot below which old ground is an edge, not a place in the rotation (practice).
LEAST_SHARE = 0.10
#: Area below which two plots only touch. [m2]
LEAST_GROUND = 1e-4
#: Growing years that are looked back. [years]
MOST_YEARS = 12
#: Days up to which a crop is short: two of a family in one year are then no matter of rotation. [days]
SHORT_CROP = 75


class PastInputs(NamedTuple):
    """Plantings whose ground is looked up."""

    views: tuple[PlantingView, ...]


class RotationInputs(NamedTuple):
    """What the judgement of one planting depends on.

    Attributes
    ----------
    view : PlantingView
    before : tuple of PlantingView
        Of its family, cleared before it starts, on ground that may be its own.
    year_begins : int
        First month of the growing year.
    """

    view: PlantingView
    before: tuple[PlantingView, ...]
    year_begins: int


class Interval(NamedTuple):
    """Years from one crop of a family to the next on the same ground.

    Attributes
    ----------
    least, wanted : float
        [years]
    source : str
        Key of the source.
    """

    least: float
    wanted: float
    source: str


class OldGround(NamedTuple):
    """Ground of a planting that carried its family before.

    Attributes
    ----------
    ago : int
        Growing years since. [years]
    views : list of PlantingView
        What grew there in the latest of those years.
    ground : shapely.Geometry
        On the plan.
    share : float
        Of the planting's own ground.
    """

    ago: int
    views: list[PlantingView]
    ground: shapely.Geometry
    share: float


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings on ground that carried their family within the years that its rotation wants."""
    for view, inputs in asked_of(context):
        found = context.plan.cached(rotation_finding, view.id, inputs) if inputs is not None else None
        if found is not None:
            yield found


def asked_of(context: CheckContext) -> Iterator[tuple[PlantingView, RotationInputs | None]]:
    """The plantings whose rotation is looked at, each with what it is judged by; None where its family was nowhere near."""
    plan = context.plan
    judged = [view for view in context.views if _is_judged(view)]
    past = [view for view in _past(context) if not view.placed.plot.is_empty] if judged else []
    before: dict[int, list[PlantingView]] = {}
    if past:
        tree = plan.cached(tree_of_past_ground, "", PastInputs(tuple(past)))
        mine, theirs = tree.query(np.array([view.ground for view in judged]))
        for i, j in zip(mine.tolist(), theirs.tolist(), strict=True):
            if _follows(judged[i], past[j]):
                before.setdefault(i, []).append(past[j])
    for i, view in enumerate(judged):
        ordered = tuple(sorted(before.get(i, ()), key=lambda other: other.id))
        yield view, RotationInputs(view, ordered, plan.garden.site.year_begins) if ordered else None


@fact("tree of past ground")
def tree_of_past_ground(inputs: PastInputs) -> shapely.STRtree:
    """Spatial index of the ground of plantings of this growing year and the ones before."""
    return shapely.STRtree([view.ground for view in inputs.views])


def _is_judged(view: PlantingView) -> bool:
    has_ground = view.bed.kind != "container" and not view.placed.plot.is_empty
    return view.starts_here and view.crop is not None and has_ground


def _past(context: CheckContext) -> Iterator[PlantingView]:
    """Plantings of this growing year and the ones before, but for perennials that are still there."""
    plan = context.plan
    for planting in context.plantings:
        if plan.year - MOST_YEARS <= planting.year <= plan.year:
            view = context.by_id.get(planting.id) or planting_view(plan, planting)
            if view.crop is not None and not (view.stays_for_years and view.span.open):
                yield view


def _family(view: PlantingView) -> str:
    return view.crop.family if view.crop is not None else ""


def _follows(view: PlantingView, other: PlantingView) -> bool:
    """Whether a planting starts after another of its family was cleared; members of a series do not count."""
    series = view.planting.series
    if _family(view) != _family(other) or (series is not None and series == other.planting.series):
        return False
    return other.span.last < view.span.first


def years_since(year: int, other: PlantingView, year_begins: int) -> int:
    """Growing years from the one in which a planting was cleared to another; 0 at least. [years]"""
    cleared = other.span.last.year - (other.span.last.month < year_begins)
    return max(0, year - cleared)


def interval(view: PlantingView) -> Interval | None:
    """Years from one crop of the family to the next; None where it may follow itself in any year."""
    figure, own = view.figure("rotation_years"), view.number("rotation_years")
    if figure is not None and figure.value is not None:
        low = figure.low if figure.low is not None else figure.value
        return Interval(min(low, figure.value), figure.value, figure.source or "practice")
    if own is not None:
        return Interval(own, own, "practice")
    entry = view.crop.rotation_years if view.crop is not None else None
    if entry is not None and not entry.applies:
        return None
    return Interval(*GENERAL, GENERAL_SOURCE)


# -- judging -------------------------------------------------------------------------------------


@fact("rotation finding")
def rotation_finding(inputs: RotationInputs) -> Finding | None:
    """Report a planting on ground that carried its family too few years ago."""
    view = inputs.view
    found_there = view.stays_for_years and view.dates.start == "standing"
    years = None if found_there else interval(view)
    old = old_ground(inputs, years.wanted) if years is not None else None
    if years is None or old is None or old.share < LEAST_SHARE:
        return None
    in_one_year = old.ago == 0 and all(one.planting.year == view.year for one in old.views)
    if in_one_year and not all(one.span.days > SHORT_CROP for one in (view, *old.views)):
        return None
    manure = view.manure or all(one.manure for one in old.views)
    found = planting_finding(
        CHECK,
        "note" if manure or old.ago >= years.least or in_one_year else "mind",
        (view, *old.views),
        capital(_text(view, old, years)),
        _rule(years),
        years.source,
        [old.ago, round(old.share, 1), years.wanted],
        place=old.ground,
        candidates=lambda plan: _other_ground(plan, view.id, years.wanted),
    )
    return replace(found, cause=family_words(_family(view)))


def old_ground(inputs: RotationInputs, wanted: float) -> OldGround | None:
    """Its ground that carried the family last, within the years wanted; None where there is none."""
    view = inputs.view
    shared: dict[int, list[tuple[PlantingView, shapely.Geometry]]] = {}
    for other in inputs.before:
        ago = years_since(view.year, other, inputs.year_begins)
        both = shapely.intersection(view.ground, other.ground) if ago < wanted else None
        if both is not None and both.area > LEAST_GROUND:
            shared.setdefault(ago, []).append((other, both))
    if not shared:
        return None
    ago = min(shared)
    ground = shapely.union_all([both for _, both in shared[ago]])
    return OldGround(ago, [other for other, _ in shared[ago]], ground, float(ground.area) / view.ground.area)


# -- sentences -----------------------------------------------------------------------------------


def _text(view: PlantingView, old: OldGround, years: Interval) -> str:
    grew = _grew_there(view, old)
    if years.least < years.wanted:
        return say_count(
            "{grew}; at least {years} year are wanted between, better {wanted}",
            "{grew}; at least {years} years are wanted between, better {wanted}",
            plural_of(years.least),
            grew=grew,
            years=significant(years.least),
            wanted=significant(years.wanted),
        )
    return say_count(
        "{grew}; at least {years} year are wanted between",
        "{grew}; at least {years} years are wanted between",
        plural_of(years.least),
        grew=grew,
        years=significant(years.least),
    )


def _grew_there(view: PlantingView, old: OldGround) -> str:
    """What grew where, and when."""
    names = join_list(one.crop_name if one.bed is view.bed else one.name for one in old.views)
    family, area = family_words(_family(view)), show_area(float(old.ground.area), view.units)
    if old.ago == 0:
        return say(
            "{planting} stands where {family} stood earlier this year: {crops} on {area}, {share} of its plot",
            planting=view.name,
            family=family,
            crops=names,
            area=area,
            share=share_words(old.share),
        )
    return say_count(
        "{planting} stands where {family} stood {count} year ago: {crops} on {area}, {share} of its plot",
        "{planting} stands where {family} stood {count} years ago: {crops} on {area}, {share} of its plot",
        old.ago,
        planting=view.name,
        family=family,
        crops=names,
        area=area,
        share=share_words(old.share),
    )


def _rule(years: Interval) -> str:
    if years.least < years.wanted:
        return say_count(
            "A plot carries the same family again after at least {years} year, better {wanted}",
            "A plot carries the same family again after at least {years} years, better {wanted}",
            plural_of(years.least),
            years=significant(years.least),
            wanted=significant(years.wanted),
        )
    return say_count(
        "A plot carries the same family again after at least {years} year",
        "A plot carries the same family again after at least {years} years",
        plural_of(years.least),
        years=significant(years.least),
    )


def _other_ground(plan: Plan, key: str, wanted: float) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    gain = say("no {family} there for {years} years", family=_family(view), years=significant(wanted))
    yield from moves.elsewhere(plan, view, gain)
    yield from swaps.swapped(plan, view, gain)
    yield from swaps.beds_swapped(plan, view, gain)
    yield fixes.remove(view, say("the ground rests from the family"))
