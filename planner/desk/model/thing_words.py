"""Beds, structures and plantings in words: in labels, lists, menus and the status bar."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from planner.desk.model.document import PLOT_EDGE
from planner.desk.model.phrases import beds_words, plantings_words, rows_words, structures_words, with_variety
from planner.garden import Bed, Planting
from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length
from planner.ground import shapes
from planner.plan import Plan
from planner.words import capital, key_words, number_words, say, say_count


def planting_words(plan: Plan, planting: Planting) -> str:
    """Name and number of a planting: ``Carrot · 4 rows · 120``."""
    placed, figures = plan.placed(planting), plan.figures_of(planting)
    name = with_variety(capital(figures.crop.name if figures.crop else planting.crop), planting.variety)
    rows = placed.layout.row_count
    count = f"{placed.plants}"
    if planting.covers:
        count += f" · {key_words(planting.covers[0].kind)}"
    return f"{name} · {rows_words(rows)} · {count}" if rows else f"{name} · {count}"


def size_words(bed: Bed, units: UnitSystem) -> str:
    """Size of a bed: ``4.80 × 1.20 m``."""
    outline = bed.outline
    if outline.shape == "circle":
        return f"⌀ {show_length(2 * outline.radius, units)}"
    if outline.shape == "rectangle":
        length, width = outline.length, outline.width
    else:
        left, low, right, high = shapes.own_polygon(outline).bounds
        length, width = right - left, high - low
    if units == "metric":
        return say("{length} × {width} m", length=number_words(length, 2), width=number_words(width, 2))
    return f"{show_length(length, units)} × {show_length(width, units)}"


def thing_words(plan: Plan, key: str) -> str:
    """A line that says what a thing is; empty where there is none of that id."""
    garden, units = plan.garden, plan.garden.site.units
    if key in garden.plantings_by_id:
        planting = garden.plantings_by_id[key]
        return say(
            "{planting}, in {bed}",
            planting=planting_words(plan, planting),
            bed=garden.beds_by_id[planting.bed].name,
        )
    if key in garden.beds_by_id:
        bed = garden.beds_by_id[key]
        held = plantings_words(len(plan.in_bed(bed)))
        return f"{_with_kind(say('bed'), bed.name)}, {size_words(bed, units)}, {held}"
    if key in garden.structures_by_id:
        structure = garden.structures_by_id[key]
        name = _with_kind(key_words(structure.kind), structure.name)
        return say("{structure}, {height} high", structure=name, height=show_length(structure.height, units))
    if key == PLOT_EDGE and garden.site.outline is not None:
        return say(
            "Edge of the plot, {area}", area=show_area(shapes.outline_area(garden.site.outline), units)
        )
    return ""


def _with_kind(kind: str, name: str) -> str:
    """A kind of thing and its name, the kind once: ``bed West 1``, but ``Bed 1`` and ``old wall``."""
    if kind.casefold() in name.casefold().split():
        return name
    return f"{kind} {name}".strip()


def name_of(plan: Plan, ids: Sequence[str]) -> str:
    """What a few things are called in a menu: a name, or their number."""
    garden = plan.garden
    if len(ids) != 1:
        kinds = {_kind(plan, key) for key in ids}
        if len(kinds) == 1:
            return _COUNTED[kinds.pop()](len(ids))
        return say_count("{count} thing", "{count} things", len(ids))
    (key,) = ids
    if key in garden.beds_by_id:
        return garden.beds_by_id[key].name
    if key in garden.structures_by_id:
        structure = garden.structures_by_id[key]
        return structure.name or key_words(structure.kind)
    if key in garden.plantings_by_id:
        return plan.catalogue.name_of(garden.plantings_by_id[key].crop)
    return say("edge of the plot") if key == PLOT_EDGE else say("nothing")


def _kind(plan: Plan, key: str) -> str:
    garden = plan.garden
    if key in garden.beds_by_id:
        return "bed"
    return "structure" if key in garden.structures_by_id else "planting"


def locked_words(plan: Plan, ids: Sequence[str]) -> str:
    """That some things are locked, and how they are unlocked."""
    return say(
        "{things}: locked, and stays as it is; unlock it in its details or by the Edit menu",
        things=name_of(plan, ids),
    )


_COUNTED: dict[str, Callable[[int], str]] = {
    "bed": beds_words,
    "structure": structures_words,
    "planting": plantings_words,
}
