"""The closest published spacings of a crop: what its plants stand no nearer than, and no edit sets them nearer."""

from __future__ import annotations

import math
from typing import NamedTuple

from planner.checks.frame.planting_view import PlantingView
from planner.garden.arrangements import Rows, StaggeredRows
from planner.ground.bed_spacing import EQUILATERAL, bed_spacings, is_worked_from_sides, usual_arrangement

#: Share by which a spacing may fall below a published range (practice).
BELOW_RANGE = 0.10
#: Share by which a spacing may fall below a single published figure (practice).
BELOW_FIGURE = 0.40
#: Share by which the spacing of a crop that is drilled close may fall below its published one (practice).
BELOW_DRILLED = 0.25
#: Least spread of a plant whose ground counts, not its distance in the row alone. [m]
LARGE = 0.4
#: Growth forms that are sown close and thinned, to as near as any publication has them.
_DRILLED = ("root", "rosette", "fern")


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


def drilled(view: PlantingView) -> bool:
    """Whether it is sown close in a drill and thinned."""
    return view.dates.start == "sown" and view.crop is not None and view.crop.growth_form in _DRILLED


def large(view: PlantingView) -> bool:
    """Whether the ground of one plant counts, not its distance in the row alone."""
    return (view.number("spread") or 0.0) >= LARGE and not drilled(view)


def closest_published(view: PlantingView, for_beds: bool | None = None) -> Closest | None:
    """The spacing at which the published ones of a crop begin; None if there is none.

    Sources differ by what they grow (leaf lettuce, flowers for cutting): one in three of them may be
    closer than what counts, which is never above the catalogue's own range.  What is drilled and
    thinned may be as close as any of them has it.  A variety's own spacing, or a single figure, is
    no range.

    Parameters
    ----------
    view : PlantingView
    for_beds : bool, optional
        Whether that for beds or that for rows is meant; by default as it is planted.
    """
    field = "bed_spacing" if (view.for_beds if for_beds is None else for_beds) else "in_row_spacing"
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
    ordered = sorted(given)
    least = ordered[0] if drilled(view) else min(ordered[(len(ordered) - 1) // 3], given[0])
    below = BELOW_FIGURE if not ranged else BELOW_DRILLED if drilled(view) else BELOW_RANGE
    return Closest(*least, below)


def closest_rows(view: PlantingView, for_beds: bool | None = None) -> float | None:
    """The least row spacing that a source gives; in a bed that of the closest spacing in all directions. [m]

    Parameters
    ----------
    view : PlantingView
    for_beds : bool, optional
        As for :func:`closest_published`.
    """
    if view.for_beds if for_beds is None else for_beds:
        rows, closest = view.figure("bed_row_spacing"), closest_published(view, True)
        if rows is not None:
            return rows.least
        return EQUILATERAL * closest.spacing if closest is not None else None
    figure = view.figure("row_spacing")
    return figure.least if figure is not None else view.number("row_spacing")


def least_row_spacing(view: PlantingView, in_row: float) -> float | None:
    """The least row spacing at which an edit may set a planting, rounded up to the centimetre; None if none is published. [m]

    That of field rows or of beds, as it is planted.  Small plants in field rows of a bed that is worked from its sides may
    have as little ground each as the spacing for beds gives them.

    Parameters
    ----------
    view : PlantingView
    in_row : float
        Its spacing in the row. [m]
    """
    rows = closest_rows(view)
    if rows is None:
        return None
    closest, between = closest_published(view, True), closest_rows(view, True)
    if not large(view) and has_bed_spacing(view) and closest is not None and between is not None:
        rows = min(rows, closest.spacing * between / in_row)
    return math.ceil(100 * rows - 1e-6) / 100


def has_bed_spacing(view: PlantingView) -> bool:
    """Whether a spacing for beds is known and its bed is planted by that."""
    return is_worked_from_sides(view.bed) and bed_spacings(view.figures) is not None


def bed_spacing(view: PlantingView) -> float:
    """The spacing for beds, which must be known. [m]"""
    known = bed_spacings(view.figures)
    assert known is not None
    return known[0]


def at_bed_spacing(view: PlantingView) -> Rows | StaggeredRows | None:
    """The arrangement at the spacing for beds of what is planted in field rows; None where its bed is not planted by that."""
    arrangement = view.planting.arrangement
    if arrangement.kind not in ("rows", "staggered") or view.for_beds or not has_bed_spacing(view):
        return None
    new = usual_arrangement(view.bed, view.figures)
    return None if new.kind == "scatter" else new.with_(turn=arrangement.turn)
