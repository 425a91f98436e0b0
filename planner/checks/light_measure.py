"""Direct sun of plantings over their growing days, measured coarsely or fully, and what takes it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

import shapely

from planner.checks.frame.planting_view import PlantingView, shared
from planner.light import Caster, Place, Receiver, Shade, SunHours, common_days, sample_days, shade_sources
from planner.plan import Plan
from planner.plan.cache import fact
from planner.plan.light import receiver_of, sun_hours
from planner.season.spans import Span

#: Least days in the lighter half of the year that are judged: needs are those of growing plants. [days]
LEAST_DAYS = 21
#: Days by which the days of a planting are represented in the full pass.
SAMPLES = 5
#: Of more plantings the light of each day is not kept: that takes some kilobytes for each, and a run knows what it found.
MOST_KEPT = 1_000
#: Days from one sample of the coarse pass to the next. [days]
COARSE_DAYS = 20


def growing_days(plan: Plan, view: PlantingView) -> Span | None:
    """The days of a planting in the lighter half of the growing year; None if those are too few to judge.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    """
    southern = plan.garden.site.southern
    found: list[Span] = []
    for year in range(plan.span.first.year - 1, plan.span.last.year + 1):
        first, last = (
            (dt.date(year, 9, 23), dt.date(year + 1, 3, 21))
            if southern
            else (dt.date(year, 3, 21), dt.date(year, 9, 22))
        )
        light = shared(Span(first, last), plan.span)
        days = shared(light, view.span) if light is not None else None
        if days is not None and days.days >= LEAST_DAYS:
            found.append(days)
    return max(found, key=lambda days: days.days, default=None)


class Measure(NamedTuple):
    """How closely light is measured.

    Attributes
    ----------
    step : float
        [min]
    cell : float
        Side of the cells, at most. [m]
    """

    step: float
    cell: float


COARSE, FULL = Measure(30, 0.30), Measure(10, 0.10)


@lru_cache(maxsize=4096)
def full_days(span: Span) -> tuple[tuple[dt.date, float], ...]:
    """The days by which a span is represented in the full pass; cached, since most plantings share theirs."""
    return sample_days(span, SAMPLES)


@lru_cache(maxsize=4096)
def coarse_days(span: Span) -> tuple[tuple[dt.date, float], ...]:
    """The days by which a span is represented in the coarse pass."""
    return common_days(span, COARSE_DAYS)


def _same_ground(plan: Plan, view: PlantingView) -> tuple[str, ...]:
    """Ids of plantings on the ground of another: their shade is meant, or reported by ``overlap``."""
    return tuple(
        other.id
        for other in plan.in_bed(view.bed)
        if other.id != view.id
        and shared(view.span, plan.span_of(other)) is not None
        and view.placed.plot.intersects(plan.placed(other).plot)
    )


def _receiver(plan: Plan, view: PlantingView) -> Receiver:
    """A planting as what light falls on; what grows on its own ground does not shade it."""
    return receiver_of(plan, view.planting, _same_ground(plan, view))


def measured(plan: Plan, judged: Iterable[tuple[PlantingView, Span]]) -> dict[str, SunHours]:
    """Light of some plantings over some of their days, fully measured; by their ids.

    Parameters
    ----------
    plan : Plan
    judged : iterable of (PlantingView, Span)
    """
    wanted = [(_receiver(plan, view), full_days(span)) for view, span in judged]
    return sun_hours(plan, wanted, *FULL)


def coarsely_measured(plan: Plan, judged: Iterable[tuple[PlantingView, Span]]) -> dict[str, SunHours]:
    """Light of some plantings on days that they share, by their ids.

    Parameters
    ----------
    plan : Plan
    judged : iterable of (PlantingView, Span)
    """
    wanted = [(_receiver(plan, view), coarse_days(span)) for view, span in judged]
    return sun_hours(plan, wanted, *COARSE, keep=len(plan.plantings) <= MOST_KEPT)


class ShadeInputs(NamedTuple):
    """What the shade on a planting depends on.

    Attributes
    ----------
    shape : shapely.Geometry
        Its plot on the plan. [m]
    heights : tuple of float
        On each of the days. [m]
    place : Place
    days : tuple of (date, float)
    shading : tuple of tuple of Caster
        For each of the days, what can shade it.
    weighed : bool
        Whether hours are weighed by the height of the sun.
    """

    shape: shapely.Geometry
    heights: tuple[float, ...]
    place: Place
    days: tuple[tuple[dt.date, float], ...]
    shading: tuple[tuple[Caster, ...], ...]
    weighed: bool


@fact("shade sources")
def shade_on_planting(inputs: ShadeInputs) -> tuple[Shade, ...]:
    """What takes sun from a planting, the most first."""
    height = dict(zip((day for day, _ in inputs.days), inputs.heights, strict=True))
    casters = dict(zip((day for day, _ in inputs.days), inputs.shading, strict=True))
    receiver = Receiver("", inputs.shape, height.__getitem__)
    return shade_sources(receiver, inputs.place, inputs.days, casters.__getitem__, weighed=inputs.weighed)


def shades_of(
    plan: Plan, place: Place, judged: tuple[PlantingView, Span], sun: SunHours, weighed: bool
) -> tuple[Shade, ...]:
    """What takes sun from a planting, the most first.

    Parameters
    ----------
    plan : Plan
    place : Place
        Where the garden lies.
    judged : (PlantingView, Span)
        The planting, and its growing days.
    sun : SunHours
        Its light, fully measured.
    weighed : bool
        Whether hours are weighed by the height of the sun.
    """
    view, span = judged
    receiver, days = _receiver(plan, view), full_days(span)
    heights = tuple(receiver.height_on(day) for day, _ in days)
    inputs = ShadeInputs(receiver.shape, heights, place, days, sun.shading, weighed)
    return plan.cached(shade_on_planting, view.id, inputs)
