"""Copying and pasting, within a garden and between gardens, as the text of a garden file."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import shapely
from PySide6.QtCore import QMimeData
from PySide6.QtWidgets import QApplication

from planner import storage
from planner.errors import BedwrightError
from planner.garden import Bed, Garden, Planting, Structure, edits
from planner.ground import shapes
from planner.ground.dropping import carried, plot_box
from planner.plan import Plan
from planner.season.spans import planting_span, year_span

THINGS_MIME = "application/x-bedwright-things"


@dataclass(frozen=True)
class Held:
    """What lies on the clipboard: a small garden, and what of it was copied."""

    garden: Garden
    ids: tuple[str, ...]


def held(garden: Garden, ids: tuple[str, ...]) -> Held:
    """Things of a garden, with the beds and varieties they need."""
    wanted = set(ids)
    beds = {p.bed for p in garden.plantings if p.id in wanted} | {b.id for b in garden.beds if b.id in wanted}
    part = Garden(
        site=garden.site,
        climate=garden.climate,
        beds=tuple(bed for bed in garden.beds if bed.id in beds),
        structures=tuple(s for s in garden.structures if s.id in wanted),
        plantings=tuple(p for p in garden.plantings if p.id in wanted or p.bed in wanted),
        varieties=garden.varieties,
    )
    return Held(part, ids)


def put(garden: Garden, ids: tuple[str, ...]) -> None:
    """Put things of a garden on the clipboard."""
    text = storage.dump(held(garden, ids).garden)
    data = QMimeData()
    data.setData(THINGS_MIME, ("\n".join(ids) + "\n\n" + text).encode())
    data.setText(text)
    QApplication.clipboard().setMimeData(data)


def holds_things() -> bool:
    """Whether there is something to paste."""
    data = QApplication.clipboard().mimeData()
    return data is not None and data.hasFormat(THINGS_MIME)


def take() -> Held | None:
    """What lies on the clipboard; None where it is nothing of a garden."""
    if not holds_things():
        return None
    text = bytes(QApplication.clipboard().mimeData().data(THINGS_MIME).data()).decode(errors="replace")
    head, _, body = text.partition("\n\n")
    try:
        return Held(storage.parse(body, "clipboard"), tuple(head.split("\n")))
    except BedwrightError:
        return None


def offset(held: Held, goal: tuple[float, float] | None) -> tuple[float, float]:
    """How far things are set off so that their middle comes to a place (0 where it is None)."""
    things: tuple[Bed | Structure, ...] = (*held.garden.beds, *held.garden.structures)
    outlines = [shapes.plan_polygon(thing.outline) for thing in things if thing.id in held.ids]
    if goal is None or not outlines:
        return 0.0, 0.0
    left, low, right, high = shapely.bounds(shapely.union_all(outlines))
    step = 0.1
    dx, dy = goal[0] - (left + right) / 2, goal[1] - (low + high) / 2
    return round(round(dx / step) * step, 6), round(round(dy / step) * step, 6)


def paste(
    garden: Garden, held: Held, dx: float, dy: float, target: str | None, year: int
) -> tuple[Garden, tuple[str, ...]]:
    """Paste; plantings copied by themselves go into the target bed, or back to their own.

    Such a planting that would not stand in the growing year shown is moved into it, with its days.
    Own varieties come along.
    """
    alone = [
        held.garden.plantings_by_id[key]
        for key in held.ids
        if key in held.garden.plantings_by_id and held.garden.plantings_by_id[key].bed not in held.ids
    ]
    garden, made = edits.paste(
        garden, held.garden, [k for k in held.ids if k not in {p.id for p in alone}], dx, dy
    )
    new = list(made)
    for planting in alone:
        bed = target or planting.bed
        if bed not in garden.beds_by_id:
            raise edits.EditError(f"{planting.crop} has no bed to go to", mend="Select a bed and paste again")
        by = _years_off(garden, planting, year)
        garden, key = edits.add_planting(garden, bed, planting.crop, planting.year + by)
        fields = {
            n: getattr(planting, n)
            for n in type(planting).model_fields
            if n not in ("id", "bed", "crop", "year")
        }
        for name in ("first", "last"):
            if fields[name] is not None:
                fields[name] = _in_year(fields[name], by)
        own = held.garden.own_variety(planting)
        if own is not None and garden.own_variety(planting) is None:
            about = {n: getattr(own, n) for n in type(own).model_fields if n != "id"}
            garden, _ = edits.put_variety(garden, **about)
        garden = edits.change_planting(garden, key, **fields)
        garden = _onto_free_ground(garden, key, year)
        new.append(key)
    return garden, tuple(new)


def _onto_free_ground(garden: Garden, key: str, year: int) -> Garden:
    """A pasted planting beside what stands there already, not on top of it."""
    planting = garden.plantings_by_id[key]
    if planting.arrangement.kind == "places" or planting.shares_ground:
        return garden
    plan = Plan(garden, year)
    bed, span = garden.beds_by_id[planting.bed], plan.span_of(planting)
    free = plan.free_in(bed, span, leaving_out=(key,))
    if shapely.difference(shapes.plot_polygon(bed, planting.plot), free).area < 1e-4:
        return garden
    left, low, right, high = plot_box(bed, planting.plot)
    land = carried(bed, free, ((left + right) / 2, (low + high) / 2), right - left)
    if land.plot is None:
        raise edits.EditError(f"{planting.crop}: {land.why}", mend="Choose another bed, or other days")
    return edits.change_planting(garden, key, plot=land.plot)


def _years_off(garden: Garden, planting: Planting, year: int) -> int:
    """By how many years a planting is moved so that it stands in a growing year."""
    stands = planting_span(garden.site, planting).meets(year_span(garden.site, year))
    return 0 if stands else year - planting.year


def _in_year(day: dt.date, by: int) -> dt.date:
    try:
        return day.replace(year=day.year + by)
    except ValueError:  # 29 February
        return day.replace(year=day.year + by, day=28)
