"""The rows of a planting in words, as they are told while a handle is dragged and after a key; a plant by its place."""

from __future__ import annotations

from planner.desk.model.drop_preview import DropPreview, preview_lines
from planner.garden import Planting, Whole
from planner.garden.units import show_length
from planner.ground.dropping import plot_box
from planner.ground.row_changes import single_places
from planner.ground.shapes import bed_axis
from planner.ground.splitting import turned_places
from planner.plan import Plan
from planner.words import say


def row_lines_words(plan: Plan, planting: Planting) -> list[str]:
    """Rows, plants and spacings of a planting, and what does not fit, a line each."""
    crop = plan.figures_of(planting).crop
    if crop is None:
        return []
    preview = DropPreview(plan.bed_of(planting), planting.with_(first=None), plan.placed(planting))
    lines = preview_lines(preview, crop, plan.garden.site.units)
    turn = getattr(planting.arrangement, "turn", 0.0)
    return [*lines, say("turned by {angle}°", angle=f"{turn:g}")] if turn else lines


def plant_words(plan: Plan, planting: Planting, index: int) -> str:
    """Which plant of a planting it is, and where."""
    bed, units = plan.bed_of(planting), plan.garden.site.units
    points = single_places(plan.garden, planting.id)
    ((x, y),) = turned_places([points[index]], bed_axis(bed.outline))
    left, low, _, _ = plot_box(bed, Whole())
    return say(
        "Plant {number} of {count}: {along} along the bed, {across} across",
        number=index + 1,
        count=len(points),
        along=show_length(x - left, units),
        across=show_length(y - low, units),
    )
