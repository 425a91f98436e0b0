"""Fixes that change one planting: another day, a shorter or longer plot, none at all."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterable, Iterator
from functools import partial

import shapely

from planner.checks.frame.finding import Fix, OtherStart
from planner.checks.frame.planting_view import PlantingView
from planner.checks.frame.sizes import SAME_SIZE, movable, plants_words
from planner.garden import Garden, Planting, Stretch
from planner.garden import edits as e
from planner.garden.edits.shifts import started_on
from planner.garden.units import show_length
from planner.ground.free import pieces, plot_of
from planner.ground.shapes import bed_axis, extent_along_axis, turned
from planner.plan import Plan
from planner.words import day_words, later, say

#: Step in which a stretch is lengthened. [m]
LONGER = 0.1

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
        plants_words(plan, view, view.planting.with_(plot=plot)),
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
