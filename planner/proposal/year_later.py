"""A planting once more, some years later."""

from __future__ import annotations

import datetime as dt

from planner.garden import Planting
from planner.garden.planting import PinnedDates


def a_year_later(planting: Planting, key: str, first: dt.date | None = None) -> Planting:
    """A planting that repeats another in the next growing year (see :func:`years_later`)."""
    return years_later(planting, key, first, 1)


def years_later(planting: Planting, key: str, first: dt.date | None, years: int) -> Planting:
    """A planting that repeats another, with the days that were given by hand some years later; it stands in no series.

    Parameters
    ----------
    planting : Planting
    key : str
        Id of the new one.
    first : date or None
        Its first day, where that was given by hand.
    years : int
        Negative for earlier years.
    """
    pins, rule = planting.pinned_dates, planting.soil_rule

    def later(day: dt.date | None) -> dt.date | None:
        return day_years_later(day, years) if day is not None else None

    return planting.with_(
        id=key,
        year=planting.year + years,
        first=later(first),
        last=later(planting.last),
        pinned_dates=PinnedDates(**{name: later(getattr(pins, name)) for name in type(pins).model_fields}),
        covers=tuple(
            cover.with_(first=later(cover.first), last=later(cover.last)) for cover in planting.covers
        ),
        soil_rule=rule.with_(after=day_years_later(rule.after, years)) if rule is not None else None,
        series=None,
        replaces=None,
        repeats=planting.id,
        came_from=None,
        notes="",
    )


def day_years_later(day: dt.date, years: int) -> dt.date:
    """The same day some years later; the last day of February after a leap day."""
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)
