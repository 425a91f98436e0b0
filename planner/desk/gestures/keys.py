"""What the keys do on the sheet while no gesture runs."""

from __future__ import annotations

from PySide6.QtCore import Qt

from planner.desk.canvas.snap import fine_step, grid_step
from planner.desk.model.document import PLOT_EDGE, Document
from planner.plan import Plan

_DIRECTIONS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


def direction_of_key(key: int) -> tuple[int, int] | None:
    """Where an arrow key points on the plan: right and up; None of any other key."""
    return _DIRECTIONS.get(Qt.Key(key))


def nudge_offset(document: Document, key: int, modifiers: Qt.KeyboardModifier) -> tuple[float, float] | None:
    """How far an arrow key moves what is selected, on the plan [m]; None of any other key.

    Parameters
    ----------
    document : Document
    key : int
    modifiers : Qt.KeyboardModifier
        With Shift the step is finer.
    """
    direction = direction_of_key(key)
    if direction is None:
        return None
    units = document.garden.site.units
    if modifiers & Qt.KeyboardModifier.ShiftModifier:
        step = fine_step(units) / (5 if units == "metric" else 2)
    else:
        step = grid_step(units)
    return direction[0] * step, direction[1] * step


def next_thing(plan: Plan, now: str | None, *, back: bool) -> str | None:
    """The bed, planting or structure that Tab goes to; None at the end, and where there is nothing.

    Parameters
    ----------
    plan : Plan
    now : str or None
        Id of what is selected.
    back : bool
        Whether Tab goes backwards.
    """
    order = [key for bed in plan.beds for key in (bed.id, *(p.id for p in plan.in_bed(bed)))]
    if plan.garden.site.outline is not None:
        order.append(PLOT_EDGE)
    order += [structure.id for structure in plan.garden.structures]
    if not order:
        return None
    if now not in order:
        return order[-1] if back else order[0]
    index = order.index(now) + (-1 if back else 1)
    return order[index] if 0 <= index < len(order) else None
