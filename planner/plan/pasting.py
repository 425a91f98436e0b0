"""Pasting beds, structures and plantings into a garden: beds as they are, single plantings onto free ground."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from planner.garden import Bed, Garden, Planting, Structure, edits
from planner.ground import shapes
from planner.ground.dropping import carried, plot_box
from planner.plan import Plan
from planner.words import say

#: Offsets of what is pasted are rounded to this. [m]
STEP = 0.1
#: A plot counts as free where it overlaps others by less. [m2]
SPECK = 1e-4


@dataclass(frozen=True)
class Copied:
    """Things that were copied.

    Attributes
    ----------
    garden : Garden
        A garden that holds them, with the beds, varieties and own crops they need.
    ids : tuple of str
        What was copied of it.
    """

    garden: Garden
    ids: tuple[str, ...]


def copied(garden: Garden, ids: Sequence[str]) -> Copied:
    """Copy things of a garden, with the beds, varieties and own crops they need."""
    wanted = set(ids)
    beds = {p.bed for p in garden.plantings if p.id in wanted} | {b.id for b in garden.beds if b.id in wanted}
    part = Garden(
        site=garden.site,
        climate=garden.climate,
        beds=tuple(bed for bed in garden.beds if bed.id in beds),
        structures=tuple(s for s in garden.structures if s.id in wanted),
        plantings=tuple(p for p in garden.plantings if p.id in wanted or p.bed in wanted),
        varieties=garden.varieties,
        crops=garden.crops,
        sources=garden.sources,
    )
    return Copied(part, tuple(ids))


def offset_to(copy: Copied, place: tuple[float, float] | None) -> tuple[float, float]:
    """How far copied beds and structures are moved so that their middle comes to a place of the plan. [m]

    Zero where there is no place, or only plantings were copied.
    """
    things: tuple[Bed | Structure, ...] = (*copy.garden.beds, *copy.garden.structures)
    outlines = [shapes.plan_polygon(thing.outline) for thing in things if thing.id in copy.ids]
    if place is None or not outlines:
        return 0.0, 0.0
    left, low, right, high = shapely.total_bounds(outlines)
    dx, dy = place[0] - (left + right) / 2, place[1] - (low + high) / 2
    return round(round(dx / STEP) * STEP, 6), round(round(dy / STEP) * STEP, 6)


def paste(
    garden: Garden, copy: Copied, offset: tuple[float, float], bed: str | None, year: int
) -> tuple[Garden, tuple[str, ...]]:
    """Put copied things into a garden.

    Beds bring their plantings, plantings their own varieties. A planting that was copied by itself goes
    onto the next free ground of a bed; one that would not grow in the growing year is moved into it,
    with its days.

    Parameters
    ----------
    garden : Garden
    copy : Copied
    offset : tuple of float
        Of beds and structures on the plan. [m]
    bed : str or None
        The bed for plantings that were copied by themselves; their own where None.
    year : int
        Growing year, named after the calendar year it begins in.

    Returns
    -------
    garden, ids of the copies

    Raises
    ------
    EditError
        Where a planting has no bed to go to, or the bed has no free ground.
    """
    single = [
        planting
        for key in copy.ids
        if (planting := copy.garden.plantings_by_id.get(key)) is not None and planting.bed not in copy.ids
    ]
    keys = {planting.id for planting in single}
    rest = [key for key in copy.ids if key not in keys]
    garden, made = edits.paste(garden, copy.garden, rest, *offset)
    new = list(made)
    for planting in single:
        garden, key = _paste_planting(garden, copy.garden, planting, bed or planting.bed, year)
        new.append(key)
    return garden, tuple(new)


def _paste_planting(
    garden: Garden, source: Garden, planting: Planting, bed: str, year: int
) -> tuple[Garden, str]:
    if bed not in garden.beds_by_id:
        raise edits.EditError(
            say("{crop} has no bed to go to", crop=planting.crop), fix=say("Select a bed and paste again")
        )
    by = _years_off(source, planting, year)
    garden, key = edits.add_planting(garden, bed, planting.crop, planting.year + by)
    own = ("id", "bed", "crop", "year")
    fields = {name: getattr(planting, name) for name in type(planting).model_fields if name not in own}
    for name in ("first", "last"):
        if fields[name] is not None:
            fields[name] = _years_later(fields[name], by)
    garden = edits.take_own(garden, source, *edits.own_plants_of(source, [planting]))
    garden = edits.change_planting(garden, key, **fields)
    return _onto_free_ground(garden, key, year), key


def _onto_free_ground(garden: Garden, key: str, year: int) -> Garden:
    """Move a pasted planting beside what takes its plot already."""
    planting = garden.plantings_by_id[key]
    if planting.arrangement.kind == "places" or planting.shares_ground:
        return garden
    plan = Plan(garden, year)
    bed, span = garden.beds_by_id[planting.bed], plan.span_of(planting)
    free = plan.free_in(bed, span, leaving_out=(key,), climbing=plan.may_climb_arch(planting))
    if shapely.difference(shapes.plot_polygon(bed, planting.plot), free).area < SPECK:
        return garden
    left, low, right, high = plot_box(bed, planting.plot)
    landing = carried(bed, free, ((left + right) / 2, (low + high) / 2), right - left)
    if landing.plot is None:
        raise edits.EditError(f"{planting.crop}: {landing.why}", fix=say("Choose another bed, or other days"))
    return edits.change_planting(garden, key, plot=landing.plot)


def _years_off(garden: Garden, planting: Planting, year: int) -> int:
    """By how many years a planting is moved so that it grows in a growing year."""
    plan = Plan(garden, year)
    return 0 if plan.span_of(planting).meets(plan.span) else year - planting.year


def _years_later(day: dt.date, years: int) -> dt.date:
    try:
        return day.replace(year=day.year + years)
    except ValueError:  # 29 February
        return day.replace(year=day.year + years, day=28)
