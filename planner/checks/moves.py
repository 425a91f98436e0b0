"""Edits that checks offer: another plot, another day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from functools import partial

import shapely

from planner.checks.finding import Mend
from planner.checks.stands import Stand, day_words, stand_of
from planner.garden import Garden, Planting, Stretch
from planner.garden import edits as e
from planner.ground.free import pieces, plot_of
from planner.ground.shapes import bed_axis, bed_polygon, extent_along_axis, plan_polygon, turned
from planner.plan import Plan
from planner.season.climate import shift

#: So many other plots are tried.
MOST_TRIED = 8


def changed(planting: Planting, **fields: object) -> Callable[[Garden], Garden]:
    """The edit that changes fields of a planting."""
    return partial(_change, key=planting.id, fields=fields)


def _change(garden: Garden, key: str, fields: dict[str, object]) -> Garden:
    return e.change_planting(garden, key, **fields)


def start_on(stand: Stand, day: dt.date, gain: str) -> Mend:
    """Start a planting on a day: the day it takes its plot; later days follow."""
    pins = stand.planting.pinned_dates
    kept = {name: getattr(pins, name) for name in type(pins).model_fields}
    moved = (day - stand.span.first).days
    for name in ("sow", "prick_out", "harden_off", "set_out", "thin", "support_up"):
        if kept[name] is not None:
            kept[name] = shift(kept[name], moved)
    verb = "Sow" if stand.dates.start == "sown" else "Plant" if stand.dates.start != "raised" else "Set out"
    fields: dict[str, object] = {"first": day, "pinned_dates": kept}
    return Mend(
        f"{verb} {stand.crop_name} on {day_words(day, stand.year)}", gain, changed(stand.planting, **fields)
    )


def clear_on(stand: Stand, day: dt.date, gain: str) -> Mend:
    """Clear a planting on a day."""
    return Mend(
        f"Clear {stand.crop_name} on {day_words(day, stand.year)}", gain, changed(stand.planting, last=day)
    )


def share_ground(stand: Stand, gain: str) -> Mend:
    """Say that a planting is meant to stand between others."""
    return Mend(f"Let {stand.crop_name} share the ground", gain, changed(stand.planting, shares_ground=True))


def remove(stand: Stand, gain: str) -> Mend:
    """Take a planting out of the plan."""
    return Mend(f"Leave out {stand.crop_name}", gain, partial(_remove, key=stand.id))


def _remove(garden: Garden, key: str) -> Garden:
    return e.remove(garden, [key])


def elsewhere(plan: Plan, stand: Stand, gain: str) -> Iterator[Mend]:
    """Move a planting to free ground of its own size, the nearest bed first."""
    if stand.planting.plot.kind not in ("whole", "stretch") or stand.planting.arrangement.kind == "places":
        return
    own = bed_polygon(stand.bed)
    left, low, right, high = shapely.bounds(turned(stand.placed.plot, -bed_axis(stand.bed.outline)))
    length, width = float(right - left), float(high - low)
    here = shapely.centroid(shapely.Polygon(own)) if stand.plot.is_empty else shapely.centroid(stand.plot)
    beds = sorted(plan.beds, key=lambda bed: (plan_polygon(bed.outline).distance(here), bed.id))
    tried = 0
    for bed in beds:
        level = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
        if bed.kind != stand.bed.kind or abs(level[3] - level[1] - width) > 0.1:
            continue
        begin = extent_along_axis(bed.outline)[0]
        for piece in pieces(plan.free_in(bed, stand.span, (stand.id,))):
            if plot_of(bed, piece).kind == "region":
                continue
            bounds = shapely.bounds(turned(piece, -bed_axis(bed.outline)))
            start = round(float(bounds[0]) - begin, 6)
            if bounds[2] - bounds[0] < length - 1e-6 or (bed.id == stand.bed.id and tried > 2):
                continue
            plot = Stretch(start=max(start, 0.0), end=round(start + length, 6))
            tried += 1
            yield Mend(f"Move it to {bed.name}", gain, changed(stand.planting, bed=bed.id, plot=plot))
            if tried >= MOST_TRIED:
                return


def swapped(plan: Plan, stand: Stand, gain: str) -> Iterator[Mend]:
    """Let a planting change places with another of the year that takes a plot of the same size."""
    plots = ("whole", "stretch")
    if stand.planting.plot.kind not in plots or stand.planting.arrangement.kind == "places":
        return
    found: list[tuple[float, str, Stand]] = []
    for planting in plan.plantings:
        fits = planting.plot.kind in plots and planting.arrangement.kind != "places"
        if planting.year != plan.year or planting.id == stand.id or planting.pinned or not fits:
            continue
        other = stand_of(plan, planting)
        if _alike(stand, other):
            found.append((stand.plot.distance(other.plot), planting.id, other))
    for _, _, other in sorted(found, key=lambda item: item[:2])[:MOST_TRIED]:
        yield Mend(
            f"Change places with {other.name}", gain, partial(_swap, one=stand.planting.id, other=other.id)
        )


def _alike(one: Stand, other: Stand) -> bool:
    sizes = [
        shapely.bounds(turned(stand.placed.plot, -bed_axis(stand.bed.outline))) for stand in (one, other)
    ]
    spans = [(box[2] - box[0], box[3] - box[1]) for box in sizes]
    same = all(abs(a - b) < 0.02 for a, b in zip(*spans, strict=True))
    return one.bed.kind == other.bed.kind and one.bed.id != other.bed.id and same


def _swap(garden: Garden, one: str, other: str) -> Garden:
    first, second = garden.plantings_by_id[one], garden.plantings_by_id[other]
    there = e.change_planting(garden, one, bed=second.bed, plot=second.plot)
    return e.change_planting(there, other, bed=first.bed, plot=first.plot)
