"""What a crop that is let go over a bed becomes, by the plan: where it lands, from when, and what it shades."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import shapely

from planner.crops import Crop
from planner.errors import BedwrightError
from planner.garden import Bed, Planting
from planner.garden.model import Point
from planner.ground.bed_spacing import spacings, usual_arrangement
from planner.ground.dropping import Drop, Manner, drop, fields_of, stretch_step
from planner.ground.place import Placed
from planner.plan.plan import Plan
from planner.season.spans import Span

#: Crops from this height on may shade others (practice). [m]
TALL = 0.9
#: Id of a planting that is not in the garden yet.
DRAFT_ID = "ghost"


def find_drop(
    plan: Plan, bed: Bed, crop: Crop, variety: str, at: Point, manner: Manner, fine_step: float
) -> Drop | None:
    """Where a crop let go over a bed would land, on ground that is free while it grows.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    crop : Crop
    variety : str
    at : tuple of float
        The pointer in the bed's coordinates. [m]
    manner : {"free", "stretch", "whole", "single"}
    fine_step : float
        Step to which everything is rounded that is dragged. [m]

    Returns
    -------
    Drop or None
        None where a single plant is held beside the bed.
    """
    draft = Planting(id=DRAFT_ID, bed=bed.id, crop=crop.key, variety=variety, year=plan.year)
    figures = plan.figures_of(draft)
    usual = usual_arrangement(bed, figures)
    step = stretch_step(None if usual.kind == "scatter" else spacings(usual, figures)[0], fine_step)
    return drop(bed, _free_grounds(plan, bed, draft), at, manner, step)


def _free_grounds(plan: Plan, bed: Bed, draft: Planting) -> Iterator[tuple[dt.date | None, shapely.Geometry]]:
    """Free ground of a bed in a planting's own days (None), then from each later day on which more falls free."""
    span, climbing = plan.span_of(draft), plan.may_climb_arch(draft)
    yield None, plan.free_in(bed, span, climbing=climbing)
    later = plan.free_from(bed, climbing=climbing)
    yield from ((day, free) for day, free in later if day is not None and day > span.first)


def draft_planting(plan: Plan, bed: Bed, crop: Crop, variety: str, found: Drop) -> Planting:
    """The planting that a drop makes, before it is in the garden: in a bed by the spacing for beds, where it is known.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    crop : Crop
    variety : str
    found : Drop
        One that may land.

    Raises
    ------
    ValueError
        Where it may not land; says why.
    """
    draft = Planting(
        id=DRAFT_ID,
        bed=bed.id,
        crop=crop.key,
        variety=variety,
        year=plan.year,
        first=found.first,
        shares_ground=found.landing.arrangement.kind == "places",
        **fields_of(found.landing),
    )
    if draft.arrangement.kind == "places":
        return draft
    return draft.with_(arrangement=usual_arrangement(bed, plan.figures_of(draft)))


def shaded_by(
    plan: Plan, planting: Planting, placed: Placed, shown: dt.date
) -> tuple[tuple[str, float], ...]:
    """Crops that would lose direct sun to a planting that is not in the garden yet, the most first.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Low ones are taken to shade nothing.
    placed : Placed
        Its stations.
    shown : date
        Day shown on the sheet.

    Returns
    -------
    tuple of (str, float)
        Name, and loss on one day. [h]
    """
    if (plan.figures_of(planting).number("height") or 0.0) < TALL:
        return ()
    try:
        lost = plan.would_shade(planting, placed, _day_of_shade(plan.span_of(planting), plan.span, shown))
    except BedwrightError:  # no latitude yet: the map and the shadows say how to give it
        return ()
    crops = [(plan.figures_of(p).crop, p.crop, hours) for p, hours in lost]
    return tuple((crop.name if crop else key, hours) for crop, key, hours in crops)


def _day_of_shade(span: Span, year: Span, shown: dt.date) -> dt.date:
    """The day shown where the planting grows on it, else the middle of its days in the growing year."""
    return shown if span.holds(shown) else span.first + (min(span.last, year.last) - span.first) // 2
