"""What a crop held over a bed would become, were it let go: its planting, and what that would cause."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import shapely

from planner.checks import check_only
from planner.crops import Crop
from planner.errors import BedwrightError
from planner.garden import Bed, Planting, edits
from planner.garden.model import Point
from planner.garden.site import UnitSystem
from planner.garden.units import show_spacing
from planner.ground.dropping import Drop, Manner, drop, fields_of, stretch_step
from planner.ground.place import Placed
from planner.ground.stations import Layout
from planner.plan import Plan
from planner.season.spans import Span

#: Checks that are run before a drop.
LIVE = ("crowding", "overlap", "rotation", "neighbours", "support", "season")
#: Most findings that are shown before a drop.
MOST_CAUSES = 2
#: Crops from this height on may shade others (practice). [m]
TALL = 0.9
#: Most shaded plantings that are named before a drop.
MOST_SHADED = 3
#: Fields of a planting that a drop sets.
_PLANTED = ("variety", "plot", "arrangement", "first", "shares_ground")


@dataclass(frozen=True)
class DropPreview:
    """What would be planted, were the crop let go now.

    Attributes
    ----------
    bed : Bed
    planting : Planting or None
        None where it may not land.
    placed : Placed or None
        Its stations.
    why : str
        Why it may not land; else empty.
    causes : tuple of str
        What the checks would say, the gravest first.
    shaded : tuple of (str, float)
        Crops that would lose direct sun, and how much on one day. [h]
    """

    bed: Bed
    planting: Planting | None
    placed: Placed | None
    why: str = ""
    causes: tuple[str, ...] = ()
    shaded: tuple[tuple[str, float], ...] = ()

    @property
    def may_land(self) -> bool:
        """Whether the crop may be let go here."""
        return self.planting is not None

    @property
    def warns(self) -> bool:
        """Whether it may not land, would not all be planted, or would cause a finding."""
        return self.placed is None or bool(self.placed.problem) or bool(self.causes)


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
    draft = Planting(id="ghost", bed=bed.id, crop=crop.key, variety=variety, year=plan.year)
    step = stretch_step(crop.number("in_row_spacing"), fine_step)
    return drop(bed, _free_grounds(plan, bed, draft), at, manner, step)


def _free_grounds(plan: Plan, bed: Bed, draft: Planting) -> Iterator[tuple[dt.date | None, shapely.Geometry]]:
    """Free ground of a bed in a planting's own days (None), then from each later day on which more falls free."""
    span = plan.span_of(draft)
    yield None, plan.free_in(bed, span)
    yield from ((day, free) for day, free in plan.free_from(bed) if day is not None and day > span.first)


def preview_drop(plan: Plan, bed: Bed, crop: Crop, variety: str, found: Drop) -> DropPreview:
    """The planting a drop would make, and its stations.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    crop : Crop
    variety : str
    found : Drop
        As of :func:`find_drop`.
    """
    if found.landing.plot is None:
        return DropPreview(bed, None, None, found.landing.why)
    planting = Planting(
        id="ghost",
        bed=bed.id,
        crop=crop.key,
        variety=variety,
        year=plan.year,
        first=found.first,
        shares_ground=found.landing.arrangement.kind == "places",
        **fields_of(found.landing),
    )
    return DropPreview(bed, planting, plan.trial(planting))


def planted_fields(planting: Planting) -> dict[str, Any]:
    """Fields of the planting that a drop makes, beside its bed, crop and year."""
    return {name: getattr(planting, name) for name in _PLANTED}


def causes_of(plan: Plan, planting: Planting) -> tuple[str, ...]:
    """What the checks would say of a planting that is not in the garden yet, the gravest first."""
    try:
        garden, key = edits.add_planting(
            plan.garden, planting.bed, planting.crop, planting.year, **planted_fields(planting)
        )
        found = check_only(plan.what_if(garden), LIVE)
    except BedwrightError as error:
        return (str(error),)
    texts = (one.text for one in found if key in one.plantings and one.severity != "note")
    return tuple(texts)[:MOST_CAUSES]


def shaded_by(
    plan: Plan, crop: Crop, planting: Planting, placed: Placed, shown: dt.date
) -> tuple[tuple[str, float], ...]:
    """Crops that would lose direct sun to a planting that is not in the garden yet, the most first.

    Parameters
    ----------
    plan : Plan
    crop : Crop
        Of the planting; low ones are taken to shade nothing.
    planting : Planting
    placed : Placed
        Its stations.
    shown : date
        Day shown on the sheet.

    Returns
    -------
    tuple of (str, float)
        Name, and loss on one day. [h]
    """
    if (crop.number("height") or 0.0) < TALL:
        return ()
    try:
        lost = plan.would_shade(planting, placed, _day_of_shade(plan.span_of(planting), plan.span, shown))
    except BedwrightError:  # no latitude yet: the map and the shadows say how to give it
        return ()
    crops = [(plan.figures_of(p).crop, p.crop, hours) for p, hours in lost[:MOST_SHADED]]
    return tuple((crop.name if crop else key, hours) for crop, key, hours in crops)


def _day_of_shade(span: Span, year: Span, shown: dt.date) -> dt.date:
    """The day shown where the planting grows on it, else the middle of its days in the growing year."""
    return shown if span.holds(shown) else span.first + (min(span.last, year.last) - span.first) // 2


def preview_lines(preview: DropPreview | None, crop: Crop, units: UnitSystem) -> list[str]:
    """What is written beside the pointer: number of rows and plants, spacings, and what it would cause.

    Parameters
    ----------
    preview : DropPreview or None
        None where the crop is held over no bed.
    crop : Crop
    units : {"metric", "feet_inches"}
    """
    if preview is None:
        return [crop.name]
    if preview.planting is None or preview.placed is None:
        return [crop.name, preview.why]
    name = crop.name[0].upper() + crop.name[1:]
    lines = _count_lines(name, preview.placed.layout, preview.placed.plants, units)
    if preview.planting.first is not None:
        lines.append(f"from {preview.planting.first:%d %b %Y}, when this ground falls free")
    if preview.placed.problem:
        lines.append(preview.placed.problem)
    lines += preview.causes
    if preview.shaded:
        lines.append("takes sun from " + ", ".join(f"{name} {hours:.1f} h" for name, hours in preview.shaded))
    return lines


def _count_lines(name: str, layout: Layout, count: int, units: UnitSystem) -> list[str]:
    if not layout.rows:
        return [f"{name} · {count} {'plant' if count == 1 else 'plants'}"]
    in_each = {row.count for row in layout.rows}
    rows = f"{layout.row_count} rows" if layout.row_count != 1 else "1 row"
    if len(in_each) == 1:
        lines = [f"{name} · {rows} × {in_each.pop()} = {count}"]
    else:
        lines = [f"{name} · {rows}, {count} plants"]
    if layout.in_row_spacing and layout.row_spacing:
        lines.append(
            f"{show_spacing(layout.in_row_spacing, units)} in the row, "
            f"{show_spacing(layout.row_spacing, units)} between rows"
        )
    return lines
