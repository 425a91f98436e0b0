"""Fixes that let plantings, or all that two beds carry, change places."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planner.checks.frame.finding import Fix
from planner.checks.frame.fixes import join_gains
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.sizes import (
    LEAST_OF_SIZE,
    MOST_TRIED,
    SAME_SIZE,
    fits_any_width,
    movable,
    outline_of,
    plants_words,
    same_size,
    size_in_bed,
    sort_of,
)
from planner.garden import Bed, Garden, Planting, Plot, Stretch
from planner.garden import edits as e
from planner.garden.planting_figures import PlantingFigures
from planner.ground.shapes import bed_polygon
from planner.plan import Plan
from planner.words import say


def swapped(plan: Plan, view: PlantingView, gain: str) -> Iterator[Fix]:
    """Let a planting change places with another of the year, of the same size or nearly so; the same size first.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    gain : str
    """
    if not movable(view):
        return
    found: list[tuple[bool, float, str, PlantingView]] = []
    for planting in plan.plantings:
        if planting.year != plan.year or planting.id == view.id or planting.pinned:
            continue
        other = planting_view(plan, planting)
        if not _may_swap(view, other):
            continue
        unlike = not same_size(view, other)
        if unlike and not (fits_any_width(view.planting) and fits_any_width(planting)):
            continue
        found.append((unlike, view.plot.distance(other.plot), planting.id, other))
    for unlike, _, _, other in sorted(found, key=lambda item: item[:3])[:MOST_TRIED]:
        text = say("Let {crop} change places with {planting}", crop=view.crop_name, planting=other.name)
        better = join_gains(gain, _swap_words(plan, view, other)) if unlike else gain
        yield Fix(text, better, partial(_swap, one=view.planting.id, other=other.id))


def _may_swap(view: PlantingView, other: PlantingView) -> bool:
    """Whether two plantings of different beds may change places: of the same crop it would change nothing."""
    return (
        movable(other)
        and (other.planting.crop, other.figures) != (view.planting.crop, view.figures)
        and not other.stays_for_years
        and other.bed.id != view.bed.id
        and sort_of(other.bed) == sort_of(view.bed)
        and LEAST_OF_SIZE <= other.placed.area / max(view.placed.area, 1e-9) <= 1 / LEAST_OF_SIZE
    )


def _swap_words(plan: Plan, view: PlantingView, other: PlantingView) -> str:
    """How many plants two plantings have after they changed places."""
    mine = view.planting.with_(bed=other.planting.bed, plot=other.planting.plot)
    theirs = other.planting.with_(bed=view.planting.bed, plot=view.planting.plot)
    return join_gains(plants_words(plan, view, mine), plants_words(plan, other, theirs))


def _swap(garden: Garden, one: str, other: str) -> Garden:
    first, second = garden.plantings_by_id[one], garden.plantings_by_id[other]
    there = e.change_planting(garden, one, bed=second.bed, plot=second.plot)
    return e.change_planting(there, other, bed=first.bed, plot=first.plot)


def in_other_order(plan: Plan, view: PlantingView, other: PlantingView) -> Iterator[Fix]:
    """Let two plantings of one bed change places in it, each with its own length or in the other's drawn plot.

    Parameters
    ----------
    plan : Plan
    view, other : PlantingView
    """
    mine, theirs = view.planting.plot, other.planting.plot
    if view.bed.id != other.bed.id or view.id == other.id or view.planting.pinned or other.planting.pinned:
        return
    if view.stays_for_years or other.stays_for_years:
        return
    if mine.kind == "region" and theirs.kind == "region":
        if not LEAST_OF_SIZE <= other.placed.area / max(view.placed.area, 1e-9) <= 1 / LEAST_OF_SIZE:
            return
        new: Plot = theirs
        old: Plot = mine
    elif mine.kind == "stretch" and theirs.kind == "stretch" and movable(view) and movable(other):
        first, last = (mine, theirs) if mine.start <= theirs.start else (theirs, mine)
        moved = (
            Stretch(start=round(last.end - (first.end - first.start), 6), end=last.end),
            Stretch(start=first.start, end=round(first.start + (last.end - last.start), 6)),
        )
        new, old = moved if first is mine else moved[::-1]
    else:
        return
    text = say(
        "Let {crop} change places with {other} in {bed}",
        crop=view.crop_name,
        other=other.crop_name,
        bed=view.bed.name,
    )
    better = _order_words(plan, view, other, new, old)
    yield Fix(text, better, partial(_set_plots, one=view.id, new=new, other=other.id, old=old))


def _order_words(plan: Plan, view: PlantingView, other: PlantingView, new: Plot, old: Plot) -> str:
    """How many plants two plantings have in each other's places."""
    mine = plants_words(plan, view, view.planting.with_(plot=new))
    return join_gains(mine, plants_words(plan, other, other.planting.with_(plot=old)))


def _set_plots(garden: Garden, one: str, new: Plot, other: str, old: Plot) -> Garden:
    return e.change_planting(e.change_planting(garden, one, plot=new), other, plot=old)


def beds_swapped(plan: Plan, view: PlantingView, gain: str) -> Iterator[Fix]:
    """Let the bed of a planting change all it carries this year with another of its size, the nearest first.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    gain : str
    """
    bed = view.bed
    mine = _movable_in_bed(plan, bed)
    if not mine or view.id not in mine or _climbs_drawn_line(plan, mine):
        return
    size = size_in_bed(bed, bed_polygon(bed))
    near: list[tuple[float, str, Bed, tuple[str, ...]]] = []
    for other in plan.beds:
        theirs = _movable_in_bed(plan, other)
        if other.id == bed.id or sort_of(other) != sort_of(bed):
            continue
        if not theirs or _climbs_drawn_line(plan, theirs) or _carry_the_same(plan, mine, theirs):
            continue
        sides = zip(size, size_in_bed(other, bed_polygon(other)), strict=True)
        if other.outline.shape == bed.outline.shape and all(abs(a - b) < SAME_SIZE for a, b in sides):
            near.append((outline_of(bed).distance(outline_of(other)), other.id, other, theirs))
    for _, _, other, theirs in sorted(near, key=lambda item: item[:2])[: MOST_TRIED // 2]:
        yield Fix(
            say("Let {one} and {other} change all they carry this year", one=bed.name, other=other.name),
            gain,
            partial(_swap_beds, mine=mine, to=other.id, theirs=theirs, back=bed.id),
        )


def _movable_in_bed(plan: Plan, bed: Bed) -> tuple[str, ...]:
    """Ids of the plantings of a bed that begin this year, are not pinned and not perennial."""
    return tuple(
        planting.id
        for planting in plan.in_bed(bed)
        if planting.year == plan.year
        and not planting.pinned
        and not planting_view(plan, planting).stays_for_years
    )


def _carry_the_same(plan: Plan, mine: tuple[str, ...], theirs: tuple[str, ...]) -> bool:
    """Whether two beds carry the same in the same places and on the same days."""
    left = [_but_for_bed(plan, key) for key in theirs]
    for one in (_but_for_bed(plan, key) for key in mine):
        if one not in left:
            return False
        left.remove(one)
    return not left


def _but_for_bed(plan: Plan, key: str) -> tuple[Planting, PlantingFigures]:
    """A planting without what tells it from the same one in another bed."""
    planting = plan.garden.plantings_by_id[key]
    return planting.with_(id="x", bed="x", variety=""), plan.figures_of(planting)


def _climbs_drawn_line(plan: Plan, keys: tuple[str, ...]) -> bool:
    """Whether some plantings climb a support that is drawn in their bed, and does not move along."""
    plantings = (plan.garden.plantings_by_id[key] for key in keys)
    return any(p.support is not None and p.support.line for p in plantings)


def _swap_beds(garden: Garden, mine: tuple[str, ...], to: str, theirs: tuple[str, ...], back: str) -> Garden:
    for keys, bed in ((mine, to), (theirs, back)):
        for key in keys:
            garden = e.change_planting(garden, key, bed=bed)
    return garden
