"""The work on covers and guards of a planting: laying them, opening them, taking them off."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planner.season.frosts import shift
from planner.season.tasks import Task
from planner.season.work_words import Subject, WorkWords, one_task
from planner.words import key_words, later, say


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


def covering_work(of: Subject) -> Iterator[Task | None]:
    """Laying each cover, and taking it off."""
    bed, sort, flower = of.bed.name, of.sort, of.dates.flower
    for cover in of.dates.covers:
        kind, name = cover.kind, key_words(cover.kind)
        if kind == "film":
            on = WorkWords(
                say("Lay film for {crop} in {bed}", crop=sort, bed=bed), say("Lay film for {crop}", crop=sort)
            )
            off = WorkWords(
                say("Take up the film of {crop} in {bed}", crop=sort, bed=bed),
                say("Take up the film of {crop}", crop=sort),
            )
            yield one_task(of, "film down", cover.on, on, material="film")
            yield one_task(of, "film up", cover.off, off, material="film")
            continue
        if kind in _GUARDING:
            on = WorkWords(
                say(_GUARDING[kind].on, crop=sort, bed=bed), say(_GUARDING[kind].on_work, crop=sort)
            )
            off = WorkWords(
                say(_GUARDING[kind].off, crop=sort, bed=bed), say(_GUARDING[kind].off_work, crop=sort)
            )
            yield one_task(of, "cover on", cover.on, on, material=kind)
            yield one_task(of, "cover off", cover.off, off, material=kind)
            continue
        on = WorkWords(
            say("Cover {crop} in {bed} with {cover}", crop=sort, bed=bed, cover=name),
            say("Cover {crop} with {cover}", crop=sort, cover=name),
        )
        yield one_task(of, "cover on", cover.on, on, material=kind)
        if cover.vent is not None:
            end = shift(cover.off.day, -1) if cover.off is not None else shift(cover.vent.day, _VENTED_FOR)
            words = WorkWords(
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
            yield one_task(of, "vent", cover.vent, words, until=max(end, cover.vent.day), material=kind)
        if cover.off is not None:
            if flower is not None and cover.off.day == flower.day:
                words = WorkWords(
                    say(
                        "Take the {cover} off {crop} in {bed}, which comes into flower",
                        cover=name,
                        crop=sort,
                        bed=bed,
                    ),
                    say("Take the {cover} off {crop}, which comes into flower", cover=name, crop=sort),
                )
            else:
                words = WorkWords(
                    say("Take the {cover} off {crop} in {bed}", cover=name, crop=sort, bed=bed),
                    say("Take the {cover} off {crop}", cover=name, crop=sort),
                )
            yield one_task(of, "cover off", cover.off, words, material=kind)
