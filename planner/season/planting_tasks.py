"""The work on one planting, from its dates.

What the work amounts to (stations, seed, material) is worked out above this room and handed in.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple, cast

from planner.crops import Crop
from planner.crops.aftercare import TASKS
from planner.garden import Bed, Planting
from planner.garden.edits.ticks import YEARLY, of_another_year
from planner.garden.planting import COVER_WORK, Work
from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_mass
from planner.garden.volumes import show_volume
from planner.season import practice
from planner.season.container_words import filled_words
from planner.season.frosts import shift
from planner.season.planting_dates import Dated, Dates
from planner.season.raising import Fill
from planner.season.tasks import WORK_ORDER, Extent, Task
from planner.words import day_words, later, say

#: Putting guards on and taking them off.
_GUARDING = {
    "brushwood": (
        later("Lay brushwood over {crop} in {bed} against birds and cats"),
        later("Take the brushwood off {crop} in {bed}"),
    ),
    "collar": (
        later("Lay a collar about each stem of {crop} in {bed} against root flies"),
        later("Take up the collars of {crop} in {bed}"),
    ),
    "slug ring": (
        later("Press a ring about each plant of {crop} in {bed} against slugs"),
        later("Take up the slug rings of {crop} in {bed}"),
    ),
    "vole basket": (
        later("Set {crop} in {bed} in baskets of wire mesh against voles"),
        later("Lift the wire baskets of {crop} in {bed}"),
    ),
}
#: Days for which a cover without an end is opened at need. [days]
_VENTED_FOR = 60


class _Subject(NamedTuple):
    """What the work on one planting is worded with.

    Attributes
    ----------
    planting : Planting
    bed : Bed
    crop : str
        As shown.
    dates : Dates
    extent : Extent
        How much there is to do.
    done : mapping of str to date
        Real dates of the work done, by kind.
    units : {"metric", "feet_inches"}
    times : mapping of str to tuple of date
        Of each kind of work all days on which it was done.
    over : bool
        Whether its picking is known to be over.
    """

    planting: Planting
    bed: Bed
    crop: str
    dates: Dates
    extent: Extent
    done: Mapping[str, dt.date]
    units: UnitSystem
    times: Mapping[str, tuple[dt.date, ...]]
    over: bool

    @property
    def sort(self) -> str:
        """Crop and variety as shown."""
        return f"{self.crop} {self.planting.variety}".strip()

    def stations(self, kind: str, at: Dated | None) -> int:
        """Plants of a kind of work on its day: those that are left of what was lost until then.

        What was done is told of what was there before that day's losses; seed is sown for all of them.
        """
        done = self.done.get(kind)
        day = done or (at.day if at is not None else None)
        if kind == "sow" or day is None:
            return self.extent.stations
        before = [plants for lost, plants in self.extent.left if (lost < day if done else lost <= day)]
        return before[-1] if before else self.extent.stations

    def fill(self, kind: str, at: Dated | None) -> Fill | None:
        """What is filled for a kind of work on its day, of plants that are moved for those that are left."""
        fill, whole, left = self.extent.fill(kind), self.extent.stations, self.stations(kind, at)
        if fill is None or not whole or left >= whole:
            return fill
        number = math.ceil(fill.number * left / whole)
        return replace(fill, number=number) if number else None

    def plants(self, kind: str, at: Dated | None) -> str:
        """Number of plants of a kind of work on its day, in words."""
        stations = self.stations(kind, at)
        return f"{stations:,} plants" if stations != 1 else "1 plant"


def tasks_of(
    planting: Planting,
    bed: Bed,
    crop: Crop | None,
    dates: Dates,
    extent: Extent,
    done: Mapping[str, dt.date],
    following: tuple[Planting, str, dt.date] | None = None,
    units: UnitSystem = "metric",
    times: Mapping[str, tuple[dt.date, ...]] | None = None,
    *,
    over: bool = False,
) -> tuple[Task, ...]:
    """The work on a planting in the order of its dates.

    Parameters
    ----------
    planting : Planting
    bed : Bed
    crop : Crop, optional
    dates : Dates
    extent : Extent
        How much there is to do.
    done : mapping of str to date
        Real dates of the work done, by kind.
    following : tuple of (Planting, str, date), optional
        What comes onto this ground next, its name, and from when.
    units : {"metric", "feet_inches"}
    times : mapping of str to tuple of date, optional
        Of each kind of work all days on which it was done; those of ``done`` by default.
    over : bool
        Whether its picking is known to be over.
    """
    if times is None:
        times = {kind: (day,) for kind, day in done.items()}
    name = crop.name if crop is not None else planting.crop
    of = _Subject(planting, bed, name, dates, extent, done, units, times, over)
    steps = (*_starting(of), *_tending(of), *_covering(of), *_harvesting(of), *_clearing(of, following))
    found = (task for task in steps if task is not None)
    return tuple(sorted(found, key=lambda task: (task.date, WORK_ORDER[task.kind])))


def _task(
    of: _Subject,
    kind: Work,
    at: Dated | None,
    text: str,
    *,
    until: dt.date | None = None,
    seed: bool = False,
    material: str = "",
) -> Task | None:
    """One piece of work; None where its day is not known.

    Parameters
    ----------
    of : _Subject
    kind : Work
    at : Dated, optional
    text : str
        Without its full stop.
    until : date, optional
        Last day for it.
    seed : bool
        The seed of the extent is needed for it.
    material : str
    """
    if at is None:
        return None
    yearly = of.dates.stays_for_years and kind in YEARLY
    # The dates of yearly work know which year's record counts.
    # So do those of covers which cover a record is about.
    by_dates = yearly or kind in COVER_WORK
    ticked = of.done.get(kind) if not by_dates else at.day if at.origin == "done" else None
    if kind == "pick" and kind not in of.done:
        ticked = None  # it has begun and goes on
    date = ticked or at.day
    return Task(
        date=date,
        until=max(until or at.day, date),
        kind=kind,
        planting=of.planting.id,
        bed=of.bed.id,
        bed_name=of.bed.name,
        crop=of.crop,
        variety=of.planting.variety,
        text=f"{text}.",
        stations=of.stations(kind, at),
        seeds=of.extent.seeds if seed else None,
        grams=of.extent.grams if seed else None,
        material=material,
        fill=of.fill(kind, at) if of.dates.start == "raised" else None,
        why=at.reason,
        source=at.source,
        origin="done" if ticked else "worked out" if at.origin == "done" else at.origin,
        done=ticked,
        season=f"{date.year}" if yearly else "",
    )


def _repeated(
    of: _Subject, kind: Work, at: Dated, text: str, until: dt.date, every: int
) -> Iterator[Task | None]:
    """Work that is done again and again: each time it was done, and from when on it is due again.

    What was done answers what was due until its day; it is due again so many days after it.

    Parameters
    ----------
    of : _Subject
    kind : Work
    at : Dated
        From when on it is due.
    text : str
        Without its full stop.
    until : date
        Last day for it.
    every : int
        [days]
    """
    times = sorted(day for day in of.times.get(kind, ()) if not of_another_year(day, kind, at.day))
    of = of._replace(done={other: day for other, day in of.done.items() if other != kind})
    due = at.day
    for day in times:
        begins = Dated(min(due, day), at.reason, at.source)
        one = _task(of, kind, begins, text, until=day)
        if one is not None:
            yield replace(one, origin="done", done=day, every=every, occurrence=day.isoformat())
        due = shift(day, every)
    if due <= until:
        again = Dated(due, at.reason, at.source) if times else at
        again = replace(again, origin="worked out") if again.origin == "done" else again
        one = _task(of, kind, again, text, until=until)
        yield replace(one, every=every) if one is not None else None


def _seed(of: _Subject) -> str:
    """Seed in words: ``, 120 seeds (0.4 g), 2 to a station``."""
    parts, extent = [], of.extent
    if extent.seeds:
        grams = f" ({show_mass(extent.grams, of.units)})" if extent.grams else ""
        parts.append(f"{extent.seeds:,} seeds{grams}")
    if extent.sown:
        parts.append(extent.sown)
    return "".join(f", {part}" for part in parts)


def _starting(of: _Subject) -> Iterator[Task | None]:
    """Sowing, pricking out, potting on, hardening off and setting out."""
    bed, sort, dates = of.bed.name, of.sort, of.dates
    if dates.start == "sown":
        yield _task(
            of, "sow", dates.sow, f"Sow {sort} in {bed}, {of.plants('sow', dates.sow)}{_seed(of)}", seed=True
        )
    elif dates.start == "raised":
        yield _task(of, "sow", dates.sow, _sowing_to_raise(of), seed=True)
        text = say(
            "Prick out {crop} for {bed}, {plants}",
            crop=sort,
            bed=bed,
            plants=of.plants("prick out", dates.prick_out),
        )
        yield _task(of, "prick out", dates.prick_out, _into(of, "prick out", dates.prick_out, text))
        text = say(
            "Pot on {crop} for {bed}, {plants}", crop=sort, bed=bed, plants=of.plants("pot on", dates.pot_on)
        )
        yield _task(of, "pot on", dates.pot_on, _into(of, "pot on", dates.pot_on, text))
        end = shift(dates.set_out.day, -1) if dates.set_out is not None else None
        harden = dates.harden_off
        until = max(end, harden.day) if end is not None and harden is not None else None
        yield _task(
            of,
            "harden off",
            harden,
            f"Harden off {sort} for {bed}, {of.plants('harden off', harden)}",
            until=until,
        )
        yield _task(
            of, "set out", dates.set_out, f"Set out {sort} in {bed}, {of.plants('set out', dates.set_out)}"
        )
    elif dates.start != "standing":
        what = {"bought": of.planting.bought_as("bought plants")}.get(dates.start, dates.start)
        what = what.removesuffix("s") if of.stations("set out", dates.set_out) == 1 else what
        yield _task(
            of,
            "set out",
            dates.set_out,
            f"Plant {sort} in {bed}, {of.stations('set out', dates.set_out):,} {what}",
        )


def _sowing_to_raise(of: _Subject) -> str:
    """Sowing what is set out later: seed, what it is sown in, and the mix for that."""
    extent, sort, bed = of.extent, of.sort, of.bed.name
    if extent.nursery_area:
        text = say("Sow {crop} in a nursery bed for {bed}", crop=sort, bed=bed) + _seed(of)
        return say("{work}, {area} of nursery bed", work=text, area=show_area(extent.nursery_area, of.units))
    text = say("Sow {crop} indoors for {bed}", crop=sort, bed=bed) + _seed(of)
    fill = extent.fill("sow")
    if fill is None:
        return text
    return say(
        "{work}, in {containers}, {volume} of mix",
        work=text,
        containers=filled_words(fill.container, fill.number, of.units),
        volume=show_volume(fill.litres, of.units),
    )


def _into(of: _Subject, work: str, at: Dated | None, text: str) -> str:
    """A sentence with what plants are moved into, and the mix for that."""
    fill = of.fill(work, at)
    if fill is None:
        return text
    return say(
        "{work}, into {containers}, {volume} of mix",
        work=text,
        containers=filled_words(fill.container, fill.number, of.units),
        volume=show_volume(fill.litres, of.units),
    )


def _tending(of: _Subject) -> Iterator[Task | None]:
    """Thinning, supports, and what else the crop needs."""
    bed, sort, dates, support = of.bed.name, of.sort, of.dates, of.planting.support
    yield _task(of, "thin", dates.thin, f"Thin {sort} in {bed} to {of.plants('thin', dates.thin)}")
    if support is not None:
        text = f"Put up {support.kind} for {sort} in {bed}"
        yield _task(of, "support up", dates.support_up, text, material=support.kind)
    for care in dates.aftercare:
        text = say(TASKS[care.task].words, crop=sort, bed=bed)
        if care.every:
            text = say("{work}, every {days} days", work=text, days=care.every)
            yield from _repeated(of, cast("Work", care.kind), care.on, text, care.until, care.every)
            continue
        yield _task(of, cast("Work", care.kind), care.on, text, until=care.until)


def _covering(of: _Subject) -> Iterator[Task | None]:
    """Laying each cover, and taking it off."""
    bed, sort, flower = of.bed.name, of.sort, of.dates.flower
    for cover in of.dates.covers:
        kind = cover.kind
        if kind == "film":
            yield _task(of, "film down", cover.on, f"Lay film for {sort} in {bed}", material="film")
            yield _task(of, "film up", cover.off, f"Take up the film of {sort} in {bed}", material="film")
            continue
        if kind in _GUARDING:
            on = say(_GUARDING[kind][0], crop=sort, bed=bed)
            off = say(_GUARDING[kind][1], crop=sort, bed=bed)
            yield _task(of, "cover on", cover.on, on, material=kind)
            yield _task(of, "cover off", cover.off, off, material=kind)
            continue
        yield _task(of, "cover on", cover.on, f"Cover {sort} in {bed} with {kind}", material=kind)
        if cover.vent is not None:
            end = shift(cover.off.day, -1) if cover.off is not None else shift(cover.vent.day, _VENTED_FOR)
            text = say(
                "Open the {cover} over {crop} in {bed} on warm days, and close it for the night",
                cover=kind,
                crop=sort,
                bed=bed,
            )
            yield _task(of, "vent", cover.vent, text, until=max(end, cover.vent.day), material=kind)
        if cover.off is not None:
            text = f"Take the {kind} off {sort} in {bed}"
            if flower is not None and cover.off.day == flower.day:
                text += ", which comes into flower"
            yield _task(of, "cover off", cover.off, text, material=kind)


def _harvesting(of: _Subject) -> Iterator[Task | None]:
    """Picking, or lifting and curing; nothing of what does not ripen or is cleared before."""
    bed, sort, dates = of.bed.name, of.sort, of.dates
    first, last = dates.first_harvest, dates.last_harvest
    if first is None or not dates.ripens:
        return
    if dates.clear is not None and first.day > dates.clear.day:
        return
    until = last.day if last is not None else first.day
    cure = practice.CURED.get(of.planting.crop)
    if cure is not None:
        text = f"Lift {sort} in {bed} and cure it for about {cure} days"
        yield _task(of, "lift and cure", first, text, until=until)
        return
    text = f"Pick {sort} in {bed}"
    if of.over or (until - first.day).days < practice.PICKED_AGAIN:
        yield _task(of, "pick", first, text, until=until)
    else:
        yield from _repeated(of, "pick", first, text, until, practice.PICKED_AGAIN)


def _clearing(of: _Subject, following: tuple[Planting, str, dt.date] | None) -> Iterator[Task | None]:
    """Clearing or digging in, and what follows on the same ground."""
    bed, sort, clear = of.bed.name, of.sort, of.dates.clear
    if clear is None:
        return
    verb = "Dig in" if of.planting.purpose == "green manure" else "Clear"
    yield _task(of, "clear", clear, f"{verb} {sort} in {bed}")
    if following is not None:
        _, name, day = following
        at = Dated(max(day, shift(clear.day, 1)), f"{sort} is cleared on {day_words(clear.day)}")
        yield _task(of, "sow the next", at, f"{name[:1].upper()}{name[1:]} follows {sort} in {bed}")
