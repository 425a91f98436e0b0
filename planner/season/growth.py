"""Height and spread of a planting by day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.crops import Crop
from planner.garden.planting_figures import PlantingFigures
from planner.season.planting_dates import Dates
from planner.season.spans import Span

#: Share of its full size that a raised or bought plant has when it is set out (estimate).
SET_OUT_SIZE = 0.15
#: From emergence to full size where no harvest is known. [days]
GROWING_DAYS = 70
#: Days of spring regrowth before, and of die-back after, a perennial's harvest (estimate). [days]
REGROWTH = 60
#: Share of their size that woody and evergreen forms keep all winter; others die back to the ground.
_WINTER_SHARE = {"shrub": 1.0, "cane": 0.8, "mat": 0.5, "climber": 0.3}


@dataclass(frozen=True)
class Size:
    """Size of each plant of a planting on a day.

    Attributes
    ----------
    height, spread : float
        [m]
    share : float
        Part of its full size it has reached, 0 (bare bed) to 1.
    """

    height: float
    spread: float
    share: float


BARE = Size(0.0, 0.0, 0.0)


def s_curve(share: float) -> float:
    """Smooth rise from 0 at 0 to 1 at 1, level at both ends.

    Examples
    --------
    >>> s_curve(0.0), s_curve(0.5), s_curve(1.0)
    (0.0, 0.5, 1.0)
    """
    at = min(max(share, 0.0), 1.0)
    return at * at * (3 - 2 * at)


def size_on(figures: PlantingFigures, dates: Dates, span: Span, day: dt.date) -> Size:
    """Size of a planting's plants on a day: an S-curve from emergence to the first harvest.

    Parameters
    ----------
    figures : PlantingFigures
        Height and spread when grown; 0.3 m and the in-row spacing where they are not known.
    dates : Dates
    span : Span
        Days on its plot; before and after there is nothing.
    day : date
    """
    if not span.holds(day):
        return BARE
    share = _share_of_full_size(figures.crop, dates, span, day)
    height = figures.number("height") or 0.3
    spread = figures.number("spread") or figures.number("in_row_spacing") or 0.3
    return Size(height * share, spread * share, share)


def highest_between(
    figures: PlantingFigures, dates: Dates, span: Span, first: dt.date, last: dt.date
) -> float:
    """How high a planting's plants stand at most on the days of a span, both included. [m]

    Parameters
    ----------
    figures : PlantingFigures
    dates : Dates
    span : Span
        Days on its plot.
    first, last : date
    """
    days = [first, min(last, span.last)]
    grown = dates.first_harvest
    if grown is not None and first <= grown.day <= last:
        days.append(grown.day)
    return max(size_on(figures, dates, span, day).height for day in days)


def _share_of_full_size(crop: Crop | None, dates: Dates, span: Span, day: dt.date) -> float:
    if dates.stays_for_years and dates.start != "sown":
        return _share_of_perennial(crop, dates, span, day)
    if dates.start == "standing":
        return 1.0
    up = dates.emerge.day if dates.emerge is not None else span.first
    harvest = dates.first_harvest
    grown = harvest.day if harvest is not None else up + dt.timedelta(days=GROWING_DAYS)
    if grown <= up:
        return 1.0
    share = s_curve((day - up).days / (grown - up).days)
    if dates.start in ("raised", "bought"):
        return max(share, SET_OUT_SIZE)
    return share


def _share_of_perennial(crop: Crop | None, dates: Dates, span: Span, day: dt.date) -> float:
    """Up in spring and down after the last harvest, by the day of the year; woody plants keep their size."""
    if dates.first_harvest is None or dates.last_harvest is None:
        return s_curve((day - span.first).days / GROWING_DAYS)
    first, last = dates.first_harvest.day, dates.last_harvest.day
    since = (day - first).days % 365  # days since the first harvest of the year
    length = (last - first).days
    if since <= length + REGROWTH:
        share = 1.0
    elif since >= 365 - REGROWTH:
        share = s_curve((since - (365 - REGROWTH)) / REGROWTH)
    else:
        share = max(0.0, 1 - s_curve((since - length - REGROWTH) / REGROWTH))
    winter = _WINTER_SHARE.get(crop.growth_form, 0.0) if crop is not None else 0.0
    return winter + (1 - winter) * share
