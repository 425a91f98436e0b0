"""Fixes that several checks offer: another day, another plot, another place for a whole bed."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import NamedTuple

import shapely

from planner.checks.frame.finding import Fix, OtherStart
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Bed, Garden, Planting, Plot, Stretch
from planner.garden import edits as e
from planner.garden.edits.shifts import started_on
from planner.garden.planting_figures import PlantingFigures
from planner.garden.units import show_length
from planner.ground.free import pieces, plot_of
from planner.ground.shapes import bed_axis, bed_polygon, extent_along_axis, plan_polygon, turned
from planner.plan import Plan
from planner.words import day_words, later, say

#: Most other plots that are tried.
MOST_TRIED = 8
#: Supports that stand at each plant, and so go with it into a bed of any width.
AT_EACH_PLANT = ("stake", "cage")
#: Most other plots that are tried in one bed.
MOST_IN_BED = 3
#: Least share of a planting's own size of another plot for it (practice).
LEAST_OF_SIZE = 0.75
#: Step in which a stretch is lengthened. [m]
LONGER = 0.1
#: Greatest difference of two bed widths that count as the same for a stretch. [m]
SAME_WIDTH = 0.1
#: Greatest difference of two sides that count as the same length. [m]
SAME_SIZE = 0.02

_SORTS = {
    "open": later("in the open"),
    "under glass": later("under glass"),
    "container": later("in a container"),
}

_START_ON = {
    "sown": later("Sow {crop} on {day}"),
    "raised": later("Set out {crop} on {day}"),
    "": later("Plant {crop} on {day}"),
}


def join_gains(one: str, other: str) -> str:
    """What is better after a fix, in two parts of which either may be empty.

    Parameters
    ----------
    one, other : str
    """
    return say("{gain}, {more}", gain=one, more=other) if one and other else one or other


# -- changes of one planting ----------------------------------------------------------------------


def changed(planting: Planting, **fields: object) -> Callable[[Garden], Garden]:
    """The edit that changes fields of a planting.

    Parameters
    ----------
    planting : Planting
    **fields
        New values by the names of the fields.
    """
    return partial(_change, key=planting.id, fields=fields)


def _change(garden: Garden, key: str, fields: dict[str, object]) -> Garden:
    return e.change_planting(garden, key, **fields)


def start_on(view: PlantingView, day: dt.date, gain: str) -> Fix:
    """Start a planting on another day; its pinned dates move along.

    Parameters
    ----------
    view : PlantingView
    day : date
        On which it takes its plot.
    gain : str
    """
    fields = started_on(view.planting, day, (day - view.span.first).days)
    start = view.dates.start if view.dates.start in _START_ON else ""
    text = say(_START_ON[start], crop=view.crop_name, day=day_words(day, view.year))
    together = say("Start {crop} on a better day in each", crop=_crop_name(view))
    return Fix(text, gain, changed(view.planting, **fields), together)


def other_start(view: PlantingView, days: Iterable[int], gain: Callable[[int], str]) -> OtherStart:
    """Start a planting on the first of some other days on which no check has a word against it.

    Parameters
    ----------
    view : PlantingView
    days : iterable of int
        In the order in which they are tried: later than it starts now, sooner where negative. [days]
    gain : callable
        What is better after so many days, in words.
    """
    return OtherStart(view.id, tuple(days), gain)


def clear_on(view: PlantingView, day: dt.date, gain: str) -> Fix:
    """Clear a planting on a day.

    Parameters
    ----------
    view : PlantingView
    day : date
    gain : str
    """
    text = say("Clear {crop} on {day}", crop=view.crop_name, day=day_words(day, view.year))
    together = say("Clear {crop} on a better day in each", crop=_crop_name(view))
    return Fix(text, gain, changed(view.planting, last=day), together)


def _crop_name(view: PlantingView) -> str:
    """The crop without its variety."""
    return view.crop.name if view.crop is not None else view.planting.crop


def share_ground(view: PlantingView, gain: str) -> Fix:
    """Mark a planting as meant to grow between others.

    Parameters
    ----------
    view : PlantingView
    gain : str
    """
    text = say("Let {crop} share the ground", crop=view.crop_name)
    return Fix(text, gain, changed(view.planting, shares_ground=True))


def remove(view: PlantingView, gain: str) -> Fix:
    """Remove a planting.

    Parameters
    ----------
    view : PlantingView
    gain : str
    """
    return Fix(say("Leave out {crop}", crop=view.crop_name), gain, partial(_remove, key=view.id))


def _remove(garden: Garden, key: str) -> Garden:
    return e.remove(garden, [key])


def shortened(plan: Plan, view: PlantingView, other: PlantingView) -> Iterator[Fix]:
    """End the stretch of a planting where another's begins, if at least half of it is left.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
        The planting that is shortened.
    other : PlantingView
    """
    mine, theirs = view.planting.plot, other.planting.plot
    if mine.kind != "stretch" or theirs.kind != "stretch" or not movable(view):
        return
    before, after = (mine.start, min(mine.end, theirs.start)), (max(mine.start, theirs.end), mine.end)
    start, end = max((before, after), key=lambda span: span[1] - span[0])
    if end - start < (mine.end - mine.start) / 2 or end - start >= mine.end - mine.start:
        return
    plot = Stretch(start=start, end=end)
    length = show_length(end - start, plan.garden.site.units)
    yield Fix(
        say("Shorten {crop} to {length}", crop=view.crop_name, length=length),
        _plants_words(plan, view, view.planting.with_(plot=plot)),
        changed(view.planting, plot=plot),
    )


def lengthened(plan: Plan, view: PlantingView) -> Iterator[Stretch]:
    """Longer stretches for a planting in one, over the free ground of its bed beside it, each a little longer.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    """
    plot, bed = view.planting.plot, view.bed
    if plot.kind != "stretch" or not movable(view):
        return
    begin = extent_along_axis(bed.outline)[0]
    for piece in pieces(plan.free_in(bed, view.span, (view.id,))):
        left, _, right, _ = shapely.bounds(turned(piece, -bed_axis(bed.outline)))
        first, last = max(float(left) - begin, 0.0), float(right) - begin
        across = plot_of(bed, piece).kind != "region"
        if not across or first > plot.start + SAME_SIZE or last < plot.end - SAME_SIZE:
            continue
        for number in range(1, math.ceil((plot.start - first + last - plot.end) / LONGER) + 1):
            end = min(plot.end + number * LONGER, last)
            start = max(plot.start - (plot.end + number * LONGER - end), first)
            yield Stretch(start=round(min(start, plot.start), 6), end=round(max(end, plot.end), 6))


# -- another plot ---------------------------------------------------------------------------------


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
    here = shapely.centroid(_outline(view.bed) if view.plot.is_empty else view.plot)
    found: list[tuple[bool, int, Fix]] = []
    for bed in sorted(plan.beds, key=lambda bed: (_outline(bed).distance(here), bed.id)):
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
    here = shapely.centroid(_outline(view.bed) if view.plot.is_empty else view.plot)
    for bed in sorted(
        plan.beds, key=lambda bed: (sort_of(bed) != mine, _outline(bed).distance(here), bed.id)
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
    length, width = _wished_size(view)
    bed_width = _size(bed, bed_polygon(bed))[1]
    alike = _as_wide(view, bed)
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
        gain = join_gains(gain, _plants_words(plan, view, there))
    return Fix(text, gain, changed(view.planting, bed=bed.id, plot=stretch.plot))


# -- changing places ------------------------------------------------------------------------------


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
        unlike = not _same_size(view, other)
        if unlike and not (_fits_any_width(view.planting) and _fits_any_width(planting)):
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
    return join_gains(_plants_words(plan, view, mine), _plants_words(plan, other, theirs))


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
    mine = _plants_words(plan, view, view.planting.with_(plot=new))
    return join_gains(mine, _plants_words(plan, other, other.planting.with_(plot=old)))


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
    size = _size(bed, bed_polygon(bed))
    near: list[tuple[float, str, Bed, tuple[str, ...]]] = []
    for other in plan.beds:
        theirs = _movable_in_bed(plan, other)
        if other.id == bed.id or sort_of(other) != sort_of(bed):
            continue
        if not theirs or _climbs_drawn_line(plan, theirs) or _carry_the_same(plan, mine, theirs):
            continue
        sides = zip(size, _size(other, bed_polygon(other)), strict=True)
        if other.outline.shape == bed.outline.shape and all(abs(a - b) < SAME_SIZE for a, b in sides):
            near.append((_outline(bed).distance(_outline(other)), other.id, other, theirs))
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


# -- sizes ----------------------------------------------------------------------------------------


def movable(view: PlantingView) -> bool:
    """Whether the planting can be moved without redrawing its plot or support."""
    planting = view.planting
    drawn = planting.support is not None and planting.support.line
    return planting.plot.kind in ("whole", "stretch") and planting.arrangement.kind != "places" and not drawn


def _outline(bed: Bed) -> shapely.Polygon:
    return plan_polygon(bed.outline)


def sort_of(bed: Bed) -> str:
    """Sort of a bed: plantings move only between beds of one sort; raised beds count as open ones."""
    return "open" if bed.kind == "raised" else bed.kind


def _wished_size(view: PlantingView) -> tuple[float, float]:
    """Length and width of a planting's plot, of one that lies outside its bed as it was wished. [m]"""
    if not view.placed.plot.is_empty:
        return _size(view.bed, view.placed.plot)
    length, width = _size(view.bed, bed_polygon(view.bed))
    plot = view.planting.plot
    return (min(plot.end - plot.start, length) if plot.kind == "stretch" else length), width


def support_fits(view: PlantingView, bed: Bed) -> bool:
    """Whether the support of a planting, if it has one, can stand in a bed of this width."""
    return _fits_any_width(view.planting) or _as_wide(view, bed)


def _as_wide(view: PlantingView, bed: Bed) -> bool:
    """Whether a bed is as wide as the plot of a planting."""
    return abs(_size(bed, bed_polygon(bed))[1] - _wished_size(view)[1]) <= SAME_WIDTH


def _fits_any_width(planting: Planting) -> bool:
    """Whether it has no support that is built for the width of its bed."""
    return planting.support is None or planting.support.kind in AT_EACH_PLANT


def _size(bed: Bed, plot: shapely.Geometry) -> tuple[float, float]:
    """Length and width of a plot along and across its bed. [m]"""
    left, low, right, high = shapely.bounds(turned(plot, -bed_axis(bed.outline)))
    return float(right - left), float(high - low)


def _same_size(one: PlantingView, other: PlantingView) -> bool:
    sizes = [_size(view.bed, view.placed.plot) for view in (one, other)]
    return all(abs(a - b) < SAME_SIZE for a, b in zip(*sizes, strict=True))


def _plants_words(plan: Plan, view: PlantingView, there: Planting) -> str:
    """How many plants a planting has in another plot, if that is another number."""
    before, after = view.placed.plants, plan.trial(there).plants
    if after == before:
        return ""
    return say("{plants} {crop} instead of {before}", plants=after, crop=view.crop_name, before=before)
