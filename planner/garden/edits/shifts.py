"""Moving the days of a planting: its first day, its last day, or all of them together."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from planner.garden.edits.common import EditError
from planner.garden.edits.plantings import change_planting
from planner.garden.garden import Garden
from planner.garden.planting import Planting
from planner.words import say

#: Which days are moved: the first, the last, or all that are pinned, and the first.
ShiftedPart = Literal["start", "end", "all"]
#: Days set by hand that belong to the start of a planting.
START_PINS = ("sow", "prick_out", "pot_on", "harden_off", "set_out", "thin", "support_up")
_DAY = dt.timedelta(days=1)


def shift_planting(
    garden: Garden, key: str, part: ShiftedPart, days: int, first: dt.date, last: dt.date
) -> Garden:
    """Pin a planting's days so many days from where they are.

    A planting that is moved as a whole keeps a computed last day computed. Pinned dates move along.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    part : str
        ``start`` pins the first day, ``end`` the last; ``all`` moves every pinned day and pins the first.
    days : int
        Later; earlier if negative. [days]
    first, last : date
        Its first and last day on its plot now, as the plan has them. At least one day remains.

    Raises
    ------
    EditError
        If there is no such planting, or the days would be in the wrong order.
    """
    planting = garden.plantings_by_id.get(key)
    if planting is None:
        raise EditError(say("there is no planting '{key}'", key=key))
    by = _DAY * days
    if part == "end":
        return change_planting(garden, key, last=max(last + by, first + _DAY))
    if part == "start":
        return change_planting(garden, key, first=min(first + by, last - _DAY))
    return change_planting(garden, key, first=first + by, **_moved_pins(planting, by))


def started_on(planting: Planting, day: dt.date, by: int) -> dict[str, object]:
    """Fields of a planting that starts on another day: the days of its start that were set by hand move along.

    Parameters
    ----------
    planting : Planting
    day : date
        On which it takes its plot.
    by : int
        Days that it is moved by; negative for sooner.
    """
    pins = planting.pinned_dates
    moved = {name: day_ + _DAY * by for name in START_PINS if (day_ := getattr(pins, name)) is not None}
    return {"first": day, "pinned_dates": pins.with_(**moved) if moved else pins}


def _moved_pins(planting: Planting, by: dt.timedelta) -> dict[str, object]:
    fields: dict[str, object] = {}
    if planting.last is not None:
        fields["last"] = planting.last + by
    pins = planting.pinned_dates
    moved = {n: day + by for n in type(pins).model_fields if (day := getattr(pins, n)) is not None}
    if moved:
        fields["pinned_dates"] = pins.with_(**moved)
    return fields
