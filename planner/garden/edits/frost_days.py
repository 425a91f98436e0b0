"""Setting frost dates by hand, one or several at a time."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Literal

from planner.garden.edits.common import EditError, checked
from planner.garden.edits.parts import change_climate
from planner.garden.garden import Garden
from planner.garden.site import DayOfYear, FrostDates, Risk, misordered
from planner.words import later, say
from planner.words.dates import day_of_year_words

FrostKind = Literal["last_frost", "first_frost"]

_MISORDERED = {
    "last_frost": later(
        "The last frost at {one} % risk, {first}, comes after that at {other} %, {second}; "
        "the greater the risk, the earlier is its day in spring"
    ),
    "first_frost": later(
        "The first frost at {one} % risk, {first}, comes after that at {other} %, {second}; "
        "the greater the risk, the later is its day in autumn"
    ),
}


def set_frost_days(garden: Garden, which: FrostKind, days: Mapping[Risk, DayOfYear | None]) -> Garden:
    """Set the frost dates at some risks, checked together; those at other risks stay as they are.

    A place that was without frost is so no longer.

    Parameters
    ----------
    garden : Garden
    which : str
        Last frost of spring, or first frost of autumn.
    days : mapping of int to str or None
        Days of the year, MM-DD, by the chance of frost after (in autumn: before) them; None: no longer known. [%]

    Raises
    ------
    EditError
        Where one is no day, or they would be in the wrong order.
    """
    old: FrostDates | None = getattr(garden.climate, which)
    after = {**(old.given if old is not None else {}), **days}
    given = {risk: day for risk, day in after.items() if day is not None}
    if not given:
        return change_climate(garden, **{which: None})
    for risk, day in given.items():  # each is a day, before their order is asked
        checked(partial(FrostDates.model_validate, {f"risk_{risk}": day}), say("frost dates"))
    wrong = misordered(given, spring=which == "last_frost")
    if wrong is not None:
        first, second = (day_of_year_words(given[risk]) for risk in wrong)
        message = say(_MISORDERED[which], one=wrong[0], first=first, other=wrong[1], second=second)
        raise EditError(message, fix=say("Mend one of the two"))
    return change_climate(
        garden, **{which: {f"risk_{r}": day for r, day in given.items()}, "frost_free": False}
    )
