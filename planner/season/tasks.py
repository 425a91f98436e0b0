"""Dated work on a planting, from its dates.

What the work amounts to (stations, seed, material) is worked out above this room and handed in.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import get_args

from planner.crops import Crop
from planner.garden import Bed, Planting
from planner.garden.planting import Work
from planner.season import practice
from planner.season.frosts import shift
from planner.season.planting_dates import Dated, Dates


@dataclass(frozen=True)
class Extent:
    """How much there is to do.

    Attributes
    ----------
    stations : int
    seeds : int or None
        To sow; None where unknown.
    grams : float or None
        [g]
    sown : str
        How it is sown, in words, as ``2 seeds to a station``; may be empty.
    shown_length : str
        Length of the plot, as shown; may be empty.
    """

    stations: int = 0
    seeds: int | None = None
    grams: float | None = None
    sown: str = ""
    shown_length: str = ""


@dataclass(frozen=True)
class Task:
    """A dated piece of work.

    Attributes
    ----------
    date, until : date
        First and last day for it; the same where it is one day's work.
    kind : str
        One of :data:`planner.garden.planting.Work`.
    planting, bed : str
        Ids; ``bed_name`` is the bed's name.
    crop, variety : str
        As shown; the variety may be empty.
    text : str
        The work in a sentence, with what it amounts to.
    stations : int
    seeds : int or None
    grams : float or None
        [g]
    material : str
        What is needed, as ``fleece``; may be empty.
    why : str
        Why on that day.
    source : str
    origin : str
        ``worked out``, ``by hand`` or ``done``.
    done : date or None
        The day it was really done.
    season : str
        Year of work that comes again every year on a planting that stands; else empty.
    """

    date: dt.date
    until: dt.date
    kind: Work
    planting: str
    bed: str
    bed_name: str
    crop: str
    variety: str
    text: str
    stations: int = 0
    seeds: int | None = None
    grams: float | None = None
    material: str = ""
    why: str = ""
    source: str = ""
    origin: str = "worked out"
    done: dt.date | None = None
    season: str = ""

    @property
    def key(self) -> str:
        """The same for the same work, however its date moves; work of every year has its year in it."""
        parts = [self.planting, self.kind.replace(" ", "-"), self.material, self.season]
        return "/".join(part for part in parts if part)


@dataclass
class TaskBuilder:
    planting: Planting
    bed: Bed
    name: str
    extent: Extent
    done: Mapping[str, dt.date]
    tasks: list[Task] = field(default_factory=list)

    def put(
        self,
        kind: Work,
        at: Dated | None,
        text: str,
        *,
        until: dt.date | None = None,
        seed: bool = False,
        material: str = "",
    ) -> None:
        if at is None:
            return
        ticked = self.done.get(kind)
        self.tasks.append(
            Task(
                date=ticked or at.day,
                until=max(until or at.day, ticked or at.day),
                kind=kind,
                planting=self.planting.id,
                bed=self.bed.id,
                bed_name=self.bed.name,
                crop=self.name,
                variety=self.planting.variety,
                text=f"{text}.",
                stations=self.extent.stations,
                seeds=self.extent.seeds if seed else None,
                grams=self.extent.grams if seed else None,
                material=material,
                why=at.why,
                source=at.source,
                origin="done" if ticked else at.origin,
                done=ticked,
            )
        )


def tasks_of(
    planting: Planting,
    bed: Bed,
    crop: Crop | None,
    dates: Dates,
    extent: Extent,
    done: Mapping[str, dt.date],
    following: tuple[Planting, str, dt.date] | None = None,
) -> tuple[Task, ...]:
    """The work on a planting in the order of its dates.

    Parameters
    ----------
    planting, bed, crop
    dates : Dates
    extent : Extent
        How much there is of it.
    done : mapping of str to date
        Real dates of the work done, by kind.
    following : tuple of (Planting, str, date), optional
        What comes onto this ground next, its name, and from when.
    """
    name = crop.name if crop is not None else planting.crop
    made = TaskBuilder(planting, bed, name, extent, done)
    sort = f"{name} {planting.variety}".strip()
    _starting(made, sort, dates, extent)
    if dates.thin is not None:
        made.put("thin", dates.thin, f"Thin {sort} in {bed.name} to {_plants(extent)}")
    if dates.support_up is not None and planting.support is not None:
        made.put(
            "support up",
            dates.support_up,
            f"Put up {planting.support.kind} for {sort} in {bed.name}",
            material=planting.support.kind,
        )
    made.put("mulch", dates.mulch, f"Mulch {sort} in {bed.name}")
    made.put("earth up", dates.earth_up, f"Earth up {sort} in {bed.name}")
    _covering(made, sort, dates)
    _harvesting(made, sort, dates)
    clear = dates.clear
    if clear is not None:
        verb = "Dig in" if planting.purpose == "green manure" else "Clear"
        made.put("clear", clear, f"{verb} {sort} in {bed.name}")
        if following is not None:
            _, next_name, day = following
            made.put(
                "sow the next",
                Dated(max(day, shift(clear.day, 1)), f"{sort} is cleared on {clear.day:%d %b}"),
                f"{next_name[:1].upper()}{next_name[1:]} follows {sort} in {bed.name}",
            )
    found = made.tasks
    if dates.stays_for_years:
        found = [replace(t, season=f"{t.date.year}") if t.kind in EVERY_YEAR else t for t in found]
    return tuple(sorted(found, key=lambda task: (task.date, _ORDER[task.kind])))


#: Work that comes again every year on what stands for years.
EVERY_YEAR = frozenset(("pick", "lift and cure", "mulch", "earth up", "cover on", "cover off", "support up"))

_ORDER: dict[str, int] = {kind: place for place, kind in enumerate(get_args(Work))}


def _plants(extent: Extent) -> str:
    return f"{extent.stations:,} plants" if extent.stations != 1 else "1 plant"


def _amount(extent: Extent) -> str:
    """Seed in words: ``, 120 seeds (0.4 g), 2 to a station``."""
    parts = []
    if extent.seeds:
        grams = f" ({extent.grams:.2g} g)" if extent.grams else ""
        parts.append(f"{extent.seeds:,} seeds{grams}")
    if extent.sown:
        parts.append(extent.sown)
    return "".join(f", {part}" for part in parts)


def _starting(made: TaskBuilder, sort: str, dates: Dates, extent: Extent) -> None:
    bed = made.bed.name
    many = _plants(extent)
    if dates.start == "sown":
        made.put("sow", dates.sow, f"Sow {sort} in {bed}, {many}{_amount(extent)}", seed=True)
    elif dates.start == "raised":
        made.put("sow", dates.sow, f"Sow {sort} indoors for {bed}{_amount(extent)}", seed=True)
        made.put("prick out", dates.prick_out, f"Prick out {sort} for {bed}, {many}")
        end = shift(dates.set_out.day, -1) if dates.set_out is not None else None
        harden = dates.harden_off
        until = max(end, harden.day) if end is not None and harden is not None else None
        made.put("harden off", harden, f"Harden off {sort} for {bed}, {many}", until=until)
        made.put("set out", dates.set_out, f"Set out {sort} in {bed}, {many}")
    elif dates.start != "standing" and dates.set_out is not None:
        what = {"bought": "bought plants", "crowns": "crowns"}.get(dates.start, dates.start)
        what = what.removesuffix("s") if extent.stations == 1 else what
        made.put("set out", dates.set_out, f"Plant {sort} in {bed}, {extent.stations:,} {what}")


def _covering(made: TaskBuilder, sort: str, dates: Dates) -> None:
    for cover in dates.covers:
        if cover.kind == "film":
            made.put("film down", cover.on, f"Lay film for {sort} in {made.bed.name}", material="film")
            continue
        made.put(
            "cover on", cover.on, f"Cover {sort} in {made.bed.name} with {cover.kind}", material=cover.kind
        )
        if cover.off is not None:
            text = f"Take the {cover.kind} off {sort} in {made.bed.name}"
            if dates.flower is not None and cover.off.day == dates.flower.day:
                text += ", which comes into flower"
            made.put("cover off", cover.off, text, material=cover.kind)


def _harvesting(made: TaskBuilder, sort: str, dates: Dates) -> None:
    first, last = dates.first_harvest, dates.last_harvest
    if first is None or not dates.ripens:
        return
    if dates.clear is not None and first.day > dates.clear.day:
        return
    until = last.day if last is not None else first.day
    cure = practice.CURED.get(made.planting.crop)
    if cure is not None:
        text = f"Lift {sort} in {made.bed.name} and cure it for about {cure} days"
        made.put("lift and cure", first, text, until=until)
    else:
        made.put("pick", first, f"Pick {sort} in {made.bed.name}", until=until)


def by_week(tasks: Iterable[Task]) -> tuple[tuple[dt.date, tuple[Task, ...]], ...]:
    """Tasks by the Monday of the week in which they begin, in order; weeks without any left out."""
    found: dict[dt.date, list[Task]] = {}
    for task in sorted(tasks, key=lambda one: (one.date, _ORDER[one.kind], one.bed_name)):
        found.setdefault(monday(task.date), []).append(task)
    return tuple((week, tuple(of_week)) for week, of_week in sorted(found.items()))


def monday(day: dt.date) -> dt.date:
    """The Monday of a day's week."""
    return shift(day, -day.weekday())
