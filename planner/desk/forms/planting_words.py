"""What a planting makes, in words: plants, seed, dates and the parts of its support."""

from __future__ import annotations

from planner.amounts import Amount
from planner.amounts.raising import Raised
from planner.desk.canvas.planting_bar import MARKS, steps_of
from planner.desk.model.phrases import plants_words, rows_words
from planner.garden import Structure
from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length, show_mass
from planner.garden.volumes import show_volume
from planner.ground.built_support import BuiltSupport
from planner.ground.support_materials import Material
from planner.listings.yields import yield_words
from planner.plan import Plan
from planner.season.container_words import filled_words
from planner.season.planting_dates import CoverDays, Dated, Dates
from planner.words import day_words, full_day_words, key_words, later, percent, say, say_count, work_words

#: Said wherever posts are driven.
POSTS = later("Have buried services located before driving posts; follow local rules.")


#: What is bought or taken from the store, by the start of a planting.
_NEEDED = {
    "bought": later("Plants needed: {count}"),
    "sets": later("Sets needed: {count}"),
    "tubers": later("Tubers needed: {count}"),
    "cloves": later("Cloves needed: {count}"),
    "crowns": later("Crowns needed: {count}"),
}


def count_lines(plan: Plan, part: Amount) -> list[str]:
    """Plants, rows and seed of a planting, a line each."""
    units = plan.garden.site.units
    head, area = plants_words(part.plants), show_area(part.area, units)
    lines = [
        say("{plants} in {rows} on {area}", plants=head, rows=rows_words(part.rows), area=area)
        if part.rows
        else say("{plants} on {area}", plants=head, area=area)
    ]
    if part.raise_:
        share = percent(part.germination or 0.0)
        lines.append(
            say("Raise {count} to have enough, at {share} germination", count=part.raise_, share=share)
        )
    if part.acquire:
        lines.append(say(_NEEDED[part.start], count=part.acquire))
    if part.thinned_from:
        lines.append(
            say(
                "Sow {seeds} seeds along {drill} of drill, thin to {plants}",
                seeds=part.thinned_from,
                drill=show_length(plan.placed(part.planting).layout.row_length, units),
                plants=part.plants,
            )
        )
    elif part.seeds_per_station:
        lines.append(
            say_count(
                "{count} seed for each plant, {seeds} in all",
                "{count} seeds for each plant, {seeds} in all",
                part.seeds_per_station,
                seeds=part.seeds,
            )
        )
    if part.seed_grams:
        lines.append(say("{mass} of seed", mass=show_mass(part.seed_grams, units)))
    yielded = yield_words(plan, part.planting)
    return [*lines, yielded] if yielded else lines


def dated_words(dated: Dated | None) -> str:
    """A day: ``9 May 2026``, or that it is not known."""
    return full_day_words(dated.day) if dated is not None else say("unknown")


def step_lines(dates: Dates) -> list[str]:
    """The steps of a planting with their days, a line each."""
    return [
        f"{words} {dated_words(dated)}{say(MARKS[dated.origin]) if MARKS[dated.origin] else ''}{_range_words(dated)}"
        for words, dated in steps_of(dates)
    ]


def _range_words(dated: Dated) -> str:
    """Between which days half of the years lie, where that is known."""
    if dated.earliest is None or dated.latest is None or dated.earliest >= dated.latest:
        return ""
    early, late = day_words(dated.earliest), day_words(dated.latest)
    return say(" ({early} to {late} in half of the years)", early=early, late=late)


def date_lines(dates: Dates) -> list[str]:
    """The steps and covers of a planting with their days, what is missing, and what is doubtful."""
    covers = [_cover_words(cover) for cover in dates.covers]
    return [*step_lines(dates), *covers, *dates.missing, *dates.doubts]


def _cover_words(cover: CoverDays) -> str:
    kind, first = key_words(cover.kind), day_words(cover.on.day)
    if cover.off is None:
        return say("{cover} from {first}", cover=key_words(kind), first=first)
    return say(
        "{cover} from {first} to {last}", cover=key_words(kind), first=first, last=day_words(cover.off.day)
    )


def reason_lines(dates: Dates) -> list[str]:
    """Why each step of a planting falls on its day."""
    return [f"{words}: {dated.reason}" for words, dated in steps_of(dates)]


def support_words(support: BuiltSupport | None, units: UnitSystem) -> str:
    """What a support is made of, and the usual caution; empty without a support."""
    if support is None:
        return ""
    parts = [_material_words(material, units) for material in support.materials]
    if not parts:
        return say(POSTS)
    return say("Of {parts}. {caution}", parts=", ".join(parts), caution=say(POSTS))


def arch_words(arch: Structure) -> str:
    """That a planting climbs an arch which is drawn beside it."""
    return (
        say("Climbs the arch “{name}” beside it", name=arch.name)
        if arch.name
        else say("Climbs the arch beside it")
    )


def _material_words(material: Material, units: UnitSystem) -> str:
    if material.unit == "pieces":
        pieces = _pieces(material.name, round(material.amount))
        if not material.length:
            return pieces
        return say("{pieces} of {length}", pieces=pieces, length=show_length(material.length, units))
    if material.unit == "m2":
        amount = show_area(material.amount, units)
    else:
        amount = show_length(material.amount, units)
    return say("{amount} of {material}", amount=amount, material=key_words(material.name))


def _pieces(name: str, count: int) -> str:
    """Pieces of a support, with their number."""
    match name:
        case "post":
            return say_count("{count} post", "{count} posts", count)
        case "pole":
            return say_count("{count} pole", "{count} poles", count)
        case "stick":
            return say_count("{count} stick", "{count} sticks", count)
        case "stake":
            return say_count("{count} stake", "{count} stakes", count)
        case "rail":
            return say_count("{count} rail", "{count} rails", count)
        case "hoop":
            return say_count("{count} hoop", "{count} hoops", count)
        case "panel":
            return say_count("{count} panel", "{count} panels", count)
        case "cage":
            return say_count("{count} cage", "{count} cages", count)
        case _:
            return f"{count} {key_words(name)}"


def raising_lines(part: Raised, year: int, units: UnitSystem) -> list[str]:
    """What is filled for a raised planting, each on its day, and its days on the bench.

    Parameters
    ----------
    part : Raised
    year : int
        Growing year shown.
    units : {"metric", "feet_inches"}
    """
    lines = [
        say(
            "{day}: {work} {number} into {containers}, {volume} of mix",
            day=day_words(fill.day, year) if fill.day is not None else "?",
            work=work_words(fill.work),
            number=fill.number,
            containers=filled_words(fill.container, fill.number, units),
            volume=show_volume(fill.litres, units),
        )
        for fill in part.fills
    ]
    if part.nursery_area:
        lines.append(say("{area} of nursery bed", area=show_area(part.nursery_area, units)))
    days = part.emerge_days, part.grow_days, part.harden_days
    if None not in days:
        lines.append(
            say(
                "{up} days until it is up, {growing} growing, {hardening} hardening off",
                up=days[0],
                growing=days[1],
                hardening=days[2],
            )
        )
    return [*lines, *(line for line in part.missing if line not in part.amount.missing)]
