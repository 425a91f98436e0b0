"""Crowding within a planting: plants nearer than the published spacings of their crop begin."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.published import (
    BELOW_RANGE,
    Closest,
    at_bed_spacing,
    bed_spacing,
    closest_published,
    closest_rows,
    drilled,
    large,
    least_row_spacing,
)
from planner.garden import edits as e
from planner.garden.arrangements import Rows, StaggeredRows
from planner.garden.units import show_spacing, show_spacings
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import capital, later, percent, say, say_count

CHECK = "crowding"
#: Share of the published spacing below which a drilled crop suffers, rather than stays small (practice).
HALF = 0.5
#: Least share of the ground of the closest published spacings: beds are planted closer than fields, but not more than
#: twice as close (practice).
LEAST_GROUND = 0.45

_RULE = later("Plants stand no nearer than the published spacings of their crop begin")


class SpacingInputs(NamedTuple):
    """A planting."""

    view: PlantingView


@fact("crowding within planting")
def judge_spacing(inputs: SpacingInputs) -> Finding | None:
    """The finding about the distances within one planting; None if all plants have room."""
    view = inputs.view
    closest = closest_published(view)
    if closest is None or view.placed.layout.count < 2 or view.manure:
        return None
    apart = _least_apart(view)
    if apart is None:
        return None
    if apart >= closest.spacing * (1 - closest.below) - 1e-9:
        return _judge_row_spacing(view, closest.spacing)
    least = closest.spacing
    return planting_finding(
        CHECK,
        "note" if drilled(view) and apart >= least * HALF else "mind",
        (view,),
        capital(_spacing_words(view, apart, closest)),
        say(_RULE),
        closest.source or "practice",
        [view.placed.plants, round(apart, 3), round(least, 3)],
        topic="within",
        candidates=lambda plan: _space_wider(plan, view.id, least),
    )


def _least_apart(view: PlantingView) -> float | None:
    """Least distance between two plants of a planting; None for broadcast seed, or without a spacing. [m]"""
    layout, arrangement = view.placed.layout, view.planting.arrangement
    if arrangement.kind == "scatter":
        return None
    if arrangement.kind == "places":
        points = shapely.points(layout.points)
        _, distances = shapely.STRtree(points).query_nearest(points, exclusive=True, return_distance=True)
        return float(distances.min())
    in_row, between = layout.in_row_spacing, layout.row_spacing
    if in_row is None or between is None or layout.row_count < 2:
        return in_row
    if arrangement.kind == "staggered":
        return min(in_row, math.hypot(in_row / 2, between))
    # rows nearer than the plants in them: as far apart as on a square lattice of their density
    return math.sqrt(in_row * between) if between < in_row else in_row


def _spacing_words(view: PlantingView, apart: float, closest: Closest) -> str:
    """The sentence about plants that are so far apart. [m]"""
    distance, least = show_spacing(apart, view.units), show_spacing(closest.spacing, view.units)
    if closest.source:
        return say(
            "{planting} stands {distance} apart; its published spacing begins at {least}",
            planting=view.name,
            distance=distance,
            least=least,
        )
    return say(
        "{planting} stands {distance} apart; its own variety's spacing is {least}",
        planting=view.name,
        distance=distance,
        least=least,
    )


def _judge_row_spacing(view: PlantingView, least: float) -> Finding | None:
    """The finding about large plants whose rows leave each a small part of the ground published for it.

    Parameters
    ----------
    view : PlantingView
    least : float
        The closest published spacing in the row. [m]
    """
    layout = view.placed.layout
    mine, rows, between = layout.in_row_spacing, layout.row_spacing, closest_rows(view)
    if not large(view):
        return None
    if mine is None or rows is None or between is None or layout.row_count < 2:
        return None
    share = mine * rows / (least * between)
    if share >= LEAST_GROUND:
        return None
    text = say(
        "{planting} stands {spacings} apart, which gives each plant {share} of the ground of its closest published "
        "spacings ({closest})",
        planting=view.name,
        spacings=show_spacings(mine, rows, view.units),
        share=percent(share),
        closest=show_spacings(least, between, view.units),
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE),
        view.source("bed_spacing" if view.for_beds else "row_spacing"),
        [round(mine, 3), round(rows, 3), round(share, 2)],
        topic="rows",
        candidates=lambda plan: _space_rows_wider(plan, view.id),
    )


# -- fixes ----------------------------------------------------------------------------------------


def _space_rows_wider(plan: Plan, key: str) -> Iterator[Fix]:
    """Set the rows of a planting at the closest published row spacing, or the planting at the spacing for beds."""
    planting = plan.garden.plantings_by_id[key]
    view, arrangement = planting_view(plan, planting), planting.arrangement
    in_row = view.placed.layout.in_row_spacing
    wide = least_row_spacing(view, in_row) if in_row is not None else None
    if arrangement.kind not in ("rows", "staggered") or wide is None:
        return
    new = arrangement.with_(row_spacing=wide, rows=None)
    closest = closest_published(view)
    if closest is not None and in_row is not None and in_row < closest.spacing:
        new = new.with_(in_row_spacing=round(closest.spacing, 4))
    text = say("Set its rows {distance} apart", distance=show_spacing(wide, view.units))
    yield from _with_spacing(plan, view, new, text)
    yield from _at_bed_spacing(plan, view)


def _at_bed_spacing(plan: Plan, view: PlantingView) -> Iterator[Fix]:
    """Set a planting in field rows at the spacing for beds, where its bed is planted by that."""
    new = at_bed_spacing(view)
    if new is not None:
        apart = show_spacing(bed_spacing(view), view.units)
        text = say("Set it at the spacing for beds, {distance} apart", distance=apart)
        yield from _with_spacing(plan, view, new, text)


def _with_spacing(plan: Plan, view: PlantingView, new: Rows | StaggeredRows, text: str) -> Iterator[Fix]:
    """Change the spacing, if plants fit at the new one."""
    count = plan.trial(view.planting.with_(arrangement=new)).plants
    if count:
        gain = say_count(
            "{count} plants instead of {before}, each with its room",
            "{count} plants instead of {before}, each with its room",
            count,
            before=view.placed.plants,
        )
        yield Fix(text, gain, fixes.changed(view.planting, arrangement=new))


def _space_wider(plan: Plan, key: str, least: float) -> Iterator[Fix]:
    """Set a planting at the closest published spacing [m], or leave out some of its places."""
    planting = plan.garden.plantings_by_id[key]
    view = planting_view(plan, planting)
    arrangement = planting.arrangement
    if arrangement.kind in ("rows", "staggered"):
        new = arrangement.with_(in_row_spacing=round(least, 4))
        layout, rows = plan.trial(planting.with_(arrangement=new)).layout, least_row_spacing(view, least)
        between = layout.row_spacing if layout.row_count > 1 else None
        if between is not None and rows is not None and between < rows - 1e-6:
            new = new.with_(row_spacing=rows, rows=None)
        text = say("Set it {distance} apart", distance=show_spacing(least, view.units))
        yield from _with_spacing(plan, view, new, text)
        yield from _at_bed_spacing(plan, view)
    elif arrangement.kind == "places":
        yield from _leave_out_places(key, np.asarray(arrangement.points), least * (1 - BELOW_RANGE))


def _leave_out_places(key: str, points: NDArray[np.float64], apart: float) -> Iterator[Fix]:
    """Leave out given places that are nearer than a distance [m] to one before them."""
    geometries = shapely.points(points)
    pairs = shapely.STRtree(geometries).query(geometries, predicate="dwithin", distance=apart)
    late, early = pairs[:, pairs[0] > pairs[1]]
    nearer = np.hypot(*(points[late] - points[early]).T) < apart
    before: dict[int, list[int]] = {}
    for i, j in zip(late[nearer].tolist(), early[nearer].tolist(), strict=True):
        before.setdefault(i, []).append(j)
    gone = set[int]()
    for i in sorted(before):
        if not gone.issuperset(before[i]):
            gone.add(i)
    if gone:
        yield Fix(
            say_count("Leave out {count} plant", "Leave out {count} plants", len(gone)),
            say_count(
                "{count} are left, each with its room",
                "{count} are left, each with its room",
                len(points) - len(gone),
            ),
            lambda garden: e.remove_places(garden, key, gone),
        )
