"""A planting once more, a year later."""

from __future__ import annotations

import datetime as dt

from planner.garden import Planting
from planner.garden.planting import PinnedDates


def a_year_later(planting: Planting, key: str, first: dt.date | None = None) -> Planting:
    """A planting that repeats another, with the days that were given by hand a year later; it stands in no series.

    Parameters
    ----------
    planting : Planting
    key : str
        Id of the new one.
    first : date, optional
        Its first day, where that was given by hand.
    """
    pins = planting.pinned_dates
    moved = {
        name: next_year(day) for name in type(pins).model_fields if (day := getattr(pins, name)) is not None
    }
    return planting.with_(
        id=key,
        year=planting.year + 1,
        first=next_year(first) if first is not None else None,
        last=next_year(planting.last) if planting.last is not None else None,
        pinned_dates=PinnedDates(**moved),
        covers=tuple(
            cover.with_(
                first=next_year(cover.first) if cover.first is not None else None,
                last=next_year(cover.last) if cover.last is not None else None,
            )
            for cover in planting.covers
        ),
        series=None,
        replaces=None,
        repeats=planting.id,
        came_from=None,
        notes="",
    )


def next_year(day: dt.date) -> dt.date:
    """The same day a year later; the last day of February after a leap day."""
    try:
        return day.replace(year=day.year + 1)
    except ValueError:
        return day.replace(year=day.year + 1, day=28)
