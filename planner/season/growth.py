"""How high and broad a planting stands on a day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.crops import Crop
from planner.garden.planting_figures import PlantingFigures
from planner.season.planting_dates import Dates
from planner.season.spans import Span

#: Share of its size a plant has when it is set out, crowns and standing plants apart (estimate).
SET_OUT_SIZE = 0.15
#: Growing time where no harvest is known. [days]
USUAL = 70
#: What stands for years comes up again within so many days, from so many before its harvest (estimate).
RISE = 60
#: Of a woody or evergreen plant this share stands all winter; of the others nothing.
_WOODY = {"shrub": 1.0, "cane": 0.8, "mat": 0.5, "climber": 0.3}


@dataclass(frozen=True)
class Size:
    """Height and spread of each plant. [m]

    ``share`` is the part of its full size it has reached, 0 (bare bed) to 1.
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
    facts : PlantingFigures
        Height and spread when grown; 0.3 m and the in-row spacing where they are not known.
    dates : Dates
    span : Span
        Days on its plot; before and after there is nothing.
    day : date
    """
    if not span.holds(day):
        return BARE
    share = _share(figures.crop, dates, span, day)
    height = figures.number("height") or 0.3
    spread = figures.number("spread") or figures.number("in_row_spacing") or 0.3
    return Size(height * share, spread * share, share)


def _share(crop: Crop | None, dates: Dates, span: Span, day: dt.date) -> float:
    if dates.stays_for_years and dates.start != "sown":
        return _through_the_year(crop, dates, span, day)
    if dates.start == "standing":
        return 1.0
    up = dates.emerge.day if dates.emerge is not None else span.first
    grown = dates.first_harvest.day if dates.first_harvest is not None else up + dt.timedelta(days=USUAL)
    if grown <= up:
        return 1.0
    share = s_curve((day - up).days / (grown - up).days)
    if dates.start in ("raised", "bought"):
        return max(share, SET_OUT_SIZE)
    return share


def _through_the_year(crop: Crop | None, dates: Dates, span: Span, day: dt.date) -> float:
    """Up in spring, down after the last harvest, by the days of the year; woody plants stay."""
    winter = _WOODY.get(crop.growth_form, 0.0) if crop is not None else 0.0
    if dates.first_harvest is None or dates.last_harvest is None:
        since = (day - span.first).days
        return max(winter * s_curve(since / 365), s_curve(since / USUAL) if since < 200 else 1.0)
    first, last = dates.first_harvest.day, dates.last_harvest.day
    since = (day - first).days % 365  # days since this year's first harvest
    length = (last - first).days
    if since <= length + RISE:
        share = 1.0
    elif since >= 365 - RISE:
        share = s_curve((since - (365 - RISE)) / RISE)
    else:
        share = max(0.0, 1 - s_curve((since - length - RISE) / RISE))
    return winter + (1 - winter) * share
