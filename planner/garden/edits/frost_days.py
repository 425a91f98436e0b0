"""Setting frost dates by hand, one day at a time."""

from __future__ import annotations

from typing import Literal

from planner.garden.edits.parts import change_climate
from planner.garden.garden import Garden
from planner.garden.site import DayOfYear, FrostDates, Risk

_RISKS: tuple[Risk, ...] = (10, 50, 90)


def set_frost_day(
    garden: Garden, which: Literal["last_frost", "first_frost"], risk: Risk, day: DayOfYear
) -> Garden:
    """Set the frost date at one risk; the two other risks start at the same day if the garden has none yet.

    A place that was without frost is so no longer.

    Parameters
    ----------
    garden : Garden
    which : str
        Last frost of spring, or first frost of autumn.
    risk : int
        Chance of frost after (in autumn: before) the day. [%]
    day : str
        Day of the year, MM-DD.

    Raises
    ------
    EditError
        Where it is no day, or the three days would be in the wrong order.
    """
    old: FrostDates | None = getattr(garden.climate, which)
    days = {f"risk_{each}": getattr(old, f"risk_{each}") if old is not None else day for each in _RISKS}
    days[f"risk_{risk}"] = day
    return change_climate(garden, **{which: days, "frost_free": False})
