"""Crowding within a planting: nearer than the published spacings of its crop begin."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import shapely

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import many
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import edits as e
from planner.garden.arrangements import Rows, StaggeredRows
from planner.garden.units import show_spacing, show_spacings
from planner.plan import Plan
from planner.words import capital

CHECK = "crowding"
#: Within a planting: so much below the range that is published, or below a single figure without one.
BELOW_RANGE, BELOW_FIGURE = 0.10, 0.40
#: What is drilled close grows small rather than ill: so much below it is told, and minded from half on (practice).
BELOW_DRILLED, HALF = 0.25, 0.5
#: Plants that spread at least so wide [m] need this share of the ground that their published spacings
#: give them at the closest: beds are planted closer than fields, but not more than twice as close (practice).
LARGE, LEAST_GROUND = 0.4, 0.45
#: Forms that are sown close and thinned, to as near as any publication has them.
_DRILLED = ("root", "rosette", "fern")

_RULE = "Plants stand no nearer than the published spacings of their crop begin"


def _drilled(view: PlantingView) -> bool:
    """Whether it is sown close in a drill and thinned."""
    return view.dates.start == "sown" and view.crop is not None and view.crop.growth_form in _DRILLED


def _closest(view: PlantingView) -> tuple[float, str, float] | None:
    """The spacing at which published ones begin, its source, and how far below it is too close.

    Sources differ by what they grow (leaf lettuce, flowers for cutting): one in three of them may be
    closer than what counts, which is never above the catalogue's own range.  What is drilled and
    thinned may stand as close as any of them has it.  A variety's own spacing, or a single figure, is
    no range.
    """
    figure = view.figure("in_row_spacing")
    if figure is None:
        own = view.number("in_row_spacing")
        return (own, "", BELOW_FIGURE) if own is not None else None
    found = [(figure.low if figure.low is not None else figure.value, figure.source or "practice")]
    found += [(one.low if one.low is not None else one.value, one.source) for one in figure.other]
    known = sorted((value, source) for value, source in found if value is not None)
    if not known:
        return None
    ranged = figure.low is not None or any(one.low is not None for one in figure.other)
    drilled = _drilled(view)
    least = (
        known[0] if drilled else min(known[(len(known) - 1) // 3], next(one for one in found if one in known))
    )
    below = BELOW_FIGURE if not ranged else BELOW_DRILLED if drilled else BELOW_RANGE
    return (*least, below)


def too_near(view: PlantingView) -> Finding | None:
    """What is to be said of the distances within one planting; None where all is well."""
    layout, arrangement = view.placed.layout, view.planting.arrangement
    closest = _closest(view)
    if closest is None or layout.count < 2 or arrangement.kind == "scatter" or view.manure:
        return None
    least, source, below = closest
    if arrangement.kind == "places":
        tree = shapely.STRtree(shapely.points(layout.points))
        pairs = tree.query_nearest(shapely.points(layout.points), exclusive=True, return_distance=True)
        apart = float(pairs[1].min())
    else:
        in_row, between = layout.in_row_spacing, layout.row_spacing
        if in_row is None:
            return None
        apart = in_row
        if arrangement.kind == "staggered" and between is not None and layout.row_count > 1:
            apart = min(in_row, math.hypot(in_row / 2, between))
        elif layout.row_count > 1 and between is not None and between < in_row:
            apart = math.sqrt(in_row * between)  # as far apart as on a square lattice of its density
    if apart >= least * (1 - below) - 1e-9:
        return _rows_too_near(view, least)
    units = view.units
    said = "its published spacing begins at" if source else "its own variety's spacing is"
    text = f"{view.name} stands {show_spacing(apart, units)} apart; {said} {show_spacing(least, units)}"
    return planting_finding(
        CHECK,
        "note" if _drilled(view) and apart >= least * HALF else "mind",
        (view,),
        capital(text),
        _RULE,
        source or "practice",
        [view.placed.plants, round(apart, 3), round(least, 3)],
        topic="within",
        candidates=lambda plan: _wider(plan, view.id, least),
    )


def _rows_too_near(view: PlantingView, least: float) -> Finding | None:
    """Large plants whose rows are so near that each has a small part of the ground published for it."""
    layout = view.placed.layout
    mine, rows, between = layout.in_row_spacing, layout.row_spacing, _least_rows(view)
    if not _large(view):
        return None
    if mine is None or rows is None or between is None or layout.row_count < 2:
        return None
    share = mine * rows / (least * between)
    if share >= LEAST_GROUND:
        return None
    units = view.units
    text = (
        f"{view.name} stands {show_spacings(mine, rows, units)} apart, which gives each plant {100 * share:.0f} % of "
        f"the ground of its closest published spacings ({show_spacings(least, between, units)})"
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        _RULE,
        view.source("row_spacing"),
        [round(mine, 3), round(rows, 3), round(share, 2)],
        topic="rows",
        candidates=lambda plan: _wider_rows(plan, view.id, _rows_for(view, least, mine)),
    )


def _large(view: PlantingView) -> bool:
    """Whether the ground of one plant counts, not its distance in the row alone."""
    return (view.number("spread") or 0.0) >= LARGE and not _drilled(view)


def _least_rows(view: PlantingView) -> float | None:
    """The least distance of its rows that a source gives. [m]"""
    figure = view.figure("row_spacing")
    return figure.least if figure is not None else view.number("row_spacing")


def _rows_for(view: PlantingView, least: float, mine: float) -> float:
    """Distance of rows at which a plant every so often in the row has its least ground. [m]"""
    return math.ceil(100 * LEAST_GROUND * least * (_least_rows(view) or 0.0) / mine - 1e-6) / 100


def _wider_rows(plan: Plan, key: str, wide: float) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    view, arrangement = planting_view(plan, planting), planting.arrangement
    if arrangement.kind not in ("rows", "staggered"):
        return
    new = arrangement.with_(row_spacing=wide, rows=None)
    yield from _spaced(plan, view, new, f"Set its rows {show_spacing(wide, view.units)} apart")


def _spaced(plan: Plan, view: PlantingView, new: Rows | StaggeredRows, text: str) -> Iterator[Fix]:
    """Another spacing, where plants fit at it."""
    count = plan.trial(view.planting.with_(arrangement=new)).plants
    if count:
        gain = f"{count} plants instead of {view.placed.plants}, each with its room"
        yield Fix(text, gain, fixes.changed(view.planting, arrangement=new))


def _wider(plan: Plan, key: str, least: float) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    view = planting_view(plan, planting)
    arrangement = planting.arrangement
    if arrangement.kind in ("rows", "staggered"):
        row = arrangement.row_spacing
        wide: dict[str, object] = {"in_row_spacing": round(least, 4)}
        wide_enough = max(least, _rows_for(view, least, least)) if _large(view) else least
        if row is not None and row < wide_enough:
            wide["row_spacing"] = round(wide_enough, 4)
        new = arrangement.with_(**wide)
        yield from _spaced(plan, view, new, f"Set it {show_spacing(least, view.units)} apart")
    elif arrangement.kind == "places":
        kept: list[int] = []
        points = np.asarray(arrangement.points)
        for i, point in enumerate(points):
            if all(np.hypot(*(point - points[j])) >= least * (1 - BELOW_RANGE) for j in kept):
                kept.append(i)
        gone = set(range(len(points))) - set(kept)
        if gone:
            yield Fix(
                f"Leave out {many(len(gone), 'station')}",
                f"{len(kept)} are left, each with its room",
                lambda garden: e.remove_places(garden, key, gone),
            )
