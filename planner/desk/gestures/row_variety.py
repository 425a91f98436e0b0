"""A variety held over a row of its crop: that row, or all up to the nearer side, becomes a planting of the variety."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from planner.crops import Crop
from planner.desk.gestures.base import GestureView, Pointer
from planner.desk.model.document import Document
from planner.desk.model.phrases import with_variety
from planner.garden import Garden, Planting
from planner.ground import shapes
from planner.ground.splitting import row_at, row_lines, split_rows
from planner.words import capital, say, say_count


@dataclass(frozen=True)
class RowDrop:
    """Rows of a planting that a variety would take.

    Attributes
    ----------
    planting : Planting
    rows : range
        From the lowest.
    count : int
        Number of all its rows.
    plants : int
        In those that it takes.
    """

    planting: Planting
    rows: range
    count: int
    plants: int


def rows_under(view: GestureView, crop: Crop, variety: str, at: Pointer) -> RowDrop | None:
    """The row under the pointer that a variety could take, with Shift all up to the nearer side; None where there is none.

    There is one where the pointer is on a planting in rows of the same crop and another variety.
    """
    if (
        not variety
        or at.held(Qt.KeyboardModifier.AltModifier)
        or at.held(Qt.KeyboardModifier.ControlModifier)
    ):
        return None
    document = view.document
    key = view.sheet.planting_at(at.scene)
    planting = document.garden.plantings_by_id.get(key) if key is not None else None
    if planting is None or planting.crop != crop.key or planting.variety == variety:
        return None
    bed, placed = document.plan.bed_of(planting), document.plan.placed(planting)
    ((x, y),) = shapes.to_own(bed.outline, [at.plan])
    row = row_at(placed, (float(x), float(y)))
    if row is None:
        return None
    lines = row_lines(placed)
    rows = range(row, row + 1)
    if at.held(Qt.KeyboardModifier.ShiftModifier):
        rows = range(row + 1) if row < len(lines) / 2 else range(row, len(lines))
    return RowDrop(planting, rows, len(lines), sum(lines[number].plants for number in rows))


def row_drop_lines(crop: Crop, variety: str, drop: RowDrop) -> list[str]:
    """What is written beside the pointer."""
    rows = say_count(
        "{rows} of {all} rows · {count} plant",
        "{rows} of {all} rows · {count} plants",
        drop.plants,
        rows=len(drop.rows),
        all=drop.count,
    )
    return [capital(with_variety(crop.name, variety)), rows, say("Shift takes all up to the nearer side")]


def paint_rows(painter: QPainter, view: GestureView, drop: RowDrop) -> None:
    """Ring the plants of the rows that would be taken."""
    plan = view.document.plan
    bed, placed = plan.bed_of(drop.planting), plan.placed(drop.planting)
    order = sorted({row.across for row in placed.layout.rows})
    wanted = {order[number] for number in drop.rows if number < len(order)}
    ink = QColor(view.look.now.accent)
    painter.setPen(QPen(ink, 1.8))
    ink.setAlpha(70)
    painter.setBrush(ink)
    for row in placed.layout.rows:
        if row.across in wanted:
            points = placed.layout.points[row.first : row.first + row.count]
            for x, y in view.to_view_all(shapes.to_plan(bed.outline, points)):
                painter.drawEllipse(QPointF(x, y), 6, 6)


def take_rows(document: Document, variety: str, drop: RowDrop, step: str) -> Sequence[str]:
    """Make the rows a planting of the variety, as one step; returns the ids of all parts, none where that is refused."""
    placed, key = document.plan.placed(drop.planting), drop.planting.id
    varieties = [variety if number in drop.rows else drop.planting.variety for number in range(drop.count)]
    made: list[str] = []

    def change(garden: Garden) -> Garden:
        garden, ids = split_rows(garden, key, placed, varieties)
        made.extend(ids)
        return garden

    return made if document.edit(step, change) else ()
