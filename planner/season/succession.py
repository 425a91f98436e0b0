"""Succession: the same crop again and again, each sowing with its own dates and its own ground."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol, Self

import shapely

from planner.garden import Bed, Garden, PinnedDates, Planting, Plot, Stretch
from planner.garden import edits as e
from planner.ground.shapes import bed_axis, bed_polygon, plot_polygon, turned
from planner.season.frosts import Frosts, shift
from planner.season.planting_dates import Dates
from planner.season.spans import Span

#: Most members of one series.
MOST_MEMBERS = 60
#: Ground narrower than this is no hindrance. [m]
SLIVER = 0.01
#: A crop sown for this year is not to stand until spring. [days after the first autumn frost]
NEXT_YEAR = 120


class PlanLike(Protocol):
    """What a series asks of a plan (:class:`planner.plan.Plan` is one)."""

    garden: Garden

    def after(self, garden: Garden, year: int | None = None) -> Self: ...
    def dates(self, planting: Planting) -> Dates: ...
    def span_of(self, planting: Planting) -> Span: ...
    def frosts(self, year: int | None = None) -> Frosts: ...
    def free_in(self, bed: Bed, span: Span, leaving_out: Iterable[str] = ()) -> shapely.Geometry: ...


@dataclass(frozen=True)
class LeftOut:
    """A member that is not made, and why."""

    start: dt.date
    why: str


@dataclass(frozen=True)
class Series:
    """A succession as it was made.

    Attributes
    ----------
    garden : Garden
        With the series in it.
    members : tuple of str
        Ids, in the order of their dates; the planting it began with comes first.
    left_out : tuple of LeftOut
    notes : tuple of str
        What the whole series has to say, a sentence each.
    """

    garden: Garden
    members: tuple[str, ...]
    left_out: tuple[LeftOut, ...] = ()
    notes: tuple[str, ...] = ()


def every(
    plan: PlanLike, key: str, days: int, until: dt.date | None = None, beds: Sequence[str] = ()
) -> Series:
    """Start a planting's crop again every so many days, as long as it still ripens.

    Parameters
    ----------
    plan : Plan
    key : str
        Id of the planting the series begins with.
    days : int
        From start to start; at least 1.
    until : date, optional
        Last start; the day before the first autumn frost by default.
    beds : sequence of str
        Further beds to look for ground in, after the planting's own.

    Raises
    ------
    planner.garden.edits.EditError
        Where the planting's own dates are not known.
    """
    if days < 1:
        raise e.EditError(f"every {days} days is no interval", mend="Give at least 1 day")
    first = _planting(plan, key)
    begin = _start(plan, first)
    frost = plan.frosts(first.year).first_after(begin)
    end = until or (shift(frost, -1) if frost is not None else shift(begin, 365))
    starts: list[dt.date] = []
    at = shift(begin, days)
    while at <= end and len(starts) < MOST_MEMBERS - 1:
        starts.append(at)
        at = shift(at, days)
    garden = e.change_planting(plan.garden, key, series=_series_id(first))
    return SeriesBuilder(plan.after(garden), first, beds).all(starts)


def all_season(
    plan: PlanLike, key: str, first_day: dt.date, last_day: dt.date, beds: Sequence[str] = ()
) -> Series:
    """Keep a crop to be picked from a first to a last day: each member follows when one is over.

    The planting the series begins with is moved so that its harvest begins on ``first_day``, or as
    soon after it as its window lets it start.

    Raises
    ------
    planner.garden.edits.EditError
        Where the days are in the wrong order, or dates of the crop are not known.
    """
    if last_day < first_day:
        raise e.EditError(f"the last day {last_day} is before the first {first_day}")
    first = _planting(plan, key)
    earliest = _earliest(plan, first)
    starts: list[dt.date] = []
    notes: list[str] = []
    target = first_day
    while target <= last_day and len(starts) < MOST_MEMBERS:
        wanted = _bare(first).with_(pinned_dates=PinnedDates(first_harvest=target))
        start = _start(plan, wanted)
        if earliest is not None and start < earliest:
            start = earliest
        dates = plan.dates(_bare(first).with_(first=start))
        if not dates.ripens:
            if not starts:
                raise e.EditError(dates.doubts[-1], first.crop, "Ask for an earlier harvest")
            starts.append(start)  # the maker says why it is not made; none after it would be either
            break
        if dates.first_harvest is None or dates.last_harvest is None:
            raise e.EditError(
                "its harvest is not known" if not dates.missing else dates.missing[0],
                first.crop,
                "Give the variety's days to maturity and length of harvest",
            )
        if not starts and dates.first_harvest.day > first_day:
            notes.append(
                f"It cannot be picked before {dates.first_harvest.day:%d %b}: it starts on {start:%d %b} at the earliest"
            )
        if starts and start <= starts[-1]:
            start = shift(starts[-1], 1)
            dates = plan.dates(_bare(first).with_(first=start))
        starts.append(start)
        over = dates.last_harvest.day if dates.last_harvest is not None else target
        target = shift(max(over, target), 1)
    garden = e.change_planting(
        plan.garden,
        key,
        series=_series_id(first),
        first=starts[0],
        last=None,
        pinned_dates=PinnedDates(),
        timing=None,
    )
    made = SeriesBuilder(plan.after(garden), _planting(plan.after(garden), key), beds).all(starts[1:])
    return Series(made.garden, made.members, made.left_out, (*notes, *made.notes))


def _planting(plan: PlanLike, key: str) -> Planting:
    found = plan.garden.plantings_by_id.get(key)
    if found is None:
        raise e.EditError(f"there is no planting '{key}'")
    return found


def _series_id(planting: Planting) -> str:
    return planting.series or f"series-{planting.id}"


def _bare(planting: Planting) -> Planting:
    """The same planting without days given by hand."""
    return planting.with_(
        first=None,
        last=None,
        pinned_dates=PinnedDates(),
        timing=None,
        covers=tuple(cover.with_(first=None, last=None) for cover in planting.covers),
    )


def _start(plan: PlanLike, planting: Planting) -> dt.date:
    dates = plan.dates(planting)
    if dates.on_plot is None:
        why = dates.missing[0] if dates.missing else "its first day is not known"
        raise e.EditError(why, planting.crop, "Give its first day by hand")
    return dates.on_plot.day


def _earliest(plan: PlanLike, planting: Planting) -> dt.date | None:
    """The first day of its usual window; None where it is not known or the bed is under glass."""
    if plan.garden.beds_by_id[planting.bed].kind == "under glass":
        return None
    dates = plan.dates(_bare(planting))
    return dates.on_plot.day if dates.on_plot is not None else None


class SeriesBuilder:
    """Adds members one by one, each on ground that is free in its own days."""

    def __init__(self, plan: PlanLike, first: Planting, beds: Sequence[str]) -> None:
        self.plan, self.first = plan, first
        self.beds = list(dict.fromkeys((first.bed, *beds)))
        self.members = [first.id]
        self.left_out: list[LeftOut] = []

    def all(self, starts: Sequence[dt.date]) -> Series:
        """Make a member for each start, as far as it ripens and finds ground."""
        for start in starts:
            self.make(start)
        left = len(self.left_out)
        notes = (f"{left} of {len(starts) + 1} were not made",) if left else ()
        return Series(self.plan.garden, tuple(self.members), tuple(self.left_out), notes)

    def make(self, start: dt.date) -> None:
        """Make one member, or say why not."""
        trial = _bare(self.first).with_(first=start)
        dates = self.plan.dates(trial)
        why = self.unripe(trial, dates, start)
        if why:
            self.left_out.append(LeftOut(start, why))
            return
        span = self.plan.span_of(trial)
        for key in self.beds:
            bed = self.plan.garden.beds_by_id.get(key)
            plot = self.plot_in(bed, trial, span) if bed is not None else None
            if bed is None or plot is None:
                continue
            fields = {name: getattr(trial, name) for name in type(trial).model_fields}
            fields |= {"plot": plot, "series": _series_id(self.first)}
            for own in ("id", "bed", "crop", "year"):
                fields.pop(own)
            garden, member = e.add_planting(self.plan.garden, bed.id, trial.crop, trial.year, **fields)
            self.plan = self.plan.after(garden)
            self.members.append(member)
            return
        words = f"no ground is free for it from {span.first:%d %b} to {span.last:%d %b}"
        self.left_out.append(LeftOut(start, f"{self.first.crop} started on {start:%d %b}: {words}"))

    def unripe(self, trial: Planting, dates: Dates, start: dt.date) -> str:
        """Why a member would not ripen; empty where it does."""
        if not dates.ripens:
            return dates.doubts[-1]
        if dates.first_harvest is None:
            return dates.missing[0] if dates.missing else "its harvest is not known"
        frost = self.plan.frosts(trial.year).first_after(start)
        if frost is not None and dates.first_harvest.day > shift(frost, NEXT_YEAR):
            day = dates.first_harvest.day
            return f"{trial.crop} started on {start:%d %b} would not ripen before {day:%d %b %Y}"
        return ""

    def plot_in(self, bed: Bed, trial: Planting, span: Span) -> Plot | None:
        """The first stretch of free ground as long as the first member's; its own plot where that is free."""
        free = self.plan.free_in(bed, span)
        own = self.plan.garden.beds_by_id[trial.bed]
        if bed.id == trial.bed:
            wanted = plot_polygon(bed, trial.plot)
            if wanted.area - shapely.intersection(wanted, free).area < SLIVER * SLIVER + 1e-4 * wanted.area:
                return trial.plot
        if trial.plot.kind == "region":
            return None
        length = trial.plot.end - trial.plot.start if trial.plot.kind == "stretch" else _length(own)
        for begin, end in free_stretches(bed, free):
            if end - begin >= length - 1e-6:
                return Stretch(start=round(begin, 6), end=round(begin + length, 6))
        return None


def _length(bed: Bed) -> float:
    left, _, right, _ = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
    return float(right - left)


def free_stretches(bed: Bed, free: shapely.Geometry) -> list[tuple[float, float]]:
    """Stretches of a bed's length that are free over its whole width.

    Returns
    -------
    list of (float, float)
        From and to, along the bed from its beginning. [m]
    """
    axis = -bed_axis(bed.outline)
    whole = turned(bed_polygon(bed), axis)
    left, _, right, _ = shapely.bounds(whole)
    taken = shapely.difference(whole, turned(free, axis).buffer(SLIVER / 2, join_style="mitre"))
    blocks = sorted(
        (float(part.bounds[0]), float(part.bounds[2]))
        for part in shapely.get_parts(taken)
        if part.area > SLIVER * SLIVER
    )
    found, at = [], float(left)
    for begin, end in blocks:
        # the free ground was widened a little so that slivers do not count: take that off again
        begin, end = begin - SLIVER / 2, end + SLIVER / 2
        if begin - at > SLIVER:
            found.append((max(0.0, at - float(left)), begin - float(left)))
        at = max(at, end)
    if float(right) - at > SLIVER:
        found.append((max(0.0, at - float(left)), float(right - left)))
    return found
