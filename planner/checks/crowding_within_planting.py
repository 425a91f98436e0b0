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
from planner.garden import edits as e
from planner.garden.arrangements import Rows, StaggeredRows
from planner.garden.units import show_spacing, show_spacings
from planner.ground.bed_spacing import EQUILATERAL
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import capital, later, percent, say, say_count

CHECK = "crowding"
#: Share by which a spacing may fall below a published range (practice).
BELOW_RANGE = 0.10
#: Share by which a spacing may fall below a single published figure (practice).
BELOW_FIGURE = 0.40
#: Share by which the spacing of a crop that is drilled close may fall below its published one (practice).
BELOW_DRILLED = 0.25
#: Share of the published spacing below which a drilled crop suffers, rather than stays small (practice).
HALF = 0.5
#: Least spread of a plant whose ground counts, not its distance in the row alone. [m]
LARGE = 0.4
#: Least share of the ground of the closest published spacings: beds are planted closer than fields, but not more than
#: twice as close (practice).
LEAST_GROUND = 0.45
#: Growth forms that are sown close and thinned, to as near as any publication has them.
_DRILLED = ("root", "rosette", "fern")

_RULE = later("Plants stand no nearer than the published spacings of their crop begin")


class Closest(NamedTuple):
    """The spacing at which the published ones begin.

    Attributes
    ----------
    spacing : float
        In the row. [m]
    source : str
        Key of its source; empty for a variety's own.
    below : float
        Share by which a planting may fall below it.
    """

    spacing: float
    source: str
    below: float


def _drilled(view: PlantingView) -> bool:
    """Whether it is sown close in a drill and thinned."""
    return view.dates.start == "sown" and view.crop is not None and view.crop.growth_form in _DRILLED


def _closest_published(view: PlantingView) -> Closest | None:
    """The spacing at which the published ones of a crop begin, for beds or for rows as it is planted; None if there is none.

    Sources differ by what they grow (leaf lettuce, flowers for cutting): one in three of them may be
    closer than what counts, which is never above the catalogue's own range.  What is drilled and
    thinned may be as close as any of them has it.  A variety's own spacing, or a single figure, is
    no range.
    """
    field = "bed_spacing" if view.for_beds else "in_row_spacing"
    figure = view.figure(field)
    if figure is None:
        own = view.number(field)
        return Closest(own, "", BELOW_FIGURE) if own is not None else None
    found = [(figure.low if figure.low is not None else figure.value, figure.source or "practice")]
    found += [(one.low if one.low is not None else one.value, one.source) for one in figure.other]
    given = [(value, source) for value, source in found if value is not None]
    if not given:
        return None
    ranged = figure.low is not None or any(one.low is not None for one in figure.other)
    drilled = _drilled(view)
    ordered = sorted(given)
    least = ordered[0] if drilled else min(ordered[(len(ordered) - 1) // 3], given[0])
    below = BELOW_FIGURE if not ranged else BELOW_DRILLED if drilled else BELOW_RANGE
    return Closest(*least, below)


class SpacingInputs(NamedTuple):
    """A planting."""

    view: PlantingView


@fact("crowding within planting")
def judge_spacing(inputs: SpacingInputs) -> Finding | None:
    """The finding about the distances within one planting; None if all plants have room."""
    view = inputs.view
    closest = _closest_published(view)
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
        "note" if _drilled(view) and apart >= least * HALF else "mind",
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
    mine, rows, between = layout.in_row_spacing, layout.row_spacing, _closest_rows(view)
    if not _large(view):
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
        candidates=lambda plan: _space_rows_wider(plan, view.id, _row_spacing_needed(view, least, mine)),
    )


def _large(view: PlantingView) -> bool:
    """Whether the ground of one plant counts, not its distance in the row alone."""
    return (view.number("spread") or 0.0) >= LARGE and not _drilled(view)


def _closest_rows(view: PlantingView) -> float | None:
    """The least row spacing that a source gives; in a bed that of the closest spacing in all directions. [m]"""
    if view.for_beds:
        rows, closest = view.figure("bed_row_spacing"), _closest_published(view)
        if rows is not None:
            return rows.least
        return EQUILATERAL * closest.spacing if closest is not None else None
    figure = view.figure("row_spacing")
    return figure.least if figure is not None else view.number("row_spacing")


def _row_spacing_needed(view: PlantingView, least: float, in_row: float) -> float:
    """Row spacing at which each plant has its least ground, rounded up to the centimetre. [m]

    Parameters
    ----------
    view : PlantingView
    least : float
        The closest published spacing in the row. [m]
    in_row : float
        The planting's spacing in the row. [m]
    """
    ground = LEAST_GROUND * least * (_closest_rows(view) or 0.0)
    return math.ceil(100 * ground / in_row - 1e-6) / 100


# -- fixes ----------------------------------------------------------------------------------------


def _space_rows_wider(plan: Plan, key: str, wide: float) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    view, arrangement = planting_view(plan, planting), planting.arrangement
    if arrangement.kind not in ("rows", "staggered"):
        return
    new = arrangement.with_(row_spacing=wide, rows=None)
    text = say("Set its rows {distance} apart", distance=show_spacing(wide, view.units))
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
        row = arrangement.row_spacing
        wide: dict[str, object] = {"in_row_spacing": round(least, 4)}
        wide_enough = max(least, _row_spacing_needed(view, least, least)) if _large(view) else least
        if row is not None and row < wide_enough:
            wide["row_spacing"] = round(wide_enough, 4)
        text = say("Set it {distance} apart", distance=show_spacing(least, view.units))
        yield from _with_spacing(plan, view, arrangement.with_(**wide), text)
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
