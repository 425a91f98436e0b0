"""Fixes that move a planting to free ground, in its bed or another."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import shapely

from planner.checks.frame.finding import Fix
from planner.checks.frame.fixes import changed, join_gains, remove
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.sizes import (
    LEAST_OF_SIZE,
    MOST_TRIED,
    as_wide,
    movable,
    outline_of,
    plants_words,
    size_in_bed,
    sort_of,
    support_fits,
    wished_size,
)
from planner.garden import Bed, Stretch
from planner.garden.units import show_length
from planner.ground.free import pieces, plot_of
from planner.ground.shapes import bed_axis, bed_polygon, extent_along_axis, turned
from planner.plan import Plan
from planner.words import later, say

#: Most other plots that are tried in one bed.
MOST_IN_BED = 3

_SORTS = {
    "open": later("in the open"),
    "under glass": later("under glass"),
    "container": later("in a container"),
}


def elsewhere(plan: Plan, view: PlantingView, gain: str, sort: str = "") -> Iterator[Fix]:
    """Move a planting to free ground of its size, in the nearest bed first.

    In a bed of another width its stretch is longer or shorter, so that the area stays.  If only a
    shorter piece is free it loses plants, and the gain says how many.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    gain : str
    sort : str
        Kind of bed: that of its own by default.
    """
    if not movable(view):
        return
    sort = sort or sort_of(view.bed)
    here = shapely.centroid(outline_of(view.bed) if view.plot.is_empty else view.plot)
    found: list[tuple[bool, int, Fix]] = []
    for bed in sorted(plan.beds, key=lambda bed: (outline_of(bed).distance(here), bed.id)):
        if sort_of(bed) != sort:
            continue
        for number, stretch in enumerate(_free_stretches(plan, view, bed)):
            found.append((stretch.short, len(found), _move_fix(plan, view, bed, stretch, gain, number == 0)))
        if sum(not shorter for shorter, *_ in found) >= MOST_TRIED:
            break
    for *_, fix in sorted(found, key=lambda item: item[:2])[:MOST_TRIED]:
        yield fix


def in_other_beds(plan: Plan, view: PlantingView) -> Iterator[tuple[Bed, Fix | None]]:
    """Each other bed in use, and the fix that moves a planting to its best free stretch; None where it has no room.

    Beds of the planting's own sort come first, the nearest before the others; of another sort the gain says which.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    """
    if not movable(view):
        return
    mine = sort_of(view.bed)
    here = shapely.centroid(outline_of(view.bed) if view.plot.is_empty else view.plot)
    for bed in sorted(
        plan.beds, key=lambda bed: (sort_of(bed) != mine, outline_of(bed).distance(here), bed.id)
    ):
        if bed.id == view.bed.id:
            continue
        stretches = sorted(_free_stretches(plan, view, bed), key=lambda stretch: stretch.short)
        gain = "" if sort_of(bed) == mine else say(_SORTS[sort_of(bed)])
        yield bed, _move_fix(plan, view, bed, stretches[0], gain, True) if stretches else None


def elsewhere_or_left_out(plan: Plan, key: str, gain: str) -> Iterator[Fix]:
    """Move a planting to another bed, or remove it.

    Parameters
    ----------
    plan : Plan
    key : str
        Id of the planting.
    gain : str
        What removing it is good for.
    """
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for _, fix in in_other_beds(plan, view):
        if fix is not None:
            yield fix
    yield remove(view, gain)


class _FreeStretch(NamedTuple):
    """A free stretch of a bed that a planting may be moved to.

    Attributes
    ----------
    plot : Stretch
    short : bool
        Whether it is smaller than the planting's own plot.
    same : bool
        Whether it is as long and as wide.
    """

    plot: Stretch
    short: bool
    same: bool


def _free_stretches(plan: Plan, view: PlantingView, bed: Bed) -> list[_FreeStretch]:
    """The first few free stretches of a bed that are large enough for a planting."""
    if not support_fits(view, bed):
        return []
    length, width = wished_size(view)
    bed_width = size_in_bed(bed, bed_polygon(bed))[1]
    alike = as_wide(view, bed)
    wanted = length if alike else length * width / bed_width
    begin = extent_along_axis(bed.outline)[0]
    found: list[_FreeStretch] = []
    for piece in pieces(plan.free_in(bed, view.span, (view.id,))):
        if plot_of(bed, piece).kind == "region" or len(found) >= MOST_IN_BED:
            continue
        left, _, right, _ = shapely.bounds(turned(piece, -bed_axis(bed.outline)))
        free = float(right - left)
        if free < LEAST_OF_SIZE * wanted:
            continue
        start = max(round(float(left) - begin, 6), 0.0)
        plot = Stretch(start=start, end=round(start + min(wanted, free), 6))
        short = free < wanted - 1e-6
        found.append(_FreeStretch(plot, short, alike and not short))
    return found


def _move_fix(plan: Plan, view: PlantingView, bed: Bed, stretch: _FreeStretch, gain: str, first: bool) -> Fix:
    """The fix that moves a planting to a free stretch.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    bed : Bed
    stretch : _FreeStretch
    gain : str
    first : bool
        Whether it is the first stretch of its bed.
    """
    start = show_length(stretch.plot.start, plan.garden.site.units)
    if bed.id == view.bed.id:
        text = say("Move {crop} along {bed}, from {start} on", crop=view.crop_name, bed=bed.name, start=start)
    elif first:
        text = say("Move {crop} to {bed}", crop=view.crop_name, bed=bed.name)
    else:
        text = say("Move {crop} to {bed}, from {start} on", crop=view.crop_name, bed=bed.name, start=start)
    if not stretch.same:
        there = view.planting.with_(bed=bed.id, plot=stretch.plot)
        gain = join_gains(gain, plants_words(plan, view, there))
    return Fix(text, gain, changed(view.planting, bed=bed.id, plot=stretch.plot))
