"""The work that starts a planting: sowing, pricking out, potting on, hardening off and setting out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planner.garden.units import show_area, show_mass
from planner.garden.volumes import show_volume
from planner.season.container_words import filled_words
from planner.season.frosts import shift
from planner.season.planting_dates import Dated
from planner.season.tasks import Task
from planner.season.work_words import Subject, WorkWords, one_task
from planner.words import say, say_count, whole_words


def _seed(of: Subject) -> list[str]:
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


def enumerated(parts: Iterable[str]) -> str:
    """Amounts with commas between them."""
    found = ""
    for part in filter(None, parts):
        found = say("{names}, {name}", names=found, name=part) if found else part
    return found


def starting_work(of: Subject) -> Iterator[Task | None]:
    """Sowing, pricking out, potting on, hardening off and setting out."""
    bed, sort, dates = of.bed.name, of.sort, of.dates
    if dates.start == "sown":
        amount = enumerated((of.plants("sow", dates.sow), *_seed(of)))
        text = say("Sow {crop} in {bed}, {amount}", crop=sort, bed=bed, amount=amount)
        yield one_task(of, "sow", dates.sow, WorkWords(text, say("Sow {crop}", crop=sort), amount), seed=True)
    elif dates.start == "raised":
        yield one_task(of, "sow", dates.sow, _sowing_to_raise(of), seed=True)
        plants = of.plants("prick out", dates.prick_out)
        text = say("Prick out {crop} for {bed}, {plants}", crop=sort, bed=bed, plants=plants)
        words = _into(of, "prick out", dates.prick_out, text, say("Prick out {crop}", crop=sort), plants)
        yield one_task(of, "prick out", dates.prick_out, words)
        plants = of.plants("pot on", dates.pot_on)
        text = say("Pot on {crop} for {bed}, {plants}", crop=sort, bed=bed, plants=plants)
        words = _into(of, "pot on", dates.pot_on, text, say("Pot on {crop}", crop=sort), plants)
        yield one_task(of, "pot on", dates.pot_on, words)
        end = shift(dates.set_out.day, -1) if dates.set_out is not None else None
        harden = dates.harden_off
        until = max(end, harden.day) if end is not None and harden is not None else None
        plants = of.plants("harden off", harden)
        text = say("Harden off {crop} for {bed}, {plants}", crop=sort, bed=bed, plants=plants)
        words = WorkWords(text, say("Harden off {crop}", crop=sort), plants)
        yield one_task(of, "harden off", harden, words, until=until)
        plants = of.plants("set out", dates.set_out)
        text = say("Set out {crop} in {bed}, {plants}", crop=sort, bed=bed, plants=plants)
        yield one_task(
            of, "set out", dates.set_out, WorkWords(text, say("Set out {crop}", crop=sort), plants)
        )
    elif dates.start != "standing":
        amount = _bought(of)
        text = say("Plant {crop} in {bed}, {amount}", crop=sort, bed=bed, amount=amount)
        yield one_task(of, "set out", dates.set_out, WorkWords(text, say("Plant {crop}", crop=sort), amount))


def _bought(of: Subject) -> str:
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


def _sowing_to_raise(of: Subject) -> WorkWords:
    """Sowing what is set out later: seed, what it is sown in, and the mix for that."""
    extent, sort, bed = of.extent, of.sort, of.bed.name
    seed, plants = _seed(of), of.plants("sow", None)
    for_plants = say("for {plants}", plants=plants) if extent.seeds and extent.stations else ""
    if extent.nursery_area:
        area = say("{area} of nursery bed", area=show_area(extent.nursery_area, of.units))
        text = say("Sow {crop} in a nursery bed for {bed}", crop=sort, bed=bed)
        work = say("Sow {crop} in a nursery bed", crop=sort)
        return WorkWords(enumerated((text, *seed, area)), work, enumerated((for_plants, *seed, area)))
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
        return WorkWords(enumerated((text, *seed, *filled)), enumerated((work, *seed, *filled)))
    return WorkWords(enumerated((text, *seed, *filled)), work, enumerated((for_plants, *seed, *filled)))


def _into(of: Subject, kind: str, at: Dated | None, text: str, work: str, plants: str) -> WorkWords:
    """Words with what plants are moved into, and the mix for that."""
    fill = of.fill(kind, at)
    if fill is None:
        return WorkWords(text, work, plants)
    filled = (
        say("into {containers}", containers=filled_words(fill.container, fill.number, of.units)),
        say("{volume} of mix", volume=show_volume(fill.litres, of.units)),
    )
    return WorkWords(enumerated((text, *filled)), work, enumerated((plants, *filled)))
