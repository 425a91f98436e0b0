"""One piece of work on a planting, worded with its crop, bed and amount."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from planner.garden import Bed, Planting
from planner.garden.edits.ticks import YEARLY, of_another_year
from planner.garden.planting import COVER_WORK, Work
from planner.garden.site import UnitSystem
from planner.season.frosts import shift
from planner.season.planting_dates import Dated, Dates
from planner.season.raising import Fill
from planner.season.tasks import Extent, Task
from planner.words import say, say_count, whole_words


class Subject(NamedTuple):
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
        return say_count("{number} plant", "{number} plants", stations, number=whole_words(stations))


class WorkWords(NamedTuple):
    """A piece of work in words, without full stops.

    Attributes
    ----------
    text : str
        With its bed and what it amounts to.
    work : str
        Without its bed.
    amount : str, optional
        What it amounts to; its plants where not given.
    """

    text: str
    work: str
    amount: str | None = None


def one_task(
    of: Subject,
    kind: Work,
    at: Dated | None,
    words: WorkWords,
    *,
    until: dt.date | None = None,
    seed: bool = False,
    material: str = "",
) -> Task | None:
    """One piece of work; None where its day is not known.

    Parameters
    ----------
    of : Subject
    kind : Work
    at : Dated, optional
    words : WorkWords
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
    date, stations = ticked or at.day, of.stations(kind, at)
    amount = words.amount
    if amount is None:
        amount = of.plants(kind, at) if stations else ""
    return Task(
        date=date,
        until=max(until or at.day, date),
        kind=kind,
        planting=of.planting.id,
        bed=of.bed.id,
        bed_name=of.bed.name,
        crop=of.crop,
        variety=of.planting.variety,
        text=say("{sentence}.", sentence=words.text),
        work=words.work,
        amount=amount,
        stations=stations,
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


def repeated(
    of: Subject, kind: Work, at: Dated, words: WorkWords, until: dt.date, every: int
) -> Iterator[Task | None]:
    """Work that is done again and again: each time it was done, and from when on it is due again.

    What was done answers what was due until its day; it is due again so many days after it.

    Parameters
    ----------
    of : Subject
    kind : Work
    at : Dated
        From when on it is due.
    words : WorkWords
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
        one = one_task(of, kind, begins, words, until=day)
        if one is not None:
            yield replace(one, origin="done", done=day, every=every, occurrence=day.isoformat())
        due = shift(day, every)
    if due <= until:
        again = Dated(due, at.reason, at.source) if times else at
        again = replace(again, origin="worked out") if again.origin == "done" else again
        one = one_task(of, kind, again, words, until=until)
        yield replace(one, every=every) if one is not None else None
