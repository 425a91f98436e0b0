"""Crowding of two rows in the middle of narrow plots: each takes ground beside its plot.

A row by itself fits in a plot narrower than its row spacing, because its plants may hang over the sides, as over a path.
Where two such rows lie side by side, both take the same ground.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.checks.crowding_needs import STEP
from planner.checks.frame import fixes, moves
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden.units import show_spacing
from planner.ground.shapes import turned
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.spans import Span
from planner.words import capital, later, say

CHECK = "crowding"
#: Share of their row spacing that two such rows may lack (practice).
BELOW_ROWS = 0.10
#: Greatest angle between two rows that lie side by side. [degrees]
PARALLEL = 10.0

_RULE = later(
    "A row that hangs over the sides of its plot has beside it, to the next such row, its row spacing or the spread of its "
    "plants, whichever is less"
)


class LoneRow(NamedTuple):
    """A row by itself that hangs over the sides of its plot.

    Attributes
    ----------
    direction : float
        On the plan. [degrees anticlockwise from its x]
    in_row_spacing, row_spacing : float
        [m]
    """

    direction: float
    in_row_spacing: float
    row_spacing: float


def hanging_row(view: PlantingView) -> LoneRow | None:
    """The row of a planting in a plot that is narrower than its row spacing and its full-grown plants, if it is so."""
    layout, between = view.placed.layout, view.number("row_spacing")
    if layout.row_count != 1 or layout.in_row_spacing is None or between is None:
        return None
    _, low, _, high = shapely.bounds(turned(view.placed.plot, -layout.direction))
    if high - low >= min(between, view.number("spread") or 0.0):
        return None
    return LoneRow(view.bed.outline.turn + layout.direction, layout.in_row_spacing, between)


class LoneRowsInputs(NamedTuple):
    """Two plantings near each other, and the first and last day they share."""

    one: PlantingView
    other: PlantingView
    first: dt.date
    last: dt.date


@fact("crowding of lone rows")
def judge_lone_rows(inputs: LoneRowsInputs) -> Finding | None:
    """The finding about two rows that hang over the same ground; None if they have room, or are no such rows."""
    one, other, days = inputs.one, inputs.other, Span(inputs.first, inputs.last)
    mine, theirs = hanging_row(one), hanging_row(other)
    if mine is None or theirs is None:
        return None
    if abs((mine.direction - theirs.direction + 90) % 180 - 90) > PARALLEL:
        return None
    needs = [
        (when, (_width(one, mine, when) + _width(other, theirs, when)) / 2) for when in _days_within(days)
    ]
    full_grown, wanted = max(needs, key=lambda need: need[1])
    if wanted <= 0:
        return None
    along = (mine.in_row_spacing + theirs.in_row_spacing) / 2
    pairs = _side_by_side(one.points, other.points, mine.direction, along, wanted * (1 - BELOW_ROWS))
    if pairs is None:
        return None
    spots, nearest = pairs
    first = next(when for when, need in needs if need * (1 - BELOW_ROWS) > nearest)
    text = say(
        "{planting} and {other} hang over the ground between them: their rows are {distance} apart and need {wanted} by {day}",
        planting=one.name,
        other=other.name,
        distance=show_spacing(nearest, one.units),
        wanted=show_spacing(wanted, one.units),
        day=one.day(full_grown),
    )
    return planting_finding(
        CHECK,
        "note",
        (one, other),
        capital(text),
        say(_RULE),
        one.source("row_spacing"),
        [round(nearest, 2), round(wanted, 2)],
        Span(first, days.last),
        shapely.multipoints(one.points[spots]).buffer(max(nearest / 2, 0.05), quad_segs=4),
        "hanging",
        lambda plan: _apart(plan, one.id, other.id),
    )


def _width(view: PlantingView, row: LoneRow, day: dt.date) -> float:
    """Width of ground that a row takes on a day. [m]"""
    return min(view.size(day).spread, row.row_spacing)


def _days_within(days: Span) -> list[dt.date]:
    """Every :data:`STEP` days of a span, and its last."""
    found = [days.first + dt.timedelta(days=n) for n in range(0, days.days, STEP)]
    return found if found[-1] == days.last else [*found, days.last]


def _side_by_side(
    mine: NDArray[np.float64], theirs: NDArray[np.float64], direction: float, along: float, across: float
) -> tuple[NDArray[np.intp], float] | None:
    """Plants of one row beside which plants of another stand nearer than a distance.

    Parameters
    ----------
    mine, theirs : ndarray (n, 2)
        On the plan. [m]
    direction : float
        Of the rows. [degrees anticlockwise from the plan's x]
    along, across : float
        Half-axes of the ellipse about a plant in which another is too near. [m]

    Returns
    -------
    tuple of (ndarray of int, float) or None
        Indices into ``mine``, and the least distance across the rows [m]; None if there are none.
    """
    scale = np.array([along, across])
    one, other = (
        shapely.get_coordinates(turned(shapely.multipoints(points), -direction)) / scale
        for points in (mine, theirs)
    )
    tree = shapely.STRtree(shapely.points(other))
    left, right = tree.query(shapely.points(one), predicate="dwithin", distance=1 - 1e-6)
    if not len(left):
        return None
    return np.unique(left), float(np.abs(one[left, 1] - other[right, 1]).min()) * across


def _apart(plan: Plan, key: str, other_key: str) -> Iterator[Fix]:
    """Move one of two plantings to other ground, or leave it out."""
    one, other = (planting_view(plan, plan.garden.plantings_by_id[each]) for each in (key, other_key))
    for view in (one, other):
        yield from moves.elsewhere(plan, view, say("ground of its own"))
    for view, rest in ((one, other), (other, one)):
        if not view.stays_for_years:
            yield fixes.remove(view, say("room for {crop}", crop=rest.crop_name))
