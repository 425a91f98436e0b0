"""Succession: the same crop again and again, each sowing with its own dates and its own ground."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol, Self

import shapely

from planner.garden import Bed, Garden, PinnedDates, Planting, Plot, Stretch
from planner.garden import edits as e
from planner.ground.shapes import plot_polygon
from planner.ground.stretches import SLIVER, bed_length, free_stretches
from planner.season import practice
from planner.season.frosts import Frosts, shift
from planner.season.planting_dates import Dates
from planner.season.spans import Span
from planner.words import day_words, full_day_words, say

#: Most members of one series.
MOST_MEMBERS = 60


class PlanLike(Protocol):
    """The part of a plan that a series needs; :class:`planner.plan.Plan` has it."""

    garden: Garden

    @property
    def span(self) -> Span:
        """First and last day of the growing year."""
        ...

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
    """A succession that was made.

    Attributes
    ----------
    garden : Garden
        With the series in it.
    members : tuple of str
        Ids, in the order of their dates; the planting it began with comes first.
    left_out : tuple of LeftOut
    notes : tuple of str
        What to know of the whole series, a sentence each.
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
    plan : PlanLike
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
        raise e.EditError(say("every {days} days is no interval", days=days), fix=say("Give at least 1 day"))
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
    return _series(plan.after(garden), first, beds, starts)


def all_season(
    plan: PlanLike, key: str, first_day: dt.date, last_day: dt.date, beds: Sequence[str] = ()
) -> Series:
    """Start a crop so that it is picked from a first to a last day: each member follows when one is over.

    The planting the series begins with is moved so that its harvest begins on ``first_day``, or as
    soon after it as its window lets it start.

    Parameters
    ----------
    plan : PlanLike
    key : str
        Id of the planting the series begins with.
    first_day, last_day : date
        Between which it is to be picked.
    beds : sequence of str
        Further beds to look for ground in, after the planting's own.

    Raises
    ------
    planner.garden.edits.EditError
        Where the days are in the wrong order, or dates of the crop are not known.
    """
    if last_day < first_day:
        raise e.EditError(
            say(
                "the last day {last_day} is before the first {first_day}",
                last_day=last_day,
                first_day=first_day,
            )
        )
    starts, notes = _starts_for_harvests(plan, _planting(plan, key), first_day, last_day)
    made = on_days(plan, key, starts, beds)
    return Series(made.garden, made.members, made.left_out, (*notes, *made.notes))


def on_days(plan: PlanLike, key: str, starts: Sequence[dt.date], beds: Sequence[str] = ()) -> Series:
    """Start a crop on each of some days; the planting the series begins with is moved to the first of them.

    Parameters
    ----------
    plan : PlanLike
    key : str
        Id of the planting the series begins with.
    starts : sequence of date
        In order; at least one.
    beds : sequence of str
        Further beds to look for ground in, after the planting's own.
    """
    garden = e.change_planting(
        plan.garden,
        key,
        series=_series_id(_planting(plan, key)),
        first=starts[0],
        last=None,
        pinned_dates=PinnedDates(),
        timing=None,
    )
    moved = plan.after(garden)
    return _series(moved, _planting(moved, key), beds, starts[1:])


def _starts_for_harvests(
    plan: PlanLike, first: Planting, first_day: dt.date, last_day: dt.date
) -> tuple[list[dt.date], tuple[str, ...]]:
    """Starts whose harvests follow each other without a gap, and what to know of them in sentences.

    Where a start no longer ripens it is the last one: it is left out of the series with its reason.

    Parameters
    ----------
    plan : PlanLike
    first : Planting
    first_day, last_day : date
        Between which there is to be a harvest.
    """
    earliest = _earliest(plan, first)
    starts: list[dt.date] = []
    notes: tuple[str, ...] = ()
    target = first_day
    while target <= last_day and len(starts) < MOST_MEMBERS:
        start = _start(plan, _bare(first).with_(pinned_dates=PinnedDates(first_harvest=target)))
        if earliest is not None and start < earliest:
            start = earliest
        dates = plan.dates(_bare(first).with_(first=start))
        if not dates.ripens:
            if not starts:
                raise e.EditError(dates.doubts[-1], first.crop, say("Ask for an earlier harvest"))
            starts.append(start)
            break
        if dates.first_harvest is None or dates.last_harvest is None:
            raise e.EditError(
                say("its harvest is not known") if not dates.missing else dates.missing[0],
                first.crop,
                say("Give the variety's days to maturity and length of harvest"),
            )
        if not starts and dates.first_harvest.day > first_day:
            day = dates.first_harvest.day
            notes = (
                say(
                    "It cannot be picked before {day}: it starts on {day_2} at the earliest",
                    day=day_words(day),
                    day_2=day_words(start),
                ),
            )
        if starts and start <= starts[-1]:
            start = shift(starts[-1], 1)
            dates = plan.dates(_bare(first).with_(first=start))
        starts.append(start)
        over = dates.last_harvest.day if dates.last_harvest is not None else target
        target = shift(max(over, target), 1)
    return starts, notes


def usual_harvest(plan: PlanLike, key: str) -> tuple[dt.date, dt.date]:
    """First and last day of a series' harvest where none are named.

    From the first harvest of the planting it begins with until the first autumn frost; from the first and
    to the last day of the growing year where these are not known.

    Parameters
    ----------
    plan : PlanLike
    key : str
        Id of the planting the series begins with.
    """
    dates, frost = plan.dates(_planting(plan, key)), plan.frosts().autumn
    first = dates.first_harvest.day if dates.first_harvest is not None else plan.span.first
    return first, frost or plan.span.last


def _planting(plan: PlanLike, key: str) -> Planting:
    """The planting with an id; an error where there is none."""
    found = plan.garden.plantings_by_id.get(key)
    if found is None:
        raise e.EditError(say("there is no planting '{key}'", key=key))
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
    """The day a planting takes its plot; an error where it is not known."""
    dates = plan.dates(planting)
    if dates.on_plot is None:
        why = dates.missing[0] if dates.missing else say("its first day is not known")
        raise e.EditError(why, planting.crop, say("Give its first day by hand"))
    return dates.on_plot.day


def _earliest(plan: PlanLike, planting: Planting) -> dt.date | None:
    """The first day of its usual window; None where it is not known or the bed is under glass."""
    if plan.garden.beds_by_id[planting.bed].kind == "under glass":
        return None
    dates = plan.dates(_bare(planting))
    return dates.on_plot.day if dates.on_plot is not None else None


def _series(plan: PlanLike, first: Planting, beds: Sequence[str], starts: Sequence[dt.date]) -> Series:
    """Add a member for each start, as far as it ripens and finds ground that is free in its days.

    Parameters
    ----------
    plan : PlanLike
        With the planting the series begins with in its garden.
    first : Planting
    beds : sequence of str
        Further beds to look for ground in, after the planting's own.
    starts : sequence of date
        Of the members after the first.
    """
    in_beds = tuple(dict.fromkeys((first.bed, *beds)))
    members, left_out = [first.id], []
    for start in starts:
        added = _with_member(plan, first, in_beds, start)
        if isinstance(added, LeftOut):
            left_out.append(added)
        else:
            garden, member = added
            plan = plan.after(garden)
            members.append(member)
    notes = (
        (say("{number} of {members} were not made", number=len(left_out), members=len(starts) + 1),)
        if left_out
        else ()
    )
    return Series(plan.garden, tuple(members), tuple(left_out), notes)


def _with_member(
    plan: PlanLike, first: Planting, beds: Sequence[str], start: dt.date
) -> tuple[Garden, str] | LeftOut:
    """The garden with one more member and the member's id, or why it is not made.

    Parameters
    ----------
    plan : PlanLike
    first : Planting
        The planting the series begins with.
    beds : sequence of str
        Beds to look for ground in.
    start : date
    """
    trial = _bare(first).with_(first=start)
    dates = plan.dates(trial)
    unripe = _why_unripe(plan, trial, dates, start)
    if unripe:
        return LeftOut(start, unripe)
    span = plan.span_of(trial)
    for key in beds:
        bed = plan.garden.beds_by_id.get(key)
        plot = _free_plot(plan, bed, trial, span) if bed is not None else None
        if bed is None or plot is None:
            continue
        fields = {name: getattr(trial, name) for name in type(trial).model_fields}
        fields |= {"plot": plot, "series": _series_id(first)}
        for own in ("id", "bed", "crop", "year"):
            fields.pop(own)
        return e.add_planting(plan.garden, bed.id, trial.crop, trial.year, **fields)
    words = say(
        "no ground is free for it from {day} to {day_2}",
        day=day_words(span.first),
        day_2=day_words(span.last),
    )
    return LeftOut(
        start, say("{crop} started on {day}: {words}", crop=first.crop, day=day_words(start), words=words)
    )


def _why_unripe(plan: PlanLike, trial: Planting, dates: Dates, start: dt.date) -> str:
    """Why a member would not ripen this year, in a sentence; empty where it does.

    Parameters
    ----------
    plan : PlanLike
    trial : Planting
    dates : Dates
        Of the trial.
    start : date
    """
    if not dates.ripens:
        return dates.doubts[-1]
    if dates.first_harvest is None:
        return dates.missing[0] if dates.missing else say("its harvest is not known")
    frost = plan.frosts(trial.year).first_after(start)
    if frost is not None and dates.first_harvest.day > shift(frost, practice.BEYOND_WINTER):
        day = dates.first_harvest.day
        return say(
            "{crop} started on {day} would not ripen before {day_2}",
            crop=trial.crop,
            day=day_words(start),
            day_2=full_day_words(day),
        )
    return ""


def _free_plot(plan: PlanLike, bed: Bed, trial: Planting, span: Span) -> Plot | None:
    """The first stretch of free ground as long as the first member's; its own plot where that is free.

    Parameters
    ----------
    plan : PlanLike
    bed : Bed
        To look in.
    trial : Planting
    span : Span
        Days on which the ground must be free.
    """
    free = plan.free_in(bed, span)
    if bed.id == trial.bed:
        wanted = plot_polygon(bed, trial.plot)
        if wanted.area - shapely.intersection(wanted, free).area < SLIVER * SLIVER + 1e-4 * wanted.area:
            return trial.plot
    if trial.plot.kind == "region":
        return None
    if trial.plot.kind == "stretch":
        length = trial.plot.end - trial.plot.start
    else:
        length = bed_length(plan.garden.beds_by_id[trial.bed])
    for begin, end in free_stretches(bed, free):
        if end - begin >= length - 1e-6:
            return Stretch(start=round(begin, 6), end=round(begin + length, 6))
    return None
