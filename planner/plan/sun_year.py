"""Hours of direct sun of one bed or planting: on a day, month by month, and what shades it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from planner.garden import Bed, Planting
from planner.light import AreaSunHours, Days, Shade, hours_over, on_day, sample_days, shade_sources
from planner.plan import Plan
from planner.season.spans import Span

#: Days on which the sun is measured over the span of a planting.
SAMPLES = 6
#: The day of a month that stands for it.
MID_MONTH = 15
#: Most sources of shade that are named.
MOST_SOURCES = 3


@dataclass(frozen=True)
class SunYear:
    """Direct sun of a bed or planting.

    Attributes
    ----------
    key : str
        Id of the bed or planting.
    on_day : AreaSunHours or None
        On the day asked for; None where it has no ground.
    over_span : AreaSunHours or None
        Of a planting: a mean day of its span within the growing year.
    months : tuple of (date, AreaSunHours)
        A day in the middle of each month of the growing year; of a planting only while it grows.
    sources : tuple of Shade
        Of a planting: what takes most of its sun, the worst first.
    """

    key: str
    on_day: AreaSunHours | None = None
    over_span: AreaSunHours | None = None
    months: tuple[tuple[dt.date, AreaSunHours], ...] = ()
    sources: tuple[Shade, ...] = ()


def sun_year(
    plan: Plan, thing: Bed | Planting, day: dt.date, cancelled: Callable[[], bool] = lambda: False
) -> SunYear | None:
    """Measure the direct sun of a bed or planting over the growing year.

    Parameters
    ----------
    plan : Plan
    thing : Bed or Planting
    day : date
        The day measured besides the months.
    cancelled : callable
        Asked now and then; True ends the work.

    Returns
    -------
    SunYear or None
        None where it was cancelled.

    Raises
    ------
    planner.light.PlaceError
        While the garden's latitude is not known.
    """
    place, receiver = plan.place, plan.ground_of(thing)
    if receiver.shape.is_empty:
        return SunYear(thing.id)

    def light(days: Days) -> AreaSunHours | None:
        return hours_over([receiver], place, days, plan.casters, cancelled=cancelled).get(thing.id)

    months = []
    for middle in _months(plan, thing):
        found = light(on_day(middle))
        if cancelled():
            return None
        if found is not None:
            months.append((middle, found))
    over: AreaSunHours | None = None
    sources: tuple[Shade, ...] = ()
    span = _within(plan.span_of(thing), plan.span) if isinstance(thing, Planting) else None
    if span is not None:
        days = sample_days(span, SAMPLES)
        over = light(days)
        if cancelled():
            return None
        sources = shade_sources(receiver, place, days, plan.casters)[:MOST_SOURCES]
    if cancelled():
        return None
    return SunYear(thing.id, light(on_day(day)), over, tuple(months), sources)


def _months(plan: Plan, thing: Bed | Planting) -> list[dt.date]:
    """The middle of each month of the growing year in which a bed or planting is there."""
    begins = plan.span.first
    middles = []
    for number in range(12):
        month = (begins.month - 1 + number) % 12 + 1
        middles.append(dt.date(begins.year + (month < begins.month), month, MID_MONTH))
    if isinstance(thing, Planting):
        span = plan.span_of(thing)
        return [middle for middle in middles if _grows_in_month(span, middle)]
    return middles


def _grows_in_month(span: Span, middle: dt.date) -> bool:
    return span.first <= middle + dt.timedelta(days=15) and span.last >= middle - dt.timedelta(days=14)


def _within(span: Span, year: Span) -> Span | None:
    """The part of a span that lies in the growing year; None where it has none."""
    first, last = max(span.first, year.first), min(span.last, year.last)
    return Span(first, last) if first <= last else None
