"""Edits that checks offer: another plot, another day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from functools import partial

import shapely

from planner.checks.frame.finding import Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Bed, Garden, Planting, Stretch
from planner.garden import edits as e
from planner.garden.units import show_length
from planner.ground.free import pieces, plot_of
from planner.ground.shapes import bed_axis, bed_polygon, extent_along_axis, plan_polygon, turned
from planner.plan import Plan
from planner.season.frosts import shift
from planner.words import day_words, say

#: So many other plots are tried.
MOST_TRIED = 8
#: A plot of this share of a planting's own is still worth moving to (practice).
LEAST_OF_SIZE = 0.75


def changed(planting: Planting, **fields: object) -> Callable[[Garden], Garden]:
    """The edit that changes fields of a planting."""
    return partial(_change, key=planting.id, fields=fields)


def _change(garden: Garden, key: str, fields: dict[str, object]) -> Garden:
    return e.change_planting(garden, key, **fields)


def start_on(view: PlantingView, day: dt.date, gain: str) -> Fix:
    """Start a planting on a day: the day it takes its plot; later days follow."""
    pins = view.planting.pinned_dates
    kept = {name: getattr(pins, name) for name in type(pins).model_fields}
    moved = (day - view.span.first).days
    for name in ("sow", "prick_out", "harden_off", "set_out", "thin", "support_up"):
        if kept[name] is not None:
            kept[name] = shift(kept[name], moved)
    verb = "Sow" if view.dates.start == "sown" else "Plant" if view.dates.start != "raised" else "Set out"
    fields: dict[str, object] = {"first": day, "pinned_dates": kept}
    return Fix(
        f"{verb} {view.crop_name} on {day_words(day, view.year)}", gain, changed(view.planting, **fields)
    )


def clear_on(view: PlantingView, day: dt.date, gain: str) -> Fix:
    """Clear a planting on a day."""
    return Fix(
        f"Clear {view.crop_name} on {day_words(day, view.year)}", gain, changed(view.planting, last=day)
    )


def share_ground(view: PlantingView, gain: str) -> Fix:
    """Say that a planting is meant to stand between others."""
    return Fix(f"Let {view.crop_name} share the ground", gain, changed(view.planting, shares_ground=True))


def remove(view: PlantingView, gain: str) -> Fix:
    """Take a planting out of the plan."""
    return Fix(f"Leave out {view.crop_name}", gain, partial(_remove, key=view.id))


def _remove(garden: Garden, key: str) -> Garden:
    return e.remove(garden, [key])


def elsewhere(plan: Plan, view: PlantingView, gain: str, sort: str = "") -> Iterator[Fix]:
    """Move a planting to free ground of its size, the nearest bed first, in beds of its own sort or the one given.

    In a bed of another width its stretch is longer or shorter, so that the area stays; where only a
    shorter piece is free it loses plants, and the gain says how many.
    """
    if not _movable(view):
        return
    sort = sort or _sort_of(view.bed)
    here = shapely.centroid(_outline(view.bed)) if view.plot.is_empty else shapely.centroid(view.plot)
    length, width = _size(view.bed, view.placed.plot)
    units = plan.garden.site.units
    found: list[tuple[bool, int, Fix]] = []
    for bed in sorted(plan.beds, key=lambda bed: (_outline(bed).distance(here), bed.id)):
        if _sort_of(bed) != sort:
            continue
        bed_width = _size(bed, bed_polygon(bed))[1]
        alike = abs(bed_width - width) <= 0.1
        wanted = length if alike else length * width / bed_width
        begin = extent_along_axis(bed.outline)[0]
        own = 0
        for piece in pieces(plan.free_in(bed, view.span, (view.id,))):
            if plot_of(bed, piece).kind == "region" or own > 2:
                continue
            left, _, right, _ = shapely.bounds(turned(piece, -bed_axis(bed.outline)))
            free = float(right - left)
            if free < LEAST_OF_SIZE * wanted or (not alike and view.planting.support is not None):
                continue
            start, long = max(round(float(left) - begin, 6), 0.0), min(wanted, free)
            plot = Stretch(start=start, end=round(start + long, 6))
            same = alike and free >= wanted - 1e-6
            other = view.planting.with_(bed=bed.id, plot=plot)
            text = gain if same else join_gains(gain, _plants(plan, view, other))
            where = f" to {bed.name}" if own == 0 else f" to {bed.name}, from {show_length(start, units)} on"
            if bed.id == view.bed.id:
                where = f" along {bed.name}, from {show_length(start, units)} on"
            mend = Fix(f"Move {view.crop_name}{where}", text, changed(view.planting, bed=bed.id, plot=plot))
            own += 1
            found.append((free < wanted - 1e-6, len(found), mend))
        if sum(not shorter for shorter, *_ in found) >= MOST_TRIED:
            break
    for *_, mend in sorted(found, key=lambda item: item[:2])[:MOST_TRIED]:
        yield mend


def shortened(plan: Plan, view: PlantingView, other: PlantingView) -> Iterator[Fix]:
    """End a planting's stretch where another's begins; where at least half of it is left."""
    mine, theirs = view.planting.plot, other.planting.plot
    if mine.kind != "stretch" or theirs.kind != "stretch" or not _movable(view):
        return
    before, after = (mine.start, min(mine.end, theirs.start)), (max(mine.start, theirs.end), mine.end)
    start, end = max((before, after), key=lambda span: span[1] - span[0])
    if end - start < (mine.end - mine.start) / 2 or end - start >= mine.end - mine.start:
        return
    plot = Stretch(start=start, end=end)
    units = plan.garden.site.units
    yield Fix(
        f"Shorten {view.crop_name} to {show_length(end - start, units)}",
        _plants(plan, view, view.planting.with_(plot=plot)),
        changed(view.planting, plot=plot),
    )


def swapped(plan: Plan, view: PlantingView, gain: str) -> Iterator[Fix]:
    """Let a planting change places with another of the year: of the same size first, then of nearly its size."""
    if not _movable(view):
        return
    found: list[tuple[bool, float, str, PlantingView]] = []
    for planting in plan.plantings:
        if planting.year != plan.year or planting.id == view.id or planting.pinned:
            continue
        other = planting_view(plan, planting)
        if (
            not _movable(other)
            or other.stays_for_years
            or other.bed.id == view.bed.id
            or _sort_of(other.bed) != _sort_of(view.bed)
            or not LEAST_OF_SIZE <= other.placed.area / max(view.placed.area, 1e-9) <= 1 / LEAST_OF_SIZE
        ):
            continue
        unlike = not _alike(one=view, other=other)
        if unlike and (view.planting.support is not None or planting.support is not None):
            continue
        found.append((unlike, view.plot.distance(other.plot), planting.id, other))
    for unlike, _, _, other in sorted(found, key=lambda item: item[:3])[:MOST_TRIED]:
        text = gain
        if unlike:
            mine = view.planting.with_(bed=other.planting.bed, plot=other.planting.plot)
            theirs = other.planting.with_(bed=view.planting.bed, plot=view.planting.plot)
            text = join_gains(join_gains(gain, _plants(plan, view, mine)), _plants(plan, other, theirs))
        yield Fix(
            f"Let {view.crop_name} change places with {other.name}",
            text,
            partial(_swap, one=view.planting.id, other=other.id),
        )


def beds_swapped(plan: Plan, view: PlantingView, gain: str) -> Iterator[Fix]:
    """Let its bed change all it carries this year with another of its size: the nearest first."""
    bed = view.bed
    mine = _moving(plan, bed)
    if not mine or view.id not in mine or _drawn(plan, mine):
        return
    size = _size(bed, bed_polygon(bed))
    near: list[tuple[float, str, Bed, tuple[str, ...]]] = []
    for other in plan.beds:
        theirs = _moving(plan, other)
        if other.id == bed.id or _sort_of(other) != _sort_of(bed) or not theirs or _drawn(plan, theirs):
            continue
        if other.outline.shape == bed.outline.shape and all(
            abs(a - b) < 0.02 for a, b in zip(size, _size(other, bed_polygon(other)), strict=True)
        ):
            near.append((_outline(bed).distance(_outline(other)), other.id, other, theirs))
    for _, _, other, theirs in sorted(near, key=lambda item: item[:2])[: MOST_TRIED // 2]:
        yield Fix(
            f"Let {bed.name} and {other.name} change all they carry this year",
            gain,
            partial(_swap_beds, mine=mine, to=other.id, theirs=theirs, back=bed.id),
        )


def _moving(plan: Plan, bed: Bed) -> tuple[str, ...]:
    """Plantings of a bed that begin this year and are not left for years."""
    return tuple(
        planting.id
        for planting in plan.in_bed(bed)
        if planting.year == plan.year
        and not planting.pinned
        and not planting_view(plan, planting).stays_for_years
    )


def _drawn(plan: Plan, keys: tuple[str, ...]) -> bool:
    """Whether some of them climb something drawn in their bed, which does not move along."""
    plantings = (plan.garden.plantings_by_id[key] for key in keys)
    return any(p.support is not None and p.support.line for p in plantings)


def _swap_beds(garden: Garden, mine: tuple[str, ...], to: str, theirs: tuple[str, ...], back: str) -> Garden:
    for keys, bed in ((mine, to), (theirs, back)):
        for key in keys:
            garden = e.change_planting(garden, key, bed=bed)
    return garden


def _movable(view: PlantingView) -> bool:
    """Whether another plot can be given to it without drawing it anew."""
    planting = view.planting
    drawn = planting.support is not None and planting.support.line
    return planting.plot.kind in ("whole", "stretch") and planting.arrangement.kind != "places" and not drawn


def _outline(bed: Bed) -> shapely.Polygon:
    return plan_polygon(bed.outline)


def _sort_of(bed: Bed) -> str:
    """Beds of one sort take each other's plantings: whether raised or not is all the same."""
    return "open" if bed.kind == "raised" else bed.kind


def _size(bed: Bed, plot: shapely.Geometry) -> tuple[float, float]:
    """Length and width of a plot along and across its bed. [m]"""
    left, low, right, high = shapely.bounds(turned(plot, -bed_axis(bed.outline)))
    return float(right - left), float(high - low)


def _alike(one: PlantingView, other: PlantingView) -> bool:
    sizes = [_size(view.bed, view.placed.plot) for view in (one, other)]
    return all(abs(a - b) < 0.02 for a, b in zip(*sizes, strict=True))


def _plants(plan: Plan, view: PlantingView, there: Planting) -> str:
    """How many plants a planting has in another plot, where that is another number."""
    before, after = view.placed.plants, plan.trial(there).plants
    return f"{after} {view.crop_name} instead of {before}" if after != before else ""


def join_gains(one: str, other: str) -> str:
    """What two things gain, of which either may be empty.

    Parameters
    ----------
    one, other : str
    """
    return say("{gain}, {more}", gain=one, more=other) if one and other else one or other


def _swap(garden: Garden, one: str, other: str) -> Garden:
    first, second = garden.plantings_by_id[one], garden.plantings_by_id[other]
    there = e.change_planting(garden, one, bed=second.bed, plot=second.plot)
    return e.change_planting(there, other, bed=first.bed, plot=first.plot)
