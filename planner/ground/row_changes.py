"""Rows of a planting changed by a step: their number, the spacings, the direction."""

from __future__ import annotations

from typing import Any

from planner.garden import Garden, Places, Rows, StaggeredRows, edits
from planner.garden.edits import EditError, checked
from planner.ground.place import Placed
from planner.words import say

#: Least spacing that is reached by steps. [m]
LEAST_SPACING = 0.01
#: Most rows that are reached by steps.
MOST_ROWS = 400


def change_rows(
    garden: Garden,
    key: str,
    placed: Placed,
    *,
    number: int = 0,
    in_row: float = 0.0,
    between: float = 0.0,
    turn: float = 0.0,
    step: float = 0.0,
) -> Garden:
    """Change the rows of a planting from what they are now.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    placed : Placed
        As it is placed now.
    number : int
        Rows more, or fewer. [rows]
    in_row, between : float
        By which the spacings grow. [m]
    turn : float
        By which the rows turn. [degrees anticlockwise]
    step : float
        Spacings are rounded to whole steps, turns are not; 0 for none. [m]

    Raises
    ------
    EditError
        Where it has no rows.
    """
    planting = garden.plantings_by_id[key]
    arrangement, layout = planting.arrangement, placed.layout
    if not isinstance(arrangement, (Rows, StaggeredRows)):
        raise EditError(
            say("only what grows in rows has rows to change"), fix=say("Arrange it in rows first")
        )
    changes: dict[str, Any] = {}
    if number:
        changes["rows"] = min(max(layout.row_count + number, 1), MOST_ROWS)
    if in_row and layout.in_row_spacing is not None:
        changes["in_row_spacing"] = _stepped(layout.in_row_spacing, in_row, step)
    if between and layout.row_spacing is not None:
        changes["row_spacing"] = _stepped(layout.row_spacing, between, step)
    if turn:
        changes["turn"] = round((arrangement.turn + turn) % 180.0, 3)
    new = checked(lambda: arrangement.with_(**changes), planting.crop)
    return edits.change_planting(garden, key, arrangement=new)


def _stepped(spacing: float, by: float, step: float) -> float:
    new = spacing + by
    if step > 0:
        new = round(new / step) * step
    return round(max(new, LEAST_SPACING), 4)


def single_places(garden: Garden, key: str) -> tuple[tuple[float, float], ...]:
    """The places of a planting of single plants, in the bed's coordinates; none of any other. [m]"""
    arrangement = garden.plantings_by_id[key].arrangement
    return arrangement.points if isinstance(arrangement, Places) else ()
