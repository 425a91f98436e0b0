"""What is told of a piece of work besides its sentence: how much, how deep, how far apart, with what, and why then."""

from __future__ import annotations

from planner.crops import Figure
from planner.listings.phrases import Measure
from planner.listings.tasks import task_words
from planner.plan import Plan
from planner.season.tasks import Task
from planner.words import capital, full_day_words, key_words, say

#: Work that brings seed, sets or plants into the ground.
_INTO_THE_GROUND = ("sow", "plant", "set out")
#: Work of those for which the depth is that of seed, sets or tubers.
_WITH_DEPTH = ("sow", "plant")


def task_details(plan: Plan, task: Task) -> list[str]:
    """What is known of a piece of work, a line each.

    Parameters
    ----------
    plan : Plan
    task : Task
        Of a planting in the plan's garden.
    """
    amount = task_words(task)[1]
    lines = [capital(amount)] if amount else []
    if task.kind in _INTO_THE_GROUND:
        lines += [line for line in (_depth(plan, task), _spacing(plan, task)) if line]
    if task.material:
        lines.append(say("Needed: {material}", material=key_words(task.material)))
    if task.why:
        lines.append(task.why)
    elif task.origin == "by hand":
        lines.append(say("The date was set by hand"))
    if task.done is not None:
        lines.append(say("Done on {day}", day=full_day_words(task.done)))
    elif task.done_before:
        lines.append(say("Done before: later work on it is written down"))
    return lines


def _depth(plan: Plan, task: Task) -> str:
    """How deep seed, sets or tubers go; empty where that is not known, or plants are set out."""
    if task.kind not in _WITH_DEPTH:
        return ""
    figures = plan.figures_of(plan.garden.plantings_by_id[task.planting])
    depth = figures.number("sowing_depth")
    if depth is None:
        return ""
    words = Measure(plan.garden.site.units).spacing(depth)
    own = figures.variety.number("sowing_depth") if figures.variety is not None else None
    figure = figures.crop.sowing_depth if figures.crop is not None else None
    if own is None and isinstance(figure, Figure) and figure.provenance == "estimate":
        return say("Depth: {depth} (estimate)", depth=words)
    return say("Depth: {depth}", depth=words)


def _spacing(plan: Plan, task: Task) -> str:
    """How far apart plants and rows are in the bed; empty for work under cover, and where places are given one by one."""
    planting = plan.garden.plantings_by_id[task.planting]
    layout = plan.placed(planting).layout
    if layout.in_row_spacing is None or (task.kind == "sow" and planting.start == "raised"):
        return ""
    length = Measure(plan.garden.site.units).spacing
    if layout.row_spacing is None:
        return say("Spacing: {spacing}", spacing=length(layout.in_row_spacing))
    return say(
        "Spacing: {spacing}, rows {rows} apart",
        spacing=length(layout.in_row_spacing),
        rows=length(layout.row_spacing),
    )
