"""Years side by side: what stood where in each growing year, and what its records tell of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import NamedTuple

import shapely

from planner.garden import Bed, Planting, RecordBase
from planner.garden.records import (
    CameUpRecord,
    EndedRecord,
    PickedRecord,
    SeenRecord,
    StageRecord,
    WorkRecord,
)
from planner.ground.shapes import plan_polygon
from planner.plan.plan import Plan
from planner.season.spans import Span, growing_year, year_span

#: Most growing years in which a planting that stays is listed.
MOST_YEARS = 60


class Stood(NamedTuple):
    """A planting in one growing year.

    Days are those that records tell; None where none does.

    Attributes
    ----------
    year : int
        Growing year.
    planting : Planting
    bed : Bed
    span : Span
        Days on its plot in that year, planned where nothing is recorded.
    begun, came_up, first, last, ended : date or None
        Sown or set out, came up, first and last picking, end.
    why : str
        Why it ended; empty where it did not, or nothing tells.
    lost : bool
    grams : float
        Picked and weighed in that year. [g]
    other_amounts : tuple of (float, str)
        Picked in other units, summed by unit.
    seed : tuple of (float, str)
        Seed that was used, summed by unit.
    harms : tuple of str
        What harmed it, each once.
    """

    year: int
    planting: Planting
    bed: Bed
    span: Span
    begun: dt.date | None
    came_up: dt.date | None
    first: dt.date | None
    last: dt.date | None
    ended: dt.date | None
    why: str
    lost: bool
    grams: float
    other_amounts: tuple[tuple[float, str], ...]
    seed: tuple[tuple[float, str], ...]
    harms: tuple[str, ...]


def years_side_by_side(
    plan: Plan,
    crop: str = "",
    bed: str = "",
    at: tuple[float, float] | None = None,
) -> tuple[Stood, ...]:
    """What stood in a garden, by growing year and bed.

    Parameters
    ----------
    plan : Plan
        Of any growing year.
    crop : str, optional
        Key of the crop; all where empty.
    bed : str, optional
        Id of a bed: what stood on its ground, in whatever bed that was.
    at : tuple of float, optional
        A place on the plan: what stood just there. [m]
    """
    garden = plan.garden
    known = garden.years()
    if not known:
        return ()
    ground = None
    if bed:
        ground = plan_polygon(garden.beds_by_id[bed].outline)
    point = shapely.Point(at) if at is not None else None
    found = []
    for planting in garden.plantings:
        if crop and planting.crop != crop:
            continue
        if point is not None and not _holds(plan, planting, point):
            continue
        if ground is not None and planting.bed != bed and not _shares(plan, planting, ground):
            continue
        found += list(_years_of(plan, planting, garden.records_of(planting.id), known[-1]))
    places = {one.id: number for number, one in enumerate(garden.beds)}
    found.sort(key=lambda one: (one.year, places[one.bed.id], one.span.first, one.planting.id))
    return tuple(found)


def _holds(plan: Plan, planting: Planting, point: shapely.Point) -> bool:
    return bool(shapely.intersects(plan.plot_on_plan(planting), point))


#: Ground that two beds share, below which they only touch. [m2]
_TOUCHING = 1e-4


def _shares(plan: Plan, planting: Planting, ground: shapely.Polygon) -> bool:
    """Whether a planting of another bed stood on some ground."""
    plot = plan.plot_on_plan(planting)
    return bool(shapely.intersects(plot, ground)) and plot.intersection(ground).area > _TOUCHING


def _years_of(plan: Plan, planting: Planting, records: Iterable[RecordBase], latest: int) -> Iterable[Stood]:
    """A planting in each growing year in which it stands, up to the latest of the garden."""
    site, told = plan.garden.site, tuple(records)
    span = plan.span_of(planting)
    first = growing_year(site, span.first)
    last = min(growing_year(site, span.last), max(latest, planting.year), first + MOST_YEARS)
    for year in range(first, max(first, last) + 1):
        days = year_span(site, year)
        here = Span(max(span.first, days.first), min(span.last, days.last))
        yield _stood(plan, planting, year, here, tuple(one for one in told if days.holds(one.day)))


def _stood(plan: Plan, planting: Planting, year: int, span: Span, records: tuple[RecordBase, ...]) -> Stood:
    grams, other, seed = 0.0, dict[str, float](), dict[str, float]()
    harms: dict[str, None] = {}
    days: dict[str, list[dt.date]] = {}
    why = ""
    for one in sorted(records, key=lambda record: record.day):
        match one:
            case PickedRecord():
                days.setdefault("picked", []).append(one.day)
                if one.amount.unit == "g":
                    grams += one.amount.value
                else:
                    other[one.amount.unit] = other.get(one.amount.unit, 0.0) + one.amount.value
            case WorkRecord() if one.task is not None:
                days.setdefault(one.task, []).append(one.day)
                if one.task == "sow" and one.amount is not None:
                    seed[one.amount.unit] = seed.get(one.amount.unit, 0.0) + one.amount.value
            case CameUpRecord() | StageRecord():
                days.setdefault(one.kind, []).append(one.day)
            case EndedRecord():
                days.setdefault("ended", []).append(one.day)
                why = one.why
            case SeenRecord():
                harms[one.harm] = None
            case _:
                pass
    picked = [
        *days.get("first picking", ()),
        *days.get("pick", ()),
        *days.get("lift and cure", ()),
        *days.get("picked", ()),
    ]
    lasts = [*days.get("last picking", ()), *days.get("picked", ())]
    begun = days.get("sow") or days.get("set out")
    ended = days.get("ended") or days.get("clear")
    outcome = plan.garden.outcome(planting)
    return Stood(
        year=year,
        planting=planting,
        bed=plan.bed_of(planting),
        span=span,
        begun=begun[0] if begun else None,
        came_up=days["came up"][0] if "came up" in days else None,
        first=min(picked) if picked else None,
        last=max(lasts) if lasts else None,
        ended=ended[-1] if ended else None,
        why=why,
        lost=bool(why) and outcome is not None and outcome.lost,
        grams=grams,
        other_amounts=tuple((value, unit) for unit, value in other.items()),
        seed=tuple((value, unit) for unit, value in seed.items()),
        harms=tuple(harms),
    )
