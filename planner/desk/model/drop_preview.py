"""What a crop held over a bed would become, were it let go: its planting, and what that would cause."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from planner.crops import Crop
from planner.desk.model.phrases import plants_words, rows_words
from planner.errors import BedwrightError
from planner.garden import Bed, Planting, edits
from planner.garden.site import UnitSystem
from planner.garden.units import show_spacing
from planner.ground.dropping import Drop
from planner.ground.layout import Layout
from planner.ground.place import Placed
from planner.plan import Plan
from planner.plan.dropping import draft_planting
from planner.words import capital, full_day_words, number_words, say

#: Checks that are run before a drop.
LIVE = ("crowding", "overlap", "rotation", "neighbours", "support", "season")
#: Most findings that are shown before a drop.
MOST_CAUSES = 2
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
    lessons : tuple of str
        What is to be remembered of this crop here.
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
    lessons: tuple[str, ...] = ()
    shaded: tuple[tuple[str, float], ...] = ()

    @property
    def may_land(self) -> bool:
        """Whether the crop may be let go here."""
        return self.planting is not None

    @property
    def warns(self) -> bool:
        """Whether it may not land, would not all be planted, or would cause a finding."""
        return self.placed is None or bool(self.placed.problem) or bool(self.causes)


def preview_drop(plan: Plan, bed: Bed, crop: Crop, variety: str, found: Drop) -> DropPreview:
    """The planting a drop would make, and its stations.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    crop : Crop
    variety : str
    found : Drop
        As of :func:`planner.plan.dropping.find_drop`.
    """
    if found.landing.plot is None:
        return DropPreview(bed, None, None, found.landing.why)
    planting = draft_planting(plan, bed, crop, variety, found)
    return DropPreview(bed, planting, plan.trial(planting))


def planted_fields(planting: Planting) -> dict[str, Any]:
    """Fields of the planting that a drop makes, beside its bed, crop and year."""
    return {name: getattr(planting, name) for name in _PLANTED}


def causes_of(plan: Plan, planting: Planting) -> tuple[str, ...]:
    """What the checks would say of a planting that is not in the garden yet, the gravest first."""
    from planner.checks import check_only

    try:
        garden, key = edits.add_planting(
            plan.garden, planting.bed, planting.crop, planting.year, **planted_fields(planting)
        )
        found = check_only(plan.what_if(garden), LIVE)
    except BedwrightError as error:
        return (str(error),)
    texts = (one.text for one in found if key in one.plantings and one.severity != "note")
    return tuple(texts)[:MOST_CAUSES]


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
    name = capital(crop.name)
    lines = _count_lines(name, preview.placed.layout, preview.placed.plants, units)
    if preview.planting.first is not None:
        first = full_day_words(preview.planting.first)
        lines.append(say("from {day}, when this ground falls free", day=first))
    if preview.placed.problem:
        lines.append(preview.placed.problem)
    lines += [*preview.causes, *preview.lessons]
    if preview.shaded:
        losses = [
            say("{name} {hours} h", name=name, hours=number_words(hours, 1))
            for name, hours in preview.shaded[:MOST_SHADED]
        ]
        lines.append(say("takes sun from {plantings}", plantings=", ".join(losses)))
    return lines


def _count_lines(name: str, layout: Layout, count: int, units: UnitSystem) -> list[str]:
    if not layout.rows:
        return [f"{name} · {plants_words(count)}"]
    in_each = {row.count for row in layout.rows}
    rows = rows_words(layout.row_count)
    if len(in_each) == 1:
        lines = [f"{name} · {rows} × {in_each.pop()} = {count}"]
    else:
        lines = [f"{name} · {rows}, {plants_words(count)}"]
    if layout.in_row_spacing and layout.row_count == 1:
        lines.append(say("{spacing} in the row", spacing=show_spacing(layout.in_row_spacing, units)))
    elif layout.in_row_spacing and layout.row_spacing:
        lines.append(
            say(
                "{spacing} in the row, {between} between rows",
                spacing=show_spacing(layout.in_row_spacing, units),
                between=show_spacing(layout.row_spacing, units),
            )
        )
    return lines
