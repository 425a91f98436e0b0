"""The growing year that a command is about where none is given."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planner.garden import Garden


def usual_year(garden: Garden, today: dt.date) -> int:
    """Return the latest growing year that has plantings, else the current one.

    Parameters
    ----------
    garden : Garden
    today : date
    """
    planted = garden.years()
    if planted:
        return planted[-1]
    return today.year - (today.month < garden.site.year_begins)


def years_planted(garden: Garden) -> str:
    """A sentence with the years that have plantings, a space before it; empty where none has."""
    years = ", ".join(str(year) for year in garden.years())
    return f" Years with plantings: {years}." if years else ""
