"""Neighbours of their own kind: crops whose fruit the wind must pollinate, in a single row."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.checks.frame.published import (
    at_bed_spacing,
    bed_spacing,
    closest_published,
    closest_rows,
    has_bed_spacing,
)
from planner.garden.arrangements import Rows, StaggeredRows
from planner.garden.units import show_spacing
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import capital, later, say, say_count

CHECK = "neighbours"
#: Distance within which plants of a kind are one block (practice). [m]
OF_A_BLOCK = 1.5
#: Width up to which a block is one row (practice). [m]
ONE_ROW = 0.25
#: Share of a row spacing that two rows may lack: they share their bed evenly, as stations do (practice).
LACKING = 0.02
#: Distance between rows where the crop has no figure. [m]
USUAL_ROWS = 0.6

_RULE = later("What the wind pollinates stands in a block of several short rows")


class LoneRowInputs(NamedTuple):
    """A crop that the wind pollinates, and others of its kind near it on some of its days."""

    view: PlantingView
    mates: tuple[PlantingView, ...]


def lone_rows(context: CheckContext) -> Iterator[Finding]:
    """Report crops whose fruit the wind must pollinate, in a single row with none of their kind beside it."""
    for view in context.views:
        if not _needs_a_block(view):
            continue
        mates = tuple(other for other in context.views if _is_mate(view, other))
        found = context.plan.cached(lone_row_finding, view.id, LoneRowInputs(view, mates))
        if found is not None:
            yield found


def _needs_a_block(view: PlantingView) -> bool:
    crop = view.crop
    if crop is None or crop.growth_form != "grass" or view.manure or not len(view.points):
        return False
    wind = crop.pollination is not None and crop.pollination.value == "wind"
    return wind and crop.needs_pollination is not None and bool(crop.needs_pollination.value)


def _is_mate(view: PlantingView, other: PlantingView) -> bool:
    """Whether another planting of its kind is near enough for a block, on some of its days."""
    return (
        view.crop is not None
        and other.crop is not None
        and other.id != view.id
        and other.crop.latin == view.crop.latin
        and shared(other.span, view.span) is not None
        and bool(shapely.distance(other.plot, view.plot) <= OF_A_BLOCK)
    )


@fact("lone row finding")
def lone_row_finding(inputs: LoneRowInputs) -> Finding | None:
    """Report a planting that makes no more than one row with its mates."""
    view = inputs.view
    points = np.concatenate([one.points for one in (view, *inputs.mates)])
    if _width(points) > ONE_ROW:
        return None
    text = say_count(
        "{planting} stands in one row of {count} plant: the wind carries its pollen away, and the ears fill badly",
        "{planting} stands in one row of {count} plants: the wind carries its pollen away, and the ears fill badly",
        len(points),
        planting=view.name,
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE),
        view.source("needs_pollination"),
        [len(points)],
        topic="block",
        candidates=lambda plan: _in_a_block(plan, view.id),
    )


def _width(points: NDArray[np.float64]) -> float:
    """Width of the narrowest rectangle around some places. [m]"""
    block = shapely.minimum_rotated_rectangle(shapely.multipoints(points))
    if block.geom_type != "Polygon":
        return 0.0
    corners = shapely.get_coordinates(block)
    return float(np.hypot(*np.diff(corners[:3], axis=0).T).min())


def _in_a_block(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    view, arrangement = planting_view(plan, planting), planting.arrangement
    if arrangement.kind in ("rows", "staggered"):
        closest, between = closest_published(view), closest_rows(view)
        if closest is not None and (arrangement.in_row_spacing or math.inf) < closest.spacing:
            arrangement = arrangement.with_(in_row_spacing=None)
        apart = view.number("row_spacing") or USUAL_ROWS
        seen: set[int] = set()
        for rows, spacing in ((None, apart), (None, between), (2, None)):
            new = arrangement.with_(rows=rows, row_spacing=spacing)
            count = plan.trial(planting.with_(arrangement=new)).layout.row_count
            if count not in seen:
                seen.add(count)
                yield from _in_rows(plan, view, new, between)
        in_bed = at_bed_spacing(view)
        if in_bed is not None:
            yield from _in_rows(plan, view, in_bed, None)
    yield fixes.remove(view, say("no ground is lost to empty ears"))


def _in_rows(
    plan: Plan, view: PlantingView, new: Rows | StaggeredRows, between: float | None
) -> Iterator[Fix]:
    """Set a planting in rows, if they lie no nearer than a row spacing [m]; a fiftieth may lack."""
    placed = plan.trial(view.planting.with_(arrangement=new))
    rows, apart = placed.layout.row_count, placed.layout.row_spacing
    if rows < 2 or (between is not None and apart is not None and apart < between * (1 - LACKING)):
        return
    gain = say("{plants} plants in a block", plants=placed.plants)
    if new.spacing_for == "beds" and not view.for_beds and has_bed_spacing(view):
        distance = show_spacing(bed_spacing(view), view.units)
        gain = say(
            "{plants} plants in a block, {distance} apart as in beds", plants=placed.plants, distance=distance
        )
    text = say_count("Set it in {count} row", "Set it in {count} rows", rows)
    yield Fix(text, gain, fixes.changed(view.planting, arrangement=new))
