"""The work on one planting, from its dates.

What the work amounts to (stations, seed, material) is worked out above this room and handed in.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator, Mapping
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
from planner.words import capital, day_words, key_words, later, say, say_count, whole_words


class _Guarding(NamedTuple):
    """Sentences about putting a guard on and taking it off, with the bed and without it."""

    on: str
    off: str
    on_work: str
    off_work: str


_GUARDING = {
    "brushwood": _Guarding(
        on=later("Lay brushwood over {crop} in {bed} against birds and cats"),
        off=later("Take the brushwood off {crop} in {bed}"),
        on_work=later("Lay brushwood over {crop} against birds and cats"),
        off_work=later("Take the brushwood off {crop}"),
    ),
    "collar": _Guarding(
        on=later("Lay a collar about each stem of {crop} in {bed} against root flies"),
        off=later("Take up the collars of {crop} in {bed}"),
        on_work=later("Lay a collar about each stem of {crop} against root flies"),
        off_work=later("Take up the collars of {crop}"),
    ),
    "slug ring": _Guarding(
        on=later("Press a ring about each plant of {crop} in {bed} against slugs"),
        off=later("Take up the slug rings of {crop} in {bed}"),
        on_work=later("Press a ring about each plant of {crop} against slugs"),
        off_work=later("Take up the slug rings of {crop}"),
    ),
    "vole basket": _Guarding(
        on=later("Set {crop} in {bed} in baskets of wire mesh against voles"),
        off=later("Lift the wire baskets of {crop} in {bed}"),
        on_work=later("Set {crop} in baskets of wire mesh against voles"),
        off_work=later("Lift the wire baskets of {crop}"),
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
        return say_count("{number} plant", "{number} plants", stations, number=whole_words(stations))


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


class _Words(NamedTuple):
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


def _task(
    of: _Subject,
    kind: Work,
    at: Dated | None,
    words: _Words,
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
    words : _Words
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


def _repeated(
    of: _Subject, kind: Work, at: Dated, words: _Words, until: dt.date, every: int
) -> Iterator[Task | None]:
    """Work that is done again and again: each time it was done, and from when on it is due again.

    What was done answers what was due until its day; it is due again so many days after it.

    Parameters
    ----------
    of : _Subject
    kind : Work
    at : Dated
        From when on it is due.
    words : _Words
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
        one = _task(of, kind, begins, words, until=day)
        if one is not None:
            yield replace(one, origin="done", done=day, every=every, occurrence=day.isoformat())
        due = shift(day, every)
    if due <= until:
        again = Dated(due, at.reason, at.source) if times else at
        again = replace(again, origin="worked out") if again.origin == "done" else again
        one = _task(of, kind, again, words, until=until)
        yield replace(one, every=every) if one is not None else None


def _seed(of: _Subject) -> list[str]:
    """Seed in words: ``120 seeds (0.4 g)``, ``2 for each plant``."""
    parts, extent = [], of.extent
    if extent.seeds:
        seeds = say_count("{number} seed", "{number} seeds", extent.seeds, number=whole_words(extent.seeds))
        if extent.grams:
            seeds = say("{seeds} ({mass})", seeds=seeds, mass=show_mass(extent.grams, of.units))
        parts.append(seeds)
    if extent.sown:
        parts.append(extent.sown)
    return parts


def _enumerated(parts: Iterable[str]) -> str:
    """Amounts with commas between them."""
    found = ""
    for part in filter(None, parts):
        found = say("{names}, {name}", names=found, name=part) if found else part
    return found


def _starting(of: _Subject) -> Iterator[Task | None]:
    """Sowing, pricking out, potting on, hardening off and setting out."""
    bed, sort, dates = of.bed.name, of.sort, of.dates
    if dates.start == "sown":
        amount = _enumerated((of.plants("sow", dates.sow), *_seed(of)))
        text = say("Sow {crop} in {bed}, {amount}", crop=sort, bed=bed, amount=amount)
        yield _task(of, "sow", dates.sow, _Words(text, say("Sow {crop}", crop=sort), amount), seed=True)
    elif dates.start == "raised":
        yield _task(of, "sow", dates.sow, _sowing_to_raise(of), seed=True)
        plants = of.plants("prick out", dates.prick_out)
        text = say("Prick out {crop} for {bed}, {plants}", crop=sort, bed=bed, plants=plants)
        words = _into(of, "prick out", dates.prick_out, text, say("Prick out {crop}", crop=sort), plants)
        yield _task(of, "prick out", dates.prick_out, words)
        plants = of.plants("pot on", dates.pot_on)
        text = say("Pot on {crop} for {bed}, {plants}", crop=sort, bed=bed, plants=plants)
        words = _into(of, "pot on", dates.pot_on, text, say("Pot on {crop}", crop=sort), plants)
        yield _task(of, "pot on", dates.pot_on, words)
        end = shift(dates.set_out.day, -1) if dates.set_out is not None else None
        harden = dates.harden_off
        until = max(end, harden.day) if end is not None and harden is not None else None
        plants = of.plants("harden off", harden)
        text = say("Harden off {crop} for {bed}, {plants}", crop=sort, bed=bed, plants=plants)
        words = _Words(text, say("Harden off {crop}", crop=sort), plants)
        yield _task(of, "harden off", harden, words, until=until)
        plants = of.plants("set out", dates.set_out)
        text = say("Set out {crop} in {bed}, {plants}", crop=sort, bed=bed, plants=plants)
        yield _task(of, "set out", dates.set_out, _Words(text, say("Set out {crop}", crop=sort), plants))
    elif dates.start != "standing":
        amount = _bought(of)
        text = say("Plant {crop} in {bed}, {amount}", crop=sort, bed=bed, amount=amount)
        yield _task(of, "set out", dates.set_out, _Words(text, say("Plant {crop}", crop=sort), amount))


def _bought(of: _Subject) -> str:
    """How many sets, tubers, cloves, crowns or bought plants go into the ground."""
    number = of.stations("set out", of.dates.set_out)
    shown = whole_words(number)
    what = of.planting.bought_as("bought plants") if of.dates.start == "bought" else of.dates.start
    match what:
        case "sets":
            return say_count("{number} set", "{number} sets", number, number=shown)
        case "tubers":
            return say_count("{number} tuber", "{number} tubers", number, number=shown)
        case "cloves":
            return say_count("{number} clove", "{number} cloves", number, number=shown)
        case "crowns":
            return say_count("{number} crown", "{number} crowns", number, number=shown)
        case "plugs":
            return say_count("{number} plug", "{number} plugs", number, number=shown)
        case "large plants":
            return say_count("{number} large plant", "{number} large plants", number, number=shown)
        case "cuttings":
            return say_count("{number} cutting", "{number} cuttings", number, number=shown)
        case _:
            return say_count("{number} bought plant", "{number} bought plants", number, number=shown)


def _sowing_to_raise(of: _Subject) -> _Words:
    """Sowing what is set out later: seed, what it is sown in, and the mix for that."""
    extent, sort, bed = of.extent, of.sort, of.bed.name
    seed, plants = _seed(of), of.plants("sow", None)
    for_plants = say("for {plants}", plants=plants) if extent.seeds and extent.stations else ""
    if extent.nursery_area:
        area = say("{area} of nursery bed", area=show_area(extent.nursery_area, of.units))
        text = say("Sow {crop} in a nursery bed for {bed}", crop=sort, bed=bed)
        work = say("Sow {crop} in a nursery bed", crop=sort)
        return _Words(_enumerated((text, *seed, area)), work, _enumerated((for_plants, *seed, area)))
    text, work = say("Sow {crop} indoors for {bed}", crop=sort, bed=bed), say("Sow {crop} indoors", crop=sort)
    fill = extent.fill("sow")
    filled = []
    if fill is not None:
        containers = filled_words(fill.container, fill.number, of.units)
        filled = [
            say("in {containers}", containers=containers),
            say("{volume} of mix", volume=show_volume(fill.litres, of.units)),
        ]
    if not extent.seeds:
        return _Words(_enumerated((text, *seed, *filled)), _enumerated((work, *seed, *filled)))
    return _Words(_enumerated((text, *seed, *filled)), work, _enumerated((for_plants, *seed, *filled)))


def _into(of: _Subject, kind: str, at: Dated | None, text: str, work: str, plants: str) -> _Words:
    """Words with what plants are moved into, and the mix for that."""
    fill = of.fill(kind, at)
    if fill is None:
        return _Words(text, work, plants)
    filled = (
        say("into {containers}", containers=filled_words(fill.container, fill.number, of.units)),
        say("{volume} of mix", volume=show_volume(fill.litres, of.units)),
    )
    return _Words(_enumerated((text, *filled)), work, _enumerated((plants, *filled)))


def _tending(of: _Subject) -> Iterator[Task | None]:
    """Thinning, supports, and what else the crop needs."""
    bed, sort, dates, support = of.bed.name, of.sort, of.dates, of.planting.support
    plants = of.plants("thin", dates.thin)
    text = say("Thin {crop} in {bed} to {plants}", crop=sort, bed=bed, plants=plants)
    yield _task(
        of, "thin", dates.thin, _Words(text, say("Thin {crop} to {plants}", crop=sort, plants=plants))
    )
    if support is not None:
        kind = key_words(support.kind)
        text = say("Put up {support} for {crop} in {bed}", support=kind, crop=sort, bed=bed)
        work = say("Put up {support} for {crop}", support=kind, crop=sort)
        yield _task(of, "support up", dates.support_up, _Words(text, work), material=support.kind)
    for care in dates.aftercare:
        text = say(TASKS[care.task].words, crop=sort, bed=bed)
        work = say(TASKS[care.task].without_bed, crop=sort)
        if care.every:
            text = say("{work}, every {days} days", work=text, days=care.every)
            work = say("{work}, every {days} days", work=work, days=care.every)
            words = _Words(text, work)
            yield from _repeated(of, cast("Work", care.kind), care.on, words, care.until, care.every)
            continue
        yield _task(of, cast("Work", care.kind), care.on, _Words(text, work), until=care.until)


def _covering(of: _Subject) -> Iterator[Task | None]:
    """Laying each cover, and taking it off."""
    bed, sort, flower = of.bed.name, of.sort, of.dates.flower
    for cover in of.dates.covers:
        kind, name = cover.kind, key_words(cover.kind)
        if kind == "film":
            on = _Words(
                say("Lay film for {crop} in {bed}", crop=sort, bed=bed), say("Lay film for {crop}", crop=sort)
            )
            off = _Words(
                say("Take up the film of {crop} in {bed}", crop=sort, bed=bed),
                say("Take up the film of {crop}", crop=sort),
            )
            yield _task(of, "film down", cover.on, on, material="film")
            yield _task(of, "film up", cover.off, off, material="film")
            continue
        if kind in _GUARDING:
            on = _Words(say(_GUARDING[kind].on, crop=sort, bed=bed), say(_GUARDING[kind].on_work, crop=sort))
            off = _Words(
                say(_GUARDING[kind].off, crop=sort, bed=bed), say(_GUARDING[kind].off_work, crop=sort)
            )
            yield _task(of, "cover on", cover.on, on, material=kind)
            yield _task(of, "cover off", cover.off, off, material=kind)
            continue
        on = _Words(
            say("Cover {crop} in {bed} with {cover}", crop=sort, bed=bed, cover=name),
            say("Cover {crop} with {cover}", crop=sort, cover=name),
        )
        yield _task(of, "cover on", cover.on, on, material=kind)
        if cover.vent is not None:
            end = shift(cover.off.day, -1) if cover.off is not None else shift(cover.vent.day, _VENTED_FOR)
            words = _Words(
                say(
                    "Open the {cover} over {crop} in {bed} on warm days, and close it for the night",
                    cover=name,
                    crop=sort,
                    bed=bed,
                ),
                say(
                    "Open the {cover} over {crop} on warm days, and close it for the night",
                    cover=name,
                    crop=sort,
                ),
            )
            yield _task(of, "vent", cover.vent, words, until=max(end, cover.vent.day), material=kind)
        if cover.off is not None:
            if flower is not None and cover.off.day == flower.day:
                words = _Words(
                    say(
                        "Take the {cover} off {crop} in {bed}, which comes into flower",
                        cover=name,
                        crop=sort,
                        bed=bed,
                    ),
                    say("Take the {cover} off {crop}, which comes into flower", cover=name, crop=sort),
                )
            else:
                words = _Words(
                    say("Take the {cover} off {crop} in {bed}", cover=name, crop=sort, bed=bed),
                    say("Take the {cover} off {crop}", cover=name, crop=sort),
                )
            yield _task(of, "cover off", cover.off, words, material=kind)


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
        words = _Words(
            say("Lift {crop} in {bed} and cure it for about {days} days", crop=sort, bed=bed, days=cure),
            say("Lift {crop} and cure it for about {days} days", crop=sort, days=cure),
        )
        yield _task(of, "lift and cure", first, words, until=until)
        return
    words = _Words(say("Pick {crop} in {bed}", crop=sort, bed=bed), say("Pick {crop}", crop=sort))
    if of.over or (until - first.day).days < practice.PICKED_AGAIN:
        yield _task(of, "pick", first, words, until=until)
    else:
        yield from _repeated(of, "pick", first, words, until, practice.PICKED_AGAIN)


def _clearing(of: _Subject, following: tuple[Planting, str, dt.date] | None) -> Iterator[Task | None]:
    """Clearing or digging in, and what follows on the same ground."""
    bed, sort, clear = of.bed.name, of.sort, of.dates.clear
    if clear is None:
        return
    if of.planting.purpose == "green manure":
        words = _Words(say("Dig in {crop} in {bed}", crop=sort, bed=bed), say("Dig in {crop}", crop=sort))
    else:
        words = _Words(say("Clear {crop} in {bed}", crop=sort, bed=bed), say("Clear {crop}", crop=sort))
    yield _task(of, "clear", clear, words)
    if following is not None:
        _, name, day = following
        why = say("{crop} is cleared on {day}", crop=sort, day=day_words(clear.day))
        at = Dated(max(day, shift(clear.day, 1)), why)
        words = _Words(
            say("{next} follows {crop} in {bed}", next=capital(name), crop=sort, bed=bed),
            say("{next} follows {crop}", next=capital(name), crop=sort),
            "",
        )
        yield _task(of, "sow the next", at, words)
