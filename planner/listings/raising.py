"""What raising takes, as lines: containers to fill, days on the bench, mix, and the benches week by week."""

from __future__ import annotations

import datetime as dt
import math
import textwrap
from collections.abc import Iterable, Sequence

from planner.amounts.bench import BenchWeek, BenchYear, bench_year, benches_wanted, capacity
from planner.amounts.raising import Raised, mix_to_have, raisings
from planner.amounts.trays_in_use import benches_of, container_totals, mix_in_blocks
from planner.garden.raising import Bench, RaisingWay
from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length
from planner.garden.volumes import show_volume
from planner.listings.phrases import days_in_short
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.season.container_words import container_words
from planner.season.frosts import shift
from planner.season.raising import Fill
from planner.words import day_words, join_list, later, number_words, say, say_count, whole_words

WAYS = {
    "cells": later("sown into cells"),
    "pots": later("sown into pots"),
    "pricked out": later("sown thickly, pricked out"),
    "blocks": later("sown into blocks"),
    "nursery bed": later("nursery bed"),
}
#: The ways, as briefly as narrow columns and forms want them.
SHORT_WAYS: dict[RaisingWay, str] = {
    "cells": later("cells of a tray"),
    "pots": later("pots"),
    "pricked out": later("pricked out"),
    "blocks": later("blocks"),
    "nursery bed": later("nursery bed"),
}
WORK = {"sow": later("sow"), "prick out": later("prick out"), "pot on": later("pot on")}
KINDS = {"heated": later("heated"), "cool": later("cool"), "cold frame": later("cold frame")}

#: How trays are counted.
TRAYS_SHARED = later(
    "Plantings in trays of one kind share them while they stand on one bench. "
    "Where one moves on before the others, cut the tray or lift its plants into a tray there."
)
TRAYS_USED_AGAIN = later(
    "So many trays are in use at one time at most, and have to be there; they are filled again once they are free."
)


def raising_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print what raising takes: what is filled for each planting, its days on the bench, all trays and mix, the benches.

    Parameters
    ----------
    plan : Plan
    room : int, optional
        Width of tables; any by default. [columns]
    """
    parts, units = raisings(plan), plan.garden.site.units
    lines = [say("{garden}, growing year {year}", garden=plan.garden.site.name, year=plan.year)]
    if not parts:
        lines += ["", say("Nothing is raised in {year}.", year=plan.year)]
    else:
        lines += ["", say("What is filled"), *_fill_table(plan, parts, units, room)]
        lines += ["", say("Days on the bench"), *_days_table(parts, room)]
        if not all(part.emerge_known for part in parts):
            lines.append(f"  {stand_in_line()}.")
        lines += ["", say("Trays and mix"), *_total_lines(plan, parts, units, room)]
        lines += _nursery_lines(plan, parts, units)
    lines += _bench_lines(plan, units, room)
    missing = dict.fromkeys(f"  {part.amount.bed.name}: {line}." for part in parts for line in part.missing)
    if missing:
        lines += ["", say("Not known"), *missing]
    return [*lines, *_source_lines(plan, parts)]


def _stacked(heading: str) -> str:
    """A heading with its last word on a line of its own."""
    return "\n".join(heading.rsplit(" ", 1))


def sort_of(part: Raised) -> str:
    """Crop and variety, as shown."""
    return f"{part.amount.crop} {part.amount.variety}".strip()


def _fill_table(plan: Plan, parts: Sequence[Raised], units: UnitSystem, room: int | None) -> list[str]:
    heads = (
        say("bed"), say("crop"), say("day"), say("work"), say("number"), say("in"), say("of trays"), say("mix"),
    )  # fmt: skip
    rows = [
        (
            part.amount.bed.name,
            sort_of(part),
            day_words(fill.day, plan.year) if fill.day is not None else "?",
            say(WORK[fill.work]),
            whole_words(fill.number),
            container_words(fill.container, units),
            number_words(fill.number / fill.container.per_tray, 2),
            show_volume(fill.litres, units),
        )
        for part in parts
        for fill in part.fills
    ]
    return aligned(heads, rows, right=(2, 4, 6, 7), room=room)


def _days_table(parts: Sequence[Raised], room: int | None) -> list[str]:
    heads = (
        say("bed"), say("crop"), say("way"), _stacked(say("until it comes up")), say("growing"), _stacked(say("hardening off")), say("days"),
    )  # fmt: skip
    rows = []
    for part in parts:
        days = (part.emerge_days, part.grow_days, part.harden_days)
        known = [number for number in days if number is not None]
        total = f"{sum(known)}" if len(known) == len(days) else "?"
        rows.append((part.amount.bed.name, sort_of(part), say(WAYS[part.way.way]), *day_cells(part), total))
    return aligned(heads, rows, right=(3, 4, 5, 6), room=room)


def day_cells(part: Raised, unknown: str = "-") -> list[str]:
    """Days until it comes up and until it is hardened off, and of hardening off; a stand-in in brackets."""
    days = (part.emerge_days, part.grow_days, part.harden_days)
    cells = [unknown if number is None else f"{number}" for number in days]
    return cells if part.emerge_known else [*(f"({cell})" for cell in cells[:2]), cells[2]]


def stand_in_line() -> str:
    """What brackets about days mean, without a full stop."""
    return say("In brackets: how long it takes to come up is not known, the days are an estimate")


def _total_lines(plan: Plan, parts: Sequence[Raised], units: UnitSystem, room: int | None) -> list[str]:
    heads = (say("in"), say("number"), say("trays at one time"), say("from"), say("mix"))
    totals = container_totals(plan, parts)
    rows = [
        (
            container_words(total.container, units),
            whole_words(total.number),
            f"{total.trays}",
            day_words(total.day, plan.year) if total.day is not None else "?",
            show_volume(total.litres, units),
        )
        for total in totals
    ]
    if not totals:
        return []
    return [
        *aligned(heads, rows, right=(1, 2, 3, 4), room=room),
        *(
            f"  {line}"
            for sentence in (say(TRAYS_SHARED), say(TRAYS_USED_AGAIN))
            for line in _wrapped(sentence, room)
        ),
        f"  {mix_line(parts, units)}.",
    ]


def _wrapped(sentence: str, room: int | None) -> list[str]:
    """A sentence in lines of the room that a table has."""
    return textwrap.wrap(sentence, max(40, (room or 100) - 2))


def mix_line(parts: Sequence[Raised], units: UnitSystem) -> str:
    """The mix for all that is raised, without a full stop."""
    mix = math.fsum(part.litres for part in parts)
    return say(
        "Mix in all: {volume}; {loose} of loose mix, some of which is lost to settling",
        volume=show_volume(mix, units),
        loose=show_volume(mix_to_have(mix, mix_in_blocks(parts)), units),
    )


def _nursery_lines(plan: Plan, parts: Iterable[Raised], units: UnitSystem) -> list[str]:
    lines = nursery_beds(plan, parts, units)
    return ["", say("Nursery beds"), *(f"  {line}." for line in lines)] if lines else []


def nursery_beds(plan: Plan, parts: Iterable[Raised], units: UnitSystem) -> list[str]:
    """What is sown into nursery beds, a line a planting, without full stops."""
    return [_nursery_line(plan, part, units) for part in parts if part.nursery_area]


def _nursery_line(plan: Plan, part: Raised, units: UnitSystem) -> str:
    sow = plan.dates(part.planting).sow
    crop, bed, area = sort_of(part), part.amount.bed.name, show_area(part.nursery_area, units)
    if sow is None:
        return say("{crop} for {bed}: {area} of nursery bed", crop=crop, bed=bed, area=area)
    return say_count(
        "{crop} for {bed}: sow {count} seed on {day} on {area} of nursery bed",
        "{crop} for {bed}: sow {count} seeds on {day} on {area} of nursery bed",
        part.amount.seeds if part.amount.seeds is not None else part.amount.plants,
        crop=crop,
        bed=bed,
        day=day_words(sow.day, plan.year),
        area=area,
    )


# -- benches ---------------------------------------------------------------------------------------


def bench_words(bench: Bench, units: UnitSystem) -> str:
    """A bench with its kind, size and the trays it holds: ``Sill (heated, 1.20 m × 0.30 m): 2 trays``."""
    return say_count(
        "{bench} ({kind}, {length} × {width}): {count} tray",
        "{bench} ({kind}, {length} × {width}): {count} trays",
        capacity(bench),
        bench=bench.name,
        kind=say(KINDS[bench.kind]),
        length=show_length(bench.length, units),
        width=show_length(bench.width, units),
    )


def bench_name(plan: Plan, bench: str) -> str:
    """Name of a bench by its id, of its kind where the garden has none of its own; of no bench, in the open."""
    for there in benches_of(plan).benches:
        if there.bench.id == bench:
            if plan.garden.benches:
                return there.bench.name
            kind = say(KINDS[there.bench.kind])
            return kind if there.bench.kind == "cold frame" else say("{kind} bench", kind=kind)
    return say("in the open, in shelter")


def _bench_lines(plan: Plan, units: UnitSystem, room: int | None) -> list[str]:
    entered = plan.garden.benches
    year = bench_year(plan) if entered else benches_wanted(plan)
    weeks = year.weeks()
    if not weeks:
        return []
    if entered:
        head = [say("Benches"), *(f"  {bench_words(bench, units)}." for bench in entered), ""]
    else:
        head = [say("No benches are entered; what they would have to hold:")]
    lines = ["", *head, *_week_table(plan, weeks, units, room, entered=bool(entered))]
    lines += full_lines(plan, year)
    return [*lines, *(_where_lines(plan, year) if entered else ())]


def _where_lines(plan: Plan, year: BenchYear) -> list[str]:
    """Where each planting stands when: ``West 2, leek: Sill 3 – 12 Apr and Cold frame 13 – 20 Apr.``"""
    names = {bench.id: bench.name for bench in plan.garden.benches}
    stays: dict[str, list[tuple[str, dt.date, dt.date]]] = {}
    for one in year.placed:
        bench = names.get(one.bench) or say("in the open")
        there, standing = stays.setdefault(one.standing.planting, []), one.standing
        if there and there[-1][0] == bench and there[-1][2] == shift(standing.first, -1):
            there[-1] = bench, there[-1][1], standing.last
        else:
            there.append((bench, standing.first, standing.last))
    lines = [
        say(
            "{bed}, {crop}: {places}",
            bed=plan.bed_of(plan.garden.plantings_by_id[key]).name,
            crop=names_of(plan, [key])[0],
            places=join_list([_stay_words(*stay) for stay in there]),
        )
        for key, there in stays.items()
    ]
    return ["", say("Where they stand"), *(f"  {line}." for line in lines)]


def _week_table(
    plan: Plan, weeks: Sequence[BenchWeek], units: UnitSystem, room: int | None, *, entered: bool
) -> list[str]:
    heads = [
        say("week"),
        say("bench"),
        say("trays"),
        say("taken"),
        _stacked(say("room for trays")),
        say("free"),
        say("of"),
    ]
    rows = []
    for week in weeks:
        names = join_list(names_of(plan, week.plantings))
        row = [
            days_in_short(week.monday, shift(week.monday, 6)),
            week.bench.name if entered else say(KINDS[week.bench.kind]),
            f"{week.trays}",
            show_area(week.taken, units),
            room_words(week),
            show_area(week.free, units) if week.free_trays >= 0 else "-",
            names,
        ]
        rows.append(row if entered else [*row[:4], names])
    return aligned(
        heads if entered else [*heads[:4], heads[-1]],
        rows,
        right=(2, 3, 4, 5) if entered else (2, 3),
        room=room,
    )


def room_words(week: BenchWeek) -> str:
    """Trays for which there is room on a bench, or how many are too many."""
    if week.free_trays >= 0:
        return f"{week.free_trays}"
    return say("{count} too many", count=-week.free_trays)


def _stay_words(bench: str, first: dt.date, last: dt.date) -> str:
    return say("{bench} {days}", bench=bench, days=days_in_short(first, last))


def names_of(plan: Plan, keys: Iterable[str]) -> list[str]:
    """Crop and variety of some plantings, as shown."""
    found = []
    for key in keys:
        planting = plan.garden.plantings_by_id[key]
        crop = plan.figures_of(planting).crop
        found.append(f"{crop.name if crop is not None else planting.crop} {planting.variety}".strip())
    return found


def full_lines(plan: Plan, year: BenchYear) -> list[str]:
    """Spans of days on which a bench is too small."""
    lines = []
    for there in year.benches:
        for span in there.too_full():
            most = max(
                trays
                for trays in (
                    there.on(shift(span.first, n)) for n in range((span.last - span.first).days + 1)
                )
            )
            lines.append(
                say_count(
                    "{bench} is too small from {first} to {last}: {count} tray, room for {capacity}",
                    "{bench} is too small from {first} to {last}: {count} trays, room for {capacity}",
                    most,
                    bench=there.bench.name,
                    first=day_words(span.first, plan.year),
                    last=day_words(span.last, plan.year),
                    capacity=there.capacity,
                )
            )
    return ["", *(f"  {line}." for line in lines)] if lines else []


# -- sources ---------------------------------------------------------------------------------------


def source_words(plan: Plan, key: str) -> str:
    """Who says a size: a publication, common practice, or the gardener."""
    if not key:
        return say("as entered")
    if key == "practice":
        return say("common practice")
    source = plan.catalogue.sources.get(key)
    return source.in_brief if source is not None else key


def _source_lines(plan: Plan, parts: Sequence[Raised]) -> list[str]:
    """Where sizes and volumes come from, and which of them are from memory."""
    found: dict[str, list[str]] = {}
    for part in parts:
        if part.way.container is not None:
            found.setdefault(source_words(plan, part.way.source), []).append(part.amount.crop)
    lines = [
        say("Sizes after {source}: {crops}", source=source, crops=join_list(crops))
        for source, crops in found.items()
    ]
    volumes: dict[str, None] = {}
    for fill in _fills(parts):
        words = source_words(plan, fill.container.source)
        volumes[say("{source} (from memory)", source=words) if fill.container.recalled else words] = None
    if volumes:
        lines.append(say("Volumes after {sources}", sources=join_list(volumes)))
    return ["", say("Sources"), *(f"  {line}." for line in lines)] if lines else []


def _fills(parts: Iterable[Raised]) -> list[Fill]:
    return [fill for part in parts for fill in part.fills]
